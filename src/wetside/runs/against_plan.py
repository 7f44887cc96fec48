"""Planned against actual: hands, moved ends, temperature, lost sheets, baths, and what each did to the negative."""

from __future__ import annotations

from math import log
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.amount import activity_ratio
from wetside.planning.documents.note import Note
from wetside.planning.documents.words import BathKind
from wetside.runs.effects import WORTH_TELLING_S, sheet_effects
from wetside.runs.integral import widest_aim
from wetside.runs.load_check import load_check
from wetside.runs.parts import parts_of
from wetside.runs.schedule import How, schedule_at
from wetside.runs.script import bath_number
from wetside.runs.worth import worth_of_share
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wetside.runs.parts import Parts
    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.script import Script
    from wetside.runs.state import State
    from wetside.runs.worth import Worth


class PlanLine(NamedTuple):
    """One thing as it was planned and as it was.

    ``worth`` what the difference did to the density range, None where it did nothing that can be told; ``untold`` where
    the actual value rests on an act that nobody told.
    """

    kind: str
    what: Note
    planned: Note
    actual: Note
    worth: Worth | None = None
    untold: bool = False


def against_plan(state: State, now_s: float) -> tuple[PlanLine, ...]:
    """Lines of a run: what developed first, then other baths that were longer or shorter than planned.

    Parameters
    ----------
    state : State
    now_s : float
        On the run's clock. [s]
    """
    script = state.script
    parts = parts_of(state, now_s)
    if script is None or parts is None:
        return ()
    schedule = schedule_at(state, now_s)
    return (
        *(_each_sheet(state, script, schedule) if parts.own else _developed(script, parts)),
        *_moved(script, parts),
        *_temperature(script, parts),
        *_sheets(state, script),
        *_other_baths(schedule),
    )


def _seconds(seconds: float) -> Note:
    return Note("runs.actual.time", {"time_s": seconds})


def _developed(script: Script, parts: Parts) -> Iterator[PlanLine]:
    """Effective developing time, moved ends left out: what the hands did."""
    yield PlanLine(
        "hands",
        Note("runs.actual.developed"),
        _seconds(parts.planned_s),
        _seconds(parts.done_s - parts.shift_s),
        worth_of_share(parts.hands, widest_aim(script)),
        bool(parts.untold),
    )


def _each_sheet(state: State, script: Script, schedule: Schedule) -> Iterator[PlanLine]:
    """Where sheets had times of their own, a line for each."""
    shifts_s = {
        act.sheet: state.shifts[act.key].shift_s
        for act in script.acts
        if act.does == "lift" and act.key in state.shifts
    }
    for one in sheet_effects(state, schedule):
        done_s = one.done_s - shifts_s.get(one.sheet, 0.0)
        if one.planned_s <= 0 or done_s <= 0:
            continue
        aim = next((sheet.aim_range for sheet in script.sheets if sheet.id == one.sheet), widest_aim(script))
        yield PlanLine(
            "sheet",
            Note("runs.actual.sheet", {"sheet": one.sheet}),
            _seconds(one.planned_s),
            _seconds(done_s),
            worth_of_share(log(done_s / one.planned_s), aim),
            bool(one.assumed),
        )


def _moved(script: Script, parts: Parts) -> Iterator[PlanLine]:
    if abs(parts.shift_s) >= 0.5:
        code = "later" if parts.shift_s > 0 else "earlier"
        yield PlanLine(
            "moved",
            Note("runs.actual.moved"),
            Note("runs.actual.not_moved"),
            Note(f"runs.actual.moved_{code}", {"by_s": abs(parts.shift_s)}),
            worth_of_share(parts.moved, widest_aim(script)),
        )


def _temperature(script: Script, parts: Parts) -> Iterator[PlanLine]:
    """Mean temperature that would have done the same as the readings did."""
    planned = Note("runs.actual.temp", {"temp_c": script.temp_c})
    if not parts.wheres:
        yield PlanLine("temperature", Note("runs.actual.temperature"), planned, Note("runs.actual.not_read"))
        return
    if script.per_c is None:
        yield PlanLine("temperature", Note("runs.actual.temperature"), planned, Note("runs.actual.no_coefficient"))
        return
    mean_c = script.temp_c + parts.course / script.per_c
    code = "runs.actual.temp_outside" if parts.outside else "runs.actual.temp_mean"
    yield PlanLine(
        "temperature",
        Note("runs.actual.temperature"),
        planned,
        Note(code, {"temp_c": mean_c}),
        worth_of_share(parts.course, widest_aim(script), parts.course_spread),
    )


def _sheets(state: State, script: Script) -> Iterator[PlanLine]:
    """Sheets that were lost, and the agent that the others got more of."""
    if not state.lost:
        return
    check = load_check(state)
    before = script.agent_ratio
    worth = None
    area = sum(sheet.area_cm2 * sheet.weight for sheet in script.sheets)
    if (
        len(state.in_liquid) < len(script.sheets)
        and before
        and check.agent_ratio
        and area > 0
        and script.concentrate_ml > 0
    ):
        reference_ml = script.concentrate_ml / (area / UNIT_AREA_CM2) / before
        share = log(
            activity_ratio(reference_ml * check.agent_ratio, reference_ml)
            / activity_ratio(reference_ml * before, reference_ml)
        )
        worth = worth_of_share(share, widest_aim(script))
    yield PlanLine(
        "sheets",
        Note("runs.actual.sheets"),
        Note("runs.actual.count", {"count": len(script.sheets)}),
        Note("runs.actual.count_lost", {"count": len(state.sheets), "lost": state.lost}),
        worth,
    )


def _other_baths(schedule: Schedule) -> Iterator[PlanLine]:
    """Baths that do not develop, where they lasted longer or shorter than planned."""
    baths: dict[int, list[Due]] = {}
    for due in schedule.dues:
        if due.act.kind != BathKind.DEVELOP.value and due.act.does in ("full", "drain"):
            baths.setdefault(bath_number(due.act.key), []).append(due)
    for inside in baths.values():
        full = next((due for due in inside if due.act.does == "full"), None)
        drain = next((due for due in reversed(inside) if due.act.does == "drain"), None)
        if full is None or drain is None or full.at_s is None or drain.at_s is None:
            continue
        if drain.act.anchor != full.act.key or How.AHEAD in (full.how, drain.how):
            continue
        planned_s, actual_s = drain.act.offset_s, drain.at_s - full.at_s
        if abs(actual_s - planned_s) > WORTH_TELLING_S:
            what = Note("runs.actual.bath", {"bath": full.act.bath, "kind": full.act.kind})
            yield PlanLine("bath", what, _seconds(planned_s), _seconds(actual_s), None, drain.how is How.ASSUMED)
