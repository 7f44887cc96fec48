"""Two fixing baths in turn, as plain data; fixer thinned by carried water; silver, in order of size."""

from __future__ import annotations

import math
from typing import NamedTuple

from wetside.chemistry.limits import check_not_negative, check_positive
from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.sheet_size import UNIT_AREA_CM2

CARRIED_ML = 17.5
"""Water that a drum brings into 500 ml of fixer: 15 to 20 from memory, ``assumed``. [ml]"""

PROMOTIONS = 3
"""After this many promotions both baths are renewed (anchell-2008, p. 107, said of paper). [1]"""

COATING_G_PER_M2, DISSOLVED_SHARE = 4.0, 0.75
"""Silver of a film, and the share of it that the fixer takes: from memory, ``assumed``, for orders of size only."""

SILVER_LIMIT_G_PER_L = 8.0
"""Low end of what a film bath holds without serious harm (ilford-rapid-fixer-2002, p. 4). [g/l]"""

LAST_BATH_SHARE = 0.5
"""What film meets last is to hold at most this share of the limit. From memory, ``assumed``. [1]"""

_ROUNDING = 1e-9


class FixingBath(NamedTuple):
    """One bottle of fixer: its volume [ml], film fixed in it [units of 80 square inches], silver [g], strength [1]."""

    label: str
    volume_ml: float
    units: float = 0.0
    silver_g: float = 0.0
    strength: float = 1.0

    @property
    def silver_g_per_l(self) -> float:
        """Silver in the bath, an order of size. [g/l]"""
        return self.silver_g / self.volume_ml * 1000.0


class TwoBaths(NamedTuple):
    """A used bath and a fresher one behind it; ``promotions`` since both were new."""

    first: FixingBath
    second: FixingBath
    units_per_litre: float = 20.0
    promotions: int = 0

    @property
    def first_share(self) -> float:
        """Share of the first bath's capacity that is used up. [1]"""
        return self.first.units / (self.units_per_litre * self.first.volume_ml / 1000.0)


def half_times_s(fix_time_s: float) -> tuple[float, float]:
    """Time in each of two baths: half of the fixing time. [s]

    Parameters
    ----------
    fix_time_s : float
        Whole fixing time. [s]

    Raises
    ------
    OutOfRangeError
        If it is not positive.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 3; us-navy-14209, p. 249.

    Examples
    --------
    >>> half_times_s(240.0)
    (120.0, 120.0)
    """
    check_positive("fix_time_s", fix_time_s)
    return fix_time_s / 2.0, fix_time_s / 2.0


def strength_after_loads(volume_ml: float, carried_ml: float, loads: int) -> float:
    """Strength of a fixer that has been poured back, beside that of the fresh one. [1]

    Parameters
    ----------
    volume_ml : float
        Fixer poured for each load. [ml]
    carried_ml : float
        Water that film and vessel bring into it each time, and as much fixer that they take away. [ml]
    loads : int
        [1]

    Raises
    ------
    OutOfRangeError
        If the volume is not positive, or another value negative.

    Notes
    -----
    ``(V / (V + v)) ** loads``: the same sum as a change of wash water.

    Examples
    --------
    >>> round(1.0 - strength_after_loads(500.0, 20.0, 1), 2)
    0.04
    """
    check_positive("volume_ml", volume_ml)
    check_not_negative("carried_ml", carried_ml)
    check_not_negative("loads", loads)
    return math.pow(volume_ml / (volume_ml + carried_ml), loads)


def loads_to_strength(volume_ml: float, carried_ml: float, least_strength: float) -> int:
    """Loads after which carried water has thinned a fixer below a strength. [1]

    Parameters
    ----------
    volume_ml, carried_ml : float
        As for :func:`strength_after_loads`; water must be carried at all. [ml]
    least_strength : float
        Between 0 and 1. [1]

    Raises
    ------
    OutOfRangeError
        If a value is out of its range.

    Examples
    --------
    >>> loads_to_strength(500.0, 20.0, 0.8)
    6
    """
    check_positive("volume_ml", volume_ml)
    check_positive("carried_ml", carried_ml)
    check_positive("least_strength", least_strength)
    if least_strength >= 1:
        raise OutOfRangeError("chemistry.baths.strength", value=least_strength)
    return max(1, math.ceil(math.log(least_strength) / math.log(volume_ml / (volume_ml + carried_ml)) - _ROUNDING))


