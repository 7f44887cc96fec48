"""Facts of a run that speak against each other: shown with both sides, settled by a person with one act."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.names import clean
from wetside.errors import ConflictError, RefusedError
from wetside.runs import commands as c
from wetside.runs.conduct import MOST_TRIES, MOVED_ON
from wetside.runs.cues import act_params
from wetside.runs.schedule import schedule_at
from wetside.runs.settling import left_out, open_questions
from wetside.services.records.runs import command, conduct_of
from wetside.services.records.runs_log import SERVER
from wetside.services.run_actual_said import actual_said
from wetside.services.run_terminal import DEVICE, say
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.records import models
    from wetside.runs.fact import Fact
    from wetside.runs.moment import Moment
    from wetside.runs.schedule import Schedule
    from wetside.runs.settling import Question, Told
    from wetside.runs.state import Name, State
    from wetside.services.run_actual_said import ActualRow

SHORT = 6
"""Letters of a device's name that are shown. Our choice."""
_PLAIN = ("lost", "end-moved", "read", "taken-back")


class Asked(NamedTuple):
    """A question in words: what was told and by whom, why it does not count, and what counts instead.

    ``kind`` is what was told, ``device`` and ``number`` name the fact.
    """

    kind: str
    device: str
    number: int
    told: str
    by: str
    why: str
    rivals: tuple[tuple[str, str], ...]
    may_count: bool


def questions_said(run: models.Run) -> tuple[Asked, ...]:
    """Questions that are open in a run, in the order of its clock."""
    conduct = conduct_of(run)
    state = conduct.state()
    if not state.contested:
        return ()
    schedule = schedule_at(state, state.known_s)
    return tuple(_asked(one, schedule) for one in open_questions(conduct.facts, state))


def actual_of(run: models.Run) -> tuple[ActualRow, ...]:
    """Planned against actual of a run that is over."""
    state = conduct_of(run).state()
    return actual_said(state, state.known_s)


def _asked(one: Question, schedule: Schedule) -> Asked:
    return Asked(
        one.told.kind,
        *one.told.name,
        told=_fact(one.told, schedule),
        by=_by(one.told),
        why=sentence(one.code, {}),
        rivals=tuple((_fact(rival, schedule), _by(rival)) for rival in one.rivals),
        may_count=one.may_count,
    )


def _fact(told: Told, schedule: Schedule) -> str:
    params = {"at_s": told.at_s, "kind": told.kind, "act": told.act or ""}
    if told.kind == "done":
        due = next((due for due in schedule.dues if due.act.key == told.act), None)
        if due is not None and due.act.does != "hold":
            params["act"] = say(f"web.runs.act_{due.act.does}", act_params(due, schedule))
        elif due is not None:
            params["act"] = sentence(f"web.runs.act_{'lights_out' if due.act.key == 'dark.out' else 'lights_on'}", {})
    kind = told.kind if told.kind == "done" or told.kind in _PLAIN else "other"
    if told.kind == "identified":
        kind = "unknown" if told.order is None else "hung"
        params["clips"] = [] if told.order is None else [clean(name) for name in told.order]
    return sentence(f"runs.settling.fact_{kind}", params)


def _by(told: Told) -> str:
    device = told.name[0]
    if device == SERVER or device.startswith(f"{SERVER}-"):
        return sentence("runs.settling.by_server", {})
    if device == DEVICE:
        return sentence("runs.settling.by_terminal", {})
    return sentence("runs.settling.by_device", {"device": device[:SHORT]})


class Left(NamedTuple):
    """A fact that does not count any more, in words; ``device`` and ``number`` name the fact that took it back."""

    device: str
    number: int
    told: str
    by: str


def left_out_said(run: models.Run) -> tuple[Left, ...]:
    """Facts of a run that were taken back or left out, each of which can be counted again."""
    conduct = conduct_of(run)
    state = conduct.state()
    if not state.taken_back:
        return ()
    schedule = schedule_at(state, state.known_s)
    found = left_out(conduct.facts, state)
    return tuple(Left(*one.by, told=_fact(one.told, schedule), by=_by(one.told)) for one in found)


def count_again(run: models.Run, device: str, number: int, now: Moment) -> None:
    """Undo a take-back: what it took back counts again, or stands against the others again.

    Parameters
    ----------
    run : Run
    device, number : str, int
        Name of the fact that took it back.
    now : Moment
        Of this server.

    Raises
    ------
    RefusedError
        If it stands no more.
    """

    def names(facts: tuple[Fact, ...], state: State) -> tuple[Name, ...]:
        if (device, number) not in {one.by for one in left_out(facts, state)}:
            raise RefusedError("services.runs.settled_already")
        return ((device, number),)

    settled(run, names, now)


def settled(run: models.Run, names: Callable[[tuple[Fact, ...], State], tuple[Name, ...]], now: Moment) -> None:
    """Take facts back as the log stands now: where another page wrote first, it is asked anew which ones, if any.

    Parameters
    ----------
    run : Run
    names : callable
        From facts and state to the names of those that shall not count any more; raises where there are none.
    now : Moment
        Of this server.

    Raises
    ------
    RefusedError
        If that settles nothing.
    ConflictError
        If the log stays busy.
    """
    for _ in range(MOST_TRIES):
        conduct = conduct_of(run)
        state = conduct.state()
        gone = names(conduct.facts, state)
        try:
            decision = command(run, c.Settle(gone), now, seen=len(conduct.facts))
        except ConflictError as error:
            if error.code != MOVED_ON:
                raise
            continue
        if decision.refusal is not None:
            raise RefusedError("services.runs.settles_nothing")
        return
    raise ConflictError("services.runs.busy")


def settle(run: models.Run, device: str, number: int, now: Moment, *, counts: bool) -> None:
    """Settle a question: the contested fact counts in place of its rivals, or is left out. All of them stay stored.

    Parameters
    ----------
    run : Run
    device, number : str, int
        Name of the contested fact.
    now : Moment
        Of this server.
    counts : bool
        Whether it counts in place of what speaks against it.

    Raises
    ------
    RefusedError
        If the question is settled already, or cannot be settled so.
    """

    def names(facts: tuple[Fact, ...], state: State) -> tuple[Name, ...]:
        asked = open_questions(facts, state)
        found = next((one for one in asked if one.told.name == (device, number)), None)
        if found is None:
            raise RefusedError("services.runs.settled_already")
        if counts and not found.may_count:
            raise RefusedError("services.runs.settles_nothing")
        return found.against if counts else found.itself

    settled(run, names, now)
