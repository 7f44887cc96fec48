"""Calls for runs: facts, what they add up to, and readings of thermometers."""

from __future__ import annotations

from typing import Annotated, Any, Literal
from uuid import UUID  # noqa: TC003 (the library asks for it when the program runs)

from ninja import Query, Router, Status

from wetside.adapters.machine_clock import moment_now
from wetside.services.records import run_readings
from wetside.web.api import shapes
from wetside.web.api.answers import answers
from wetside.web.api.records import After, Most, Number  # noqa: TC001 (as above)
from wetside.web.api.way_in import READ, READINGS, name_of

router = Router(tags=["runs"])
SENDS = (400, 409, 413, 415, 429)


@router.get(
    "/runs",
    operation_id="list_runs",
    summary="Runs, in pieces, in the order in which they were made",
    response=answers(shapes.Page[shapes.RunShape]),
    auth=READ,
)
def list_runs(
    request: Any,
    after: After = None,
    most: Most = shapes.USUAL_ITEMS,
    state: Annotated[
        Literal["ready", "running", "ended", "abandoned"] | None, Query(None, description="Only runs of this state.")
    ] = None,
) -> Any:
    """Loads as they happened; one that is ready has not begun."""
    del request
    return Status(200, run_readings.read_runs(after, most, state))


@router.get(
    "/runs/{uuid:key}", operation_id="read_run", summary="One run", response=answers(shapes.RunShape, 404), auth=READ
)
def read_run(request: Any, key: UUID) -> Any:
    """A run with the number of its facts."""
    del request
    return Status(200, run_readings.read_run(key))


@router.get(
    "/runs/{uuid:key}/facts",
    operation_id="read_facts",
    summary="Facts of a run, in their order",
    response=answers(shapes.FactsShape, 404),
    auth=READ,
)
def read_facts(request: Any, key: UUID, after: Number = 0, most: Most = shapes.USUAL_ITEMS) -> Any:
    """Facts are never changed: ``after`` is the seq of the last one that is known."""
    del request
    return Status(200, run_readings.read_facts(key, after, most))


@router.get(
    "/runs/{uuid:key}/state",
    operation_id="read_run_state",
    summary="What the facts of a run add up to",
    response=answers(shapes.FoldedShape, 404),
    auth=READ,
)
def read_state(request: Any, key: UUID) -> Any:
    """Acts with their times, readings that count and those that do not, sheets, and what is contested."""
    del request
    return Status(200, run_readings.read_state(key))


@router.post(
    "/runs/now/readings",
    operation_id="add_reading_now",
    summary="A thermometer's reading, for the one run that goes on",
    response=answers(shapes.TakenShape, *SENDS, made=True),
    auth=READINGS,
)
def post_reading_now(request: Any, sent: shapes.ReadingSent) -> Any:
    """As below, for a thermometer that knows no run; 409 where none goes on, or several do."""
    return _taken(request, run_readings.run_going_on(), sent)


@router.post(
    "/runs/{uuid:key}/readings",
    operation_id="add_reading",
    summary="A thermometer's reading",
    response=answers(shapes.TakenShape, 404, *SENDS, made=True),
    auth=READINGS,
)
def post_reading(request: Any, key: UUID, sent: shapes.ReadingSent) -> Any:
    """Kept in the run in any case: used, or shown beside it with the reason why not. One place, one reading in 5 s."""
    return _taken(request, key, sent)


def _taken(request: Any, key: UUID, sent: shapes.ReadingSent) -> Any:
    posted = run_readings.PostedReading(sent.shown_c, sent.where, sent.instrument, sent.age_s, sent.at)
    return Status(201, run_readings.take_reading(key, posted, name_of(request), moment_now()))
