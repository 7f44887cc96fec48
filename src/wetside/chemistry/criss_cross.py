"""The criss-cross: parts of two liquids that make a strength, or a temperature, between theirs."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_amount_ml, check_not_negative, check_positive
from wetside.errors import InputError, OutOfRangeError

if TYPE_CHECKING:
    from collections.abc import Sequence

COLDEST_C, HOTTEST_C = 0.0, 99.0
"""Liquid water, as far as our table of it goes. [C]"""


class CrissCross(NamedTuple):
    """Parts of the first and of the second liquid, in the unit of the strengths; only their ratio matters."""

    first_parts: float
    second_parts: float


class TwoVolumes(NamedTuple):
    """What to measure of the first and of the second liquid. [ml]"""

    first_ml: float
    second_ml: float


def criss_cross_parts(first: float, second: float, wanted: float) -> CrissCross:
    """Parts of two strengths that make a third between them. [1]

    Parameters
    ----------
    first, second : float
        Strengths, or temperatures, in either order; water has the strength 0. [any]
    wanted : float
        Between them, or equal to one. [any]

    Raises
    ------
    InputError
        If the two are equal: any mix of them has their strength.
    OutOfRangeError
        If one is not finite, or the wanted one lies outside the two.

    Notes
    -----
    Parts of the first: ``|wanted - second|``; of the second: ``|first - wanted|``. Percent by volume gives parts by
    volume, percent by weight parts by weight.

    References
    ----------
    .. [1] us-army-ss0513, lesson 1: mixing by strength.

    Examples
    --------
    >>> criss_cross_parts(28.0, 5.0, 12.0)
    CrissCross(first_parts=7.0, second_parts=16.0)
    """
    for name, value in (("first", first), ("second", second), ("wanted", wanted)):
        if not abs(value) <= 1e12:
            raise OutOfRangeError("chemistry.value.not_finite", name=name, value=value)
    if first == second:
        raise InputError("chemistry.criss_cross.equal", value=first)
    low, high = min(first, second), max(first, second)
    if not low <= wanted <= high:
        raise OutOfRangeError("chemistry.criss_cross.outside", wanted=wanted, low=low, high=high)
    return CrissCross(abs(wanted - second), abs(first - wanted))


def criss_cross_volumes(
    first_percent: float, second_percent: float, wanted_percent: float, total_ml: float
) -> TwoVolumes:
    """Volumes of two solutions of one substance that make a third strength. [ml]

    Parameters
    ----------
    first_percent, second_percent : float
        Strengths in the same sense, 0 to 100, in either order; 0 for water. [%]
    wanted_percent : float
        Between them. [%]
    total_ml : float
        Solution wanted. [ml]

    Raises
    ------
    InputError
        If the two strengths are equal.
    OutOfRangeError
        If a strength is negative or above 100, the wanted one outside the two, or the total out of range.

    Notes
    -----
    ``total * parts / sum of parts``; volumes are taken to add up. Acid goes into the water.

    References
    ----------
    .. [1] us-army-ss0513, lesson 1: 32 fl oz of 28 % from 99.5 % acid are 9 fl oz and 23 fl oz of water.

    Examples
    --------
    >>> acid_ml, water_ml = criss_cross_volumes(99.5, 0.0, 28.0, 1000.0)
    >>> round(acid_ml, 1), round(water_ml, 1)
    (281.4, 718.6)
    """
    for name, value in (("first_percent", first_percent), ("second_percent", second_percent)):
        check_not_negative(name, value)
        if value > 100:
            raise OutOfRangeError("chemistry.percent.over_hundred", value=value)
    check_amount_ml(total_ml)
    return _share(criss_cross_parts(first_percent, second_percent, wanted_percent), total_ml)


def criss_cross_temperature_ml(hot_c: float, cold_c: float, wanted_c: float, total_ml: float) -> TwoVolumes:
    """Hot and cold water for a temperature, by the criss-cross alone. [ml]

    Parameters
    ----------
    hot_c, cold_c : float
        In either order; 0 to 99. [C]
    wanted_c : float
        Between them. [C]
    total_ml : float
        Water wanted. [ml]

    Raises
    ------
    InputError
        If both have the same temperature.
    OutOfRangeError
        If a temperature is no liquid water's, the wanted one outside the two, or the total out of range.

    Notes
    -----
    Takes the density and the specific heat of water as constant, which is off by less than 3 % of the hot volume; see
    :func:`wetside.chemistry.mixing_temperature.hot_and_cold_ml` for the table.

    Examples
    --------
    >>> hot_ml, cold_ml = criss_cross_temperature_ml(50.0, 12.0, 20.0, 1000.0)
    >>> round(hot_ml, 1), round(cold_ml, 1)
    (210.5, 789.5)
    """
    for value in (hot_c, cold_c, wanted_c):
        check_water_c(value)
    check_amount_ml(total_ml)
    return _share(criss_cross_parts(hot_c, cold_c, wanted_c), total_ml)


def added_ml(have_ml: float, have: float, added: float, wanted: float) -> float:
    """Amount of a second liquid that brings what stands there to a wanted strength or temperature. [ml]

    Parameters
    ----------
    have_ml : float
        What stands there. [ml]
    have : float
        Its strength or temperature. [any]
    added : float
        Strength or temperature of what is added. [any]
    wanted : float
        Between them; not that of what is added. [any]

    Raises
    ------
    InputError
        If the two are equal, or no amount would do because that of the added liquid itself is wanted.
    OutOfRangeError
        If the wanted one lies outside the two, or the amount is out of range.

    Examples
    --------
    >>> added_ml(500.0, 18.0, 50.0, 20.0)
    33.333333333333336
    """
    check_amount_ml(have_ml)
    parts = criss_cross_parts(have, added, wanted)
    if parts.first_parts == 0:
        raise InputError("chemistry.criss_cross.no_end", value=added)
    return have_ml * parts.second_parts / parts.first_parts


def mixture_strength(parts: Sequence[tuple[float, float]]) -> float:
    """Strength of a mix of any number of solutions. [in the unit given]

    Parameters
    ----------
    parts : sequence of (float, float)
        Amount, and strength, of each; 0 for water. [any]

    Raises
    ------
    OutOfRangeError
        If an amount or a strength is negative or not finite, or all amounts are 0.

    Notes
    -----
    ``sum(amount * strength) / sum(amount)``.

    References
    ----------
    .. [1] anchell-2008, p. 170: 28 parts of glacial acid and 71 of water, by weight.

    Examples
    --------
    >>> round(mixture_strength([(28.0, 99.5), (71.0, 0.0)]), 2)
    28.14
    """
    for amount, strength in parts:
        check_not_negative("amount", amount)
        check_not_negative("strength", strength)
    total = sum(amount for amount, _ in parts)
    check_positive("amount", total)
    return sum(amount * strength for amount, strength in parts) / total


def check_water_c(value_c: float) -> None:
    """Refuse a temperature that liquid water in a darkroom cannot have. [C]

    Parameters
    ----------
    value_c : float
        [C]

    Raises
    ------
    OutOfRangeError
        If it is not finite, or outside :data:`COLDEST_C` to :data:`HOTTEST_C`.
    """
    if not COLDEST_C <= value_c <= HOTTEST_C:
        raise OutOfRangeError("chemistry.water.temperature", value_c=value_c, low_c=COLDEST_C, high_c=HOTTEST_C)


def _share(parts: CrissCross, total_ml: float) -> TwoVolumes:
    whole = parts.first_parts + parts.second_parts
    # The share first: strengths next to nothing apart would vanish in a product.
    return TwoVolumes(total_ml * (parts.first_parts / whole), total_ml * (parts.second_parts / whole))
