"""Rows of figures from CSV files: ours from the package, then a user's own folder; every error with its place.

The first line that is no comment names the columns, in any order; columns that may stay empty may be left out. Lines
that begin with ``#`` are comments. A file whose header has more semicolons than commas is read with semicolons. Every
error of a folder is told at once.
"""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from wetside.errors import (
    InputError,
    ManyErrors,
    OutOfRangeError,
    Place,
    UnknownNameError,
    UnreadableError,
    WetsideError,
)
from wetside.values.dilution import STOCK, Dilution, dilution_of_parts
from wetside.values.evidence import Source

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping
    from enum import StrEnum
    from importlib.resources.abc import Traversable
    from pathlib import Path

    Kind = TypeVar("Kind", bound=StrEnum)

LARGEST_FILE = 5_000_000
"""Our choice: a CSV file of hand-kept rows is never larger. [bytes]"""
_TIME_S = (1.0, 14400.0)
TEMP_C = (5.0, 45.0)
"""Temperatures that a row may name. [C]"""
_T = TypeVar("_T")


class PublishedRow(NamedTuple):
    """One line of a CSV file, and the list that its errors go to."""

    file: str
    line: int
    cells: Mapping[str, str]
    errors: list[WetsideError]

    def wrong(self, column: str, error: WetsideError) -> None:
        """Note an error of one cell."""
        self.errors.append(error.at(Place(self.file, self.line, column)))

    def text(self, column: str, *, required: bool = False) -> str:
        """Read a cell without the blanks around it."""
        value = self.cells.get(column, "").strip()
        if required and not value:
            self.wrong(column, InputError("starting_points.cell.empty", column=column))
        return value

    def number(self, column: str, low: float, high: float, *, required: bool = False) -> float | None:
        """Read a number with a point or a comma."""
        text = self.text(column, required=required)
        if not text:
            return None
        try:
            value = float(text.replace(",", "."))
        except ValueError:
            self.wrong(column, UnreadableError("starting_points.number.unreadable", value=text))
            return None
        return self._between(column, value, low, high)

    def seconds(self, column: str, *, required: bool = False) -> float | None:
        """Read seconds, or m:ss as the clock shows it."""
        minutes, colon, rest = self.text(column).partition(":")
        if not colon:
            return self.number(column, *_TIME_S, required=required)
        if not (minutes.isdecimal() and rest.isdecimal() and len(rest) == 2 and len(minutes) < 5 and int(rest) < 60):
            self.wrong(column, UnreadableError("starting_points.time.unreadable", value=self.text(column)))
            return None
        return self._between(column, int(minutes) * 60.0 + int(rest), *_TIME_S)

    def _between(self, column: str, value: float, low: float, high: float) -> float | None:
        if isfinite(value) and low <= value <= high:
            return value
        self.wrong(column, OutOfRangeError("starting_points.number.out_of_range", value=value, low=low, high=high))
        return None

    def choice(self, column: str, kinds: Iterable[Kind]) -> Kind | None:
        """Read one of the words of a kind, in any case of letters."""
        text = self.text(column)
        if not text:
            return None
        known = {kind.value: kind for kind in kinds}
        if text.casefold() not in known:
            self.wrong(column, unknown_name("starting_points.choice.unknown", text, known))
        return known.get(text.casefold())

    def flag(self, column: str) -> bool | None:
        """Read yes or no."""
        text = self.text(column).casefold()
        if text and text not in ("yes", "no"):
            self.wrong(column, unknown_name("starting_points.choice.unknown", text, ("yes", "no")))
        return None if text not in ("yes", "no") else text == "yes"

    def dilution(self, column: str) -> Dilution:
        """Read a dilution such as 1+3 or stock; a colon has two meanings and is refused."""
        text = self.text(column, required=True).replace(" ", "").casefold()
        if text in ("", "stock"):
            return STOCK
        try:
            parts = [float(part) for part in text.replace(",", ".").split("+")]
        except ValueError:
            parts = []
        if len(parts) < 2:
            self.wrong(column, UnreadableError("starting_points.dilution.unreadable", value=text))
            return STOCK
        try:
            return dilution_of_parts(tuple(parts[:-1]), parts[-1])
        except WetsideError as error:
            self.wrong(column, error)
            return STOCK

    def source(self) -> Source:
        """Read where the row comes from."""
        return Source(self.text("source", required=True), self.text("page"), self.text("sheet_date"))


def unknown_name(code: str, value: str, known: Iterable[str]) -> UnknownNameError:
    """Make the error for a name that nothing answers to, with the nearest known one."""
    from wetside.adapters.suggest import nearest_word

    names = sorted(set(known))
    return UnknownNameError(code, value=value, known=names, nearest=nearest_word(value, names))


