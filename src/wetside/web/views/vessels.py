"""Vessels: the list, a vessel's form, and times that runs have taught, offered and never adopted silently."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from uuid import UUID

from django.contrib import messages
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wetside.errors import WetsideError
from wetside.planning.documents import evening as documents
from wetside.services.records import runs_learned as learned
from wetside.services.records import vessels as service
from wetside.services.records.changes import bring_back, history_of, remove
from wetside.services.records.runs_learned_said import taught_said
from wetside.services.records.shelf import in_words
from wetside.web.forms.entry import places_text, raw_of_post
from wetside.web.views.asked import revision_of, units_of
from wetside.web.views.shelf_forms import Undo, fields, key_of, rest_of, to
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.http import HttpRequest, HttpResponse

LABELS = {
    "min": "Least liquid",
    "max": "Most liquid",
    "pour": "Pouring",
    "drain": "Draining",
    "dries": "Drying",
    "spacing": "Spacing of sheets",
}


@require_safe
def listed(request: HttpRequest) -> HttpResponse:
    """All vessels."""
    rows = [(one, service.places_of(one)) for one in service.vessels()]
    undo = None
    key = key_of(request, "removed")
    if key is not None and (gone := service.removed_vessel(key)) is not None:
        undo = Undo(reverse("vessel-back", args=[key]), _("%(name)s is removed.") % {"name": gone.name})
    count = in_words(len(rows), "vessel")
    return render(request, "web/shelf/vessels.html", {"rows": rows, "undo": undo, "count": count})


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """Form of a new vessel."""
    if request.method != "POST":
        return _form(request, {}, None)
    raw = raw_of_post(documents.Vessel, service.KEYS, request.POST, units=units_of(request))
    try:
        vessel = service.make_vessel(raw)
    except WetsideError as error:
        return _form(request, raw, error)
    return to("vessel", vessel.pk)


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, key: UUID) -> HttpResponse:
    """Form of a vessel that is there."""
    vessel = service.find_vessel(key)
    if request.method != "POST":
        return _form(request, service.raw_of_vessel(vessel), None, vessel)
    raw = raw_of_post(documents.Vessel, service.KEYS, request.POST, units=units_of(request))
    try:
        service.change_vessel(vessel, raw, revision_of(request))
    except WetsideError as error:
        return _form(request, raw, error, vessel)
    return to("vessel", key, kept="1")


def _form(request: HttpRequest, raw: Mapping[str, Any], error: WetsideError | None, vessel: Any = None) -> HttpResponse:
    told = {name: places_text(value) if name == "places" else value for name, value in raw.items()}
    context = {
        "vessel": vessel,
        "fields": [
            one._replace(example="9x12cm 6, 13x18cm 4") if one.name == "places" else one
            for one in fields(documents.Vessel, service.KEYS, told, error, labels=LABELS, units=units_of(request))
        ],
        "teaches": taught_said(learned.taught_by(vessel, _timed(vessel))) if vessel else (),
        "jacket_off": shown(vessel.jacket_off_c, "step_c") if vessel and vessel.jacket_off_c is not None else "",
        "wrong": rest_of(error, service.KEYS),
        "kept": request.GET.get("kept") == "1" and not error,
        "history": history_of(vessel, 20) if vessel else (),
        "places": service.places_of(vessel) if vessel else (),
    }
    return render(request, "web/shelf/vessel.html", context, status=422 if error else 200)


def _timed(vessel: Any) -> learned.Timed:
    return learned.timed_in_runs(learned.names_of(vessel))


@require_POST
def take(request: HttpRequest, key: UUID, column: str) -> HttpResponse:
    """Adopt what runs have taught, or keep what stands and be asked no more."""
    vessel = service.find_vessel(key)
    timed = _timed(vessel)
    taught = next((one for one in learned.taught_by(vessel, timed) if one.column == column), None)
    if taught is None:
        return to("vessel", key)
    (said,) = taught_said([taught])
    params = {"vessel": vessel.name, "what": said.name, "value": said.offered}
    if "keep" in request.POST:
        learned.keep_own(taught, timed)
        messages.success(request, sentence("services.run_after.own_kept", params))
    else:
        learned.adopt(vessel, taught, revision_of(request), seen=request.POST.get("seen"))
        messages.success(request, sentence("services.run_after.taken", params))
    try:
        return to("run_after", UUID(request.POST.get("run", "")))
    except ValueError:
        return to("vessel", key)


@require_POST
def forget(request: HttpRequest, key: UUID) -> HttpResponse:
    """Forget what was taken of a vessel's jacket."""
    learned.forget_jacket(service.find_vessel(key), revision_of(request))
    return to("vessel", key, kept="1")


@require_POST
def take_away(request: HttpRequest, key: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Remove a vessel."""
    remove(service.find_vessel(key), timezone.now())
    return to("vessels", removed=key)


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Bring a removed vessel back."""
    bring_back(service.find_vessel(key))
    return to("vessel", key)
