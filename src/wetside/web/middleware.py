"""What happens around every page: who works, in which time zone; a person's mistake becomes a page, not a failure."""

from __future__ import annotations

from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from django.db import OperationalError
from django.shortcuts import render
from django.utils import timezone

from wetside.errors import InputError, ManyErrors, WetsideError
from wetside.services.records.changes import written_by
from wetside.services.records.darkroom import darkroom_settings
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

    Answer = Callable[[HttpRequest], HttpResponse]

WORKER = "worker"
"""Key of the session under which the name of whoever works stands."""


def darkroom(get_response: Answer) -> Answer:
    """Write the worker's name into the history, and show times as the darkroom's clock does."""

    def middleware(request: HttpRequest) -> HttpResponse:
        if request.path.startswith("/static/"):
            return get_response(request)
        request.darkroom = settings = darkroom_settings()  # type: ignore[attr-defined]
        try:
            timezone.activate(ZoneInfo(settings.time_zone) if settings.time_zone else timezone.get_default_timezone())
        except (ZoneInfoNotFoundError, ValueError):
            timezone.deactivate()
        with written_by(str(request.session.get(WORKER, "") or getattr(request, "account_name", ""))):
            return get_response(request)

    return middleware


def mistakes(get_response: Answer) -> Answer:
    """Show what a person must put right; nothing was written, for every writer is one transaction."""

    def middleware(request: HttpRequest) -> HttpResponse:
        return get_response(request)

    def process_exception(request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if isinstance(exception, OperationalError):
            exception = InputError("web.database_said", reason=" ".join(str(exception).split()))
            return render(request, "web/mistake.html", {"said": [speak_error(exception)]}, status=503)
        if not isinstance(exception, WetsideError):
            return None
        errors = exception.errors if isinstance(exception, ManyErrors) else (exception,)
        said = [speak_error(error) for error in errors]
        return render(request, "web/mistake.html", {"said": said}, status=422)

    middleware.process_exception = process_exception  # type: ignore[attr-defined]
    return middleware
