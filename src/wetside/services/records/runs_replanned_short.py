"""A short plan's loads that are not begun, planned anew after a look: taken with one act, and undone with one.

A short plan has no draft: its evening was frozen when it was kept, and that evening is what is planned anew, with the
looks in it. Sheets of the records that somebody attached to it go along to their new places, and back.
"""

from __future__ import annotations

import dataclasses
import json
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.utils import timezone

from wetside.adapters.evening_writer import write_evening
from wetside.adapters.plain_document import json_text, plain_value
from wetside.errors import ConflictError
from wetside.records import models
from wetside.services.records.changes import change, make
from wetside.services.records.frozen_documents import document_of
from wetside.services.records.plans_cancelled import cancel_rest, cancelled_loads
from wetside.services.records.plans_frozen import attach_files, keep_files, make_runs, take_loads_back
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.plan import Plan as PlanDocument


class Anew(NamedTuple):
    """A short plan planned anew: its name, its evening with what it came to, and the looks in it."""

    name: str
    evening: Evening
    document: PlanDocument
    looks: Sequence[Mapping[str, Any]]


def take_short(old: models.Plan, rest: Sequence[int], anew: Anew, *, paper: str) -> models.Plan:
    """Cancel the loads of a short plan that are not begun, and freeze what they come to in a short plan of its own.

    Parameters
    ----------
    old : Plan
    rest : sequence of int
        Loads that were not begun when it was reckoned.
    anew : Anew
    paper : str
        ``a4`` or ``letter``.

    Raises
    ------
    ConflictError
        If another page began one of them meanwhile.
    """
    document = anew.document._replace(name=anew.name)
    evening = dataclasses.replace(anew.evening, name=anew.name)
    kept = keep_files(document, evening, paper)
    with transaction.atomic():
        sheets = _attached(old, rest)
        cancelled = cancel_rest(old)
        if cancelled_loads(cancelled) != tuple(rest):
            raise ConflictError("services.plans.not_as_seen", plan=old.name)
        made = make(
            models.Plan,
            {
                "name": anew.name,
                "date": old.date,
                "demo": old.demo,
                "short": True,
                "choices": {**old.choices, "count": len(document.sheets), "keys": {"looks": list(anew.looks)}},
                "frozen_at": timezone.now(),
                "evening": write_evening(evening),
                "document": json.loads(json_text(plain_value(document))),
                "facts": {"files": {one.name: one.sha256 for one in kept}, "replanned_from": str(old.pk)},
            },
            why="planned anew after a look",
        )
        change(cancelled, {"facts": {**cancelled.facts, "replanned_to": str(made.pk)}}, why="planned anew after a look")
        for rank, one in enumerate(document.sheets):
            sheet = sheets.get(plain_name(one.id))
            if sheet is not None:
                change(sheet, {"state": models.SheetState.PLANNED}, why=f"frozen: {made.name}")
                models.PlanSheet.objects.create(plan=made, sheet=sheet, rank=rank, load=one.load)
        make_runs(made, document)
        attach_files(made, kept)
    return made


def _attached(plan: models.Plan, loads: Sequence[int]) -> dict[str, models.Sheet]:
    """Sheets of the records that are attached to loads of a short plan and planned, by their name in its document."""
    document = document_of(plan)
    places = plan.places.filter(load__in=loads, sheet__state=models.SheetState.PLANNED).select_related("sheet")
    return {plain_name(document.sheets[place.rank].id): place.sheet for place in places}


def short_undone(plan: models.Plan) -> models.Plan:
    """Take back the loads of a short plan that came of a look; the sheets that are attached to it wait.

    Raises
    ------
    RefusedError
        If a load of it was begun.
    """
    with transaction.atomic():
        take_loads_back(plan, "re-plan undone")
    return plan
