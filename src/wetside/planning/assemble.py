"""From chosen loads to the documents that a person reads: sheets, loads, rungs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from wetside.development import floor_check
from wetside.planning.course.fixing import fix_time_of
from wetside.planning.documents.plan import Load, Note, PlannedSheet, Rung
from wetside.planning.documents.words import BathKind, FixClass, VesselKind
from wetside.planning.factors import temp_tonight_c
from wetside.planning.order import WAITING_DAYS, order_key, waiting_days
from wetside.planning.resolved import ANY_VESSEL, NORMAL_AIM, baths_of, bottle_of, tolerance_of
from wetside.planning.schedule import PourParts, SheetTime, gives_own_times, schedule_of_load
from wetside.planning.volumes import SheetAgent, pour_of_load
from wetside.planning.ways import fillings_of, least_volume_ml, way_of_load
from wetside.values.dilution import STOCK
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Evening, Process, Vessel
    from wetside.planning.groups import Group, SheetInGroup
    from wetside.planning.loads import PlannedLoad
    from wetside.planning.requirement import Requirement

RESOLVED_SHARE = 0.04
"""What a thermometer resolves, as a share of time; rungs nearer than this are alike. decided there."""

OVER_THE_EDGE = 1e-6
"""Deviation beyond 1 that is no rounding. [1]"""

NEAR_FLOOR = 1.25
"""Times up to this many floors get a word on how much of them pouring and draining are. Our choice. [1]"""

LONG_S = 1200.0
"""Rotation beyond this brings fog and tired developer; common practice. [s]"""


class Placed(NamedTuple):
    """A load with its sheets looked up; ``group`` is the index of its group."""

    group: int
    vessel: int
    time_s: float
    members: tuple[SheetInGroup, ...]


class Miss(NamedTuple):
    """How far a sheet is from its aim at a time."""

    id: str
    deviation: float
    density: float | None
    guess: float | None
    percent: float


def miss_of(one: SheetInGroup, vessel: int, time_s: float) -> Miss:
    """How far a sheet is from its aim if it is developed for a time [s]."""
    need = one.needs[vessel]
    return Miss(
        one.resolved.sheet.id,
        need.deviation(time_s),
        need.density(time_s) if need.density else None,
        need.guess(time_s) if need.guess else None,
        (time_s / need.time_s - 1.0) * 100.0,
    )


def own_time_s(need: Requirement, grid_s: int) -> float:
    """A sheet's own time on the grid, or to 1 s where its window holds no point of the grid. [s]"""
    on_grid = round(need.time_s / grid_s) * grid_s
    return float(on_grid) if need.window.holds(on_grid) else float(round(need.time_s))


def place_loads(groups: Sequence[Group], chosen: Sequence[Sequence[PlannedLoad]]) -> list[Placed]:
    """Look up the members of each chosen load."""
    placed: list[Placed] = []
    for index, (group, loads) in enumerate(zip(groups, chosen, strict=True)):
        by_id = {one.resolved.sheet.id: one for one in group.sheets}
        place = {label: number for number, label in enumerate(by_id)}
        placed.extend(
            Placed(
                index,
                load.vessel,
                load.time_s,
                tuple(by_id[member] for member in sorted(load.members, key=place.__getitem__)),
            )
            for load in loads
        )
    return placed


def misses_of(load: Placed, vessels: Sequence[Vessel], grid_s: int) -> list[Miss]:
    """How far each sheet of a load is from its aim."""
    own = gives_own_times(load.members[0].resolved.process, vessels[load.vessel])
    return [
        miss_of(one, load.vessel, own_time_s(one.needs[load.vessel], grid_s) if own else load.time_s)
        for one in load.members
    ]


def in_order(placed: Sequence[Placed], today: dt.date) -> list[Placed]:
    """Loads in the order of the evening; those of one group follow each other only as risk allows."""
    untested = any(one.needs[load.vessel].evidence is not Evidence.TESTED for load in placed for one in load.members)
    return sorted(placed, key=lambda load: order_key(load.members, load.time_s, today, untested=untested))


