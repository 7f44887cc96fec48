"""What a ledger adds up to: a fold over its lines, which the kept sums must equal at any time.

A line that was undone counts no more, nor does the one that undoes it. A count says what there is, whatever was booked
before; emptying ends what the bottle held. Each line keeps its change, so that the plain sum of all changes is the same
number.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Sequence
    from uuid import UUID

ML_DECIMALS = 3
"""Decimals that amounts are booked with; no measure of a darkroom shows more. [ml]"""
UNIT_DECIMALS = 6

STATES_AMOUNT = frozenset({"filled", "returned", "counted", "emptied"})
"""Kinds of line after which it is known how much there is."""


class Booked(NamedTuple):
    """One line of a ledger as it was written, and whether it still counts.

    ``change_ml`` and ``area_units`` are what it changed in the sums; ``counts`` is False for a line that was undone and
    for one that undoes another.
    """

    id: UUID | None
    number: int
    at: dt.datetime | None
    kind: str
    change_ml: float = 0.0
    area_units: float = 0.0
    film_class: str = ""
    clearing_s: float | None = None
    temp_c: float | None = None
    film: str = ""
    fresh: bool = False
    counts: bool = True


class Sums(NamedTuple):
    """Liquid that is left [ml], None where nobody said; film that it has seen [units of 516 cm2]."""

    left_ml: float | None
    seen_units: float


def fold(lines: Iterable[Booked], without: int | None = None) -> Sums:
    """Sums of a ledger.

    Parameters
    ----------
    lines : iterable of Booked
        In the order of their numbers.
    without : int, optional
        Number of a line that is to be left out, as if it were undone.

    Returns
    -------
    sums : Sums
        ``left_ml`` may come out negative where a line is left out that others build upon; the writer refuses that.

    Examples
    --------
    >>> fold([Booked(None, 1, None, "filled", 500.0), Booked(None, 2, None, "drawn", -80.0)])
    Sums(left_ml=420.0, seen_units=0.0)
    """
    stated_ml = left_ml = seen = 0.0
    known = False
    for line in lines:
        stated_ml += line.change_ml
        if not line.counts or line.number == without:
            continue
        known = known or line.kind in STATES_AMOUNT
        if line.kind == "counted":
            left_ml = stated_ml
        elif line.kind == "emptied":
            left_ml = seen = 0.0
        else:
            left_ml += line.change_ml
            seen += line.area_units
    left_ml = round(left_ml, ML_DECIMALS) + 0.0
    return Sums(left_ml if known or left_ml else None, round(seen, UNIT_DECIMALS) + 0.0)


def since_emptied(lines: Sequence[Booked]) -> list[Booked]:
    """Lines that count since the bottle was last emptied, in order."""
    counting = [line for line in lines if line.counts]
    last = max((place for place, line in enumerate(counting) if line.kind == "emptied"), default=-1)
    return counting[last + 1 :]


class FilmPassed(NamedTuple):
    """Film that went through [units of 516 cm2], its class, and the liquid that it went through [ml], if known."""

    units: float
    film_class: str
    volume_ml: float | None


def film_passed(lines: Sequence[Booked]) -> list[FilmPassed]:
    """Film since the bottle was last emptied, each beside the liquid that took it.

    Parameters
    ----------
    lines : sequence of Booked
        The whole ledger.

    Notes
    -----
    What stood in the bottle then, and what had been drawn and came back afterwards; a drawing that never came back
    did not share the load with the rest.

    Examples
    --------
    >>> kinds = (("filled", 1000.0, 0.0), ("drawn", -500.0, 0.0), ("film", 0.0, 2.0), ("returned", 480.0, 0.0))
    >>> lines = [Booked(None, n, None, kind, ml, units) for n, (kind, ml, units) in enumerate(kinds)]
    >>> film_passed(lines)
    [FilmPassed(units=2.0, film_class='', volume_ml=980.0)]
    """
    counting = since_emptied(lines)
    # A count is kept as the difference that it made when it was written, which an undo can shift: begin anew at it.
    stated = _stated(lines)
    comes_back = sum(line.change_ml for line in counting if line.kind == "returned")
    left = out = 0.0
    passed: list[FilmPassed] = []
    for line in counting:
        if line.kind == "film":
            volume = left + min(out, comes_back)
            if volume <= 0:
                volume = out
            passed.append(FilmPassed(line.area_units, line.film_class, volume if volume > 0 else None))
        elif line.kind == "counted":
            left = stated[line.number]
        else:
            left += line.change_ml
            if line.kind == "drawn":
                out -= line.change_ml
            elif line.kind == "returned":
                out = max(0.0, out - line.change_ml)
                comes_back -= line.change_ml
    return passed


def _stated(lines: Iterable[Booked]) -> dict[int, float]:
    """What each count stated. [ml]"""
    total = 0.0
    stated = {}
    for line in lines:
        total += line.change_ml
        if line.kind == "counted":
            stated[line.number] = total
    return stated
