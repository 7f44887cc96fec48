"""The evening file: read whole, checked whole, and either good or refused with everything that is wrong."""

from __future__ import annotations

import dataclasses
import os
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from wetside.adapters.binder import Binder, title_of
from wetside.adapters.findings import EnoughError, Findings, field_text
from wetside.adapters.name_checks import check_names, there
from wetside.adapters.sense_checks import check_sense
from wetside.adapters.toml_text import parse_toml
from wetside.adapters.whole_file import beside, read_text
from wetside.errors import InputError, Place, RefusedError, WetsideError
from wetside.planning.documents.evening import EVENING_FORMAT, Evening, Sheet

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.adapters.findings import FieldPath
    from wetside.adapters.sheet_list import SheetTable


def read_evening(path: str | os.PathLike[str]) -> Evening:
    """Evening that a file describes, with its sheet list and its films' readings read in.

    Parameters
    ----------
    path : path
        The evening file. Files that it names must lie in the same folder or below it.

    Returns
    -------
    evening : Evening
        Complete in itself: ``sheet_list`` and ``readings`` are None, what they named stands in ``sheets`` and ``rows``;
        names are spelled as declared, twins are mutual, and every sheet names its film.

    Raises
    ------
    WetsideError
        The error, or :class:`~wetside.errors.ManyErrors` with all errors of the file in their order, each with file,
        line and field.
    """
    file = os.fspath(path)
    text = read_text(path)
    raw = parse_toml(text, file)
    return _Reader(file, text, raw).evening()


def evening_of_text(text: str, file: str = "evening.toml") -> Evening:
    r"""Evening that a text describes; files that it names are looked for beside ``file``.

    Raises
    ------
    WetsideError
        As :func:`read_evening`.

    Examples
    --------
    >>> evening_of_text('format = 1\n[[sheets]]\nlabel = "7 left"\nfilm = "Tolland 100"\n').sheets[0].id
    '7 left'
    """
    return _Reader(file, text, parse_toml(text, file)).evening()


class _Reader:
    """One reading of one file."""

    def __init__(self, file: str, text: str, raw: dict[str, Any]) -> None:
        self._file = file
        self._text = text
        self._raw = raw
        self._findings = Findings()
        self._own = 0
        self._list: SheetTable | None = None

    def evening(self) -> Evening:
        """Bind, join, check; refuse if anything was found."""
        self._check_format()
        evening: Evening | None = None
        with suppress(EnoughError):
            evening = self._checked()
        if self._findings or evening is None:
            self._findings.refuse(self._place_of())
        return evening

    def _checked(self) -> Evening:
        findings = self._findings
        binder = Binder(findings)
        evening: Evening = binder.table(Evening, self._raw, ())
        self._own = len(evening.sheets)
        evening = self._with_list(evening, binder)
        if not evening.sheets and not findings.at("sheets") and not findings.at("sheet_list"):
            findings.add((), InputError("files.evening.no_sheets"))
        evening = check_names(evening, findings)
        check_sense(evening, findings)
        return self._with_readings(evening)

    def _check_format(self) -> None:
        """Refuse a newer format before its keys are called unknown."""
        number = self._raw.get("format")
        if isinstance(number, int) and not isinstance(number, bool) and EVENING_FORMAT < number < 1_000_000:
            self._findings.add(("format",), RefusedError("files.format.newer", value=number, known=EVENING_FORMAT))
            self._findings.refuse(self._place_of())

    def _with_list(self, evening: Evening, binder: Binder) -> Evening:
        if evening.sheet_list is None:
            return evening
        from wetside.adapters.sheet_list import sheet_table

        findings = self._findings
        try:
            self._list = sheet_table(beside(self._file, evening.sheet_list), findings)
        except WetsideError as error:
            self._add_named(("sheet_list",), error)
            return evening
        sheets = tuple(
            binder.table(Sheet, row.raw, ("sheets", self._own + rank)) for rank, row in enumerate(self._list.rows)
        )
        return dataclasses.replace(evening, sheets=evening.sheets + sheets, sheet_list=None)

    def _with_readings(self, evening: Evening) -> Evening:
        """Evening with the rows of the readings' files in place of the files' names."""
        if not any(test.readings for _, film in there(evening.films) for _, test in there(film.tests)):
            return evening
        from wetside.adapters.readings_file import read_curve_readings, rows_of_readings

        films = list(evening.films)
        for rank, film in there(evening.films):
            tests = list(film.tests)
            for index, test in there(film.tests):
                if test.readings is None or test.rows:
                    continue
                try:
                    readings = read_curve_readings(beside(self._file, test.readings))
                except WetsideError as error:
                    self._add_named(("films", rank, "tests", index, "readings"), error)
                    continue
                tests[index] = dataclasses.replace(
                    test, readings=None, rows=rows_of_readings(readings), source=test.source or test.readings
                )
            films[rank] = dataclasses.replace(film, tests=tuple(tests))
        return dataclasses.replace(evening, films=tuple(films))

    def _add_named(self, path: FieldPath, error: WetsideError) -> None:
        """Note an error of a file that the evening names; if that is not there, the naming line is wrong."""
        if error.code.startswith("files.file."):
            error.place = None
        self._findings.add(path, error)

    def _place_of(self) -> Callable[[FieldPath], Place]:
        from wetside.adapters.line_numbers import KeyLines

        lines = KeyLines(self._text)

        def place_of(path: FieldPath) -> Place:
            if self._list is not None and len(path) > 1 and path[0] == "sheets" and isinstance(path[1], int):
                row = path[1] - self._own
                if row >= 0:
                    return self._list.place_of(row, path[2:])
            return Place(self._file, lines.line_of(path), field_text(path, title_of(self._raw, path)))

        return place_of
