"""What happens around every page: who works, in which time zone; a person's mistake becomes a page, not a failure."""

from __future__ import annotations

from contextlib import nullcontext
from typing import TYPE_CHECKING

from django.db import OperationalError
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone

from wetside.adapters.clock import in_zone
from wetside.errors import InputError, ManyErrors, UnknownNameError, WetsideError
from wetside.services.records.changes import written_by
from wetside.services.records.darkroom import darkroom_settings, manner_of, zone_of
from wetside.services.records.page_reads import one_page
from wetside.services.records.runs import GONE
from wetside.wording import shown_in, speak_error

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

    Answer = Callable[[HttpRequest], HttpResponse]

READS = ("GET", "HEAD")
"""Requests that change nothing: what they ask twice is read once."""
WORKER = "worker"
"""Key of the session under which the name of whoever works stands."""


def darkroom(get_response: Answer) -> Answer:
    """Write the worker's name into the history; show figures in the darkroom's units and times as its clock does."""

    def middleware(request: HttpRequest) -> HttpResponse:
        if request.path.startswith("/static/"):
            return get_response(request)
        request.darkroom = settings = darkroom_settings()  # type: ignore[attr-defined]
        zone = zone_of(settings)
        timezone.activate(zone or timezone.get_default_timezone())
        who = str(request.session.get(WORKER, "") or getattr(request, "account_name", ""))
        page = one_page() if request.method in READS else nullcontext()
        with in_zone(zone), written_by(who), shown_in(manner_of(settings)), page:
            return get_response(request)

    return middleware


def mistakes(get_response: Answer) -> Answer:
    """Show what a person must put right; nothing was written, for every writer is one transaction."""

    def middleware(request: HttpRequest) -> HttpResponse:
        return get_response(request)

    def process_exception(request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if isinstance(exception, OperationalError):
            exception = InputError("web.database_said", reason=" ".join(str(exception).split()))
            return render(request, "web/mistake.html", {"said": [speak_error(exception)]}, status=503)
        if not isinstance(exception, WetsideError):
            return None
        errors = exception.errors if isinstance(exception, ManyErrors) else (exception,)
        said = [speak_error(error) for error in errors]
        way = reverse("run", args=[exception.params["key"]]) if exception.code == GONE else ""
        gone = way or (isinstance(exception, UnknownNameError) and exception.code == "services.records.not_found")
        return render(request, "web/mistake.html", {"said": said, "way": way}, status=404 if gone else 422)

    middleware.process_exception = process_exception  # type: ignore[attr-defined]
    return middleware