def _read_text(path: Traversable, file: str) -> str:
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise UnreadableError("starting_points.file.unreadable", place=Place(file), reason=error.strerror) from error
    if len(raw) > LARGEST_FILE:
        raise OutOfRangeError("starting_points.file.too_large", place=Place(file), bytes=len(raw), most=LARGEST_FILE)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise UnreadableError("starting_points.file.not_text", place=Place(file)) from error


def _rows(
    text: str, file: str, columns: tuple[str, ...], required: tuple[str, ...], errors: list[WetsideError]
) -> Iterator[PublishedRow]:
    """Lines of a CSV file under its header; comments and empty lines are passed over and still counted."""
    import csv

    lines = ["" if line.startswith("#") else line for line in text.splitlines()]
    header_line = next((line for line in lines if line.strip()), "")
    semicolons = header_line.count(";") > header_line.count(",")
    reader = csv.reader(lines, delimiter=";" if semicolons else ",")
    header: list[str] | None = None
    try:
        for cells in reader:
            if not any(cell.strip() for cell in cells):
                continue
            if header is None:
                header = [cell.strip().casefold() for cell in cells]
                if not _header_is_good(header, file, reader.line_num, columns, required, errors):
                    return
                continue
            if len(cells) > len(header):
                place = Place(file, reader.line_num)
                errors.append(
                    InputError("starting_points.row.too_long", place=place, count=len(cells), most=len(header))
                )
                continue
            yield PublishedRow(file, reader.line_num, dict(zip(header, cells, strict=False)), errors)
    except csv.Error as error:
        errors.append(
            UnreadableError("starting_points.file.broken", place=Place(file, reader.line_num), reason=str(error))
        )
    if header is None:
        errors.append(InputError("starting_points.file.empty", place=Place(file), known=columns))


def _header_is_good(
    header: list[str],
    file: str,
    line: int,
    columns: tuple[str, ...],
    required: tuple[str, ...],
    errors: list[WetsideError],
) -> bool:
    before, place = len(errors), Place(file, line)
    for name in dict.fromkeys(header):
        if name not in columns:
            errors.append(unknown_name("starting_points.column.unknown", name, columns).at(place))
        elif header.count(name) > 1:
            errors.append(InputError("starting_points.column.twice", place=place, column=name))
    errors.extend(
        InputError("starting_points.column.missing", place=place, column=name, known=columns)
        for name in required
        if name not in header
    )
    return len(errors) == before


def _files(topic: str, folder: Path | None, *, also_top: bool = False) -> Iterator[tuple[Traversable, str]]:
    """Our files of a topic, then the user's; sorted by name, so that the order never depends on the disk."""
    from importlib.resources import files

    for path in sorted((files("wetside") / "data" / topic).iterdir(), key=lambda entry: entry.name):
        if path.name.endswith(".csv"):
            yield path, path.name
    if folder is None:
        return
    if not folder.is_dir():
        raise InputError("starting_points.folder.missing", value=str(folder))
    own = [*(folder.glob("*.csv") if also_top else ()), *(folder / topic).glob("*.csv")]
    for own_path in sorted(own):
        yield own_path, str(own_path)


def load_rows(
    topic: str,
    folder: Path | None,
    columns: tuple[str, ...],
    required: tuple[str, ...],
    read: Callable[[PublishedRow], _T | None],
    *,
    also_top: bool = False,
) -> list[_T]:
    """Load all rows of a topic, ours first.

    Parameters
    ----------
    topic : str
        Name of our data folder, and of the folder below the user's.
    folder : Path, optional
        The user's folder.
    columns, required : tuple of str
        Columns that may stand in a file, and those that must.
    read : callable
        Makes one value of a row, or None after noting an error.
    also_top : bool, optional
        Take CSV files straight in the user's folder too.

    Raises
    ------
    InputError
        If there is no such folder.
    ManyErrors
        All errors of all files.
    """
    found: list[_T] = []
    errors: list[WetsideError] = []
    for path, file in _files(topic, folder, also_top=also_top):
        try:
            text = _read_text(path, file)
        except WetsideError as error:
            errors.append(error)
            continue
        for row in _rows(text, file, columns, required, errors):
            before = len(errors)
            one = read(row)
            if len(errors) > before + 1:
                columns_here = {name: place for place, name in enumerate(row.cells)}
                errors[before:] = sorted(
                    errors[before:],
                    key=lambda error: columns_here.get((error.place or Place()).field or "", len(columns)),
                )
            if one is not None and len(errors) == before:
                found.append(one)
    if errors:
        raise ManyErrors(errors)
    return found
