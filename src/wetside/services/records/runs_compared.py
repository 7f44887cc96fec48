"""Two runs of the archive side by side, with what the records know of plan, process, instrument, film and looks."""

from __future__ import annotations

from math import exp, fsum, log
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Prefetch

from wetside.development.ways import Way
from wetside.errors import RefusedError, UnknownNameError, WetsideError
from wetside.records import models
from wetside.runs.compared import Run, compare
from wetside.runs.fold import is_over
from wetside.runs.known import Known
from wetside.runs.used import has_developed
from wetside.services.records.evenings import identities
from wetside.services.records.frozen_documents import document_of, frozen_evening
from wetside.services.records.runs import gone_run, standing
from wetside.services.records.runs_log import read_together
from wetside.services.records.runs_tied import TIED, tied_sheets
from wetside.services.run_compared_said import comparison_said
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.planning.documents.plan import Load
    from wetside.planning.documents.plan import Plan as PlanDocument
    from wetside.runs.state import State
    from wetside.services.records.runs import Standing
    from wetside.services.run_compared_said import Said

MOST_OFFERED = 30
"""Runs that the page offers to pick from, the newest. Our choice. [runs]"""


class Compared(NamedTuple):
    """Two runs and what is said of them."""

    one: models.Run
    other: models.Run
    said: Said


def comparable_runs(beside: str = "") -> tuple[models.Run, ...]:
    """Runs to pick from: those that were begun, the newest first, those of the same plan as ``beside`` before them."""
    # Said by what they are not, so that a database goes by when they were made and stops after a few.
    rows = models.Run.kept.exclude(state__in=(models.RunState.READY, models.RunState.ABANDONED))
    found = list(rows.only("name", "made_at", "plan").order_by("-made_at", "load", "pk")[:MOST_OFFERED])
    keys = identities([beside]) if beside else []
    own = next((run.plan_id for run in found if run.pk in keys), None)
    return tuple(sorted(found, key=lambda run: own is None or run.plan_id != own))


def find_both(one: str, other: str) -> tuple[models.Run, models.Run]:
    """Both runs by their identities, with their plans.

    Raises
    ------
    UnknownNameError
        If one of them is none, or was removed.
    RefusedError
        If they are the same.
    """
    keys = [*identities([one]), *identities([other])]
    if len(set(keys)) == 1 and len(keys) == 2:
        raise RefusedError("services.runs.compare_same")
    found = {run.pk: run for run in models.Run.objects.filter(pk__in=keys).select_related("plan")}
    if len(keys) != 2 or len(found) != 2:
        raise UnknownNameError("services.records.not_found", what="run")
    for run in found.values():
        if run.removed_at is not None:
            raise gone_run(run)
    return found[keys[0]], found[keys[1]]


def compare_runs(one: str, other: str) -> Compared:
    """Compare two runs.

    Parameters
    ----------
    one, other : str
        Their identities.

    Raises
    ------
    UnknownNameError
        If one of them is not there.
    RefusedError
        If they are the same, or one was never started or has developed nothing yet.
    """
    runs = find_both(one, other)
    read_together(runs)
    stands = [standing(run) for run in runs]
    for run, stand in zip(runs, stands, strict=True):
        if stand.state.script is not None and not has_developed(stand.state, _until_s(stand)):
            raise RefusedError("services.runs.compare_early", run=run.name)
    documents = [_document(run.plan) for run in runs]
    checked = _checked(stand.state for stand in stands)
    sheets = _sheets(runs)
    sides = [
        Run(
            stand.state,
            _until_s(stand),
            _known(run, stand.state, document, checked, _own(run, sheets)),
        )
        for run, stand, document in zip(runs, stands, documents, strict=True)
    ]
    return Compared(*runs, comparison_said(compare(*sides), *_names(runs)))


def _until_s(stand: Standing) -> float:
    """How far a run is known: one that is over has not gone on since. [s]"""
    return stand.state.known_s if is_over(stand.state) else stand.now_s


def _document(plan: models.Plan | None) -> PlanDocument | None:
    """What was planned; None where nothing was, or where it cannot be read: then it is not known, and said so."""
    if plan is None or not plan.document:
        return None
    try:
        if plan.evening:
            frozen_evening(plan.evening)
        return document_of(plan)
    except WetsideError:
        return None


