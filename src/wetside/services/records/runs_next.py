"""What comes after a run: the evening's next load."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.count import counted
from wetside.errors import InputError
from wetside.records import models
from wetside.services.records.changes import find
from wetside.services.records.evenings import identities
from wetside.services.records.frozen_documents import document_of
from wetside.services.records.plans_cancelled import cancelled_loads
from wetside.services.records.plans_frozen import load_states_by, runs_of_loads

if TYPE_CHECKING:
    from uuid import UUID

    from wetside.planning.documents.plan import Plan as PlanDocument

MOST_ANEW = 50
"""No evening is planned anew more often. [plans]"""


class NextLoad(NamedTuple):
    """A load that waits.

    ``plan`` its plan's key; ``number`` in the plan [1]; ``sheets`` how many, in words; ``developer`` with its
    dilution; ``time_s`` how long it develops [s]; ``vessel`` its vessel's name; ``left`` how many loads wait, with
    this one [loads]; ``same`` whether it is the one that was rehearsed.
    """

    plan: UUID
    number: int
    sheets: str
    developer: str
    time_s: float
    vessel: str
    left: int
    same: bool


def next_load(run: models.Run) -> NextLoad | None:
    """The load to develop after a run; after a rehearsal the rehearsed one. None where no other one waits.

    Where the rest was planned anew after a look, it is the first of the new plan.

    Parameters
    ----------
    run : Run
    """
    plan = run.plan
    if plan is None or plan.frozen_at is None:
        return None
    # A plan that a look replaced names the one that did: the runs of both are read together.
    runs = runs_of_loads([plan.pk, *identities([plan.facts.get("replanned_to", "")])])
    try:
        document, waiting = _waiting(plan, runs[plan.pk])
    except InputError:  # a run's page is there even where its plan cannot be read, as by an older program
        return None
    if not run.rehearsal:
        waiting = [number for number in waiting if number != run.load]
    for _ in range(MOST_ANEW):
        new = plan.facts.get("replanned_to")
        if waiting or new is None:
            break
        plan = find(models.Plan, new)
        document, waiting = _waiting(plan, runs[plan.pk] if plan.pk in runs else runs_of_loads([plan.pk])[plan.pk])
    if not waiting:
        return None
    same = run.rehearsal and run.load in waiting and plan.pk == run.plan_id
    number = int(run.load) if same else waiting[0]
    load = next(one for one in document.loads if one.number == number)
    return NextLoad(
        plan.pk,
        number,
        counted("sheet", len(load.sheets)),
        f"{load.developer} {load.dilution}".strip(),
        load.time_s,
        load.vessel,
        len(waiting),
        same,
    )


def _waiting(plan: models.Plan, runs: list[models.Run]) -> tuple[PlanDocument, list[int]]:
    """Document of a frozen plan, and its loads that can be started."""
    document = document_of(plan)
    gone = cancelled_loads(plan)
    return document, [one.number for one in load_states_by(runs, document) if one.startable and one.number not in gone]
