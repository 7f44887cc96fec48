"""Developer that is used again, and what a sheet takes of a bath. Capacities are the caller's data."""

from __future__ import annotations

import math

from wetside.chemistry.limits import check_positive
from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.sheet_size import UNIT_AREA_CM2


def reuse_factor(
    film_number: int, *, capacity_per_litre: float, litres: float = 1.0, added_per_film: float = 0.1
) -> float:
    """Factor of the standard time for a film in developer that has been used before. [1]

    Parameters
    ----------
    film_number : int
        1 is the first film in fresh developer; a film is 80 square inches. [1]
    capacity_per_litre : float
        Films that the maker allows to a litre. [1/l]
    litres : float
        Developer that takes turns, mixed again after each film; at least one litre. [l]
    added_per_film : float
        Share of the standard time that each film in a litre adds. [1]

    Raises
    ------
    OutOfRangeError
        If a value is not positive, the number not whole, or less than a litre is named.
    RefusedError
        If the maker's count is passed.

    Notes
    -----
    ``1 + added * floor((number - 1) / litres)``: it adds, it does not compound.

    References
    ----------
    .. [1] harman-powder-developers-2010, p. 8; harman-ddx-2019, p. 6.

    Examples
    --------
    >>> reuse_factor(1, capacity_per_litre=10), reuse_factor(10, capacity_per_litre=10)
    (1.0, 1.9)
    """
    check_positive("film_number", film_number)
    check_positive("capacity_per_litre", capacity_per_litre)
    check_positive("added_per_film", added_per_film)
    if film_number != math.floor(film_number):
        raise OutOfRangeError("chemistry.reuse.not_whole", value=film_number)
    if not (math.isfinite(litres) and litres >= 1.0):
        raise OutOfRangeError("chemistry.reuse.under_a_litre", value=litres)
    most = math.floor(capacity_per_litre * litres + 1e-9)
    if film_number > most:
        raise RefusedError("chemistry.reuse.used_up", number=film_number, most=most)
    return 1.0 + added_per_film * math.floor((film_number - 1) / litres + 1e-9)


def use_per_unit_ml(volume_ml: float, capacity_units: float) -> float:
    """Bath, stock or concentrate that 80 square inches of film use up. [ml]

    Parameters
    ----------
    volume_ml : float
        Volume that the capacity belongs to. [ml]
    capacity_units : float
        Films, in units of 80 square inches, that it treats. [1]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Examples
    --------
    >>> use_per_unit_ml(1000.0, 16.0)
    62.5
    """
    check_positive("volume_ml", volume_ml)
    check_positive("capacity_units", capacity_units)
    return volume_ml / capacity_units


def use_per_sheet_ml(volume_ml: float, capacity_units: float, area_cm2: float) -> float:
    """Bath, stock or concentrate that one sheet uses up. [ml]

    Parameters
    ----------
    volume_ml : float
        Volume that the capacity belongs to. [ml]
    capacity_units : float
        Films, in units of 80 square inches, that it treats. [1]
    area_cm2 : float
        Area of the sheet. [cm2]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Examples
    --------
    >>> use_per_sheet_ml(1000.0, 10.0, 129.032)
    25.0
    """
    check_positive("area_cm2", area_cm2)
    return use_per_unit_ml(volume_ml, capacity_units) * (area_cm2 / UNIT_AREA_CM2)
