"""What papers, filters, processes and scanners ask for, and the marked speeds: ours, then a user's own rows.

A user's folder may hold CSV files of the same columns in ``printing/``; a row of the same kind, product and name as
one of ours takes its place.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from wetside.adapters.published_rows import PublishedRow, load_rows, unknown_name
from wetside.errors import OutOfRangeError
from wetside.sensitometry.channels import channels_of_printing
from wetside.sensitometry.grades import PrintingRange
from wetside.sensitometry.rescue import DensityLimit
from wetside.sensitometry.speed import SpeedClass
from wetside.values.evidence import Evidence
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

PRINTING_COLUMNS = (
    *("kind", "printing", "name", "range_low", "range_high", "product", "evidence"),
    *("source", "sheet_date", "page", "note"),
)
_REQUIRED = ("kind", "printing", "name", "range_low", "source")
_RANGE = (0.05, 4.0)


class RowKind(StrEnum):
    """What a row of the printing data is."""

    GRADE = "grade"
    FILTER = "filter"
    ENLARGER = "enlarger"
    PROCESS = "process"
    LIMIT = "limit"


def load_printing_ranges(folder: Path | None = None) -> tuple[PrintingRange, ...]:
    """Load the density ranges of grades, filters, enlargers and processes, and the limits of density.

    Parameters
    ----------
    folder : Path, optional
        A user's folder with ``printing/*.csv``.

    Raises
    ------
    InputError
        If there is no such folder.
    ManyErrors
        All errors of all rows, each with its place.
    """
    rows = load_rows("printing", folder, PRINTING_COLUMNS, _REQUIRED, _range_of_row)
    return tuple({(row.kind, plain_name(row.product), plain_name(row.name)): row for row in rows}.values())


def rows_of_kind(rows: Iterable[PrintingRange], kind: str, product: str | None = None) -> tuple[PrintingRange, ...]:
    """Rows of one kind, and of one paper if it is named.

    Parameters
    ----------
    rows : iterable of PrintingRange
    kind : str
        ``grade``, ``filter``, ``enlarger``, ``process`` or ``limit``.
    product : str, optional
        Name of the paper, in any case of letters.
    """
    wanted = None if product is None else plain_name(product)
    return tuple(row for row in rows if row.kind == kind and wanted in (None, plain_name(row.product)))


def row_named(rows: Iterable[PrintingRange], name: str) -> PrintingRange:
    """Row of a name, such as a grade, a filter or a process.

    Parameters
    ----------
    rows : iterable of PrintingRange
        Of one kind.
    name : str
        In any case of letters.

    Raises
    ------
    UnknownNameError
        If no row has it; the error names the nearest.
    """
    known = {plain_name(row.name): row for row in rows}
    if plain_name(name) not in known:
        raise unknown_name("starting_points.choice.unknown", name, [row.name for row in known.values()])
    return known[plain_name(name)]


def density_limit(rows: Iterable[PrintingRange], name: str) -> DensityLimit:
    """Limit of density by its name, ``scanner`` or ``printing``, as the rescue of a sheet takes it.

    Parameters
    ----------
    rows : iterable of PrintingRange
    name : str

    Raises
    ------
    UnknownNameError
        If there is no such limit.
    """
    row = row_named(rows_of_kind(rows, "limit"), name)
    return DensityLimit(row.name, row.range_low, row.evidence)


def load_speed_classes() -> tuple[SpeedClass, ...]:
    """Load the marked speeds, slowest first."""
    import tomllib
    from importlib.resources import files

    table = tomllib.loads((files("wetside") / "data" / "printing" / "speeds.toml").read_text("utf-8"))
    classes = (SpeedClass(float(row["arithmetic"]), row["degrees"], row["log_hm"]) for row in table["speed"])
    return tuple(sorted(classes))


def _range_of_row(row: PublishedRow) -> PrintingRange | None:
    kind = row.choice("kind", RowKind)
    row.text("kind", required=True)
    low = row.number("range_low", *_RANGE, required=True)
    high = row.number("range_high", _RANGE[0] if low is None else low, _RANGE[1])
    printing = row.text("printing", required=True)
    if printing:
        _check_printing(row, printing)
    if kind is None or low is None:
        return None
    return PrintingRange(
        kind=kind.value,
        printing=printing,
        name=row.text("name", required=True),
        range_low=low,
        range_high=low if high is None else high,
        product=row.text("product"),
        evidence=row.choice("evidence", Evidence) or Evidence.PUBLISHED,
        source=row.source(),
        note=row.text("note"),
    )


def _check_printing(row: PublishedRow, printing: str) -> None:
    try:
        channels_of_printing(printing)
    except OutOfRangeError as error:
        row.wrong("printing", error)
