"""Warmth of bottle, vessel and jacket by the lumped model: one temperature inside, one around, one time constant.

What a wrong temperature does to development is told through a coefficient that the caller has from its own source.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from wetside.chemistry.amount import RANGE_ELASTICITY
from wetside.chemistry.criss_cross import check_water_c
from wetside.chemistry.limits import check_amount_ml, check_not_negative, check_positive
from wetside.chemistry.mixing_temperature import WATER_G_ML, WATER_HEAT_J_GK
from wetside.errors import OutOfRangeError, RefusedError

WITHIN_C = 0.3
"""Near enough for a developer: 2 to 3 % of its time. Our choice, a default that a caller can change. [C]"""

READING_C = 0.1
"""What a darkroom thermometer is read to. A default that a caller can change. [C]"""

_STEPS = 64


class VesselMaterial(NamedTuple):
    """What a vessel is made of: specific heat [J/(g K)] and, where known, density [g/ml], with the temperature [C]."""

    name: str
    heat_j_gk: float
    density_g_ml: float | None
    temp_c: float | None
    source: str


class LearnedConstant(NamedTuple):
    """Time constant from two readings, and its span as far as the thermometer knows; None without an end. [s]"""

    tau_s: float
    low_s: float
    high_s: float | None


class TemperatureEffect(NamedTuple):
    """What a bath's temperature did: its mean [C], change of rate like that of time [%], and of range [density]."""

    mean_c: float
    off_c: float
    time_percent: float
    density: float


def heat_capacity_j_k(liquid_ml: float, vessel_g: float = 0.0, vessel_heat_j_gk: float = 0.0) -> float:
    """Heat capacity of liquid and vessel together. [J/K]

    Parameters
    ----------
    liquid_ml : float
        Counted as water at 20 C. [ml]
    vessel_g : float, optional
        Of the part that the liquid touches. [g]
    vessel_heat_j_gk : float, optional
        Specific heat of its material. [J/(g K)]

    Raises
    ------
    OutOfRangeError
        If the liquid is out of range, or a value negative or not finite.

    References
    ----------
    .. [1] iapws-95; crawford-plastics, table 1.8.

    Examples
    --------
    >>> round(heat_capacity_j_k(500.0, 250.0, 1.3))
    2413
    """
    check_amount_ml(liquid_ml)
    check_not_negative("vessel_g", vessel_g)
    check_not_negative("vessel_heat_j_gk", vessel_heat_j_gk)
    return liquid_ml * WATER_G_ML * WATER_HEAT_J_GK + vessel_g * vessel_heat_j_gk


def poured_temperature_c(
    liquid_ml: float, liquid_c: float, vessel_g: float, vessel_heat_j_gk: float, vessel_c: float
) -> float:
    """Temperature of a liquid after it was poured into a vessel of another temperature. [C]

    Parameters
    ----------
    liquid_ml : float
        Counted as water. [ml]
    liquid_c : float
        As poured. [C]
    vessel_g : float
        Of the part that the liquid touches. [g]
    vessel_heat_j_gk : float
        Specific heat of its material. [J/(g K)]
    vessel_c : float
        Before. [C]

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    ``(C_liquid t_liquid + C_vessel t_vessel) / (C_liquid + C_vessel)``; the film's own heat and that of the room are
    left out.

    References
    ----------
    .. [1] iapws-95

    Examples
    --------
    >>> round(poured_temperature_c(300.0, 20.0, 300.0, 1.7, 17.0), 2)
    19.13
    """
    check_water_c(liquid_c)
    check_water_c(vessel_c)
    whole = heat_capacity_j_k(liquid_ml, vessel_g, vessel_heat_j_gk)
    of_vessel = vessel_g * vessel_heat_j_gk
    return liquid_c + (vessel_c - liquid_c) * of_vessel / whole


