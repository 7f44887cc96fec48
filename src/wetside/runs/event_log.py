"""The log of a run: facts in the order in which they were taken, each once, none ever changed.

The log is what a run is: its state is folded from it, and whoever knows the log knows the run. Here stand the promise,
the one rule by which facts are taken, and a form in memory; the form in the database is ``wetside.records.event_log``.
Both pass the same tests.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, Protocol

from wetside.errors import ConflictError, OutOfRangeError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from wetside.runs.fact import Fact


class Numbered(NamedTuple):
    """A fact with its place in the run's log, counted from 1 without a gap."""

    seq: int
    fact: Fact


class Taken(NamedTuple):
    """What became of the facts that were handed over.

    ``seqs`` are their places, in the order in which they were given; ``new`` how many were not known before; ``last``
    the place of the run's last fact now.
    """

    seqs: tuple[int, ...]
    new: int
    last: int


class EventLog(Protocol):
    """A log of runs. A run's key is its identity as text."""

    def append(self, run: str, facts: Sequence[Fact], *, expected: int) -> Taken:
        """Take facts: all of them in one transaction, or none.

        A fact that is known already, by its device and device number, keeps its place and is not taken again: handing
        over twice what was taken once gives the same answer.

        Parameters
        ----------
        run : str
        facts : sequence of Fact
            In the order in which they happened.
        expected : int
            Place of the last fact that the writer knows; 0 before the first. Asked only where something is new.

        Raises
        ------
        ConflictError
            If others wrote meanwhile (``runs.log.moved_on``: read on and decide anew), or a known name comes with
            another content (``runs.log.other_fact``).
        """
        ...

    def read(self, run: str, after: int = 0) -> Iterator[Numbered]:
        """Facts after a place, in order.

        Parameters
        ----------
        run : str
        after : int
            0 reads from the first.
        """
        ...

    def last(self, run: str) -> int:
        """Place of the run's last fact; 0 where there is none."""
        ...


def places_for(
    facts: Sequence[Fact], known: Mapping[tuple[str, int], Numbered], last: int, expected: int
) -> tuple[tuple[int, ...], tuple[Numbered, ...]]:
    """Rule by which facts are taken, the same for every form of the log.

    Parameters
    ----------
    facts : sequence of Fact
    known : mapping
        Those facts of the run that bear one of their names.
    last : int
        Place of the run's last fact.
    expected : int
        What the writer takes it for.

    Returns
    -------
    seqs : tuple of int
        Place of each given fact.
    new : tuple of Numbered
        Facts to write.

    Raises
    ------
    ConflictError
        As :meth:`EventLog.append`.
    """
    if expected < 0:
        raise OutOfRangeError("runs.log.expected", value=expected)
    seen = dict(known)
    seqs: list[int] = []
    new: list[Numbered] = []
    for fact in facts:
        before = seen.get(fact.name)
        if before is None:
            before = Numbered(last + len(new) + 1, fact)
            seen[fact.name] = before
            new.append(before)
        elif before.fact != fact:
            raise ConflictError("runs.log.other_fact", device=fact.device, number=fact.device_number, seq=before.seq)
        seqs.append(before.seq)
    if new and expected != last:
        raise ConflictError("runs.log.moved_on", expected=expected, last=last)
    return tuple(seqs), tuple(new)


class MemoryLog:
    """The log in memory, for rehearsals and tests; one writer at a time."""

    def __init__(self) -> None:
        self._runs: dict[str, list[Numbered]] = {}

    def append(self, run: str, facts: Sequence[Fact], *, expected: int) -> Taken:
        """Take facts; see :meth:`EventLog.append`."""
        taken = self._runs.get(run, [])
        known = {one.fact.name: one for one in taken}
        seqs, new = places_for(facts, known, len(taken), expected)
        self._runs[run] = [*taken, *new]
        return Taken(seqs, len(new), len(taken) + len(new))

    def read(self, run: str, after: int = 0) -> Iterator[Numbered]:
        """Facts after a place, in order."""
        yield from self._runs.get(run, [])[after:]

    def last(self, run: str) -> int:
        """Place of the run's last fact; 0 where there is none."""
        return len(self._runs.get(run, []))
