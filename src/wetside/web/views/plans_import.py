"""An evening file into the records: looked through first, then everything or nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST

from wetside.adapters.evening_writer import write_evening
from wetside.errors import ManyErrors, WetsideError
from wetside.services.records import evenings_import as service
from wetside.wording import speak_error

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

ANSWERS = "answer:"
MOST_TOLD = 200
"""Mistakes of a file that a page lists. Our choice."""


@require_http_methods(["GET", "POST"])
def import_evening(request: HttpRequest) -> HttpResponse:
    """Take the files and show what they would do."""
    if request.method == "GET":
        return render(request, "web/plans/import.html")
    files = {one.name or "": one.read() for one in request.FILES.getlist("files")}
    try:
        evening = service.evening_of_files(files)
        looked = service.preview(evening)
    except WetsideError as error:
        return render(request, "web/plans/import.html", {"said": _said(error)}, status=422)
    return _preview(request, write_evening(evening), looked)


def _said(error: WetsideError) -> list[str]:
    errors = error.errors if isinstance(error, ManyErrors) else (error,)
    return [speak_error(one) for one in errors[:MOST_TOLD]]


def _answers(request: HttpRequest) -> dict[str, str]:
    post = request.POST
    return {key.removeprefix(ANSWERS): str(post.get(key, "")) for key in post if key.startswith(ANSWERS)}


def _preview(request: HttpRequest, text: str, looked: service.Preview, said: list[str] | None = None) -> HttpResponse:
    answers = _answers(request)
    kinds: dict[str, dict[str, int]] = {}
    for one in looked.found:
        count = kinds.setdefault(one.kind, {"new": 0, "same": 0, "differs": 0})
        count[one.state] += 1
    context: dict[str, Any] = {
        "text": text,
        "looked": looked,
        "kinds": kinds,
        "differing": [(one, answers.get(one.answer, "")) for one in looked.differing],
        "said": said or [],
    }
    return render(request, "web/plans/import_preview.html", context, status=422 if said else 200)


@require_POST
def take_evening(request: HttpRequest) -> HttpResponse:
    """Make the records."""
    text = request.POST.get("evening", "").replace("\r\n", "\n")
    try:
        evening = service.evening_of_kept_text(text)
    except WetsideError as error:
        return render(request, "web/plans/import.html", {"said": _said(error)}, status=422)
    answers = _answers(request)
    try:
        plan = service.take(evening, answers)
    except WetsideError as error:
        return _preview(request, text, service.preview(evening), _said(error))
    messages.success(request, gettext("Everything of the file is in the records now."))
    return redirect("plan", key=plan.pk)
