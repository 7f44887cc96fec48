"""Instruments: what they read too high, checks against a reference, and the offset that a check proposes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wetside.adapters.clock import today
from wetside.errors import WetsideError
from wetside.services.records import instruments as service
from wetside.services.records.changes import bring_back, remove
from wetside.services.records.shelf import in_words
from wetside.web.forms.entry import raw_of_post
from wetside.web.views.asked import revision_of, units_of
from wetside.web.views.shelf_forms import Undo, fields, key_of, rest_of, to

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

NAMES = ("name", "kind", "reads_high", "note")
CHECK = ("against", "reference", "read", "note")
LABELS = {"reads_high": "Reads too high by", "read": "This one read", "reference": "The reference said"}


@require_safe
def listed(request: HttpRequest) -> HttpResponse:
    """All instruments."""
    rows = service.instruments(today())
    undo = None
    key = key_of(request, "removed")
    if key is not None and (gone := service.removed_instrument(key)) is not None:
        undo = Undo(reverse("instrument-back", args=[key]), _("%(name)s is removed.") % {"name": gone.name})
    old = sum(one.old for one in rows)
    context = {
        "rows": rows,
        "undo": undo,
        "count": in_words(len(rows), "instrument"),
        "old": old,
        "old_words": in_words(old).casefold(),
        "used": service.thermometer_of_plans(),
    }
    return render(request, "web/shelf/instruments.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """Form of a new instrument."""
    if request.method != "POST":
        return _form(request, {}, None)
    raw = raw_of_post(service.InstrumentEntry, NAMES, request.POST, units=units_of(request))
    try:
        one = service.make_instrument(raw, units_of(request))
    except WetsideError as error:
        return _form(request, raw, error)
    return to("instrument", one.pk)


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, key: UUID) -> HttpResponse:
    """Form of an instrument that is there."""
    one = service.instrument(key)
    if request.method != "POST":
        return _form(request, service.raw_of_instrument(one), None, one)
    raw = raw_of_post(service.InstrumentEntry, NAMES, request.POST, units=units_of(request))
    try:
        service.change_instrument(one, raw, revision_of(request), units_of(request))
    except WetsideError as error:
        return _form(request, raw, error, one)
    return to("instrument", key)


def _form(request: HttpRequest, raw: Mapping[str, Any], error: WetsideError | None, one: Any = None) -> HttpResponse:
    context = {
        "instrument": one,
        "fields": fields(service.InstrumentEntry, NAMES, raw, error, labels=LABELS, units=units_of(request)),
        "wrong": rest_of(error, NAMES),
    }
    return render(request, "web/shelf/instrument_form.html", context, status=422 if error else 200)


@require_safe
def show(request: HttpRequest, key: UUID) -> HttpResponse:
    """Page of an instrument."""
    return _page(request, key, {}, None)


def _page(request: HttpRequest, key: UUID, raw: Mapping[str, Any], error: WetsideError | None) -> HttpResponse:
    found = service.checked(service.instrument(key), today())
    context = {
        "found": found,
        "instrument": found.instrument,
        "decimals": service.DECIMALS[found.instrument.kind],
        "fields": fields(service.CheckEntry, CHECK, raw, error, form="check", labels=LABELS, units=units_of(request)),
        "wrong": rest_of(error, CHECK),
        "before": request.GET.get("before", ""),
        "open": bool(error) or not found.checks,
    }
    return render(request, "web/shelf/instrument.html", context, status=422 if error else 200)


@require_POST
def check(request: HttpRequest, key: UUID) -> HttpResponse:
    """Keep a comparison with a reference."""
    raw = raw_of_post(service.CheckEntry, CHECK, request.POST, units=units_of(request))
    try:
        service.check_instrument(service.instrument(key), raw, timezone.now(), units_of(request))
    except WetsideError as error:
        return _page(request, key, raw, error)
    return to("instrument", key)


@require_POST
def take(request: HttpRequest, key: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Use the offset that the newest check proposes."""
    one = service.instrument(key)
    before = one.reads_high
    service.take_proposed(one, today())
    return to("instrument", key, before=f"{before:g}")


@require_POST
def put_back_offset(request: HttpRequest, key: UUID) -> HttpResponse:
    """Use the offset again that held before."""
    service.put_back(service.instrument(key), request.POST.get("before", ""))
    return to("instrument", key)


@require_POST
def take_away(request: HttpRequest, key: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Remove an instrument."""
    remove(service.instrument(key), timezone.now())
    return to("instruments", removed=key)


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Bring a removed instrument back."""
    bring_back(service.instrument(key))
    return to("instrument", key)
