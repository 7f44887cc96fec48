"""Runs for programs: their facts, what they add up to, and readings that a thermometer posts."""

from __future__ import annotations

import datetime as dt  # noqa: TC003 (parts of public types, which are asked for when the program runs)
from typing import TYPE_CHECKING, Any, NamedTuple
from uuid import UUID

from django.db.models import Count

from wetside.errors import ConflictError, InputError, RefusedError, UnknownNameError
from wetside.records.event_log import StoredLog
from wetside.records.models import Instrument, InstrumentKind, Run, RunEvent, RunState
from wetside.runs.commands import Post
from wetside.runs.events import Where
from wetside.runs.fold import fold
from wetside.runs.readings import Posted, kept_code
from wetside.services.records.reading_on import Piece, piece_of
from wetside.services.records.runs import command, conduct_of, find_run
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.runs.moment import Moment
    from wetside.runs.state import State

DEVICE = "thermometers"
"""Name under which posted readings stand in a run's log."""
SOONEST_S = 5.0
"""Our choice: readings of one place closer together tell nothing new, and fill a log that keeps every fact. [s]"""


class RunRead(NamedTuple):
    """A load as it happened. ``state`` is ready, running, ended or abandoned; ``facts`` how many it has."""

    id: UUID
    name: str
    plan: UUID | None
    load: int
    state: str
    rehearsal: bool
    facts: int
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime


class UsedReading(NamedTuple):
    """A reading that counts: when on the run's clock [s], the temperature without the instrument's error [C], where."""

    at_s: float
    temp_c: float
    where: str


class AsideReading(NamedTuple):
    """A posted reading that is not used: when it came [s], what was shown, where, by what, and why it is not used."""

    at_s: float
    shown: str
    where: str
    instrument: str
    code: str
    sentence: str


class ContestedRead(NamedTuple):
    """A fact that does not count as it stands."""

    device: str
    number: int
    kind: str
    code: str
    sentence: str


class IncidentRead(NamedTuple):
    """Something that went wrong: when it began [s], what, on which sheets it was seen, in whose words.

    ``sheets`` is empty where nobody named any: then by when it was. ``after`` is True where it was only seen once the
    run was over.
    """

    at_s: float
    what: str
    sheets: list[str]
    text: str
    after: bool


class FoldedRead(NamedTuple):
    """What the facts of a run add up to. Times are seconds on the run's own clock, 0 when it was opened.

    ``acts`` when each act was done [s]; ``shifts_s`` by how much a developing end was moved [s]; ``known_s`` the run
    has lasted so long for certain [s]; ``order`` sheets by clip, None where nobody knows.
    """

    status: str
    rehearsal: bool
    known_s: float
    doubtful: bool
    acts: dict[str, float]
    shifts_s: dict[str, float]
    sheets: list[str]
    lost: list[str]
    order: list[str] | None
    incidents: list[IncidentRead]
    readings: list[UsedReading]
    set_aside: list[AsideReading]
    contested: list[ContestedRead]


class FactRead(NamedTuple):
    """One fact of a run, as it was taken.

    ``seq`` is its place in the run's log; ``boot_s`` counts from the start of the device's machine. [s]
    """

    seq: int
    kind: str
    version: int
    at_utc: dt.datetime
    boot_s: float
    boot_id: str
    device: str
    device_number: int
    data: dict[str, Any]


class Facts(NamedTuple):
    """Facts of a run in their order, and the ``seq`` after which the next piece begins; None at the end."""

    items: list[FactRead]
    next: int | None


class SaidRead(NamedTuple):
    """What came of it, as a code and in words."""

    code: str
    sentence: str


class ReadingTaken(NamedTuple):
    """What became of a posted reading: whether it is used, the run, the place of its last fact, and what it means."""

    used: bool
    run: UUID
    seq: int
    reads_high_c: float
    instrument: str
    said: list[SaidRead]


class PostedReading(NamedTuple):
    """A reading as a program sends it.

    What is shown [C], where, the instrument by its name or identity, and its age [s] or its time; neither means now.
    """

    shown_c: float | None
    where: str = Where.DEVELOPER.value
    instrument: str | None = None
    age_s: float | None = None
    at: dt.datetime | None = None


def read_runs(after: str | None, most: int, state: str | None = None) -> Piece:
    """A piece of the list of runs; errors as :func:`wetside.services.records.reading_on.piece_of`."""
    rows = Run.objects.filter(removed_at=None).annotate(facts_there=Count("events"))
    if state is not None:
        rows = rows.filter(state=state)
    return piece_of(rows, after, most, _run)


def read_run(key: UUID) -> RunRead:
    """One run.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    row = Run.objects.filter(removed_at=None, pk=key).annotate(facts_there=Count("events")).first()
    if row is None:
        raise UnknownNameError("services.records.not_found", what="run")
    return _run(row)


def _run(row: Any) -> RunRead:
    names = ("name", "load", "state", "rehearsal", "note", "revision", "made_at", "changed_at")
    return RunRead(id=row.pk, plan=row.plan_id, facts=row.facts_there, **{name: getattr(row, name) for name in names})


def read_state(key: UUID) -> FoldedRead:
    """What a run's facts add up to; errors as :func:`read_run`."""
    read_run(key)
    return _folded(fold(numbered.fact for numbered in StoredLog().read(str(key))))


