"""What comes after a run: the evening's next load."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.plan_reader import plan_of_plain
from wetside.cards.count import counted
from wetside.errors import WetsideError
from wetside.services.records.plans_cancelled import cancelled_loads
from wetside.services.records.plans_frozen import load_states

if TYPE_CHECKING:
    from uuid import UUID

    from wetside.records import models


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
    """The load to develop after a run; after a rehearsal the rehearsed one.

    None where no other one waits, and where the plan cannot be read: a run's page never fails for its plan.

    Parameters
    ----------
    run : Run
    """
    plan = run.plan
    if plan is None or plan.frozen_at is None:
        return None
    try:
        document = plan_of_plain(plan.document or {})
    except WetsideError:
        return None
    gone = {*cancelled_loads(plan), *(() if run.rehearsal else (run.load,))}
    waiting = [one.number for one in load_states(plan, document) if one.startable and one.number not in gone]
    if not waiting:
        return None
    same = run.rehearsal and run.load in waiting
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
