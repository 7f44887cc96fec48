"""A sheet's part in its runs: its place and clip, what the run did to it, and what went wrong that touched it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Exists, OuterRef, Q

from wetside.records import models
from wetside.runs.effects import sheet_effects
from wetside.runs.events import Where
from wetside.runs.schedule import schedule_at
from wetside.runs.state import Status
from wetside.runs.touched import touched_sheets
from wetside.services.records.runs_log import conduct_of, read_together
from wetside.services.records.runs_look import looks_of
from wetside.services.records.runs_tied import TIED
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from django.db.models import QuerySet

    from wetside.runs.schedule import Schedule
    from wetside.runs.script import Script
    from wetside.runs.state import IncidentAt, State

MOST_RUNS = 3
"""Runs of a sheet that its story tells, the newest; more are a load that was given up again and again. Our choice."""


class RunTold(NamedTuple):
    """One run of a sheet: the run, its status, and what is to be said of the sheet, line by line.

    ``wrong`` are the lines about what went wrong.
    """

    run: models.Run
    status: str
    lines: tuple[str, ...]
    wrong: tuple[str, ...]


def runs_holding(sheet: models.Sheet) -> QuerySet[models.Run]:
    """Runs that hold a sheet, by its place in a plan or tied to it; rehearsals hold none."""
    places = models.PlanSheet.objects.filter(sheet=sheet)
    planned = Q(plan__in=places.values("plan")) & Exists(places.filter(plan=OuterRef("plan"), load=OuterRef("load")))
    tied = Q(plan=None, **{f"facts__{TIED}__has_key": str(sheet.pk)})
    found: QuerySet[models.Run] = models.Run.kept.filter(planned | tied, rehearsal=False)
    return found


def runs_of_sheet(sheet: models.Sheet) -> tuple[RunTold, ...]:
    """Runs that a sheet was in, the newest first; rehearsals and runs that were never begun are none."""
    rows = (
        runs_holding(sheet)
        .exclude(state=models.RunState.READY)
        .select_related("plan")
        .defer("plan__evening")
        .order_by("-made_at")[:MOST_RUNS]
    )
    found = list(rows)
    if not found:
        return ()
    read_together(run for run in found if not run.facts.get("noted"))
    told = (_told(run, sheet) for run in found)
    return tuple(one for one in told if one is not None)


def _place_in(run: models.Run, sheet: models.Sheet, script: Script) -> int | None:
    """Place of a sheet in a run's script, from 1, under the name that it has or had."""
    names = {sheet.label_key}
    if run.plan_id is None:
        names = {plain_name(run.facts.get(TIED, {}).get(str(sheet.pk), ""))}
    if run.plan is not None and run.plan.short:
        place = run.plan.places.filter(sheet=sheet).first()
        sheets = (run.plan.document or {}).get("sheets", [])
        names = {plain_name(sheets[place.rank]["id"])} if place is not None and place.rank < len(sheets) else set()
    in_order = [plain_name(one.id) for one in script.sheets]
    if not names & set(in_order):
        names = set(sheet.history.order_by().values_list("label_key", flat=True).distinct())
    return next((place for place, name in enumerate(in_order, 1) if name in names), None)


def _told(run: models.Run, sheet: models.Sheet) -> RunTold | None:
    if run.facts.get("noted"):
        return RunTold(run, run.state, (sentence("services.sheets.run_noted", {}),), ())
    state = conduct_of(run).state()
    script = state.script
    place = None if script is None else _place_in(run, sheet, script)
    if script is None or place is None:
        return None
    name = script.sheets[place - 1].id
    lines = [sentence("services.sheets.run_place", {"place": place, "of": len(script.sheets), "vessel": script.vessel})]
    if name in state.lost:
        schedule = schedule_at(state, state.known_s)
        own = (one for one in touched_sheets(state, schedule) if name in one.incident.sheets)
        wrong = (*(incident_said(one.incident) for one in own), sentence("services.sheets.run_lost", {}))
        return RunTold(run, state.status.value, tuple(lines), wrong)
    schedule = schedule_at(state, state.known_s)
    lines += [*_clip(state, name), *_read(state)]
    lines += _effect(state, schedule, name)
    lines += [
        sentence("services.sheets.run_looked", {"said": one.said})
        for one in looks_of(run)
        if plain_name(one.sheet) == plain_name(name)
    ]
    touched = (one for one in touched_sheets(state, schedule) if name in one.sheets)
    return RunTold(run, state.status.value, tuple(lines), tuple(incident_said(one.incident) for one in touched))


def _clip(state: State, name: str) -> list[str]:
    if not state.identified:
        return []
    otherwise = [sentence("services.sheets.run_clip_otherwise", {})] if state.hung_otherwise else []
    if state.order is None:
        return [sentence("services.sheets.run_order_unknown", {}), *otherwise]
    hung = [sentence("services.sheets.run_clip", {"clip": state.order.index(name) + 1})] if name in state.order else []
    return [*hung, *otherwise]


def _read(state: State) -> list[str]:
    """What the developer was read at, beside what was planned."""
    script = state.script
    read = [one.temp_c for one in state.readings if one.where is not Where.JACKET]
    if script is None or not read:
        return []
    params = {"low_c": min(read), "high_c": max(read), "temp_c": script.temp_c}
    code = "run_read_once" if f"{min(read):.1f}" == f"{max(read):.1f}" else "run_read"
    return [sentence(f"services.sheets.{code}", params)]


def _effect(state: State, schedule: Schedule, name: str) -> list[str]:
    """What development came to; of a run that was given up before it ended nobody can say."""
    if state.status is not Status.ENDED:
        return []
    for one in sheet_effects(state, schedule):
        if one.sheet == name:
            params: dict[str, Any] = {
                "density": one.density,
                "percent": one.percent,
                "actual_s": one.actual_s,
                "planned_s": one.planned_s,
            }
            return [sentence(f"services.sheets.run_effect_{one.told}", params)]
    return []


def incident_said(incident: IncidentAt) -> str:
    """What went wrong, when on the run's clock, and in whose words."""
    when = "services.sheets.incident_after" if incident.after else "services.sheets.incident_at"
    params = {"when": sentence(when, {"at_s": incident.began_s}), "text": incident.text}
    first = sentence(f"services.sheets.incident_{incident.what.value}", params)
    return f"{first} {sentence('services.sheets.incident_words', params)}" if incident.text else first
