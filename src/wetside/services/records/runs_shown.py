"""A run as its plain page shows it: the next thing to do and when, what an answer would tell, what came of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.cues import act_params, overdue, shown_now
from wetside.runs.effects import sheet_effects
from wetside.runs.expected import act_for_answer
from wetside.runs.fold import is_over
from wetside.runs.schedule import schedule_at
from wetside.runs.script import LIGHTS_OUT, pause_points
from wetside.services.records.runs import standing
from wetside.services.run_aside import aside_said
from wetside.services.run_came import came_of
from wetside.services.run_rules import takes_back
from wetside.services.run_terminal import say

if TYPE_CHECKING:
    import datetime as dt

    from wetside.records import models
    from wetside.runs.moment import Moment
    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.state import State


class Coming(NamedTuple):
    """An act ahead: what, in how many seconds (None where it waits). [s]"""

    said: str
    in_s: float | None


class RunShown(NamedTuple):
    """All that the page says.

    ``title`` the next thing to do and when; ``missing`` the answer that is overdue; ``tell`` what the big button says,
    empty where nothing is waited for; ``takes_back`` what *take back* would take back, empty before anything was told;
    ``at`` the wall clock's time of all this; ``run_s`` how long the run has lasted [s], None where the clock is in
    doubt; ``opened_at`` when it was opened, by the clock of whoever opened it; ``came`` what the run did to its sheets;
    ``aside`` posted readings that are not used.
    """

    title: str
    missing: str
    tell: str
    at: dt.datetime
    run_s: float | None
    seq: int
    status: str
    over: bool
    coming: tuple[Coming, ...]
    sheets: tuple[str, ...]
    lost: tuple[str, ...]
    pauses: tuple[str, ...]
    takes_back: str
    can_look: bool
    ask_order: bool
    came: tuple[str, ...]
    aside: tuple[str, ...]
    opened: bool
    name: str
    developer: str
    time_s: float
    temp_c: float
    opened_at: dt.datetime | None


MOST_COMING = 4
"""Acts that the plain page tells beforehand. Our choice."""


def run_shown(run: models.Run, now: Moment | None = None) -> RunShown:
    """Say where a run stands.

    Parameters
    ----------
    run : Run
    now : Moment, optional
        This moment if absent.
    """
    found = standing(run, now)
    state, now_s = found.state, found.now_s
    script = state.script
    schedule = schedule_at(state, now_s)
    next_one = shown_now(state, now_s)
    missing = overdue(state, now_s)
    over = is_over(state)
    return RunShown(
        title=("" if run.rehearsal else _over(state, schedule)) or say(next_one.code, next_one.params),
        missing="" if missing is None else say(missing.code, missing.params),
        tell="" if over or state.doubtful else _tell(state, schedule),
        at=found.now.at_utc,
        run_s=None if state.doubtful else now_s,
        seq=found.seq,
        status=state.status.value,
        over=over,
        coming=() if over or state.doubtful else _coming(schedule),
        sheets=state.sheets,
        lost=state.lost,
        pauses=() if script is None else tuple(p.value for p in pause_points(script) if p not in state.retired),
        takes_back=takes_back(state),
        can_look=any(due.act.does == "inspect" for due in schedule.dues),
        ask_order=state.status.value == "ended" and bool(state.sheets) and not state.identified,
        came=tuple(came_of(state, schedule, contested=False)) if over else (),
        aside=aside_said(state),
        opened=script is not None,
        name="" if script is None else script.name,
        developer="" if script is None else f"{script.developer} {script.dilution}".strip(),
        time_s=0.0 if script is None else script.time_s,
        temp_c=20.0 if script is None else script.temp_c,
        opened_at=None if state.clock is None else state.clock.origin.at_utc,
    )


def _over(state: State, schedule: Schedule) -> str:
    """Title of a run that has ended: how far its sheets came out from their plan; empty where nobody can say."""
    if state.status.value != "ended":
        return ""
    off = [effect.density for effect in sheet_effects(state, schedule) if effect.density is not None]
    if not off:
        return ""
    reckoned = state.script is not None and state.script.per_c is not None and bool(state.readings)
    return say("web.runs.over_off" if reckoned else "web.runs.over_clock", {"density": max(off, key=abs)})


def _tell(state: State, schedule: Schedule) -> str:
    """What the big button says: what the next answer would be taken for."""
    key = act_for_answer(state, schedule)
    if key is None:
        return ""
    due = schedule.of(key)
    does = due.act.does
    if does == "hold":
        does = "lights_out" if key == LIGHTS_OUT else "lights_on"
    return say(f"web.runs.tell_{does}", act_params(due, schedule))


def _coming(schedule: Schedule) -> tuple[Coming, ...]:
    ahead = [due for due in schedule.dues if due.how.value in ("ahead", "waits") and due.act.does != "full"]
    return tuple(Coming(_act_said(due, schedule), _in_s(due, schedule)) for due in ahead[1 : 1 + MOST_COMING])


def _in_s(due: Due, schedule: Schedule) -> float | None:
    return None if due.due_s is None else due.due_s - schedule.now_s


def _act_said(due: Due, schedule: Schedule) -> str:
    does = due.act.does
    if does == "hold":
        does = "lights_out" if due.act.key == LIGHTS_OUT else "lights_on"
    return say(f"web.runs.act_{does}", act_params(due, schedule))
