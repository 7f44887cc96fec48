"""Washing film: what changes of water leave behind, at balance and where the emulsion lags; water used; cold water.

Two models. At balance, every fill thins what film and vessel carry: nothing is assumed of the film. With a half-time
the emulsion gives up its fixer at its own pace; the half-time is a setting, because published ones contradict each
other.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_not_negative, check_positive
from wetside.errors import OutOfRangeError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.chemistry.fixer import Notes

RESIDUAL_LIMIT_UG_PER_CM2 = 1.4
"""Thiosulfate that silver film records may hold, by methylene blue within 14 days (methylene-blue-service). [ug/cm2]"""

COLD_STEP_C = 5.0
"""Makers ask for a wash no further than this from the process: they warn, film bears more. [C]"""

FOMA_COLD_C = 15.0
"""At or below this the maker doubles the wash in running water (foma-100-2022). [C]"""

MOST_FILLS = 100
"""More changes than this are no plan. Our choice. [1]"""

_ROUNDING = 1e-9


class Carried(NamedTuple):
    """Liquid that stays behind when a vessel is drained. [ml]"""

    emulsion_ml: float
    surface_ml: float
    walls_ml: float

    @property
    def total_ml(self) -> float:
        """All of it. [ml]"""
        return self.emulsion_ml + self.surface_ml + self.walls_ml


CARRIED_BY_A_UNIT = Carried(2.0, 2.0, 6.0)
"""For 80 square inches of film in a 500 ml tank (torzynski-2004). [ml]"""


class WashStep(NamedTuple):
    """After a change of water: thiosulfate left in film and vessel [mg], and in the emulsion alone [mg]."""

    left_mg: float
    emulsion_mg: float


class WashMethod(NamedTuple):
    """One published way to wash: its steps in minutes, or its changes of water; each as the source has it.

    ``movements`` are inversions of each fill. ``film`` is False for prints; ``non_hardened`` where the source asks for
    fixer without hardener; ``status`` is READ, ``common practice`` or ``assumed``.
    """

    name: str
    film: bool
    minutes: tuple[float, ...]
    changes: int
    change_minutes: float
    instead_of_minutes: float
    coldest_c: float
    warmest_c: float
    non_hardened: bool
    source: str
    where: str
    status: str
    movements: tuple[int, ...] = ()


def wash_fraction(carried_ml: float, fill_ml: float, fills: int) -> float:
    """Share of the fixer that is left after changes of water, each in full balance. [1]

    Parameters
    ----------
    carried_ml : float
        Liquid that stays behind at each drain. [ml]
    fill_ml : float
        Water of each fill. [ml]
    fills : int
        [1]

    Raises
    ------
    OutOfRangeError
        If the fill is not positive or another value negative.

    Notes
    -----
    ``(v / (V + v)) ** n``.

    Examples
    --------
    >>> round(1.0 / wash_fraction(10.0, 500.0, 1))
    51
    """
    check_not_negative("carried_ml", carried_ml)
    check_positive("fill_ml", fill_ml)
    check_not_negative("fills", fills)
    return math.pow(carried_ml / (fill_ml + carried_ml), fills)


def fills_to_limit(start_mg: float, limit_mg: float, carried_ml: float, fill_ml: float) -> int:
    """Changes of water, each in full balance, that bring what is carried down to a limit. [1]

    Parameters
    ----------
    start_mg : float
        Thiosulfate in film and vessel after the fixer is drained. [mg]
    limit_mg : float
        What may be left of it; the same share of the film's own is assumed. [mg]
    carried_ml, fill_ml : float
        As for :func:`wash_fraction`. [ml]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.
    RefusedError
        If it would take more than 100 changes.

    Examples
    --------
    >>> fills_to_limit(600.0, 3.6, 10.0, 500.0)
    2
    """
    for name, value in (("start_mg", start_mg), ("limit_mg", limit_mg), ("carried_ml", carried_ml)):
        check_positive(name, value)
    check_positive("fill_ml", fill_ml)
    if start_mg <= limit_mg:
        return 0
    factor = math.log1p(fill_ml / carried_ml)
    fills = math.ceil(math.log(start_mg / limit_mg) / factor - _ROUNDING) if factor > 0 else MOST_FILLS + 1
    if fills > MOST_FILLS:
        raise RefusedError("chemistry.wash.too_many", most=MOST_FILLS)
    return fills


def residual_limit_mg(
    area_cm2: float, limit_ug_per_cm2: float = RESIDUAL_LIMIT_UG_PER_CM2, coated_sides: int = 1
) -> float:
    """Thiosulfate that washed film of an area may hold. [mg]

    Parameters
    ----------
    area_cm2 : float
        One face. [cm2]
    limit_ug_per_cm2 : float
        [ug/cm2]
    coated_sides : int
        A film coated on both sides may hold double. [1]

    Raises
    ------
    OutOfRangeError
        If a value is not positive, or the sides are not 1 or 2.

    References
    ----------
    .. [1] methylene-blue-service, 1.4 ug/cm2; iso-18917, both sides.

    Examples
    --------
    >>> round(residual_limit_mg(516.128), 2)
    0.72
    """
    check_positive("area_cm2", area_cm2)
    check_positive("limit_ug_per_cm2", limit_ug_per_cm2)
    if coated_sides not in (1, 2):
        raise OutOfRangeError("chemistry.wash.sides", value=coated_sides)
    return area_cm2 * limit_ug_per_cm2 * coated_sides / 1000.0


def residual_ug_per_cm2(left_mg: float, area_cm2: float) -> float:
    """Thiosulfate to an area of film. [ug/cm2]

    Parameters
    ----------
    left_mg : float
        In the emulsion. [mg]
    area_cm2 : float
        One face. [cm2]

    Raises
    ------
    OutOfRangeError
        If the mass is negative or the area not positive.

    Examples
    --------
    >>> round(residual_ug_per_cm2(120.0, 516.128), 1)
    232.5
    """
    check_not_negative("left_mg", left_mg)
    check_positive("area_cm2", area_cm2)
    return left_mg * 1000.0 / area_cm2


def grams_per_m2(ug_per_cm2: float) -> float:
    """The same residue as standards write it. [g/m2]

    Parameters
    ----------
    ug_per_cm2 : float
        [ug/cm2]

    Raises
    ------
    OutOfRangeError
        If it is negative.

    Examples
    --------
    >>> round(grams_per_m2(1.4), 6)
    0.014
    """
    check_not_negative("ug_per_cm2", ug_per_cm2)
    return ug_per_cm2 / 100.0


def fill_concentration_g_per_l(carried_mg: float, carried_ml: float, fill_ml: float) -> float:
    """Thiosulfate in a fill of water when it has come to balance. [g/l]

    Parameters
    ----------
    carried_mg : float
        In film and vessel before the fill. [mg]
    carried_ml, fill_ml : float
        As for :func:`wash_fraction`. [ml]

    Raises
    ------
    OutOfRangeError
        If the fill is not positive or another value negative.

    References
    ----------
    .. [1] torzynski-2004, first fill.

    Examples
    --------
    >>> round(fill_concentration_g_per_l(600.0, 10.0, 500.0), 1)
    1.2
    """
    check_not_negative("carried_mg", carried_mg)
    check_not_negative("carried_ml", carried_ml)
    check_positive("fill_ml", fill_ml)
    return carried_mg / (fill_ml + carried_ml)


def wash_by_half_time(
    start_mg: float, carried: Carried, fill_ml: float, times_s: Sequence[float], half_time_s: float
) -> tuple[WashStep, ...]:
    """Thiosulfate left after each of several fills when the emulsion gives it up at its own pace. [mg]

    Parameters
    ----------
    start_mg : float
        In film and vessel, spread evenly over what is carried. [mg]
    carried : Carried
        What stays behind at each drain; the emulsion's part must be positive. [ml]
    fill_ml : float
        Water of each fill. [ml]
    times_s : sequence of float
        Time in each fill, moving. [s]
    half_time_s : float
        In which the emulsion comes half-way to balance; there is no safe general value. [s]

    Raises
    ------
    OutOfRangeError
        If a volume, the half-time or the mass is not positive, or a time negative.

    Notes
    -----
    ``m(t) = m_eq + (m_0 - m_eq) * 2 ** (-t / h)``, ``m_eq`` the emulsion's share at balance; what is on surface and
    walls mixes at once. A model of ours; it does not know temperature, motion or a film that lies against a wall.

    Examples
    --------
    >>> steps = wash_by_half_time(600.0, CARRIED_BY_A_UNIT, 500.0, (60.0, 60.0, 60.0), 20.0)
    >>> round(residual_ug_per_cm2(steps[-1].emulsion_mg, 516.128), 2)
    0.56
    """
    check_positive("start_mg", start_mg)
    check_positive("fill_ml", fill_ml)
    check_positive("half_time_s", half_time_s)
    check_positive("emulsion_ml", carried.emulsion_ml)
    check_not_negative("surface_ml", carried.surface_ml)
    check_not_negative("walls_ml", carried.walls_ml)
    outside_ml = carried.surface_ml + carried.walls_ml
    left_mg, emulsion_mg = start_mg, start_mg * carried.emulsion_ml / carried.total_ml
    steps = []
    for time_s in times_s:
        check_not_negative("times_s", time_s)
        balance_mg = left_mg * carried.emulsion_ml / (carried.total_ml + fill_ml)
        emulsion_mg = balance_mg + (emulsion_mg - balance_mg) * math.pow(2.0, -time_s / half_time_s)
        outside_mg = (left_mg - emulsion_mg) * outside_ml / (outside_ml + fill_ml)
        left_mg = emulsion_mg + outside_mg
        steps.append(WashStep(left_mg, emulsion_mg))
    return tuple(steps)


def slowest_half_time_s(
    start_mg: float, carried: Carried, fill_ml: float, times_s: Sequence[float], limit_mg: float
) -> float:
    """Longest half-time of the emulsion with which a wash still reaches a limit. [s]

    Parameters
    ----------
    start_mg : float
        In film and vessel. [mg]
    carried : Carried
        What stays behind at each drain. [ml]
    fill_ml : float
        Water of each fill. [ml]
    times_s : sequence of float
        Time in each fill. [s]
    limit_mg : float
        What the emulsion may hold at the end. [mg]

    Raises
    ------
    OutOfRangeError
        As :func:`wash_by_half_time`; there must be at least one fill with a time.
    RefusedError
        If the limit is not reached even at full balance.

    Examples
    --------
    >>> round(slowest_half_time_s(600.0, CARRIED_BY_A_UNIT, 500.0, (60.0, 60.0, 60.0), 0.7226))
    24
    """
    check_positive("limit_mg", limit_mg)
    total_s = math.fsum(times_s)
    check_positive("times_s", total_s)

    def left_mg(half_time_s: float) -> float:
        return wash_by_half_time(start_mg, carried, fill_ml, times_s, half_time_s)[-1].emulsion_mg

    low_s, high_s = total_s / 1000.0, total_s * 1000.0
    if left_mg(low_s) > limit_mg:
        raise RefusedError("chemistry.wash.never", fills=len(times_s), limit_mg=limit_mg)
    if left_mg(high_s) <= limit_mg:
        return high_s
    while high_s / low_s > 1.0 + 1e-9:
        middle_s = math.sqrt(low_s * high_s)
        if left_mg(middle_s) <= limit_mg:
            low_s = middle_s
        else:
            high_s = middle_s
    return low_s


def running_wash_fraction(minutes: float, half_time_s: float) -> float:
    """Share of the fixer left in the emulsion after a wash in water that is always fresh. [1]

    Parameters
    ----------
    minutes : float
        [min]
    half_time_s : float
        In which it halves; 60 in the source, for hardened film. [s]

    Raises
    ------
    OutOfRangeError
        If the time is negative or the half-time not positive.

    References
    ----------
    .. [1] us-navy-14209, p. 250.

    Examples
    --------
    >>> running_wash_fraction(2.0, 60.0)
    0.25
    """
    check_not_negative("minutes", minutes)
    check_positive("half_time_s", half_time_s)
    return math.pow(2.0, -minutes * 60.0 / half_time_s)


def water_of_fills_l(fills: int, fill_ml: float) -> float:
    """Water that changes take. [l]

    Parameters
    ----------
    fills : int
        [1]
    fill_ml : float
        [ml]

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Examples
    --------
    >>> round(water_of_fills_l(3, 600.0), 1)
    1.8
    """
    check_not_negative("fills", fills)
    check_not_negative("fill_ml", fill_ml)
    return fills * fill_ml / 1000.0


def water_of_running_wash_l(litres_per_minute: float, minutes: float) -> float:
    """Water that a running wash takes. [l]

    Parameters
    ----------
    litres_per_minute : float
        [l/min]
    minutes : float
        [min]

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    References
    ----------
    .. [1] ribnar-2016, six litres a minute for ten minutes.

    Examples
    --------
    >>> water_of_running_wash_l(6.0, 10.0)
    60.0
    """
    check_not_negative("litres_per_minute", litres_per_minute)
    check_not_negative("minutes", minutes)
    return litres_per_minute * minutes


def changes_of_tank(minutes: float, minutes_per_change: float) -> float:
    """Full changes of water in a wash of a length. [1]

    Parameters
    ----------
    minutes, minutes_per_change : float
        [min]

    Raises
    ------
    OutOfRangeError
        If the time is negative, or that of a change not positive.

    References
    ----------
    .. [1] us-army-ss0509, a tank dumped every three minutes.

    Examples
    --------
    >>> changes_of_tank(30.0, 3.0)
    10.0
    """
    check_not_negative("minutes", minutes)
    check_positive("minutes_per_change", minutes_per_change)
    return minutes / minutes_per_change


def minutes_of_method(method: WashMethod, changes: int | None = None) -> float:
    """How long a published way to wash takes in all. [min]

    Parameters
    ----------
    method : WashMethod
        From the shipped table.
    changes : int or None
        Changes of water, where the method counts them and the caller wants another number.

    Examples
    --------
    >>> aid = WashMethod("aid", False, (5.0, 10.0, 5.0), 0, 0.0, 60.0, 0.0, 99.0, False, "", "", "READ")
    >>> minutes_of_method(aid)
    20.0
    """
    number = method.changes if changes is None else changes
    return math.fsum(method.minutes) + number * method.change_minutes


def sea_water_minutes(fresh_minutes: float) -> tuple[float, float]:
    """Minutes in sea water and then in fresh water, in place of a wash in fresh water alone. [min]

    Parameters
    ----------
    fresh_minutes : float
        The wash in fresh water that it replaces. [min]

    Raises
    ------
    OutOfRangeError
        If it is not positive.

    References
    ----------
    .. [1] sea-water-wash, half the time, then five minutes fresh.

    Examples
    --------
    >>> sea_water_minutes(30.0)
    (15.0, 5.0)
    """
    check_positive("fresh_minutes", fresh_minutes)
    return fresh_minutes / 2.0, 5.0


def wash_notes(
    wash_c: float | None = None,
    process_c: float = 20.0,
    *,
    hardened: bool = False,
    by_changes: bool = True,
    on_a_wall: bool = False,
) -> Notes:
    """What is to be said of a planned wash, as codes with parameters; it warns and never refuses.

    Parameters
    ----------
    wash_c : float or None
        Temperature of the wash water. [C]
    process_c : float
        Temperature of the other baths. [C]
    hardened : bool
        Whether the fixer hardens.
    by_changes : bool
        Whether it is washed by changes and not in running water.
    on_a_wall : bool
        Whether the film's back lies on the wall of a drum or tube.

    Raises
    ------
    OutOfRangeError
        If a temperature is not between 0 and 60 C.

    References
    ----------
    .. [1] harman-hp5-2018, p. 6, within 5 C, fixer without hardener; foma-100-2022, below 15 C.

    Examples
    --------
    >>> [code for code, _ in wash_notes(8.0, on_a_wall=True)]
    ['chemistry.wash.far_from_process', 'chemistry.wash.cold', 'chemistry.wash.out_of_drum']
    """
    notes: list[tuple[str, dict[str, object]]] = []
    if wash_c is not None:
        for value in (wash_c, process_c):
            if not 0.0 <= value <= 60.0:
                raise OutOfRangeError("chemistry.wash.temperature", value=value)
        if abs(wash_c - process_c) > COLD_STEP_C + _ROUNDING:
            params: dict[str, object] = {"wash_c": wash_c, "process_c": process_c, "step_c": COLD_STEP_C}
            notes.append(("chemistry.wash.far_from_process", params))
        if wash_c <= FOMA_COLD_C:
            notes.append(("chemistry.wash.cold", {"wash_c": wash_c, "cold_c": FOMA_COLD_C}))
    if hardened and by_changes:
        notes.append(("chemistry.wash.hardened", {}))
    if on_a_wall:
        notes.append(("chemistry.wash.out_of_drum", {}))
    return tuple(notes)
