"""Speed and slopes of one characteristic curve. What the readings do not reach is refused, never guessed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wetside.errors import OutOfRangeError, RefusedError

if TYPE_CHECKING:
    from wetside.values.curve import CharacteristicCurve

ISO_TRIANGLE_LOG_RANGE = 1.30
"""From speed point m to point n (ISO 6:1993). [log10]"""
GRADIENT_LOG_RANGE = 1.50
"""Over which the average gradient is taken. [log10]"""
GAMMA_NET = (0.40, 1.00)
"""Net densities between which the straight part is taken to lie; our choice. [density]"""
SPEED_CONSTANT = 0.8
"""Arithmetic speed times exposure of the speed point. [lux-second]"""


def speed_log_h(curve: CharacteristicCurve) -> float:
    """Log exposure that gives 0.10 above base + fog.

    Parameters
    ----------
    curve : CharacteristicCurve

    Returns
    -------
    speed_log_h : float
        [log10 lux-second, or the readings' own scale]

    Raises
    ------
    RefusedError
        If the readings do not hold that density.

    References
    ----------
    .. [1] iso-6-1993, speed point m.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(speed_log_h(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4))), 4)
    -2.8333
    """
    return curve.speed_log_h()


def chord_gradient(curve: CharacteristicCurve, log_h_low: float, log_h_high: float) -> float:
    """Slope of the straight line between two points of a curve.

    Parameters
    ----------
    curve : CharacteristicCurve
    log_h_low, log_h_high : float
        Two exposures, the second the larger. [log10 lux-second, or the readings' own scale]

    Returns
    -------
    chord_gradient : float
        [density per log H]

    Raises
    ------
    OutOfRangeError
        If the second does not lie above the first.
    RefusedError
        If the readings do not reach either.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(chord_gradient(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4)), -2.5, -1.5), 6)
    0.6
    """
    if not log_h_high - log_h_low > 1e-6:
        raise OutOfRangeError("sensitometry.chord.not_rising", low=log_h_low, high=log_h_high)
    rise = _density(curve, log_h_high) - _density(curve, log_h_low)
    return rise / (log_h_high - log_h_low)


def iso_delta(curve: CharacteristicCurve) -> float:
    """Density gained over 1.30 log H from the speed point; 0.80 is the development that a film speed is stated for.

    Parameters
    ----------
    curve : CharacteristicCurve

    Returns
    -------
    iso_delta : float
        ``D(m + 1.30) - D(m)``. [density]

    Raises
    ------
    RefusedError
        If the readings do not reach either point.

    References
    ----------
    .. [1] iso-6-1993, points m and n.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(iso_delta(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4))), 6)
    0.78
    """
    start = curve.speed_log_h()
    return _density(curve, start + ISO_TRIANGLE_LOG_RANGE) - curve.density_at(start)


def average_gradient(curve: CharacteristicCurve, log_range: float = GRADIENT_LOG_RANGE) -> float:
    """Slope of the chord from the speed point over a log range: the makers' G-bar where the range is 1.50.

    Parameters
    ----------
    curve : CharacteristicCurve
    log_range : float
        Positive. [log10]

    Returns
    -------
    average_gradient : float
        [density per log H]

    Raises
    ------
    OutOfRangeError
        If the log range is not a positive number.
    RefusedError
        If the readings do not reach either point.

    References
    ----------
    .. [1] apug-81084, average gradient methods.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(average_gradient(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4))), 6)
    0.6
    """
    if not (math.isfinite(log_range) and log_range > 1e-6):
        raise OutOfRangeError("sensitometry.chord.log_range", value=log_range)
    start = curve.speed_log_h()
    return (_density(curve, start + log_range) - curve.density_at(start)) / log_range


def gamma(curve: CharacteristicCurve) -> float:
    """Slope of the straight part, taken as the chord between net densities 0.40 and 1.00.

    Parameters
    ----------
    curve : CharacteristicCurve

    Returns
    -------
    gamma : float
        [density per log H]

    Raises
    ------
    RefusedError
        If the readings do not hold both densities.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(gamma(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4))), 6)
    0.6
    """
    low, high = (curve.base_fog + net for net in GAMMA_NET)
    if not curve.density[0] <= low or not high <= curve.density[-1]:
        raise RefusedError(
            "sensitometry.density.not_read",
            dev_s=curve.dev_s,
            wanted=high if high > curve.density[-1] else low,
            low=curve.density[0],
            high=curve.density[-1],
        )
    return (high - low) / (curve.log_h_at(high) - curve.log_h_at(low))


def speed_arithmetic_iso6(curve: CharacteristicCurve) -> float:
    """Arithmetic speed of a curve by the speed point; an ISO speed only where ``iso_delta`` is 0.80.

    Parameters
    ----------
    curve : CharacteristicCurve
        With exposures in lux-seconds.

    Returns
    -------
    speed : float
        Not rounded to a marked speed. [1/lux-second, as 0.8/Hm]

    Raises
    ------
    RefusedError
        If exposures are relative, or the curve has no speed point.

    Notes
    -----
    ``S = 0.8 / Hm``.

    References
    ----------
    .. [1] danmc-hd-2025, S = 0.8/Hm with Hm 0.002 lx s for ISO 400.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(speed_arithmetic_iso6(characteristic_curve(300.0, (-3.0, -1.0), (0.2, 1.4))), 1)
    545.0
    """
    if not curve.absolute:
        raise RefusedError("sensitometry.speed.relative", dev_s=curve.dev_s)
    return float(SPEED_CONSTANT / 10.0 ** curve.speed_log_h())


def speed_degrees_iso6(speed: float) -> float:
    """Logarithmic speed of an arithmetic one: three degrees a stop.

    Parameters
    ----------
    speed : float
        Arithmetic; positive. [1]

    Returns
    -------
    degrees : float
        Not rounded. [degrees]

    Raises
    ------
    OutOfRangeError
        If the speed is not a positive number.

    Notes
    -----
    ``1 + 10 log10 S``: the form is recalled, not read in the standard; the pairs of the source agree with it.

    References
    ----------
    .. [1] photrio-183145, pairs 100/21, 125/22, 200/24, 400/27.

    Examples
    --------
    >>> round(speed_degrees_iso6(400.0))
    27
    """
    if not (math.isfinite(speed) and speed > 0.0):
        raise OutOfRangeError("sensitometry.speed.not_positive", value=speed)
    return 1.0 + 10.0 * math.log10(speed)


def _density(curve: CharacteristicCurve, log_h: float) -> float:
    """Density of the curve, or a refusal that names how far its readings go."""
    try:
        return curve.density_at(log_h)
    except OutOfRangeError:
        raise RefusedError(
            "sensitometry.log_h.not_read",
            dev_s=curve.dev_s,
            wanted=log_h,
            low=curve.log_h[0],
            high=curve.log_h[-1],
        ) from None
