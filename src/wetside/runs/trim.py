"""A reading in the developer, and what it means for the end that lies ahead."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.words import BathKind
from wetside.runs.effects import held_until
from wetside.runs.integral import correction_of, course_of
from wetside.runs.schedule import schedule_at
from wetside.runs.script import developing_baths
from wetside.runs.state import ReadingAt

if TYPE_CHECKING:
    from wetside.runs.events import Read
    from wetside.runs.integral import Correction
    from wetside.runs.state import State


class Trim(NamedTuple):
    """A correction, the drain that it moves, and by how much that was moved before. [s]"""

    correction: Correction
    act: str
    old_shift_s: float


def correction_now(state: State, reading: Read | None, now_s: float) -> Trim | None:
    """Correction of the developing end that lies ahead.

    Parameters
    ----------
    state : State
    reading : Read or None
        Not in the state yet.
    now_s : float
        On the run's clock. [s]

    Returns
    -------
    trim : Trim or None
        None outside a developer, where each sheet has its own time (each would need a correction of its own: the course
        is kept and told after the run), and without a coefficient.
    """
    script = state.script
    if script is None:
        return None
    schedule = schedule_at(state, now_s)
    inside = schedule.bath()
    if inside is None or inside.act.kind != BathKind.DEVELOP.value or len(developing_baths(script)) != 1:
        return None
    number = inside.act.key.partition(".")[0]
    full, drain = (
        next((due for due in schedule.dues if due.act.key == f"{number}.{name}"), None) for name in ("full", "drain")
    )
    if full is None or drain is None or full.at_s is None or drain.due_s is None or drain.due_s <= now_s:
        return None
    old = state.shifts.get(drain.act.key)
    old_s = 0.0 if old is None else old.shift_s
    planned_s = drain.due_s - old_s
    readings = state.readings
    if reading is not None:
        readings = (*readings, ReadingAt(now_s, reading.true_c, reading.where))
    course = course_of(script, readings, full.at_s, planned_s + 3600.0, held_until(state))
    found = correction_of(script, course, full.at_s, planned_s, now_s, old_s)
    return None if found is None else Trim(found, drain.act.key, old_s)
