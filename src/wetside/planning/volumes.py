"""Liquid and developing agent of a load: two needs, two checks, never merged."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry import (
    activity_ratio,
    agent_in_ml,
    density_effect,
    mix_volumes,
    passing_dilution,
    passing_sheet_count,
    passing_volume_ml,
    volume_needed,
    warnings_of_mix,
    working_need_ml,
)
from wetside.planning.documents.plan import Note, VolumeCheck
from wetside.planning.resolved import ANY_VESSEL
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Vessel
    from wetside.values.dilution import Dilution

UNKNOWN_VESSEL_ML = 250.0
"""Working solution to a unit of film where no vessel is known: the low end of what one maker gives for a film; assumed
for a vessel that nobody named. [ml]"""

LEFT_TO_MIXING = frozenset({"chemistry.mix.rounded", "chemistry.mix.rounded_part", "chemistry.mix.two_part"})
"""Warnings that a plan leaves to ``wetside mix``: they are about one or two percent of strength, or how to mix."""

REFUSED_BELOW = 0.5
"""A load with less than this part of the reference agent is refused. [1]"""


class SheetAgent(NamedTuple):
    """What a sheet asks of the developer: area [cm2], weight [1], reference agent [ml/cm2] or None."""

    area_cm2: float
    weight: float
    agent_ml_per_cm2: float | None

    @property
    def need_ml(self) -> float:
        """Agent under which its time was found, weighted. [ml]"""
        return self.area_cm2 * self.weight * (self.agent_ml_per_cm2 or 0.0)


class Poured(NamedTuple):
    """Volume of working solution and its parts, with the check behind it. [ml]"""

    volume_ml: float
    concentrate_ml: float
    water_ml: float
    parts_ml: tuple[float, ...]
    check: VolumeCheck
    notes: tuple[Note, ...]


def pour_of_load(
    sheets: Sequence[SheetAgent],
    vessel: Vessel,
    dilution: Dilution,
    density_range: float,
    smallest_ml: float,
    marks_ml: float,
    reuse_ml_per_unit: float | None,
) -> Poured:
    """Volume of a load: the larger of wetting and agent, rounded up to a mark, at most what the vessel takes.

    Parameters
    ----------
    sheets : sequence of SheetAgent
    vessel : Vessel
    dilution : Dilution
    density_range : float
        Range that the effect of too little agent is told on. [density]
    smallest_ml : float
        Smallest amount that the measure reads. [ml]
    marks_ml : float
        Marks of the measure: the volume is rounded up to one. [ml]
    reuse_ml_per_unit : float or None
        Maker's reuse limit, only ever a warning. [ml stock to 516 cm2]
    """
    sheets, notes = _with_known_references(sheets)
    area = sum(sheet.area_cm2 for sheet in sheets)
    weighted = sum(sheet.area_cm2 * sheet.weight for sheet in sheets)
    reference_ml = sum(sheet.need_ml for sheet in sheets)
    known = reference_ml > 0
    agent_need_ml = working_need_ml(reference_ml, dilution) if known else None
    wetting_ml = vessel.min_ml
    if vessel is ANY_VESSEL:
        wetting_ml = max(1.0, area / UNIT_AREA_CM2) * UNKNOWN_VESSEL_ML
    volume, binds = volume_needed(wetting_ml, agent_need_ml, vessel.max_ml, marks_ml)
    ratio = agent_in_ml(volume, dilution) / reference_ml if known else None
    passes: list[Note] = []
    effect = None
    if ratio is not None and ratio < 1.0 - 1e-9:
        units = weighted / UNIT_AREA_CM2
        given, reference = agent_in_ml(volume, dilution) / units, reference_ml / units
        effect = density_effect(density_range, activity_ratio(given, reference))
        passes = _what_would_pass(sheets, vessel, dilution, reference_ml, marks_ml)
    if not known and reuse_ml_per_unit is not None and weighted > 0:
        given = agent_in_ml(volume, dilution) / (weighted / UNIT_AREA_CM2)
        if given < reuse_ml_per_unit:
            notes.append(Note("planning.below_reuse", {"given_ml": given, "limit_ml": reuse_ml_per_unit}))
    mix = mix_volumes(dilution, volume)
    notes.extend(
        Note(code, dict(params))
        for code, params in warnings_of_mix(mix, smallest_ml=smallest_ml)
        if code not in LEFT_TO_MIXING
    )
    check = VolumeCheck(wetting_ml, agent_need_ml, area, weighted, binds, ratio, effect, tuple(passes))
    return Poured(volume, sum(mix.concentrates_ml), mix.water_ml, tuple(mix.concentrates_ml), check, tuple(notes))


def _with_known_references(sheets: Sequence[SheetAgent]) -> tuple[list[SheetAgent], list[Note]]:
    """Sheets of which nobody knows the reference count like the most demanding of the others, and that is said."""
    known = [sheet.agent_ml_per_cm2 for sheet in sheets if sheet.agent_ml_per_cm2 is not None]
    if len(known) == len(sheets):
        return list(sheets), []
    if not known:
        return list(sheets), [Note("planning.no_reference")]
    filled = [
        sheet if sheet.agent_ml_per_cm2 is not None else sheet._replace(agent_ml_per_cm2=max(known)) for sheet in sheets
    ]
    return filled, [Note("planning.some_reference", {"count": len(sheets) - len(known)})]


def _what_would_pass(
    sheets: Sequence[SheetAgent], vessel: Vessel, dilution: Dilution, reference_ml: float, marks_ml: float
) -> list[Note]:
    passes = [Note("planning.pass_volume", {"volume_ml": passing_volume_ml(reference_ml, dilution, marks_ml)})]
    stronger = passing_dilution(reference_ml, vessel.max_ml)
    if stronger is not None:
        passes.append(Note("planning.pass_dilution", {"dilution": stronger.text}))
    count = passing_sheet_count(agent_in_ml(vessel.max_ml, dilution), [sheet.need_ml for sheet in sheets])
    if count:
        passes.append(Note("planning.pass_count", {"count": count}))
    return passes
