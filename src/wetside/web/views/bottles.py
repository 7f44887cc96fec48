"""A bottle: its page, its form, entries into its ledger, and their undoing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wetside.adapters.clock import today
from wetside.errors import WetsideError
from wetside.planning.documents import evening as documents
from wetside.services.records import bottles as service
from wetside.services.records.bottles_entries import (
    Amount,
    BottleMore,
    ClearingEntry,
    Emptying,
    FilmEntry,
    Substance,
    read_entry,
)
from wetside.services.records.bottles_page import BottlePage, bottle_page
from wetside.services.records.bottles_rotation import MoveUp, move_up
from wetside.services.records.changes import bring_back, remove
from wetside.services.records.ledger import NewLine, book, undo
from wetside.web.forms.entry import raw_of_post, words_of
from wetside.web.views.asked import page_of, revision_of, units_of
from wetside.web.views.shelf_forms import fields, key_of, rest_of, to, with_choices

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

    from wetside.web.forms.entry import Entry

LABELS = {
    "holds": "Holds",
    "volume": "How much is in it",
    "capacity": "Serves, in units of film a litre",
    "price": "Price of a litre",
    "replenished": "Replenisher that has gone in",
    "opened": "Opened on",
    "mixed": "Mixed on",
    "form": "Stands there as",
    "role": "Is for",
}
ENTRY_LABELS = {
    "volume": "How much",
    "temp": "Temperature",
    "time": "Cleared in",
    "class": "Fixes as",
    "fresh": "The bath is fresh",
    "into": "Into",
    "second": "Second bath",
    "note": "Note",
}
SPARE_ROWS = 3


class Act(NamedTuple):
    """An entry that the page offers: its document, the fields it shows, what the button says."""

    document: type
    names: tuple[str, ...]
    button: str


ACTS: Mapping[str, Act] = {
    "drawn": Act(Amount, ("volume", "note"), "Book as drawn"),
    "returned": Act(Amount, ("volume", "note"), "Book as returned"),
    "counted": Act(Amount, ("volume", "note"), "Book the count"),
    "filled": Act(Amount, ("volume", "note"), "Book as filled in"),
    "film": Act(FilmEntry, ("size", "count", "class"), "Book the film"),
    "clearing": Act(ClearingEntry, ("time", "temp", "film", "class", "fresh"), "Keep the test"),
    "emptied": Act(Emptying, ("into", "note"), "Book as emptied"),
    "moved-up": Act(MoveUp, ("second", "into"), "Move the second bath up"),
}


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """Form of a new bottle."""
    if request.method != "POST":
        role = request.GET.get("role", "")
        return _form(request, {}, {"role": role}, None)
    raw, more = _sent(request)
    try:
        bottle = service.make_bottle(raw, more, timezone.now())
    except WetsideError as error:
        return _form(request, raw, more, error)
    return to("bottle", bottle.pk)


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, key: UUID) -> HttpResponse:
    """Form of a bottle that is there."""
    bottle = service.find_bottle(key)
    if request.method != "POST":
        return _form(request, *service.raw_of_bottle(bottle), None, bottle)
    raw, more = _sent(request)
    try:
        service.change_bottle(bottle, raw, more, revision_of(request))
    except WetsideError as error:
        return _form(request, raw, more, error, bottle)
    return to("bottle", key)


def _sent(request: HttpRequest) -> tuple[dict[str, Any], dict[str, Any]]:
    units = units_of(request)
    own = raw_of_post(documents.Bottle, service.OWN, request.POST, units=units)
    return own, raw_of_post(BottleMore, service.MORE, request.POST, units=units)


def _form(
    request: HttpRequest,
    raw: Mapping[str, Any],
    more: Mapping[str, Any],
    error: WetsideError | None,
    bottle: Any = None,
) -> HttpResponse:
    units = units_of(request)

    def own(*names: str) -> tuple[Entry, ...]:
        return fields(documents.Bottle, names, raw, error, labels=LABELS, units=units)

    def beside(*names: str) -> tuple[Entry, ...]:
        return fields(BottleMore, names, more, error, labels=LABELS, units=units)

    rows = [*more.get("contents", ()), *({} for _row in range(SPARE_ROWS))]
    context = {
        "bottle": bottle,
        "revision": bottle.revision if bottle else None,
        "fields": [
            *own("mark", "holds"),
            *beside("role", "form"),
            *(() if bottle else own("volume")),
            *beside("product", "dilution"),
        ],
        "dates": [*own("mixed"), *beside("opened"), *own("keeps_until")],
        "figures": own("capacity", "price", "replenished"),
        "contents": [
            fields(Substance, ("name", "percent"), row, error, path=f"contents[{place}]", units=units)
            for place, row in enumerate(rows, start=1)
        ],
        "wrong": rest_of(error, (*service.OWN, *service.MORE)),
    }
    return render(request, "web/shelf/bottle_form.html", context, status=422 if error else 200)


@require_safe
def show(request: HttpRequest, key: UUID) -> HttpResponse:
    """Page of a bottle."""
    return _page(request, key)


def _page(
    request: HttpRequest, key: UUID, failed: str = "", raw: Mapping[str, Any] | None = None, error: Any = None
) -> HttpResponse:
    page = bottle_page(key, today(), page_of(request))
    units = units_of(request)
    forms = [
        {
            "what": what,
            "said": _SAID[what],
            "button": act.button,
            "open": what == failed,
            "fields": _act_fields(
                what, act, page, (raw or {}) if what == failed else _start(what, page), error, failed, units
            ),
            "wrong": rest_of(error, act.names) if what == failed else [],
        }
        for what, act in ACTS.items()
        if _offered(what, page)
    ]
    context = {
        "page": page,
        "bottle": page.bottle,
        "forms": forms,
        "booked": key_of(request, "booked"),
        "history": [_version(version) for version in page.history],
        "quick_ml": page.quick_ml,
    }
    return render(request, "web/shelf/bottle.html", context, status=422 if error else 200)


_SAID = {
    "drawn": "Drawn",
    "returned": "Returned",
    "counted": "Counted",
    "filled": "Filled in",
    "film": "Film went through",
    "clearing": "Clearing test",
    "emptied": "Emptied",
    "moved-up": "Two baths: the second moves up",
}


def _offered(what: str, page: BottlePage) -> bool:
    """Entries that make sense for a bottle: no film through a wetting agent, no test in a developer."""
    role = page.bottle.role
    if role.startswith(service.WASTE):
        return what in ("filled", "counted", "emptied")
    if what == "moved-up":
        return bool(page.seconds)
    if what == "clearing":
        return role == "fixer"
    return what != "film" or role in ("developer", "stop", "fixer", "toner", "wash-aid")


def _start(what: str, page: BottlePage) -> dict[str, Any]:
    """What stands in the fields at first: film and temperature of the last test, so that the next can be compared."""
    if what == "clearing" and page.tests:
        last = page.tests[-1]
        return {"temp": f"{last.temp_c:g} C", "film": last.film, "class": last.film_class}
    return {}


def _act_fields(
    what: str, act: Act, page: BottlePage, raw: Mapping[str, Any], error: Any, failed: str, units: str
) -> tuple[Entry, ...]:
    made = fields(
        act.document, act.names, raw, error if what == failed else None, form=what, labels=ENTRY_LABELS, units=units
    )
    if what not in ("emptied", "moved-up"):
        return made
    made = with_choices(made, "second", [(str(one.pk), f"{one.mark}: {one.holds}") for one in page.seconds])
    vessels = [(str(one.pk), f"{one.mark}: {one.holds}") for one in page.waste]
    return with_choices(made, "into", vessels) if vessels else tuple(one for one in made if one.name != "into")


def _version(version: Any) -> dict[str, Any]:
    hidden = ("left_ml", "seen_units")
    changes = [(words_of(name), _told(old), _told(new)) for name, old, new in version.changes if name not in hidden]
    return {"at": version.at, "by": version.by, "why": version.why, "kind": version.kind, "changes": changes}


def _told(value: Any) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{name} {part}" for name, part in value.items()) or "–"
    return "–" if value in (None, "") else str(value)


@require_POST
def enter(request: HttpRequest, key: UUID, what: str) -> HttpResponse:
    """Add a line to the ledger."""
    act = ACTS.get(what)
    if act is None:
        return to("bottle", key)
    raw = raw_of_post(act.document, act.names, request.POST, units=units_of(request))
    try:
        entry = read_entry(act.document, raw)
        if what == "moved-up":
            moved = move_up(
                key,
                service.bottle_key(entry.second, "second") or key,
                timezone.now(),
                service.bottle_key(entry.into, "into"),
            )
            return to("bottle", moved.bottle_id, booked=moved.pk)
        line = _book(key, what, entry)
    except WetsideError as error:
        return _page(request, key, what, raw, error)
    return to("bottle", key, booked=line)


def _book(key: UUID, what: str, entry: Any) -> UUID:
    now = timezone.now()
    if what == "emptied":
        return service.empty(key, now, service.bottle_key(entry.into, "into"), entry.note or "")
    if what == "film":
        return book(key, service.film_line(entry), now).pk
    if what == "clearing":
        return book(key, service.clearing_line(entry), now).pk
    return book(key, NewLine(what, entry.volume_ml, note=entry.note or ""), now).pk


@require_POST
def undo_line(request: HttpRequest, key: UUID, line: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Undo a line, and what was booked with it."""
    bottles = undo(line, timezone.now())
    if any(bottle.pk == key and bottle.removed_at for bottle in map(service.fresh, bottles)):
        return to("shelf", removed=key)
    return to("bottle", key)


@require_POST
def take_away(request: HttpRequest, key: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Remove a bottle that was entered by mistake."""
    remove(service.find_bottle(key), timezone.now())
    return to("shelf", removed=key)


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:  # noqa: ARG001 (the framework gives it)
    """Bring a removed bottle back."""
    bring_back(service.find_bottle(key))
    return to("bottle", key)
