"""What a run did to each sheet: the time that the film really developed, and what the difference is worth.

The film's average point develops from the middle of the pour to the drain; the drain and the next pour count half, as
in :mod:`wetside.development.clock`. The temperature's part comes from :mod:`wetside.runs.integral`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.development.clock import WATER_STOP_EXTRA_S
from wetside.runs.events import Incident
from wetside.runs.integral import (
    coefficient_of_script,
    course_of,
    density_of_ratio,
    effective_of_course,
    widest_aim,
)
from wetside.runs.schedule import How
from wetside.runs.script import bath_number, developing_baths
from wetside.values.conditions import StopKind

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Act
    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.script import Script
    from wetside.runs.state import State

WORTH_TELLING_S = 3.0
"""An act this near to its time was on time. [s]"""


class LateAct(NamedTuple):
    """An act that was told later than due, or earlier (negative). [s]"""

    act: str
    late_s: float


class SheetEffect(NamedTuple):
    """What happened to one sheet.

    ``planned_s`` and ``actual_s`` are effective developing times, ``actual_s`` at the planned temperature [s], between
    ``least_s`` and ``most_s`` as the liquid may have gone [s]; ``percent`` of time, signed [%]; ``density`` what that
    is worth, None where no rule holds; ``assumed`` acts that nobody told; ``done_s`` the effective time by the clock
    alone, whatever the temperature was. [s]
    """

    sheet: str
    planned_s: float
    actual_s: float
    least_s: float
    most_s: float
    density: float | None
    outside: bool
    assumed: tuple[str, ...]
    done_s: float

    @property
    def percent(self) -> float:
        """Difference of the developing time, signed. [%]"""
        return (self.actual_s / self.planned_s - 1.0) * 100.0


class Span(NamedTuple):
    """One developing bath: effective seconds planned and done by the clock, and the ends between which it acts. [s]"""

    planned_s: float
    done_s: float
    begins_s: float
    ends_s: float
    assumed: tuple[str, ...]


def late_acts(schedule: Schedule) -> tuple[LateAct, ...]:
    """Acts that were not done when they were due, as far as anybody told; pauses are never late."""
    return tuple(
        LateAct(due.act.key, due.late_s)
        for due in schedule.dues
        if abs(due.late_s) > WORTH_TELLING_S and due.act.does not in ("hold", "load")
    )


def sheet_effects(state: State, schedule: Schedule) -> tuple[SheetEffect, ...]:
    """Effect on every sheet; a run without sheets gives one line with an empty name.

    Before the end it is what will come of it if the rest goes by the script.
    """
    script = state.script
    if script is None:
        return ()
    own = [due for due in schedule.dues if due.act.does == "enter"]
    if own:
        lifts = {due.act.sheet: due for due in schedule.dues if due.act.does == "lift"}
        return tuple(
            _effect(state, script, [_own_span(due, lifts[due.act.sheet])], due.act.sheet or "")
            for due in own
            if due.at_s is not None
        )
    spans = developing_spans(script, schedule)
    if not spans:
        return ()
    return tuple(_effect(state, script, spans, name) for name in (state.sheets or ("",)))


def _own_span(enters: Due, lifts: Due) -> Span:
    begins_s, ends_s = enters.at_s or 0.0, lifts.at_s or 0.0
    return Span(lifts.act.offset_s, ends_s - begins_s, begins_s, ends_s, _assumed(enters, lifts))


def _assumed(*dues: Due) -> tuple[str, ...]:
    return tuple(due.act.key for due in dues if due.how is How.ASSUMED)


def developing_spans(script: Script, schedule: Schedule) -> list[Span]:
    """Effective span of each developing bath in which all sheets lie together; empty before one has a time. [s]"""
    found = []
    dues = {due.act.key: due for due in schedule.dues}
    order = list(dues.values())
    numbers = developing_baths(script)
    for number in numbers:
        pour, full, drain = (dues.get(f"{number}.{name}") for name in ("pour", "full", "drain"))
        if pour is None or full is None or drain is None or drain.at_s is None:
            return []
        after = next((due for due in order if bath_number(due.act.key) == number + 1 and _fills(due.act)), None)
        poured_s, full_s = pour.at_s or 0.0, full.at_s or 0.0
        planned_pour_s = full.act.offset_s
        clock_s = drain.act.offset_s - (planned_pour_s if drain.act.anchor == pour.act.key else 0.0)
        ended_s, planned_end_s = drain.at_s, 0.0
        if after is not None and after.at_s is not None:
            ended_s = after.at_s
            planned_end_s = _planned_between(script, drain.act, after.act)
        extra_s = WATER_STOP_EXTRA_S if number == numbers[-1] and script.stop is StopKind.WATER else 0.0
        planned_s = planned_pour_s / 2 + clock_s + planned_end_s / 2 + extra_s
        done_s = (full_s - poured_s) / 2 + (drain.at_s - full_s) + (ended_s - drain.at_s) / 2 + extra_s
        told = (full, drain, after) if after is not None else (full, drain)
        found.append(Span(planned_s, done_s, full_s, drain.at_s, _assumed(*told)))
    return found


def _fills(act: Act) -> bool:
    return act.does in ("full", "move")


def _planned_between(script: Script, drain: Act, filled: Act) -> float:
    """Time that the script gives from a drain to the next bath full. [s]"""
    seconds, act = 0.0, filled
    while act.key != drain.key:
        seconds += act.offset_s
        anchor = script.act(act.anchor)
        if anchor is None:
            return 0.0
        act = anchor
    return seconds


def held_until(state: State) -> tuple[float, ...]:
    """Moments up to which the tempering bath did its work: when the power went. [s]"""
    return tuple(incident.began_s for incident in state.incidents if incident.what is Incident.POWER)


def _effect(state: State, script: Script, spans: list[Span], sheet: str) -> SheetEffect:
    coefficient = coefficient_of_script(script)
    planned_s = sum(span.planned_s for span in spans)
    actual_s = least_s = most_s = 0.0
    outside = False
    for span in spans:
        shares = (1.0, 1.0, 1.0)
        if coefficient is not None and state.readings and span.ends_s - span.begins_s >= 1.0:
            lasts_s = span.ends_s - span.begins_s
            course = course_of(script, state.readings, span.begins_s, span.ends_s, held_until(state))
            found = effective_of_course(course, coefficient, script.temp_c, span.begins_s, span.ends_s)
            shares = (found.time_s / lasts_s, found.least_s / lasts_s, found.most_s / lasts_s)
            outside = outside or found.outside
        actual_s += span.done_s * shares[0]
        least_s += span.done_s * shares[1]
        most_s += span.done_s * shares[2]
    aim = next((one.aim_range for one in script.sheets if one.id == sheet), widest_aim(script))
    density = None if outside else density_of_ratio(aim, actual_s / planned_s)
    assumed = tuple(key for span in spans for key in span.assumed)
    done_s = sum(span.done_s for span in spans)
    return SheetEffect(sheet, planned_s, actual_s, least_s, most_s, density, outside, assumed, done_s)
