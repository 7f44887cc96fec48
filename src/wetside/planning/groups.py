"""Sheets that may share a developer, with what each needs in each vessel that takes it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError, WetsideError
from wetside.planning.documents.plan import Note, Unplanned
from wetside.planning.factors import temp_tonight_c
from wetside.planning.loads import LoadProblem, SheetNeed, VesselLimit, VesselOption
from wetside.planning.looks import Judged, looks_by_kind
from wetside.planning.requirement import Requirement, requirement_of
from wetside.planning.resolved import baths_of
from wetside.planning.schedule import gives_own_times
from wetside.planning.season import jacket_notes
from wetside.planning.volumes import REFUSED_BELOW, SheetAgent
from wetside.planning.ways import fillings_of
from wetside.values.dilution import STOCK
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from wetside.planning.basis import FamilyBasis
    from wetside.planning.documents.evening import Evening, Process, Vessel
    from wetside.planning.library import Library
    from wetside.planning.resolved import ResolvedEvening, ResolvedSheet

AGENT_GRAIN = 1e-4
"""Agent is counted in whole grains of this, so that sums of many sheets stay exact. [ml]"""

GRID_S = 5
"""Load times are whole multiples of this. [s]"""


class SheetInGroup(NamedTuple):
    """A sheet that can be planned: its requirement in each vessel that takes it, by the vessel's index."""

    resolved: ResolvedSheet
    size_name: str
    area_cm2: float
    needs: dict[int, Requirement]


class Group(NamedTuple):
    """Sheets with the same developer, dilution, temperature, clock and baths; ``process`` is the first sheet's."""

    process: Process
    sheets: tuple[SheetInGroup, ...]
    problem: LoadProblem


def places_of(vessel: Vessel, size_name: str) -> int:
    """How many sheets of a size a vessel takes; 0 if none."""
    table = dict(vessel.places)
    return table.get(size_name, table.get("any", 0))


def make_groups(
    evening: Evening, resolved: ResolvedEvening, library: Library
) -> tuple[tuple[Group, ...], tuple[Unplanned, ...], tuple[Note, ...]]:
    """Work out every sheet's needs and put the sheets into groups.

    Returns
    -------
    groups : tuple of Group
        In the order in which their first sheet stands in the file.
    unplanned : tuple of Unplanned
        Sheets that no vessel takes or no evidence carries.
    notes : tuple of Note
    """
    families: dict[tuple[str, int], FamilyBasis] = {}
    cache: dict[object, Requirement | WetsideError] = {}
    unplanned: list[Unplanned] = []
    notes: list[Note] = []
    members: dict[object, list[SheetInGroup]] = {}
    only_size = _only_size(resolved.vessels)
    judged = looks_by_kind(evening, resolved)
    for one in resolved.sheets:
        try:
            placed = _place(one, evening, resolved.vessels, library, families, cache, only_size, judged)
        except WetsideError as error:
            unplanned.append(Unplanned(one.sheet.id, error.code, dict(error.params)))
            continue
        members.setdefault(_group_key(one.process, evening), []).append(placed)
    if any(one.area_cm2 == 0 for group in members.values() for one in group):
        notes.append(Note("planning.size_unknown"))
    for sheets in members.values():
        process = sheets[0].resolved.process
        tonight_c = temp_tonight_c(evening, process)
        if tonight_c != process.temp_c:
            notes.extend(jacket_notes(process.name, process.temp_c, tonight_c))
    groups = tuple(
        Group(sheets[0].resolved.process, tuple(sheets), _problem(sheets, evening, resolved.vessels))
        for sheets in (_with_references(found, resolved.vessels) for found in members.values())
    )
    return groups, tuple(unplanned), tuple(notes)


def _group_key(process: Process, evening: Evening) -> object:
    return (
        plain_name(process.developer),
        (process.dilution or STOCK).text,
        temp_tonight_c(evening, process),
        process.clock,
        process.version,
        baths_of(process),
    )


def _only_size(vessels: tuple[Vessel, ...]) -> str | None:
    """The one size that all vessels are made for, if there is only one."""
    names = {name for vessel in vessels for name, _ in vessel.places}
    return names.pop() if len(names) == 1 and "any" not in names else None


def _need_key(one: ResolvedSheet, vessel: int) -> object:
    """What a requirement depends on, so that equal sheets are worked out once."""
    sheet = one.sheet
    return (
        vessel,
        one.film.name,
        one.process.name,
        one.aim.name if one.aim else None,
        sheet.n,
        sheet.scene_stops,
        sheet.shadow,
        sheet.highlight,
        sheet.meant,
        sheet.was_set,
        sheet.mishaps,
        sheet.in_holder,
        sheet.second,
    )


