"""Plans: the list, a new one from picked sheets, and a draft with its choices, live."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.html import format_html
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from wetside.adapters.clock import today
from wetside.errors import WetsideError
from wetside.planning.documents.evening import Evening, Thermometer
from wetside.services.records import plans as service
from wetside.services.records.evenings import sheets_of
from wetside.services.records.plans_cancelled import cancelled_loads, planned_anew
from wetside.services.records.plans_compared import MOST_COMPARED, compare
from wetside.services.records.plans_frozen import files_of, load_states
from wetside.services.records.short_way import free_places, waiting_for
from wetside.web.forms.entry import entries, mistakes_of, raw_of_post
from wetside.web.views.asked import page_of
from wetside.web.views.films_posted import first_word, number_word
from wetside.web.views.plan_page import plan_shown, why_context

if TYPE_CHECKING:
    from collections.abc import Callable, Container, Sequence
    from uuid import UUID

    from django.http import HttpRequest

    from wetside.services.records.plans_frozen import LoadState

FIRST_KEYS = ("size", "floor", "starts", "date", "suspects_alone", "twins_apart")
PRINTED = (
    "evening.pdf",
    "safety.pdf",
    "house.pdf",
    "trouble.pdf",
    "windows.svg",
    "plan.json",
    "plan.html",
    "evening.toml",
)
"""Files of a frozen plan that the page names, beside those of its loads."""
MORE_KEYS = ("smallest_measure", "measure_marks", "hang_places", "film_dries", "setting_up", "loading", "flare")
LABELS = {
    "size": "Sheet size, where a sheet says none",
    "floor": "Shortest time",
    "starts": "Begin at",
    "date": "Day",
    "smallest_measure": "Smallest measure",
    "measure_marks": "Marks of the measure",
    "film_dries": "Film dries in",
    "setting_up": "Setting up",
    "loading": "Loading a sheet",
    "jacket_reads": "Jacket reads tonight",
}


def _units(request: HttpRequest) -> str:
    return str(getattr(getattr(request, "darkroom", None), "units", "metric"))


@require_GET
def plans(request: HttpRequest) -> HttpResponse:
    """The plans, the newest first."""
    page = page_of(request)
    listed, more = service.list_plans(page)
    films, waiting = service.waiting_sheets(1)
    del films
    removed = request.GET.get("removed", "")
    context: dict[str, Any] = {
        "listed": listed,
        "waiting": waiting,
        "drafts": sum(one.word == "draft" for one in listed),
        "frozen": sum(one.word == "frozen" for one in listed),
        "next": page + 1 if more else None,
        "previous": page - 1 if page > 1 else None,
    }
    if removed:
        context["undo"] = _undo(removed)
    return render(request, "web/plans/list.html", context)


def _undo(removed: str) -> dict[str, str] | None:
    try:
        plan = service.find_plan(removed, removed=True)
    except (WetsideError, ValueError):
        return None
    if plan.removed_at is None:
        return None
    said = gettext("%(plan)s was removed.") % {"plan": plan.name}
    return {"address": reverse("plan_back", args=[plan.pk]), "said": said}


@require_http_methods(["GET", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """Pick waiting sheets for a new plan; ``?sheets=`` names some that are picked already."""
    keys = _picked_keys(request)
    if request.method == "POST":
        mistake = ""
        try:
            made = service.new_plan(
                keys, name=request.POST.get("name", ""), vessels=request.POST.getlist("vessels") or None
            )
            return redirect("plan", key=made.pk)
        except WetsideError as error:
            mistake = " ".join(mistakes_of(error).values())
        return _pick(request, keys, status=422, mistake=mistake)
    return _pick(request, keys)


def _picked_keys(request: HttpRequest) -> list[str]:
    given = request.POST.getlist("sheets") if request.method == "POST" else request.GET.getlist("sheets")
    return [key for part in given for key in part.split(",") if key]


def _pick(
    request: HttpRequest, keys: list[str], *, plan: Any = None, status: int = 200, mistake: str = ""
) -> HttpResponse:
    films, waiting = service.waiting_sheets()
    day = today()
    chosen = set(keys)
    rows = [
        (film.film, [(sheet, service.age_days(sheet.exposed, day), str(sheet.pk) in chosen) for sheet in film.sheets])
        for film in films
    ]
    context = {
        "films": rows,
        "waiting": waiting,
        "shown": sum(len(sheets) for _, sheets in rows),
        "vessels": service.shelf().vessels,
        "mistake": mistake,
        "plan": plan,
        "name": request.POST.get("name", ""),
    }
    return render(request, "web/plans/new.html", context, status=status)


@require_http_methods(["GET", "POST"])
def sheets(request: HttpRequest, key: UUID) -> HttpResponse:
    """Pick other sheets for a draft."""
    plan = service.find_plan(key)
    if request.method == "POST":
        try:
            service.set_sheets(plan, _picked_keys(request))
        except WetsideError as error:
            said = " ".join(mistakes_of(error).values())
            return _pick(request, _picked_keys(request), plan=plan, status=422, mistake=said)
        return redirect("plan", key=plan.pk)
    return _pick(request, [str(sheet.pk) for sheet in sheets_of(plan)], plan=plan)


@require_GET
def plan(request: HttpRequest, key: UUID) -> HttpResponse:
    """A plan: its answer, and what it stands on."""
    return _plan_page(request, service.find_plan(key))


def _plan_page(
    request: HttpRequest, plan: Any, *, typed: dict[str, Any] | None = None, error: WetsideError | None = None
) -> HttpResponse:
    mistakes = mistakes_of(error) if error is not None else {}
    context: dict[str, Any] = {"plan": plan}
    if plan.frozen_at is None:
        context |= _choices(request, plan, typed, mistakes)
    try:
        reckoned = service.reckoned(plan)
    except WetsideError as refused:
        context["refused"] = [said for said in mistakes_of_named(refused) if said not in mistakes.values()]
        context["lacking"] = service.films_without_time(plan) if context["refused"] else ()
        status = 422 if error is not None else 200
        return render(request, "web/plans/plan.html", context, status=status)
    context["seen"] = reckoned.seen
    context["at_work"] = reckoned.plan is None
    if reckoned.plan is not None:
        context["shown"] = plan_shown(reckoned.plan, _address("plan_why", plan.pk))
        lacking = {one.id for one in reckoned.plan.unplanned if one.code != "planning.no_process"}
        if lacking and plan.frozen_at is None:
            context["lacking"] = service.films_without_time(plan, lacking)
        if plan.frozen_at is not None:
            states = load_states(plan, reckoned.plan)
            context["states"] = {state.number: state for state in states}
            cancelled = cancelled_loads(plan)
            context["cancelled"] = cancelled
            context["anew"] = planned_anew(plan)
            context["stands"] = _stands(states, cancelled)
            context["on_now"] = next((one for one in states if one.is_on), None)
            context["startable"] = next((one for one in states if one.startable and one.number not in cancelled), None)
            context["begun"] = any(state.run is None or state.run.state != "ready" for state in states)
            context["files"] = [one for one in files_of(plan) if one.name in PRINTED]
            context["rest"] = context["begun"] and any(
                state.run is not None and state.run.state == "ready" for state in states
            )
            if plan.short:
                context["free"] = free_places(plan, reckoned.plan)
                context["could"] = waiting_for(reckoned.plan) if context["free"] else ()
    known = {*FIRST_KEYS, *MORE_KEYS, "thermometer.jacket_reads"}
    context["told"] = [said for field, said in mistakes.items() if field not in known]
    return render(request, "web/plans/plan.html", context, status=422 if error is not None else 200)


def _stands(states: Sequence[LoadState], cancelled: Container[int]) -> str:
    """How far a frozen plan has come; empty before its first load is developed."""
    done = sum(state.developed for state in states)
    every = sum(state.developed or state.number not in cancelled for state in states)
    if not done:
        return ""
    if done < every:
        return ngettext(
            "%(done)s of %(every)s loads is developed", "%(done)s of %(every)s loads are developed", done
        ) % {
            "done": first_word(done),
            "every": number_word(every),
        }
    return ngettext("The load is developed", "All %(done)s loads are developed", done) % {"done": number_word(done)}


def mistakes_of_named(error: WetsideError) -> list[str]:
    """Sentences of an error, each with the record and field in front."""
    return [f"{field}: {said}" if field else said for field, said in mistakes_of(error).items()]


def _address(name: str, key: UUID) -> Callable[[str], str]:
    page = reverse(name, args=[key])
    return lambda label: f"{page}?{urlencode({'sheet': label})}"


def _choices(request: HttpRequest, plan: Any, typed: dict[str, Any] | None, mistakes: dict[str, str]) -> dict[str, Any]:
    """Fields of a draft: as they stand, or as they were typed."""
    shelf = service.shelf()
    kept = plan.choices
    keys = dict(kept.get("keys", {}))
    if plan.date is not None:
        keys["date"] = plan.date.isoformat()
    chosen = kept.get("tables", {}).get("vessels")
    state = {name: kept.get(name, "") for name in ("process", "aim", "thermometer")}
    compared = list(kept.get("compare", []))
    if typed is not None:
        keys, chosen, compared = typed["keys"], typed["vessels"] or None, typed["compare"]
        state = {name: typed[name] for name in state}
    units = _units(request)
    processes = {str(one.pk) for one in shelf.processes}
    parts = [table for table in kept.get("tables", {}) if table in service.FREE_TABLES]
    return {
        "shelf": shelf,
        "chosen_vessels": {str(one.pk) for one in shelf.vessels} if chosen is None else set(chosen),
        "state": state,
        "first_fields": entries(Evening, FIRST_KEYS, keys, mistakes, labels=LABELS, units=units),
        "more_fields": (
            *entries(
                Thermometer,
                ("jacket_reads",),
                keys.get("thermometer", {}),
                mistakes,
                path="thermometer",
                labels=LABELS,
                units=units,
            ),
            *entries(Evening, MORE_KEYS, keys, mistakes, labels=LABELS, units=units),
        ),
        "from_file": bool(parts),
        "compare": set(compared),
        "compare_typed": next((word for word in compared if word not in processes), ""),
        "most_compared": MOST_COMPARED,
        "sheet_count": len(sheets_of(plan)),
        "was_frozen": bool(plan.document),
    }


@require_POST
def choose(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take other choices; the page answers with the plan that they lead to."""
    plan = service.find_plan(key)
    post = request.POST
    keys = raw_of_post(Evening, (*FIRST_KEYS, *MORE_KEYS, "thermometer"), post, units=_units(request))
    typed: dict[str, Any] = {
        "keys": keys,
        "vessels": post.getlist("vessels"),
        "compare": [*post.getlist("compare"), post.get("compare_typed", "").strip()],
        **{name: post.get(name, "") for name in ("process", "aim", "thermometer")},
    }
    try:
        plan = service.choose(
            plan,
            name=post.get("name", "").strip()[:120],
            whole_shelf="whole_shelf" in post,
            **{**typed, "compare": [word for word in typed["compare"] if word][:MOST_COMPARED]},
        )
    except WetsideError as error:
        return _plan_page(request, service.find_plan(key), typed=typed, error=error)
    if getattr(request, "htmx", False):
        return _plan_page(request, plan)
    return redirect("plan", key=plan.pk)


