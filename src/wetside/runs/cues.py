"""What to say and when, as data. Nothing waits for an answer: a cue comes, comes again, and the run goes on.

A prompt comes 35 s ahead and names the bottle; then a count-in; then the word; then, where hands have not told, the
same again. Two acts that follow within a prompt's time share one prompt, because nobody can listen while pouring: the
drain of the developer announces the stop.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.documents.words import BathKind
from wetside.runs.fold import is_over
from wetside.runs.schedule import How, schedule_at
from wetside.runs.script import HANG, LIGHTS_OUT, is_awaited

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.state import State

PROMPT_S = 35.0
"""A prompt comes so long ahead: 30 to 40 s are wanted (corrections 1.1). [s]"""
COUNTS_S = (20.0, 10.0, 5.0)
"""Count-in before an act that ends or begins a developing time. [s]"""
REPEATS_S = (10.0, 20.0, 40.0)
"""An act that nobody told is asked for again so long after its time. [s]"""
REPEAT_EVERY_S = 60.0
"""And then at this distance, until it is told or the next one is due. [s]"""
MOST_REPEATS = 10
SPOKEN = frozenset({"pour", "drain", "move", "enter", "lift", "agitate", "inspect", "hang"})
"""Acts that are called out; "full" is only asked for when it is missing."""


class CueKind(StrEnum):
    """What a cue is, so that sound and screen can tell them apart by more than colour."""

    PROMPT = "prompt"
    COUNT = "count"
    NOW = "now"
    REPEAT = "repeat"
    READY = "ready"
    """What a pause holds back may be done from now on; nothing presses."""


class Cue(NamedTuple):
    """One thing to say, with the moment on the run's clock. [s]"""

    at_s: float
    kind: CueKind
    act: str
    code: str
    params: dict[str, Any]


class Shown(NamedTuple):
    """The largest line on any screen: what to do next, in how many seconds (None where it waits). [s]"""

    code: str
    params: dict[str, Any]
    in_s: float | None
    act: str | None


def cues_between(state: State, since_s: float, until_s: float) -> tuple[Cue, ...]:
    """Cues of a stretch of the run, by what is known at its beginning.

    Parameters
    ----------
    state : State
    since_s, until_s : float
        On the run's clock; from ``since_s`` on, before ``until_s``. [s]

    Returns
    -------
    cues : tuple of Cue
        In order of time. Whoever plays them asks again after every new fact.
    """
    if state.script is None or is_over(state) or state.doubtful:
        return ()
    schedule = schedule_at(state, since_s)
    found = [cue for due in schedule.dues for cue in _cues_of(due, schedule, state) if since_s <= cue.at_s < until_s]
    return tuple(sorted(found, key=lambda cue: (cue.at_s, cue.act, cue.kind.value)))


def _cues_of(due: Due, schedule: Schedule, state: State) -> Iterator[Cue]:
    act = due.act
    if due.how in (How.TOLD, How.INFERRED) or act.sheet in state.lost:
        return
    params = act_params(due, schedule)
    if due.due_s is None:
        if due.ready_s is not None:
            yield Cue(due.ready_s, CueKind.READY, act.key, f"runs.cue.ready_{act.does}", params)
        return
    at_s = due.due_s
    if act.does in SPOKEN:
        told_s = _before_s(due, schedule)
        if act.does != "pour" or told_s is None or at_s - told_s > PROMPT_S:
            # A prompt never falls into the handling that comes before it: then it comes right after.
            prompt_s = at_s - PROMPT_S if told_s is None else max(told_s + 1.0, at_s - PROMPT_S)
            if prompt_s < at_s - 2.0:
                yield Cue(prompt_s, CueKind.PROMPT, act.key, f"runs.cue.prompt_{act.does}", params)
            counts = COUNTS_S if act.does in ("drain", "lift", "enter") else COUNTS_S[1:2]
            for count_s in counts:
                if at_s - count_s > prompt_s:
                    yield Cue(
                        at_s - count_s,
                        CueKind.COUNT,
                        act.key,
                        f"runs.cue.count_{act.does}",
                        {**params, "in_s": count_s},
                    )
        yield Cue(at_s, CueKind.NOW, act.key, f"runs.cue.now_{act.does}", params)
    if is_awaited(act) and act.does in ("full", "move", "enter", HANG):
        yield from _repeats(due, schedule, params)


