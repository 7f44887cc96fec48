"""Fast entry: a row a sheet, the next one begun with what carries over."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.csrf import ensure_csrf_cookie

from wetside.errors import WetsideError
from wetside.services.records import outbox
from wetside.services.records.darkroom import darkroom_settings
from wetside.services.records.sheets_items import ROW, carried, raw_of_fields
from wetside.services.records.sheets_waiting import known_words, last_kept
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.sheets_fields import shown_fields

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.http import HttpRequest, HttpResponse

FIRST = ("holder", "label", "film", "size", "exposed", "n")
MORE = ("aim", "process", "importance", "suspect")


@ensure_csrf_cookie
def new(request: HttpRequest) -> HttpResponse:
    """Show the row, or keep what it holds and show the next."""
    if request.method == "POST":
        try:
            outbox.do("sheet.add", outbox.fields_of({name: request.POST.getlist(name) for name in request.POST}))
        except WetsideError as error:
            return _row(request, raw_of_fields(request.POST, ROW), mistakes_of(error), status=422)
        return HttpResponseRedirect(f"{reverse('sheets-new')}?kept=1")
    last = last_kept(1)
    return _row(request, carried(last[0]) if last else {}, {})


def _row(
    request: HttpRequest, raw: Mapping[str, Any], mistakes: Mapping[str, str], *, status: int = 200
) -> HttpResponse:
    words, units = known_words(), darkroom_settings().units
    more = shown_fields(MORE, raw, mistakes, words=words, units=units)
    context = {
        "next": raw.get("holder") or raw.get("label") or "",
        "row": shown_fields(FIRST, raw, mistakes, words=words, units=units),
        "more": more,
        "more_open": any(field.entry.mistake for field in more),
        "words": words,
        "mistakes": mistakes,
        "made": request.POST.get("make_film") == "on",
        "note": request.POST.get("note", ""),
        "last": last_kept(),
    }
    return render(request, "web/sheets/new.html", context, status=status)