def gravity_at_strength(gravity: float, strength: float) -> float:
    """Specific gravity that a hydrometer shows of a fresh bath made weaker with water. [1]

    Parameters
    ----------
    gravity : float
        Of the bath at full working strength; water is 1. [1]
    strength : float
        Concentrate in it, beside full strength; from 0 to 1. [1]

    Raises
    ------
    OutOfRangeError
        If the gravity is below 1 or the strength above 1.

    Notes
    -----
    ``1 + (gravity - 1) * strength``: good to 0.003 against makers' figures. Only for a bath that has fixed nothing yet:
    dissolved silver weighs too.

    Examples
    --------
    >>> round(gravity_at_strength(1.075, 0.5), 4)
    1.0375
    """
    check_not_negative("strength", strength)
    if not 1.0 <= gravity <= 2.0:
        raise OutOfRangeError("chemistry.baths.gravity", value=gravity)
    if strength > 1:
        raise OutOfRangeError("chemistry.baths.strength", value=strength)
    return 1.0 + (gravity - 1.0) * strength


def silver_g(
    units: float, coating_g_per_m2: float = COATING_G_PER_M2, dissolved_share: float = DISSOLVED_SHARE
) -> float:
    """Silver that film leaves in the fixer, an order of size; ``assumed``. [g]

    Parameters
    ----------
    units : float
        Film in units of 80 square inches. [1]
    coating_g_per_m2 : float
        Silver of the film. [g/m2]
    dissolved_share : float
        Share that was not developed. [1]

    Raises
    ------
    OutOfRangeError
        If a value is negative.

    Examples
    --------
    >>> round(silver_g(24.0), 1)
    3.7
    """
    check_not_negative("units", units)
    check_not_negative("coating_g_per_m2", coating_g_per_m2)
    check_not_negative("dissolved_share", dissolved_share)
    return units * UNIT_AREA_CM2 / 10_000.0 * coating_g_per_m2 * dissolved_share


def units_to_silver(limit_g_per_l: float, silver_g_per_unit: float) -> float:
    """Film or paper to a litre that brings a bath to a silver limit, in units of 80 square inches. [1/l]

    Parameters
    ----------
    limit_g_per_l : float
        [g/l]
    silver_g_per_unit : float
        Silver that a unit leaves in the bath, as ``silver_g(1)``. [g]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 4, silver limits and the prints that reach them.

    Examples
    --------
    >>> round(units_to_silver(0.5, 2.0 / 40.0))
    10
    """
    check_positive("limit_g_per_l", limit_g_per_l)
    check_positive("silver_g_per_unit", silver_g_per_unit)
    return limit_g_per_l / silver_g_per_unit


def fix_in_two_baths(
    baths: TwoBaths, units: float, carried_ml: float = CARRIED_ML, silver_per_unit_g: float | None = None
) -> TwoBaths:
    """Both baths after a load has gone through them.

    Parameters
    ----------
    baths : TwoBaths
        Before it.
    units : float
        Film of the load, weighted, in units of 80 square inches. [1]
    carried_ml : float
        Liquid that film and vessel carry from each bath into the next. [ml]
    silver_per_unit_g : float or None
        Silver that a unit leaves; None for the assumed one. [g]

    Raises
    ------
    OutOfRangeError
        If a value is negative, or more is carried than a bath holds.

    Notes
    -----
    All silver is dissolved in the first bath, where film clears; ``c * v`` of it goes along into the second, and out of
    that again. Water comes only into the first; the second is thinned by the first's weaker liquid.

    Examples
    --------
    >>> new = TwoBaths(FixingBath("A", 500.0), FixingBath("B", 500.0))
    >>> after = fix_in_two_baths(new, 2.5)
    >>> round(after.first.silver_g_per_l, 2), round(after.second.silver_g_per_l, 3)
    (0.75, 0.025)
    """
    check_not_negative("units", units)
    check_not_negative("carried_ml", carried_ml)
    for bath in (baths.first, baths.second):
        check_positive("volume_ml", bath.volume_ml)
        if carried_ml > bath.volume_ml:
            raise OutOfRangeError("chemistry.baths.carried", carried_ml=carried_ml, volume_ml=bath.volume_ml)
    dissolved_g = silver_g(units) if silver_per_unit_g is None else units * silver_per_unit_g
    check_not_negative("silver_per_unit_g", dissolved_g)
    first, out_g, out_strength = _through(baths.first, units, carried_ml, dissolved_g, 0.0)
    second, _, _ = _through(baths.second, units, carried_ml, out_g, out_strength)
    return baths._replace(first=first, second=second)


