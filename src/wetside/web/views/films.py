"""Pages of films: the list, one film with all its evidence, its form, its lots."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext, ngettext
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_POST

from wetside.errors import WetsideError
from wetside.planning.documents.evening import Film, FilmTime, Reciprocity
from wetside.services.records import films, outbox
from wetside.services.records.film_evidence import film_evidence
from wetside.services.records.films_history import corrections_of
from wetside.units import whole_number
from wetside.web.forms.entry import entries, raw_of_post
from wetside.web.views.asked import page_of, revision_of, units_of
from wetside.web.views.films_posted import first_word, number_word, rows, told

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

TIME_MAIN = ("developer", "dilution", "time", "temp", "source", "own")
TIME_MORE = ("agitation", "gradient", "presoak", "clock", "stop", "agent", "way")
OWN_KEYS = ("name", "ei", "published", "safelight", "light_tested", "fixing")
RECIPROCITY_KEYS = ("power", "threshold", "table", "published", "source")
LABELS = {
    "presoak": "Pre-soak",
    "power": "Power p",
    "ei": "Exposure index",
    "published": "Published name",
    "light_tested": "Longest safelight without fog",
    "temp": "Temperature",
    "own": "Proved by yourself",
    "agent": "Stock or concentrate to an area",
    "table": "Table of factors",
}


def film_list(request: HttpRequest) -> HttpResponse:
    """All films, and how many rest on tests of one's own."""
    found = films.film_list(page_of(request))
    if not found.total:
        title = gettext("No films yet")
    else:
        title = ngettext("%(word)s film", "%(word)s films", found.total) % {"word": first_word(found.total)}
        if found.tested:
            title += "; " + ngettext(
                "%(word)s rests on tests of your own", "%(word)s rest on tests of your own", found.tested
            ) % {"word": number_word(found.tested)}
        else:
            title += "; " + gettext("none rests on a test of your own")
    undo = undo_of(request, "film-back", films.find_film)
    return render(request, "web/films/list.html", {"list": found, "title": title, "undo": undo})


def undo_of(request: HttpRequest, address: str, find: Any) -> dict[str, str] | None:
    """What was removed a moment ago, with the address that brings it back."""
    key = request.GET.get("removed", "")
    if not key:
        return None
    try:
        from uuid import UUID

        record = find(UUID(key), removed=True)
    except (ValueError, WetsideError):
        return None
    if record.removed_at is None:
        return None
    return {"address": reverse(address, args=[record.pk]), "said": gettext("%(what)s is removed.") % {"what": record}}


def back_to(name: str, removed: Any, *args: Any) -> HttpResponse:
    """Way back to a list that offers the undo of a removal."""
    return redirect(f"{reverse(name, args=args)}?{urlencode({'removed': removed})}")


def film(request: HttpRequest, key: UUID) -> HttpResponse:
    """One film: what is known, what is weakest, what would help."""
    record = films.find_film(key)
    evidence = film_evidence(record)
    context = {
        "film": record,
        "evidence": evidence,
        "title": _title(record.name, evidence),
        "used": [group for group in evidence.groups if group.used],
        "other": [group for group in evidence.groups if not group.used],
        "lots": films.lots_of(record),
        "history": corrections_of(record),
        "undo": undo_of(request, "lot-back", films.find_lot),
        "readings_joined": _joined(request, record),
        "test_removed": request.GET.get("test_removed") == "1",
    }
    return render(request, "web/films/film.html", context)


def _joined(request: HttpRequest, film: Any) -> int | None:
    """Number of the test that readings were just added to, if there is one."""
    text = request.GET.get("readings_joined", "")
    number = whole_number(text)
    return number if number is not None and number < len(film.facts.get("tests", ())) else None


def _title(name: str, evidence: Any) -> str:
    """The answer: what the film rests on."""
    used = [group for group in evidence.groups if group.used]
    if evidence.tested:
        return gettext("%(film)s rests on your own tests in %(count)s") % {
            "film": name,
            "count": ngettext("%(word)s developer", "%(word)s developers", evidence.tested)
            % {"word": number_word(evidence.tested)},
        }
    if any(group.tests for group in used):
        return gettext("%(film)s: your test cannot be used yet") % {"film": name}
    if any(group.times for group in used):
        return gettext("%(film)s rests on times alone, without a test of yours") % {"film": name}
    if evidence.groups:
        return gettext("%(film)s rests on published times alone") % {"film": name}
    return gettext("Nothing is known of %(film)s yet") % {"film": name}


def film_form(request: HttpRequest, key: UUID | None = None) -> HttpResponse:
    """Make a film, or correct one."""
    record = None if key is None else films.find_film(key)
    if request.method == "POST":
        return _film_posted(request, record)
    raw = {} if record is None else films.raw_film(record)
    return _film_page(request, record, raw, note="" if record is None else record.note, blank=0 if record else 1)


