"""Pasted or uploaded lists: looked through, then kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from wetside.adapters.sheet_list import sheet_columns
from wetside.adapters.whole_file import LARGEST_BYTES
from wetside.errors import InputError, OutOfRangeError, WetsideError
from wetside.services.records.sheet_import import keep_list, preview
from wetside.wording import speak_error

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


def look(request: HttpRequest) -> HttpResponse:
    """Show where to paste, or what was pasted with every error in it."""
    context: dict[str, Any] = {"columns": list(sheet_columns()), "pasted": request.POST.get("pasted", "")}
    if request.method != "POST":
        return render(request, "web/sheets/list.html", context)
    try:
        name, data = _given(request)
        context["found"] = found = preview(name, data)
    except WetsideError as error:
        return render(request, "web/sheets/list.html", {**context, "mistake": speak_error(error)}, status=422)
    return render(request, "web/sheets/list_rows.html", context, status=200 if found.good or found.taken else 422)


def _given(request: HttpRequest) -> tuple[str, bytes | str]:
    """Name and content of what was given: a file before pasted text."""
    file = request.FILES.get("file")
    if file is not None and file.size:
        if file.size > LARGEST_BYTES:
            raise OutOfRangeError("files.file.too_large", name=str(file.name), limit_mb=LARGEST_BYTES / 1e6)
        return str(file.name)[:120], file.read(LARGEST_BYTES + 1)
    text = request.POST.get("pasted", "")
    if not text.strip():
        raise InputError("web.sheets.list_nothing")
    return "pasted rows", text


@require_POST
def keep(request: HttpRequest) -> HttpResponse:
    """Keep the rows that were shown, all of them or none."""
    taken = keep_list(request.POST.get("name", "list")[:120], request.POST.get("packed", ""))
    messages.success(request, str(taken.answer["said"]))
    return HttpResponseRedirect(reverse("sheets"))