@require_GET
def why(request: HttpRequest, key: UUID) -> HttpResponse:
    """Why a sheet gets its time: a fragment for the plan's page, or a page of its own."""
    plan = service.find_plan(key)
    context = why_context(service.reckoned(plan).plan, request.GET.get("sheet", ""))
    template = "web/plans/why.html" if getattr(request, "htmx", False) else "web/plans/why_page.html"
    return render(request, template, {**context, "plan": plan, "back": reverse("plan", args=[plan.pk])})


@require_GET
def compared(request: HttpRequest, key: UUID) -> HttpResponse:
    """The chosen sheets in up to three developers."""
    plan = service.find_plan(key)
    answers = compare(plan, plan.choices.get("compare", []))
    template = "web/plans/compared.html" if getattr(request, "htmx", False) else "web/plans/compared_page.html"
    context = {"answers": answers, "plan": plan, "at_work": any(answer.at_work for answer in answers)}
    return render(request, template, context)


@require_GET
def evening_file(request: HttpRequest, key: UUID) -> HttpResponse:
    """The evening as a file that the command line plans alike."""
    del request
    text = service.evening_text(service.find_plan(key))
    answer = HttpResponse(text, content_type="application/toml; charset=utf-8")
    answer["Content-Disposition"] = 'attachment; filename="evening.toml"'
    return answer


@require_POST
def remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Remove a draft; the list offers to bring it back."""
    del request
    removed = service.remove_plan(service.find_plan(key))
    return redirect(format_html("{}?removed={}", reverse("plans"), removed.pk))


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Undo a removal."""
    del request
    plan = service.bring_plan_back(service.find_plan(key, removed=True))
    return redirect("plan", key=plan.pk)
