"""What is printed on, named by number, grade, filter or process: the aim that it gives."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.printing_data import row_named, rows_of_kind
from wetside.errors import InputError, OutOfRangeError, Place, WetsideError
from wetside.sensitometry.aims import default_tolerance
from wetside.sensitometry.channels import channels_of_printing
from wetside.sensitometry.grades import PrintingAim, PrintingRange, aim_of_row
from wetside.services.options import typed
from wetside.units import parse_number
from wetside.values.evidence import Evidence, Source
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Sequence

SILVER = ("graded-paper", "variable-paper")
"""What grades and filters are for: other printings have none."""

SMALLEST_AIM, LARGEST_AIM = 0.2, 3.5
"""Ranges that an evening file takes. [density]"""

LISTED = ("process", "enlarger", "limit")


class PrintingNames(NamedTuple):
    """What was typed; ``number``, ``grade``, ``filter``, ``process`` and ``wanted`` name one printing between them.

    ``printing`` is the kind of printing where only a number or a range is known, ``product`` the paper of a filter.
    """

    number: str | None = None
    grade: str | None = None
    filter: str | None = None
    process: str | None = None
    wanted: str | None = None
    printing: str | None = None
    product: str | None = None

    @property
    def options(self) -> list[str]:
        """Options that were given of those that name what is printed on."""
        given = {
            "--number": self.number,
            "--grade": self.grade,
            "--filter": self.filter,
            "--process": self.process,
            "--aim": self.wanted,
        }
        return [option for option, text in given.items() if text is not None]


class NamedPrinting(NamedTuple):
    """An aim; ``row`` is the one that it was taken from, None for a number or a bare range."""

    aim: PrintingAim
    row: PrintingRange | None

    @property
    def name(self) -> str | None:
        """What the row is called; None without one."""
        if self.row is None:
            return None
        return f"{self.row.kind} {self.row.name}" if self.row.kind in ("grade", "filter") else self.row.name


def named_printing(names: PrintingNames, known: Sequence[PrintingRange]) -> NamedPrinting:
    """Aim of what is printed on, by the one name that was given.

    Raises
    ------
    WetsideError
        Naming the option that is missing, one too many, or cannot be taken.
    """
    options = names.options
    if len(options) > 1:
        raise InputError("services.paper_twice", options=options)
    printing = names.printing or "graded-paper"
    if names.number is not None:
        number = typed("--number", _number, names.number)
        return NamedPrinting(_plain_aim(number / 100.0, printing, Evidence.PUBLISHED, "range number of the box"), None)
    if names.wanted is not None:
        wanted = typed("--aim", _wanted, names.wanted)
        # Nobody said how the range was found.
        return NamedPrinting(_plain_aim(wanted, printing, Evidence.ASSUMED, "range as typed"), None)
    if names.printing is not None:
        raise InputError("services.paper_for_named", option=options[0])
    if names.grade is not None:
        rows, text = rows_of_kind(known, "grade"), names.grade
    elif names.filter is not None:
        rows, text = filters_of(names.product, known), names.filter
    else:
        # A scanner is both an aim and a limit of density: the aim is the one that can be printed for.
        rows = tuple(row for kind in reversed(LISTED) for row in rows_of_kind(known, kind))
        text = names.process or ""
    try:
        row = row_named(rows, text)
        return NamedPrinting(aim_of_row(row), row)
    except WetsideError as error:
        raise error.at(Place(field=options[0])) from None


def filters_of(product: str | None, known: Sequence[PrintingRange]) -> tuple[PrintingRange, ...]:
    """Filters, of one paper if it is named.

    Raises
    ------
    InputError
        If no filters of that paper are known.
    """
    every = rows_of_kind(known, "filter")
    if product is None:
        return every
    own = tuple(row for row in every if plain_name(row.product) == plain_name(product))
    if not own:
        papers = sorted({row.product for row in every})
        raise InputError("services.paper_product", place=Place(field="--product"), value=product, known=papers)
    return own


def _number(text: str) -> float:
    """Range number as a box has it, with or without its R. [1]"""
    value = parse_number(text.strip().removeprefix("R").removeprefix("r"))
    if not 100.0 * SMALLEST_AIM <= value <= 100.0 * LARGEST_AIM:
        raise OutOfRangeError("services.paper_number", value=value, low=100.0 * SMALLEST_AIM, high=100.0 * LARGEST_AIM)
    return value


def _wanted(text: str) -> float:
    value = parse_number(text)
    if not SMALLEST_AIM <= value <= LARGEST_AIM:
        raise OutOfRangeError("services.density_range", value=value, low=SMALLEST_AIM, high=LARGEST_AIM)
    return value


def _plain_aim(density_range: float, printing: str, evidence: Evidence, where: str) -> PrintingAim:
    return PrintingAim(
        density_range,
        default_tolerance(printing),
        printing,
        channels_of_printing(printing),
        evidence,
        Source("own", where),
    )
