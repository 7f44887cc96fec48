"""What every page's frame needs: where one is, the theme, who works."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.utils.functional import SimpleLazyObject

from wetside.services.records.runs_listed import running
from wetside.web.middleware import WORKER

if TYPE_CHECKING:
    from django.http import HttpRequest

THEMES = ("auto", "light", "dark", "dim")


def shell(request: HttpRequest) -> dict[str, Any]:
    """Theme of this device, name of whoever works here, the darkroom's settings, where one is, a run that is on."""
    theme = request.COOKIES.get("theme", "auto")
    return {
        "theme": theme if theme in THEMES else "auto",
        "themes": THEMES,
        "worker": str(request.session.get(WORKER, "")) if hasattr(request, "session") else "",
        "darkroom": getattr(request, "darkroom", None),
        "account_name": getattr(request, "account_name", ""),
        "lan": settings.LAN,
        "running": SimpleLazyObject(running),
        "part": request.path.strip("/").partition("/")[0] or "start",
    }
