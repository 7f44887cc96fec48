"""The rest of a plan at work given back: loads that nobody has begun go, what is begun or developed stays."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction
from django.utils import timezone

from wetside.adapters.plan_reader import plan_of_plain
from wetside.errors import ConflictError, RefusedError
from wetside.records import models
from wetside.services.records.changes import bring_back, change, remove
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Plan as PlanDocument

COUNT = "cancelled_sheets"
"""Key of a plan's facts: how many sheets went with the loads that were cancelled."""
AT_WORK = (models.RunState.RUNNING, models.RunState.ENDED)


def cancel_rest(plan: models.Plan) -> models.Plan:
    """Give back what is not begun of a plan at work: its sheets wait again, its runs are gone until brought back.

    Parameters
    ----------
    plan : Plan
        A frozen one of which a load is running or developed.

    Raises
    ------
    RefusedError
        If it is a draft, nothing of it is begun (then the freezing is taken back), or nothing is left.
    """
    if plan.frozen_at is None:
        raise RefusedError("services.plans.is_draft", plan=plan.name)
    with transaction.atomic():
        runs = list(plan.runs.filter(removed_at=None, rehearsal=False).select_for_update())
        if not any(run.state in AT_WORK for run in runs):
            raise RefusedError("services.plans.nothing_begun", plan=plan.name)
        rest = [run for run in runs if run.state == models.RunState.READY]
        if not rest:
            raise RefusedError("services.plans.nothing_left", plan=plan.name)
        now = timezone.now()
        for run in rest:
            remove(run, now, why="cancelled")
        loads = sorted(run.load for run in rest)
        for place in plan.places.filter(load__in=loads).select_related("sheet"):
            if place.sheet.state == models.SheetState.PLANNED:
                change(place.sheet, {"state": models.SheetState.WAITING}, why=f"cancelled: {plan.name}")
        plan.places.filter(load__in=loads).update(load=None)
        count = sum(sheet.get("load") in loads for sheet in (plan.document or {}).get("sheets", ()))
        facts = {"cancelled": loads, COUNT: count}
        return change(plan, {"facts": {**plan.facts, **facts}}, why="rest cancelled")


def rest_back(plan: models.Plan) -> models.Plan:
    """Undo :func:`cancel_rest`: the loads are ready again and their sheets planned.

    Raises
    ------
    RefusedError
        If nothing of the plan was cancelled, or it was planned anew after a look.
    ConflictError
        If a sheet of it does not wait any more.
    """
    loads = cancelled_loads(plan)
    if not loads:
        raise RefusedError("services.plans.not_cancelled", plan=plan.name)
    anew = planned_anew(plan)
    if anew is not None:  # or each sheet would be developed twice
        raise RefusedError("services.plans.planned_anew", plan=anew.name)
    document = plan_of_plain(plan.document or {})
    with transaction.atomic():
        here = {_name_in(plan, document, place): place for place in plan.places.select_related("sheet")}
        for one in document.sheets:
            place = here.get(plain_name(one.id))
            if one.load not in loads or place is None:
                continue
            if place.sheet.state != models.SheetState.WAITING:
                raise ConflictError("services.plans.sheet_gone", sheet=one.id)
            change(place.sheet, {"state": models.SheetState.PLANNED}, why=f"brought back: {plan.name}")
            models.PlanSheet.objects.filter(pk=place.pk).update(load=one.load)
        for load in loads:
            run = plan.runs.filter(load=load, rehearsal=False).exclude(removed_at=None).order_by("-removed_at").first()
            if run is not None:
                bring_back(run, why="brought back")
        facts = {name: value for name, value in plan.facts.items() if name not in ("cancelled", COUNT)}
        return change(plan, {"facts": facts}, why="rest brought back")


def _name_in(plan: models.Plan, document: PlanDocument, place: models.PlanSheet) -> str:
    """Name of a sheet in its plan's document: its label, or in a short plan that of the place that it was put in."""
    in_short = plan.short and place.rank < len(document.sheets)
    return plain_name(document.sheets[place.rank].id) if in_short else place.sheet.label_key


def planned_anew(plan: models.Plan) -> models.Plan | None:
    """Plan in which what was not begun of this one was planned anew after a look; None where none is kept."""
    key = plan.facts.get("replanned_to")
    found: models.Plan | None = models.Plan.kept.filter(pk=key).first() if key is not None else None
    return found


def cancelled_loads(plan: models.Plan) -> tuple[int, ...]:
    """Loads of a frozen plan that were given back."""
    return tuple(plan.facts.get("cancelled", ())) if plan.frozen_at is not None else ()
