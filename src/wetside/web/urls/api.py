"""Addresses of the interface for programs; its library is loaded when a program first asks, not at the start."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.urls import path, re_path
from django.views.decorators.csrf import csrf_exempt

from wetside.web.views import tokens

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


# No cookie lets anybody in here, so no other site can borrow one.
@csrf_exempt
def interface(request: HttpRequest, rest: str) -> HttpResponse:
    """Answer a program."""
    from wetside.web.api.dispatch import answer

    return answer(request, rest)


urlpatterns = [
    re_path(r"^api/v1/(?P<rest>.*)\Z", interface, name="api"),
    path("darkroom/tokens/", tokens.tokens, name="tokens"),
    path("darkroom/tokens/<uuid:key>/revoke/", tokens.revoke, name="token-revoke"),
]
