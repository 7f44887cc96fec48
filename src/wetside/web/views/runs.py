"""Runs: the list, a new one, and the page of one that also works without a script."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wetside.adapters.machine_clock import moment_now
from wetside.errors import UnknownNameError, WetsideError
from wetside.services.records import runs as service
from wetside.services.records import runs_posted as posted
from wetside.services.records import short_way
from wetside.services.records.runs_learned import vessels_for_quick
from wetside.services.records.runs_listed import count_runs, list_runs
from wetside.services.records.runs_look import look_reason
from wetside.services.records.runs_next import next_load
from wetside.services.records.runs_settled import actual_of, left_out_said, questions_said
from wetside.services.records.runs_shown import run_shown
from wetside.services.records.runs_untied import is_taken, is_tied, was_tied_to
from wetside.services.run_terminal import say, spoken
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.asked import page_of
from wetside.web.views.runs_live import json_of, refusal
from wetside.web.views.runs_untied import removed_page
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest

    from wetside.runs.decide import Decision

NEW_FIELDS = ("film", "developer", "time", "temp", "vessel")
BESIDE = ("shown_c", "by_s", "run_s", "ago_s")
"""Fields of a run's plain forms that show a mistake beside them."""


@require_safe
def runs(request: HttpRequest) -> HttpResponse:
    """The runs: what is on, what is ready, what is over."""
    page = page_of(request)
    listed, more = list_runs(page)
    counts = count_runs()
    context = {
        "listed": listed,
        "counts": counts,
        "title": _title(counts),
        "next": page + 1 if more else None,
        "previous": page - 1 if page > 1 else None,
    }
    return render(request, "web/runs/list.html", context)


def _title(counts: Any) -> str:
    from wetside.cards.count import counted, counted_first

    parts = []
    if counts.running:
        parts.append(("run_on", counts.running))
    if counts.ready:
        parts.append(("load_ready", counts.ready))
    if counts.rehearsals:
        parts.append(("rehearsal_ready", counts.rehearsals))
    if not parts:
        return sentence("web.runs.all_over", {"count": counts.all}) if counts.all else sentence("web.runs.none", {})
    first = counted_first(*parts[0])
    return ", ".join([first, *(counted(*part) for part in parts[1:])])


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """A run without a plan: film, developer, minutes, start."""
    given = request.POST if request.method == "POST" else request.GET
    typed = {name: given.get(name, "").strip() for name in NEW_FIELDS}
    mistakes: dict[str, str] = {}
    if request.method == "POST":
        try:
            asked = posted.quick_of_posted(typed, units=_units(request))
            run = service.open_quick(*asked[:4], vessel=asked.vessel, rehearsal="rehearsal" in request.POST)
        except WetsideError as error:
            mistakes = mistakes_of(error)
        else:
            return redirect("run", key=run.pk)
    known = short_way.known_names()
    context = {"typed": typed, "mistakes": mistakes, "known": known, "rehearsal": "rehearsal" in given}
    context["vessels"] = vessels_for_quick()
    return render(request, "web/runs/new.html", context, status=422 if mistakes else 200)


@require_POST
def start_planned(request: HttpRequest, key: UUID, load: int) -> HttpResponse:
    """Open a load's run, or go to the one that is open."""
    run = service.open_planned(key, load, "rehearsal" in request.POST)
    return redirect("run", key=run.pk)


@require_POST
def start_short(request: HttpRequest) -> HttpResponse:
    """The short way's last step: keep the four answers and open the run of the first load."""
    answers = {field: text for field in short_way.FIELDS if (text := request.POST.get(field, "").strip())}
    paper = getattr(getattr(request, "darkroom", None), "paper", "a4")
    try:
        plan = short_way.keep_short(answers, paper=paper)
    except WetsideError:
        return redirect(f"{reverse('short')}?{urlencode(answers)}")
    run = service.open_planned(plan.pk, 1, "rehearsal" in request.POST)
    return redirect("run", key=run.pk)


@never_cache
@require_safe
def run(request: HttpRequest, key: UUID) -> HttpResponse:
    """The page of a run; of one that was removed, what it is and its way back."""
    try:
        return _run_page(request, key)
    except UnknownNameError as error:
        if error.code != service.GONE:
            raise
        return removed_page(request, key)


def _run_page(request: HttpRequest, key: UUID, *, typed: Mapping[str, Any] | None = None, **more: Any) -> HttpResponse:
    found = service.find_run(key)
    shown = run_shown(found)
    mistakes = more.get("mistakes") or {}
    beside = {name for name in BESIDE if name != "by_s" or shown.can_look} if shown.opened and not shown.over else set()
    context = {
        "run": found,
        "wrong": [said for field, said in mistakes.items() if field not in beside],
        "shown": shown,
        "is_taken": is_taken(found),
        "is_tied": is_tied(found),
        "was_tied_to": was_tied_to(found),
        "typed": typed or {},
        "chosen": (typed or {}).get("sheets", ()),
        "mistakes": mistakes,
        "command": more.get("command", ""),
        "forms": bool(mistakes) or "more" in request.GET,
        "questions": questions_said(found),
        "left_out": left_out_said(found) if shown.over else (),
        "actual": actual_of(found) if shown.over else (),
        "next_load": next_load(found),
        "look_first": look_reason(found) if shown.over else "",
    }
    return render(request, "web/runs/run.html", context, status=422 if mistakes else 200)


@never_cache
@require_POST
def commands(request: HttpRequest, key: UUID) -> HttpResponse:
    """Do what is asked: of a program that sends JSON, or of a plain form."""
    if request.content_type == "application/json":
        return _asked_by_program(request, key)
    given: dict[str, Any] = {
        name: str(value) for name, value in request.POST.items() if name not in ("csrfmiddlewaretoken", "device")
    }
    if "sheets" in given:
        given["sheets"] = request.POST.getlist("sheets")
    name = given.pop("command", "")
    try:
        asked = posted.command_of_posted(name, given, units=_units(request))
    except WetsideError as error:
        if name not in posted.COMMANDS:
            raise
        return _run_page(request, key, typed=given, mistakes=mistakes_of(error), command=name)
    decision = service.command(service.find_run(key), asked, moment_now())
    for line in spoken(decision):
        (messages.error if decision.refusal is not None else messages.info)(request, line)
    return redirect("run", key=key)


def _asked_by_program(request: HttpRequest, key: UUID) -> HttpResponse:
    try:
        body = json_of(request)
        device = posted.device_of(body.get("device"))
        given = {field: value for field, value in body.items() if field not in ("device", "command")}
        asked = posted.command_of_posted(body.get("command"), given, units=_units(request))
        run = service.find_run(key)
        decision = service.command(run, asked, moment_now(), device)
        seq = service.standing(run).seq
    except WetsideError as error:
        return refusal(error)
    return JsonResponse({"seq": seq, "said": _said(decision), "refused": _refused(decision)})


def _said(decision: Decision) -> list[str]:
    return [say(one.code, one.params) for one in decision.said]


def _refused(decision: Decision) -> str | None:
    return None if decision.refusal is None else say(decision.refusal.code, decision.refusal.params)


def _units(request: HttpRequest) -> str:
    return str(getattr(getattr(request, "darkroom", None), "units", "metric"))
