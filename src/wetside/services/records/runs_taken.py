"""The log of a run that a terminal kept, taken into the archive: looked through first, then all of it or nothing.

A log has no name of its own: its first fact, with the machine's start and the moment in it, is what it is known by. So
the same log changes nothing when it comes again, and a longer one of the same run adds only what is new.
"""

from __future__ import annotations

import json
from pathlib import PurePath
from typing import TYPE_CHECKING, NamedTuple
from uuid import UUID, uuid5

from django.db import transaction
from django.utils import timezone

from wetside.adapters.run_log_read import read_log
from wetside.errors import ConflictError, Place, RefusedError, UnknownNameError
from wetside.records import models
from wetside.records.event_log import fact_of_row
from wetside.runs.fold import fold, is_over
from wetside.runs.schedule import schedule_at
from wetside.runs.simulator import is_played
from wetside.runs.state import Status
from wetside.runs.used import baths_used
from wetside.services.records.changes import bring_back, change, make
from wetside.services.records.runs_log import take_within
from wetside.services.records.runs_sheets import sheets_follow
from wetside.services.records.runs_tied import NO_TIES, NOTHING_FITS, TIED, Ties, checked_ties, fits_of
from wetside.services.records.runs_untied import LOG, UNTIED, own_name, tie_to_load
from wetside.services.run_came import came_of
from wetside.wording import sentence

if TYPE_CHECKING:
    import datetime as dt

    from wetside.adapters.run_log_read import LogRead
    from wetside.runs.fact import Fact
    from wetside.runs.schedule import Schedule
    from wetside.runs.state import State
    from wetside.services.records.runs_tied import Fits

_NAMES = UUID("3f3f1c1e-6a55-5d0b-9f0c-0f4c1b7b2d6e")
"""Space of the names of logs."""
_MEANWHILE = ("services.records.refused", "records.log.moved_on", "runs.log.moved_on")
"""What comes of two pages that take the same log at once: the second finds its run, or its facts, written."""
LONGEST_FILE_NAME = 120
"""Letters of a file's name that are kept. Our choice. [letters]"""


class Looked(NamedTuple):
    """What a log would bring; nothing is written yet.

    ``run`` is the archive's run that it is, None where it is new; ``new`` how many of its facts are not there.
    ``baths`` names what was poured, ``ended`` how it ended, ``came`` what it did to its sheets; ``lasted_s`` how long
    it is known to have lasted [s]; ``fits`` what its labels may be tied to, nothing where that is settled.
    """

    name: str
    read: LogRead
    key: str
    run: models.Run | None
    new: int
    title: str
    began_at: dt.datetime
    state: State
    lasted_s: float
    baths: tuple[str, ...]
    ended: str
    came: tuple[str, ...]
    fits: Fits

    @property
    def facts(self) -> int:
        """Facts of the log."""
        return len(self.read.facts)

    @property
    def removed_at(self) -> dt.datetime | None:
        """When its run was removed; taking the log in brings it back."""
        return None if self.run is None else self.run.removed_at

    @property
    def changes_nothing(self) -> bool:
        """Whether all of it is in the archive."""
        return self.run is not None and not self.new and self.removed_at is None


class Taken(NamedTuple):
    """What was taken: the run, how many facts were new, whether the run is new, how many sheets were tied.

    ``back`` is whether the run was removed, and brought back.
    """

    run: models.Run
    new: int
    made: bool
    tied: int
    back: bool


def file_name(name: str) -> str:
    """Name of a file without folders, as it is shown and kept."""
    plain = "".join(mark for mark in PurePath(name.replace("\\", "/")).name if mark.isprintable())
    return plain[:LONGEST_FILE_NAME] or "log"


def look_at_log(data: bytes, name: str) -> Looked:
    """Look through a log.

    Parameters
    ----------
    data : bytes
    name : str
        Of the file.

    Raises
    ------
    InputError
        With file, line and field of what cannot be taken; or where the archive has the run with another continuation.
    RefusedError
        If it is a simulated run that is no rehearsal, or its run went with its plan.
    """
    name = file_name(name)
    read = read_log(data, name)
    state = fold(read.facts)
    script = state.script
    assert script is not None and state.clock is not None  # noqa: S101, PT018 (the reader has found the opening)
    if not state.rehearsal and any(is_played(fact.boot_id) for fact in read.facts):
        raise RefusedError("services.runs_taken.played", place=Place(name))
    key = _key_of(read.facts[0])
    run = _run_of(key, name)
    known = {} if run is None else {one.name: one for one in map(fact_of_row, run.events.order_by("seq"))}
    for line, fact in enumerate(read.facts, 2):
        if known.get(fact.name, fact) != fact:
            raise ConflictError(
                "services.runs_taken.other", place=Place(name, line), run=run, number=fact.device_number
            )
    schedule = schedule_at(state, state.known_s)
    tied = run is not None and (run.plan_id is not None or bool(run.facts.get(TIED)))
    return Looked(
        name=name,
        read=read,
        key=key,
        run=run,
        new=sum(fact.name not in known for fact in read.facts),
        title=own_name(state),
        began_at=state.clock.origin.at_utc,
        state=state,
        lasted_s=state.known_s,
        baths=_baths(state, schedule),
        ended=sentence(f"services.runs_taken.{state.status.value}", {"at_s": state.known_s}),
        came=tuple(came_of(state, schedule)) if is_over(state) else (),
        fits=NOTHING_FITS if tied or state.rehearsal else fits_of(script),
    )


