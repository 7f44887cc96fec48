"""A pre-flash: what it gives to each zone, what it takes, and how to expose it."""

from __future__ import annotations

from typing import NamedTuple

from wetside.errors import InputError, Place, WetsideError
from wetside.sensitometry.preflash import FlashedZone, flash_zone_for_gain, flashed_zones, step_after_flash
from wetside.sensitometry.zones import METERED_ZONE
from wetside.services.options import typed
from wetside.services.zone_words import at_zone, parse_zone

FLASH_ZONES = (-2.0, 4.0)
"""Zones that a flash is told for: below them nothing is gained, above them the whole sheet is fogged; our choice."""


class Flashed(NamedTuple):
    """Answer: the zone of the flash, the stops that it gets from a meter's reading, each zone, and the step left.

    ``steps`` are stops from the zone below to each zone, 1 without a flash. [stops]
    """

    flash_zone: float
    stops_from_meter: float
    zones: tuple[FlashedZone, ...]
    steps: tuple[float, ...]


def flash_zone_typed(zone: str | None, gain: str | None) -> float:
    """Zone of the flash, typed, or found from the gain that a zone shall have.

    Raises
    ------
    WetsideError
        Naming the option.
    """
    if zone is not None and gain is not None:
        raise InputError("services.flash_twice")
    if gain is None:
        option, found = "--flash", typed("--flash", parse_zone, zone or "")
    else:
        option = "--flash-gain"
        stops, tone = at_zone(option, gain, "services.gain_at_zone")
        try:
            found = flash_zone_for_gain(tone, stops)
        except WetsideError as error:
            raise error.at(Place(field=option)) from None
    if not FLASH_ZONES[0] <= found <= FLASH_ZONES[1]:
        raise InputError(
            "services.flash_zone", place=Place(field=option), value=found, low=FLASH_ZONES[0], high=FLASH_ZONES[1]
        )
    return found


def flash(zone: str | None, gain: str | None) -> Flashed:
    """Tell what a flash does to Zones 0 to VIII.

    Raises
    ------
    WetsideError
        Naming the option.
    """
    found = flash_zone_typed(zone, gain)
    zones = flashed_zones(found)
    return Flashed(found, found - METERED_ZONE, zones, tuple(step_after_flash(tone.zone, found) for tone in zones))
