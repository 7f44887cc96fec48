"""The examination of the archive: folder, database, rules that no single table can guard. It changes nothing."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import DatabaseError, connection

from wetside.adapters import backup_store as store
from wetside.adapters.data_folder import BACKUPS, DATABASE, folder_info
from wetside.adapters.database_file import look_at
from wetside.adapters.drives import refuse_shared_drive
from wetside.errors import RefusedError
from wetside.services.archive.migrations import MARK_TABLE, form_of_tables, has_tables
from wetside.services.archive.rules import RULES
from wetside.services.archive.tables import one_state, tables

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from wetside.adapters.data_folder import FolderInfo

MOST_OF_A_KIND = 20
"""Findings of one kind that are told one by one; the rest is counted. [1]"""


class Weight(StrEnum):
    """How much a finding weighs."""

    WRONG = "wrong"
    MIND = "mind"


class Finding(NamedTuple):
    """What was found: a code with parameters, whose sentence says what to do, and its weight."""

    code: str
    params: Mapping[str, Any]
    weight: Weight = Weight.WRONG


class Examined(NamedTuple):
    """What was looked at and what was found; ``rows`` counts each table where the database could be read."""

    findings: tuple[Finding, ...]
    rows: Mapping[str, int]
    backups: int
    newest: str

    @property
    def sound(self) -> bool:
        """Whether nothing is wrong; what is only to be minded does not count."""
        return all(finding.weight is not Weight.WRONG for finding in self.findings)

    @property
    def total_rows(self) -> int:
        """Rows of all tables."""
        return sum(self.rows.values())


def examine(folder: Path) -> Examined:
    """Look at everything.

    Parameters
    ----------
    folder : Path
        The data folder.

    Raises
    ------
    WetsideError
        If it is no data folder, or a newer one: then nothing can be said of it.
    """
    info = folder_info(folder)
    if info is None:
        raise RefusedError("services.archive.nothing_here", folder=str(folder))
    findings = list(_of_folder(folder, info))
    rows: dict[str, int] = {}
    if not any(finding.code in STOPPING for finding in findings):
        try:
            with one_state():
                rows = {table.name: table.model._default_manager.count() for table in tables()}  # noqa: SLF001
                findings += _of_rules(folder)
        except DatabaseError as error:
            findings.append(Finding("services.check.unreadable", {"reason": " ".join(str(error).split())}))
    findings += _of_backups(folder)
    backups = store.verified_backups(folder)
    return Examined(tuple(findings), rows, len(backups), backups[0].name if backups else "")


STOPPING = frozenset(
    {
        "services.check.other_database",
        "services.check.missing",
        "services.check.damaged",
        "services.check.older_tables",
        "services.check.newer_tables",
        "services.check.unreadable",
        "services.check.empty",
    }
)
"""Findings after which the tables are not asked any more."""


def _of_folder(folder: Path, info: FolderInfo) -> Iterator[Finding]:
    keeper = connection.vendor
    if not info.records:
        yield Finding("services.check.empty", {}, Weight.MIND)
        return
    if info.records != keeper:
        yield Finding("services.check.other_database", {"kept": info.records, "named": keeper})
        return
    newest = next((one.name for one in store.verified_backups(folder) if store.is_unharmed(folder, one)), "none")
    if keeper == "sqlite":
        try:
            refuse_shared_drive(folder)
        except RefusedError as error:
            params = {"kind": error.params["kind"], "point": error.params["point"]}
            yield Finding("services.check.shared_drive", params)
        database = folder / DATABASE
        if not database.exists():
            yield Finding("services.check.missing", {"name": newest})
            return
        look = look_at(database)
        if look.damage:
            yield Finding("services.check.damaged", {"reason": look.damage[0], "name": newest})
            return
        for table, count in look.strays:
            yield Finding("services.check.strays", {"table": table, "count": count})
        if MARK_TABLE not in look.rows:  # asked from outside: the framework would write into a file that is not ours
            yield Finding("services.check.missing", {"name": newest})
            return
    try:
        if not has_tables():
            yield Finding("services.check.missing", {"name": newest})
            return
        form = form_of_tables()
    except DatabaseError as error:
        yield Finding("services.check.unreadable", {"reason": " ".join(str(error).split())})
        return
    if form.unknown:
        yield Finding("services.check.newer_tables", {"name": form.unknown[-1]})
    elif form.pending:
        yield Finding("services.check.older_tables", {"count": len(form.pending)})


def _of_rules(folder: Path) -> list[Finding]:
    found: list[Finding] = []
    for rule in RULES:
        told = 0
        for code, params in rule(folder):
            told += 1
            if told <= MOST_OF_A_KIND:
                weight = Weight.MIND if code in MINDED else Weight.WRONG
                found.append(Finding(code, params, weight))
        if told > MOST_OF_A_KIND:
            found.append(Finding("services.check.and_more", {"count": told - MOST_OF_A_KIND}))
    return found


MINDED = frozenset({"services.check.stray_file", "services.check.no_history"})
"""Findings that lose nothing."""


def _of_backups(folder: Path) -> Iterator[Finding]:
    backups = store.verified_backups(folder)
    if not backups:
        yield Finding("services.check.no_backup", {}, Weight.MIND)
    for backup in backups:
        if not store.is_unharmed(folder, backup):
            yield Finding("services.check.backup_harmed", {"name": backup.name})
    known = {backup.name for backup in backups}
    for ending in store.ENDINGS.values():
        for path in sorted((folder / BACKUPS).glob(f"[0-9]*{ending}")):
            if path.name not in known:
                yield Finding("services.check.backup_uncounted", {"name": path.name}, Weight.MIND)
