"""A small even exposure before or after the picture's own: what it gives to each zone."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.values.curve import CharacteristicCurve

_ZONES = (-10.0, 20.0)
_ZONE_LOG = math.log10(2.0)


class FlashedZone(NamedTuple):
    """A zone after a flash: where it lies now, what it gained in stops, and in density where a curve was given.

    ``net_before`` and ``net_after`` are above base + fog [density]; None without a curve, or where its readings end.
    """

    zone: float
    zone_after: float
    gain_stops: float
    net_before: float | None
    net_after: float | None


def zone_after_flash(zone: float, flash_zone: float) -> float:
    """Zone on which a tone lies once a flash has been added.

    Parameters
    ----------
    zone : float
        On which the picture's own exposure puts the tone. [zone]
    flash_zone : float
        On which the flash alone would put the whole sheet; I.5 is 1.5. [zone]

    Returns
    -------
    zone_after : float
        ``log2(2^zone + 2^flash)``: exposures add. [zone]

    Raises
    ------
    OutOfRangeError
        If either is no zone.

    Examples
    --------
    >>> round(zone_after_flash(3.0, 1.0), 2), round(zone_after_flash(8.0, 1.0), 2)
    (3.32, 8.01)
    """
    zone, flash_zone = _zone(zone), _zone(flash_zone)
    return zone + math.log2(1.0 + 2.0 ** (flash_zone - zone))


def stops_gained_by_flash(zone: float, flash_zone: float) -> float:
    """Gain of a tone by a flash: about half a stop for III from I.5, hardly anything for VIII. [stops]

    Parameters
    ----------
    zone, flash_zone : float
        See :func:`zone_after_flash`. [zone]

    Raises
    ------
    OutOfRangeError
        If either is no zone.

    Examples
    --------
    >>> round(stops_gained_by_flash(3.0, 1.5), 2), round(stops_gained_by_flash(8.0, 1.5), 2)
    (0.44, 0.02)
    """
    return zone_after_flash(zone, flash_zone) - zone


def step_after_flash(zone: float, flash_zone: float) -> float:
    """Stops that are left between a zone and the one below it: 1 without a flash, less the lower the zone lies.

    Parameters
    ----------
    zone, flash_zone : float
        See :func:`zone_after_flash`. [zone]

    Returns
    -------
    step : float
        What the flash costs: the tone's separation from its darker neighbour. [stops]

    Raises
    ------
    OutOfRangeError
        If either is no zone.

    Examples
    --------
    >>> round(step_after_flash(3.0, 1.5), 2), round(step_after_flash(8.0, 1.5), 2)
    (0.67, 0.98)
    """
    return zone_after_flash(zone, flash_zone) - zone_after_flash(zone - 1.0, flash_zone)


def flash_zone_for_gain(zone: float, gain_stops: float) -> float:
    """Zone of the flash that raises a tone by a wanted amount: the inverse of the gain.

    Parameters
    ----------
    zone : float
        Of the tone. [zone]
    gain_stops : float
        Wanted; positive, at most 5. [stops]

    Returns
    -------
    flash_zone : float
        [zone]

    Raises
    ------
    OutOfRangeError
        If the zone is none, or the gain lies outside.

    Examples
    --------
    >>> round(flash_zone_for_gain(3.0, 1.0), 6)
    3.0
    """
    if not 1e-3 <= gain_stops <= 5.0:
        raise OutOfRangeError("sensitometry.flash.gain", value=gain_stops)
    return _zone(zone) + math.log2(2.0**gain_stops - 1.0)


def flashed_zones(
    flash_zone: float,
    zones: Iterable[float] = range(9),
    *,
    curve: CharacteristicCurve | None = None,
    zone_one_log_h: float | None = None,
) -> tuple[FlashedZone, ...]:
    """Zones before and after a flash, in stops and, through a curve, in density.

    Parameters
    ----------
    flash_zone : float
        See :func:`zone_after_flash`. [zone]
    zones : iterable of float
        Tones to follow. [zone]
    curve : CharacteristicCurve, optional
        Of the film at its developing time.
    zone_one_log_h : float, optional
        Exposure of Zone I on that curve; its speed point if absent. [log10 lux-second, or the readings' own scale]

    Returns
    -------
    flashed : tuple of FlashedZone

    Raises
    ------
    OutOfRangeError
        If a zone is none, or the exposure is not finite.
    RefusedError
        If the curve has no speed point and no exposure of Zone I is given.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> curve = characteristic_curve(300.0, (-3.0, -1.0), (0.1, 1.3))
    >>> (third,) = flashed_zones(1.0, (3.0,), curve=curve)
    >>> round(third.net_before, 3), round(third.net_after, 3)
    (0.461, 0.519)
    """
    start = None
    if curve is not None:
        start = curve.speed_log_h() if zone_one_log_h is None else zone_one_log_h
        if not math.isfinite(start):
            raise OutOfRangeError("sensitometry.zone.anchor", value=start)
    found = []
    for zone in zones:
        after = zone_after_flash(zone, flash_zone)
        found.append(
            FlashedZone(zone, after, after - zone, _net(curve, start, zone), _net(curve, start, after)),
        )
    return tuple(found)


def _net(curve: CharacteristicCurve | None, zone_one_log_h: float | None, zone: float) -> float | None:
    if curve is None or zone_one_log_h is None:
        return None
    try:
        return curve.density_at(zone_one_log_h + (zone - 1.0) * _ZONE_LOG) - curve.base_fog
    except OutOfRangeError:
        return None


def _zone(value: float) -> float:
    if not _ZONES[0] <= value <= _ZONES[1]:
        raise OutOfRangeError("sensitometry.zone.impossible", value=value, low=_ZONES[0], high=_ZONES[1])
    return value
