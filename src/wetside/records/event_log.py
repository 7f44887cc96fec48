"""The log of a run in the database: SQLite and PostgreSQL keep the same promise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.db.models import Max, Q

from wetside.errors import ConflictError, UnknownNameError
from wetside.records.models import Run, RunEvent
from wetside.runs.event_log import Numbered, Taken, places_for
from wetside.runs.fact import Fact

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

AT_ONCE = 400
"""Names that one question to the database holds: SQLite takes no more than 999 values. [1]"""
READ_AT_ONCE = 2000


class StoredLog:
    """Facts in the table of run events, which refuses to change or remove one.

    An append is one transaction of its own. The writer first takes the run's row (PostgreSQL) or the whole file
    (SQLite, which begins every transaction as a writing one), so that two writers come one after the other; the
    table's own rules would refuse the second even without that.

    Parameters
    ----------
    also : callable, optional
        Gets the run's key and the facts that are new, within the transaction that keeps them.
    within : bool
        Whether an append is part of a transaction that the caller began, and stands or falls with it.
    """

    def __init__(
        self, also: Callable[[str, tuple[Numbered, ...]], None] | None = None, *, within: bool = False
    ) -> None:
        self._also = also
        self._within = within

    def append(self, run: str, facts: Sequence[Fact], *, expected: int) -> Taken:
        """Take facts; see :meth:`wetside.runs.event_log.EventLog.append`.

        Raises
        ------
        UnknownNameError
            If there is no such run.
        """
        try:
            with transaction.atomic(durable=not self._within):
                return self._append(run, facts, expected)
        except IntegrityError as error:
            raise ConflictError("records.log.moved_on", expected=expected) from error

    def read(self, run: str, after: int = 0) -> Iterator[Numbered]:
        """Facts after a place, in order."""
        rows = RunEvent.objects.filter(run_id=run, seq__gt=after).order_by("seq")
        return (_numbered(row) for row in rows.iterator(READ_AT_ONCE))

    def last(self, run: str) -> int:
        """Place of the run's last fact; 0 where there is none."""
        return int(RunEvent.objects.filter(run_id=run).aggregate(last=Max("seq"))["last"] or 0)

    def _append(self, run: str, facts: Sequence[Fact], expected: int) -> Taken:
        try:
            found = Run.objects.select_for_update().filter(pk=run).exists()
        except (ValidationError, ValueError):
            found = False
        if not found:
            raise UnknownNameError("records.log.no_run", run=run)
        last = self.last(run)
        seqs, new = places_for(facts, self._known(run, facts), last, expected)
        RunEvent.objects.bulk_create(
            [
                RunEvent(
                    run_id=run,
                    seq=one.seq,
                    kind=one.fact.kind,
                    version=one.fact.version,
                    at_utc=one.fact.at_utc,
                    boot_s=one.fact.boot_s,
                    boot_id=one.fact.boot_id,
                    device=one.fact.device,
                    device_number=one.fact.device_number,
                    data=one.fact.data,
                )
                for one in new
            ]
        )
        if new and self._also is not None:
            self._also(run, new)
        return Taken(seqs, len(new), last + len(new))

    @staticmethod
    def _known(run: str, facts: Sequence[Fact]) -> dict[tuple[str, int], Numbered]:
        numbers: dict[str, list[int]] = {}
        for fact in facts:
            numbers.setdefault(fact.device, []).append(fact.device_number)
        known = {}
        for device, all_numbers in numbers.items():
            for start in range(0, len(all_numbers), AT_ONCE):
                asked = Q(run_id=run, device=device, device_number__in=all_numbers[start : start + AT_ONCE])
                for row in RunEvent.objects.filter(asked):
                    known[row.device, row.device_number] = _numbered(row)
        return known


def _numbered(row: RunEvent) -> Numbered:
    return Numbered(row.seq, fact_of_row(row))


def fact_of_row(row: RunEvent) -> Fact:
    """Fact that a row of the table keeps."""
    return Fact(
        kind=row.kind,
        version=row.version,
        at_utc=row.at_utc,
        boot_s=row.boot_s,
        boot_id=row.boot_id,
        device=row.device,
        device_number=row.device_number,
        data=row.data,
    )
