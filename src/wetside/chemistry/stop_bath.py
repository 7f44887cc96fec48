"""Stop bath: how long, how much film, and when it is spent, told by count and in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.fixer import FilmFixed, fixer_share
from wetside.chemistry.limits import check_positive
from wetside.errors import OutOfRangeError
from wetside.values.conditions import StopKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.chemistry.fixer import Notes

SHORTEST_STOP_S, LONGEST_STOP_S = 10.0, 30.0
"""An acid stop bath acts at least the first and need not act longer than the second (harman-hp5-2018, p. 5;
ilford-processing-chart-2019). [s]"""

_HALTING_S = {StopKind.ACID: 15.0, StopKind.WATER: 30.0}
_WARMEST_C, _COLDEST_C = 24.0, 18.0


class StopVerdict(NamedTuple):
    """Whether a stop bath is kept or discarded, the share of its capacity used up, and codes with parameters."""

    action: str
    share: float
    notes: Notes


def stop_halting_s(kind: StopKind) -> float:
    """How long development takes to come to rest in a stop bath or in running water. [s]

    Parameters
    ----------
    kind : StopKind
        Acid or water.

    References
    ----------
    .. [1] anchell-2008, p. 104.

    Examples
    --------
    >>> stop_halting_s(StopKind.ACID), stop_halting_s(StopKind.WATER)
    (15.0, 30.0)
    """
    return _HALTING_S[kind]


def stop_share(area_cm2: float, volume_ml: float, units_per_litre: float = 15.0) -> float:
    """Share of a stop bath's capacity that film has used up. [1]

    Parameters
    ----------
    area_cm2 : float
        All film since it was mixed. [cm2]
    volume_ml : float
        The bath at working strength. [ml]
    units_per_litre : float
        The maker's figure in units of 80 square inches. [1/l]

    Raises
    ------
    OutOfRangeError
        If the area is negative or another value not positive.

    References
    ----------
    .. [1] harman-hp5-2018, p. 5, 15 films to a litre; ilford-rapid-fixer-2002, p. 3.

    Examples
    --------
    >>> round(stop_share(30 * 129.032, 500.0), 6)
    1.0
    """
    return fixer_share((FilmFixed(area_cm2),), volume_ml, units_per_litre)


def judge_stop(share: float, *, indicator_turned: bool | None = None, reused: bool = True) -> StopVerdict:
    """Whether a stop bath is kept; by count, and by its indicator only where somebody could read it.

    Parameters
    ----------
    share : float
        From :func:`stop_share`. [1]
    indicator_turned : bool or None
        Whether it has gone from yellow to purple; None where it has no indicator, or nobody could tell.
    reused : bool
        Whether the bath goes back into its bottle.

    Raises
    ------
    OutOfRangeError
        If the share is negative or not finite.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 3, indicator.

    Examples
    --------
    >>> judge_stop(0.4, indicator_turned=True).action, judge_stop(0.4).action
    ('discard', 'keep')
    """
    if not 0 <= share < 1e6:
        raise OutOfRangeError("chemistry.value.negative", name="share", value=share)
    notes: list[tuple[str, dict[str, object]]] = []
    if share >= 1.0 - 1e-9:
        notes.append(("chemistry.stop.used_up", {"share": share}))
    if indicator_turned:
        notes.append(("chemistry.stop.indicator_turned", {}))
    spent = bool(notes)
    if indicator_turned is None and reused:
        notes.append(("chemistry.stop.by_count", {"share": share}))
    return StopVerdict("discard" if spent or not reused else "keep", share, tuple(notes))


def stop_notes(
    kind: StopKind, time_s: float, temp_c: float | None = None, *, carbonate_developer: bool = False
) -> Notes:
    """What is to be said of a planned stop, as codes with parameters; never a refusal.

    Parameters
    ----------
    kind : StopKind
        Acid or water.
    time_s : float
        Planned time in the bath. [s]
    temp_c : float or None
        Of the bath. [C]
    carbonate_developer : bool
        Whether the developer holds carbonate.

    Raises
    ------
    OutOfRangeError
        If the time is not positive.

    References
    ----------
    .. [1] harman-hp5-2018, p. 5, 10 s, 18 to 24 C; harman-powder-developers-2010, p. 7, water in one-shot tanks;
       anchell-2008, p. 103, carbonate and acid.

    Examples
    --------
    >>> [code for code, _ in stop_notes(StopKind.ACID, 8.0)]
    ['chemistry.stop.short']
    """
    check_positive("time_s", time_s)
    notes: list[tuple[str, dict[str, object]]] = []
    if kind is StopKind.WATER:
        notes.append(("chemistry.stop.water", {"seconds": stop_halting_s(kind)}))
        if time_s < stop_halting_s(kind):
            notes.append(("chemistry.stop.short", {"time_s": time_s, "least_s": stop_halting_s(kind)}))
        return tuple(notes)
    if time_s < SHORTEST_STOP_S:
        notes.append(("chemistry.stop.short", {"time_s": time_s, "least_s": SHORTEST_STOP_S}))
    if temp_c is not None and not _COLDEST_C <= temp_c <= _WARMEST_C:
        notes.append(("chemistry.stop.temperature", {"temp_c": temp_c, "low_c": _COLDEST_C, "high_c": _WARMEST_C}))
    if carbonate_developer:
        notes.append(("chemistry.stop.pinholes", {}))
    return tuple(notes)


def stop_capacity_left_cm2(areas_cm2: Iterable[float], volume_ml: float, units_per_litre: float = 15.0) -> float:
    """Area of film that a stop bath still takes; 0 when it is spent. [cm2]

    Parameters
    ----------
    areas_cm2 : iterable of float
        Film of each load since it was mixed. [cm2]
    volume_ml : float
        The bath at working strength. [ml]
    units_per_litre : float
        The maker's figure in units of 80 square inches. [1/l]

    Raises
    ------
    OutOfRangeError
        If an area is negative or another value not positive.

    Examples
    --------
    >>> round(stop_capacity_left_cm2([516.128] * 5, 500.0), 3)
    1290.32
    """
    used = sum(stop_share(area_cm2, volume_ml, units_per_litre) for area_cm2 in areas_cm2)
    whole_cm2 = 516.128 * units_per_litre * volume_ml / 1000.0
    return max(0.0, 1.0 - used) * whole_cm2
