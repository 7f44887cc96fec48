"""Sheets follow their run: developed or lost when it has ended, planned again where that is taken back."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from django.utils import timezone

from wetside.errors import WetsideError
from wetside.records import models
from wetside.runs.state import Status
from wetside.services.records.changes import change
from wetside.services.records.frozen_documents import document_of
from wetside.services.records.runs_tied import TIED, tied_sheets
from wetside.services.records.sheets import end_sheet, planned_again, wait_again
from wetside.services.records.sheets_names import UNDEVELOPED
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from wetside.runs.state import State


def sheets_of_run(run: models.Run) -> dict[str, models.Sheet]:
    """Sheets of the records that are in a run, by their name in its script: its load's, or those tied to it."""
    plan = run.plan
    if plan is None:
        return tied_sheets(run)
    places = plan.places.filter(load=run.load).select_related("sheet")
    try:
        document = document_of(plan)
    except WetsideError:  # a damaged plan keeps no fact of its runs out: sheets are known by their labels
        return {} if plan.short else {str(place.sheet): place.sheet for place in places}
    by_key = {plain_name(sheet.id): sheet.id for sheet in document.sheets}
    found: dict[str, models.Sheet] = {}
    for place in places:
        name = document.sheets[place.rank].id if plan.short else by_key.get(place.sheet.label_key)
        if name is not None:
            found[name] = place.sheet
    return found


def sheets_follow(run: models.Run, state: State) -> None:
    """Give the sheets of a run the state that it has led to; a rehearsal leaves them alone.

    Parameters
    ----------
    run : Run
    state : State
        As it is folded now.
    """
    if _holds_no_sheet(run):
        return
    # What is in a plan hangs from it; what somebody tied to a run of its own may also just have waited.
    before = (models.SheetState.PLANNED,) if run.plan_id is not None else UNDEVELOPED
    if state.status is Status.ENDED:
        for name, sheet in sheets_of_run(run).items():
            if sheet.state in before:
                end = models.SheetState.LOST if name in state.lost else models.SheetState.DEVELOPED
                end_sheet(sheet, end, at=_ended_at(run, state), why=f"run: {run.name}")
    elif state.status is Status.RUNNING:
        for sheet in sheets_of_run(run).values():
            # Records that are tied may have been ended by another hand.
            ended = sheet.state in (models.SheetState.DEVELOPED, models.SheetState.LOST)
            if ended and (run.plan_id is not None or _ended_why(sheet) == f"run: {run.name}"[: models.LABEL_LENGTH]):
                _undeveloped(run, sheet)


def _holds_no_sheet(run: models.Run) -> bool:
    return run.rehearsal or (run.plan_id is None and not run.facts.get(TIED))


def _ended_at(run: models.Run, state: State) -> dt.datetime:
    """When a run ended: now, as its page tells it; of a log that was taken in, when its last fact was told."""
    if state.clock is None or "log" not in run.facts:
        return timezone.now()
    return state.clock.origin.at_utc + dt.timedelta(seconds=state.known_s)


def _undeveloped(run: models.Run, sheet: models.Sheet) -> None:
    """Put a sheet back to what it was before the run ended."""
    why = f"run taken back: {run.name}"
    before = sheet.history.filter(state__in=UNDEVELOPED).first()
    if run.plan_id is None and before is not None and before.state == models.SheetState.WAITING:
        wait_again(sheet, why=why)
    else:
        planned_again(sheet, why=why)


def _ended_why(sheet: models.Sheet) -> str | None:
    """Reason for which a sheet is developed or lost; None where it still waits."""
    why = None
    for version in sheet.history.all():  # the newest first
        if version.state in UNDEVELOPED:
            break
        why = version.history_change_reason
    return why


def lost_follow(run: models.Run, state: State) -> None:
    """A sheet that is told lost after the end of its run is lost; developed again where that is taken back.

    What a person has said of a sheet on its own page is left alone.

    Parameters
    ----------
    run : Run
    state : State
        As it is folded now; the run has ended.
    """
    if _holds_no_sheet(run):
        return
    why = f"run: {run.name}"
    for name, sheet in sheets_of_run(run).items():
        if name in state.lost and sheet.state == models.SheetState.DEVELOPED:
            change(sheet, {"state": models.SheetState.LOST, "developed_at": None}, why=why)
        elif name not in state.lost and sheet.state == models.SheetState.LOST:
            last = sheet.history.first()
            if last is not None and last.history_change_reason == why[: models.LABEL_LENGTH]:
                before = sheet.history.filter(state=models.SheetState.DEVELOPED).first()
                developed_at = run.changed_at if before is None else before.developed_at
                change(sheet, {"state": models.SheetState.DEVELOPED, "developed_at": developed_at}, why=why)
