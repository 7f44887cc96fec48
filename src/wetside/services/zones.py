"""Zones on measured curves: the density that each gets, the densities aimed at, and what a flash changes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import InputError, Place, WetsideError
from wetside.sensitometry.preflash import FlashedZone, flashed_zones
from wetside.sensitometry.zones import (
    METERED_ZONE,
    SHADOW_ZONE,
    ZONE_LOG,
    ZoneDensity,
    ZoneTarget,
    highlight_zone_of_n,
    log_h_of_metered_zone,
    zone_densities,
    zone_targets,
)
from wetside.services.flash import flash_zone_typed
from wetside.services.options import typed, typed_or_none
from wetside.services.zone_words import parse_zone
from wetside.units import parse_number

if TYPE_CHECKING:
    from wetside.services.curves import MeasuredCurve
    from wetside.values.curve import CharacteristicCurve

ZONES = tuple(float(zone) for zone in range(11))


class ZoneAnswers(NamedTuple):
    """What was typed; ``ei`` is set on the meter, ``speed_zone`` lies on the speed point where none is named."""

    ei: str | None = None
    speed_zone: str | None = None
    aim: str | None = None
    n: str | None = None
    flash: str | None = None
    flash_gain: str | None = None


class CurveZones(NamedTuple):
    """Zones on one curve; ``density_range`` runs from I to the one that prints as VIII, None where not read."""

    dev_min: float
    densities: tuple[ZoneDensity, ...]
    flashed: tuple[FlashedZone, ...]
    density_range: float | None


class ZoneTable(NamedTuple):
    """Answer: targets where a range is wanted, the curves, and the zone of the flash where one was named."""

    highlight_zone: float
    wanted: float | None
    targets: tuple[ZoneTarget, ...]
    curves: tuple[CurveZones, ...]
    flash_zone: float | None


def zone_table(curves: tuple[MeasuredCurve, ...], answers: ZoneAnswers) -> ZoneTable:
    """Densities of the zones on each curve.

    Raises
    ------
    WetsideError
        Naming the option; a curve without a speed point is refused with its developing time.
    """
    if answers.ei is not None and answers.speed_zone is not None:
        raise InputError("services.zones_twice")
    n = typed_or_none("--n", parse_number, answers.n) or 0.0
    try:
        highlight = highlight_zone_of_n(n)
    except WetsideError as error:
        raise error.at(Place(field="--n")) from None
    wanted = typed_or_none("--aim", parse_number, answers.aim)
    targets: tuple[ZoneTarget, ...] = ()
    if wanted is not None:
        try:
            targets = zone_targets(wanted, zones=ZONES, n=n)
        except WetsideError as error:
            raise error.at(Place(field="--aim")) from None
    elif answers.n is not None:
        raise InputError("services.option_missing_with", option="--aim", other="--n")
    flash_zone = None
    if answers.flash is not None or answers.flash_gain is not None:
        flash_zone = flash_zone_typed(answers.flash, answers.flash_gain)
    found = tuple(_of_curve(curve, answers, highlight, flash_zone) for curve in curves)
    return ZoneTable(highlight, wanted, targets, found, flash_zone)


def _of_curve(measured: MeasuredCurve, answers: ZoneAnswers, highlight: float, flash_zone: float | None) -> CurveZones:
    curve = measured.curve
    anchor_log_h, anchor_zone = _anchor(curve, answers)
    zone_one = anchor_log_h - (anchor_zone - SHADOW_ZONE) * ZONE_LOG
    densities = zone_densities(curve, anchor_log_h, anchor_zone=anchor_zone, zones=ZONES)
    ends = zone_densities(curve, anchor_log_h, anchor_zone=anchor_zone, zones=(SHADOW_ZONE, highlight))
    low, high = (end.net_density for end in ends)
    flashed = () if flash_zone is None else flashed_zones(flash_zone, ZONES[:9], curve=curve, zone_one_log_h=zone_one)
    return CurveZones(measured.dev_min, densities, flashed, None if low is None or high is None else high - low)


def _anchor(curve: CharacteristicCurve, answers: ZoneAnswers) -> tuple[float, float]:
    """Log exposure of a known zone: what the meter was set to, or the speed point."""
    if answers.ei is not None:
        if not curve.absolute:
            raise InputError("services.zones_relative", place=Place(field="--ei"))
        index = typed("--ei", parse_number, answers.ei)
        try:
            return log_h_of_metered_zone(METERED_ZONE, index), METERED_ZONE
        except WetsideError as error:
            raise error.at(Place(field="--ei")) from None
    zone = typed_or_none("--speed-zone", parse_zone, answers.speed_zone)
    if zone is not None and not (math.isfinite(zone) and 0.0 <= zone <= 5.0):
        raise InputError("services.speed_zone", place=Place(field="--speed-zone"), value=zone)
    return curve.speed_log_h(), SHADOW_ZONE if zone is None else zone
