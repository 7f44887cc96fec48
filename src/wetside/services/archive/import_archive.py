"""Plain files into an empty archive: all of them or nothing, compared with their index before and after."""

from __future__ import annotations

import hashlib
import json
from itertools import islice
from typing import IO, TYPE_CHECKING, Any, NamedTuple

from django.core.management.color import no_style
from django.db import DatabaseError, OperationalError, connection, models, transaction

from wetside.adapters.attachments import CHUNK, attachment_path, hash_of_file, keep_attachment
from wetside.adapters.data_folder import folder_info, write_info
from wetside.adapters.plain_files import read_together
from wetside.adapters.suggest import nearest_word
from wetside.errors import InputError, Place, RefusedError, UnknownNameError
from wetside.services.archive.export import EXPORT_FORMAT, INDEX
from wetside.services.archive.server_lock import name_owner
from wetside.services.archive.statistics import gather_statistics
from wetside.services.archive.tables import lines, row_of, tables

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from wetside.adapters.plain_files import Reading
    from wetside.services.archive.tables import Table

LONGEST_LINE = 64_000_000
"""Bytes that one row may have: a plan's document is a hundredth of it. [bytes]"""
LARGEST_INDEX = 50_000_000
"""Bytes that the index may have. [bytes]"""
INSERTED_AT_ONCE = 500


class TableEntry(NamedTuple):
    """What the index says of a table's file."""

    file: str
    rows: int
    sha256: str
    columns: tuple[str, ...]


class Index(NamedTuple):
    """What the index says: identity, tables, and the kept files as (hash, size, whether it comes along)."""

    archive: str
    tool: str
    migration: str
    tables: Mapping[str, TableEntry]
    files: tuple[tuple[str, int, bool], ...]

    @property
    def rows(self) -> dict[str, int]:
        """Rows of each table."""
        return {name: entry.rows for name, entry in self.tables.items()}


class Imported(NamedTuple):
    """What was taken in; ``missing`` are kept files that neither the export nor the folder has."""

    rows: Mapping[str, int]
    files: int
    missing: tuple[str, ...]

    @property
    def total_rows(self) -> int:
        """Rows of all tables."""
        return sum(self.rows.values())


def verify_export(source: Path) -> Index:
    """Read all of an export and compare it with its index; nothing is written.

    Raises
    ------
    InputError
        If a file is missing, or is not what the index says; the file is named.
    """
    with read_together(source) as reading:
        return _verified(reading, source)


def import_archive(source: Path, folder: Path) -> Imported:
    """Take an export into an archive that is empty.

    Parameters
    ----------
    source : Path
        Folder or zip.
    folder : Path
        The data folder, whose lock the caller holds; its tables stand in this version's form.

    Raises
    ------
    RefusedError
        If the archive is not empty.
    InputError
        If a file is not what the index says, or a row cannot be taken: file, line and field are named. Nothing was
        taken.
    """
    full = next((table.name for table in tables() if table.model._default_manager.exists()), None)  # noqa: SLF001
    if full is not None:
        raise RefusedError("services.archive.not_empty", table=full)
    with read_together(source) as reading:
        index = _verified(reading, source)
        files, missing = _take_files(reading, index, folder)
        try:
            with transaction.atomic():
                for table in tables():
                    if table.name in index.tables:
                        _take(reading, table, index.tables[table.name], source)
                connection.check_constraints()
                for table in tables():
                    if table.name in index.tables:
                        _compare(table, index.tables[table.name], source)
                _count_on()
            gather_statistics()
        except OperationalError as error:
            place = Place(file=str(folder))
            raise InputError("services.archive.database_said", place=place, reason=str(error).strip()) from error
        except DatabaseError as error:
            raise InputError(
                "services.archive.refused_rows", place=Place(file=str(source)), reason=" ".join(str(error).split())
            ) from error
    info = folder_info(folder)
    if info is not None and index.archive:
        info = info._replace(archive=index.archive)
        write_info(folder, info)
        name_owner(info, anew=True)
    return Imported(index.rows, files, missing)


