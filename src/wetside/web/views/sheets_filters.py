"""What a filter or a lamp takes: the page behind a sheet's filter factor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.shortcuts import render
from django.views.decorators.http import require_safe

from wetside.exposure.filters import Light, Sensitivity
from wetside.services.records.sheets_filters import filters_known
from wetside.services.records.sheets_waiting import known_words
from wetside.web.forms.entry import words_of

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

LONGEST_NAME = 120


@require_safe
def filters(request: HttpRequest) -> HttpResponse:
    """Factors for a film's sensitivity and the light of the scene."""
    asked = {name: request.GET.get(name, "")[:LONGEST_NAME] for name in ("film", "sees", "light", "metered_for")}
    found = filters_known(asked["film"], sees=asked["sees"], light=asked["light"], metered_for=asked["metered_for"])
    context = {
        "film": asked["film"],
        "found": found,
        "lights": [(one.value, words_of(one.value)) for one in Light],
        "sensitivities": [(one.value, words_of(one.value)) for one in Sensitivity],
        "words": known_words(),
    }
    return render(request, "web/sheets/filters.html", context)
