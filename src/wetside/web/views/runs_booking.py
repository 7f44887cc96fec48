"""The booking of a run: its fields, and how they follow when one of them is changed, live or by the plain form.

Beside each field that follows stands, unseen, what was reckoned for it. Where the two differ, somebody typed it by
hand, and it stays.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.http import JsonResponse
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST

from wetside.errors import ManyErrors, WetsideError
from wetside.planning.documents.words import AfterUse
from wetside.services.records.bottles_entries import FilmEntry
from wetside.services.records.runs_after import After, Row, after_run, run_with_plan
from wetside.services.records.runs_booked import (
    BATH_NAMES,
    FILM_NAMES,
    FILM_ROWS,
    BathBooked,
    Booking,
    RunBooked,
    booked_of,
    booking_of,
    booking_of_posted,
)
from wetside.services.records.runs_followed import FOLLOWING, WATER, Said, followed
from wetside.services.records.runs_sums import wrong_sums
from wetside.web.forms.entry import Entry, entries, mistakes_of
from wetside.web.views.asked import units_of
from wetside.web.views.shelf_forms import with_choices
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from uuid import UUID

    from django.http import HttpRequest

LABELS = {
    "bottle": "From bottle",
    "drawn": "Drawn",
    "returned": "Poured back",
    "ordinary": "Ordinary film (units)",
    "tabular": "Tabular film (units)",
    "waste": "Waste vessel",
    "wasted": "Went to waste",
    "lost": "Spilt or lost",
    "water": "Water",
    "count": "Sheets",
    "size": "Size",
    "class": "Film class",
}
FIRST = {
    "back": ("bottle", "drawn", "returned", "ordinary", "tabular"),
    "waste": ("bottle", "drawn", "waste", "wasted"),
}
"""Fields that stand open, by what becomes of the bath; the others are a tap away."""


class Kept(NamedTuple):
    """A field that follows, and what was reckoned for it."""

    name: str
    value: str


class RowShown(NamedTuple):
    """One bath of the form: the fields that stand open, and those a tap away; what was reckoned; what it comes to."""

    row: Row
    note: str
    first: tuple[Entry, ...]
    more: tuple[Entry, ...]
    wrong: bool
    kept: tuple[Kept, ...]
    told: str


class Form(NamedTuple):
    """Everything that stands in the fields, as text; ``reckoned`` by the fields that follow; ``anew`` is named."""

    texts: Mapping[str, str]
    reckoned: Mapping[str, str]
    told: Mapping[str, tuple[Said, ...]]
    anew: tuple[str, ...] = ()


def form_of(found: After) -> Form:
    """The proposal, with nothing typed yet."""
    reckoned = followed(found, booking_of(found), ())
    texts = _texts(reckoned.booking)
    return Form(texts, _following(found, texts), reckoned.told)


def form_posted(request: HttpRequest, found: After, booking: Booking | None) -> Form:
    """What was sent; where it can be read, with what follows from it reckoned anew.

    Parameters
    ----------
    request : HttpRequest
    found : After
        What was proposed.
    booking : Booking or None
        What was sent, None where it cannot be read.
    """
    names = _follow_names(found)
    texts = {name: str(value) for name, value in request.POST.items()}
    kept = {name: texts[f"{name}.shown"] for name in names if f"{name}.shown" in texts}
    if booking is None:
        return Form(texts, kept, {})
    by_hand = {name for name in names if name not in kept or texts.get(name, "").strip() != kept[name].strip()}
    reckoned = followed(found, booking, by_hand)
    fresh = {name: text for name, text in _texts(reckoned.booking).items() if name in names and name not in by_hand}
    anew = tuple(name for name, text in fresh.items() if text != texts.get(name, "").strip())
    return Form({**texts, **fresh}, {**kept, **fresh}, reckoned.told, anew)


def _follow_names(found: After) -> tuple[str, ...]:
    return (*(f"{row.name}.{field}" for row in found.rows for field in _fields_of(row) if field in FOLLOWING), WATER)


def _fields_of(row: Row) -> tuple[str, ...]:
    return BATH_NAMES[:2] if row.tops else BATH_NAMES


def _following(found: After, texts: Mapping[str, str]) -> dict[str, str]:
    return {name: texts[name] for name in _follow_names(found)}


def _texts(booking: Booking) -> dict[str, str]:
    """Amounts of a booking as they stand in its fields."""
    texts = {WATER: shown(booking.water_ml, "bare_ml")}
    for row, bath in booking.baths:
        amounts = {"drawn": bath.drawn_ml, "returned": bath.returned_ml, "wasted": bath.waste_ml, "lost": bath.lost_ml}
        films = {"ordinary": bath.ordinary, "tabular": bath.tabular}
        texts |= {f"{row}.bottle": bath.bottle or "", f"{row}.waste": bath.waste or ""}
        texts |= {f"{row}.{name}": shown(value, "bare_ml") if value else "" for name, value in amounts.items()}
        for name, value in films.items():
            units = sentence("services.run_after.units", {"units": value})
            texts[f"{row}.{name}"] = units if value else ""
    return texts


def rows_shown(request: HttpRequest, found: After, form: Form, mistakes: Mapping[str, str]) -> list[RowShown]:
    """Baths of the form."""
    return [_row(request, found, row, form, mistakes) for row in found.rows]


def _row(request: HttpRequest, found: After, row: Row, form: Form, mistakes: Mapping[str, str]) -> RowShown:
    raw = {name: form.texts.get(f"{row.name}.{name}", "") for name in BATH_NAMES}
    fields = entries(BathBooked, BATH_NAMES, raw, mistakes, path=row.name, labels=LABELS, units=units_of(request))
    own = {one.name.rpartition(".")[2]: one for one in fields}
    own["bottle"] = _chosen(own["bottle"], found.bottles)
    own["waste"] = _chosen(own["waste"], found.waste)
    back = row.after == AfterUse.BACK.value or any(raw[name] for name in ("returned", "ordinary", "tabular"))
    first = FIRST["back" if back else "waste"]
    if back and raw["wasted"]:
        first = (*first, *(name for name in FIRST["waste"] if name not in first))
    if row.part > 1 or row.tops:
        first = first[:2]
    if not raw["tabular"]:
        first = tuple(name for name in first if name != "tabular")
    note = sentence(row.note, {"mixed_ml": row.mixed_ml, **row.told}) if row.note else ""
    return RowShown(
        row=row,
        note=note,
        first=tuple(own[name] for name in first),
        more=() if row.tops else tuple(one for name, one in own.items() if name not in first),
        wrong=any(one.mistake for name, one in own.items() if name not in first),
        kept=tuple(
            Kept(f"{name}.shown", value) for name, value in form.reckoned.items() if name.startswith(f"{row.name}.")
        ),
        told=told_said(form.told.get(row.name, ())),
    )


def told_said(told: Iterable[Said]) -> str:
    """What the amounts of a bath come to, in one line."""
    return " ".join(sentence(one.code, one.params) for one in told)


def _chosen(entry: Entry, bottles: Iterable[Any]) -> Entry:
    choices = [("", _("none"))]
    choices += [(str(one.pk), f"{one.mark}: {one.holds}") for one in sorted(bottles, key=lambda one: one.mark_key)]
    return with_choices((entry,), entry.name, choices)[0]


def water_entries(request: HttpRequest, form: Form, mistakes: Mapping[str, str]) -> tuple[Entry, ...]:
    """Field of the water from the tap."""
    raw = {WATER: form.texts.get(WATER, "")}
    return entries(RunBooked, (WATER,), raw, mistakes, labels=LABELS, units=units_of(request))


def film_entries(request: HttpRequest, form: Form, mistakes: Mapping[str, str]) -> list[tuple[Entry, ...]]:
    """Fields in which a person says how much film it was, a row a kind of sheets."""
    return [
        entries(
            FilmEntry,
            FILM_NAMES,
            {name: form.texts.get(f"{row}.{name}") or None for name in FILM_NAMES},
            mistakes,
            path=row,
            labels=LABELS,
            units=units_of(request),
        )
        for row in FILM_ROWS
    ]


def anew_said(found: After, form: Form) -> str:
    """Which fields were reckoned anew; empty where none was."""
    rows = {row.name: row for row in found.rows}
    names = []
    for name in form.anew:
        row, _dot, field = name.rpartition(".")
        said = LABELS[field]
        if row in rows:
            bath = rows[row].bath or rows[row].kind.value
            said = sentence("services.run_after.field_of_bath", {"bath": bath, "field": said})
        names.append(said)
    return sentence("services.run_after.follows", {"fields": names}) if names else ""


def fields_named(found: After) -> set[str]:
    """Names of all fields of the form, beside which a mistake can stand."""
    own = {f"{row.name}.{name}" for row in found.rows for name in _fields_of(row)}
    return own | {WATER, "film_not_known"} | {f"{row}.{name}" for row in FILM_ROWS for name in FILM_NAMES}


@never_cache
@require_POST
def reckon(request: HttpRequest, key: UUID) -> JsonResponse:
    """What follows from the fields as they stand, for the page's script; nothing is written.

    ``values`` by the fields that follow, ``told`` by the baths, ``mistakes`` by the fields, ``said`` what changed.
    """
    run = run_with_plan(key)
    if booked_of(run) is not None:
        return JsonResponse({"values": {}, "told": {}, "mistakes": {}, "said": ""})
    found = after_run(run)
    try:
        booking = booking_of_posted([row.name for row in found.rows], request.POST, units=units_of(request))
    except WetsideError as error:
        return JsonResponse({"values": {}, "told": {}, "mistakes": mistakes_of(error), "said": ""})
    form = form_posted(request, found, booking)
    names = _follow_names(found)
    return JsonResponse(
        {
            "values": {name: form.texts[name] for name in names if form.texts.get(name) == form.reckoned.get(name)},
            "told": {row.name: told_said(form.told.get(row.name, ())) for row in found.rows},
            "mistakes": wrong_in_form(request, found, form),
            "said": anew_said(found, form),
        }
    )


def wrong_in_form(request: HttpRequest, found: After, form: Form) -> dict[str, str]:
    """Mistakes of the amounts as they stand in the fields after what follows was reckoned, by the field."""
    booking = booking_of_posted([row.name for row in found.rows], form.texts, units=units_of(request))
    wrong = wrong_sums(found, booking)
    return mistakes_of(ManyErrors(wrong)) if wrong else {}
