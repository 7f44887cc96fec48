"""Two runs side by side: why two negatives do not match."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.shortcuts import render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET

from wetside.services.records.runs_compared import comparable_runs, compare_runs

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@never_cache
@require_GET
def compare(request: HttpRequest) -> HttpResponse:
    """Two runs beside each other, or two to be picked."""
    one, other = (request.GET.get(name, "").strip() for name in ("one", "other"))
    compared = compare_runs(one, other) if one and other else None
    context = {"compared": compared, "one": one, "other": other, "runs": comparable_runs(one)}
    return render(request, "web/runs/compare.html", context)
