"""Zones on a film: their exposures, the densities that a tested family gives them, and the densities aimed at."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.speed import metered_lux_s

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.values.curve import CharacteristicCurve
    from wetside.values.family import ContrastFamily

ZONE_LOG = math.log10(2.0)
"""One zone, one stop (idigitalphoto-zones). [log10]"""
METERED_ZONE = 5.0
"""Zone of what a meter reads and nobody moved (camera-manual-25420, p. 73). [zone]"""
SHADOW_ZONE, HIGHLIGHT_ZONE = 1.0, 8.0
"""Zones between which a density range is counted. [zone]"""
SHADOW_NET = 0.10
"""Net density aimed at on Zone I: the upper end of 0.07 to 0.10, and the speed point's (rossphoto-zone9). [density]"""

_ZONES = (-10.0, 20.0)


class ZoneDensity(NamedTuple):
    """A zone on a film: exposure, net density, or None with the code and parameters of the reason."""

    zone: float
    log_h: float
    net_density: float | None
    code: str | None = None
    params: Mapping[str, object] | None = None


class ZoneTarget(NamedTuple):
    """Where a zone shall lie: stops from what the meter reads, and net density (None where the line falls below 0)."""

    zone: float
    stops_from_meter: float
    net_density: float | None


def log_h_of_zone(zone: float, anchor_log_h: float, anchor_zone: float = SHADOW_ZONE) -> float:
    """Exposure of a zone, from that of another.

    Parameters
    ----------
    zone : float
        [zone]
    anchor_log_h : float
        Exposure of the known zone. [log10 lux-second, or the readings' own scale]
    anchor_zone : float
        The known zone. [zone]

    Returns
    -------
    log_h : float
        ``anchor + (zone - anchor zone) log10 2``. [log10 lux-second, or the readings' own scale]

    Raises
    ------
    OutOfRangeError
        If a zone is none, or the exposure is not finite.

    Examples
    --------
    >>> round(log_h_of_zone(8.0, -2.5), 3)
    -0.393
    """
    if not abs(anchor_log_h) <= 20.0:
        raise OutOfRangeError("sensitometry.zone.anchor", value=anchor_log_h)
    return anchor_log_h + (_zone(zone) - _zone(anchor_zone)) * ZONE_LOG


def zone_of_log_h(log_h: float, anchor_log_h: float, anchor_zone: float = SHADOW_ZONE) -> float:
    """Zone of an exposure: the inverse of :func:`log_h_of_zone`. [zone]

    Parameters
    ----------
    log_h, anchor_log_h : float
        [log10 lux-second, or the readings' own scale]
    anchor_zone : float
        [zone]

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    Examples
    --------
    >>> round(zone_of_log_h(-0.393, -2.5), 2)
    8.0
    """
    for value in (log_h, anchor_log_h):
        if not abs(value) <= 20.0:
            raise OutOfRangeError("sensitometry.zone.anchor", value=value)
    return _zone(anchor_zone) + (log_h - anchor_log_h) / ZONE_LOG


def log_h_of_metered_zone(zone: float, exposure_index: float) -> float:
    """Exposure of a zone with a meter set to an exposure index: Zone V gets 8/S, the rest lies in stops about it.

    Parameters
    ----------
    zone : float
        [zone]
    exposure_index : float
        Set on the meter; positive. [1]

    Returns
    -------
    log_h : float
        No flare, shutter and lens true. [log10 lux-second]

    Raises
    ------
    OutOfRangeError
        If the zone is none, or the index not a positive number.

    Examples
    --------
    >>> round(log_h_of_metered_zone(5.0, 125.0), 3)
    -1.194
    """
    return log_h_of_zone(zone, math.log10(metered_lux_s(exposure_index)), METERED_ZONE)


def highlight_zone_of_n(n: float) -> float:
    """Zone whose exposure a development of N + n brings to the density of Zone VIII.

    Parameters
    ----------
    n : float
        -1 for N-1. [zones]

    Returns
    -------
    zone : float
        ``8 - n``. [zone]

    Raises
    ------
    OutOfRangeError
        If N + n is no development.

    References
    ----------
    .. [1] kachel-terms, N-1 brings IX to VIII, N+1 VII to VIII.

    Examples
    --------
    >>> highlight_zone_of_n(-1.0)
    9.0
    """
    if not -6.0 <= n <= 6.0:
        raise OutOfRangeError("sensitometry.aim.n", n=n, highest=6.0)
    return HIGHLIGHT_ZONE - n


