"""The shelf: what stands there, what is spent or near its end, what collects waste."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.shortcuts import render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from wetside.adapters.clock import today
from wetside.errors import WetsideError
from wetside.services.records.bottles import find_bottle, gone
from wetside.services.records.shelf import shelf_page
from wetside.web.views.asked import page_of
from wetside.web.views.shelf_forms import Undo, key_of

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@require_safe
def shelf(request: HttpRequest) -> HttpResponse:
    """All bottles."""
    undo = None
    key = key_of(request, "removed")
    if key is not None:
        try:
            bottle = find_bottle(key)
        except WetsideError:
            bottle = None
        if bottle is not None and bottle.removed_at is not None:
            undo = Undo(reverse("bottle-back", args=[key]), _("%(mark)s is removed.") % {"mark": bottle.mark})
    return render(request, "web/shelf/shelf.html", {"shelf": shelf_page(today(), page_of(request)), "undo": undo})


@require_safe
def gone_bottles(request: HttpRequest) -> HttpResponse:
    """Bottles that were emptied or removed."""
    return render(request, "web/shelf/gone.html", {"gone": gone(page_of(request))})
