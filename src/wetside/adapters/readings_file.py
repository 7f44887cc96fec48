"""Readings of a step tablet from a CSV file: one row a density."""

from __future__ import annotations

import csv
import os
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.findings import EnoughError, Findings
from wetside.adapters.kinds import READING_LIMITS, number_value, reading_value, shown_raw
from wetside.adapters.suggest import nearest_word
from wetside.adapters.whole_file import read_text
from wetside.errors import (
    ConflictError,
    InputError,
    OutOfRangeError,
    Place,
    UnknownNameError,
    UnreadableError,
    WetsideError,
)
from wetside.planning.documents.evening import FilmTest
from wetside.planning.documents.keys import declared_keys

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wetside.adapters.findings import FieldPath

MOST_ROWS = 20_000
MOST_STEPS = 1000
NOMINAL_STEP_LOG_H = 0.15
"""Between the steps of an ordinary 21-step tablet: half a stop. Measured steps are better and come first."""


class TimedReadings(NamedTuple):
    """Readings of one developing time, in the order of rising exposure.

    ``dev_min`` in minutes, ``log_h`` in log10 lux-seconds (relative where it comes from a tablet whose exposure is not
    known), ``density`` as read, ``lines`` the lines of the file.
    """

    dev_min: float
    log_h: tuple[float, ...]
    density: tuple[float, ...]
    lines: tuple[int, ...]


class Cells(NamedTuple):
    """A row of a table of text: its line in the file, and its cells."""

    line: int
    cells: list[str]


def text_rows(text: str, file: str, *, comments: bool = False) -> Iterator[Cells]:
    """Rows of a CSV text that have something in them.

    Parameters
    ----------
    text : str
        Cells are parted by the comma, semicolon or tab that is most frequent in the heading; a line ``sep=;`` in front
        decides it.
    file : str
        Name for the place of errors.
    comments : bool
        Whether lines that start with ``#`` are left out.

    Raises
    ------
    UnreadableError
        If quotation marks of a row do not close, with its line.
    """
    lines = text.split("\n")
    skipped = 0
    mark = None
    while skipped < len(lines):
        line = lines[skipped].strip()
        if line.casefold().startswith("sep=") and len(line) == 5:
            mark = line[4]
        elif line and not (comments and line.startswith("#")):
            break
        skipped += 1
    if skipped == len(lines):
        return
    if mark is None and lines[skipped].rstrip().casefold() == "sep=":
        mark = "\t"
        skipped += 1
    mark = mark or _mark(lines[skipped])
    rest = (f"{line}\n" if not (comments and line.lstrip().startswith("#")) else "\n" for line in lines[skipped:])
    reader = csv.reader(rest, delimiter=mark, skipinitialspace=True, strict=True)
    while True:
        line_number = skipped + reader.line_num + 1
        try:
            cells = next(reader, None)
        except csv.Error as error:
            raise UnreadableError("files.csv.quotes", place=Place(file, line_number)) from error
        if cells is None:
            return
        if any(cell.strip() for cell in cells):
            yield Cells(line_number, [cell.strip() for cell in cells])


def _mark(heading: str) -> str:
    outside = "".join(heading.split('"')[::2])
    return max(",;\t", key=outside.count)


def read_curve_readings(
    path: str | os.PathLike[str],
    *,
    tablet: str | os.PathLike[str] | None = None,
    nominal_step_log_h: float | None = None,
    exposure_log_h: float = 0.0,
) -> tuple[TimedReadings, ...]:
    """Read a film test's readings, by developing time.

    Parameters
    ----------
    path : path
        CSV with the columns ``dev_min``, ``density``, and ``log_h`` or ``step``, in any order; lines that start with
        ``#`` are notes.
    tablet : path, optional
        CSV with the columns ``step`` and ``density``: the tablet as measured. Exposure of a step is
        ``exposure_log_h`` less its density.
    nominal_step_log_h : float, optional
        Difference of neighbouring steps where the tablet was not measured; step 1 is the thinnest. [log10]
    exposure_log_h : float
        Exposure on a clear tablet; 0 leaves log H relative. [log10 lux-second]

    Returns
    -------
    readings : tuple of TimedReadings
        Shortest time first.

    Raises
    ------
    InputError
        One error, or :class:`~wetside.errors.ManyErrors` with all of the file.
    """
    file = os.fspath(path)
    findings = Findings()
    lines: dict[FieldPath, int] = {}
    groups: dict[float, list[tuple[float, float, int]]] = {}
    steps = tablet_steps(tablet) if tablet is not None else None
    with suppress(EnoughError):
        _gather(read_text(path), file, groups, findings, lines, _Tablet(steps, nominal_step_log_h, exposure_log_h))
    if not groups and not findings:
        findings.add((), InputError("files.readings.none"))
    if findings:
        findings.refuse(lambda path: Place(file, lines.get(path[:1]), str(path[-1]) if len(path) > 1 else None))
    found = []
    for minutes in sorted(groups):
        rows = sorted(groups[minutes])
        found.append(TimedReadings(minutes, *(tuple(column) for column in zip(*rows, strict=True))))
    return tuple(found)


class _Tablet(NamedTuple):
    """Where the exposure of a step comes from."""

    steps: Mapping[int, float] | None
    nominal_log_h: float | None
    exposure_log_h: float

    def log_h(self, step: int) -> float:
        """Exposure of a step. [log10 lux-second]"""
        if self.steps is not None:
            if step not in self.steps:
                raise UnknownNameError(
                    "files.readings.no_such_step", value=step, first=min(self.steps), last=max(self.steps)
                )
            return self.exposure_log_h - self.steps[step]
        if self.nominal_log_h is None:
            raise InputError("files.readings.no_tablet")
        return self.exposure_log_h - self.nominal_log_h * (step - 1)


