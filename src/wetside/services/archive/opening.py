"""Opening the archive: lock, format, damage, backup, form of the tables.

What is found wrong stops it; where records were kept before, nothing ever begins empty.
"""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from typing import TYPE_CHECKING, NamedTuple

from django.core.management import call_command
from django.db import DatabaseError, OperationalError, connection

from wetside import __version__
from wetside.adapters.data_folder import BACKUPS, DATABASE, FolderInfo, folder_info, make_folder, write_info
from wetside.adapters.database_file import copy_database, look_at
from wetside.adapters.drives import refuse_shared_drive
from wetside.adapters.folder_lock import FolderLock
from wetside.errors import InputError, Place, RefusedError, WetsideError
from wetside.services.archive.backups import make_backup, newest_unharmed
from wetside.services.archive.migrations import MARK_TABLE, form_of_tables, has_tables
from wetside.services.archive.server_lock import ServerLock, name_owner, refuse_other_folder
from wetside.services.archive.start_backup import Told, backup_meanwhile, backup_of_start
from wetside.services.archive.statistics import gather_statistics

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path
    from threading import Thread

TOOL = f"wetside {__version__}"


class ArchiveLock:
    """What keeps others from an open archive: the folder's lock and, on PostgreSQL, the database's."""

    def __init__(self, folder: Path, doing: str) -> None:
        self._folder = FolderLock(folder, doing)
        self._server: ServerLock | None = None
        try:
            if connection.vendor == "postgresql":
                self._server = ServerLock(folder)
        except BaseException:
            self._folder.release()
            raise

    def release(self) -> None:
        """Let go."""
        if self._server is not None:
            self._server.release()
        self._folder.release()


class Opened(NamedTuple):
    """An open archive: its lock, held until it is released, what was done on the way, and a backup still at work."""

    lock: ArchiveLock
    told: tuple[Told, ...]
    backup: Thread | None = None

    def close(self) -> None:
        """Let go, once the backup of the start has ended."""
        if self.backup is not None:
            self.backup.join()
        self.lock.release()


def open_archive(folder: Path, doing: str = "serve", meanwhile: Callable[[Told], None] | None = None) -> Opened:
    """Make or open the archive and bring its tables to this version's form.

    Parameters
    ----------
    folder : Path
        The data folder.
    doing : str
        What the lock is held for, told to whoever comes second.
    meanwhile : callable, optional
        Lets the backup of the start be made while the caller goes on, and gets what came of it. A backup before a
        change of the tables is complete before the change begins in any case.

    Raises
    ------
    WetsideError
        If the folder is newer than this program, holds other things, lies on a shared drive, is worked in by another
        process, is damaged, cannot be written to, or its database belongs to another folder. What stood there stands
        there still.
    """
    if connection.vendor == "sqlite":
        refuse_shared_drive(folder)
    info = make_folder(folder, TOOL)
    lock = ArchiveLock(folder, doing)
    try:
        told, due = _open(folder, info)
        thread = None
        if due and meanwhile is not None:
            thread = backup_meanwhile(folder, meanwhile)
        elif due:
            told.append(backup_of_start(folder))
    except OperationalError as error:
        lock.release()
        raise database_said(error, folder) from error
    except BaseException:
        lock.release()
        raise
    return Opened(lock, tuple(told), thread)


def database_said(error: DatabaseError, folder: Path) -> InputError:
    """What the database itself could not do: mostly a full disk."""
    place = Place(file=str(folder))
    return InputError("services.archive.database_said", place=place, reason=" ".join(str(error).split()))


def open_to_read(folder: Path) -> None:
    """Open an archive that is there, change nothing, and need no lock.

    Raises
    ------
    WetsideError
        If there is none, it is damaged, or its tables have another version's form.
    """
    info = folder_info(folder)
    if info is None or not info.records:
        raise InputError("services.archive.none", folder=str(folder))
    fresh = _is_fresh(folder, info)
    refuse_other_folder(folder, info)
    form = form_of_tables()
    _refuse_newer(form.unknown, folder)
    if fresh or form.pending:
        raise RefusedError("services.archive.older_tables", place=Place(file=str(folder)))


def _open(folder: Path, info: FolderInfo) -> tuple[list[Told], bool]:
    """What was done, and whether the backup of the start is still due."""
    told: list[Told] = []
    fresh = _is_fresh(folder, info, told)
    refuse_other_folder(folder, info)
    form = form_of_tables()
    _refuse_newer(form.unknown, folder)
    due = False
    if fresh:
        call_command("migrate", verbosity=0, interactive=False)
        told.append(Told("services.archive.began", {"folder": str(folder)}))
    elif form.pending:
        made = make_backup(folder, "migration").backup
        _migrate(folder, made.name)
        told.append(Told("services.archive.migrated", {"count": len(form.pending), "name": made.name}))
    else:
        due = True
    name_owner(info)
    if info.records != connection.vendor or info.tool != TOOL:
        write_info(folder, info._replace(records=connection.vendor, tool=TOOL))
    return told, due