def _folded(state: State) -> FoldedRead:
    return FoldedRead(
        status=state.status.value,
        rehearsal=state.rehearsal,
        known_s=state.known_s,
        doubtful=state.doubtful,
        acts={key: stamp.at_s for key, stamp in state.stamps.items()},
        shifts_s={key: shift.shift_s for key, shift in state.shifts.items()},
        sheets=list(state.sheets),
        lost=list(state.lost),
        order=None if state.order is None else list(state.order),
        incidents=[
            IncidentRead(one.began_s, one.what.value, list(one.sheets), one.text, one.after) for one in state.incidents
        ],
        readings=[UsedReading(one.at_s, one.temp_c, one.where.value) for one in state.readings],
        set_aside=[
            AsideReading(
                one.at_s, one.shown, one.where.value, one.instrument, one.code, sentence(kept_code(one.code), {})
            )
            for one in state.set_aside
        ],
        contested=[ContestedRead(*one.name, one.kind, one.code, sentence(one.code, {})) for one in state.contested],
    )


def read_facts(key: UUID, after: int, most: int) -> Facts:
    """A piece of a run's facts, in their order; errors as :func:`read_run`."""
    read_run(key)
    rows = list(RunEvent.objects.filter(run=key, seq__gt=after).order_by("seq")[: most + 1])
    cut = rows[:most]
    items = [FactRead(**{name: getattr(row, name) for name in FactRead._fields}) for row in cut]
    return Facts(items, cut[-1].seq if len(rows) > most else None)


def run_going_on() -> UUID:
    """Identity of the one run that goes on.

    Raises
    ------
    ConflictError
        If none goes on, or several do.
    """
    found = list(Run.objects.filter(removed_at=None, state=RunState.RUNNING).values_list("pk", "name")[:9])
    if not found:
        raise ConflictError("services.reading.no_run")
    if len(found) > 1:
        raise ConflictError("services.reading.many_runs", names=[name for _, name in found])
    key: UUID = found[0][0]
    return key


def take_reading(key: UUID, posted: PostedReading, sender: str, now: Moment) -> ReadingTaken:
    """Take a posted reading: used, or kept beside the run with the reason why it is not.

    Parameters
    ----------
    key : UUID
        Of the run.
    posted : PostedReading
    sender : str
        Name of the program that sends it; stands as the instrument where none is named.
    now : Moment
        By this machine's clocks. The sender's own clock only ever makes a reading too old.

    Raises
    ------
    UnknownNameError
        If there is no such run or thermometer.
    ConflictError
        If the run takes no more readings.
    RefusedError
        If the last reading of this place came a moment ago.
    """
    name, reads_high_c = _instrument(posted.instrument, sender)
    run = find_run(key)
    where = Where(posted.where)
    _not_too_soon(conduct_of(run).state(), where, now)
    reading = Posted(posted.shown_c, where, _age_s(posted, now), reads_high_c, name)
    decision = command(run, Post(reading), now, DEVICE)
    if decision.refusal is not None:
        reason = sentence(decision.refusal.code, decision.refusal.params)
        raise ConflictError("services.reading.refused", reason=reason)
    used = any(event.KIND == "read" for event in decision.events)
    said = [SaidRead(one.code, sentence(one.code, one.params)) for one in decision.said]
    return ReadingTaken(used, key, StoredLog().last(str(key)), reads_high_c, name, said)


def _age_s(posted: PostedReading, now: Moment) -> float:
    if posted.age_s is not None:
        return posted.age_s
    if posted.at is None:
        return 0.0
    if posted.at.tzinfo is None:
        raise InputError("services.reading.zone")
    return (now.at_utc - posted.at).total_seconds()


def _not_too_soon(state: State, where: Where, now: Moment) -> None:
    if state.clock is None:
        return
    when = state.clock.at(now, state.known_s)
    last = [one.at_s for one in state.readings if one.where is where]
    last += [one.at_s for one in state.set_aside if one.where is where]
    if last and 0.0 <= when.s - max(last) < SOONEST_S:
        raise RefusedError("services.reading.too_soon", least_s=SOONEST_S)


def _instrument(named: str | None, sender: str) -> tuple[str, float]:
    """Name and offset [C] of a thermometer; without one the sender's name, and no offset."""
    if named is None or not named.strip():
        return sender, 0.0
    rows = Instrument.objects.filter(removed_at=None, kind=InstrumentKind.THERMOMETER)
    found = rows.filter(name_key=plain_name(named)).first()
    if found is None:
        try:
            found = rows.filter(pk=UUID(named)).first()
        except ValueError:
            found = None
    if found is None:
        known = list(rows.values_list("name", flat=True)[:20])
        raise UnknownNameError("services.reading.instrument", value=named, known=known)
    return found.name, found.reads_high
