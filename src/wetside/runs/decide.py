"""A command in, events or a refusal out. Pure: asks no clock and changes nothing.

Commands of a person who stands there may be refused or asked back. What hands did, seen by another device, is never
refused: it goes into the log as it came (:mod:`wetside.runs.fold` contests what cannot be).
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.runs import commands as c
from wetside.runs.bath_limits import COLDEST_C, HOTTEST_C, is_of_a_bath
from wetside.runs.cues import act_params
from wetside.runs.events import (
    OF_SHEETS,
    Abandoned,
    Done,
    Doubted,
    EndMoved,
    Event,
    Identified,
    Lost,
    Noted,
    Opened,
    Read,
    Resumed,
    Retired,
    SetAside,
    TakenBack,
    TimeTold,
    Where,
    Why,
)
from wetside.runs.expected import act_for_answer, doubt_about
from wetside.runs.load_check import load_check
from wetside.runs.readings import Objection, objection_to_reading
from wetside.runs.schedule import schedule_at
from wetside.runs.script import pause_points
from wetside.runs.state import LEGAL_MOVES, OVER, Entry, Status, ended_s, last_told, move_of, objection
from wetside.runs.trim import correction_now

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.runs.moment import Moment
    from wetside.runs.state import State

REPEAT_S = 1.5
"""A second answer within this is a bounced pedal or a cat (corrections 1.8). [s]"""
TWICE_S = 10.0
"""An act that was asked back counts if it is told again within this. [s]"""
MOST_LOOKED_S = 1800.0


class Said(NamedTuple):
    """A code with its parameters, to be spoken back."""

    code: str
    params: Mapping[str, object] = {}


class Decision(NamedTuple):
    """What came of a command.

    ``events`` to append; ``refusal`` why nothing, or not yet, was taken; ``said`` what is spoken back. An answer that
    is asked back has both an event (it was told) and a refusal (it does not count yet).
    """

    events: tuple[Event, ...] = ()
    refusal: Said | None = None
    said: tuple[Said, ...] = ()


def _refused(code: str, **params: object) -> Decision:
    return Decision(refusal=Said(code, params))


def decide(state: State, command: c.Command, now: Moment) -> Decision:
    """Decide on a command.

    Parameters
    ----------
    state : State
    command : Command
    now : Moment
        Of the device that gives it.

    Returns
    -------
    decision : Decision
        Its events are never contested when they are applied at once.
    """
    if isinstance(command, c.Open):
        if state.status is not Status.NOTHING:
            return _refused("runs.refused.opened")
        return Decision((Opened(command.script, command.rehearsal, tuple(sorted(command.retired))),))
    if state.status is Status.NOTHING or state.clock is None:
        return _refused("runs.refused.not_opened")
    when = state.clock.at(now, state.known_s)
    if isinstance(command, c.Resume):
        return _resume(state, now)
    if isinstance(command, c.TellTime):
        return _tell_time(state, command)
    if isinstance(command, c.Post):
        return _checked(state, _post(state, command, when.s, doubtful=when.doubtful), when.s)
    if when.doubtful and isinstance(command, c.Incidence) and state.status in OVER:
        return _checked(state, _decided(state, command, ended_s(state)), when.s)
    if when.doubtful and isinstance(command, c.Tell | c.Reading | c.Incidence | c.Look):
        return _refused("runs.refused.clock", known_s=state.known_s)
    made = _decided(state, command, when.s)
    return made if made.refusal is not None else _checked(state, made, when.s)


def _decided(state: State, command: c.Command, now_s: float) -> Decision:
    if isinstance(command, c.Tell):
        return _tell(state, command, now_s)
    if isinstance(command, c.TakeBack):
        return _take_back(state, command, now_s)
    if isinstance(command, c.Settle):
        gone = tuple(TakenBack(device, number) for device, number in command.names)
        return Decision(gone, said=(Said("runs.said.taken_back_fact"),))
    if isinstance(command, c.Reading):
        return _reading(state, command, now_s)
    if isinstance(command, c.Lose):
        return _lose(state, command, now_s)
    if isinstance(command, c.Retire):
        return _retire(state, command)
    if isinstance(command, c.Look):
        return _look(state, command, now_s)
    if isinstance(command, c.Identify):
        return _identify(state, command)
    if isinstance(command, c.Incidence):
        return _incident(state, command, now_s)
    if isinstance(command, c.Abandon):
        return Decision((Abandoned(command.why),), said=(Said("runs.said.abandoned"),))
    return _refused("runs.refused.unknown")


def _checked(state: State, made: Decision, now_s: float) -> Decision:
    """Decision, or a refusal where the table of moves or what is known speaks against one of its events."""
    for event in made.events:
        if LEGAL_MOVES[state.status].get(move_of(event, state.script)) is None:
            return _refused("runs.refused.status", status=state.status.value)
        code = objection(state, Entry(("", 0), event, now_s))
        if code is not None:
            return _refused(code)
    return made


def _tell(state: State, command: c.Tell, now_s: float) -> Decision:
    if state.told_s is not None and 0.0 <= now_s - state.told_s < REPEAT_S:
        return _refused("runs.refused.repeat")
    schedule = schedule_at(state, now_s)
    key = command.act or act_for_answer(state, schedule)
    if key is None:
        return _refused("runs.refused.nothing")
    if not any(due.act.key == key for due in schedule.dues):
        return _refused("runs.refused.act", act=key)
    due = schedule.of(key)
    ago_s = command.ago_s
    if command.on_time:
        if due.due_s is None or due.due_s > now_s:
            return _refused("runs.refused.not_due", act=key)
        ago_s = now_s - due.due_s
    if not 0.0 <= ago_s <= now_s:
        return _refused_ago(ago_s)
    doubt = doubt_about(state, schedule, key, now_s - ago_s)
    known = act_params(due, schedule)
    if doubt is None:
        return Decision((Done(key, ago_s),), said=(Said(f"runs.taken.{due.act.does}", known),))
    if state.doubt is not None and state.doubt[0] == key and now_s - state.doubt[1] <= TWICE_S:
        return Decision((Done(key, ago_s, insisted=True),), said=(Said(f"runs.taken.{due.act.does}", known),))
    return Decision((Doubted(key, doubt.code),), refusal=Said(doubt.code, {**known, "early_s": doubt.early_s}))


def _take_back(state: State, command: c.TakeBack, now_s: float) -> Decision:
    if command.name is not None:
        device, number = command.name
        return Decision((TakenBack(device, number),), said=(Said("runs.said.taken_back_fact"),))
    last = last_told(state)
    if last is None:
        return _refused("runs.refused.nothing_told")
    key, stamp = last
    schedule = schedule_at(state, now_s)
    known = {**act_params(schedule.of(key), schedule), "ago_s": now_s - stamp.at_s}
    return Decision((TakenBack(*stamp.name),), said=(Said("runs.said.taken_back", known),))


def _reading(state: State, command: c.Reading, now_s: float) -> Decision:
    script = state.script
    if script is None or not (math.isfinite(command.shown_c) and COLDEST_C <= command.shown_c <= HOTTEST_C):
        return _refused("runs.refused.reading", value=command.shown_c, low_c=COLDEST_C, high_c=HOTTEST_C)
    high_c = script.reads_high_c if command.reads_high_c is None else command.reads_high_c
    if not (math.isfinite(high_c) and abs(high_c) <= 15.0):
        return _refused("runs.refused.offset", value=high_c)
    event = Read(command.shown_c, command.where, high_c, command.instrument or script.thermometer)
    if not is_of_a_bath(event):  # ice, by an instrument that shows too much
        return _refused("runs.refused.offset", value=high_c)
    told = Said("runs.said.reading", {"temp_c": event.true_c, "where": command.where.value})
    if command.where is Where.POURED_OUT:
        return Decision((event,), said=(told,))
    found = correction_now(state, event, now_s)
    if found is None:
        code = "runs.said.no_coefficient" if script.per_c is None else None
        return Decision((event,), said=(told, Said(code)) if code else (told,))
    correction, act, old_shift_s = found
    params = {
        "percent": (correction.ratio - 1.0) * 100.0,
        "density": correction.density,
        "shift_s": correction.shift_s,
        "temp_c": event.true_c,
    }
    if correction.code is not None:
        return Decision((event,), said=(told, Said(correction.code, params)))
    if abs(correction.shift_s - old_shift_s) < 1.0:
        return Decision((event,), said=(told, Said("runs.integral.stays", params)))
    moved = EndMoved(act, correction.shift_s, Why.TEMPERATURE, correction.density or 0.0)
    said = [told, Said("runs.integral.moved", params)]
    if correction.bound is not None:
        left = {**params, "percent": (correction.left - 1.0) * 100.0}
        said.append(Said(f"runs.integral.bound_{correction.bound}", left))
    return Decision((event, moved), said=tuple(said))


def _post(state: State, command: c.Post, now_s: float, *, doubtful: bool) -> Decision:
    """A reading as if it were typed, or set aside with its reason."""
    posted = command.reading
    if state.script is None:
        return _refused("runs.refused.not_opened")
    if doubtful:
        found: Objection | None = Objection("runs.reading.clock")
    else:
        changes_s = [stamp.at_s for stamp in state.stamps.values()]
        found = objection_to_reading(posted, now_s, state.readings, changes_s)
    if found is None and posted.shown_c is not None:
        typed = c.Reading(posted.shown_c, posted.where, posted.reads_high_c, posted.instrument)
        return _reading(state, typed, now_s)
    found = found or Objection("runs.reading.no_number")
    shown = "" if posted.shown_c is None else f"{posted.shown_c:.6g}"
    event = SetAside(shown, posted.where, found.code, posted.instrument)
    return Decision((event,), said=(Said(found.code, found.params),))


def _lose(state: State, command: c.Lose, now_s: float) -> Decision:
    if not state.sheets:
        return _refused("runs.refused.no_sheets")
    sheet = command.sheet
    if sheet is None:
        if command.place is not None:
            at = state.places[command.place - 1] if 1 <= command.place <= len(state.places) else None
        else:
            waiting = schedule_at(state, now_s).next()
            at = waiting.act.sheet if waiting is not None and waiting.act.does == "load" else None
        if at is None:
            return _refused("runs.refused.which_sheet", sheets=state.sheets)
        sheet = at
    if sheet not in state.sheets:
        return _refused("runs.refused.sheet", sheet=sheet, sheets=state.sheets)
    if state.status is not Status.READY:
        return Decision(
            (Lost(sheet),), said=(Said("runs.said.lost_wet", {"sheet": sheet, "count": len(state.sheets) - 1}),)
        )
    check = load_check(state._replace(lost=(*state.lost, sheet)))
    params = {
        "sheet": sheet,
        "count": check.left,
        "volume_ml": check.volume_ml,
        "wetting_ml": check.wetting_ml,
        "ratio": check.agent_ratio,
    }
    code = "runs.said.lost" if check.agent_ratio is None else "runs.said.lost_agent"
    return Decision((Lost(sheet),), said=(Said(code, params),))


def _refused_ago(ago_s: float) -> Decision:
    """Refuse how long ago something was; what is no number cannot be said as a time."""
    return _refused("runs.refused.ago", ago_s=ago_s) if math.isfinite(ago_s) else _refused("runs.refused.no_time")


def _incident(state: State, command: c.Incidence, now_s: float) -> Decision:
    """What went wrong, of the sheets that it was seen on; a lost one may have been scratched before."""
    if command.ago_s and not 0.0 <= command.ago_s <= now_s:
        return _refused_ago(command.ago_s)
    known = () if state.script is None else tuple(sheet.id for sheet in state.script.sheets)
    if not all(1 <= place <= len(known) for place in command.places):
        return _refused("runs.refused.place", place=max(command.places, key=abs), count=len(known))
    named = {*command.sheets, *(known[place - 1] for place in command.places)}
    wrong = sorted(named - set(known))
    if wrong:
        return _refused("runs.refused.sheet", sheet=wrong[0], sheets=state.sheets)
    if command.what in OF_SHEETS and known and not named:
        return _refused("runs.refused.whose", sheets=state.sheets)
    sheets = tuple(name for name in known if name in named)
    told = Said("runs.said.noted_of", {"sheets": sheets}) if sheets else Said("runs.said.noted")
    return Decision((Noted(command.what, command.ago_s, command.text, sheets),), said=(told,))


def _retire(state: State, command: c.Retire) -> Decision:
    if state.script is None or command.pause not in pause_points(state.script) or command.pause in state.retired:
        return _refused("runs.refused.pause", pause=command.pause.value)
    return Decision((Retired(command.pause),), said=(Said("runs.said.retired", {"pause": command.pause.value}),))


def _look(state: State, command: c.Look, now_s: float) -> Decision:
    """An inspection runs on its planned end unless an act extends or ends it (``decided.md`` 10)."""
    schedule = schedule_at(state, now_s)
    ahead = [due for due in schedule.dues if due.act.does in ("drain", "lift") and due.act.kind == "develop"]
    due = next((one for one in ahead if one.due_s is not None and one.due_s > now_s), None)
    begun = schedule.bath()
    if due is None or due.due_s is None or begun is None or begun.act.kind != "develop":
        return _refused("runs.refused.no_end")
    if not (math.isfinite(command.by_s) and abs(command.by_s) <= MOST_LOOKED_S):
        return _refused("runs.refused.look", value_s=command.by_s, most_s=MOST_LOOKED_S)
    old = state.shifts.get(due.act.key)
    old_s = 0.0 if old is None else old.shift_s
    by_s = max(command.by_s, now_s - due.due_s)
    moved = EndMoved(due.act.key, old_s + by_s, Why.LOOK)
    return Decision((moved,), said=(Said("runs.said.looked", {"by_s": by_s, "in_s": due.due_s + by_s - now_s}),))


def _identify(state: State, command: c.Identify) -> Decision:
    knew = tuple(one.name for one in state.orders) if command.knew is None else command.knew
    if command.order is None:
        return Decision((Identified(None, knew),), said=(Said("runs.said.order_unknown"),))
    wrong = [name for name in command.order if name not in state.sheets]
    if wrong or len(set(command.order)) != len(command.order):
        return _refused("runs.refused.order", order=command.order, sheets=state.sheets)
    return Decision((Identified(command.order, knew),), said=(Said("runs.said.order", {"count": len(command.order)}),))


def _resume(state: State, now: Moment) -> Decision:
    """A program takes the run up again; where a new start of the machine leaves only the wall clock, it says so."""
    if state.clock is None or now.boot_id in state.clock.ties:
        return Decision()
    when = state.clock.at(now, state.known_s)
    code = "runs.said.clock_doubtful" if when.doubtful else "runs.said.by_wall_clock"
    return Decision((Resumed(state.known_s),), said=(Said(code, {"known_s": state.known_s, "now_s": when.s}),))


def _tell_time(state: State, command: c.TellTime) -> Decision:
    if not (math.isfinite(command.run_s) and state.certain_s <= command.run_s <= 86_400.0):
        return _refused("runs.refused.time", known_s=state.certain_s)
    return Decision((TimeTold(command.run_s),), said=(Said("runs.said.time_told", {"run_s": command.run_s}),))