def load_document(
    number: int, load: Placed, group: Group, evening: Evening, vessels: Sequence[Vessel], today: dt.date, grid_s: int
) -> Load:
    """Document of one load: volume, checks, acts, and what to know."""
    vessel, process = vessels[load.vessel], group.process
    dilution = process.dilution or STOCK
    needs = [one.needs[load.vessel] for one in load.members]
    developer = load.members[0].resolved.developer
    aim = load.members[0].resolved.aim or NORMAL_AIM
    poured = pour_of_load(
        [
            SheetAgent(
                one.area_cm2,
                need.weight,
                None if need.agent_ml_per_cm2 is None else need.agent_ml_per_cm2 / fillings_of(process),
            )
            for one, need in zip(load.members, needs, strict=True)
        ],
        vessel if vessel is ANY_VESSEL else replace(vessel, min_ml=least_volume_ml(process, vessel)),
        dilution,
        aim.density_range,
        evening.smallest_ml,
        evening.marks_ml,
        developer.reuse_ml_per_unit if developer else None,
    )
    own = gives_own_times(process, vessel)
    own_times = tuple(own_time_s(need, grid_s) for need in needs) if own else None
    time_s = max(own_times) if own_times else load.time_s
    temp_c = temp_tonight_c(evening, process)
    misses = misses_of(load, vessels, grid_s)
    worst = max(misses, key=lambda miss: (miss.deviation, miss.id))
    window = (max(need.window.low_s for need in needs), min(need.window.high_s for need in needs))
    if own or window[0] > window[1]:
        window = (min(need.window.low_s for need in needs), max(need.window.high_s for need in needs))
    timed, fix_notes = _with_fix_times(process, load.members, evening)
    way = way_of_load(
        process,
        [one.resolved.film for one in load.members],
        sum(one.area_cm2 for one in load.members),
        time_s,
        poured.volume_ml,
        vessel,
        temp_c,
        dilution,
    )
    acts = schedule_of_load(
        timed,
        vessel,
        time_s,
        PourParts(poured.volume_ml, poured.concentrate_ml, poured.water_ml),
        temp_c,
        evening.thermometer.reads_high_c,
        tuple(SheetTime(one.resolved.sheet.id, time) for one, time in zip(load.members, own_times, strict=True))
        if own_times
        else None,
        way.moments,
    )
    lent = sum(need.agent_from_others for need in needs)
    notes = [
        *poured.notes,
        *([Note("planning.some_reference", {"count": lent})] if lent else []),
        *way.notes,
        *fix_notes,
        *_time_notes(time_s, vessel, evening),
        *_bottle_notes(group, evening, poured.volume_ml, today),
        *_member_notes(load.members, today),
    ]
    return Load(
        number=number,
        group=load.group + 1,
        process=process.name,
        process_version=process.version,
        developer=process.developer,
        dilution=dilution.text,
        vessel=vessel.name,
        vessel_kind=vessel.kind.value,
        temp_c=temp_c,
        shown_temp_c=temp_c + evening.thermometer.reads_high_c,
        thermometer=evening.thermometer.name,
        clock=process.clock.value,
        sheets=tuple(one.resolved.sheet.id for one in load.members),
        time_s=time_s,
        own_times_s=own_times,
        volume_ml=poured.volume_ml,
        concentrate_ml=poured.concentrate_ml,
        water_ml=poured.water_ml,
        parts_ml=poured.parts_ml,
        check=poured.check,
        worst_deviation=worst.deviation,
        worst_density=worst.density,
        worst_density_guess=worst.guess,
        worst_percent=worst.percent,
        worst_sheet=worst.id,
        window_s=window,
        schedule=acts,
        notes=tuple(notes),
    )


def _with_fix_times(
    process: Process, members: Sequence[SheetInGroup], evening: Evening
) -> tuple[Process, tuple[Note, ...]]:
    """The process with fixing times that tonight's clearing times ask for, the slowest film of the load deciding."""
    tabular = any(one.resolved.film.fixing is FixClass.TABULAR for one in members)
    baths, notes = [], []
    for bath in baths_of(process):
        time_s, note = fix_time_of(bath, evening, tabular=tabular)
        baths.append(bath if time_s == bath.time_s else replace(bath, time_s=time_s))
        if note is not None:
            notes.append(note)
    return replace(process, baths=tuple(baths)), tuple(notes)


def _time_notes(time_s: float, vessel: Vessel, evening: Evening) -> list[Note]:
    floor = floor_check(time_s, pour_s=vessel.pour_s, drain_s=vessel.drain_s, floor_s=evening.floor_s)
    notes = []
    if floor.below:
        notes.append(
            Note("planning.below_floor", {"time_s": time_s, "floor_s": evening.floor_s, "share": floor.handling_share})
        )
    elif time_s < NEAR_FLOOR * evening.floor_s:
        notes.append(
            Note("planning.near_floor", {"time_s": time_s, "floor_s": evening.floor_s, "share": floor.handling_share})
        )
    if time_s > LONG_S and vessel.kind is VesselKind.DRUM:
        notes.append(Note("planning.long_time", {"time_s": time_s}))
    return notes


def _bottle_notes(group: Group, evening: Evening, volume_ml: float, today: dt.date) -> list[Note]:
    """What the shelf says of each bath's bottle, for the liquid of this load."""
    notes: list[Note] = []
    for bath in baths_of(group.process):
        holds = group.process.developer if bath.does is BathKind.DEVELOP else bath.name or bath.does.value
        bottle = bottle_of(evening.bottles, bath.bottle, holds)
        if bottle is None:
            continue
        if bottle.keeps_until is not None and bottle.keeps_until < today:
            notes.append(
                Note(
                    "planning.bottle_old",
                    {"bottle": bottle.mark, "holds": bottle.holds, "until": bottle.keeps_until.isoformat()},
                )
            )
        elif bottle.mixed is not None and (today - bottle.mixed).days > 0 and bottle.keeps_until is None:
            notes.append(
                Note(
                    "planning.bottle_age",
                    {"bottle": bottle.mark, "holds": bottle.holds, "days": (today - bottle.mixed).days},
                )
            )
        if bath.does is not BathKind.DEVELOP and bottle.volume_ml is not None:
            wanted = bath.volume_ml if bath.volume_ml is not None else volume_ml
            if wanted > bottle.volume_ml:
                notes.append(
                    Note(
                        "planning.bottle_short",
                        {"bottle": bottle.mark, "holds": bottle.holds, "have_ml": bottle.volume_ml, "want_ml": wanted},
                    )
                )
    return notes


