"""A frozen plan: freezing and taking it back, its files, its loads and what was noted of them, sheets attached."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_GET, require_POST

from wetside.cards.run_sheet import run_sheet_of_load
from wetside.errors import UnknownNameError, WetsideError
from wetside.services.records import plans as service
from wetside.services.records import plans_cancelled, short_way
from wetside.services.records import plans_frozen as frozen
from wetside.units import parse_duration_s
from wetside.wording import sentence

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest

    from wetside.planning.documents.plan import Load
    from wetside.services.records.plans_frozen import LoadState

SHOWN_IN_PLACE = ("application/pdf", "image/png", "image/svg+xml")
LEAST_TOLD_PERCENT = 1.0
"""Of developing time; less is told by no thermometer and no hand. Our choice. [%]"""


@require_POST
def freeze(request: HttpRequest, key: UUID) -> HttpResponse:
    """Freeze a draft into run sheets."""
    plan = service.find_plan(key)
    paper = getattr(getattr(request, "darkroom", None), "paper", "a4")
    frozen.freeze(plan, seen=request.POST.get("seen", ""), paper=paper)
    messages.success(request, gettext("Frozen. The run sheets are ready; later edits of the shelf do not change them."))
    return redirect("plan", key=key)


@require_POST
def unfreeze(request: HttpRequest, key: UUID) -> HttpResponse:
    """Make it a draft again."""
    frozen.unfreeze(service.find_plan(key))
    messages.success(request, gettext("A draft again; its sheets wait. What was frozen can be brought back below."))
    return redirect("plan", key=key)


@require_POST
def cancel(request: HttpRequest, key: UUID) -> HttpResponse:
    """Give back the loads of a plan at work that nobody has begun."""
    plan = plans_cancelled.cancel_rest(service.find_plan(key))
    loads = len(plans_cancelled.cancelled_loads(plan))
    said = ngettext("%(n)s load is cancelled", "%(n)s loads are cancelled", loads) % {"n": loads}
    messages.success(request, gettext("%(said)s; its sheets wait again. What is done stays.") % {"said": said})
    return redirect("plan", key=key)


@require_POST
def rest_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Undo that."""
    plans_cancelled.rest_back(service.find_plan(key))
    messages.success(request, gettext("Brought back: the loads are ready again, their sheets planned."))
    return redirect("plan", key=key)


@require_POST
def again(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring the frozen plan back as it was."""
    frozen.freeze_again(service.find_plan(key))
    messages.success(request, gettext("Frozen again, as it was."))
    return redirect("plan", key=key)


@require_GET
def kept_file(request: HttpRequest, key: UUID, name: str) -> HttpResponse:
    """One of the files that were frozen with the plan, as it was written then."""
    del request
    found, data = frozen.file_of(service.find_plan(key), name)
    answer = HttpResponse(data, content_type=found.kind)
    how = "inline" if found.kind in SHOWN_IN_PLACE else "attachment"
    answer["Content-Disposition"] = f'{how}; filename="{found.name}"'
    return answer


@require_GET
def load(request: HttpRequest, key: UUID, load: int) -> HttpResponse:
    """The run sheet of a load, and what was noted of it."""
    return _load_page(request, key, load)


def _load_page(request: HttpRequest, key: UUID, number: int, *, typed: str = "", mistake: str = "") -> HttpResponse:
    plan = service.find_plan(key)
    document = service.reckoned(plan).plan if plan.frozen_at is not None else None
    found = next((one for one in document.loads if one.number == number), None) if document is not None else None
    if document is None or found is None:
        raise UnknownNameError("web.no_load", load=number)
    states = {state.number: state for state in frozen.load_states(plan, document)}
    sheet = run_sheet_of_load(document, found, fahrenheit=getattr(request.darkroom, "units", "") == "us")  # type: ignore[attr-defined]
    state = states.get(number)
    begun = state is not None and (state.by_hand or (state.run is not None and state.run.state in {"running", "ended"}))
    cancelled = plans_cancelled.cancelled_loads(plan)
    names = {f"load-{number}.pdf", f"load-{number}.html", f"load-{number}.png"}
    context = {
        "plan": plan,
        "load": found,
        "loads": document.loads,
        "sheet": sheet,
        "state": state,
        "startable": not begun and number not in cancelled,
        "cancelled": cancelled,
        "noted_off": _noted_off(found, state),
        "files": [one for one in frozen.files_of(plan) if one.name in names],
        "typed": typed,
        "mistake": mistake,
    }
    return render(request, "web/plans/load.html", context, status=422 if mistake else 200)


def _noted_off(load: Load, state: LoadState | None) -> str:
    """How far a time that was noted by hand lies from the planned one; empty where it does not."""
    if state is None or not state.by_hand or state.run is None or load.own_times_s is not None:
        return ""
    developed_s = float(state.run.facts.get("developed_s") or load.time_s)
    low_s, high_s = load.window_s
    percent = (developed_s / load.time_s - 1.0) * 100.0
    if abs(percent) < LEAST_TOLD_PERCENT:
        return ""
    inside = low_s <= developed_s <= high_s
    params = {"percent": percent, "planned_s": load.time_s, "low_s": low_s, "high_s": high_s}
    return sentence("web.noted_inside" if inside else "web.noted_outside", params)


@require_POST
def developed(request: HttpRequest, key: UUID, load: int) -> HttpResponse:
    """Note by hand that a load is developed."""
    typed = request.POST.get("time", "").strip()
    try:
        time_s = parse_duration_s(typed, low_s=1.0, high_s=14400.0) if typed else None
    except WetsideError as error:
        return _load_page(request, key, load, typed=typed, mistake=sentence(error.code, error.params))
    frozen.note_developed(service.find_plan(key), load, time_s)
    messages.success(request, gettext("Load %(load)s is noted as developed.") % {"load": load})
    return redirect("plan_load", key=key, load=load)


@require_POST
def undeveloped(request: HttpRequest, key: UUID, load: int) -> HttpResponse:
    """Take that note back."""
    frozen.undo_developed(service.find_plan(key), load)
    messages.success(request, gettext("Taken back: load %(load)s is ready, its sheets are planned.") % {"load": load})
    return redirect("plan_load", key=key, load=load)


@require_POST
def attach(request: HttpRequest, key: UUID) -> HttpResponse:
    """Attach sheets of the records to a plan of the short way, or make them."""
    plan = service.find_plan(key)
    count = (
        short_way.attach_new(plan) if "new" in request.POST else short_way.attach(plan, request.POST.getlist("sheets"))
    )
    messages.success(request, ngettext("%(n)s sheet is attached.", "%(n)s sheets are attached.", count) % {"n": count})
    return redirect("plan", key=key)
