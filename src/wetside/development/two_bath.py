"""Two-bath and divided development: bath A soaks the film, bath B acts on what the film brought along.

Development in B ends when the gelatin has no more agent, so the time is nearly free: a sheet has no window, and sheets
of any N may share a load. What matters is the temperature, and how much of A comes along.
"""

from __future__ import annotations

from typing import NamedTuple

from wetside.development._demands import require_liquid, require_not_negative, require_positive
from wetside.development.ways import Remark
from wetside.errors import OutOfRangeError
from wetside.values.sheet_size import UNIT_AREA_CM2
from wetside.values.window import Window  # noqa: TC001 (part of a public type)

GELATIN_ML_PER_UNIT = 2.0
"""Liquid in the gelatin of 80 square inches of film (torzynski-2004). [ml]"""
SURFACE_ML_PER_UNIT = 2.0
"""Liquid that clings to 80 square inches of film (torzynski-2004). [ml]"""
TANK_WALLS_ML = 6.0
"""Liquid that a 500 ml tank keeps on its walls (torzynski-2004); a drum is assumed to keep 10. [ml]"""
DRUM_WALLS_ML = 10.0
"""Liquid on the walls of a drained drum, ``assumed``. [ml]"""
SHORTEST_BATH_S = 120.0
"""Common practice, ``assumed``: gelatin is soaked, and B is done, after 2 to 3 min. [s]"""
NEAR_C = 1.0
"""A developer is held within 1 C (harman-powder-developers-2010, p. 2). [C]"""
MOST_A_IN_B = 0.1
"""Our choice, ``assumed``: from a tenth of A on, B acts outside the gelatin too, and its time is free no longer. [1]"""


class CarryOver(NamedTuple):
    """Liquid that film and vessel bring into the next bath. [ml]"""

    gelatin_ml: float
    surface_ml: float
    walls_ml: float

    @property
    def total_ml(self) -> float:
        """All of it. [ml]"""
        return self.gelatin_ml + self.surface_ml + self.walls_ml


class TwoBathPlan(NamedTuple):
    """What a load in two baths means for planning.

    ``free_time`` is True and ``window`` None: no sheet asks for a time of its own, so any N shares the load;
    ``soak_s`` and ``act_s`` the two times, which count as "at least" [s]; ``carry`` what goes from A to B [ml];
    ``a_left_ml`` what remains of A [ml]; ``a_in_b`` share of A in B after the load [1].
    """

    soak_s: float
    act_s: float
    carry: CarryOver
    a_left_ml: float
    a_in_b: float
    remarks: tuple[Remark, ...]
    free_time: bool = True
    window: Window | None = None


def carried_over_ml(
    area_cm2: float,
    walls_ml: float = DRUM_WALLS_ML,
    gelatin_ml_per_unit: float = GELATIN_ML_PER_UNIT,
    surface_ml_per_unit: float = SURFACE_ML_PER_UNIT,
) -> CarryOver:
    """Liquid that a load takes into the next bath.

    Parameters
    ----------
    area_cm2 : float
        Film of the load, one face. [cm2]
    walls_ml : float
        Left in the drained vessel. [ml]
    gelatin_ml_per_unit, surface_ml_per_unit : float
        In and on 80 square inches of film. [ml]

    Raises
    ------
    OutOfRangeError
        If the area is not positive or a volume is negative.

    References
    ----------
    .. [1] torzynski-2004: 2 ml in the emulsion and 2 ml on the surface of a film, 6 ml in the tank.

    Examples
    --------
    >>> carried_over_ml(516.128, walls_ml=6.0).total_ml
    10.0
    """
    require_positive(area_cm2, "development.two_bath.area_not_positive")
    for volume_ml in (walls_ml, gelatin_ml_per_unit, surface_ml_per_unit):
        require_not_negative(volume_ml, "development.two_bath.volume_negative")
    units = area_cm2 / UNIT_AREA_CM2
    return CarryOver(units * gelatin_ml_per_unit, units * surface_ml_per_unit, walls_ml)


