"""Mixing water to a temperature: two volumes, what a concentrate asks of its water, and ice that cools a bath.

With a table of water's properties the heat is balanced by enthalpy and the volumes by density; without one both are
taken as constant, which errs by less than 3 % of the hot volume.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.criss_cross import COLDEST_C, HOTTEST_C, TwoVolumes, check_water_c, criss_cross_parts
from wetside.chemistry.limits import check_amount_ml, check_positive
from wetside.errors import InputError, OutOfRangeError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Sequence

WATER_G_ML = 0.998207
"""Density of water at 20 C (iapws-95). [g/ml]"""

WATER_HEAT_J_GK = 4.1841
"""Specific heat of water at 20 C (iapws-95). [J/(g K)]"""

ICE_HEAT_J_G = 333.4
"""Heat that melts ice at 0 C (iapws-ice-2006 against iapws-95). [J/g]"""


class WaterTable(NamedTuple):
    """Properties of liquid water at rising temperatures, for straight lines between them."""

    temps_c: tuple[float, ...]
    density_g_ml: tuple[float, ...]
    enthalpy_j_g: tuple[float, ...]


class Ice(NamedTuple):
    """Ice that cools a bath [g], and the water that it becomes [ml]."""

    ice_g: float
    meltwater_ml: float


def water_density_g_ml(temp_c: float, water: WaterTable | None = None) -> float:
    """Density of water. [g/ml]

    Parameters
    ----------
    temp_c : float
        0 to 99. [C]
    water : WaterTable, optional
        That at 20 C if absent.

    Raises
    ------
    OutOfRangeError
        If the temperature is no liquid water's.

    References
    ----------
    .. [1] iapws-95

    Examples
    --------
    >>> water_density_g_ml(20.0)
    0.998207
    """
    check_water_c(temp_c)
    return WATER_G_ML if water is None else _between(temp_c, water.temps_c, water.density_g_ml)


def water_enthalpy_j_g(temp_c: float, water: WaterTable | None = None) -> float:
    """Heat in a gram of water, counted from about 0 C. [J/g]

    Parameters
    ----------
    temp_c : float
        0 to 99. [C]
    water : WaterTable, optional
        A constant specific heat if absent.

    Raises
    ------
    OutOfRangeError
        If the temperature is no liquid water's.

    References
    ----------
    .. [1] iapws-95

    Examples
    --------
    >>> round(water_enthalpy_j_g(10.0), 2)
    41.84
    """
    check_water_c(temp_c)
    return WATER_HEAT_J_GK * temp_c if water is None else _between(temp_c, water.temps_c, water.enthalpy_j_g)


def mixed_temperature_c(parts: Sequence[tuple[float, float]], water: WaterTable | None = None) -> float:
    """Temperature of a mix of waters, or of solutions taken as water. [C]

    Parameters
    ----------
    parts : sequence of (float, float)
        Volume [ml] and temperature [C] of each.
    water : WaterTable, optional
        Constant density and specific heat if absent.

    Raises
    ------
    InputError
        If there are none.
    OutOfRangeError
        If a volume or a temperature is out of range.

    Notes
    -----
    ``sum(m h) / sum(m)``, turned back into a temperature; the vessel takes nothing.

    References
    ----------
    .. [1] iapws-95

    Examples
    --------
    >>> mixed_temperature_c([(200.0, 50.0), (800.0, 20.0)])
    26.0
    """
    if not parts:
        raise InputError("chemistry.water.nothing")
    for volume_ml, temp_c in parts:
        check_amount_ml(volume_ml)
        check_water_c(temp_c)
    if water is None:
        return sum(volume_ml * temp_c for volume_ml, temp_c in parts) / sum(volume_ml for volume_ml, _ in parts)
    masses = [volume_ml * water_density_g_ml(temp_c, water) for volume_ml, temp_c in parts]
    heat = sum(mass * water_enthalpy_j_g(temp_c, water) for mass, (_, temp_c) in zip(masses, parts, strict=True))
    return _between(heat / sum(masses), water.enthalpy_j_g, water.temps_c)


def hot_and_cold_ml(
    hot_c: float, cold_c: float, wanted_c: float, total_ml: float, water: WaterTable | None = None
) -> TwoVolumes:
    """Hot and cold water for a volume at a temperature. [ml]

    Parameters
    ----------
    hot_c, cold_c : float
        In either order, 0 to 99. [C]
    wanted_c : float
        Between them. [C]
    total_ml : float
        Volume at the wanted temperature. [ml]
    water : WaterTable, optional
        The criss-cross alone if absent.

    Returns
    -------
    volumes : TwoVolumes
        Each as measured at its own temperature; with a table the two make a little more than the total, for hot water
        shrinks as it cools.

    Raises
    ------
    InputError
        If both have the same temperature.
    OutOfRangeError
        If a temperature is no liquid water's, the wanted one outside the two, or the total out of range.

    References
    ----------
    .. [1] iapws-95

    Examples
    --------
    >>> [round(volume, 1) for volume in hot_and_cold_ml(60.0, 10.0, 20.0, 1000.0)]
    [200.0, 800.0]
    """
    for value in (hot_c, cold_c, wanted_c):
        check_water_c(value)
    check_amount_ml(total_ml)
    criss_cross_parts(hot_c, cold_c, wanted_c)  # refuses what lies outside
    hot, cold, wanted = (water_enthalpy_j_g(value, water) for value in (hot_c, cold_c, wanted_c))
    mass_g = total_ml * water_density_g_ml(wanted_c, water)
    hot_share = min(1.0, max(0.0, (wanted - cold) / (hot - cold)))  # rounding alone can pass the ends
    hot_ml = mass_g * hot_share / water_density_g_ml(hot_c, water)
    return TwoVolumes(hot_ml, mass_g * (1.0 - hot_share) / water_density_g_ml(cold_c, water))


def water_temperature_c(
    concentrate_ml: float, concentrate_c: float, water_ml: float, wanted_c: float, water: WaterTable | None = None
) -> float:
    """Temperature of the water that brings a concentrate of another temperature to the one wanted. [C]

    Parameters
    ----------
    concentrate_ml : float
        Taken to hold heat like water. [ml]
    concentrate_c : float
        As it stands in its bottle. [C]
    water_ml : float
        Water of the mix. [ml]
    wanted_c : float
        Of the mix. [C]
    water : WaterTable, optional
        Constant density and specific heat if absent.

    Raises
    ------
    OutOfRangeError
        If an amount or a temperature is out of range.
    RefusedError
        If no liquid water is cold or hot enough: temper the concentrate instead.

    Notes
    -----
    ``h_water = h_wanted + (m_concentrate / m_water) (h_wanted - h_concentrate)``. A syrup holds less heat than
    water: the mix comes out nearer to the water's temperature than told. Read the thermometer.

    Examples
    --------
    >>> water_temperature_c(200.0, 17.0, 800.0, 20.0)
    20.75
    """
    for volume_ml in (concentrate_ml, water_ml):
        check_amount_ml(volume_ml)
    for value in (concentrate_c, wanted_c):
        check_water_c(value)
    if water is None:
        needed_c = wanted_c + concentrate_ml / water_ml * (wanted_c - concentrate_c)
        if not COLDEST_C <= needed_c <= HOTTEST_C:
            raise _no_such_water(concentrate_c, wanted_c)
        return needed_c
    of_concentrate, of_mix = water_enthalpy_j_g(concentrate_c, water), water_enthalpy_j_g(wanted_c, water)
    # The water's mass depends a little on the temperature that is looked for: begin with the mix's density.
    needed_c = wanted_c
    for _ in range(4):
        mass_ratio = concentrate_ml * water_density_g_ml(concentrate_c, water)
        mass_ratio /= water_ml * water_density_g_ml(needed_c, water)
        heat = of_mix + mass_ratio * (of_mix - of_concentrate)
        if not water.enthalpy_j_g[0] <= heat <= water.enthalpy_j_g[-1]:
            raise _no_such_water(concentrate_c, wanted_c)
        needed_c = _between(heat, water.enthalpy_j_g, water.temps_c)
    return needed_c


def ice_needed(volume_ml: float, from_c: float, to_c: float, *, meltwater_warms: bool = True) -> Ice:
    """Ice at 0 C that cools a bath. [g]

    Parameters
    ----------
    volume_ml : float
        Bath to cool; counted as water. [ml]
    from_c : float
        As it is. [C]
    to_c : float
        Wanted, not above it. [C]
    meltwater_warms : bool, optional
        Whether the melted ice warms to the bath's temperature, loose or in its bag; if not, it is taken out as soon as
        it has melted, and only the melting counts.

    Returns
    -------
    ice : Ice
        The meltwater adds to the bath where the ice lies loose in it.

    Raises
    ------
    OutOfRangeError
        If an amount or a temperature is out of range, or the bath is to get warmer.

    Notes
    -----
    ``m_bath c (from - to) / (L + c to)``. Ice colder than 0 C does a little more, air and vessel take some
    away. The old count of 100 kcal to a kilogram, 80 for melting and 20 for warming to 20 C, gives the same. Ice loose
    in a working bath dilutes it: keep it in a closed bag or bottle there; the jacket takes it loose.

    References
    ----------
    .. [1] iapws-ice-2006; iapws-95.

    Examples
    --------
    >>> round(ice_needed(20000.0, 26.0, 20.0).ice_g)
    1202
    """
    check_amount_ml(volume_ml)
    check_water_c(from_c)
    check_water_c(to_c)
    if to_c > from_c:
        raise OutOfRangeError("chemistry.water.ice_warms", from_c=from_c, to_c=to_c)
    heat_j = volume_ml * WATER_G_ML * WATER_HEAT_J_GK * (from_c - to_c)
    ice_g = heat_j / (ICE_HEAT_J_G + (WATER_HEAT_J_GK * to_c if meltwater_warms else 0.0))
    return Ice(ice_g, ice_g / WATER_G_ML)


def check_water_table(water: WaterTable) -> WaterTable:
    """Table of water as it came, once it is sure that it can be read both ways. [C, g/ml, J/g]

    Parameters
    ----------
    water : WaterTable

    Raises
    ------
    InputError
        If columns differ in length, have fewer than two rows, or temperature or enthalpy does not rise.

    Examples
    --------
    >>> check_water_table(WaterTable((0.0, 99.0), (0.9998, 0.9591), (0.0, 415.0))).temps_c
    (0.0, 99.0)
    """
    from itertools import pairwise

    rises = all(
        later > earlier for column in (water.temps_c, water.enthalpy_j_g) for earlier, later in pairwise(column)
    )
    if len({len(column) for column in water}) > 1 or len(water.temps_c) < 2 or not rises:
        raise InputError("chemistry.water.table")
    for value in water.density_g_ml:
        check_positive("density_g_ml", value)
    return water


def _no_such_water(concentrate_c: float, wanted_c: float) -> RefusedError:
    return RefusedError("chemistry.water.concentrate", concentrate_c=concentrate_c, wanted_c=wanted_c)


def _between(value: float, known: tuple[float, ...], wanted: tuple[float, ...]) -> float:
    """Straight line between the two nearest rows; the ends hold for the last fraction of a degree beyond them."""
    from bisect import bisect_right

    if value <= known[0]:
        return wanted[0]
    if value >= known[-1]:
        return wanted[-1]
    place = bisect_right(known, value)
    share = (value - known[place - 1]) / (known[place] - known[place - 1])
    return wanted[place - 1] + share * (wanted[place] - wanted[place - 1])
