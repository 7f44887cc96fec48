"""What went wrong with the sheets of a run, told while it is on, after it, or at hanging; and taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.errors import InputError, Place, RefusedError, UnknownNameError
from wetside.runs import commands as c
from wetside.runs.events import Incident, Lost, event_of_fact
from wetside.runs.state import Status
from wetside.services.records import runs
from wetside.services.records.runs_log import conduct_of
from wetside.services.records.runs_posted import command_of_posted
from wetside.services.records.runs_settled import settled
from wetside.services.records.sheets_runs import incident_said
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.records import models
    from wetside.runs.decide import Decision, Said
    from wetside.runs.fact import Fact
    from wetside.runs.moment import Moment
    from wetside.runs.state import IncidentAt, Name, State

LOST = "lost"
"""What a person tells beside the incidents: the sheet is gone, and hangs nowhere."""
KINDS = (LOST, *(one.value for one in Incident))


class Told(NamedTuple):
    """Something that was told of a run: the name of its fact, and what is said of it."""

    device: str
    number: int
    said: str


class Mishaps(NamedTuple):
    """Where a run stands with what went wrong.

    ``asked`` is True where something may be told; ``sheets`` all of its script, ``lost`` those that are lost.
    """

    run: models.Run
    state: State
    asked: bool
    sheets: tuple[str, ...]
    lost: tuple[str, ...]
    told: tuple[Told, ...]


def mishaps_of(run: models.Run) -> Mishaps:
    """What went wrong in a run so far, and what may be told of it."""
    conduct = conduct_of(run)
    state = conduct.state()
    script = state.script
    return Mishaps(
        run=run,
        state=state,
        asked=state.status is not Status.NOTHING,
        sheets=() if script is None else tuple(sheet.id for sheet in script.sheets),
        lost=state.lost,
        told=_told(conduct.facts, state),
    )


def _told(facts: Sequence[Fact], state: State) -> tuple[Told, ...]:
    apart = state.taken_back | {one.name for one in state.contested}
    incidents = {one.name: one for one in state.incidents}
    told: list[Told] = []
    for fact in facts:
        name = (fact.device, fact.device_number)
        event = event_of_fact(fact) if fact.kind == Lost.KIND and name not in apart else None
        if name in incidents:
            told.append(Told(*name, _noted_said(incidents[name])))
        elif isinstance(event, Lost):
            told.append(Told(*name, sentence("services.run_after.lost", {"sheets": [event.sheet]})))
    return tuple(told)


def _noted_said(incident: IncidentAt) -> str:
    told = incident_said(incident)
    if not incident.sheets:
        return told
    return f"{told} {sentence('services.run_after.touched', {'sheets': list(incident.sheets)})}"


def tell_mishap(
    run: models.Run, given: Mapping[str, str], sheets: Sequence[str], now: Moment, *, units: str = "metric"
) -> tuple[Said, ...]:
    """Keep what went wrong.

    Parameters
    ----------
    run : Run
    given : mapping
        ``what``, ``ago_s`` and ``text`` as they were typed.
    sheets : sequence of str
        Those that it was seen on; none where nobody knows.
    now : Moment
    units : str
        Of the darkroom.

    Raises
    ------
    WetsideError
        With the field of what cannot be taken: no sheet was chosen where one must be, one is lost already, a time
        that does not lie within the run.
    """
    what = given.get("what", "")
    if what not in KINDS:
        raise InputError("services.runs.value", place=Place(field="what"), value=what[:60])
    typed = {"ago_s": given.get("ago_s", ""), "text": given.get("text", "")}
    lost, names = what == LOST, list(dict.fromkeys(sheets))
    kind = Incident.OTHER.value if lost else what
    asked = command_of_posted("incident", {**typed, "what": kind, "sheets": names}, units=units)
    if not lost:
        return _said(runs.command(run, asked, now))
    if not names:
        raise InputError("services.runs.which_lost", place=Place(field="sheets"))
    left = conduct_of(run).state().sheets
    for name in names:
        if name not in left:
            raise RefusedError("services.runs.not_left", place=Place(field="sheets"), sheet=name, sheets=left)
    if typed["text"].strip():
        _said(runs.command(run, asked, now))
    return tuple(one for name in names for one in _said(runs.command(run, c.Lose(name), now)))


_FIELD = {"runs.refused.ago": "ago_s", "runs.refused.no_time": "ago_s", "runs.refused.status": "what"}


def _said(decision: Decision) -> tuple[Said, ...]:
    refused = decision.refusal
    if refused is not None:
        params: dict[str, Any] = dict(refused.params)
        raise RefusedError(refused.code, place=Place(field=_FIELD.get(refused.code, "sheets")), **params)
    return decision.said


def take_mishap_back(run: models.Run, device: str, number: int, now: Moment) -> None:
    """Take back what was told by mistake; the fact stays in the log and no longer counts.

    Raises
    ------
    UnknownNameError
        If nothing of that name counts, because it was taken back already.
    """

    def names(facts: tuple[Fact, ...], state: State) -> tuple[Name, ...]:
        if not any((one.device, one.number) == (device, number) for one in _told(facts, state)):
            raise UnknownNameError("services.runs.nothing_told_so")
        return ((device, number),)

    settled(run, names, now)
