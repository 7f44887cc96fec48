"""Sheets follow their run: developed or lost when it has ended, planned again where that is taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils import timezone

from wetside.errors import WetsideError
from wetside.records import models
from wetside.runs.state import Status
from wetside.services.records.frozen_documents import document_of
from wetside.services.records.sheets import end_sheet, planned_again
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from wetside.runs.state import State


def sheets_of_run(run: models.Run) -> dict[str, models.Sheet]:
    """Sheets of the records that are in a run, by their name in its script; of a short plan only those attached."""
    plan = run.plan
    if plan is None:
        return {}
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
    if run.rehearsal or run.plan_id is None:
        return
    if state.status is Status.ENDED:
        now = timezone.now()
        for name, sheet in sheets_of_run(run).items():
            if sheet.state == models.SheetState.PLANNED:
                end = models.SheetState.LOST if name in state.lost else models.SheetState.DEVELOPED
                end_sheet(sheet, end, at=now, why=f"run: {run.name}")
    elif state.status is Status.RUNNING:
        for sheet in sheets_of_run(run).values():
            if sheet.state in (models.SheetState.DEVELOPED, models.SheetState.LOST):
                planned_again(sheet, why=f"run taken back: {run.name}")
