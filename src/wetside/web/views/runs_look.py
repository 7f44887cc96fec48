"""A negative looked at after its load: what it showed, and what that changes for the loads that wait."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from wetside.errors import WetsideError
from wetside.services.records import runs_look as service
from wetside.services.records import runs_replanned as replanned
from wetside.services.records.plans import find_plan
from wetside.services.records.runs import standing
from wetside.services.records.runs_after import run_with_plan
from wetside.units import whole_number
from wetside.web.forms.entry import mistakes_of

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

FIELDS = ("sheet", "how", "shadow_density", "highlight_density", "shadow", "highlight")


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def look(request: HttpRequest, key: UUID) -> HttpResponse:
    """What a negative showed."""
    run = run_with_plan(key)
    if request.method != "POST":
        return _page(request, run)
    typed = {name: request.POST.get(name, "").strip() for name in FIELDS}
    try:
        service.add_look(run, typed)
    except WetsideError as error:
        mistakes = mistakes_of(error)
        if not set(mistakes) <= set(FIELDS):
            raise
        return _page(request, run, typed=typed, mistakes=mistakes)
    return redirect("run_look", key=key)


def _page(
    request: HttpRequest, run: Any, *, typed: Mapping[str, str] | None = None, mistakes: Mapping[str, str] | None = None
) -> HttpResponse:
    try:
        # First, for it reads the logs of all the plan's runs that somebody looked at, this one's among them.
        proposed: dict[str, Any] = {"proposal": replanned.proposal_of(run)}
    except WetsideError as error:
        proposed = {"cannot": list(mistakes_of(error).values())}
    context: dict[str, Any] = {
        **proposed,
        "run": run,
        "can_look": service.can_look(run),
        "sheets": standing(run).state.sheets,
        "looks": service.looks_of(run),
        "left": replanned.is_left(run),
        "typed": typed or {},
        "mistakes": mistakes or {},
    }
    return render(request, "web/runs/look.html", context, status=422 if mistakes else 200)


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a look back."""
    rank = request.POST.get("rank", "")
    number = whole_number(rank, most=9999)
    service.take_look_back(run_with_plan(key), -1 if number is None else number)
    messages.success(request, gettext("Taken back. The history of the run keeps it."))
    return redirect("run_look", key=key)


@require_POST
def take(request: HttpRequest, key: UUID) -> HttpResponse:
    """Plan the rest anew."""
    paper = getattr(getattr(request, "darkroom", None), "paper", "a4")
    plan = replanned.take_replan(run_with_plan(key), request.POST.get("seen", ""), paper=paper)
    messages.success(
        request, gettext("Planned anew, with run sheets of their own. The old ones are cancelled, not changed.")
    )
    return redirect("plan", key=plan.pk)


@require_POST
def leave(request: HttpRequest, key: UUID) -> HttpResponse:
    """Leave the loads as they are."""
    run = replanned.leave_replan(run_with_plan(key))
    messages.success(request, gettext("Left as it is. What you saw stays with the run."))
    return redirect("plan", key=run.plan_id) if run.plan_id else redirect("run", key=key)


@require_POST
def undo(request: HttpRequest, key: UUID) -> HttpResponse:
    """Undo a re-plan: the old loads are ready again."""
    old = replanned.undo_replan(find_plan(key))
    messages.success(request, gettext("Undone: the loads of the first plan are ready again."))
    return redirect("plan", key=old.pk)