def _repeats(due: Due, schedule: Schedule, params: dict[str, Any]) -> Iterator[Cue]:
    """The same again until it is told; it ends by itself when the next answer's time has come."""
    at_s = due.due_s or 0.0
    rank = schedule.dues.index(due)
    later = [one for one in schedule.dues[rank + 1 :] if is_awaited(one.act)]
    until_s = next((one.due_s for one in later if one.due_s is not None), None)
    times = [*REPEATS_S, *(REPEATS_S[-1] + REPEAT_EVERY_S * number for number in range(1, MOST_REPEATS))]
    for after_s in times:
        if until_s is None or at_s + after_s < until_s:
            yield Cue(
                at_s + after_s,
                CueKind.REPEAT,
                due.act.key,
                f"runs.cue.repeat_{due.act.does}",
                {**params, "since_s": after_s},
            )


def _before_s(due: Due, schedule: Schedule) -> float | None:
    """When the hands are free before an act: the time of the act that it follows. [s]"""
    rank = schedule.dues.index(due)
    earlier = [
        one.at_s for one in schedule.dues[:rank] if one.at_s is not None and one.act.does not in ("hold", "load")
    ]
    return max((at_s for at_s in earlier if at_s < (due.due_s or 0.0)), default=None)


def act_params(due: Due, schedule: Schedule) -> dict[str, Any]:
    """What a sentence about an act needs: its bath, its bottle, and what comes right after a drain."""
    act = due.act
    params: dict[str, Any] = {
        "bath": act.bath,
        "kind": act.kind,
        "bottle": act.bottle or "",
        "volume_ml": act.volume_ml,
        "sheet": act.sheet or "",
        "then": "",
        "then_kind": "",
        "then_bottle": "",
    }
    if act.does == "drain":
        rank = schedule.dues.index(due)
        after = next((one for one in schedule.dues[rank + 1 :] if one.act.does in ("pour", "move", "hang")), None)
        if after is not None:
            params["then"] = after.act.bath
            params["then_kind"] = after.act.kind if after.act.does != "hang" else "hang"
            params["then_bottle"] = after.act.bottle or ""
    return params


def shown_now(state: State, now_s: float) -> Shown:
    """What to do next and when.

    Parameters
    ----------
    state : State
    now_s : float
        On the run's clock. [s]

    Returns
    -------
    shown : Shown
        Never a time that may be wrong: while the clock is in doubt no time is given at all.
    """
    if state.script is None:
        return Shown("runs.next.nothing", {}, None, None)
    if state.status.value in ("ended", "abandoned"):
        return Shown(f"runs.next.{state.status.value}", {}, None, None)
    if state.doubtful:
        return Shown("runs.next.clock_doubtful", {"known_s": state.known_s}, None, None)
    schedule = schedule_at(state, now_s)
    due = _next_to_show(schedule)
    if due is None:
        last = schedule.awaited()
        key = None if last is None else last.act.key
        return Shown("runs.next.last", {"since_s": 0.0 if last is None else now_s - (last.due_s or now_s)}, None, key)
    params = act_params(due, schedule)
    if due.how is How.WAITS:
        return _shown_waiting(due, params, now_s)
    in_s = (due.due_s or now_s) - now_s
    return Shown(f"runs.next.{due.act.does}", {**params, "in_s": in_s}, in_s, due.act.key)


def _next_to_show(schedule: Schedule) -> Due | None:
    """The next act of the hands; a further fill of the same bath that is full asks for nothing and is passed over."""
    ahead = (due for due in schedule.dues if due.how in (How.AHEAD, How.WAITS))
    return next((due for due in ahead if due.act.does != "full" or is_awaited(due.act)), None)


def _shown_waiting(due: Due, params: dict[str, Any], now_s: float) -> Shown:
    act = due.act
    if act.does in ("hold", "load"):
        name = act.does if act.does == "load" else ("lights_out" if act.key == LIGHTS_OUT else "lights_on")
        return Shown(f"runs.next.{name}", params, None, act.key)
    if due.ready_s is not None and due.ready_s > now_s:
        in_s = due.ready_s - now_s
        return Shown("runs.next.ready_in", {**params, "in_s": in_s}, in_s, act.key)
    code = "runs.next.ready_drain" if act.does == "drain" else "runs.next.ready_pour"
    return Shown(code, params, None, act.key)


def overdue(state: State, now_s: float) -> Shown | None:
    """The act whose answer is missing, and since when; None where none is. [s]"""
    if state.script is None or is_over(state) or state.doubtful:
        return None
    from wetside.runs.expected import act_for_answer

    schedule = schedule_at(state, now_s)
    key = act_for_answer(state, schedule)
    if key is None:
        return None
    due = schedule.of(key)
    if due.due_s is None or now_s - due.due_s < 1.0 or due.how is not How.ASSUMED or not is_awaited(due.act):
        return None
    params = {**act_params(due, schedule), "since_s": now_s - due.due_s}
    code = "runs.next.missing_stop" if due.act.kind == BathKind.STOP.value else "runs.next.missing"
    return Shown(code, params, None, key)
