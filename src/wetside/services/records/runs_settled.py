"""Facts of a run that speak against each other: shown with both sides, settled by a person with one act."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError
from wetside.runs import commands as c
from wetside.runs.cues import act_params
from wetside.runs.schedule import schedule_at
from wetside.runs.settling import open_questions
from wetside.services.records.runs import command, conduct_of
from wetside.services.records.runs_log import SERVER
from wetside.services.run_actual_said import actual_said
from wetside.services.run_terminal import DEVICE, say
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.records import models
    from wetside.runs.moment import Moment
    from wetside.runs.schedule import Schedule
    from wetside.runs.settling import Question, Told
    from wetside.services.run_actual_said import ActualRow

SHORT = 6
"""Letters of a device's name that are shown. Our choice."""
_PLAIN = ("lost", "identified", "end-moved", "read", "taken-back")


class Asked(NamedTuple):
    """A question in words: what was told and by whom, why it does not count, and what counts instead.

    ``device`` and ``number`` name the fact.
    """

    device: str
    number: int
    told: str
    by: str
    why: str
    rivals: tuple[tuple[str, str], ...]
    may_count: bool
    may_go: bool


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
        *one.told.name,
        told=_fact(one.told, schedule),
        by=_by(one.told),
        why=sentence(one.code, {}),
        rivals=tuple((_fact(rival, schedule), _by(rival)) for rival in one.rivals),
        may_count=one.may_count,
        may_go=one.may_go,
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
    return sentence(f"runs.settling.fact_{kind}", params)


def _by(told: Told) -> str:
    device = told.name[0]
    if device == SERVER or device.startswith(f"{SERVER}-"):
        return sentence("runs.settling.by_server", {})
    if device == DEVICE:
        return sentence("runs.settling.by_terminal", {})
    return sentence("runs.settling.by_device", {"device": device[:SHORT]})


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
    conduct = conduct_of(run)
    state = conduct.state()
    asked = open_questions(conduct.facts, state)
    found = next((one for one in asked if one.told.name == (device, number)), None)
    if found is None:
        raise RefusedError("services.runs.settled_already")
    if not (found.may_count if counts else found.may_go):
        raise RefusedError("services.runs.settles_nothing")
    names = tuple(rival.name for rival in found.rivals) if counts else (found.told.name,)
    if command(run, c.Settle(names), now).refusal is not None:
        raise RefusedError("services.runs.settles_nothing")