def _baths(state: State, schedule: Schedule) -> tuple[str, ...]:
    """Names of the baths that were poured; of a run that was only opened none was told."""
    if state.status is Status.READY:
        return ()
    used = baths_used(state, schedule)
    return tuple(one.bath or sentence(f"runs.bath.{one.kind.value}", {}) for one in used)


def _key_of(first: Fact) -> str:
    """Identity of a log's run, by its first fact."""
    values = [first.device, first.device_number, first.at_utc.isoformat(), first.boot_s, first.boot_id, first.data]
    return str(uuid5(_NAMES, json.dumps(values, sort_keys=True, ensure_ascii=True)))


def _run_of(key: str, name: str) -> models.Run | None:
    """Run of the archive that a log is: one of its own, which may have been removed, or the load that it was taken for.

    Raises
    ------
    RefusedError
        If it went with its plan.
    """
    found: models.Run | None = (
        models.Run.objects.filter(pk=key).first() or models.Run.objects.filter(facts__log__key=key).first()
    )
    if found is not None and found.removed_at is not None and found.plan_id is not None:
        raise RefusedError("services.runs_taken.removed", place=Place(name), run=found.name)
    return found


def take_log(data: bytes, name: str, ties: Ties = NO_TIES) -> Taken:
    """Take a log into the archive; what is there already is not written again.

    Parameters
    ----------
    data : bytes
    name : str
        Of the file.
    ties : Ties
        What a person says of its sheets.

    Raises
    ------
    WetsideError
        As :func:`look_at_log`; or if what the sheets are tied to does not fit. Then nothing is written.
    """
    try:
        with transaction.atomic():
            return _taken(look_at_log(data, name), ties)
    except ConflictError as error:
        if error.code not in _MEANWHILE:
            raise
        raise ConflictError("services.runs_taken.meanwhile", place=Place(file_name(name))) from error


def _taken(looked: Looked, ties: Ties) -> Taken:
    names = checked_ties(ties, looked.fits)
    load = _load_of(looked.fits, ties)
    run = looked.run or load or _made(looked)
    run = models.Run.objects.select_for_update(of=("self",)).select_related("plan").get(pk=run.pk)
    back = run.removed_at is not None
    if back:
        run = bring_back(run, why=f"log {looked.name}")
    if load is not None and looked.run is not None:
        run = tie_to_load(run, load)
    facts = {**run.facts, LOG: {"key": looked.key, "name": looked.name, "taken_at": timezone.now().isoformat()}}
    if names and run.plan_id is None:
        facts[TIED] = names
        facts.pop(UNTIED, None)
    if looked.new or names or looked.run is None:
        run = change(run, {"facts": facts}, why=f"log {looked.name}")
    state = take_within(run, looked.read.facts)
    run.refresh_from_db()
    if (names or load is not None) and state.status is Status.ENDED:
        sheets_follow(run, state)
    return Taken(run, looked.new, looked.run is None, len(names) or (len(state.sheets) if load else 0), back)


def _made(looked: Looked) -> models.Run:
    """Run of its own for a new log."""
    values = {"name": looked.title[: models.LABEL_LENGTH], "rehearsal": looked.state.rehearsal}
    return make(models.Run, {"id": UUID(looked.key), **values}, why=f"log {looked.name}")


def _load_of(fits: Fits, ties: Ties) -> models.Run | None:
    """The load that a person says it is.

    Raises
    ------
    UnknownNameError
        If it is none of those that fit, or was begun meanwhile.
    """
    if ties.load is None:
        return None
    found = next((run for run in fits.loads if str(run.pk) == ties.load), None)
    if found is None:
        raise UnknownNameError("services.runs_taken.no_such_load", place=Place(field="tie"))
    return found
