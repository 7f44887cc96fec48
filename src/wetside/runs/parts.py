"""A run's development in parts that add: the time by its clock, what clock and hands add, moved ends, temperature."""

from __future__ import annotations

from math import exp, fsum, log
from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.words import BathKind
from wetside.runs.effects import sheet_effects
from wetside.runs.events import Where
from wetside.runs.schedule import schedule_at

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.runs.effects import SheetEffect
    from wetside.runs.schedule import Schedule
    from wetside.runs.script import Script
    from wetside.runs.state import State


class Parts(NamedTuple):
    """Developing times of a run; of several sheets with times of their own the geometric means. [s]

    ``time_s`` by the run's clock rule as planned; ``planned_s`` what acts then, with pour, drain and stop; ``done_s``
    what acted by the clock; ``shift_s`` by how much of it the end was moved on purpose; ``actual_s`` the same at the
    planned temperature, between ``least_s`` and ``most_s``. ``wheres`` says where temperatures were read that count,
    ``untold`` which acts nobody told, ``own`` whether sheets had times of their own.
    """

    time_s: float
    planned_s: float
    done_s: float
    shift_s: float
    actual_s: float
    least_s: float
    most_s: float
    wheres: tuple[Where, ...]
    untold: tuple[str, ...]
    outside: bool
    own: bool

    @property
    def hands(self) -> float:
        """Share of time by which the hands were late or early, moved ends left out. [1]"""
        return log((self.done_s - self.shift_s) / self.planned_s)

    @property
    def moved(self) -> float:
        """Share of time by which ends were moved on purpose. [1]"""
        return log(self.done_s / (self.done_s - self.shift_s))

    @property
    def course(self) -> float:
        """Share of time that the temperatures were worth beside the planned one. [1]"""
        return log(self.actual_s / self.done_s)

    @property
    def course_spread(self) -> float:
        """Half-width of it: nobody saw how the liquid went from one reading to the next. [1]"""
        return log(self.most_s / self.least_s) / 2.0


def parts_of(state: State, now_s: float) -> Parts | None:
    """Parts of a run's development.

    Parameters
    ----------
    state : State
    now_s : float
        On the run's clock. [s]

    Returns
    -------
    parts : Parts or None
        None before anything developed, or where its times make no development (all pour and drain).
    """
    script = state.script
    if script is None:
        return None
    schedule = schedule_at(state, now_s)
    effects = sheet_effects(state, schedule)
    lifts = {due.act.sheet or "": due for due in schedule.dues if due.act.does == "lift"}
    own = bool(lifts)
    times = [lifts[one.sheet].act.offset_s for one in effects if one.sheet in lifts] if own else [script.time_s]
    shift_s = _shift_s(script, state, own=own, sheets=len(effects))
    values = [
        times,
        *([getattr(one, name) for one in effects] for name in ("planned_s", "done_s", "actual_s", "least_s", "most_s")),
    ]
    if not effects or not all(value > 0 for some in values for value in some):
        return None
    time_s, planned_s, done_s, actual_s, least_s, most_s = map(_mean, values)
    if done_s - shift_s <= 0:
        return None
    return Parts(
        time_s=time_s,
        planned_s=planned_s,
        done_s=done_s,
        shift_s=shift_s,
        actual_s=actual_s,
        least_s=least_s,
        most_s=most_s,
        wheres=_wheres(state, schedule),
        untold=_untold(effects),
        outside=any(one.outside for one in effects),
        own=own,
    )


def _mean(values: Iterable[float]) -> float:
    found = tuple(values)
    return found[0] if len(set(found)) == 1 else exp(fsum(map(log, found)) / len(found))


def _shift_s(script: Script, state: State, *, own: bool, sheets: int) -> float:
    """Seconds by which the developing ends were moved; a mean over the sheets where each has its own. [s]"""
    develops = {act.key for act in script.acts if act.kind == BathKind.DEVELOP.value and act.does in ("drain", "lift")}
    moved_s = fsum(shift.shift_s for key, shift in state.shifts.items() if key in develops)
    return moved_s / max(1, sheets) if own else moved_s


def _wheres(state: State, schedule: Schedule) -> tuple[Where, ...]:
    """Where temperatures were read that say something of a developing bath."""
    inside = [due for due in schedule.dues if due.act.kind == BathKind.DEVELOP.value and due.at_s is not None]
    if not inside:
        return ()
    begins_s = min(due.at_s for due in inside if due.at_s is not None) - 60.0
    ends_s = max(due.at_s for due in inside if due.at_s is not None)
    found = {
        reading.where
        for reading in state.readings
        if reading.where is not Where.DEVELOPER or begins_s <= reading.at_s <= ends_s
    }
    return tuple(where for where in Where if where in found)


def _untold(effects: Iterable[SheetEffect]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(key for one in effects for key in one.assumed))
