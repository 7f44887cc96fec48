"""Sheets from a table: CSV or XLSX, the columns in any order."""

from __future__ import annotations

import datetime as dt
import os
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.binder import Binder
from wetside.adapters.findings import EnoughError, Findings
from wetside.adapters.kinds import example_of, shown_raw
from wetside.adapters.readings_file import text_rows
from wetside.adapters.suggest import nearest_word
from wetside.adapters.whole_file import read_whole, text_of
from wetside.adapters.workbook import MOST_CELLS, MOST_ROWS, workbook_rows_of
from wetside.errors import ConflictError, InputError, OutOfRangeError, Place, UnknownNameError, UnreadableError
from wetside.planning.documents.evening import Sheet
from wetside.planning.documents.keys import declared_keys

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from wetside.adapters.findings import FieldPath
    from wetside.planning.documents.keys import Key

YES, NO = ("yes", "true", "x", "y", "1"), ("no", "false", "n", "0", "-")
_UNIT_KINDS = frozenset(
    {"duration", "duration_span", "temperature", "temperature_step", "volume", "mass", "length", "agent_per_area"}
)


class Column(NamedTuple):
    """What a column holds: the keys that lead to the value, and the declaration of the last."""

    keys: tuple[str, ...]
    key: Key


class SheetRow(NamedTuple):
    """A row as a plain table of a sheet, and its place in the file."""

    line: int
    raw: dict[str, Any]


class SheetTable(NamedTuple):
    """The rows of a file, and the name of it."""

    file: str
    rows: tuple[SheetRow, ...]

    def place_of(self, row: int, path: FieldPath) -> Place:
        """Place of a field of a row, by the name of its column."""
        line, raw = self.rows[row]
        label = raw.get("label") or raw.get("holder")
        field = f'column "{" ".join(str(part).replace("_", " ") for part in path)}"' if path else None
        return Place(
            self.file, line, f"{field or 'row'} ({shown_raw(label)[:40]})" if isinstance(label, str) else field
        )


def sheet_columns() -> Mapping[str, Column]:
    """All columns by their names: a sheet's keys, and for its inner tables two words such as ``shadow ev``."""
    columns: dict[str, Column] = {}
    for name, key in declared_keys(Sheet).items():
        if key.table is None:
            columns[name.replace("_", " ")] = Column((name,), key)
        else:
            for inner, inner_key in declared_keys(key.table).items():
                columns[f"{name} {inner}".replace("_", " ")] = Column((name, inner), inner_key)
    return columns


def read_sheet_list(path: str | os.PathLike[str]) -> tuple[Sheet, ...]:
    """Sheets of a CSV or XLSX file, each row bound for itself.

    Names of films, processes, aims and twins are checked where the list is joined to its evening
    (:func:`wetside.adapters.evening_file.read_evening`).

    Parameters
    ----------
    path : path
        The first row names the columns.

    Raises
    ------
    InputError
        One error, or :class:`~wetside.errors.ManyErrors` with all of the file.
    """
    findings = Findings()
    table = SheetTable(os.fspath(path), ())
    sheets: list[Sheet] = []
    try:
        table = sheet_table(path, findings)
        binder = Binder(findings)
        sheets.extend(binder.table(Sheet, row.raw, ("sheets", rank)) for rank, row in enumerate(table.rows))
    except EnoughError:
        pass
    if findings:
        findings.refuse(lambda path: _place(table, path))
    return tuple(sheets)


def _place(table: SheetTable, path: FieldPath) -> Place:
    if len(path) > 1 and isinstance(path[1], int):
        return table.place_of(path[1], path[2:])
    return Place(file=table.file)


def sheet_table(path: str | os.PathLike[str], findings: Findings) -> SheetTable:
    """Rows of a file as plain tables, ready for the binder.

    Parameters
    ----------
    path : path
        CSV, or XLSX by its name or its first bytes.
    findings : Findings
        Takes errors of columns and cells, their places filled in.

    Raises
    ------
    InputError
        If the file cannot be read at all, or has no heading.
    """
    return sheet_table_of(os.fspath(path), read_whole(path), findings)