_ROWS = declared_keys(FilmTest)["rows"]
_COLUMNS = ("dev_min", "log_h", "step", "density")


def _columns(heading: Cells, wanted: tuple[str, ...], findings: Findings, lines: dict[FieldPath, int]) -> list[str]:
    """Names of the columns, in the file's order; an unknown one is noted and left out."""
    lines["heading",] = heading.line
    names = []
    for cell in heading.cells:
        name = "_".join(cell.casefold().replace("_", " ").split())
        if name not in wanted:
            nearest = nearest_word(name, wanted)
            code = "files.column.unknown" if nearest is None else "files.column.unknown_near"
            findings.add(
                ("heading", shown_raw(cell)),
                UnknownNameError(code, value=shown_raw(cell), nearest=nearest, allowed=list(wanted)),
            )
        elif name in names:
            findings.add(("heading", cell), ConflictError("files.column.twice", value=name))
        names.append(name)
    return names


def _step(text: str) -> int:
    value = number_value(text, _ROWS._replace(name="step", low=1.0, high=float(MOST_STEPS)))
    if not value.is_integer():
        raise UnreadableError("files.kind.whole", key="step", value=text, example="1")
    return int(value)


def _records(
    text: str,
    file: str,
    wanted: tuple[str, ...],
    findings: Findings,
    lines: dict[FieldPath, int],
) -> Iterator[tuple[int, dict[str, str]]]:
    """Rows as dictionaries; what has another form is noted."""
    rows = text_rows(text, file, comments=True)
    heading = next(rows, None)
    if heading is None:
        raise InputError("files.table.empty", place=Place(file=file))
    names = _columns(heading, wanted, findings, lines)
    for rank, (line, cells) in enumerate(rows):
        lines[line,] = line
        if rank >= MOST_ROWS:
            raise OutOfRangeError("files.table.too_long", place=Place(file, line), limit=MOST_ROWS)
        if len(cells) != len(names):
            findings.add((line,), UnreadableError("files.row.cells", found=len(cells), wanted=len(names)))
            continue
        yield line, dict(zip(names, cells, strict=True))


def _gather(
    text: str,
    file: str,
    groups: dict[float, list[tuple[float, float, int]]],
    findings: Findings,
    lines: dict[FieldPath, int],
    tablet: _Tablet,
) -> None:
    checked = False
    for line, row in _records(text, file, _COLUMNS, findings, lines):
        if not checked:
            checked = True
            if not _complete(row, findings):
                return
        try:
            log_h: float | str = row["log_h"] if "log_h" in row else tablet.log_h(_step(row["step"]))
            minutes, exposure, density = reading_value([row["dev_min"], log_h, row["density"]], _ROWS)
        except WetsideError as error:
            findings.add((line, str(error.params.get("key") or _wrong_column(row))), error)
            if error.code == "files.readings.no_tablet":
                return
            continue
        groups.setdefault(minutes, []).append((exposure, density, line))


def _wrong_column(row: Mapping[str, str]) -> str:
    """Name of the first column whose text is no number; the step's where all are."""
    for name in ("dev_min", "log_h", "density"):
        try:
            number_value(row.get(name, "0"), _ROWS._replace(name=name, low=None, high=None))
        except WetsideError:
            return name
    return "step"


def _complete(row: Mapping[str, str], findings: Findings) -> bool:
    lacking = [name for name in ("dev_min", "density") if name not in row]
    if "log_h" not in row and "step" not in row:
        lacking.append("log_h")
    if "log_h" in row and "step" in row:
        findings.add(("heading",), ConflictError("files.readings.two_exposures"))
        return False
    for name in lacking:
        findings.add(("heading",), InputError("files.column.missing", value=name))
    return not lacking


def tablet_steps(path: str | os.PathLike[str]) -> dict[int, float]:
    """Densities of a tablet's own steps. [density]

    Raises
    ------
    ManyErrors
        All errors of the file, each with its line and column.
    """
    file = os.fspath(path)
    findings = Findings()
    lines: dict[FieldPath, int] = {}
    steps: dict[int, float] = {}
    with suppress(EnoughError):
        for line, row in _records(read_text(path), file, ("step", "density"), findings, lines):
            _add_step(steps, row, line, findings)
    if not steps and not findings:
        findings.add((), InputError("files.table.empty"))
    if findings:
        findings.refuse(lambda path: Place(file, lines.get(path[:1]), str(path[-1]) if len(path) > 1 else None))
    return steps


def _add_step(steps: dict[int, float], row: Mapping[str, str], line: int, findings: Findings) -> None:
    try:
        step = _step(row.get("step", ""))
        low, high = READING_LIMITS[2]
        density = number_value(row.get("density", ""), _ROWS._replace(name="density", low=low, high=high))
    except WetsideError as error:
        findings.add((line, str(error.params.get("key", "step"))), error)
        return
    if step in steps:
        findings.add((line, "step"), ConflictError("files.readings.step_twice", value=step))
    steps[step] = density


def rows_of_readings(readings: tuple[TimedReadings, ...]) -> tuple[tuple[float, float, float], ...]:
    """Return readings as plain rows of minutes, log H and density, the way an evening file holds them."""
    return tuple(
        (timed.dev_min, log_h, density)
        for timed in readings
        for log_h, density in zip(timed.log_h, timed.density, strict=True)
    )
