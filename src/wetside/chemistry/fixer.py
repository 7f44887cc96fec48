"""Fixer: how much film it takes, by its maker's figure and the kind of film, and what a sheet uses up."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_not_negative, check_positive
from wetside.errors import AmbiguousError, OutOfRangeError
from wetside.values.evidence import Evidence, Source, Sourced
from wetside.values.names import name_key
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Notes = tuple[tuple[str, dict[str, object]], ...]
"""Codes with their parameters, to be said by whoever speaks to a person."""

UNITS_PER_LITRE = 20.0
"""Film, in units of 80 square inches, to a litre of a fixer whose maker gives no figure. [1/l]"""

TABULAR_SHARE = 0.6
"""Share of a fixer's capacity that is left for tabular film; 0.5 to 0.7 in the source, the middle our choice. [1]"""

_ROUNDING = 1e-9
_UNNAMED = Source("brodie-tyrrell-fixer", "generic rapid fixer")


class BathCapacity(NamedTuple):
    """What a maker says that a volume of a bath treats: film in units of 80 square inches."""

    product: str
    dilution: str
    units: float
    volume_ml: float
    source: Source
    bath: str = "fix"
    note: str = ""

    @property
    def units_per_litre(self) -> float:
        """Film to a litre, in units of 80 square inches. [1/l]"""
        return self.units * 1000.0 / self.volume_ml


class FilmFixed(NamedTuple):
    """Film that goes through a fixer. [cm2]

    ``weight`` is from :func:`fixer_weight`; a film coated on both sides has 2 ``coated_sides``.
    """

    area_cm2: float
    tabular: bool = False
    weight: float = 1.0
    coated_sides: int = 1


def fixer_capacity(product: str | None, rows: Iterable[BathCapacity], dilution: str | None = None) -> Sourced:
    """Film to a litre of a fixer: its maker's own figure, 20 units where there is none. [1/l]

    Parameters
    ----------
    product : str or None
        Name of the fixer; None where it is unknown.
    rows : iterable of BathCapacity
        What makers have published.
    dilution : str or None
        Working dilution such as ``1+4``; needed where a product has several figures.

    Raises
    ------
    AmbiguousError
        If the product has several figures and the dilution does not tell them apart.

    References
    ----------
    .. [1] brodie-tyrrell-fixer, generic rapid fixer; anchell-2008, p. 108, an unknown acid fixer.

    Examples
    --------
    >>> fixer_capacity("Tolland Rapid", ()).value, fixer_capacity(None, ()).evidence.value
    (20.0, 'assumed')
    """
    key = name_key(product or "")
    own = [row for row in rows if product is not None and name_key(row.product) == key]
    if dilution is not None:
        own = [row for row in own if row.dilution == dilution]
    if not own:
        return Sourced(UNITS_PER_LITRE, Evidence.ASSUMED, _UNNAMED)
    if len({row.units_per_litre for row in own}) > 1:
        choices = sorted({row.dilution for row in own})
        raise AmbiguousError("chemistry.fixer.several", product=product, choices=choices)
    return Sourced(own[0].units_per_litre, Evidence.PUBLISHED, own[0].source)


def fixer_weight(stops_over: float | None) -> float:
    """How much more fixer a sheet uses than a normal one: silver that was not developed goes into the fixer. [1]

    Parameters
    ----------
    stops_over : float or None
        Exposure on the film above the one that was meant, negative for a thin sheet; None for a blank one. [stops]

    Raises
    ------
    OutOfRangeError
        If it is not finite.

    Notes
    -----
    ``1 - stops / 15``, from 0.8 (three stops over and more) to 1.3 (blank): it runs the other way from the
    developer's. From memory, ``assumed``; a default to be replaced.

    Examples
    --------
    >>> [round(fixer_weight(stops), 2) for stops in (0.0, 3.0, 5.0, -3.0)], fixer_weight(None)
    ([1.0, 0.8, 0.8, 1.2], 1.3)
    """
    if stops_over is None:
        return 1.3
    if not math.isfinite(stops_over):
        raise OutOfRangeError("chemistry.value.not_finite", name="stops_over", value=stops_over)
    return min(1.3, max(0.8, 1.0 - stops_over / 15.0))


