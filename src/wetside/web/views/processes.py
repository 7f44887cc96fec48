"""Pages of processes: the list, one process with its versions, and the form with the ordered list of baths."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_POST

from wetside.errors import WetsideError
from wetside.planning.documents.evening import Bath, Process
from wetside.services.records import processes
from wetside.services.records.films_history import corrections_of
from wetside.web.forms.entry import entries, raw_of_post, words_of
from wetside.web.views.asked import page_of, revision_of, units_of
from wetside.web.views.films import back_to, undo_of
from wetside.web.views.films_posted import first_word, rows, told

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

BATH_MAIN = ("does", "name", "time", "volume")
BATH_MORE = ("bottle", "second", "third", "after", "changes", "temp", "share", "out_of_vessel")
MOST_BATHS = 60
"""Baths that a page takes; more is a slip or an attack."""
_ROW = re.compile(r"baths\[([0-9]{1,4})\]\.[a-z_]+")
_ACT = re.compile(r"(up|down|remove)-([0-9]{1,4})")
BATH_LABELS = {
    "second": "Bottle of its second part",
    "temp": "Temperature",
    "after": "Afterwards",
    "changes": "Fills",
    "out_of_vessel": "Out of the vessel",
}
LABELS = {"temp": "Temperature", "clock": "The clock runs", "lamp": "Safelight to film", "way": "Way of developing"}


def process_list(request: HttpRequest) -> HttpResponse:
    """All processes with their newest versions."""
    found = processes.process_list(page_of(request))
    title = gettext("No processes yet")
    if found.total:
        title = ngettext("%(word)s process", "%(word)s processes", found.total) % {"word": first_word(found.total)}
        waiting = sum(line.waiting > 0 for line in found.lines)
        title += "; " + (
            ngettext("sheets wait for one of them", "sheets wait for %(count)s of them", waiting) % {"count": waiting}
            if waiting
            else ngettext("no sheet waits for it", "no sheet waits for one of them", found.total)
        )
    undo = undo_of(request, "process-back", processes.find_process)
    return render(request, "web/processes/list.html", {"list": found, "title": title, "undo": undo})


def process(request: HttpRequest, key: UUID) -> HttpResponse:
    """One process: its baths, and how it came to be so."""
    record = processes.find_process(key)
    found = processes.process_page(record)
    count = len(found.newest.document.baths)
    context = {
        "page": found,
        "title": gettext("%(name)s: %(baths)s, version %(version)s")
        % {
            "name": record.name,
            "baths": ngettext("one bath", "%(count)s baths", count) % {"count": count}
            if count
            else gettext("the plain baths"),
            "version": found.newest.version.version,
        },
        "history": corrections_of(record),
    }
    return render(request, "web/processes/process.html", context)


def process_version(request: HttpRequest, key: UUID, number: int) -> HttpResponse:
    """One version as it was written; it is never changed."""
    record = processes.find_process(key, removed=True)
    found = processes.process_page(record)
    wanted = processes.version_of(record, number)
    for shown in (found.newest, *found.older):
        if shown.version.pk == wanted.pk:
            context = {"process": record, "shown": shown, "newest": number == record.newest}
            return render(request, "web/processes/version.html", context)
    return redirect("process", key)


def process_form(request: HttpRequest, key: UUID | None = None) -> HttpResponse:
    """Make a process, or change one; what matters makes a new version."""
    record = None if key is None else processes.find_process(key)
    if request.method != "POST":
        raw = {"baths": processes.plain_baths()} if record is None else processes.raw_process(record)
        return _page(request, record, raw, note="" if record is None else record.note)
    raw = raw_of_post(Process, processes.FORM_KEYS, request.POST, units=units_of(request))
    baths = _baths(request)
    note, why = request.POST.get("note", "").strip(), request.POST.get("why", "").strip()
    act = request.POST.get("act", "")
    focus = _moved(baths, act)
    if baths:
        raw["baths"] = baths
    if focus is not None:
        return _page(request, record, raw, note=note, why=why, focus=focus)
    before = record.newest if record else 0
    try:
        saved = processes.save_process(raw, record, note=note, revision=revision_of(request), why=why)
    except WetsideError as error:
        return _page(request, record, raw, error, note=note, why=why)
    if saved.newest != before and before:
        said = gettext("%(name)s has a new version, %(version)s; the older ones stay readable.")
    elif before:
        said = gettext("%(name)s is kept; its version %(version)s stays as it is.")
    else:
        said = gettext("%(name)s is kept.")
    messages.success(request, said % {"name": saved.name, "version": saved.newest})
    return redirect("process", saved.pk)


def _baths(request: HttpRequest) -> list[dict[str, Any]]:
    """Baths in the order of their rows; what a bath does is enough to make one."""
    numbers = sorted({int(match[1]) for name in request.POST if (match := _ROW.fullmatch(name))})[:MOST_BATHS]
    found = []
    for number in numbers:
        own = {name: request.POST.get(f"baths[{number}].{name}", "") for name in processes.BATH_KEYS}
        raw = raw_of_post(Bath, processes.BATH_KEYS, own, units=units_of(request))
        if raw:
            found.append(raw)
    return found


def _moved(baths: list[dict[str, Any]], act: str) -> tuple[int, str] | None:
    """Move, remove or add a bath in place; where the keyboard should stand afterwards, None where nothing was asked."""
    if act == "add":
        if len(baths) < MOST_BATHS:
            baths.append({})
        return len(baths), "does"
    match = _ACT.fullmatch(act)
    if match is None:
        return None
    place = int(match[2]) - 1
    if not 0 <= place < len(baths):
        return 0, ""
    if match[1] == "remove":
        baths.pop(place)
        return max(1, place), "down"
    to = place - 1 if match[1] == "up" else place + 1
    if 0 <= to < len(baths):
        baths[place], baths[to] = baths[to], baths[place]
        place = to
    return place + 1, match[1]


def _page(
    request: HttpRequest,
    record: Any,
    raw: dict[str, Any],
    error: WetsideError | None = None,
    *,
    note: str = "",
    why: str = "",
    focus: tuple[int, str] | None = None,
) -> HttpResponse:
    units = units_of(request)
    mistakes, loose = ({}, []) if error is None else told(error, (*processes.FORM_KEYS, "baths"))
    if "baths" in mistakes:
        loose.append(mistakes["baths"])
    baths = raw.get("baths", [])
    context = {
        "process": record,
        "fields": entries(Process, processes.FORM_KEYS, raw, mistakes, labels=LABELS, units=units),
        "baths": rows(
            Bath,
            "baths",
            baths,
            mistakes,
            BATH_MAIN,
            BATH_MORE,
            titles=[str(bath.get("name") or words_of(str(bath.get("does", gettext("new"))))) for bath in baths],
            labels=BATH_LABELS,
            units=units,
        ),
        "focus_row": focus[0] if focus else 0,
        "focus_on": focus[1] if focus else "",
        "note": note,
        "why": why,
        "loose": loose,
        "mistakes": bool(error),
        "revision": request.POST.get("revision") or (record.revision if record else ""),
    }
    return render(request, "web/processes/form.html", context, status=422 if error else 200)


@require_POST
def process_remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a process away."""
    del request
    removed = processes.remove_process(processes.find_process(key), timezone.now())
    return back_to("processes", removed.pk)


@require_POST
def process_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a process back."""
    record = processes.bring_process_back(processes.find_process(key, removed=True))
    messages.success(request, gettext("%(what)s is back.") % {"what": record.name})
    return redirect("process", record.pk)
