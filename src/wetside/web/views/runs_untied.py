"""A run that came from a log: untied from what it was tied to by mistake, removed, and each of both undone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from wetside.cards.count import counted_first
from wetside.errors import WetsideError
from wetside.services.records import runs_removed, runs_untied
from wetside.services.records.changes import history_of
from wetside.services.records.runs import find_run, standing
from wetside.services.records.runs_after import run_with_plan
from wetside.wording import speak_error

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

    from wetside.services.records.runs_untied import Untying


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def untie(request: HttpRequest, key: UUID) -> HttpResponse:
    """Show what untying would do, or do it."""
    run = run_with_plan(key)
    if request.method != "POST":
        untying = runs_untied.untying_of(run)
        title = gettext("It cannot be untied yet") if untying.blocked is not None else _title(untying)
        context = {"title": title, "untying": untying, **_shown(run, untying.blocked)}
        return render(request, "web/runs/untie.html", context)
    try:
        untying = runs_untied.untie(run, _revision(request))
    except WetsideError as error:
        messages.error(request, speak_error(error))
        return redirect("run", key=key)
    if untying.load:
        said = gettext("%(load)s is ready again. This run is one of its own.") % {"load": untying.load}
    else:
        said = gettext("No sheet is tied to it any more. Take its log in again to tie others.")
    messages.success(request, said)
    return redirect("run", key=key)


def _title(untying: Untying) -> str:
    if untying.load:
        return gettext("%(load)s would be ready again") % {"load": untying.load}
    count = sum(one.state is not None for one in untying.sheets)
    if not count:
        return gettext("No sheet would change its state")
    return gettext("%(sheets)s would wait again") % {"sheets": counted_first("sheet", count)}


def _shown(run: Any, blocked: WetsideError | None) -> dict[str, Any]:
    """What both pages need: the run, and what stands in the way with the page that removes it."""
    code = "" if blocked is None else blocked.code.rpartition(".")[2]
    way, said = "", ""
    if code in ("untie_booked", "remove_booked"):
        way, said = reverse("run_after", args=[run.pk]), gettext("What it used")
    elif code in ("remove_load", "remove_tied"):
        way, said = reverse("run_untie", args=[run.pk]), gettext("Untie it")
    elif code == "untie_replanned":
        way, said = reverse("plan", args=[run.plan.facts["replanned_to"]]), gettext("The new plan")
    return {"run": run, "blocked": "" if blocked is None else speak_error(blocked), "way": way, "way_said": said}


def _revision(request: HttpRequest) -> int | None:
    """State of the run that the page showed; None where nothing of that sort was sent."""
    text = request.POST.get("revision", "")
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else None


@require_POST
def tie(request: HttpRequest, key: UUID) -> HttpResponse:
    """Undo the untying."""
    try:
        runs_untied.tie_again(find_run(key), _revision(request))
    except WetsideError as error:
        messages.error(request, speak_error(error))
    else:
        messages.success(request, gettext("It is tied again, as it was."))
    return redirect("run", key=key)


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Show what removing means and what keeps it, or do it."""
    if request.method == "POST":
        try:
            runs_removed.remove_taken(find_run(key), _revision(request))
        except WetsideError as error:
            messages.error(request, speak_error(error))
        return redirect("run", key=key)
    run = find_run(key)
    kept_by = runs_removed.why_not_removed(run)
    title = gettext("It goes from every list, and can be brought back")
    if kept_by is not None:
        title = gettext("It cannot be removed yet")
    return render(request, "web/runs/remove.html", {"title": title, **_shown(run, kept_by)})


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a removed run back; one that is back already is shown."""
    run = runs_removed.removed_run(key)
    if run is not None:
        runs_removed.bring_run_back(run)
        messages.success(request, gettext("%(run)s is back.") % {"run": run.name})
    return redirect("run", key=key)


def removed_page(request: HttpRequest, key: UUID) -> HttpResponse:
    """What stands at the address of a run that was removed."""
    run = runs_removed.removed_run(key)
    if run is None:  # brought back in this very moment
        return redirect("run", key=key)
    clock = standing(run).state.clock
    context = {
        "run": run,
        "title": gettext("%(run)s is removed") % {"run": run.name},
        "by": history_of(run, 1)[0].by,
        "opened_at": None if clock is None else clock.origin.at_utc,
    }
    return render(request, "web/runs/removed.html", context)
