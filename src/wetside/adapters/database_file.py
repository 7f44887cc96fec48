"""A SQLite file from outside, without the framework: is it sound, what does it hold, and a copy while others write."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import InputError, Place

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

MOST_COMPLAINTS = 20


class Look(NamedTuple):
    """What was found in a database file.

    ``damage`` holds the database's own words, none where it is sound; ``strays`` are rows that point to nothing, as
    (table, how many); ``rows`` counts every table, ``migrations`` names those that were applied to the records.
    """

    damage: tuple[str, ...]
    strays: tuple[tuple[str, int], ...]
    rows: Mapping[str, int]
    migrations: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Whether nothing is wrong with it."""
        return not self.damage and not self.strays


def look_at(path: Path) -> Look:
    """Open a file for reading only and check the whole of it.

    Parameters
    ----------
    path : Path
        A missing or empty file is damaged: SQLite would take it for a new database.
    """
    try:
        if path.stat().st_size == 0:
            return Look(("the file is empty",), (), {}, ())
        with closing(_open(path)) as connection:
            damage = tuple(
                str(row[0])
                for row in connection.execute(f"PRAGMA integrity_check({MOST_COMPLAINTS})")
                if row[0] != "ok"
            )
            if damage:
                return Look(damage, (), {}, ())
            strays: dict[str, int] = {}
            for row in connection.execute("PRAGMA foreign_key_check"):
                strays[row[0]] = strays.get(row[0], 0) + 1
            return Look((), tuple(sorted(strays.items())), _rows(connection), _migrations(connection))
    except sqlite3.Error as error:
        return Look((str(error),), (), {}, ())
    except OSError as error:
        return Look((error.strerror or str(error),), (), {}, ())


def copy_database(source: Path, target: Path) -> Mapping[str, int]:
    """Copy a database as it stands at one moment, whoever writes to it meanwhile.

    Parameters
    ----------
    source : Path
    target : Path
        Must not exist; what a failed copy leaves there is removed.

    Returns
    -------
    rows : mapping
        Rows of each table at that moment, counted in the source.

    Raises
    ------
    InputError
        If the source cannot be read, or the target not be written: the disk is full.
    """
    try:
        with closing(_open(source)) as reading, closing(sqlite3.connect(target)) as writing:
            reading.execute("BEGIN")
            rows = _rows(reading)  # the first look holds this state for all that follows
            reading.backup(writing)
            reading.rollback()
            writing.execute("PRAGMA journal_mode=DELETE")  # one file, nothing beside it
    except sqlite3.Error as error:
        _away(target)
        raise InputError(
            "files.file.unwritable", place=Place(file=str(target)), name=target.name, reason=str(error)
        ) from error
    return rows


def empty_tables(path: Path, names: Sequence[str]) -> None:
    """Take all rows out of these tables of a file that nobody has open; a table that is not there is none.

    Raises
    ------
    OSError
        If the file cannot be written.
    """
    try:
        with closing(sqlite3.connect(path, timeout=20)) as connection, connection:
            for name in set(names) & set(_tables(connection)):
                connection.execute(f'DELETE FROM "{name}"')  # noqa: S608 (a name of our own)
    except sqlite3.Error as error:
        raise OSError(None, str(error)) from error


def _open(path: Path) -> sqlite3.Connection:
    opened = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=20, isolation_level=None)
    opened.create_function("REGEXP", 2, _matches, deterministic=True)
    return opened


def _matches(pattern: str, text: str | None) -> bool | None:
    """Answer for the rules of the tables that ask for a pattern: SQLite leaves that function to its users."""
    return None if text is None else bool(re.search(pattern, str(text)))


def _tables(connection: sqlite3.Connection) -> list[str]:
    rows = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    return sorted(str(row[0]) for row in rows)


def _rows(connection: sqlite3.Connection) -> dict[str, int]:
    counted = {}
    for name in _tables(connection):
        quoted = name.replace('"', '""')
        counted[name] = int(connection.execute(f'SELECT count(*) FROM "{quoted}"').fetchone()[0])  # noqa: S608 (quoted)
    return counted


def _migrations(connection: sqlite3.Connection) -> tuple[str, ...]:
    if "django_migrations" not in _tables(connection):
        return ()
    asked = "SELECT name FROM django_migrations WHERE app = 'records' ORDER BY name"
    return tuple(str(row[0]) for row in connection.execute(asked))


def _away(path: Path) -> None:
    for ending in ("", "-journal", "-wal", "-shm"):
        path.with_name(path.name + ending).unlink(missing_ok=True)