def time_constant_s(heat_capacity: float, exchange_w_k: float) -> float:
    """Time in which a difference of temperature falls to 37 %. [s]

    Parameters
    ----------
    heat_capacity : float
        Of :func:`heat_capacity_j_k`. [J/K]
    exchange_w_k : float
        Surface times coefficient of heat exchange; better learned than guessed. [W/K]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Examples
    --------
    >>> round(time_constant_s(heat_capacity_j_k(500.0, 250.0, 1.3), 1.2))
    2011
    """
    check_positive("heat_capacity", heat_capacity)
    check_positive("exchange_w_k", exchange_w_k)
    return heat_capacity / exchange_w_k


def relaxed_temperature_c(start_c: float, around_c: float, tau_s: float, time_s: float) -> float:
    """Temperature after some time in a jacket or a room. [C]

    Parameters
    ----------
    start_c : float
        At the beginning. [C]
    around_c : float
        Of jacket or room, taken as constant. [C]
    tau_s : float
        Time constant. [s]
    time_s : float
        0 or more. [s]

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    ``around + (start - around) exp(-time / tau)``.

    Examples
    --------
    >>> round(relaxed_temperature_c(20.0, 16.0, 2011.0, 600.0), 2)
    18.97
    """
    _check(start_c, around_c, tau_s)
    check_not_negative("time_s", time_s)
    return around_c + (start_c - around_c) * math.exp(-time_s / tau_s)


def mean_temperature_c(start_c: float, around_c: float, tau_s: float, time_s: float) -> float:
    """Mean temperature over a time in a jacket or a room. [C]

    Parameters
    ----------
    start_c, around_c : float
        At the beginning, and of jacket or room. [C]
    tau_s : float
        Time constant. [s]
    time_s : float
        0 or more. [s]

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    ``around + (start - around) (tau / time) (1 - exp(-time / tau))``.

    Examples
    --------
    >>> round(mean_temperature_c(20.0, 16.0, 2011.0, 600.0), 2)
    19.46
    """
    _check(start_c, around_c, tau_s)
    check_not_negative("time_s", time_s)
    return around_c + (start_c - around_c) * _mean_share(time_s / tau_s)


def start_for_mean_c(mean_c: float, around_c: float, tau_s: float, time_s: float) -> float:
    """Temperature to begin with, so that the mean over a time is the one wanted. [C]

    Parameters
    ----------
    mean_c : float
        Mean wanted. [C]
    around_c : float
        Of jacket or room. [C]
    tau_s : float
        Time constant. [s]
    time_s : float
        0 or more. [s]

    Raises
    ------
    OutOfRangeError
        If a value is out of range.
    RefusedError
        If no liquid water would do: bring jacket or room nearer.

    Examples
    --------
    >>> round(start_for_mean_c(20.0, 16.0, 2011.0, 600.0), 2)
    20.63
    """
    _check(mean_c, around_c, tau_s)
    check_not_negative("time_s", time_s)
    start_c = around_c + (mean_c - around_c) / _mean_share(time_s / tau_s)
    try:
        check_water_c(start_c)
    except OutOfRangeError as error:
        raise RefusedError("chemistry.temper.no_start", mean_c=mean_c, around_c=around_c, time_s=time_s) from error
    return start_c


def time_to_temperature_s(start_c: float, around_c: float, tau_s: float, wanted_c: float) -> float:
    """Time until a temperature on the way from the start to the jacket. [s]

    Parameters
    ----------
    start_c, around_c : float
        At the beginning, and of jacket or room. [C]
    tau_s : float
        Time constant. [s]
    wanted_c : float
        From the start to short of the jacket's. [C]

    Raises
    ------
    OutOfRangeError
        If a value is out of range.
    RefusedError
        If the temperature wanted is never reached.

    Notes
    -----
    ``tau ln((start - around) / (wanted - around))``.

    Examples
    --------
    >>> round(time_to_temperature_s(16.0, 24.0, 348.0, 20.0))
    241
    """
    _check(start_c, around_c, tau_s)
    check_water_c(wanted_c)
    if wanted_c == start_c:
        return 0.0
    from_start, left = start_c - around_c, wanted_c - around_c
    if left == 0 or from_start == 0 or not 0 < left / from_start < 1:
        raise RefusedError("chemistry.temper.never", wanted_c=wanted_c, start_c=start_c, around_c=around_c)
    return tau_s * math.log(from_start / left)


