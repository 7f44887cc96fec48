"""ISO speed of a film with its contrast condition, from one curve or from a family, and the marked speeds."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.contrast import SPEED_CONSTANT, iso_delta, speed_degrees_iso6

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.values.curve import CharacteristicCurve
    from wetside.values.family import ContrastFamily

CONDITION_DENSITY = 0.80
"""Density that the development of a stated speed gains over 1.30 log (iso-6-1993). [density]"""
CONDITION_TOLERANCE = 0.05
"""How far that may be missed. Recalled, not read in the standard: assumed, and never an expected value. [density]"""
METER_CONSTANT = 8.0
"""Arithmetic speed times exposure of what a meter reads (photrio-102945). [lux-second]"""
HALF_CLASS = 0.05
"""Half the width of a marked speed, a third of a stop wide. [log10]"""


class SpeedClass(NamedTuple):
    """A marked speed: arithmetic, in degrees, and the log exposure of the speed point that it stands for.

    The limits lie half a step either side; they are derived from the series, the printed ones were not read.
    """

    arithmetic: float
    degrees: int
    log_hm: float

    @property
    def limits_log_hm(self) -> tuple[float, float]:
        """Exposures of the speed point between which a film is marked so. [log10 lux-second]"""
        return self.log_hm - HALF_CLASS, self.log_hm + HALF_CLASS


class IsoSpeed(NamedTuple):
    """Speed of a film in one process.

    ``dev_s`` the developing time that it holds for [s]; ``log_hm`` exposure of the speed point [log10 lux-second];
    ``iso_delta`` density gained over 1.30 log, and ``miss`` by how much that is not 0.80 [density]; ``arithmetic``
    and ``degrees`` not rounded; ``marked`` the nearest speed of the table, None beyond its ends; ``interpolated``
    whether the time lies between two that were tested.
    """

    dev_s: float
    log_hm: float
    iso_delta: float
    miss: float
    arithmetic: float
    degrees: float
    marked: SpeedClass | None
    interpolated: bool


def speed_point_lux_s(arithmetic: float) -> float:
    """Exposure of the speed point of a film of a given speed: the inverse of the arithmetic speed. [lux-second]

    Parameters
    ----------
    arithmetic : float
        Speed; positive. [1]

    Raises
    ------
    OutOfRangeError
        If the speed is not a positive number.

    References
    ----------
    .. [1] photrio-102945, 0.0064 lx s for ISO 125.

    Examples
    --------
    >>> round(speed_point_lux_s(125.0), 4)
    0.0064
    """
    return SPEED_CONSTANT / _speed(arithmetic)


def metered_lux_s(arithmetic: float) -> float:
    """Exposure on the film of a tone that the meter read and nobody moved: ten times the speed point's. [lux-second]

    Parameters
    ----------
    arithmetic : float
        Speed set on the meter; positive. [1]

    Raises
    ------
    OutOfRangeError
        If the speed is not a positive number.

    References
    ----------
    .. [1] photrio-102945, Hg = 8/S, 0.064 lx s for ISO 125.

    Examples
    --------
    >>> round(metered_lux_s(125.0), 3)
    0.064
    """
    return METER_CONSTANT / _speed(arithmetic)


def speed_class_iso6(log_hm: float, table: Sequence[SpeedClass]) -> SpeedClass:
    """Marked speed nearest to the exposure of a speed point; half way between two, the slower.

    Parameters
    ----------
    log_hm : float
        Exposure of the speed point. [log10 lux-second]
    table : sequence of SpeedClass
        Marked speeds, as the package's own data holds them.

    Returns
    -------
    speed_class : SpeedClass

    Raises
    ------
    OutOfRangeError
        If the exposure lies beyond the first or the last class.

    References
    ----------
    .. [1] iso-6-1993, rounding to the nearest speed of table 1.

    Examples
    --------
    >>> table = (SpeedClass(100.0, 21, -2.097), SpeedClass(125.0, 22, -2.197))
    >>> speed_class_iso6(-2.16, table).arithmetic
    125.0
    """
    found = _nearest_class(log_hm, table)
    if found is None:
        known = [entry.log_hm for entry in table]
        raise OutOfRangeError(
            "sensitometry.speed.off_table",
            log_hm=log_hm,
            low=min(known, default=0.0) - HALF_CLASS,
            high=max(known, default=0.0) + HALF_CLASS,
        )
    return found


def iso_condition_miss(curve: CharacteristicCurve) -> float:
    """By how much a curve's density gained over 1.30 log from the speed point is not 0.80; positive where it is harder.

    Parameters
    ----------
    curve : CharacteristicCurve

    Returns
    -------
    miss : float
        [density]

    Raises
    ------
    RefusedError
        If the readings do not reach either point.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(iso_condition_miss(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4))), 3)
    -0.02
    """
    return iso_delta(curve) - CONDITION_DENSITY


def speed_iso6(
    curve: CharacteristicCurve, table: Sequence[SpeedClass], *, tolerance: float = CONDITION_TOLERANCE
) -> IsoSpeed:
    """ISO speed of one curve, where its development meets the contrast condition.

    Parameters
    ----------
    curve : CharacteristicCurve
        With exposures in lux-seconds.
    table : sequence of SpeedClass
        Marked speeds.
    tolerance : float
        How far the condition may be missed; not negative. [density]

    Returns
    -------
    speed : IsoSpeed

    Raises
    ------
    OutOfRangeError
        If the tolerance is not a number from 0.
    RefusedError
        If exposures are relative, the readings do not reach, or the condition is missed; the error says by how much.

    References
    ----------
    .. [1] iso-6-1993, speed point and contrast condition; danmc-hd-2025, S = 0.8/Hm.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> table = (SpeedClass(400.0, 27, -2.697), SpeedClass(500.0, 28, -2.797))
    >>> speed = speed_iso6(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4)), table)
    >>> round(speed.arithmetic), speed.marked.degrees, round(speed.miss, 3)
    (545, 28, -0.02)
    """
    _check(curve.absolute, curve.dev_s, tolerance)
    delta = iso_delta(curve)
    if not _meets(delta, tolerance):
        raise RefusedError(
            "sensitometry.speed.condition_missed",
            dev_s=curve.dev_s,
            iso_delta=delta,
            miss=delta - CONDITION_DENSITY,
            tolerance=tolerance,
        )
    return _speed_of(curve.dev_s, curve.speed_log_h(), delta, table, interpolated=False)


def speed_of_family_iso6(
    family: ContrastFamily, table: Sequence[SpeedClass], *, tolerance: float = CONDITION_TOLERANCE
) -> IsoSpeed:
    """ISO speed of a film at the developing time that meets the contrast condition.

    Parameters
    ----------
    family : ContrastFamily
        With exposures in lux-seconds.
    table : sequence of SpeedClass
        Marked speeds.
    tolerance : float
        How far the condition may be missed where no time inside the tested span meets it exactly. [density]

    Returns
    -------
    speed : IsoSpeed

    Raises
    ------
    OutOfRangeError
        If the tolerance is not a number from 0.
    RefusedError
        If exposures are relative, no curve reaches both points, or every tested time misses the condition; the error
        names the nearest time and its miss.

    Notes
    -----
    Density gained over 1.30 log and exposure of the speed point are taken as straight in time between two tested
    times. Where the condition is met more than once, the shortest time counts. Nothing is drawn beyond the tests.

    References
    ----------
    .. [1] iso-6-1993, speed point and contrast condition.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.evidence import Evidence
    >>> from wetside.values.family import contrast_family
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(s, (-3.0, -1.0), (0.2, 0.2 + 2 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> speed = speed_of_family_iso6(family, (SpeedClass(500.0, 28, -2.797),))
    >>> round(speed.dev_s), round(speed.arithmetic), speed.marked.degrees
    (473, 545, 28)
    """
    _check(family.absolute, family.curves[0].dev_s, tolerance)
    read = [(curve.dev_s, curve.speed_log_h(), iso_delta(curve)) for curve in family.curves if _reaches(curve)]
    if not read:
        iso_delta(family.curves[-1])  # says what the longest time's readings lack
    for (early_s, early_hm, early), (late_s, late_hm, late) in pairwise(read):
        if (early - CONDITION_DENSITY) * (late - CONDITION_DENSITY) > 0.0:
            continue
        share = (CONDITION_DENSITY - early) / (late - early) if late != early else 0.0
        return _speed_of(
            early_s + share * (late_s - early_s),
            early_hm + share * (late_hm - early_hm),
            CONDITION_DENSITY,
            table,
            interpolated=0.0 < share < 1.0,
        )
    nearest_s, log_hm, delta = min(read, key=lambda row: abs(row[2] - CONDITION_DENSITY))
    if _meets(delta, tolerance):
        return _speed_of(nearest_s, log_hm, delta, table, interpolated=False)
    raise RefusedError(
        "sensitometry.speed.no_time_meets",
        film=family.film,
        dev_s=nearest_s,
        iso_delta=delta,
        miss=delta - CONDITION_DENSITY,
        tolerance=tolerance,
    )


def _speed(arithmetic: float) -> float:
    if not (math.isfinite(arithmetic) and 1e-6 < arithmetic < 1e9):
        raise OutOfRangeError("sensitometry.speed.not_positive", value=arithmetic)
    return arithmetic


def _check(absolute: bool, dev_s: float, tolerance: float) -> None:
    if not absolute:
        raise RefusedError("sensitometry.speed.relative", dev_s=dev_s)
    if not (math.isfinite(tolerance) and tolerance >= 0.0):
        raise OutOfRangeError("sensitometry.speed.tolerance", value=tolerance)


def _meets(delta: float, tolerance: float) -> bool:
    return abs(delta - CONDITION_DENSITY) <= tolerance + 1e-9


def _reaches(curve: CharacteristicCurve) -> bool:
    try:
        iso_delta(curve)
    except RefusedError:
        return False
    return True


def _nearest_class(log_hm: float, table: Sequence[SpeedClass]) -> SpeedClass | None:
    # Of two equally near the one with the larger exposure, the slower, comes first; NaN is near to nothing.
    by_distance = sorted(table, key=lambda entry: (round(abs(entry.log_hm - log_hm), 9), -entry.log_hm))
    if by_distance and abs(by_distance[0].log_hm - log_hm) <= HALF_CLASS + 1e-3:  # log Hm is tabled to three decimals
        return by_distance[0]
    return None


def _speed_of(
    dev_s: float, log_hm: float, delta: float, table: Sequence[SpeedClass], *, interpolated: bool
) -> IsoSpeed:
    arithmetic = float(SPEED_CONSTANT / 10.0**log_hm)
    return IsoSpeed(
        dev_s=dev_s,
        log_hm=log_hm,
        iso_delta=delta,
        miss=delta - CONDITION_DENSITY,
        arithmetic=arithmetic,
        degrees=speed_degrees_iso6(arithmetic),
        marked=_nearest_class(log_hm, table),
        interpolated=interpolated,
    )
