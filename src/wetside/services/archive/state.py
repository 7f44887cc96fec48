"""How the archive's backups stand, one made by a click, and an export as one file."""

from __future__ import annotations

from tempfile import TemporaryFile
from typing import IO, TYPE_CHECKING, NamedTuple

from wetside.adapters import backup_store as store
from wetside.errors import InputError, Place
from wetside.services.archive.backups import make_backup
from wetside.services.archive.export import export_into

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

MOST_SHOWN = 60
"""Backups on the page; our choice. More are kept only after years, and the command lists them all."""


class Shown(NamedTuple):
    """A verified backup, and whether its file still has the size that it was counted with."""

    backup: store.Backup
    whole: bool

    @property
    def megabytes(self) -> float:
        """Size of the file. [MB]"""
        return self.backup.size_bytes / 1e6


class Backups(NamedTuple):
    """Backups with the newest first, their number, and how long ago the newest whole one was made; None without one."""

    shown: tuple[Shown, ...]
    total: int
    newest_age: dt.timedelta | None

    @property
    def harmed(self) -> int:
        """Shown backups that are no longer what they were."""
        return sum(not one.whole for one in self.shown)


def backups_now(folder: Path, now: dt.datetime) -> Backups:
    """Verified backups of a data folder as they lie there.

    Parameters
    ----------
    folder : Path
        The data folder.
    now : datetime
    """
    found = store.verified_backups(folder)
    shown = tuple(Shown(one, _is_whole(folder, one)) for one in found[:MOST_SHOWN])
    newest = next((one.backup for one in shown if one.whole), None)
    return Backups(shown, len(found), now - newest.made_at if newest else None)


def _is_whole(folder: Path, backup: store.Backup) -> bool:
    try:
        return (store.backups_folder(folder) / backup.name).stat().st_size == backup.size_bytes
    except OSError:
        return False


def make_one_now(folder: Path) -> store.Backup:
    """Make a backup that was asked for; two clicks make two, one after the other.

    Raises
    ------
    WetsideError
        As :func:`wetside.services.archive.backups.make_backup`.
    """
    return make_backup(folder, "asked").backup


def export_file(folder: Path) -> IO[bytes]:
    """The whole archive as a zip in a file without a name, on the disk of the data folder; read from its start.

    Raises
    ------
    InputError
        If there is no room for it.
    """
    try:
        handle = TemporaryFile(dir=folder)  # noqa: SIM115 (whoever sends it closes it)
    except OSError as error:
        raise _unwritten(folder, error) from error
    try:
        export_into(folder, handle)
        handle.seek(0)
    except OSError as error:
        handle.close()
        raise _unwritten(folder, error) from error
    except BaseException:
        handle.close()
        raise
    return handle


def _unwritten(folder: Path, error: OSError) -> InputError:
    reason = error.strerror or str(error)
    return InputError("services.archive.export_unwritten", place=Place(file=str(folder)), reason=reason)
