"""Live runs: the list, the short way into one, starting a frozen load, and the page of a run without a script."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils.translation import gettext, ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_GET, require_POST

from wetside.adapters.machine_clock import moment_now
from wetside.cards.count import counted_first
from wetside.errors import WetsideError
from wetside.services.records import plans, short_way
from wetside.services.records import runs as service
from wetside.services.records.runs_scripts import SHORT_FIELDS
from wetside.services.records.runs_shown import shown_of
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.shelf_forms import page_of

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

    from wetside.services.records.runs import Lines


@require_GET
def runs(request: HttpRequest) -> HttpResponse:
    """Runs, those that are on first."""
    page = page_of(request)
    listed = service.list_runs(page)
    return render(request, "web/runs/list.html", {"listed": listed, "title": _title(listed), "page": page})


def _title(listed: Lines) -> str:
    ready = counted_first("load", listed.ready)
    are_ready = ngettext("%(loads)s is ready", "%(loads)s are ready", listed.ready) % {"loads": ready}
    if listed.running:
        on = ngettext("A run is on", "%(n)s runs are on", listed.running) % {"n": listed.running}
        return f"{on}; {are_ready.lower()}" if listed.ready else on
    return are_ready if listed.ready else gettext("No run is on, and no load is ready")


def new(request: HttpRequest) -> HttpResponse:
    """Start a run of film, developer and minutes."""
    answers = {field: request.POST.get(field, "").strip() for field in SHORT_FIELDS}
    if request.method != "POST":
        answers = {field: request.GET.get(field, "").strip() for field in SHORT_FIELDS}
        return render(request, "web/runs/new.html", {"answers": answers, "known": short_way.known_names()})
    try:
        run = service.open_short(answers, moment_now(), rehearsal=request.POST.get("rehearsal") == "yes")
    except WetsideError as error:
        context = {"answers": answers, "known": short_way.known_names(), "mistakes": mistakes_of(error)}
        return render(request, "web/runs/new.html", context, status=422)
    return redirect("run", key=run.pk)


@require_POST
def start_load(request: HttpRequest, key: UUID, load: int) -> HttpResponse:
    """Open the run of a frozen load."""
    run = service.open_planned(
        plans.find_plan(key), load, moment_now(), rehearsal=request.POST.get("rehearsal") == "yes"
    )
    if run.rehearsal:
        messages.info(request, gettext("A rehearsal with water: nothing of it is booked."))
    return redirect("run", key=run.pk)


@require_GET
@never_cache
@ensure_csrf_cookie
def run(request: HttpRequest, key: UUID) -> HttpResponse:
    """The live page; everything on it is worked out from the log and now."""
    found = service.find_run(key)
    state = service.state_of(found)
    found = service.settle(found, state)
    context: dict[str, Any] = {"run": found, "unit": _unit(request)}
    if state.script is not None:
        context["shown"] = shown_of(state, moment_now())
    return render(request, "web/runs/run.html", context)


def _unit(request: HttpRequest) -> str:
    return "F" if getattr(getattr(request, "darkroom", None), "units", "") == "us" else "C"