def _member_notes(members: Sequence[SheetInGroup], today: dt.date) -> list[Note]:
    notes = [
        Note("planning.suspect_alone", {"sheet": one.resolved.sheet.id})
        for one in members
        if one.resolved.sheet.suspect
    ]
    for one in members:
        days = waiting_days(one, today)
        if days is not None and days >= WAITING_DAYS:
            notes.append(Note("planning.waited_long", {"sheet": one.resolved.sheet.id, "days": days}))
        elif days is not None and days < 0:
            notes.append(Note("planning.exposed_later", {"sheet": one.resolved.sheet.id, "days": -days}))
    return notes


def sheet_document(one: SheetInGroup, load: Load, load_number: int, vessel_index: int, grid_s: int) -> PlannedSheet:
    """Document of one sheet in its load."""
    need, resolved = one.needs[vessel_index], one.resolved
    time_s = own_time_s(need, grid_s) if load.own_times_s is not None else load.time_s
    miss = miss_of(one, vessel_index, time_s)
    return PlannedSheet(
        id=resolved.sheet.id,
        film=resolved.film.name,
        size=one.size_name,
        area_cm2=one.area_cm2,
        process=resolved.process.name,
        vessel=load.vessel,
        aim=resolved.aim.name if resolved.aim else None,
        aim_range=(resolved.aim or NORMAL_AIM).density_range,
        aim_tolerance=tolerance_of(resolved.aim or NORMAL_AIM),
        group=load.group,
        n=need.n,
        importance=resolved.sheet.importance.value,
        suspect=resolved.sheet.suspect,
        twin=resolved.sheet.twin,
        required_gradient=need.gradient,
        time_s=need.time_s,
        window_s=(need.window.low_s, need.window.high_s),
        evidence=need.evidence,
        stop_error=need.audit.stop_error,
        stop_error_highlight=need.audit.stop_error_highlight,
        weight=need.weight,
        load=load_number,
        load_time_s=time_s,
        deviation=miss.deviation,
        density=miss.density,
        density_guess=miss.guess,
        percent=miss.percent,
        reckoning=need.steps,
        notes=need.notes,
    )


def rung_document(
    count: int,
    placed: Sequence[Placed],
    vessels: Sequence[Vessel],
    grid_s: int,
    *,
    proved: bool,
    next_deviation: float | None,
    without: str | None = None,
) -> Rung:
    """What a number of loads costs: its worst sheet, and the sheets whose window breaks.

    Parameters
    ----------
    count : int
        Loads. [1]
    placed : sequence of Placed
        Each sheet in its load.
    vessels : sequence of Vessel
        Of the evening.
    grid_s : int
        Distance of the times that a load may have. [s]
    proved : bool
        Whether fewer loads are impossible.
    next_deviation : float or None
        Deviation of the next worst sheet, where it is known. [1]
    without : str, optional
        The rule that the rung leaves out.
    """
    worst_of_all: tuple[float, str] = (-1.0, "")
    where = placed[0]
    broken: list[str] = []
    for load in placed:
        own = gives_own_times(load.members[0].resolved.process, vessels[load.vessel])
        for one in load.members:
            need, label = one.needs[load.vessel], one.resolved.sheet.id
            deviation = need.deviation(own_time_s(need, grid_s) if own else load.time_s)
            if deviation > 1.0 + OVER_THE_EDGE:
                broken.append(label)
            if (deviation, label) > worst_of_all:
                worst_of_all, where = (deviation, label), load
    worst = next(miss for miss in misses_of(where, vessels, grid_s) if miss.id == worst_of_all[1])
    return Rung(
        loads=count,
        worst_deviation=worst.deviation,
        worst_density=worst.density,
        worst_density_guess=worst.guess,
        worst_percent=worst.percent,
        worst_sheet=worst.id,
        next_deviation=next_deviation,
        broken=tuple(sorted(broken)),
        proved=proved,
        chosen=False,
        without=without,
    )


def mark_chosen(rungs: Sequence[Rung], chosen: int) -> tuple[Rung, ...]:
    """Mark the chosen rung, and those that differ from it by less than a thermometer resolves."""
    percent = next(abs(rung.worst_percent) for rung in rungs if rung.loads == chosen and rung.without is None)
    return tuple(
        rung._replace(
            chosen=rung.loads == chosen and rung.without is None,
            alike=rung.without is None
            and rung.loads != chosen
            and abs(abs(rung.worst_percent) - percent) < RESOLVED_SHARE * 100.0,
        )
        for rung in rungs
    )
