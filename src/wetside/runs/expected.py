"""Which act an answer is for, and whether it can be true already."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.schedule import How
from wetside.runs.script import bath_number, developing_baths, is_awaited

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Act
    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.state import State

NEAR_S = 10.0
"""An answer this near to an act that asks for none (a drain, a sheet going in) is for that act. [s]"""
EARLY_S, EARLY_SHARE = 20.0, 0.10
"""Our choice: earlier than due by more than this, and by more than this share of the bath, is asked back. [s], [1]"""


def act_for_answer(state: State, schedule: Schedule) -> str | None:
    """Key of the act that an answer at this moment tells.

    The awaited one; or, right beside the time of one that asks for no answer, that one, where it is nearer.
    """
    script = state.script
    if script is None:
        return None
    developing = developing_baths(script)
    awaited = schedule.awaited(developing[-1] if developing else 0)
    now_s = schedule.now_s
    near = [due for due in schedule.dues if _may_be_meant(due, state, schedule) and _away_s(due, now_s) <= NEAR_S]
    if near:
        best = min(near, key=lambda due: _away_s(due, now_s))
        if awaited is None or awaited.due_s is None or _away_s(best, now_s) < _away_s(awaited, now_s):
            return best.act.key
    return None if awaited is None else awaited.act.key


def _may_be_meant(due: Due, state: State, schedule: Schedule) -> bool:
    last = max((rank for rank, one in enumerate(schedule.dues) if one.how is How.TOLD), default=-1)
    inside = due.act.does in ("enter", "lift")
    later = schedule.dues.index(due) > last or inside
    return (
        later
        and due.how in (How.ASSUMED, How.AHEAD)
        and (not is_awaited(due.act) or inside)
        and due.act.does not in ("pour", "hold", "load")
        and due.act.sheet not in state.lost
    )


def _away_s(due: Due, now_s: float) -> float:
    return float("inf") if due.due_s is None else abs(due.due_s - now_s)


class Doubt(NamedTuple):
    """Code of what makes an act hard to believe, and by how much it is too early. [s]"""

    code: str
    early_s: float


def doubt_about(state: State, schedule: Schedule, key: str, at_s: float) -> Doubt | None:
    """What makes an act at ``at_s`` of the run [s] hard to believe; None where it may well be.

    Physically too early: pour and drain cannot be done in half their time. Much too early: it would cut a bath short.
    """
    script = state.script
    if script is None:
        return None
    due = schedule.of(key)
    act = due.act
    if act.does in ("hold", "load"):
        return None
    wet = [one for one in script.acts if one.key in state.stamps and bath_number(one.key) >= 1]
    if wet:
        last = max(wet, key=lambda one: state.stamps[one.key].at_s)
        least_s = _handling_between(script.acts, last.key, key) / 2.0
        if at_s < state.stamps[last.key].at_s + least_s:
            return Doubt("runs.doubt.impossible", state.stamps[last.key].at_s + least_s - at_s)
    expected_s = earliest_s(schedule, key) if due.due_s is None else due.due_s
    if expected_s is not None and expected_s - at_s > max(
        EARLY_S, EARLY_SHARE * (_bath_before_s(schedule, key) or 0.0)
    ):
        return Doubt("runs.doubt.early", expected_s - at_s)
    return None


def _handling_between(acts: tuple[Act, ...], since: str, key: str) -> float:
    """Seconds that pours and drains take on the way from one act to a later one; 0 where one does not follow. [s]"""
    known = {act.key: act for act in acts}
    seconds, act = 0.0, known[key]
    while act.key != since:
        if act.does == "full" or (
            act.does in ("pour", "move") and act.anchor in known and known[act.anchor].does == "drain"
        ):
            seconds += act.offset_s
        if act.anchor not in known:
            return 0.0
        act = known[act.anchor]
    return seconds


def earliest_s(schedule: Schedule, key: str) -> float | None:
    """When a waiting act could be done at the earliest: what holds it back is ready then; None if unknown. [s]"""
    ranks = {due.act.key: rank for rank, due in enumerate(schedule.dues)}
    due = schedule.dues[ranks[key]]
    more_s = 0.0
    while due.ready_s is None:
        more_s += due.act.offset_s
        if due.act.anchor not in ranks:
            return None
        due = schedule.dues[ranks[due.act.anchor]]
        if due.how is not How.WAITS:
            return (due.at_s or 0.0) + more_s
    return due.ready_s + more_s


def _bath_before_s(schedule: Schedule, key: str) -> float | None:
    """Length of the bath that an act ends or follows. [s]"""
    rank = next(rank for rank, due in enumerate(schedule.dues) if due.act.key == key)
    fulls = [due.act.duration_s for due in schedule.dues[:rank] if due.act.does in ("full", "move", "enter")]
    return fulls[-1] if fulls else None
