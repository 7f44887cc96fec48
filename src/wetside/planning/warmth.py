"""What a vessel from the room does to the developer that is poured into it, and at what to pour instead."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.documents.plan import Note, VesselWarmth
from wetside.planning.documents.words import BathKind
from wetside.planning.factors import coefficient_of
from wetside.planning.resolved import NORMAL_AIM, baths_of

if TYPE_CHECKING:
    from wetside.planning.documents.evening import Evening, Process, Vessel
    from wetside.planning.documents.plan import Load
    from wetside.planning.library import Library
    from wetside.planning.resolved import ResolvedSheet

NEAR_C = 0.3
"""A developer this near to its temperature asks for nothing. Our choice. [C]"""

FURTHEST_POUR_C = 5.0
"""A developer poured further than this from what is wanted would begin at a temperature of its own, and no two pours
would be alike: then only the vessel can be tempered. Our choice. [C]"""

STILL_S = 1e9
"""Time constant of a vessel that nothing around it changes within a bath. [s]"""


def with_warmth(load: Load, first: ResolvedSheet, vessel: Vessel, evening: Evening, library: Library) -> Load:
    """Load with the warmth of its vessel, where the vessel's mass and material and the room are written down.

    A pre-soak in the vessel tempers it first. What jacket or room do later is left out: the figures are those of the
    moment after pouring, held through the bath.

    Parameters
    ----------
    load : Load
    first : ResolvedSheet
        Any sheet of the load: its process, developer and aim count.
    vessel : Vessel
    evening : Evening
    library : Library
        Specific heats, and pairs of the developer.

    Returns
    -------
    load : Load
        With a note where the developer would stand more than 0.3 C off.
    """
    material = library.materials.get(str(vessel.material)) if vessel.material is not None else None
    if vessel.mass_g is None or material is None or evening.room_c is None:
        return load
    from wetside.chemistry import heat_capacity_j_k, poured_temperature_c

    vessel_c = evening.room_c
    for volume_ml, temp_c in _presoaks(first.process, load):
        vessel_c = poured_temperature_c(volume_ml, temp_c, vessel.mass_g, material.heat_j_gk, vessel_c)
    stands_c = poured_temperature_c(load.volume_ml, load.temp_c, vessel.mass_g, material.heat_j_gk, vessel_c)
    # Pouring is a weighted mean: the liquid must start so much off on the other side of what is wanted.
    ratio = vessel.mass_g * material.heat_j_gk / heat_capacity_j_k(load.volume_ml)
    pour_c: float | None = load.temp_c + (load.temp_c - vessel_c) * ratio
    if pour_c is not None and abs(pour_c - load.temp_c) > FURTHEST_POUR_C:
        pour_c = None
    percent, density = _effect(load, first, stands_c, library)
    warmth = VesselWarmth(vessel_c, stands_c, pour_c, percent, density)
    if abs(stands_c - load.temp_c) < NEAR_C:
        return load._replace(warmth=warmth)
    note = _note(load, vessel, warmth, evening.thermometer.reads_high_c)
    return load._replace(warmth=warmth, notes=(*load.notes, note))


def _presoaks(process: Process, load: Load) -> list[tuple[float, float]]:
    """Volume [ml] and temperature [C] of what the vessel holds before the developer."""
    found = []
    for bath in baths_of(process):
        if bath.does is BathKind.DEVELOP:
            break
        if not bath.out_of_vessel:
            filling = (bath.volume_ml or load.volume_ml, load.temp_c if bath.temp_c is None else bath.temp_c)
            found.extend([filling] * bath.changes)
    return found


def _effect(load: Load, first: ResolvedSheet, stands_c: float, library: Library) -> tuple[float | None, float | None]:
    """What standing off does, as percent of time and as density; None without the developer's coefficient."""
    from wetside.chemistry import temperature_effect
    from wetside.development import is_inside_span

    coefficient = coefficient_of(first.process.developer, first.developer, library)
    if coefficient is None or not all(is_inside_span(coefficient, temp_c) for temp_c in (stands_c, load.temp_c)):
        return None, None
    aim = first.aim or NORMAL_AIM
    found = temperature_effect(
        stands_c, stands_c, STILL_S, load.time_s, load.temp_c, coefficient.per_c, aim.density_range
    )
    return found.time_percent, found.density


def _note(load: Load, vessel: Vessel, warmth: VesselWarmth, reads_high_c: float) -> Note:
    params = {
        "vessel": vessel.name,
        "vessel_c": warmth.vessel_c,
        "temp_c": load.temp_c,
        "stands_c": warmth.stands_c,
        "pour_c": warmth.pour_c,
        "shown_c": None if warmth.pour_c is None else warmth.pour_c + reads_high_c,
        "percent": warmth.time_percent,
        "density": warmth.density,
    }
    if warmth.pour_c is None:
        return Note("planning.warmth_far" if warmth.density is None else "planning.warmth_effect_far", params)
    return Note("planning.warmth" if warmth.density is None else "planning.warmth_effect", params)
