"""A sheet's own page: its exposure step by step, readings, mishaps, its story, and what became of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_POST

from wetside.adapters.clock import day_of, today
from wetside.errors import WetsideError
from wetside.services.records import outbox, sheets
from wetside.services.records.sheets_items import WHOLE, checked_fields, raw_of_fields
from wetside.services.records.sheets_reckoned import reckoned
from wetside.services.records.sheets_runs import runs_of_sheet
from wetside.services.records.sheets_story import story_of
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.asked import revision_of, units_of
from wetside.web.views.sheets_fields import whole_form
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

    from wetside.services.records.sheets import SheetRecord


@ensure_csrf_cookie
def one(request: HttpRequest, key: UUID) -> HttpResponse:
    """Show a sheet, or keep its corrected form."""
    sheet = sheets.sheet_by_key(key, removed=True)
    if request.method == "POST":
        posted = {**{name: request.POST.getlist(name) for name in request.POST}, "id": [str(key)]}
        try:
            answer = outbox.do("sheet.change", outbox.fields_of(posted))
        except WetsideError as error:
            raw = raw_of_fields(request.POST, WHOLE)
            return _page(request, sheet, raw, mistakes_of(error), status=422)
        messages.success(request, answer["said"])
        return HttpResponseRedirect(reverse("sheet", args=[key]))
    raw = sheets.raw_of_sheet(sheet)
    if sheet.n is not None and sheet.n.is_integer():
        raw["n"] = f"N{sheet.n:+g}" if sheet.n else "N"
    return _page(request, sheet, raw, {})


def _page(
    request: HttpRequest, sheet: SheetRecord, raw: Mapping[str, Any], mistakes: Mapping[str, str], *, status: int = 200
) -> HttpResponse:
    typed = request.method == "POST"
    lot = request.POST.get("lot", "") if typed else (sheet.lot.number if sheet.lot else "")
    note = request.POST.get("note", "") if typed else sheet.note
    since = sheet.exposed or day_of(sheet.made_at)
    context = {
        "sheet": sheet,
        "form": whole_form(raw, mistakes, lot=lot, note=note, units=units_of(request)),
        "days": max(0, (today() - since).days),
        "mistakes": mistakes,
        "told": reckoned(sheets.checked_sheet(sheets.raw_of_sheet(sheet))),
        "story": story_of(sheet),
        "runs": runs_of_sheet(sheet),
        "undo": {
            "address": reverse("sheet-back", args=[sheet.pk]),
            "said": sentence("web.sheets.removed", {"what": str(sheet)}),
        }
        if sheet.removed_at
        else None,
    }
    return render(request, "web/sheets/one.html", context, status=status)


@require_POST
def reckon(request: HttpRequest, key: UUID) -> HttpResponse:
    """What the form as it stands now comes to; nothing is written."""
    sheet = sheets.sheet_by_key(key, removed=True)
    try:
        told, mistakes = reckoned(checked_fields(request.POST)), {}
    except WetsideError as error:
        told, mistakes = None, mistakes_of(error)
    return render(request, "web/sheets/reckoned.html", {"sheet": sheet, "told": told, "mistakes": mistakes})


@require_POST
def undo(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take the last correction back."""
    sheet = sheets.undo_last(sheets.sheet_by_key(key), revision=revision_of(request))
    messages.success(request, sentence("web.sheets.undone", {"what": str(sheet)}))
    return HttpResponseRedirect(reverse("sheet", args=[key]))


@require_POST
def remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a sheet away, with a way back."""
    del request
    sheets.remove_sheet(sheets.sheet_by_key(key), timezone.now())
    return HttpResponseRedirect(f"{reverse('sheets')}?removed={key}")


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a removed sheet back."""
    sheet = sheets.bring_sheet_back(sheets.sheet_by_key(key, removed=True))
    messages.success(request, sentence("web.sheets.back", {"what": str(sheet)}))
    return HttpResponseRedirect(reverse("sheet", args=[key]))


@require_POST
def end(request: HttpRequest, key: UUID) -> HttpResponse:
    """Note that a sheet is developed or lost, or where its negative is kept."""
    state, negative = request.POST.get("state", ""), request.POST.get("negative", "")
    if state == "kept":
        sheet = sheets.note_negative(sheets.sheet_by_key(key), negative)
        messages.success(request, sentence("web.sheets.negative_noted", {"what": str(sheet)}))
        return HttpResponseRedirect(reverse("sheet", args=[key]))
    at = timezone.now() if state == "developed" else None
    sheet = sheets.end_sheet(sheets.sheet_by_key(key), state, at=at, negative=negative)
    messages.success(request, sentence(f"web.sheets.ended_{sheet.state}", {"what": str(sheet)}))
    return HttpResponseRedirect(reverse("sheet", args=[key]))


@require_POST
def wait(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take back that a sheet is developed or lost."""
    sheet = sheets.wait_again(sheets.sheet_by_key(key))
    messages.success(request, sentence("web.sheets.waits", {"what": str(sheet)}))
    return HttpResponseRedirect(reverse("sheet", args=[key]))
