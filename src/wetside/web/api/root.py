"""The interface as a whole: version 1, its calls, and how refusals are told."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from django.core.exceptions import RequestDataTooBig
from django.db import OperationalError
from ninja import NinjaAPI
from ninja.errors import HttpError, ValidationError

from wetside import __version__
from wetside.errors import InputError, ManyErrors, Place, WetsideError
from wetside.web.api import planning, records, runs
from wetside.web.api.body import MOST_BYTES, CheckedParser
from wetside.web.api.mistakes import InterfaceError, answer_of

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

VERSION = 1
PREFIX = f"api/v{VERSION}/"

api = NinjaAPI(
    title="Wetside",
    version=__version__,
    description=(
        "The darkroom's records, plans and runs for programs. Units stand in the names: _s seconds, "
        "_c degrees Celsius, _ml millilitres. Times are UTC."
    ),
    docs_url=None,
    openapi_url=None,
    urls_namespace=f"api-{VERSION}",
    parser=CheckedParser(),
)
api.add_router("", records.router)
api.add_router("", runs.router)
api.add_router("", planning.router)


def description() -> dict[str, Any]:
    """Description of the interface (OpenAPI 3.1)."""
    told: dict[str, Any] = json.loads(json.dumps(api.get_openapi_schema(path_prefix=f"/{PREFIX}")))
    return told


@api.exception_handler(WetsideError)
def _refused(request: HttpRequest, error: WetsideError) -> HttpResponse:
    del request
    return answer_of(error)


@api.exception_handler(OperationalError)
def _database(request: HttpRequest, error: OperationalError) -> HttpResponse:
    del request
    return answer_of(InterfaceError(503, "web.api.database", reason=" ".join(str(error).split())))


@api.exception_handler(HttpError)
def _unreadable(request: HttpRequest, error: HttpError) -> HttpResponse:
    del request
    if isinstance(error.__cause__, WetsideError):
        return answer_of(error.__cause__)
    return answer_of(InterfaceError(error.status_code, "web.api.unreadable", reason=str(error).rstrip(".")))


@api.exception_handler(RequestDataTooBig)
def _large(request: HttpRequest, error: RequestDataTooBig) -> HttpResponse:
    del request, error
    return answer_of(InterfaceError(413, "web.api.large", most=MOST_BYTES))


@api.exception_handler(ValidationError)
def _values(request: HttpRequest, error: ValidationError) -> HttpResponse:
    """Tell each value that has the wrong shape, with its field."""
    del request
    found = [_value(one) for one in error.errors]
    return answer_of(ManyErrors(found))


def _value(one: dict[str, Any]) -> WetsideError:
    where = [str(part) for part in one.get("loc", ()) if part not in ("body", "query", "path", "sent")]
    field = ".".join(where) or "body"
    reason = str(one.get("msg", "")).rstrip(".") or "no such value"
    return InputError("web.api.value", field=field, reason=reason).at(Place(field=field))
