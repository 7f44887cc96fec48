"""What went wrong with sheets of a run: told of the chosen ones, on a page that stands open during and after it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from wetside.adapters.machine_clock import moment_now
from wetside.cards.count import counted_first
from wetside.errors import WetsideError
from wetside.runs.events import OF_SHEETS, Incident
from wetside.runs.fold import is_over
from wetside.services.records.runs_after import run_with_plan
from wetside.services.records.runs_mishap import LOST, Mishaps, mishaps_of, take_mishap_back, tell_mishap
from wetside.services.run_terminal import say
from wetside.units import whole_number
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.asked import units_of
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

BACK = {"hanging": "run_hanging", "after": "run_after", "run": "run"}
"""Pages that one may come from, and goes back to."""
ORDER = (LOST, *(one.value for one in OF_SHEETS), *(one.value for one in Incident if one not in OF_SHEETS))
FIELDS = ("what", "ago_s", "text")


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def mishap(request: HttpRequest, key: UUID) -> HttpResponse:
    """The page; a POST keeps what it says."""
    run = run_with_plan(key)
    if request.method != "POST":
        return _page(request, mishaps_of(run))
    given = {name: request.POST.get(name, "") for name in FIELDS}
    try:
        said = tell_mishap(run, given, request.POST.getlist("sheets"), moment_now(), units=units_of(request))
    except WetsideError as error:
        return _page(request, mishaps_of(run), mistakes_of(error))
    for one in said:
        messages.success(request, say(one.code, one.params))
    return redirect(BACK.get(request.POST.get("back", ""), "run_mishap"), key=key)


def _page(request: HttpRequest, found: Mishaps, mistakes: Mapping[str, str] | None = None) -> HttpResponse:
    mistakes = mistakes or {}
    typed = request.POST if request.method == "POST" else request.GET
    chosen = set(typed.getlist("sheets"))
    context = {
        "run": found.run,
        "found": found,
        "title": _title(found),
        "kinds": [(one, sentence(f"web.mishap.{one}", {})) for one in ORDER],
        "over": is_over(found.state),
        "what": typed.get("what", LOST if found.sheets else Incident.OTHER.value),
        "ago": typed.get("ago_s", ""),
        "words": typed.get("text", ""),
        "sheets": [(name, name in chosen, name in found.lost) for name in found.sheets],
        "back": typed.get("back", ""),
        "mistakes": mistakes,
        "wrong": [said for field, said in mistakes.items() if field not in (*FIELDS, "sheets")],
    }
    return render(request, "web/runs/mishap.html", context, status=422 if mistakes else 200)


def _title(found: Mishaps) -> str:
    if not found.asked:
        return sentence("web.mishap.title_not_begun", {})
    if not found.told:
        return sentence("web.mishap.title_none", {})
    return sentence("web.mishap.title", {"things": counted_first("mishap", len(found.told))})


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take one of them back."""
    number = request.POST.get("number", "")
    number_of = whole_number(number) or 0
    take_mishap_back(run_with_plan(key), request.POST.get("device", ""), number_of, moment_now())
    messages.success(request, sentence("web.mishap.taken_back", {}))
    return redirect("run_mishap", key=key)