def time_within_s(start_c: float, around_c: float, tau_s: float, within_c: float = WITHIN_C) -> float:
    """Time until a bottle is near enough to its jacket's temperature. [s]

    Parameters
    ----------
    start_c, around_c : float
        At the beginning, and of the jacket, which is held at the temperature wanted. [C]
    tau_s : float
        Time constant. [s]
    within_c : float, optional
        Near enough. [C]

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Examples
    --------
    >>> round(time_within_s(16.0, 24.0, 348.0) / 60.0)
    19
    """
    _check(start_c, around_c, tau_s)
    check_positive("within_c", within_c)
    gap_c = abs(start_c - around_c)
    return 0.0 if gap_c <= within_c else tau_s * math.log(gap_c / within_c)


def learned_time_constant(
    start_c: float, end_c: float, around_c: float, time_s: float, reading_c: float = READING_C
) -> LearnedConstant:
    """Time constant of a bottle or vessel, from two readings of its thermometer. [s]

    Parameters
    ----------
    start_c, end_c : float
        First and last reading. [C]
    around_c : float
        Of jacket or room, constant. [C]
    time_s : float
        Between the readings. [s]
    reading_c : float, optional
        What the last reading may be off. [C]

    Returns
    -------
    learned : LearnedConstant
        The span is wide where the readings lie close together. From fewer than three evenings it is a proposal.

    Raises
    ------
    OutOfRangeError
        If a value is out of range.
    RefusedError
        If the readings do not come nearer to the temperature around, or pass it.

    Notes
    -----
    ``time / ln((start - around) / (end - around))``.

    Examples
    --------
    >>> learned = learned_time_constant(20.0, 19.2, 16.0, 600.0)
    >>> round(learned.tau_s / 60.0, 1), round(learned.low_s / 60.0), round(learned.high_s / 60.0)
    (44.8, 39, 52)
    """
    for value in (start_c, end_c, around_c):
        check_water_c(value)
    check_positive("time_s", time_s)
    check_not_negative("reading_c", reading_c)
    first_c, last_c = abs(start_c - around_c), abs(end_c - around_c)
    if (start_c - around_c) * (end_c - around_c) <= 0 or not 0 < last_c < first_c:
        raise RefusedError("chemistry.temper.not_nearer", start_c=start_c, end_c=end_c, around_c=around_c)
    quick_c, slow_c = last_c - reading_c, last_c + reading_c
    low_s = time_s / math.log(first_c / quick_c) if quick_c > 0 else 0.0
    high_s = time_s / math.log(first_c / slow_c) if slow_c < first_c else None
    return LearnedConstant(time_s / math.log(first_c / last_c), low_s, high_s)


def heater_time_s(
    volume_ml: float,
    from_c: float,
    to_c: float,
    power_w: float,
    loss_w_k: float = 0.0,
    around_c: float | None = None,
) -> float:
    """Time in which a heater warms a jacket. [s]

    Parameters
    ----------
    volume_ml : float
        Water in the jacket. [ml]
    from_c, to_c : float
        The second not below the first. [C]
    power_w : float
        What the heater gives. [W]
    loss_w_k : float, optional
        What the jacket gives to the room for each degree between them. [W/K]
    around_c : float, optional
        Of the room; the first temperature if absent. [C]

    Raises
    ------
    OutOfRangeError
        If a value is out of range, or the jacket is to get colder.
    RefusedError
        If the heater never gets there.

    Notes
    -----
    Without loss ``C (to - from) / power``; with it the jacket relaxes towards ``around + power / loss``. A heater stays
    on only while it stands in water, behind a residual-current switch.

    References
    ----------
    .. [1] iapws-95

    Examples
    --------
    >>> round(heater_time_s(5000.0, 15.0, 20.0, 300.0))
    348
    """
    check_water_c(from_c)
    check_water_c(to_c)
    check_positive("power_w", power_w)
    check_not_negative("loss_w_k", loss_w_k)
    around = from_c if around_c is None else around_c
    check_water_c(around)
    heat_capacity = heat_capacity_j_k(volume_ml)
    if to_c < from_c:
        raise OutOfRangeError("chemistry.temper.heater_cools", from_c=from_c, to_c=to_c)
    if to_c == from_c:
        return 0.0
    if loss_w_k * max(abs(to_c - around), abs(from_c - around)) < power_w * 1e-9:
        return heat_capacity * (to_c - from_c) / power_w
    end_c = around + power_w / loss_w_k
    if end_c <= to_c:
        raise RefusedError("chemistry.temper.heater_weak", to_c=to_c, most_c=end_c, power_w=power_w)
    return heat_capacity / loss_w_k * math.log1p((to_c - from_c) / (end_c - to_c))