def read_index(reading: Reading, source: Path) -> Index:
    """Index of an export.

    Raises
    ------
    InputError
        If it is missing, of a newer format, or not understood.
    """
    place = Place(file=f"{source}/{INDEX}")
    try:
        with reading.read(INDEX) as handle:
            text = handle.read(LARGEST_INDEX)
    except KeyError as error:
        raise InputError("services.archive.no_index", place=Place(file=str(source)), name=source.name) from error
    try:
        table = json.loads(text)
        format_ = table["format"]
        if isinstance(format_, int) and format_ > EXPORT_FORMAT:
            raise RefusedError("services.archive.newer_export", place=place, value=format_, known=EXPORT_FORMAT)
        if format_ != EXPORT_FORMAT:
            raise ValueError  # noqa: TRY301 (told below, with all other ways to be wrong)
        index = Index(
            archive=str(table["archive"]),
            tool=str(table["tool"]),
            migration=str(table["migration"]),
            tables={str(name): _entry(entry) for name, entry in table["tables"].items()},
            files=tuple(
                (str(one["sha256"]), int(one["size_bytes"]), bool(one["here"])) for one in table["attachments"]
            ),
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise InputError("services.archive.bad_index", place=place) from error
    _know(index, place)
    return index


def _entry(entry: Mapping[str, Any]) -> TableEntry:
    columns = tuple(map(str, entry["columns"]))
    file = str(entry["file"])
    if file.startswith("/") or "\\" in file or ":" in file or ".." in file.split("/"):
        raise ValueError(file)
    return TableEntry(file, int(entry["rows"]), str(entry["sha256"]), columns)


def _know(index: Index, place: Place) -> None:
    """Refuse tables and columns that this version does not have, and a lack of what cannot be left out."""
    known = {table.name: table for table in tables()}
    for name, entry in index.tables.items():
        if name not in known:
            near = nearest_word(name, known)
            raise UnknownNameError("services.archive.unknown_table", place=place, name=name, nearest=near or "-")
        fields = known[name].fields
        for column in entry.columns:
            if column not in fields:
                raise UnknownNameError("services.archive.unknown_column", place=place, table=name, name=column)
        for column, field in fields.items():
            if column not in entry.columns and not (field.null or field.has_default()):
                raise InputError("services.archive.lacking_column", place=place, table=name, name=column)


def _verified(reading: Reading, source: Path) -> Index:
    index = read_index(reading, source)
    for entry in index.tables.values():
        place = Place(file=f"{source}/{entry.file}")
        digest, rows = hashlib.sha256(), 0
        for line in _lines_of(reading, entry.file, place):
            digest.update(line)
            rows += 1
        if rows != entry.rows or digest.hexdigest() != entry.sha256:
            raise InputError("services.archive.not_as_indexed", place=place, rows=rows, wanted=entry.rows)
    return index


def _lines_of(reading: Reading, name: str, place: Place) -> Iterator[bytes]:
    with _opened(reading, name, place) as handle:
        while line := handle.readline(LONGEST_LINE):
            yield line


def _opened(reading: Reading, name: str, place: Place) -> IO[bytes]:
    try:
        return reading.read(name)
    except KeyError as error:
        raise InputError("services.archive.no_file", place=place, name=name) from error


def _take(reading: Reading, table: Table, entry: TableEntry, source: Path) -> None:
    """Insert the rows of a file as they are: no field sets its own time."""
    file = f"{source}/{entry.file}"
    columns = frozenset(entry.columns)
    fields = list(table.model._meta.concrete_fields)  # noqa: SLF001
    size = max(1, min(INSERTED_AT_ONCE, connection.ops.bulk_batch_size(fields, range(INSERTED_AT_ONCE))))

    def rows() -> Iterator[models.Model]:
        for number, line in enumerate(_lines_of(reading, entry.file, Place(file=file)), 1):
            try:
                yield row_of(table, line, columns)
            except InputError as error:
                raise error.at(Place(file=file, line=number)) from error

    waiting = rows()
    insert = models.QuerySet(table.model)._insert  # type: ignore[attr-defined]  # noqa: SLF001 (no public way is raw)
    while part := list(islice(waiting, size)):
        insert(part, fields=fields, using=connection.alias, raw=True)


def _compare(table: Table, entry: TableEntry, source: Path) -> None:
    """What stands in the table now gives the file's own bytes."""
    digest, rows = hashlib.sha256(), 0
    for line in lines(table, sorted(entry.columns)):
        digest.update(line)
        rows += 1
    if rows != entry.rows or digest.hexdigest() != entry.sha256:
        place = Place(file=f"{source}/{entry.file}")
        raise InputError("services.archive.not_as_given", place=place, rows=rows, wanted=entry.rows)


def _count_on() -> None:
    """Let the database count on after the numbers that were taken in."""
    asked = connection.ops.sequence_reset_sql(no_style(), [table.model for table in tables()])
    if asked:
        with connection.cursor() as cursor:
            for statement in asked:
                cursor.execute(statement)


def _take_files(reading: Reading, index: Index, folder: Path) -> tuple[int, tuple[str, ...]]:
    taken, missing = 0, []
    for sha256, size, here in index.files:
        path = attachment_path(folder, sha256)
        if path.is_file() and hash_of_file(path) == sha256:
            continue
        if not here:
            missing.append(sha256)
            continue
        name = f"attachments/{sha256}"
        place = Place(file=name)
        with _opened(reading, name, place) as handle:
            found, length = keep_attachment(folder, _Measured(handle, size))  # type: ignore[arg-type]  # reads like one
        if found != sha256 or length != size:
            attachment_path(folder, found).unlink(missing_ok=True)
            raise InputError("services.archive.file_differs", place=place)
        taken += 1
    return taken, tuple(missing)


class _Measured:
    """A file that gives no more than it said: a zip may hold a file that grows without end."""

    def __init__(self, handle: IO[bytes], size: int) -> None:
        self._handle = handle
        self._left = size + 1

    def read(self, most: int = CHUNK) -> bytes:
        piece = self._handle.read(min(most, self._left))
        self._left -= len(piece)
        return piece