def _refuse_newer(unknown: tuple[str, ...], folder: Path) -> None:
    if unknown:
        raise RefusedError("services.archive.newer_tables", place=Place(file=str(folder)), name=unknown[-1])


def _is_fresh(folder: Path, info: FolderInfo, told: list[Told] | None = None) -> bool:
    """Whether there are no records yet; what should be there and is not, or cannot be read, is an error."""
    if info.records and info.records != connection.vendor:
        raise RefusedError(
            "services.archive.other_database", place=Place(file=str(folder)), kept=info.records, named=connection.vendor
        )
    if connection.vendor != "sqlite":
        return _is_fresh_server(folder, info)
    database = folder / DATABASE
    expected = bool(info.records) or any((folder / BACKUPS).glob("*.sqlite3"))
    if not database.exists():
        if expected:
            raise damaged(folder, "services.archive.missing", "services.archive.missing_lost")
        return True
    if not expected and database.stat().st_size == 0:
        return True
    look = look_at(database)
    if look.damage:
        raise damaged(folder, "services.archive.damaged", "services.archive.damaged_lost", look.damage[0])
    if look.strays and told is not None:
        told.append(Told("services.archive.strays", {"count": sum(count for _, count in look.strays)}))
    if expected and MARK_TABLE not in look.rows:
        raise damaged(folder, "services.archive.missing", "services.archive.missing_lost")
    return MARK_TABLE not in look.rows


def _is_fresh_server(folder: Path, info: FolderInfo) -> bool:
    try:
        there = has_tables()
    except OperationalError as error:
        reason = " ".join(str(error).split())
        raise InputError("services.archive.no_server", reason=reason) from error
    except DatabaseError as error:
        raise InputError("services.archive.no_server", reason=" ".join(str(error).split())) from error
    if not there and info.records:
        newest = newest_unharmed(folder, "postgresql")
        code = "services.archive.server_empty" if newest else "services.archive.server_empty_lost"
        raise RefusedError(code, place=Place(file=str(folder)), name=newest.name if newest else "")
    return not there


def damaged(folder: Path, code: str, without: str, reason: str = "") -> RefusedError:
    """Error of a damaged or missing database, with the newest backup that is whole, or without one."""
    newest = newest_unharmed(folder, "sqlite")
    place = Place(file=str(folder / DATABASE))
    if newest is None:
        return RefusedError(without, place=place, reason=reason)
    made = f"{newest.made_at:%Y-%m-%d %H:%M} UTC"
    return RefusedError(code, place=place, reason=reason, name=newest.name, made=made, rows=newest.total_rows)


def _migrate(folder: Path, backup: str) -> None:
    """Change the form of the tables: all of it, or the old stands as it stood.

    SQLite: a copy is changed, checked, and put in the place of the old file. PostgreSQL: one transaction.
    """
    try:
        if connection.vendor == "sqlite":
            _migrate_copy(folder)
        else:
            from django.db import transaction

            with transaction.atomic():
                call_command("migrate", verbosity=0, interactive=False)
            gather_statistics()
    except WetsideError:
        raise
    except Exception as error:  # a migration may fail in any way: whatever it is, the old archive stands
        raise RefusedError(
            "services.archive.migration_failed",
            place=Place(file=str(folder)),
            reason=f"{type(error).__name__}: {' '.join(str(error).split())}",
            name=backup,
        ) from error


def _migrate_copy(folder: Path) -> None:
    database = folder / DATABASE
    beside = folder / f".{DATABASE}.changing"
    _clear(beside)
    connection.close()
    copy_database(database, beside)
    usual = connection.settings_dict["NAME"]
    connection.settings_dict["NAME"] = str(beside)
    try:
        call_command("migrate", verbosity=0, interactive=False)
        connection.close()
        look = look_at(beside)
        if not look.sound:
            raise RefusedError(
                "services.archive.migration_unsound", place=Place(file=str(database)), reason="; ".join(look.damage)
            )
        _fold_log(beside)
        _fold_log(database)
        with beside.open("rb") as handle:
            os.fsync(handle.fileno())
        beside.replace(database)
    finally:
        connection.close()
        connection.settings_dict["NAME"] = usual
        _clear(beside)


def _fold_log(path: Path) -> None:
    """Bring the log of a database file home, so that no log of the old one is taken for the new one's.

    Raises
    ------
    RefusedError
        If another program has the file open.
    """
    try:
        with closing(sqlite3.connect(path, timeout=5)) as opened:
            mode = opened.execute("PRAGMA journal_mode=DELETE").fetchone()[0]
    except sqlite3.Error as error:
        raise RefusedError("services.archive.in_use", place=Place(file=str(path)), reason=str(error)) from error
    if mode != "delete":
        raise RefusedError("services.archive.in_use", place=Place(file=str(path)), reason=str(mode))


def _clear(path: Path) -> None:
    for ending in ("", "-wal", "-shm", "-journal"):
        with suppress(OSError):
            path.with_name(path.name + ending).unlink(missing_ok=True)
