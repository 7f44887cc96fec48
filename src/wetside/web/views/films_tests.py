"""Pages of a film's own tests: readings are looked at, with every error, before anything is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext
from django.views.decorators.http import require_POST

from wetside.errors import ManyErrors, WetsideError
from wetside.planning.documents.evening import FilmTest
from wetside.services.records import films, films_tests
from wetside.services.records.film_evidence import evidence_of_test
from wetside.services.records.films import film_document
from wetside.units import whole_number
from wetside.web.forms.entry import entries, mistakes_of, raw_of_post
from wetside.web.views.asked import revision_of, units_of
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

LABELS = {
    "presoak": "Pre-soak",
    "clock": "The clock ran",
    "stop": "What ended it",
    "temp": "Temperature",
    "base_fog": "Base + fog",
    "channel": "Light of the densitometer",
    "agent": "Stock or concentrate to an area",
}
HEADING = "dev_min,log_h,density"
"""Columns of readings, as every file of them names them."""
MOST_SAID = 200
"""Errors that are listed; nobody reads further."""


def film_test(request: HttpRequest, key: UUID) -> HttpResponse:
    """Enter a test: first looked at, then kept."""
    record = films.find_film(key)
    onto = _onto(request)
    before = None if onto is None else films_tests.test_of(record, onto)
    if request.method != "POST":
        return _page(request, record, {}, films_tests.ReadingsAnswers(), before=before)
    if before is None:
        raw = raw_of_post(FilmTest, films_tests.TEST_KEYS, request.POST, units=units_of(request))
    else:
        raw = {name: value for name, value in before.items() if name != "rows"}
    sent = request.FILES.get("file")
    answers = films_tests.ReadingsAnswers(
        text=request.POST.get("readings", ""),
        file=sent.read() if sent is not None and sent.size else None,
        file_name=str(sent.name or "") if sent is not None else "",
        tablet=request.POST.get("tablet", ""),
        nominal=request.POST.get("nominal") == "on",
        exposure=request.POST.get("exposure", ""),
    )
    errors: list[WetsideError] = []
    given: Any = ()
    rows: Any = ()
    try:
        given = rows = films_tests.rows_of_answers(answers)
        if before is not None:
            rows = films_tests.rows_joined(before, given)
    except WetsideError as error:
        errors.extend(error.errors if isinstance(error, ManyErrors) else (error,))
    try:
        test = films_tests.checked_test(record, raw, rows or ((1.0, 0.0, 0.0),))
    except WetsideError as error:
        errors.extend(error.errors if isinstance(error, ManyErrors) else (error,))
        test = None
    if errors or test is None:
        return _page(request, record, raw, answers, errors, before=before)
    measured = evidence_of_test(film_document(record), 0, test)
    if request.POST.get("act") != "keep":
        text = answers.text if answers.file is None else _text_of(given)
        kept = answers._replace(text=text, file=None)
        return _page(request, record, raw, kept, measured=measured, rows=rows, before=before)
    if onto is not None:
        films_tests.join_test(record, onto, rows, revision=revision_of(request), why=gettext("readings added"))
        return redirect(f"{reverse('film', args=[key])}?readings_joined={onto}")
    films_tests.add_test(record, raw, rows, revision=revision_of(request), why=gettext("own test entered"))
    messages.success(request, gettext("The test is kept."))
    return redirect("film", record.pk)


def _onto(request: HttpRequest) -> int | None:
    """Number of the test that further readings are for; None where a new one is entered."""
    text = request.POST.get("onto") or request.GET.get("onto") or ""
    return whole_number(text)


def _text_of(rows: Any) -> str:
    """Readings of a file as they would have been pasted, so that they need not be chosen again."""
    return f"{HEADING}\n" + "\n".join(",".join(f"{value:.12g}" for value in row) for row in rows) + "\n"


def _page(
    request: HttpRequest,
    record: Any,
    raw: dict[str, Any],
    answers: films_tests.ReadingsAnswers,
    errors: list[WetsideError] | None = None,
    *,
    measured: Any = None,
    rows: Any = (),
    before: Mapping[str, Any] | None = None,
) -> HttpResponse:
    wrong = errors or []
    mistakes: dict[str, str] = {}
    said = []
    for error in wrong:
        field = (error.place.field if error.place is not None else None) or ""
        if error.place is None or error.place.file is None:
            mistakes |= mistakes_of(error)
        if field not in films_tests.TEST_KEYS and field not in ("readings", "exposure"):
            said.append(speak_error(error))
    context = {
        "heading": HEADING,
        "film": record,
        "fields": entries(FilmTest, films_tests.TEST_KEYS, raw, mistakes, labels=LABELS, units=units_of(request)),
        "answers": answers,
        "mistakes": mistakes,
        "said": said[:MOST_SAID],
        "wrong": len(wrong),
        "measured": measured,
        "onto": _onto(request),
        "before": before,
        "times_before": _times_of(before),
        "count": len(rows),
        "stepped": bool(answers.tablet.strip() or answers.nominal or "exposure" in mistakes),
        "revision": request.POST.get("revision") or record.revision,
    }
    return render(request, "web/films/test.html", context, status=422 if wrong else 200)


def _times_of(test: Mapping[str, Any] | None) -> list[float]:
    """Times that a test has readings of, the shortest first. [s]"""
    return [] if test is None else sorted({float(row[0]) * 60.0 for row in test.get("rows", ())})


@require_POST
def film_test_part(request: HttpRequest, key: UUID, number: int) -> HttpResponse:
    """Take readings out again that were joined to a test."""
    films_tests.part_test(films.find_film(key), number)
    messages.success(request, gettext("The added readings are taken out again."))
    return redirect("film", key)


@require_POST
def film_test_remove(request: HttpRequest, key: UUID, number: int) -> HttpResponse:
    """Take a test away."""
    films_tests.remove_test(
        films.find_film(key), number, revision=revision_of(request), why=gettext("own test removed")
    )
    return redirect(f"{reverse('film', args=[key])}?test_removed=1")


@require_POST
def film_test_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring back the test that was removed last."""
    films_tests.bring_test_back(films.find_film(key))
    messages.success(request, gettext("The test is back."))
    return redirect("film", key)
