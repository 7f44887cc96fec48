"""What waits, and what no longer does."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from uuid import UUID

from django.http import HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse

from wetside.adapters.clock import today
from wetside.cards.count import counted_first
from wetside.errors import WetsideError
from wetside.services.records.sheets import sheet_by_key
from wetside.services.records.sheets_waiting import SHOWN, no_longer_waiting, waiting
from wetside.web.views.asked import page_of
from wetside.wording import sentence

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

MOST_PICKED = 500
"""Sheets that one plan is begun with; our choice."""


def undo_of(request: HttpRequest, name: str, address: str) -> dict[str, str] | None:
    """Way back of what was just removed, named by ``?removed=``; nothing where it is back already."""
    try:
        key = UUID(str(request.GET.get(name, "")))
        sheet = sheet_by_key(key, removed=True)
    except (ValueError, WetsideError):
        return None
    if sheet.removed_at is None:
        return None
    return {"address": reverse(address, args=[key]), "said": sentence("web.sheets.removed", {"what": str(sheet)})}


def waiting_sheets(request: HttpRequest) -> HttpResponse:
    """List of what waits; other lists by ``?show=``."""
    show = str(request.GET.get("show", ""))
    context: dict[str, Any] = {"show": show, "undo": undo_of(request, "removed", "sheet-back")}
    if show in SHOWN:
        found = no_longer_waiting(show, today(), page_of(request))
        code = {"developed": "web.sheets.developed", "lost": "web.sheets.lost"}.get(show, "web.sheets.removed_list")
        title = sentence(code, {"sheets": counted_first("sheet", found.total)})
        return render(request, "web/sheets/others.html", {**context, "found": found, "title": title})
    found_waiting = waiting(today(), page_of(request))
    return render(request, "web/sheets/waiting.html", {**context, "found": found_waiting, **_title(found_waiting)})


def _title(found: Any) -> dict[str, Any]:
    return {"counted": counted_first("sheet", found.total), "today": today()}


def pick(request: HttpRequest) -> HttpResponse:
    """Go on to a plan with the sheets that were ticked."""
    keys = []
    for text in request.GET.getlist("sheet")[:MOST_PICKED]:
        try:
            keys.append(str(UUID(text)))
        except ValueError:
            continue
    if not keys:
        return HttpResponseRedirect(f"{reverse('sheets')}?none=1")
    return HttpResponseRedirect(f"/plans/new/?sheets={','.join(dict.fromkeys(keys))}")
