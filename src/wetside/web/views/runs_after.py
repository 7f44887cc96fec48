"""After a run: what it used is booked, its sheets hang and get their numbers, its vessel dries and teaches."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from wetside.adapters.machine_clock import moment_now
from wetside.cards.count import counted, counted_first
from wetside.errors import WetsideError
from wetside.runs.events import Identified
from wetside.runs.fold import is_over
from wetside.services.records import runs as service
from wetside.services.records.runs_after import After, after_run, plan_unread, run_with_plan, wrong_in
from wetside.services.records.runs_booked import (
    FILM_ROWS,
    Booked,
    book_run,
    booked_of,
    booking_of_posted,
    mark_dry,
    unbook_run,
)
from wetside.services.records.runs_followed import WATER
from wetside.services.records.runs_hung import Hanging, hang, hanging_of
from wetside.services.records.runs_learned import taught_by, timed_in_runs
from wetside.services.records.runs_learned_said import taught_said
from wetside.services.records.runs_next import next_load
from wetside.services.records.runs_settled import questions_said
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.asked import units_of
from wetside.web.views.runs_booking import (
    Form,
    anew_said,
    fields_named,
    film_entries,
    form_of,
    form_posted,
    rows_shown,
    water_entries,
    wrong_in_form,
)
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def after(request: HttpRequest, key: UUID) -> HttpResponse:
    """The page after a run; a POST books what stands in its form."""
    run = run_with_plan(key)
    if request.method != "POST":
        booked = booked_of(run)
        return _page(request, after_run(run, propose=booked is None), booked=booked)
    found = after_run(run)
    form = form_posted(request, found, None)
    try:
        booking = booking_of_posted([row.name for row in found.rows], request.POST, units=units_of(request))
        form = form_posted(request, found, booking)
        if form.anew and not found.blocked and booked_of(run) is None:  # nothing is booked that nobody has seen
            return _page(request, found, wrong_in_form(request, found, form), booked=None, form=form)
        now = timezone.now()
        booked = book_run(run, booking, now)
    except WetsideError as error:
        return _page(request, found, mistakes_of(error), booked=booked_of(run), form=form)
    if booked.at != now.isoformat():
        messages.info(request, sentence("services.run_after.booked_before", {}))
    return redirect("run_after", key=key)


def _page(
    request: HttpRequest,
    found: After,
    mistakes: Mapping[str, str] | None = None,
    *,
    booked: Booked | None,
    form: Form | None = None,
) -> HttpResponse:
    mistakes = mistakes or {}
    own = fields_named(found)
    form = form or form_of(found)
    context = {
        "run": found.run,
        "after": found,
        "title": _title(found, booked),
        "reason": sentence(found.blocked, {}) if found.blocked else "",
        "booked": booked,
        "booked_at": None if booked is None else dt.datetime.fromisoformat(booked.at),
        "rows": [] if booked or found.blocked else rows_shown(request, found, form, mistakes),
        "water": water_entries(request, form, mistakes),
        "water_kept": form.reckoned.get(WATER, ""),
        "film_rows": film_entries(request, form, mistakes) if found.film.asked else [],
        "film_more": any(form.texts.get(f"{row}.{name}") for row in FILM_ROWS[1:] for name in ("count", "size")),
        "film_not_known": bool(form.texts.get("film_not_known")),
        "film_mistake": mistakes.get("film_not_known", ""),
        "anew": anew_said(found, form),
        "wrong": [said for field, said in mistakes.items() if field not in own],
        "mistaken": bool(mistakes),
        "plan_unread": plan_unread(found.run),
        "went_wrong": wrong_in(found.state, found.schedule),
        "hanging": hanging_of(found.run, found.state, marks=False),
        **_taught(found),
        "dried_s": found.run.facts.get("dried_s"),
        "next_load": next_load(found.run) if is_over(found.state) else None,
    }
    return render(request, "web/runs/after.html", context, status=422 if mistakes else 200)


def _taught(found: After) -> dict[str, Any]:
    """What the runs of the vessel teach, this one among them."""
    vessel = found.drying.vessel if found.drying is not None else None
    if vessel is None or found.state.script is None:
        return {}
    timed = timed_in_runs({vessel.name, found.state.script.vessel})
    return {"vessel": vessel, "teaches": taught_said(taught_by(vessel, timed))}


def _title(found: After, booked: Any) -> str:
    if booked is not None:
        count = len({line.bottle_id for line in booked.lines})
        return sentence("services.run_after.title_booked", {"bottles": counted("bottle", count)})
    if found.blocked:
        return sentence("services.run_after.title_nothing", {})
    baths = sum(1 for row in found.rows if row.part == 1 and not row.tops)
    params = {"baths": counted("bath", baths), "water_ml": found.water_ml}
    return sentence("services.run_after.title_book" if found.water_ml else "services.run_after.title_dry", params)


@require_POST
def unbook(request: HttpRequest, key: UUID) -> HttpResponse:
    """Undo the booking of a run."""
    run = service.find_run(key)
    unbook_run(run, timezone.now())
    messages.success(request, sentence("services.run_after.unbooked", {"run": run.name}))
    return redirect("run_after", key=key)


@require_POST
def dry(request: HttpRequest, key: UUID) -> HttpResponse:
    """The vessel is dry now."""
    run = mark_dry(service.find_run(key))
    messages.success(request, sentence("services.run_after.dried", {"dried_s": float(run.facts["dried_s"])}))
    return redirect("run_after", key=key)


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def hanging(request: HttpRequest, key: UUID) -> HttpResponse:
    """Which sheet hangs where; a POST keeps it."""
    run = run_with_plan(key)
    found = hanging_of(run)
    if request.method != "POST":
        return _hanging_page(request, found)
    clips = range(1, len(found.sheets) + 1)
    unknown = "unknown" in request.POST
    order = None if unknown else [request.POST.get(f"clip.{clip}", "") for clip in clips]
    numbers = [request.POST.get(f"number.{clip}", "") for clip in clips]
    seen = request.POST.get("seen", "")
    try:
        # A form that does not say what it showed had shown no order.
        known = int(seen) if seen.isascii() and seen.isdecimal() and len(seen) < 9 else 0
        kept = hang(run, order, numbers, moment_now(), seen=known)
    except WetsideError as error:
        return _hanging_page(request, found, mistakes_of(error))
    if kept.otherwise and order != (None if kept.order is None else list(kept.order)):
        messages.error(request, sentence("services.run_after.order_otherwise", {}))
    else:
        code = "services.run_after.order_unknown" if kept.order is None else "services.run_after.order_kept"
        messages.success(request, sentence(code, {}))
    return redirect("run_hanging", key=key)


def _hanging_page(request: HttpRequest, found: Hanging, mistakes: Mapping[str, str] | None = None) -> HttpResponse:
    mistakes = mistakes or {}
    typed = request.method == "POST"
    clips = []
    for clip in range(1, len(found.sheets) + 1):
        told = found.order[clip - 1] if found.order and len(found.order) >= clip else ""
        number = found.numbers[clip - 1] if len(found.numbers) >= clip else ""
        clips.append(
            {
                "clip": clip,
                "chosen": request.POST.get(f"clip.{clip}", "") if typed else told,
                "number": request.POST.get(f"number.{clip}", "") if typed else number,
                "mistake": mistakes.get(f"clip.{clip}", ""),
                "number_mistake": mistakes.get(f"number.{clip}", ""),
            }
        )
    fields = {f"{name}.{one['clip']}" for one in clips for name in ("clip", "number")}
    context = {
        "run": found.run,
        "hanging": found,
        "title": _hanging_title(found),
        # A form that is shown again with its mistakes still knows only what its person saw.
        "seen": request.POST.get("seen", "") if typed else found.seen,
        "clips": clips,
        "questions": [one for one in questions_said(found.run) if one.kind == Identified.KIND]
        if found.otherwise
        else [],
        "alike": [one.name for one in found.sheets if one.alike],
        "wrong": [said for field, said in mistakes.items() if field not in fields],
    }
    return render(request, "web/runs/hanging.html", context, status=422 if mistakes else 200)


def _hanging_title(found: Hanging) -> str:
    if not found.asked:
        return sentence("services.run_after.title_nothing_hangs", {})
    count = {"sheets": counted_first("sheet", len(found.sheets))}
    if not found.identified:
        return sentence("services.run_after.title_hang", count)
    if found.otherwise:
        return sentence("services.run_after.title_otherwise", {})
    if found.order is None:
        return sentence("services.run_after.title_unknown", count)
    return sentence("services.run_after.title_hangs", count)