def _place(
    one: ResolvedSheet,
    evening: Evening,
    vessels: tuple[Vessel, ...],
    library: Library,
    families: dict[tuple[str, int], FamilyBasis],
    cache: dict[object, Requirement | WetsideError],
    only_size: str | None,
    judged: dict[tuple[str, str], Judged],
) -> SheetInGroup:
    """A sheet's need in each vessel that takes it.

    Raises
    ------
    WetsideError
        If none does.
    """
    size_name = one.size.name if one.size else only_size or "any"
    area = one.size.area_cm2 if one.size else 0.0
    needs: dict[int, Requirement] = {}
    error: WetsideError | None = None
    for index, vessel in enumerate(vessels):
        if not places_of(vessel, size_name):
            continue
        key = _need_key(one, index)
        if key not in cache:
            try:
                cache[key] = requirement_of(
                    one, vessel, evening, library, families, judged.get((one.film.name, one.process.name))
                )
            except WetsideError as refused:
                cache[key] = refused
        found = cache[key]
        if isinstance(found, WetsideError):
            error = found
            continue
        if _agent_share(area, found) > _agent_capacity(vessel, one.process):
            error = RefusedError(
                "planning.agent_short",
                vessel=vessel.name,
                dilution=(one.process.dilution or STOCK).text,
                max_ml=vessel.max_ml,
            )
            continue
        needs[index] = found
    if needs:
        return SheetInGroup(one, size_name, area, needs)
    raise error or RefusedError("planning.no_place", size=size_name, vessels=[vessel.name for vessel in vessels])


def _with_references(sheets: list[SheetInGroup], vessels: tuple[Vessel, ...]) -> list[SheetInGroup]:
    """Sheets of which nobody knows the reference agent count like the most demanding that may share their bath.

    The loads are chosen with the same agent that the volumes are checked with afterwards. A sheet that could not be
    developed in any vessel by that supposition counts as what just passes alone: a guess refuses nobody.
    """
    known = [
        need.agent_ml_per_cm2 for one in sheets for need in one.needs.values() if need.agent_ml_per_cm2 is not None
    ]
    if not known or len(known) == sum(len(one.needs) for one in sheets):
        return sheets
    most, process = max(known), sheets[0].resolved.process
    return [
        one._replace(
            needs={
                index: need
                if need.agent_ml_per_cm2 is not None
                else need._replace(
                    agent_ml_per_cm2=min(most, _most_alone(one.area_cm2, need, vessels[index], process)),
                    agent_from_others=True,
                )
                for index, need in one.needs.items()
            }
        )
        for one in sheets
    ]


def _most_alone(area_cm2: float, need: Requirement, vessel: Vessel, process: Process) -> float:
    """Reference agent with which a sheet alone in a vessel has just half of it. [ml/cm2]"""
    weighted = area_cm2 * need.weight * REFUSED_BELOW
    return _agent_capacity(vessel, process) * AGENT_GRAIN / weighted if weighted else math.inf


def _agent_share(area_cm2: float, need: Requirement) -> int:
    """Least agent that a sheet must have, half of its reference, in whole grains."""
    agent = SheetAgent(area_cm2, need.weight, need.agent_ml_per_cm2)
    return round(agent.need_ml * REFUSED_BELOW / AGENT_GRAIN)


def _agent_capacity(vessel: Vessel, process: Process) -> int:
    """Agent in a vessel filled to its limit, as often as the process fills it, in whole grains."""
    filled_ml = vessel.max_ml * fillings_of(process)
    return math.floor(filled_ml * (process.dilution or STOCK).agent_fraction / AGENT_GRAIN + 0.5)


def _problem(sheets: list[SheetInGroup], evening: Evening, vessels: tuple[Vessel, ...]) -> LoadProblem:
    process = sheets[0].resolved.process
    used = sorted({size.size_name for size in sheets})
    scale = {
        index: math.lcm(*(places_of(vessel, size) for size in used if places_of(vessel, size)), 1)
        for index, vessel in enumerate(vessels)
    }
    needs = []
    for one in sheets:
        options = tuple(
            VesselOption(
                vessel=index,
                low_s=need.window.low_s,
                high_s=need.window.high_s,
                target_s=need.time_s,
                deviation=need.deviation,
                share=scale[index] // places_of(vessels[index], one.size_name),
                agent=_agent_share(one.area_cm2, need),
            )
            for index, need in one.needs.items()
        )
        weight = max(need.weight for need in one.needs.values())
        needs.append(
            SheetNeed(one.resolved.sheet.id, options, weight, one.resolved.sheet.twin, one.resolved.sheet.suspect)
        )
    limits = tuple(
        VesselLimit(
            vessel.name,
            scale[index],
            _agent_capacity(vessel, process),
            gives_own_times(process, vessel),
            vessel.spacing_s,
        )
        for index, vessel in enumerate(vessels)
    )
    return LoadProblem(tuple(needs), limits, GRID_S, evening.twins_apart, evening.suspects_alone)
