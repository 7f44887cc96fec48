"""What a run's page asks for while it runs: rules, facts handed over, news; JSON, a stream, sentences for errors."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from django.core.exceptions import RequestDataTooBig
from django.db import connection
from django.http import HttpResponse, JsonResponse, StreamingHttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from wetside.errors import ConflictError, ManyErrors, UnknownNameError, WetsideError
from wetside.services.records import runs as service
from wetside.services.records import runs_posted as posted
from wetside.services.records.runs_tail import tail_of_process
from wetside.units import whole_number
from wetside.wording import sentence, speak_error

if TYPE_CHECKING:
    from collections.abc import AsyncGenerator
    from uuid import UUID

    from django.http import HttpRequest
    from django.http.response import HttpResponseBase

STREAM = "text/event-stream"


def refusal(error: WetsideError) -> JsonResponse:
    """An error as the pages' programs read it: a sentence with its place, and a status that says what kind it is."""
    status = 422
    if isinstance(error, posted.TooLargeError):
        status = 413
    elif isinstance(error, ConflictError):
        status = 409
    elif isinstance(error, UnknownNameError) and error.code in ("services.records.not_found", service.GONE):
        status = 404
    errors = error.errors if isinstance(error, ManyErrors) else (error,)
    field = error.place.field if error.place is not None else None
    body: dict[str, Any] = {"error": " ".join(speak_error(one) for one in errors), "code": error.code, "field": field}
    if "number" in error.params:
        body["number"] = error.params["number"]
    return JsonResponse(body, status=status)


def json_of(request: HttpRequest) -> dict[str, Any]:
    """Table that a request holds.

    Raises
    ------
    InputError
        As :func:`wetside.services.records.runs_posted.table_of_body`.
    """
    try:
        body: bytes | None = request.body
    except RequestDataTooBig:
        body = None
    return posted.table_of_body(body)


@never_cache
@require_safe
def rules(request: HttpRequest, key: UUID) -> HttpResponse:
    """All that a page needs to go on alone."""
    from wetside.services.run_rules import run_rules

    room = getattr(request, "darkroom", None)
    us, comma = getattr(room, "units", "") == "us", getattr(room, "decimal_sign", "") == "comma"
    try:
        found = service.standing(service.find_run(key))
        return JsonResponse(run_rules(found.state, found.now, found.seq, us=us, comma=comma))
    except WetsideError as error:
        return refusal(error)


@never_cache
@require_POST
def facts(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take facts, each once."""
    try:
        handed = posted.facts_of_posted(json_of(request))
        seq = service.hand_over(service.find_run(key), handed.facts)
    except WetsideError as error:
        return refusal(error)
    return JsonResponse({"seq": seq, "taken": [fact.device_number for fact in handed.facts]})


@never_cache
@require_safe
def watch(request: HttpRequest, key: UUID) -> HttpResponseBase:
    """News of a run as they come; resumed by the number of the last one that was heard."""
    try:
        run = str(service.find_run(key).pk)
    except WetsideError as error:
        return refusal(error)
    if request.method == "HEAD":  # a stream would go on for hours for nobody
        return HttpResponse(content_type=STREAM)
    text = request.headers.get("Last-Event-ID") or request.GET.get("after", "")
    after = whole_number(text)
    if not connection.in_atomic_block:
        connection.close()  # the stream lasts for hours, and asks nothing of its own
    answer = StreamingHttpResponse(_stream(run, after), content_type=STREAM)
    answer["X-Accel-Buffering"] = "no"
    return answer


async def _stream(run: str, after: int | None) -> AsyncGenerator[bytes, None]:
    try:
        tail = tail_of_process()
    except WetsideError as error:
        yield f"event: refused\ndata: {json.dumps(sentence(error.code, error.params))}\n\n".encode()
        return
    stream = tail.watch(run, after)
    try:
        async for line in stream:
            yield line
    finally:
        await stream.aclose()