def fixer_share(
    films: Iterable[FilmFixed],
    volume_ml: float,
    units_per_litre: float = UNITS_PER_LITRE,
    tabular_share: float = TABULAR_SHARE,
) -> float:
    """Share of a fixer's capacity that film has used up; 1 is its end. [1]

    Parameters
    ----------
    films : iterable of FilmFixed
        All film since the bath was mixed.
    volume_ml : float
        The bath at working strength. [ml]
    units_per_litre : float
        From :func:`fixer_capacity`. [1/l]
    tabular_share : float
        Capacity for tabular film as a share of that for ordinary film. [1]

    Raises
    ------
    OutOfRangeError
        If an area is negative, another value not positive, the share above 1, or the sides not 1 or 2.

    Notes
    -----
    Sum of ``area * weight * sides / (capacity * class share)``.

    References
    ----------
    .. [1] brodie-tyrrell-fixer, unit of area, capacity, tabular film.

    Examples
    --------
    Fifty-two ordinary and twenty tabular 4x5 in one litre:

    >>> films = [FilmFixed(52 * 129.032), FilmFixed(20 * 129.032, tabular=True)]
    >>> round(fixer_share(films, 1000.0), 2)
    1.07
    """
    check_positive("volume_ml", volume_ml)
    check_positive("units_per_litre", units_per_litre)
    _check_share(tabular_share)
    capacity_units = units_per_litre * volume_ml / 1000.0
    return math.fsum(_units_used(film, tabular_share) for film in films) / capacity_units


def _units_used(film: FilmFixed, tabular_share: float) -> float:
    check_not_negative("area_cm2", film.area_cm2)
    check_positive("weight", film.weight)
    if film.coated_sides not in (1, 2):
        raise OutOfRangeError("chemistry.fixer.sides", value=film.coated_sides)
    units = film.area_cm2 / UNIT_AREA_CM2 * film.weight * film.coated_sides
    return units / tabular_share if film.tabular else units


def _check_share(tabular_share: float) -> None:
    check_positive("tabular_share", tabular_share)
    if tabular_share > 1:
        raise OutOfRangeError("chemistry.fixer.share_above_one", value=tabular_share)


def first_past_capacity(
    films: Sequence[FilmFixed],
    volume_ml: float,
    units_per_litre: float = UNITS_PER_LITRE,
    tabular_share: float = TABULAR_SHARE,
) -> int | None:
    """Place of the first film in order that a fixer could no longer take in full, counted from 0; None if all. [1]

    Parameters
    ----------
    films : sequence of FilmFixed
        In the order in which they were fixed.
    volume_ml : float
        The bath at working strength. [ml]
    units_per_litre, tabular_share : float
        As for :func:`fixer_share`. [1/l, 1]

    Raises
    ------
    OutOfRangeError
        As :func:`fixer_share`.

    Examples
    --------
    >>> films = [FilmFixed(52 * 129.032), FilmFixed(20 * 129.032, tabular=True)]
    >>> first_past_capacity(films, 1000.0), first_past_capacity(films, 2000.0)
    (1, None)
    """
    share = 0.0
    for place, film in enumerate(films):
        share += fixer_share((film,), volume_ml, units_per_litre, tabular_share)
        if share > 1.0 + _ROUNDING:
            return place
    return None


def sheets_fixed(
    area_cm2: float,
    volume_ml: float,
    units_per_litre: float = UNITS_PER_LITRE,
    *,
    tabular: bool = False,
    tabular_share: float = TABULAR_SHARE,
) -> float:
    """Sheets of one size that a fixer takes before it must be changed; to be rounded down. [1]

    Parameters
    ----------
    area_cm2 : float
        Area of one sheet. [cm2]
    volume_ml : float
        The bath at working strength. [ml]
    units_per_litre, tabular_share : float
        As for :func:`fixer_share`. [1/l, 1]
    tabular : bool
        Whether the film is tabular.

    Raises
    ------
    OutOfRangeError
        As :func:`fixer_share`; the area must be positive.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 2.

    Examples
    --------
    >>> round(sheets_fixed(129.032, 1000.0, 24.0), 6)
    96.0
    """
    check_positive("area_cm2", area_cm2)
    return 1.0 / fixer_share((FilmFixed(area_cm2, tabular),), volume_ml, units_per_litre, tabular_share)


def capacity_area_m2(units_per_litre: float, volume_ml: float = 1000.0) -> float:
    """Area that a bath treats. [m2]

    Parameters
    ----------
    units_per_litre : float
        Film or paper to a litre, in units of 80 square inches. [1/l]
    volume_ml : float
        The bath at working strength. [ml]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Examples
    --------
    >>> round(capacity_area_m2(24.0), 2)
    1.24
    """
    check_positive("units_per_litre", units_per_litre)
    check_positive("volume_ml", volume_ml)
    return units_per_litre * volume_ml / 1000.0 * UNIT_AREA_CM2 / 10_000.0


def replenisher_ml(area_cm2: float, ml_per_m2: float = 855.0) -> float:
    """Working solution that replaces what film has used up in a replenished tank. [ml]

    Parameters
    ----------
    area_cm2 : float
        Film fixed. [cm2]
    ml_per_m2 : float
        The maker's rate. [ml/m2]

    Raises
    ------
    OutOfRangeError
        If the area is negative or the rate not positive.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 3, 855 ml to a square metre.

    Examples
    --------
    >>> round(replenisher_ml(516.128), 1)
    44.1
    """
    check_not_negative("area_cm2", area_cm2)
    check_positive("ml_per_m2", ml_per_m2)
    return area_cm2 / 10_000.0 * ml_per_m2
