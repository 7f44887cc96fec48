"""The plan of an evening: every sheet's need, the fewest loads, what fewer or more would cost, and how to run them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.planning.alternate import in_turn
from wetside.planning.assemble import (
    Placed,
    in_order,
    load_document,
    mark_chosen,
    place_loads,
    rung_document,
    sheet_document,
)
from wetside.planning.cautions import combination_notes, evening_cautions
from wetside.planning.course import plan_with_course
from wetside.planning.documents.plan import PLAN_FORMAT, Note, Plan
from wetside.planning.documents.words import BathKind
from wetside.planning.groups import GRID_S, make_groups
from wetside.planning.loads import combine_ladders, solve_fewest, solve_ladder
from wetside.planning.naming import by_importance
from wetside.planning.resolved import baths_of, bottle_of, resolve_evening
from wetside.planning.season import with_season
from wetside.planning.warmth import with_warmth
from wetside.values.evidence import Evidence
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Evening, Vessel
    from wetside.planning.documents.plan import Load, PlannedSheet, Rung
    from wetside.planning.groups import Group
    from wetside.planning.library import Library
    from wetside.planning.loads import Ladder, LoadProblem
    from wetside.planning.resolved import ResolvedSheet


def plan_evening(evening: Evening, library: Library, *, today: dt.date, tool: str, inputs: dict[str, Any]) -> Plan:
    """Plan an evening.

    Parameters
    ----------
    evening : Evening
        Read and cross-checked, the readings of its tests filled in.
    library : Library
        Published figures.
    today : date
        Day that ages are counted to, where the evening names none.
    tool : str
        Name and version of the program, kept in the plan.
    inputs : dict
        The evening as it was read, kept in the plan so that it stands by itself.

    Returns
    -------
    plan : Plan
        Sheets that cannot be planned stand in ``unplanned`` with a reason; they never stop the others.
    """
    day = evening.date or today
    resolved = resolve_evening(evening)
    groups, cannot, notes = make_groups(evening, resolved, library)
    unplanned = (*resolved.unplanned, *cannot)
    all_notes = [*resolved.notes, *notes]
    vessels = resolved.vessels
    ladders = [solve_ladder(group.problem) for group in groups]
    ordered = in_order(place_loads(groups, [_loads_of(ladder, ladder.fewest) for ladder in ladders]), day)
    file_order = {sheet.id: rank for rank, sheet in enumerate(evening.sheets)}
    # Exchanging equal sheets changes which load is the risky one, so the order is settled once more afterwards.
    named = in_order(by_importance(ordered, file_order, day, twins_apart=evening.twins_apart), day)
    placed = in_turn(named, groups, vessels, evening, GRID_S)
    loads = tuple(
        _at_its_temperature(
            load_document(number, load, groups[load.group], evening, vessels, day, GRID_S),
            load.members[0].resolved,
            vessels[load.vessel],
            evening,
            library,
        )
        for number, load in enumerate(placed, start=1)
    )
    sheets = _sheet_documents(evening, placed, loads)
    all_notes.extend(_untested_notes(sheets))
    all_notes.extend(_agent_notes(groups, ladders, placed, loads))
    all_notes.extend(_developer_notes(evening, groups, placed, loads))
    ladder = _rungs(evening, groups, ladders, vessels) if groups else ()
    plan = Plan(
        format=PLAN_FORMAT,
        tool=tool,
        name=evening.name,
        date=day.isoformat(),
        lower_bound=sum(ladder.lower_bound for ladder in ladders),
        proved=all(ladder.fewest == ladder.lower_bound for ladder in ladders),
        loads=loads,
        ladder=ladder,
        sheets=sheets,
        unplanned=unplanned,
        notes=tuple(all_notes),
        cautions=(
            *evening_cautions(groups),
            *(combination_notes(groups, evening.bottles, library.combinations) if library.combinations else ()),
        ),
        sources=_sources(sheets),
        evening=inputs,
    )
    if not loads:
        return plan
    processes = {group.process.name: group.process for group in groups}
    return plan_with_course(plan, evening, tuple(processes.values()), vessels, day)


def _at_its_temperature(load: Load, first: ResolvedSheet, vessel: Vessel, evening: Evening, library: Library) -> Load:
    """Load with what its temperature asks for, and what the vessel's does to it."""
    return with_warmth(with_season(load, first, library), first, vessel, evening, library)


def _loads_of(ladder: Ladder, count: int) -> tuple[Any, ...]:
    rung = ladder.rung(count)
    assert rung is not None  # noqa: S101 (the ladder always holds its own fewest)
    return rung.loads


def _sheet_documents(evening: Evening, placed: Sequence[Placed], loads: Sequence[Load]) -> tuple[PlannedSheet, ...]:
    """Sheets in the order of the file."""
    documents = {
        one.resolved.sheet.id: sheet_document(one, document, document.number, load.vessel, GRID_S)
        for load, document in zip(placed, loads, strict=True)
        for one in load.members
    }
    return tuple(documents[sheet.id] for sheet in evening.sheets if sheet.id in documents)