def sheet_table_of(
    file: str, data: bytes | str, findings: Findings, *, most_rows: int = MOST_ROWS, most_cells: int = MOST_CELLS
) -> SheetTable:
    """Rows of a file that is in memory, or of text that was pasted, as :func:`sheet_table` reads them.

    Parameters
    ----------
    file : str
        Its name: for its ending, and for the place of errors.
    data : bytes or str
        Text is CSV, its cells parted by tabs, commas or semicolons.
    findings : Findings
    most_rows, most_cells : int
        A larger table is refused.

    Raises
    ------
    InputError
        As :func:`sheet_table`.
    """
    rows: Iterator[tuple[int, Sequence[Any]]]
    if isinstance(data, str):
        rows = text_rows(text_of(data.encode("utf-8", "replace"), file), file)
    elif _is_book(file, data):
        rows = iter(workbook_rows_of(data, file, most_rows=most_rows + 1, most_cells=most_cells))
    else:
        rows = text_rows(text_of(data, file), file)
    heading = next(rows, None)
    if heading is None:
        raise InputError("files.table.empty", place=Place(file=file))
    columns = _heading(heading, file, findings)
    found = []
    for rank, (line, cells) in enumerate(rows):
        if rank >= most_rows:
            raise OutOfRangeError("files.table.too_long", place=Place(file, line), limit=most_rows)
        while len(cells) > len(columns) and cells[-1] == "":
            cells = cells[:-1]  # noqa: PLW2901 (spreadsheets pad rows)
        if len(cells) > len(columns):
            findings.add(
                (), UnreadableError("files.row.cells", place=Place(file, line), found=len(cells), wanted=len(columns))
            )
            continue
        found.append(SheetRow(line, _raw(cells, columns, Place(file, line), findings)))
    return SheetTable(file, tuple(found))


def _is_book(file: str, data: bytes) -> bool:
    return Path(file).suffix.casefold() in (".xlsx", ".xlsm") or data.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0"))


def _heading(heading: tuple[int, Sequence[Any]], file: str, findings: Findings) -> list[Column | None]:
    line, cells = heading
    known = sheet_columns()
    columns: list[Column | None] = []
    for cell in cells:
        name = " ".join(str(cell).casefold().replace("_", " ").replace(".", " ").split())
        column = known.get(name)
        if column is None and name:
            nearest = nearest_word(name, known)
            code = "files.column.unknown" if nearest is None else "files.column.unknown_near"
            findings.add(
                (),
                UnknownNameError(
                    code, place=Place(file, line), value=shown_raw(cell), nearest=nearest, allowed=list(known)
                ),
            )
        elif column is not None and column in columns:
            findings.add((), ConflictError("files.column.twice", place=Place(file, line), value=name))
        columns.append(column)
    return columns


def _raw(cells: Iterable[Any], columns: Sequence[Column | None], place: Place, findings: Findings) -> dict[str, Any]:
    raw: dict[str, Any] = {}
    for column, cell in zip(columns, cells, strict=False):
        if column is None or cell is None or (isinstance(cell, str) and not cell.strip()):
            continue
        try:
            value = _cell(cell, column.key)
        except InputError as error:
            name = " ".join(column.keys).replace("_", " ")
            findings.add((), error.at(place._replace(field=f'column "{name}"')))
            continue
        table = raw
        for part in column.keys[:-1]:
            table = table.setdefault(part, {})
        table[column.keys[-1]] = value
    return raw


def _cell(cell: Any, key: Key) -> Any:
    """Cell as the binder wants it: a spreadsheet knows no lists, writes yes for true, and makes numbers of names."""
    if isinstance(cell, dt.datetime):
        cell = cell.date() if key.kind == "date" else cell
    if isinstance(cell, dt.date | dt.time | dt.timedelta) and key.kind != "date":
        raise UnreadableError("files.cell.made_date", value=shown_raw(cell), example=example_of(key).strip('"'))
    number = isinstance(cell, float | int) and not isinstance(cell, bool)
    if number and key.kind in _UNIT_KINDS:
        raise UnreadableError("files.cell.unit", value=f"{cell:.10g}", example=example_of(key).strip('"'))
    if key.kind == "flag":
        return _flag(cell, key)
    if key.kind == "choices":
        return str(cell).replace(";", " ").replace(",", " ").split()
    if number and key.kind in ("text", "name", "choice", "size", "aperture", "dilution", "date"):
        return f"{cell:.15g}"
    if key.kind == "whole" and isinstance(cell, float) and cell.is_integer():
        return int(cell)
    return cell


def _flag(cell: Any, key: Key) -> bool:
    if isinstance(cell, bool):
        return cell
    word = f"{cell:g}" if isinstance(cell, float) else str(cell).strip().casefold()
    if word in YES:
        return True
    if word in NO:
        return False
    raise UnreadableError("files.cell.flag", key=key.name, value=shown_raw(cell))
