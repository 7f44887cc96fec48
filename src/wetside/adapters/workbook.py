"""Cells of the first sheet of an XLSX file, with a guard against files that would fill the memory."""

from __future__ import annotations

import os
import re
from typing import Any

from wetside.adapters.whole_file import read_whole
from wetside.errors import InputError, OutOfRangeError, Place, UnreadableError

LARGEST_UNPACKED_BYTES = 60_000_000
MOST_ROWS, MOST_CELLS = 100_000, 2_000_000
"""Our choice. The reader lays cells out in a rectangle: one cell in the last corner would cost gigabytes."""

_ROW = re.compile(rb"<(?:\w+:)?row[\s/>]")
_CELL = re.compile(rb"<(?:\w+:)?c[\s/>]")
_POSITION = re.compile(rb'\br\s*=\s*["\']([A-Za-z]{0,4})([0-9]{1,9})["\']')


def workbook_rows(path: str | os.PathLike[str]) -> list[tuple[int, list[Any]]]:
    """Rows of the first sheet that have something in them, each with its number.

    Parameters
    ----------
    path : path
        XLSX file.

    Returns
    -------
    rows : list of (int, list)
        Cells are text, numbers, truth values, dates or times, and empty text.

    Raises
    ------
    InputError
        If it is not such a file, is locked by a password, or is larger than a list of sheets can be.
    """
    return workbook_rows_of(read_whole(path), os.fspath(path))


def workbook_rows_of(
    data: bytes, file: str, *, most_rows: int = MOST_ROWS, most_cells: int = MOST_CELLS
) -> list[tuple[int, list[Any]]]:
    """Rows of the first sheet of a workbook that is in memory, as :func:`workbook_rows` returns them.

    Parameters
    ----------
    data : bytes
    file : str
        Name for the place of errors.
    most_rows, most_cells : int
        What is larger is refused; far larger ones before they are laid out.

    Raises
    ------
    InputError
        As :func:`workbook_rows`.
    """
    _guard(data, file)
    import io

    from python_calamine import CalamineError, CalamineWorkbook

    try:
        sheet = CalamineWorkbook.from_filelike(io.BytesIO(data)).get_sheet_by_index(0)
        first = sheet.start[0] if sheet.start else 0
        rows = sheet.to_python(skip_empty_area=True)
    except (CalamineError, OSError, ValueError, OverflowError, IndexError, MemoryError) as error:
        raise UnreadableError("files.workbook.unreadable", place=Place(file=file)) from error
    except BaseException as error:
        # The reader's own panics are no Exception; anything else, such as a key press that stops us, goes on.
        if type(error).__name__ != "PanicException":
            raise
        raise UnreadableError("files.workbook.unreadable", place=Place(file=file)) from error
    if len(rows) > most_rows or sum(map(len, rows)) > most_cells:
        raise OutOfRangeError("files.workbook.too_wide", place=Place(file=file), rows=most_rows, cells=most_cells)
    return [(first + rank + 1, row) for rank, row in enumerate(rows) if any(cell != "" for cell in row)]


def _guard(data: bytes, file: str) -> None:
    """Refuse what is no workbook, or unpacks to more than a list of sheets can be."""
    import io
    import zipfile
    import zlib

    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise InputError("files.workbook.old_or_locked", place=Place(file=file))
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            left = LARGEST_UNPACKED_BYTES
            for entry in packed.infolist():
                with packed.open(entry) as handle:
                    content = handle.read(left + 1)
                left -= len(content)
                if left < 0:
                    raise OutOfRangeError(
                        "files.workbook.too_large", place=Place(file=file), limit_mb=LARGEST_UNPACKED_BYTES / 1e6
                    )
                _guard_rectangle(content, file)
    except (zipfile.BadZipFile, zlib.error, OSError, ValueError, NotImplementedError, RuntimeError, EOFError) as error:
        raise UnreadableError("files.workbook.unreadable", place=Place(file=file)) from error


def _guard_rectangle(content: bytes, file: str) -> None:
    """Refuse a part whose cells span more than a list of sheets can; cells without a position follow each other."""
    columns = rows = placed = 0
    for letters, digits in _POSITION.findall(content):
        column = 0
        for letter in letters.upper():
            column = column * 26 + letter - 64
        placed += column > 0
        columns, rows = max(columns, column), max(rows, int(digits))
    rows = max(rows, len(_ROW.findall(content)))
    columns = max(columns, len(_CELL.findall(content)) - placed)
    if rows > MOST_ROWS or rows * columns > MOST_CELLS:
        raise OutOfRangeError("files.workbook.too_wide", place=Place(file=file), rows=MOST_ROWS, cells=MOST_CELLS)
