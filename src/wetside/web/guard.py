"""Who gets in at all: only known names of this machine, and, on the network, only who is signed in.

With ``--lan`` everybody signs in, on this machine too. Loopback is no proof of a person at the keyboard: other users
of the machine, a forwarded port and a page in the browser that sends requests there all come from loopback.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import urlencode

from django.conf import settings
from django.contrib.auth import logout
from django.core.exceptions import DisallowedHost
from django.http import HttpResponse, HttpResponseRedirect, JsonResponse
from django.urls import reverse

from wetside.services.records.sign_in import is_signed_in
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from django.http import HttpRequest

    Answer = Callable[[HttpRequest], HttpResponse]

DEVICE = "device"
"""Key of the session under which the device's token stands."""
OPEN_TO_ALL = "open_to_all"
"""Mark of a view that answers whoever is not signed in."""


def open_to_all(view: Any) -> Any:
    """Let a view answer whoever is not signed in."""
    setattr(view, OPEN_TO_ALL, True)
    return view


def known_host(get_response: Answer) -> Answer:
    """Refuse a name that this machine is not served under, before anything else is done, files included."""

    def middleware(request: HttpRequest) -> HttpResponse:
        try:
            request.get_host()
        except DisallowedHost:
            said = sentence("web.lan.strange_host", {"known": list(settings.ALLOWED_HOSTS)})
            return HttpResponse(said + "\n", status=400, content_type="text/plain; charset=utf-8")
        return get_response(request)

    return middleware


def signed_in(get_response: Answer) -> Answer:
    """On the network, let only signed-in devices reach a page; without ``--lan`` nobody signs in."""

    def middleware(request: HttpRequest) -> HttpResponse:
        request.is_known = bool(settings.LAN) and knows(request)  # type: ignore[attr-defined]
        answer = get_response(request)
        if settings.LAN:
            answer.setdefault("Cache-Control", "private, no-store")
        return answer

    def process_view(request: HttpRequest, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        del args, kwargs
        if not settings.LAN or request.is_known:  # type: ignore[attr-defined]
            return None
        if getattr(view, OPEN_TO_ALL, False) or _carries_token(request):
            return None
        return _turned_away(request)

    middleware.process_view = process_view  # type: ignore[attr-defined]
    return middleware


def knows(request: HttpRequest) -> bool:
    """Whether the request comes from a device that is signed in; its account's name is noted for the history.

    A session whose device was signed out elsewhere, or whose account is removed or has another password, is emptied.
    """
    if not request.user.is_authenticated:
        return False
    if request.user.pk is None or not is_signed_in(request.user.pk, str(request.session.get(DEVICE, ""))):
        logout(request)
        return False
    request.account_name = request.user.get_username()  # type: ignore[attr-defined]
    return True


def _carries_token(request: HttpRequest) -> bool:
    """Whether a program asks with a token of its own; the interface for programs looks at the token itself."""
    return request.path.startswith("/api/") and request.headers.get("Authorization", "").startswith("Bearer ")


def _turned_away(request: HttpRequest) -> HttpResponse:
    """A page leads to signing in and back; a request of a script or a program is told 401, and nothing was done."""
    wants_page = "text/html" in request.headers.get("Accept", "") and "HX-Request" not in request.headers
    address = reverse(settings.LOGIN_URL)
    if request.method == "GET" and wants_page:
        return HttpResponseRedirect(f"{address}?{urlencode({'next': request.get_full_path()})}")
    if request.method == "POST" and wants_page:
        return HttpResponseRedirect(address)
    answer = JsonResponse(
        {"code": "web.lan.sign_in_first", "message": sentence("web.lan.sign_in_first", {})}, status=401
    )
    if "HX-Request" in request.headers:
        answer["HX-Redirect"] = address
    return answer
