"""One data folder for each PostgreSQL database: one at a time by a lock, and ever the same one by a name in it.

Without that two servers with folders of their own would write into the same tables, each with its own kept files and
backups, and neither would know of the other.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import DatabaseError, connection

from wetside.errors import InputError, Place, RefusedError
from wetside.services.archive.migrations import MARK_TABLE, has_tables

if TYPE_CHECKING:
    from pathlib import Path

    from django.db.backends.base.base import BaseDatabaseWrapper

    from wetside.adapters.data_folder import FolderInfo

NUMBER = 0x7765747369646501
"""Number of the lock within its database; any would do that nobody else takes. Our choice."""
OWNER = "wetside archive "
"""What stands before the archive's identity in the words that the database keeps with the table of sheets."""


class ServerLock:
    """The lock of a PostgreSQL database, held by a connection of its own; the server lets it go when that one ends.

    Parameters
    ----------
    folder : Path
        Named by the error.

    Raises
    ------
    RefusedError
        If another program works on the database.
    InputError
        If the database cannot be reached.
    """

    def __init__(self, folder: Path) -> None:
        self._held: BaseDatabaseWrapper = connection.copy()
        self._held.inc_thread_sharing()  # let go by whichever thread ends the server
        try:
            with self._held.cursor() as cursor:
                cursor.execute("SELECT pg_try_advisory_lock(%s)", [NUMBER])
                (got,) = cursor.fetchone()
        except DatabaseError as error:
            self._held.close()
            raise InputError("services.archive.no_server", reason=" ".join(str(error).split())) from error
        if not got:
            self._held.close()
            raise RefusedError("services.archive.server_in_use", place=Place(file=str(folder)))

    def release(self) -> None:
        """Let go."""
        self._held.close()


def refuse_other_folder(folder: Path, info: FolderInfo) -> None:
    """Refuse a database that belongs to the archive of another folder; one that belongs to none is left as it is.

    Raises
    ------
    RefusedError
        With the identity that stands in the database and the folder's own.
    """
    owner = owner_of_database()
    if owner and owner != info.archive:
        raise RefusedError(
            "services.archive.other_folder", place=Place(file=str(folder)), owner=owner, archive=info.archive
        )


def owner_of_database() -> str:
    """Identity of the archive whose records the database keeps; empty where none is named, and on SQLite."""
    if connection.vendor != "postgresql" or not has_tables():
        return ""
    with connection.cursor() as cursor:
        cursor.execute("SELECT obj_description(to_regclass(%s), 'pg_class')", [MARK_TABLE])
        (said,) = cursor.fetchone()
    return said.removeprefix(OWNER) if said and said.startswith(OWNER) else ""


def name_owner(info: FolderInfo, *, anew: bool = False) -> None:
    """Write into a PostgreSQL database whose archive it keeps, where nothing is said yet, or an import brought another.

    Parameters
    ----------
    info : FolderInfo
    anew : bool
        Whether to write over what is said.
    """
    if connection.vendor != "postgresql" or (owner_of_database() and not anew):
        return
    with connection.cursor() as cursor:
        # No parameters are taken here by the server; the identity is our own, letters of a UUID.
        cursor.execute(f"COMMENT ON TABLE {MARK_TABLE} IS '{OWNER}{_plain(info.archive)}'")


def _plain(identity: str) -> str:
    return "".join(letter for letter in identity if letter.isalnum() or letter == "-")
