"""The log of a run as the server keeps it: the run's own column follows in the same transaction, and a fold is kept.

Facts are what a run is; its ``state`` column is only what lists ask for. What was folded once is kept for the runs that
were asked for last, so that a long log costs one question and the fold of what is new.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from typing import TYPE_CHECKING

from wetside.errors import ConflictError
from wetside.records import models
from wetside.records.event_log import StoredLog
from wetside.runs.conduct import Conduct
from wetside.runs.fold import fold
from wetside.runs.state import Status
from wetside.services.records.changes import change
from wetside.services.records.runs_sheets import lost_follow, sheets_follow

if TYPE_CHECKING:
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
_OF_LOSS = ("lost", "taken-back")
"""Facts after which a sheet of a run that is over may be lost, or lost no more."""


class KeptConduct(Conduct):
    """A conduct that begins with what the process has folded, and leaves there what it folds."""

    def state(self) -> State:
        """State by all facts that the log has now."""
        before = len(self._facts)
        state = super().state()
        if len(self._facts) != before:
            FOLDS.put(self.run, (tuple(self._facts), state))
        return state


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
        # Within the transaction the log holds just what the conduct knew, or the append would have been refused.
        state = fold([*conduct.facts, *(numbered.fact for numbered in new)])
        _follow_column(run, state)
        if state.status is Status.ENDED and any(one.fact.kind in _OF_LOSS for one in new):
            lost_follow(run, state)

    conduct = KeptConduct(StoredLog(follow), key, device, FOLDS.get(key))
    return conduct


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
