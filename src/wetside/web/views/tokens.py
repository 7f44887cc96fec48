"""Tokens of programs: made, shown once, revoked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from wetside.adapters.clock import now
from wetside.errors import WetsideError
from wetside.services.records import tokens as service
from wetside.web.forms.entry import mistakes_of
from wetside.wording import speak_error

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def tokens(request: HttpRequest) -> HttpResponse:
    """Tokens that are good; a new one is shown on the page that answers, and never again."""
    if request.method != "POST":
        return _page(request)
    name, scope = request.POST.get("name", ""), request.POST.get("scope", "")
    try:
        made = service.make_token(name, scope, now())
    except WetsideError as error:
        wrong = mistakes_of(error)
        said = wrong.get("") or speak_error(error)
        return _page(request, typed={"name": name, "scope": scope}, wrong=said, status=422)
    return _page(request, made=made)


@require_POST
def revoke(request: HttpRequest, key: UUID) -> HttpResponse:
    """Let a token in no more."""
    token = service.revoke_token(key, now())
    messages.success(
        request,
        _("“%(name)s” gets in no more. That is for good: make a new token if you need one.") % {"name": token.name},
    )
    return redirect("tokens")


def _page(
    request: HttpRequest,
    *,
    made: service.Made | None = None,
    typed: dict[str, str] | None = None,
    wrong: str = "",
    status: int = 200,
) -> HttpResponse:
    good = service.list_tokens()
    words = {
        "read": _("read everything"),
        "write": _("read everything, add sheets and readings"),
        "readings": _("send readings, nothing else"),
    }
    context = {
        "title": _title(len(good)) if made is None else _("The new token is shown this once"),
        "made": made,
        "tokens": [(one, words[one.scope]) for one in good],
        "revoked": service.list_tokens(revoked=True)[:20],
        "scopes": words.items(),
        "typed": typed or {"name": "", "scope": "readings"},
        "wrong": wrong,
        "address": request.build_absolute_uri("/api/v1/"),
    }
    return render(request, "web/darkroom/tokens.html", context, status=status)


def _title(count: int) -> str:
    if not count:
        return _("No program may write here")
    if count == 1:
        return _("One token lets a program in")
    return _("%(count)s tokens let programs in") % {"count": count}