def _film_posted(request: HttpRequest, record: Any) -> HttpResponse:
    units = units_of(request)
    raw = raw_of_post(Film, films.FORM_KEYS, request.POST, units=units)
    note, why = request.POST.get("note", "").strip(), request.POST.get("why", "").strip()
    if request.POST.get("act") == "row":
        return _film_page(request, record, raw, note=note, why=why, blank=1)
    try:
        sent = dict(raw)
        if isinstance(sent.get("reciprocity", {}).get("table"), str):
            sent["reciprocity"] = {**raw["reciprocity"], "table": films.points_of_text(raw["reciprocity"]["table"])}
        saved = films.save_film(sent, record, note=note, revision=revision_of(request), why=why)
    except WetsideError as error:
        return _film_page(request, record, raw, error, note=note, why=why)
    messages.success(request, gettext("%(what)s is kept.") % {"what": saved.name})
    return redirect("film", saved.pk)


def _film_page(
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
    mistakes, loose = ({}, []) if error is None else told(error, films.FORM_KEYS)
    times = [*raw.get("times", ()), *({} for _ in range(blank))]
    reciprocity = dict(raw.get("reciprocity", {}))
    if isinstance(reciprocity.get("table"), list):
        reciprocity["table"] = films.text_of_points(reciprocity["table"])
    context = {
        "film": record,
        "fields": entries(Film, OWN_KEYS, raw, mistakes, labels=LABELS, units=units),
        "reciprocity": [
            entry._replace(example="1 s 1.5; 10 s 6") if entry.name == "reciprocity.table" else entry
            for entry in entries(
                Reciprocity, RECIPROCITY_KEYS, reciprocity, mistakes, path="reciprocity", labels=LABELS, units=units
            )
        ],
        "reciprocity_mistake": mistakes.get("reciprocity", ""),
        "times": rows(
            FilmTime,
            "times",
            times,
            mistakes,
            TIME_MAIN,
            TIME_MORE,
            titles=[gettext("Time %(number)s") % {"number": number} for number in range(1, len(times) + 1)],
            labels=LABELS,
            units=units,
        ),
        "focus_row": len(times) if blank and request.method == "POST" else 0,
        "note": note,
        "why": why,
        "loose": loose,
        "mistakes": bool(error),
        "revision": request.POST.get("revision") or (record.revision if record else ""),
    }
    return render(request, "web/films/form.html", context, status=422 if error else 200)


@require_POST
def film_remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a film away."""
    del request
    removed = films.remove_film(films.find_film(key), timezone.now())
    return back_to("films", removed.pk)


@require_POST
def film_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a film back."""
    record = films.bring_film_back(films.find_film(key, removed=True))
    messages.success(request, gettext("%(what)s is back.") % {"what": record.name})
    return redirect("film", record.pk)


@ensure_csrf_cookie
def lot_form(request: HttpRequest, key: UUID, lot_key: UUID | None = None) -> HttpResponse:
    """Add a lot to a film, or correct one."""
    record = films.find_film(key)
    lot = None if lot_key is None else films.find_lot(lot_key)
    answers = films.LotAnswers()
    if lot is not None:
        answers = films.LotAnswers(
            lot.number,
            lot.size,
            lot.expires.isoformat() if lot.expires else "",
            lot.opened.isoformat() if lot.opened else "",
            "" if lot.bought is None else str(lot.bought),
        )
    mistakes: dict[str, str] = {}
    loose: list[str] = []
    if request.method == "POST":
        answers = films.LotAnswers(*(request.POST.get(name, "") for name in films.LotAnswers._fields))
        posted = {name: request.POST.getlist(name) for name in request.POST}
        try:
            answer = outbox.do(
                "film.lot", {**outbox.fields_of(posted), "of": [str(key)], "id": [str(lot_key)] if lot_key else []}
            )
        except WetsideError as error:
            mistakes, loose = told(error, films.LotAnswers._fields)
        else:
            messages.success(request, answer["said"])
            return redirect("film", record.pk)
    context = {
        "film": record,
        "lot": lot,
        "answers": answers,
        "mistakes": mistakes,
        "loose": loose,
        "history": corrections_of(lot) if lot else (),
        "revision": request.POST.get("revision") or (lot.revision if lot else ""),
    }
    return render(request, "web/films/lot.html", context, status=422 if mistakes or loose else 200)


@require_POST
def lot_remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a lot away."""
    del request
    lot = films.remove_lot(films.find_lot(key), timezone.now())
    return back_to("film", lot.pk, lot.film_id)


@require_POST
def lot_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a lot back."""
    lot = films.bring_lot_back(films.find_lot(key, removed=True))
    messages.success(request, gettext("Lot %(what)s is back.") % {"what": lot.number})
    return redirect("film", lot.film_id)
