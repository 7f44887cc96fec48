"""The log of a run as the server keeps it: the run's own column follows in the same transaction, and a fold is kept.

Facts are what a run is; its ``state`` column is only what lists ask for. What was folded once is kept for the runs that
were asked for last, so that a long log costs one question and the fold of what is new.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from functools import reduce
from operator import or_
from typing import TYPE_CHECKING

from django.db.models import Q

from wetside.errors import ConflictError
from wetside.records import models
from wetside.records.event_log import StoredLog, fact_of_row
from wetside.runs.conduct import Conduct
from wetside.runs.fold import fold
from wetside.runs.state import Status
from wetside.services.records.changes import change
from wetside.services.records.page_reads import forget, is_page, is_read, keep, once
from wetside.services.records.runs_numbered import numbers_follow
from wetside.services.records.runs_sheets import lost_follow, sheets_follow

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from uuid import UUID

    from wetside.runs.event_log import Numbered
    from wetside.runs.fact import Fact
    from wetside.runs.state import State

SERVER = "server"
"""Name of the server where it tells facts by itself."""
MOST_KEPT = 64
"""Runs whose fold is kept in a process; nobody has so many at once. Our choice. [runs]"""

Known = tuple[tuple["Fact", ...], "State"]


class Folds:
    """Facts and folded state of the runs that were asked for last; safe to share between threads."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._most = most
        self._kept: OrderedDict[str, Known] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, run: str) -> Known | None:
        """Facts of a run and their state, or None."""
        with self._lock:
            if run in self._kept:
                self._kept.move_to_end(run)
            return self._kept.get(run)

    def put(self, run: str, known: Known) -> None:
        """Keep what was folded, unless more is known already."""
        with self._lock:
            before = self._kept.get(run)
            if before is None or len(before[0]) < len(known[0]):
                self._kept[run] = known
            self._kept.move_to_end(run)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)

    def forget(self) -> None:
        """Begin anew: the tables were put in another's place."""
        with self._lock:
            self._kept.clear()

    def __len__(self) -> int:
        return len(self._kept)


FOLDS = Folds()
_OF_ORDER = ("identified", "taken-back")
"""Facts after which another order of a run's sheets may count, and with it the numbers of their negatives."""
_OF_LOSS = ("lost", "taken-back")
"""Facts after which a sheet of a run that is over may be lost, or lost no more."""


class KeptConduct(Conduct):
    """A conduct that begins with what the process has folded, and leaves there what it folds."""

    def state(self) -> State:
        """State by all facts that the log has now, or had when this page first asked."""
        facts, self._state = once(_on_page(self.run), self._read)
        self._facts = list(facts)
        return self._state

    def _read(self) -> Known:
        before = len(self._facts)
        state = super().state()
        known = tuple(self._facts), state
        if len(known[0]) != before:
            FOLDS.put(self.run, known)
        return known


def _on_page(run: str) -> tuple[str, str]:
    return "log of a run", run


def states_of(runs: Iterable[UUID]) -> dict[UUID, State]:
    """States of several runs by all facts that their logs have now; one question, whatever is known of them."""
    logs = {key: list(known[0]) if (known := FOLDS.get(str(key))) is not None else [] for key in runs}
    if not logs:
        return {}
    asked = reduce(or_, (Q(run=key, seq__gt=len(log)) for key, log in logs.items()))
    for row in models.RunEvent.objects.filter(asked).order_by("run", "seq"):
        logs[row.run_id].append(fact_of_row(row))
    states = {}
    for key, log in logs.items():
        before = FOLDS.get(str(key))
        known = before if before is not None and len(before[0]) == len(log) else (tuple(log), fold(log))
        FOLDS.put(str(key), known)
        keep(_on_page(str(key)), known)
        states[key] = known[1]
    return states


def read_together(runs: Iterable[models.Run]) -> None:
    """Read the logs of several runs by one question, where a page asks for one after another; nothing elsewhere."""
    keys = [run.pk for run in runs if not is_read(_on_page(str(run.pk)))]
    if is_page() and len(keys) > 1:
        states_of(keys)


def conduct_of(run: models.Run, device: str = SERVER) -> Conduct:
    """One device at a run of the archive.

    Parameters
    ----------
    run : Run
    device : str
        Whose facts it tells.
    """
    key = str(run.pk)
    conduct: KeptConduct

    def follow(_: str, new: tuple[Numbered, ...]) -> None:
        forget()
        # Within the transaction the log holds just what the conduct knew, or the append would have been refused.
        state = fold([*conduct.facts, *(numbered.fact for numbered in new)])
        before = conduct.folded
        _follow(run, fold(conduct.facts) if before is None else before, state, new)

    conduct = KeptConduct(StoredLog(follow), key, device, FOLDS.get(key))
    return conduct


def take_within(run: models.Run, facts: Sequence[Fact]) -> State:
    """Take facts of another log as part of a transaction that the caller began; each is taken once.

    What the process keeps folded is left alone: it would outlive a transaction that fails.

    Parameters
    ----------
    run : Run
        Locked by the caller.
    facts : sequence of Fact

    Returns
    -------
    state : State
        By all facts of the run.

    Raises
    ------
    ConflictError
        If a known name comes with another content.
    """
    key = str(run.pk)
    before = [numbered.fact for numbered in StoredLog().read(key)]
    found = fold(before)

    def follow(_: str, new: tuple[Numbered, ...]) -> None:
        nonlocal found
        forget()
        earlier, found = found, fold([*before, *(numbered.fact for numbered in new)])
        _follow(run, earlier, found, new)

    StoredLog(follow, within=True).append(key, facts, expected=len(before))
    return found


def _follow(run: models.Run, before: State, state: State, new: Iterable[Numbered]) -> None:
    _follow_column(run, state)
    kinds = {one.fact.kind for one in new}
    if state.status is Status.ENDED and kinds & set(_OF_LOSS):
        lost_follow(run, state)
    if kinds & set(_OF_ORDER):
        numbers_follow(run, before, state)


def _follow_column(run: models.Run, state: State) -> None:
    if state.status is Status.NOTHING:
        return
    before = models.Run.objects.values_list("state", flat=True).get(pk=run.pk)
    if before == state.status.value:
        return
    try:
        changed = change(run, {"state": models.RunState(state.status.value)}, why="as its facts say")
    except ConflictError:
        # A load that was given up and begun anew has another run by now. Facts are kept whatever the column may say.
        return
    sheets_follow(changed, state)
