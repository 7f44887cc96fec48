"""Pages of developers: the list, the form with time pairs, and the coefficient that comes of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_POST

from wetside.errors import WetsideError
from wetside.planning.documents.evening import Developer, TimePair
from wetside.services.records import developers
from wetside.services.records.films_history import corrections_of
from wetside.web.forms.entry import entries, raw_of_post
from wetside.web.views.asked import page_of, revision_of, units_of
from wetside.web.views.films import back_to, undo_of
from wetside.web.views.films_posted import first_word, number_word, rows, told

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

OWN_KEYS = ("name", "published", "coefficient", "reuse_limit", "stains")
PAIR_KEYS = ("cold", "cold_time", "warm", "warm_time", "source", "own")
LABELS = {
    "own": "Tested by yourself",
    "cold": "Colder",
    "cold_time": "Time there",
    "warm": "Warmer",
    "warm_time": "Time there, warmer",
    "published": "Published name",
    "coefficient": "Share a degree, if you choose one",
    "stains": "Its image is stained",
}


def developer_list(request: HttpRequest) -> HttpResponse:
    """All developers, and of how many the temperature is known."""
    found = developers.developer_list(page_of(request))
    title = gettext("No developers yet")
    if found.total:
        title = ngettext("%(word)s developer", "%(word)s developers", found.total) % {"word": first_word(found.total)}
        open_ones = sum(line.coefficient is None for line in found.lines)
        if open_ones:
            title += "; " + ngettext(
                "%(word)s only at its own temperature", "%(word)s only at their own temperature", open_ones
            ) % {"word": number_word(open_ones)}
    undo = undo_of(request, "developer-back", developers.find_developer)
    return render(request, "web/films/developers.html", {"list": found, "title": title, "undo": undo})


def developer_form(request: HttpRequest, key: UUID | None = None) -> HttpResponse:
    """Make a developer, or look at one and correct it."""
    record = None if key is None else developers.find_developer(key)
    if request.method != "POST":
        raw = {} if record is None else developers.raw_developer(record)
        return _page(request, record, raw, note="" if record is None else record.note, blank=0 if record else 1)
    raw = raw_of_post(Developer, developers.FORM_KEYS, request.POST, units=units_of(request))
    note, why = request.POST.get("note", "").strip(), request.POST.get("why", "").strip()
    if request.POST.get("act") == "row":
        return _page(request, record, raw, note=note, why=why, blank=1)
    try:
        saved = developers.save_developer(raw, record, note=note, revision=revision_of(request), why=why)
    except WetsideError as error:
        return _page(request, record, raw, error, note=note, why=why)
    messages.success(request, gettext("%(what)s is kept.") % {"what": saved.name})
    return redirect("developer", saved.pk)


def _page(
    request: HttpRequest,
    record: Any,
    raw: dict[str, Any],
    error: WetsideError | None = None,
    *,
    note: str = "",
    why: str = "",
    blank: int = 0,
) -> HttpResponse:
    units = units_of(request)
    mistakes, loose = ({}, []) if error is None else told(error, developers.FORM_KEYS)
    pairs = [*raw.get("pairs", ()), *({} for _ in range(blank))]
    evidence = None if record is None else developers.developer_evidence(record)
    context = {
        "developer": record,
        "evidence": evidence,
        "title": _title(record, evidence),
        "fields": entries(Developer, OWN_KEYS, raw, mistakes, labels=LABELS, units=units),
        "pairs": rows(
            TimePair,
            "pairs",
            pairs,
            mistakes,
            PAIR_KEYS,
            titles=[gettext("Pair %(number)s") % {"number": number} for number in range(1, len(pairs) + 1)],
            labels=LABELS,
            units=units,
        ),
        "focus_row": len(pairs) if blank and request.method == "POST" else 0,
        "note": note,
        "why": why,
        "loose": loose,
        "mistakes": bool(error),
        "history": corrections_of(record) if record else (),
        "revision": request.POST.get("revision") or (record.revision if record else ""),
    }
    return render(request, "web/films/developer.html", context, status=422 if error else 200)


def _title(record: Any, evidence: Any) -> str:
    if record is None:
        return gettext("A developer needs its name; the rest can come later")
    if evidence.coefficient is None:
        return gettext("%(name)s: only at the temperature of its times") % {"name": record.name}
    return gettext("%(name)s: %(percent).1f %% of time a degree") % {
        "name": record.name,
        "percent": evidence.coefficient.per_c * 100.0,
    }


@require_POST
def developer_remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a developer away."""
    del request
    removed = developers.remove_developer(developers.find_developer(key), timezone.now())
    return back_to("developers", removed.pk)


@require_POST
def developer_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a developer back."""
    record = developers.bring_developer_back(developers.find_developer(key, removed=True))
    messages.success(request, gettext("%(what)s is back.") % {"what": record.name})
    return redirect("developer", record.pk)