def _untested_notes(sheets: Sequence[PlannedSheet]) -> list[Note]:
    """One line on what rests on common practice only, so that a test can be chosen where it helps most."""
    assumed = sorted({sheet.film for sheet in sheets if sheet.evidence is Evidence.ASSUMED})
    return [Note("planning.weakest", {"films": assumed})] if assumed else []


def _agent_notes(
    groups: Sequence[Group], ladders: Sequence[Ladder], placed: Sequence[Placed], loads: Sequence[Load]
) -> list[Note]:
    """Where the developing agent asks for more loads than windows and places do, say so."""
    short = {load.group for load, document in zip(placed, loads, strict=True) if document.check.binds == "vessel"}
    notes = []
    for index in sorted(short):
        problem = groups[index].problem
        free = problem._replace(vessels=tuple(vessel._replace(agent=None) for vessel in problem.vessels))
        fewer = len(solve_fewest(free).loads)
        if fewer < ladders[index].fewest:
            params = {"developer": groups[index].process.developer, "loads": ladders[index].fewest, "fewer": fewer}
            notes.append(Note("planning.agent_rules", params))
    return notes


def _developer_notes(
    evening: Evening, groups: Sequence[Group], placed: Sequence[Placed], loads: Sequence[Load]
) -> list[Note]:
    """Whether the bottles hold enough developer for all loads together."""
    wanted: dict[str, float] = {}
    for load, document in zip(placed, loads, strict=True):
        process = groups[load.group].process
        developing = [bath for bath in baths_of(process) if bath.does is BathKind.DEVELOP]
        bottle = bottle_of(evening.bottles, developing[0].bottle, process.developer)
        if bottle is not None:
            holds = plain_name(bottle.holds)
            wanted[holds] = wanted.get(holds, 0.0) + document.concentrate_ml * len(developing)
    notes = []
    for holds, want_ml in wanted.items():
        same = [bottle for bottle in evening.bottles if plain_name(bottle.holds) == holds]
        volumes = [bottle.volume_ml for bottle in same if bottle.volume_ml is not None]
        if len(volumes) == len(same) and sum(volumes) < want_ml:
            marks = [bottle.mark for bottle in same]
            params = {"bottle": ", ".join(marks), "holds": same[0].holds, "have_ml": sum(volumes), "want_ml": want_ml}
            notes.append(Note("planning.bottle_short", params))
    return notes


def _rungs(
    evening: Evening, groups: Sequence[Group], ladders: Sequence[Ladder], vessels: Sequence[Vessel]
) -> tuple[Rung, ...]:
    """All rungs over the groups together, and what dropping a rule would cost or save."""
    chosen = sum(ladder.fewest for ladder in ladders)
    rungs = _rungs_of(groups, ladders, vessels)
    sheets = evening.sheets
    extra: list[Rung] = []
    if evening.twins_apart and any(sheet.twin for sheet in sheets):
        freed = [group.problem._replace(twins_apart=False) for group in groups]
        extra.extend(_freed_rung(groups, freed, vessels, chosen, "twins"))
    if evening.suspects_alone and any(sheet.suspect for sheet in sheets):
        freed = [group.problem._replace(suspects_alone=False) for group in groups]
        extra.extend(_freed_rung(groups, freed, vessels, chosen, "suspects"))
    return mark_chosen([*rungs, *extra], chosen)


def _freed_rung(
    groups: Sequence[Group], freed: Sequence[LoadProblem], vessels: Sequence[Vessel], chosen: int, without: str
) -> list[Rung]:
    """What the plan would be without a rule; empty where it would need as many loads."""
    solutions = [solve_fewest(problem) for problem in freed]
    total = sum(len(solution.loads) for solution in solutions)
    if total >= chosen:
        return []
    known = [solution.next_worst for solution in solutions if solution.next_worst is not None]
    return [
        rung_document(
            total,
            place_loads(groups, [solution.loads for solution in solutions]),
            vessels,
            GRID_S,
            proved=all(solution.worst_proved for solution in solutions),
            next_deviation=max(known, default=None),
            without=without,
        )
    ]


def _rungs_of(groups: Sequence[Group], ladders: Sequence[Ladder], vessels: Sequence[Vessel]) -> list[Rung]:
    rungs = []
    for combined in combine_ladders(ladders):
        chosen = []
        nexts = []
        for ladder, count in zip(ladders, combined.split, strict=True):
            rung = ladder.rung(count)
            assert rung is not None  # noqa: S101 (a split is made of rungs)
            chosen.append(rung.loads)
            nexts.append(rung.next_worst)
        known = [value for value in nexts if value is not None]
        rungs.append(
            rung_document(
                combined.number,
                place_loads(groups, chosen),
                vessels,
                GRID_S,
                proved=combined.worst_proved,
                next_deviation=max(known, default=None),
            )
        )
    return rungs


def _sources(sheets: Sequence[PlannedSheet]) -> tuple[str, ...]:
    """Keys of every source that the plan rests on, each once, in a fixed order."""
    return tuple(sorted({step.source.key for sheet in sheets for step in sheet.reckoning if step.source is not None}))


def find_sheet(plan: Plan, label: str) -> PlannedSheet | None:
    """Sheet of a plan by its label, however it is spelt."""
    wanted = plain_name(label)
    return next((sheet for sheet in plan.sheets if plain_name(sheet.id) == wanted), None)