def _through(
    bath: FixingBath, units: float, carried_ml: float, silver_in_g: float, strength_in: float
) -> tuple[FixingBath, float, float]:
    """A bath after a load, the silver that leaves with it and the strength of what is carried out."""
    whole_ml = bath.volume_ml + carried_ml
    strength = (bath.strength * bath.volume_ml + strength_in * carried_ml) / whole_ml
    silver = bath.silver_g + silver_in_g
    out_g = silver * carried_ml / whole_ml
    return bath._replace(units=bath.units + units, silver_g=silver - out_g, strength=strength), out_g, strength


def due_bath_act(baths: TwoBaths, planned_units: float = 0.0) -> str:
    """What is due before the next load: ``none``, ``promote`` or ``renew``.

    Parameters
    ----------
    baths : TwoBaths
        As they stand.
    planned_units : float
        Film of the next load; it may reach the first bath's capacity, not pass it. [units of 80 square inches]

    Returns
    -------
    act : str
        ``renew`` when the baths have been promoted three times and the first is used up again.

    Raises
    ------
    OutOfRangeError
        If the film is negative.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 3; anchell-2008, p. 107.

    Examples
    --------
    >>> due_bath_act(TwoBaths(FixingBath("A", 1000.0, units=20.0), FixingBath("B", 1000.0)))
    'promote'
    """
    check_not_negative("planned_units", planned_units)
    share = baths.first_share
    ahead = planned_units / (baths.units_per_litre * baths.first.volume_ml / 1000.0)
    full = share >= 1.0 - _ROUNDING or (share > 0 and share + ahead > 1.0 + _ROUNDING)
    if not full:
        return "none"
    return "renew" if baths.promotions >= PROMOTIONS else "promote"


def promote_second(baths: TwoBaths, new_second: FixingBath) -> TwoBaths:
    """Throw the first bath out, move the second up, put a new one behind it.

    Parameters
    ----------
    baths : TwoBaths
        As they stand.
    new_second : FixingBath
        Freshly mixed.

    Raises
    ------
    RefusedError
        If the new bath has fixed film before, or is one of the two.

    Notes
    -----
    The film count of the bath that moves up begins anew: as second bath it met film that was nearly fixed. Its silver
    and strength stay.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 3; us-navy-14209, p. 249.

    Examples
    --------
    >>> baths = TwoBaths(FixingBath("A", 1000.0, 20.0), FixingBath("B", 1000.0, 20.0))
    >>> moved = promote_second(baths, FixingBath("C", 1000.0))
    >>> moved.first.label, moved.first_share, moved.second.label, moved.promotions
    ('B', 0.0, 'C', 1)
    """
    _check_new(new_second, (baths.first.label, baths.second.label))
    moved_up = baths.second._replace(units=0.0)
    return baths._replace(first=moved_up, second=new_second, promotions=baths.promotions + 1)


def renew_both(baths: TwoBaths, first: FixingBath, second: FixingBath) -> TwoBaths:
    """Throw both baths out and begin with two new ones.

    Parameters
    ----------
    baths : TwoBaths
        As they stand.
    first, second : FixingBath
        Freshly mixed.

    Raises
    ------
    RefusedError
        If a new bath has fixed film before, or the two are one.

    Examples
    --------
    >>> baths = TwoBaths(FixingBath("A", 1000.0, 20.0), FixingBath("B", 1000.0, 20.0), promotions=3)
    >>> renew_both(baths, FixingBath("C", 1000.0), FixingBath("D", 1000.0)).promotions
    0
    """
    _check_new(first, (second.label,))
    _check_new(second, ())
    return baths._replace(first=first, second=second, promotions=0)


def _check_new(bath: FixingBath, others: tuple[str, ...]) -> None:
    check_positive("volume_ml", bath.volume_ml)
    if bath.units or bath.silver_g or bath.label in others:
        raise RefusedError("chemistry.baths.not_new", label=bath.label)


def silver_share_of_last(bath: FixingBath) -> float:
    """Silver in the bath that film meets last, beside what it is to hold at most for lasting film. [1]

    Parameters
    ----------
    bath : FixingBath
        The last one.

    Raises
    ------
    OutOfRangeError
        If it has no volume.

    Notes
    -----
    Half of the 8 g/l that a film bath holds without serious harm; the half is ``assumed``.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 4, 8 to 10 g/l.

    Examples
    --------
    >>> silver_share_of_last(FixingBath("B", 1000.0, silver_g=2.0))
    0.5
    """
    check_positive("volume_ml", bath.volume_ml)
    return bath.silver_g_per_l / (SILVER_LIMIT_G_PER_L * LAST_BATH_SHARE)