def zone_densities(
    curve: CharacteristicCurve,
    anchor_log_h: float,
    *,
    anchor_zone: float = SHADOW_ZONE,
    zones: Iterable[float] = range(11),
) -> tuple[ZoneDensity, ...]:
    """Net density of each zone on a curve.

    Parameters
    ----------
    curve : CharacteristicCurve
    anchor_log_h : float
        Exposure of the known zone. [log10 lux-second, or the readings' own scale]
    anchor_zone : float
        The known zone. [zone]
    zones : iterable of float
        [zone]

    Returns
    -------
    densities : tuple of ZoneDensity
        Without density, and with a reason, where the readings do not reach.

    Raises
    ------
    OutOfRangeError
        If a zone is none, or the exposure is not finite.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> curve = characteristic_curve(300.0, (-3.0, -1.0), (0.1, 1.3))
    >>> [zone.net_density and round(zone.net_density, 2) for zone in zone_densities(curve, -2.8, zones=(1, 5, 8))]
    [0.12, 0.84, None]
    """
    found = []
    for zone in zones:
        log_h = log_h_of_zone(zone, anchor_log_h, anchor_zone)
        try:
            found.append(ZoneDensity(zone, log_h, curve.density_at(log_h) - curve.base_fog))
        except OutOfRangeError as error:
            found.append(ZoneDensity(zone, log_h, None, error.code, error.params))
    return tuple(found)


def zone_densities_at(
    family: ContrastFamily,
    dev_s: float,
    anchor_log_h: float,
    *,
    anchor_zone: float = SHADOW_ZONE,
    zones: Iterable[float] = range(11),
    widen: bool = False,
) -> tuple[ZoneDensity, ...]:
    """Net density of each zone after a developing time, by a tested family.

    Parameters
    ----------
    family : ContrastFamily
    dev_s : float
        Inside the tested span. [s]
    anchor_log_h : float
        Exposure of the known zone. [log10 lux-second, or the readings' own scale]
    anchor_zone : float
        The known zone. [zone]
    zones : iterable of float
        [zone]
    widen : bool
        Also permit a tenth beyond the span; the answer is assumed.

    Returns
    -------
    densities : tuple of ZoneDensity

    Raises
    ------
    OutOfRangeError
        If the time lies outside the span, a zone is none, or the exposure is not finite.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.evidence import Evidence
    >>> from wetside.values.family import contrast_family
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(s, (-3.0, 0.0), (0.1, 0.1 + 3 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> [round(zone.net_density, 2) for zone in zone_densities_at(family, 450.0, -2.8, zones=(1, 5, 8))]
    [0.12, 0.84, 1.38]
    """
    base = family.base_fog_at(dev_s, widen=widen)
    found = []
    for zone in zones:
        log_h = log_h_of_zone(zone, anchor_log_h, anchor_zone)
        try:
            found.append(ZoneDensity(zone, log_h, family.density_at(dev_s, log_h, widen=widen) - base))
        except RefusedError as error:
            found.append(ZoneDensity(zone, log_h, None, error.code, error.params))
    return tuple(found)


def zone_targets(
    density_range: float, *, shadow_net: float = SHADOW_NET, zones: Iterable[float] = range(11), n: float = 0.0
) -> tuple[ZoneTarget, ...]:
    """Densities aimed at, if tone ran straight from Zone I to the zone that shall print as VIII.

    Parameters
    ----------
    density_range : float
        That the printing asks for, from Zone I to VIII; positive. [density]
    shadow_net : float
        Net density of Zone I; not negative. [density]
    zones : iterable of float
        [zone]
    n : float
        Development: at N-1 the range is spread from I to IX. [zones]

    Returns
    -------
    targets : tuple of ZoneTarget
        A straight line is an aim, not a film: on its toe a real one lies below it. Below Zone I the line soon falls
        under base + fog, and there is no target.

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    Examples
    --------
    >>> [(target.stops_from_meter, round(target.net_density, 2)) for target in zone_targets(1.15, zones=(1, 8))]
    [(-4.0, 0.1), (3.0, 1.25)]
    """
    if not 1e-3 <= density_range <= 6.0:
        raise OutOfRangeError("sensitometry.aim.density_range", value=density_range)
    if not 0.0 <= shadow_net <= 6.0:
        raise OutOfRangeError("sensitometry.density.impossible", value=shadow_net)
    step = density_range / (highlight_zone_of_n(n) - SHADOW_ZONE)
    line = [(zone, shadow_net + step * (_zone(zone) - SHADOW_ZONE)) for zone in zones]
    return tuple(ZoneTarget(zone, zone - METERED_ZONE, net if net >= 0.0 else None) for zone, net in line)


def _zone(value: float) -> float:
    if not _ZONES[0] <= value <= _ZONES[1]:
        raise OutOfRangeError("sensitometry.zone.impossible", value=value, low=_ZONES[0], high=_ZONES[1])
    return value
