"""From an address to its call: what holds for every call is seen to here."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from django.http import Http404, HttpResponse, JsonResponse
from django.urls import URLResolver
from django.urls.resolvers import RegexPattern
from django.utils.cache import get_conditional_response, patch_cache_control, patch_vary_headers, set_response_etag

from wetside.web.api.mistakes import InterfaceError, answer_of
from wetside.web.api.root import PREFIX, api, description

if TYPE_CHECKING:
    from django.http import HttpRequest

DESCRIPTION = "openapi.json"


@cache
def _resolver() -> URLResolver:
    patterns, app_name, namespace = api.urls
    return URLResolver(RegexPattern(r"^"), patterns, app_name=app_name, namespace=namespace)


@cache
def _description() -> bytes:
    return JsonResponse(description()).content


@cache
def _questions() -> dict[tuple[str, str], frozenset[str]]:
    """Names that may stand after the question mark, by route and method."""
    found = {}
    for address, calls in description()["paths"].items():
        for method, call in calls.items():
            names = {one["name"] for one in call.get("parameters", ()) if one["in"] == "query"}
            found[address.removeprefix(f"/{PREFIX}"), method.upper()] = frozenset(names)
    return found


def _refuse_unknown_questions(request: HttpRequest, route: str) -> None:
    """Refuse a misspelt name: passed over in silence, it would answer another question than was asked."""
    known = _questions().get((re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", route), str(request.method)))
    if known is None:
        return
    for name, values in request.GET.lists():
        if name not in known:
            raise InterfaceError(422, "web.api.question", name=name[:60], known=sorted(known) or ["nothing"])
        if len(values) > 1:
            raise InterfaceError(422, "web.api.twice", name=name)


def answer(request: HttpRequest, rest: str) -> HttpResponse:
    """Answer of the interface to a call.

    Parameters
    ----------
    request : HttpRequest
    rest : str
        The address after the version.
    """
    if rest == DESCRIPTION and request.method in ("GET", "HEAD"):
        return _finished(request, HttpResponse(_description(), content_type="application/json"))
    try:
        match = _resolver().resolve(rest)
        _refuse_unknown_questions(request, match.route)
        given: HttpResponse = match.func(request, *match.args, **match.kwargs)
    except Http404:  # a Resolver404 is one
        return answer_of(InterfaceError(404, "web.api.no_address"))
    except InterfaceError as error:
        return answer_of(error)
    if given.status_code == 405:
        allowed = given.headers.get("Allow", "GET")
        method = str(request.method)[:20]
        return answer_of(
            InterfaceError(405, "web.api.method", headers={"Allow": allowed}, method=method, allowed=allowed)
        )
    return _finished(request, given)


def _finished(request: HttpRequest, given: HttpResponse) -> HttpResponse:
    """Answer that no other program's cache keeps, or that nothing has changed since it was last read."""
    patch_cache_control(given, private=True, no_cache=True)
    patch_vary_headers(given, ["Authorization"])
    if request.method != "GET" or given.status_code != 200:
        return given
    set_response_etag(given)
    found = get_conditional_response(request, etag=given.headers["ETag"], response=given)
    return given if found is None else found