def temperature_effect(
    start_c: float,
    around_c: float,
    tau_s: float,
    time_s: float,
    wanted_c: float,
    coefficient_per_c: float,
    density_range: float,
    elasticity: float = RANGE_ELASTICITY,
) -> TemperatureEffect:
    """What a bath that begins off its temperature does to a negative, while jacket or room bring it elsewhere.

    Parameters
    ----------
    start_c : float
        After pouring, as :func:`poured_temperature_c` has it. [C]
    around_c : float
        Of jacket or room; the start's own for a vessel that nothing warms. [C]
    tau_s : float
        Time constant of the filled vessel. [s]
    time_s : float
        In the bath. [s]
    wanted_c : float
        For which the time was meant. [C]
    coefficient_per_c : float
        Relative change of developing time for a degree, of this developer and its source. [1/C]
    density_range : float
        That the sheet is meant to have. [density]
    elasticity : float, optional
        Relative change of density range to that of time; evidence ``assumed``. [1]

    Returns
    -------
    effect : TemperatureEffect
        Negative where the bath was colder than meant: it acted like so many percent less time, and the range falls by
        so much density.

    Raises
    ------
    OutOfRangeError
        If a value is out of range.

    Notes
    -----
    Rate ``exp(k (T(t) - wanted))``, its mean over the time by Simpson's rule in 64 steps; range times
    ``rate ** elasticity``.

    Examples
    --------
    >>> poured_c = poured_temperature_c(300.0, 20.0, 300.0, 1.7, 17.0)
    >>> effect = temperature_effect(poured_c, 20.0, 480.0, 480.0, 20.0, 0.08, 1.05)
    >>> round(effect.off_c, 2), round(effect.time_percent, 1), round(effect.density, 2)
    (-0.55, -4.3, -0.03)
    """
    _check(start_c, around_c, tau_s)
    check_water_c(wanted_c)
    check_positive("time_s", time_s)
    check_not_negative("coefficient_per_c", coefficient_per_c)
    check_positive("density_range", density_range)
    check_positive("elasticity", elasticity)
    if coefficient_per_c > 1:
        raise OutOfRangeError("chemistry.temper.coefficient", value=coefficient_per_c)
    step_s = time_s / _STEPS
    total = 0.0
    for place in range(_STEPS + 1):
        weight = 1 if place in (0, _STEPS) else 4 if place % 2 else 2
        temp_c = around_c + (start_c - around_c) * math.exp(-place * step_s / tau_s)
        total += weight * math.exp(coefficient_per_c * (temp_c - wanted_c))
    rate = total / (3 * _STEPS)
    mean_c = mean_temperature_c(start_c, around_c, tau_s, time_s)
    density = density_range * (rate**elasticity - 1.0)
    return TemperatureEffect(mean_c, mean_c - wanted_c, (rate - 1.0) * 100.0, density)


def _check(start_c: float, around_c: float, tau_s: float) -> None:
    check_water_c(start_c)
    check_water_c(around_c)
    check_positive("tau_s", tau_s)


def _mean_share(ratio: float) -> float:
    """Mean of ``exp(-x)`` for x from 0 to the ratio; near 0 the quotient would lose its digits."""
    return 1.0 if ratio < 1e-12 else -math.expm1(-ratio) / ratio
