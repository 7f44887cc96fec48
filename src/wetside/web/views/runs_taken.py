"""A log that a terminal kept, taken into the archive: looked through first, then all of it or nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils.translation import gettext, ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from wetside.adapters.run_log_read import require_size
from wetside.errors import InputError, Place, WetsideError
from wetside.services.records import runs_taken as service
from wetside.services.records.runs_tied import NO_TIES, Ties
from wetside.web.forms.entry import mistakes_of
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.http import HttpRequest, HttpResponse

    from wetside.services.records.runs_tied import SheetFit

LOAD, SHEETS, NONE = "load:", "sheets", "none"
"""What the answer about the sheets begins with, or is."""


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def look(request: HttpRequest) -> HttpResponse:
    """Take a file and show what it would bring."""
    if request.method != "POST":
        return render(request, "web/runs/log.html")
    try:
        data, name = _sent(request)
        looked = service.look_at_log(data, name)
    except WetsideError as error:
        return render(request, "web/runs/log.html", {"said": speak_error(error)}, status=422)
    return _preview(request, data, looked)


def _sent(request: HttpRequest) -> tuple[bytes, str]:
    """The file that was chosen, and its name; one that is too large is not even read."""
    file = request.FILES.get("log")
    if file is None:
        raise InputError("web.runs.no_log_file")
    name = service.file_name(file.name or "")
    require_size(file.size or 0, name)
    return file.read(), name


@require_POST
def take(request: HttpRequest) -> HttpResponse:
    """Write what was shown."""
    data, name = request.POST.get("text", "").encode("utf-8", "replace"), request.POST.get("name", "")
    try:
        looked = service.look_at_log(data, name)
    except WetsideError as error:
        return render(request, "web/runs/log.html", {"said": speak_error(error)}, status=422)
    try:
        ties = _ties(request, looked)
        taken = service.take_log(data, name, ties)
    except WetsideError as error:
        return _preview(request, data, looked, mistakes_of(error))
    messages.success(request, _said(taken))
    return redirect("run", key=taken.run.pk)


def _said(taken: service.Taken) -> str:
    if taken.back:
        back = gettext("It was removed, and is back.")
        return f"{back} {_added(taken)}".strip()
    if not taken.new and not taken.tied:
        return gettext("All of this log is in the archive already. Nothing was changed.")
    return _added(taken)


def _added(taken: service.Taken) -> str:
    said = ngettext("%(n)d fact was taken in.", "%(n)d facts were taken in.", taken.new) % {"n": taken.new}
    if taken.tied:
        tied = ngettext("%(n)d sheet belongs to it.", "%(n)d sheets belong to it.", taken.tied) % {"n": taken.tied}
        said = f"{said} {tied}" if taken.new else tied
    return said if taken.new or taken.tied else ""


def _ties(request: HttpRequest, looked: service.Looked) -> Ties:
    """What a person said of the sheets; where something fits, something must be said."""
    answer = request.POST.get("tie", "")
    if not looked.fits.some or answer == NONE:
        return NO_TIES
    if answer.startswith(LOAD):
        return Ties(load=answer.removeprefix(LOAD))
    if answer == SHEETS:
        sheets = {one.name: request.POST.get(f"sheet.{rank}", "") for rank, one in enumerate(looked.fits.sheets, 1)}
        if any(sheets.values()):
            return Ties(sheets=sheets)
    raise InputError("web.runs.no_tie", place=Place(field="tie"))


def _preview(
    request: HttpRequest, data: bytes, looked: service.Looked, mistakes: Mapping[str, str] | None = None
) -> HttpResponse:
    chosen = {name: str(value) for name, value in request.POST.items()}
    mistakes = mistakes or {}
    context: dict[str, Any] = {
        "looked": looked,
        "text": data[: data.rfind(b"\n") + 1].decode("utf-8"),
        "loads": [(run, f"{LOAD}{run.pk}") for run in looked.fits.loads],
        "rows": [_row(rank, one, chosen, mistakes) for rank, one in enumerate(looked.fits.sheets, 1)],
        "records": any(one.records for one in looked.fits.sheets),
        "tie": chosen.get("tie", ""),
        "mistakes": mistakes,
        "wrong": [said for field, said in mistakes.items() if field != "tie" and not field.startswith("sheet.")],
    }
    return render(request, "web/runs/log_preview.html", context, status=422 if mistakes else 200)


def _row(rank: int, fit: SheetFit, chosen: Mapping[str, str], mistakes: Mapping[str, str]) -> dict[str, Any]:
    """One sheet of the log as the page asks for it; what is chosen beforehand counts only when it is sent."""
    name = f"sheet.{rank}"
    own = chosen.get(name, "" if fit.best is None else str(fit.best.pk))
    return {
        "name": name,
        "fit": fit,
        "records": [(sheet, str(sheet.pk) == own) for sheet in fit.records],
        "mistake": mistakes.get(name, ""),
    }
