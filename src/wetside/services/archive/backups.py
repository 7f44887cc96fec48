"""Backups: made, opened again, checked and counted; only then do they count. And the way back to one."""

from __future__ import annotations

import os
import threading
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from django.core.management import call_command
from django.db import connection

from wetside import __version__
from wetside.adapters import backup_store as store
from wetside.adapters.attachments import hash_of_file
from wetside.adapters.clock import now
from wetside.adapters.data_folder import DATABASE, folder_info
from wetside.adapters.database_file import copy_database, empty_tables, look_at
from wetside.errors import InputError, Place, RefusedError
from wetside.services.archive.export import export_archive
from wetside.services.archive.import_archive import Imported, import_archive, verify_export
from wetside.services.archive.keeping import surplus
from wetside.services.archive.migrations import has_tables, newest_applied

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

TABLES_IN_FILE = "records_"
WAYS_IN = ("records_signedin", "records_telephonecode", "records_token")
"""Tables that a restored file begins without: a device that was signed out since does not come back with it, nor a
token that was revoked. Who may still come in signs in again, or gets a new token."""
_making = threading.Lock()
"""One backup at a time: that of the start is made while a person may ask for another."""


class Made(NamedTuple):
    """A backup that counts, and whether it was made now; False where nothing had changed since."""

    backup: store.Backup
    new: bool


def make_backup(folder: Path, reason: str, *, even_unchanged: bool = True) -> Made:
    """Make a backup, open it, check it, count its rows against the archive's.

    Parameters
    ----------
    folder : Path
        The data folder.
    reason : str
        ``start``, ``migration`` or ``asked``; stands in the name.
    even_unchanged : bool
        Whether to make one where the newest verified one holds the same to the byte.

    Raises
    ------
    WetsideError
        If it cannot be written (the disk is full), or is not what the archive is: it does not count then, and nothing
        of it is left.
    """
    with _making:
        return _make(folder, reason, even_unchanged=even_unchanged)


def _make(folder: Path, reason: str, *, even_unchanged: bool) -> Made:
    keeper = connection.vendor
    made_at = now()
    within = store.backups_folder(folder)
    for left in within.glob(".*.part*"):
        left.unlink(missing_ok=True)
    name = store.name_for(made_at, reason, keeper)
    beside = within / f".{name}.part{store.ENDINGS[keeper]}"
    try:
        rows = _copy_file(folder, beside) if keeper == "sqlite" else _export(folder, beside)
        sha256 = hash_of_file(beside)
        newest = next(iter(store.verified_backups(folder)), None)
        if not even_unchanged and newest and newest.sha256 == sha256 and store.is_unharmed(folder, newest):
            return Made(newest, new=False)
        info = folder_info(folder)
        backup = store.Backup(
            name=name,
            made_at=made_at,
            reason=reason,
            keeper=keeper,
            size_bytes=beside.stat().st_size,
            sha256=sha256,
            rows=rows,
            migration=newest_applied(),
            archive=info.archive if info else "",
            tool=f"wetside {__version__}",
        )
        beside.replace(within / name)
        store.write_note(folder, backup)
    except OSError as error:
        raise InputError(
            "services.archive.backup_unwritten", place=Place(file=str(within)), reason=error.strerror or str(error)
        ) from error
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
    for one in surplus(store.verified_backups(folder), made_at):
        store.drop_backup(folder, one)
    return Made(backup, new=True)


def _copy_file(folder: Path, beside: Path) -> Mapping[str, int]:
    """Copy the database file and open the copy: only what could be read back is a backup."""
    counted = copy_database(folder / DATABASE, beside)
    with beside.open("rb") as handle:
        os.fsync(handle.fileno())
    look = look_at(beside)
    if not look.sound or look.rows != counted:
        reason = "; ".join(look.damage) or ", ".join(f"{table}: {count}" for table, count in look.strays) or "rows"
        raise RefusedError("services.archive.backup_unsound", place=Place(file=beside.name), reason=reason)
    return counted


def _export(folder: Path, beside: Path) -> Mapping[str, int]:
    """Write the tables as plain files and read them back; the kept files stay where they are."""
    exported = export_archive(folder, beside, with_files=False)
    index = verify_export(beside)
    if index.rows != dict(exported.rows):
        raise RefusedError("services.archive.backup_unsound", place=Place(file=beside.name), reason="rows")
    return {f"{TABLES_IN_FILE}{name}": count for name, count in exported.rows.items()}


def verified_backups(folder: Path) -> tuple[store.Backup, ...]:
    """Backups that count, the newest first."""
    return store.verified_backups(folder)


def newest_unharmed(folder: Path, keeper: str | None = None) -> store.Backup | None:
    """Newest verified backup whose file is still what it was."""
    return next(
        (
            one
            for one in store.verified_backups(folder)
            if keeper in (None, one.keeper) and store.is_unharmed(folder, one)
        ),
        None,
    )


class Restored(NamedTuple):
    """The backup that was taken, and where the file that it replaces lies now; None where there was none."""

    backup: store.Backup
    kept: Path | None


def restore_file(folder: Path, name: str) -> Restored:
    """Put a backup in the place of the database file; the file that stood there is kept beside.

    Parameters
    ----------
    folder : Path
        The data folder, whose lock the caller holds.
    name : str
        Name of the backup, as ``wetside backup --list`` tells it.

    Raises
    ------
    WetsideError
        If there is no such backup, or it is no longer what it was: nothing was touched.
    """
    backup = store.find_backup(folder, name)
    path = folder / "backups" / backup.name
    look = look_at(path)
    if not store.is_unharmed(folder, backup) or not look.sound or dict(look.rows) != dict(backup.rows):
        raise RefusedError("services.archive.backup_harmed", place=Place(file=str(path)), name=backup.name)
    database = folder / DATABASE
    beside = folder / f".{DATABASE}.part"
    beside.unlink(missing_ok=True)
    try:
        copy_database(path, beside)
        empty_tables(beside, WAYS_IN)
        with beside.open("rb") as handle:
            os.fsync(handle.fileno())
        kept = set_aside(database)
        beside.replace(database)
    except OSError as error:
        raise InputError(
            "services.archive.restore_unwritten", place=Place(file=str(folder)), reason=error.strerror or str(error)
        ) from error
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
    return Restored(backup, kept)


def set_aside(database: Path) -> Path | None:
    """Keep a database file under another name, with its log; None where there is none."""
    stamp = f"{now():%Y%m%d-%H%M%S}"
    aside = None
    for ending in ("", "-wal", "-shm"):
        path = database.with_name(database.name + ending)
        if path.exists():
            kept = database.with_name(f"{database.stem}-before-{stamp}{database.suffix}{ending}")
            path.replace(kept)
            aside = aside or kept
    return aside


def restore_rows(folder: Path, name: str) -> tuple[store.Backup, Imported]:
    """Take a backup of plain files into an empty PostgreSQL database.

    Raises
    ------
    WetsideError
        If there is no such backup, it is no longer what it was, or the database holds rows already.
    """
    backup = store.find_backup(folder, name)
    path = folder / "backups" / backup.name
    if backup.keeper != "postgresql":
        raise RefusedError("services.archive.other_keeper", name=backup.name)
    if not store.is_unharmed(folder, backup):
        raise RefusedError("services.archive.backup_harmed", place=Place(file=str(path)), name=backup.name)
    if not has_tables():
        call_command("migrate", verbosity=0, interactive=False)
    return backup, import_archive(path, folder)