def share_of_a_in_b(carry_ml: float, volume_b_ml: float, loads: int) -> float:
    """Share of bath A in bath B after some loads.

    Parameters
    ----------
    carry_ml : float
        Brought along by each load, and taken away again by it. [ml]
    volume_b_ml : float
        Bath B; positive. [ml]
    loads : int
        Loads that have gone through; 0 or more. [1]

    Returns
    -------
    share_of_a_in_b : float
        [1]

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    Notes
    -----
    ``1 - (V / (V + v)) ** n``: each load mixes ``v`` into ``V`` and takes as much of the mixture away; the complement
    of a wash by changes.

    Examples
    --------
    >>> round(share_of_a_in_b(10.0, 500.0, 1), 4)
    0.0196
    """
    require_not_negative(carry_ml, "development.two_bath.volume_negative")
    require_positive(volume_b_ml, "development.two_bath.volume_not_positive")
    if loads < 0:
        raise OutOfRangeError("development.two_bath.loads_negative", value=loads)
    return float(1.0 - (volume_b_ml / (volume_b_ml + carry_ml)) ** loads)


def two_bath_plan(
    area_cm2: float,
    volume_a_ml: float,
    volume_b_ml: float,
    *,
    soak_s: float,
    act_s: float,
    temp_a_c: float,
    temp_b_c: float,
    tested_temp_c: float | None = None,
    walls_ml: float = DRUM_WALLS_ML,
    loads_before: int = 0,
) -> TwoBathPlan:
    """Plan a load in two baths: what is free, what is carried over, and what to watch.

    Parameters
    ----------
    area_cm2 : float
        Film of the load. [cm2]
    volume_a_ml, volume_b_ml : float
        The two baths; positive. [ml]
    soak_s, act_s : float
        Times in A and B; positive. [s]
    temp_a_c, temp_b_c : float
        Their temperatures. [C]
    tested_temp_c : float, optional
        Temperature at which this pair of baths was tested. [C]
    walls_ml : float
        Left in the drained vessel. [ml]
    loads_before : int
        Loads that B has already seen. [1]

    Returns
    -------
    plan : TwoBathPlan
        With remarks in the order in which they matter. Nothing in it is a one-bath time or made from one.

    Raises
    ------
    OutOfRangeError
        If a value is not possible, or the film would carry all of A away.

    Examples
    --------
    >>> plan = two_bath_plan(1032.256, 500, 500, soak_s=240, act_s=240, temp_a_c=20, temp_b_c=20, tested_temp_c=20)
    >>> plan.window is None, plan.carry.total_ml, plan.a_left_ml, [remark.code for remark in plan.remarks]
    (True, 18.0, 482.0, ['development.two_bath.time_free', 'development.two_bath.no_rinse'])
    """
    require_positive(volume_a_ml, "development.two_bath.volume_not_positive")
    require_liquid(temp_a_c)
    require_liquid(temp_b_c)
    for time_s in (soak_s, act_s):
        require_positive(time_s, "development.two_bath.time_not_positive")
    carry = carried_over_ml(area_cm2, walls_ml)
    if carry.total_ml >= volume_a_ml:
        raise OutOfRangeError("development.two_bath.a_too_small", carry_ml=carry.total_ml, volume_ml=volume_a_ml)
    a_in_b = share_of_a_in_b(carry.total_ml, volume_b_ml, loads_before + 1)
    remarks = [
        Remark("development.two_bath.time_free", {"soak_s": soak_s, "act_s": act_s}),
        Remark("development.two_bath.no_rinse", {"carry_ml": carry.total_ml}),
    ]
    if min(soak_s, act_s) < SHORTEST_BATH_S:
        remarks.append(
            Remark("development.two_bath.short", {"time_s": min(soak_s, act_s), "shortest_s": SHORTEST_BATH_S})
        )
    if tested_temp_c is None:
        remarks.append(Remark("development.two_bath.temperature_untested", {"temp_c": temp_a_c}))
    else:
        require_liquid(tested_temp_c)
        off_c = max((temp_a_c - tested_temp_c, temp_b_c - tested_temp_c), key=abs)
        if abs(off_c) > NEAR_C:
            remarks.append(Remark("development.two_bath.temperature", {"off_c": off_c, "tested_c": tested_temp_c}))
    if a_in_b > MOST_A_IN_B:
        remarks.append(Remark("development.two_bath.change_b", {"share": a_in_b, "most": MOST_A_IN_B}))
    return TwoBathPlan(soak_s, act_s, carry, volume_a_ml - carry.total_ml, a_in_b, tuple(remarks))
