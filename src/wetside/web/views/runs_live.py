"""What the live page and other devices ask: rules, facts handed over, commands, and what is new as it comes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.core.exceptions import RequestDataTooBig
from django.http import HttpRequest, HttpResponse, JsonResponse, StreamingHttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from wetside.adapters.machine_clock import moment_now
from wetside.errors import ConflictError, ManyErrors, WetsideError
from wetside.services.records import runs as service
from wetside.services.records.runs_asked import command_of_fields, facts_of_body
from wetside.services.run_terminal import spoken
from wetside.web.forms.entry import mistakes_of
from wetside.web.watchers import TAIL
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import AsyncIterator
    from uuid import UUID

    from django.http.response import HttpResponseBase

MOST_BYTES = 256_000
"""Of what is handed over at once. Our choice. [bytes]"""


@require_safe
@never_cache
def rules(request: HttpRequest, key: UUID) -> HttpResponse:
    """Everything that a page needs to go on alone."""
    del request
    run = service.find_run(key)
    return JsonResponse(service.rules_now(run, moment_now()))


@require_POST
@never_cache
def facts(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take what a device saw, each fact once."""
    run = service.find_run(key)
    try:
        if len(request.body) > MOST_BYTES:
            return _mistake({"": "too large"}, 413)
        given = facts_of_body(_json(request))
        done = service.hand_over(run, given)
    except RequestDataTooBig:
        return _mistake({"": "too large"}, 413)
    except ConflictError as error:
        return _mistake(mistakes_of(error), 409)
    except WetsideError as error:
        return _mistake(mistakes_of(error), 422)
    TAIL.wake()
    return JsonResponse({"seq": done.seq, "taken": [one.device_number for one in given]})


@require_POST
@never_cache
def commands(request: HttpRequest, key: UUID) -> HttpResponse:
    """Do what a person asks; a plain form comes back to the run's page."""
    run = service.find_run(key)
    plain = not (request.content_type or "").startswith("application/json")
    try:
        fields = {name: request.POST[name] for name in request.POST} if plain else _text_fields(_json(request))
        device = fields.pop("device", "") or service.SERVER
        decision = service.command(run, command_of_fields(fields), moment_now(), device[:64])
    except WetsideError as error:
        if not plain:
            return _mistake(mistakes_of(error), 409 if isinstance(error, ConflictError) else 422)
        for one in error.errors if isinstance(error, ManyErrors) else (error,):
            messages.error(request, speak_error(one))
        return redirect("run", key=key)
    TAIL.wake()
    said = spoken(decision)
    if plain:
        tell = messages.error if decision.refusal is not None else messages.success
        for sentence in said:
            tell(request, sentence)
        return redirect("run", key=key)
    refused = said[0] if decision.refusal is not None else None
    return JsonResponse({"seq": service.last_seq(run), "said": said, "refused": refused})


def _json(request: HttpRequest) -> Any:
    try:
        return json.loads(request.body)
    except (ValueError, RecursionError):
        return None


def _text_fields(body: Any) -> dict[str, str]:
    if not isinstance(body, dict):
        return {}
    return {str(name): value if isinstance(value, str) else json.dumps(value) for name, value in body.items()}


def _mistake(said: dict[str, str], status: int) -> JsonResponse:
    return JsonResponse({"mistakes": said}, status=status)


async def watch(request: HttpRequest, key: UUID) -> HttpResponseBase:
    """New facts as they come, by the run's own sequence number; resumed after the last one that was seen."""
    if request.method != "GET":
        return HttpResponse(status=405, headers={"Allow": "GET"})
    text = request.headers.get("Last-Event-ID") or request.GET.get("after", "0")
    after = int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else 0
    answer = StreamingHttpResponse(_events(str(key), after), content_type="text/event-stream")
    answer["Cache-Control"] = "no-store"
    answer["X-Accel-Buffering"] = "no"
    return answer


async def _events(run: str, after: int) -> AsyncIterator[str]:
    async for seq in TAIL.follow(run, after):
        if seq is None:
            yield ": still here\n\n"
        else:
            yield f"id: {seq}\nevent: fact\ndata: {json.dumps({'seq': seq})}\n\n"
