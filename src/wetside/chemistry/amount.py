"""Liquid to wet the vessel and developing agent for the film: two needs, never merged."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_not_negative, check_positive
from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.dilution import STOCK, Dilution

if TYPE_CHECKING:
    from collections.abc import Sequence

VOLUME_STEP_ML = 10.0
"""Volumes are rounded up to this. Our choice. [ml]"""

HEAVIEST_WEIGHT = 2.0
"""A dense sheet counts at most double. Our choice; evidence ``assumed``. [1]"""

LEAST_AGENT_RATIO = 0.5
"""Below this share of the agent under which a time was found no result is foretold. Our choice. [1]"""

LOSS_PER_UNIT = 0.1
"""Activity lost to each unit of film in a litre of stock (harman-powder-developers-2010, p. 8, +10 % a film). [1]"""

RANGE_ELASTICITY = 0.65
"""Relative change of density range to that of developing time. Evidence ``assumed``. [1]"""

_ROUNDING = 1e-9


def agent_need_ml(weighted_area_cm2: float, agent_ml_per_cm2: float) -> float:
    """Stock or concentrate that the film of a load asks for. [ml]

    Parameters
    ----------
    weighted_area_cm2 : float
        Sum of area times weight. [cm2]
    agent_ml_per_cm2 : float
        Reference volume: the agent to an area under which the time was found. [ml/cm2]

    Raises
    ------
    OutOfRangeError
        If the area is negative or the reference is not positive.

    Examples
    --------
    >>> round(agent_need_ml(3.5 * 516.128, 62.5 / 516.128), 6)
    218.75
    """
    check_not_negative("weighted_area_cm2", weighted_area_cm2)
    check_positive("agent_ml_per_cm2", agent_ml_per_cm2)
    return weighted_area_cm2 * agent_ml_per_cm2


def working_need_ml(agent_ml: float, dilution: Dilution) -> float:
    """Working solution that holds an amount of agent. [ml]

    Parameters
    ----------
    agent_ml : float
        Stock or concentrate. [ml]
    dilution : Dilution
        [parts]

    Raises
    ------
    OutOfRangeError
        If the amount is negative or not finite.

    Examples
    --------
    >>> working_need_ml(350.0, Dilution((1.0,), 3.0))
    1400.0
    """
    check_not_negative("agent_ml", agent_ml)
    return agent_ml / dilution.agent_fraction


def agent_in_ml(volume_ml: float, dilution: Dilution) -> float:
    """Stock or concentrate in a volume of working solution. [ml]

    Parameters
    ----------
    volume_ml : float
        Working solution. [ml]
    dilution : Dilution
        [parts]

    Raises
    ------
    OutOfRangeError
        If the volume is negative or not finite.

    Examples
    --------
    >>> agent_in_ml(1000.0, Dilution((1.0,), 3.0))
    250.0
    """
    check_not_negative("volume_ml", volume_ml)
    return volume_ml * dilution.agent_fraction


def developer_weight(stops_over: float) -> float:
    """How much more developer a dense sheet uses than a normal one. [1]

    Parameters
    ----------
    stops_over : float
        Exposure on the film above the one that was meant; negative for a thin sheet. [stops]

    Raises
    ------
    OutOfRangeError
        If it is not finite.

    Notes
    -----
    ``min(2, 1 + stops / 3)``, our choice, evidence ``assumed``. A thin sheet uses less and still counts in full: what
    it leaves over is not lent to its neighbours. The fixer's weight runs the other way and is not made from this one.

    Examples
    --------
    >>> developer_weight(0.0), developer_weight(1.5), developer_weight(5.0), developer_weight(-2.0)
    (1.0, 1.5, 2.0, 1.0)
    """
    if not math.isfinite(stops_over):
        raise OutOfRangeError("chemistry.value.not_finite", name="stops_over", value=stops_over)
    return min(HEAVIEST_WEIGHT, 1.0 + max(0.0, stops_over) / 3.0)


class VolumeNeeded(NamedTuple):
    """Working solution to pour [ml], and what decides it: ``wetting``, ``agent`` or ``vessel``."""

    volume_ml: float
    binds: str


def volume_needed(
    wetting_ml: float, agent_working_ml: float | None, limit_ml: float, step_ml: float = VOLUME_STEP_ML
) -> VolumeNeeded:
    """Volume of a load: the larger need, rounded up to a mark, at most what the vessel takes. [ml]

    Parameters
    ----------
    wetting_ml : float
        Least liquid that wets every sheet. [ml]
    agent_working_ml : float or None
        Working solution that holds the agent; None where no reference is known. [ml]
    limit_ml : float
        Most that the vessel holds, or that its motor turns. [ml]
    step_ml : float
        Rounded up to whole steps of this. [ml]

    Returns
    -------
    volume_needed : VolumeNeeded
        ``binds`` is ``vessel`` where the agent asks for more than the vessel takes; the volume is then the limit, and
        :func:`activity_ratio` says what that does.

    Raises
    ------
    OutOfRangeError
        If a volume is negative or not finite, or the vessel cannot be wetted within its own limit.

    Examples
    --------
    >>> volume_needed(300.0, 875.0, 1000.0), volume_needed(300.0, 1312.5, 1000.0)
    (VolumeNeeded(volume_ml=880.0, binds='agent'), VolumeNeeded(volume_ml=1000.0, binds='vessel'))
    """
    check_not_negative("wetting_ml", wetting_ml)
    check_positive("limit_ml", limit_ml)
    check_positive("step_ml", step_ml)
    if wetting_ml > limit_ml:
        raise OutOfRangeError("chemistry.volume.limit_below_wetting", wetting_ml=wetting_ml, limit_ml=limit_ml)
    agent_ml = 0.0 if agent_working_ml is None else agent_working_ml
    check_not_negative("agent_working_ml", agent_ml)
    wanted_ml = max(wetting_ml, agent_ml)
    volume_ml = min(_rounded_up(wanted_ml, step_ml), limit_ml)
    if agent_ml > limit_ml * (1 + _ROUNDING):
        return VolumeNeeded(volume_ml, "vessel")
    return VolumeNeeded(volume_ml, "agent" if agent_ml > wetting_ml else "wetting")


def _rounded_up(volume_ml: float, step_ml: float) -> float:
    return math.ceil(volume_ml / step_ml - _ROUNDING) * step_ml


def mean_activity(units_per_litre: float) -> float:
    """Activity of a developer, averaged over the film that it develops at once; 1 when fresh. [1]

    Parameters
    ----------
    units_per_litre : float
        Film to a litre of stock, in units of 80 square inches; zero or more. [1/l]

    Raises
    ------
    OutOfRangeError
        If it is negative or not finite.

    Notes
    -----
    The maker adds 10 % of the standard time for each film after the first in a litre, so activity after x films is
    ``1 / (1 + 0.1 x)``; its mean from 0 to x is ``ln(1 + 0.1 x) / (0.1 x)``. A model of ours from one maker's rule.

    References
    ----------
    .. [1] harman-powder-developers-2010, p. 8, time added with each film.

    Examples
    --------
    >>> round(mean_activity(10.0), 3), round(mean_activity(0.0), 3)
    (0.693, 1.0)
    """
    check_not_negative("units_per_litre", units_per_litre)
    loss = LOSS_PER_UNIT * units_per_litre
    return math.log1p(loss) / loss if loss > 0 else 1.0


def activity_ratio(given_ml_per_unit: float, reference_ml_per_unit: float) -> float:
    """How active a developer is with less agent than its time was found with; 1 at or above it. [1]

    Parameters
    ----------
    given_ml_per_unit, reference_ml_per_unit : float
        Stock or concentrate to a unit of film (80 square inches, weighted). [ml]

    Raises
    ------
    OutOfRangeError
        If either is not positive.

    Notes
    -----
    ``mean_activity(1000 / given) / mean_activity(1000 / reference)``. More agent than the reference changes
    nothing: the time was found with enough. The ratio acts like a share of developing time and is never made up for by
    time. :func:`check_agent` says where a result is no longer foretold.

    Examples
    --------
    >>> round(activity_ratio(100.0, 275.0), 2), activity_ratio(300.0, 275.0)
    (0.81, 1.0)
    """
    check_positive("given_ml_per_unit", given_ml_per_unit)
    check_positive("reference_ml_per_unit", reference_ml_per_unit)
    if given_ml_per_unit >= reference_ml_per_unit * (1 - _ROUNDING):
        return 1.0
    return mean_activity(1000.0 / given_ml_per_unit) / mean_activity(1000.0 / reference_ml_per_unit)


def check_agent(given_ml_per_unit: float, reference_ml_per_unit: float) -> None:
    """Refuse a load with less than half of the agent that its time was found with.

    Parameters
    ----------
    given_ml_per_unit, reference_ml_per_unit : float
        Stock or concentrate to a unit of film (80 square inches, weighted). [ml]

    Raises
    ------
    OutOfRangeError
        If either is not positive.
    RefusedError
        If the given is below half of the reference.
    """
    check_positive("given_ml_per_unit", given_ml_per_unit)
    check_positive("reference_ml_per_unit", reference_ml_per_unit)
    if given_ml_per_unit < reference_ml_per_unit * LEAST_AGENT_RATIO * (1 - _ROUNDING):
        raise RefusedError("chemistry.agent.below_half", given_ml=given_ml_per_unit, reference_ml=reference_ml_per_unit)


def density_effect(density_range: float, activity_ratio: float, elasticity: float = RANGE_ELASTICITY) -> float:
    """Change of a negative's density range when its developer is less active; negative is flatter. [density]

    Parameters
    ----------
    density_range : float
        Range that full activity gives. [density]
    activity_ratio : float
        From :func:`activity_ratio`; more than 0, at most 1. [1]
    elasticity : float
        Relative change of range to that of time, ``assumed``. [1]

    Raises
    ------
    OutOfRangeError
        If a value is not positive, or the ratio is above 1.

    Notes
    -----
    ``range * (ratio ** elasticity - 1)``.

    Examples
    --------
    >>> round(density_effect(1.05, 0.8125), 2)
    -0.13
    """
    check_positive("density_range", density_range)
    check_positive("activity_ratio", activity_ratio)
    check_positive("elasticity", elasticity)
    if activity_ratio > 1:
        raise OutOfRangeError("chemistry.activity.above_one", value=activity_ratio)
    return density_range * (math.pow(activity_ratio, elasticity) - 1.0)


def passing_volume_ml(agent_ml: float, dilution: Dilution, step_ml: float = VOLUME_STEP_ML) -> float:
    """Smallest volume of working solution that holds the agent, rounded up to a mark. [ml]

    Parameters
    ----------
    agent_ml : float
        Agent that the load asks for. [ml]
    dilution : Dilution
        [parts]
    step_ml : float
        Rounded up to whole steps of this. [ml]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Examples
    --------
    >>> passing_volume_ml(218.75, Dilution((1.0,), 5.0))
    1320.0
    """
    check_positive("agent_ml", agent_ml)
    check_positive("step_ml", step_ml)
    return _rounded_up(working_need_ml(agent_ml, dilution), step_ml)


def passing_sheet_count(agent_ml: float, needs_ml: Sequence[float]) -> int:
    """Most sheets of a load that an amount of agent develops, the least demanding first. [1]

    Parameters
    ----------
    agent_ml : float
        Agent in the liquid. [ml]
    needs_ml : sequence of float
        Agent that each sheet asks for. [ml]

    Raises
    ------
    OutOfRangeError
        If a value is negative or not finite.

    Examples
    --------
    >>> passing_sheet_count(166.7, [27.34] * 8)
    6
    """
    check_not_negative("agent_ml", agent_ml)
    left_ml = agent_ml * (1 + _ROUNDING)
    count = 0
    for need_ml in sorted(needs_ml):
        check_not_negative("needs_ml", need_ml)
        left_ml -= need_ml
        if left_ml < 0:
            break
        count += 1
    return count


def passing_dilution(agent_ml: float, volume_ml: float) -> Dilution | None:
    """Weakest whole dilution 1+n with which a volume holds the agent; None if even stock is too little.

    Parameters
    ----------
    agent_ml : float
        Agent that the load asks for. [ml]
    volume_ml : float
        Working solution, usually the most that the vessel takes. [ml]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Examples
    --------
    >>> passing_dilution(218.75, 1000.0).text
    '1+3'
    """
    check_positive("agent_ml", agent_ml)
    check_positive("volume_ml", volume_ml)
    water = math.floor(volume_ml / agent_ml * (1 + _ROUNDING)) - 1
    if water < 0:
        return None
    return STOCK if water == 0 else Dilution((1.0,), float(water))
