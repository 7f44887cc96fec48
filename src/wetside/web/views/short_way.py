"""The short way: four answers to a run sheet; nothing is written until it is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_POST

from wetside.cards.run_sheet import run_sheet_of_load
from wetside.errors import RefusedError, UnknownNameError, WetsideError
from wetside.services.records import short_way as service
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.plan_page import plan_shown, why_context

if TYPE_CHECKING:
    from django.http import HttpRequest, QueryDict

MOST_RUN_SHEETS = 4
"""Run sheets that stand open on the page; the others are a tap away. Our choice."""


def _answers(given: QueryDict) -> dict[str, str]:
    return {field: given.get(field, "").strip() for field in service.FIELDS if given.get(field, "").strip()}


@require_GET
def short(request: HttpRequest) -> HttpResponse:
    """Ask the four answers, and show what they lead to as soon as they are there."""
    return _page(request, _answers(request.GET))


def _page(request: HttpRequest, answers: dict[str, str]) -> HttpResponse:
    query = urlencode(answers)
    context: dict[str, Any] = {"answers": answers, "known": service.known_names(), "query": query, "mistakes": {}}
    status = 200
    if answers:
        try:
            found = service.plan_short(answers)
        except WetsideError as error:
            context["mistakes"] = mistakes_of(error)
            status = 422
        else:
            plan = found.reckoned.plan
            context["at_work"] = plan is None
            if plan is not None:
                page = reverse("short_why")
                us = getattr(request.darkroom, "units", "") == "us"  # type: ignore[attr-defined]
                context["shown"] = plan_shown(plan, lambda label: f"{page}?{query}&{urlencode({'sheet': label})}")
                context["run_sheets"] = [
                    run_sheet_of_load(plan, load, fahrenheit=us) for load in plan.loads[:MOST_RUN_SHEETS]
                ]
    # A field that was answered, or must be, stays in sight.
    context["asked"] = [
        name for name in ("time", "ei", "size", "temp") if answers.get(name) or name in context["mistakes"]
    ]
    return render(request, "web/plans/short.html", context, status=status)


@require_GET
def why(request: HttpRequest) -> HttpResponse:
    """Why the sheets get their time."""
    answers = _answers(request.GET)
    context = why_context(service.plan_short(answers).reckoned.plan, request.GET.get("sheet", ""))
    template = "web/plans/why.html" if getattr(request, "htmx", False) else "web/plans/why_page.html"
    return render(request, template, {**context, "back": f"{reverse('short')}?{urlencode(answers)}"})


@require_GET
def run_sheet_pdf(request: HttpRequest, load: int) -> HttpResponse:
    """A run sheet to print, before anything is kept.

    Raises
    ------
    RefusedError
        If the plan takes too long for a page.
    UnknownNameError
        If there is no such load.
    """
    from wetside.adapters.typesetting.paper import Typesetter

    plan = service.plan_short(_answers(request.GET), 60.0).reckoned.plan
    if plan is None:
        raise RefusedError("web.plan_takes_long")
    found = next((one for one in plan.loads if one.number == load), None)
    if found is None:
        raise UnknownNameError("web.no_load", load=load)
    paper = getattr(getattr(request, "darkroom", None), "paper", "a4")
    sheet = run_sheet_of_load(plan, found, fahrenheit=paper == "letter")
    answer = HttpResponse(Typesetter(sheet, paper).pdf(), content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="load-{load}.pdf"'
    return answer


@require_POST
def keep(request: HttpRequest) -> HttpResponse:
    """Keep what the answers led to."""
    answers = _answers(request.POST)
    paper = getattr(getattr(request, "darkroom", None), "paper", "a4")
    try:
        plan = service.keep_short(answers, paper=paper, name=request.POST.get("name", ""))
    except WetsideError:
        return _page(request, answers)
    messages.success(request, gettext("Kept. Sheets of yours can be attached below, now or afterwards."))
    return redirect("plan", key=plan.pk)