def _names(runs: Sequence[models.Run]) -> tuple[str, str]:
    if runs[0].plan_id is not None and runs[0].plan_id == runs[1].plan_id and runs[0].load != runs[1].load:
        first, second = (sentence("runs.compared.load", {"number": run.load}) for run in runs)
        return first, second
    first, second = (run.name for run in runs)
    if first != second:
        return first, second
    days = [f"{run.made_at:%Y-%m-%d %H:%M}" for run in runs]
    return (f"{first}, {days[0]}", f"{second}, {days[1]}") if days[0] != days[1] else (f"{first} (1)", f"{second} (2)")


def _known(
    run: models.Run,
    state: State,
    document: PlanDocument | None,
    checked: Mapping[str, float],
    sheets: Sequence[models.Sheet],
) -> Known:
    script = state.script
    instrument = "" if script is None else plain_name(script.thermometer)
    load = None if document is None else next((one for one in document.loads if one.number == run.load), None)
    lots = {sheet.lot.number for sheet in sheets if sheet.lot is not None}
    return Known(
        process=None if load is None else load.process,
        process_version=None if load is None else load.process_version,
        way=None if load is None or run.plan is None else way_of_load(run.plan, load),
        vessel_kept=load is not None and bool(load.vessel),
        checked_high_c=checked.get(instrument),
        lots=tuple(sorted(lots)) if sheets and all(sheet.lot_id for sheet in sheets) else None,
        reuse_factor=None if document is None or load is None else _reuse_factor(document, load),
        own_time_s=None if document is None or load is None else _own_time_s(document, load, state),
        measured_range=measured_range(run),
    )


def way_of_load(plan: models.Plan, load: Load) -> Way:
    """Way of developing of a load, as the plan's own evening has it."""
    processes = frozen_evening(plan.evening).processes if plan.evening else ()
    found = next((one for one in processes if plain_name(one.name) == plain_name(load.process)), None)
    return Way.ONE_BATH if found is None else found.way


def _reuse_factor(document: PlanDocument, load: Load) -> float:
    """Factor for used developer that stands in the reckoning of the load's sheets; 1 where none does. [1]"""
    steps = (step for sheet in document.sheets if sheet.load == load.number for step in sheet.reckoning)
    return next((step.factor for step in steps if step.code == "planning.reused" and step.factor), 1.0)


def _own_time_s(document: PlanDocument, load: Load, state: State) -> float | None:
    """Geometric mean of the times that the sheets want, lost ones left out. [s]"""
    lost = {plain_name(name) for name in state.lost}
    times = [s.time_s for s in document.sheets if s.load == load.number and plain_name(s.id) not in lost]
    return exp(fsum(map(log, times)) / len(times)) if times else None


def _checked(states: Iterable[State]) -> dict[str, float]:
    """What the newest check says that each thermometer of the runs shows too much, by its name.

    One that was never checked is not among them: an offset that was typed counts only with the day of its check.
    """
    names = {plain_name(state.script.thermometer) for state in states if state.script is not None}
    newest = models.InstrumentCheck.objects.order_by("-at", "-pk")
    found: dict[str, float] = {}
    rows = models.Instrument.kept.filter(kind=models.InstrumentKind.THERMOMETER, name_key__in=names)
    for instrument in rows.prefetch_related(Prefetch("checks", newest)):
        checks = list(instrument.checks.all())
        if checks:
            found[instrument.name_key] = checks[0].read - checks[0].reference
        elif instrument.checked is not None:
            found[instrument.name_key] = instrument.reads_high
    return found


def _sheets(runs: Sequence[models.Run]) -> dict[tuple[Any, int], list[models.Sheet]]:
    """Sheets of the records in the runs' loads, with their boxes."""
    places = models.PlanSheet.objects.filter(plan__in=[run.plan_id for run in runs if run.plan_id is not None])
    found: dict[tuple[Any, int], list[models.Sheet]] = {}
    for place in places.filter(load__in=[run.load for run in runs]).select_related("sheet__lot"):
        if place.load is not None:
            found.setdefault((place.plan_id, place.load), []).append(place.sheet)
    return found


def _own(run: models.Run, in_loads: Mapping[tuple[Any, int], Sequence[models.Sheet]]) -> Sequence[models.Sheet]:
    """Sheets of the records in a run: its load's, or those that were tied to it."""
    if run.plan_id is not None:
        return in_loads.get((run.plan_id, run.load), ())
    return list(tied_sheets(run).values()) if run.facts.get(TIED) else ()


def measured_range(run: models.Run) -> float | None:
    """Mean of the density ranges that a densitometer read of a run's sheets; None where none was read. [density]"""
    ranges = [look["range"] for look in run.facts.get("looks", ()) if look.get("range") is not None]
    return fsum(ranges) / len(ranges) if ranges else None
