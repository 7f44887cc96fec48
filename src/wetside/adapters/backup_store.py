"""Backups in the data folder: a file, and beside it what was counted when it was opened again.

Only a backup with such a note counts. The note is written last, so that a backup that was broken off never has one.
"""

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.attachments import hash_of_file
from wetside.adapters.data_folder import BACKUPS
from wetside.adapters.suggest import nearest_word
from wetside.adapters.whole_file import write_whole
from wetside.errors import InputError, Place, UnknownNameError

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

BACKUP_FORMAT = 1
"""Format of the note beside a backup. [1]"""
ENDINGS = {"sqlite": ".sqlite3", "postgresql": ".zip"}
"""A copy of the database file, or an export as plain files."""


class Backup(NamedTuple):
    """A backup that was opened, checked and counted.

    ``reason`` is ``start``, ``migration``, ``asked`` or ``restore``; ``rows`` counts each table; ``migrations`` is
    the newest migration of the records that it holds.
    """

    name: str
    made_at: dt.datetime
    reason: str
    keeper: str
    size_bytes: int
    sha256: str
    rows: Mapping[str, int]
    migration: str
    archive: str
    tool: str

    @property
    def total_rows(self) -> int:
        """Rows of all tables of records."""
        return sum(count for table, count in self.rows.items() if table.startswith("records_"))


def backups_folder(folder: Path) -> Path:
    """Folder of the backups, made if it is not there."""
    within = folder / BACKUPS
    try:
        within.mkdir(mode=0o700, exist_ok=True)
    except OSError as error:
        raise InputError(
            "files.file.unwritable", place=Place(file=str(within)), name=BACKUPS, reason=str(error.strerror)
        ) from error
    return within


def name_for(made_at: dt.datetime, reason: str, keeper: str) -> str:
    """Name by time and reason; names sort by time."""
    return f"{made_at.astimezone(dt.UTC):%Y%m%d-%H%M%S-%f}-{reason}{ENDINGS[keeper]}"


def write_note(folder: Path, backup: Backup) -> None:
    """Say beside a backup what was counted: from now on it counts."""
    note = {
        "format": BACKUP_FORMAT,
        "made_at": backup.made_at.astimezone(dt.UTC).isoformat(),
        "reason": backup.reason,
        "keeper": backup.keeper,
        "size_bytes": backup.size_bytes,
        "sha256": backup.sha256,
        "rows": dict(sorted(backup.rows.items())),
        "migration": backup.migration,
        "archive": backup.archive,
        "tool": backup.tool,
        "verified": True,
    }
    write_whole(note_of(folder, backup.name), json.dumps(note, indent=2) + "\n")


def note_of(folder: Path, name: str) -> Path:
    """Path of the note beside a backup."""
    return folder / BACKUPS / f"{name}.json"


def verified_backups(folder: Path) -> tuple[Backup, ...]:
    """Backups that count, the newest first; what cannot be understood does not count and is left alone."""
    found = []
    for note in sorted((folder / BACKUPS).glob("*.json"), reverse=True):
        try:
            backup = read_note(folder, note.name.removesuffix(".json"))
        except InputError:
            continue
        if (folder / BACKUPS / backup.name).is_file():
            found.append(backup)
    return tuple(sorted(found, key=lambda one: (one.made_at, one.name), reverse=True))


def read_note(folder: Path, name: str) -> Backup:
    """Backup by its name.

    Raises
    ------
    InputError
        If its note cannot be understood.
    """
    note = note_of(folder, name)
    try:
        table: dict[str, Any] = json.loads(note.read_text(encoding="utf-8"))
        if table["format"] != BACKUP_FORMAT or table["verified"] is not True:
            raise ValueError  # noqa: TRY301 (told below, with all other ways to be wrong)
        return Backup(
            name=name,
            made_at=dt.datetime.fromisoformat(table["made_at"]),
            reason=str(table["reason"]),
            keeper=str(table["keeper"]),
            size_bytes=int(table["size_bytes"]),
            sha256=str(table["sha256"]),
            rows={str(key): int(value) for key, value in table["rows"].items()},
            migration=str(table["migration"]),
            archive=str(table["archive"]),
            tool=str(table["tool"]),
        )
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as error:
        raise InputError("files.backup.about", place=Place(file=str(note)), name=name) from error


def find_backup(folder: Path, name: str) -> Backup:
    """Backup by the name that a person typed.

    Raises
    ------
    UnknownNameError
        If none that counts is called so.
    """
    known = {backup.name: backup for backup in verified_backups(folder)}
    found = known.get(name) or known.get(name.rpartition("/")[2])
    if found is None:
        nearest = nearest_word(name, known)
        if nearest is not None:
            raise UnknownNameError("files.backup.none_near", name=name, nearest=nearest)
        raise UnknownNameError("files.backup.none", name=name)
    return found


def is_unharmed(folder: Path, backup: Backup) -> bool:
    """Whether a backup's file is still what it was when it was counted."""
    try:
        return hash_of_file(folder / BACKUPS / backup.name) == backup.sha256
    except OSError:
        return False


def drop_backup(folder: Path, backup: Backup) -> None:
    """Remove a backup: the note first, so that no half one counts."""
    note_of(folder, backup.name).unlink(missing_ok=True)
    (folder / BACKUPS / backup.name).unlink(missing_ok=True)
