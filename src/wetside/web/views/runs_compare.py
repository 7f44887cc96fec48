"""Looking over runs: two side by side, and facts that speak against each other settled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils.timezone import localtime
from django.utils.translation import gettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from wetside.adapters.machine_clock import moment_now
from wetside.services.records.runs import find_run
from wetside.services.records.runs_compared import comparable_runs, compare_runs
from wetside.services.records.runs_settled import count_again
from wetside.services.records.runs_settled import settle as settle_fact
from wetside.units import whole_number

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse


@never_cache
@require_safe
def compare(request: HttpRequest) -> HttpResponse:
    """Two runs beside each other, or two to be picked."""
    one, other = (request.GET.get(name, "").strip() for name in ("one", "other"))
    compared = compare_runs(one, other) if one and other else None
    # Said once, for each run stands in both lists.
    offered = [(str(run.pk), f"{run.name} · {localtime(run.made_at):%Y-%m-%d %H:%M}") for run in comparable_runs(one)]
    context = {"compared": compared, "one": one, "other": other, "runs": offered}
    return render(request, "web/runs/compare.html", context)


@require_POST
def settle(request: HttpRequest, key: UUID) -> HttpResponse:
    """Settle what was told differently."""
    number = request.POST.get("number", "")
    whole = whole_number(number, most=10**16 - 1) or 0
    run, device, counts = find_run(key), request.POST.get("device", ""), request.POST.get("counts", "")
    if counts == "again":
        count_again(run, device, whole, moment_now())
        messages.success(request, gettext("It counts again, as far as nothing speaks against it."))
    else:
        settle_fact(run, device, whole, moment_now(), counts=counts == "yes")
        messages.success(request, gettext("Settled. Both stay in the run's log."))
    return redirect("run_hanging" if request.POST.get("back") == "hanging" else "run", key=key)
