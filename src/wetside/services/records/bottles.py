"""Bottles: made, corrected, emptied; their page; and the evening file's bottles that stand on the shelf."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple
from uuid import UUID

from django.db import transaction
from django.db.models import F, FilteredRelation, Q

from wetside.errors import ManyErrors, Place, RefusedError, UnknownNameError, WetsideError
from wetside.records.models import Bottle, BottleForm
from wetside.records.models import BottleLineKind as LineKind
from wetside.services.records.bottles_entries import BottleMore, read_entry
from wetside.services.records.changes import change, find, make
from wetside.services.records.documents import columns_and_facts, document_of, raw_of
from wetside.services.records.ledger import COLUMNS, NewLine, book_locked, booked_of_rows, lines_of, locked
from wetside.services.records.ledger_fold import since_emptied
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Mapping

    from django.db.models import QuerySet

    from wetside.services.records.bottles_entries import ClearingEntry, FilmEntry
    from wetside.services.records.ledger_fold import Booked

OWN = ("mark", "holds", "volume", "mixed", "keeps_until", "capacity", "price", "replenished")
"""Keys of the evening file's bottle that a page asks for; clearing times stand in the ledger."""
MORE = ("role", "product", "form", "dilution", "opened", "contents")
"""Keys of :class:`BottleMore`."""
WASTE = "waste-"
GONE_PAGE = 15
"""Bottles on a page of those that are gone. Our choice."""


def standing() -> QuerySet[Any]:
    """Bottles on the shelf: neither removed nor emptied."""
    return Bottle.objects.filter(removed_at=None, emptied_at=None)


class Gone(NamedTuple):
    """A bottle that stands there no more, and why: ``emptied`` or ``removed``."""

    bottle: Bottle
    why: str
    at: dt.datetime


class GonePage(NamedTuple):
    """A page of the bottles that stand there no more, how many there are in all, and which pages lie beside it."""

    total: int
    bottles: tuple[Gone, ...]
    previous: int | None
    next: int | None


def gone(page: int = 1) -> GonePage:
    """Bottles that were emptied or removed, the newest first.

    Parameters
    ----------
    page : int
        From 1; what lies outside is the nearest.
    """
    rows = Bottle.objects.filter(~Q(emptied_at=None) | ~Q(removed_at=None))
    count = rows.count()
    pages = max(1, -(-count // GONE_PAGE))
    page = min(max(page, 1), pages)
    here = rows.order_by("-changed_at", "pk")[(page - 1) * GONE_PAGE : page * GONE_PAGE]
    found = (
        Gone(one, "removed", one.removed_at) if one.removed_at else Gone(one, "emptied", one.emptied_at) for one in here
    )
    return GonePage(count, tuple(found), page - 1 if page > 1 else None, page + 1 if page < pages else None)


class Read(NamedTuple):
    """Columns of a bottle, and what its ledger begins with: volume [ml] and film [units of 516 cm2]."""

    values: dict[str, Any]
    volume_ml: float | None
    seen_units: float


def read_bottle(raw: Mapping[str, Any], more: Mapping[str, Any]) -> Read:
    """A bottle from what a page sent, or from an evening file's bottle and its role.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken, of both tables at once.
    """
    found: list[Any] = []
    errors: list[WetsideError] = []
    for kind, given in (("bottle", raw), (BottleMore, more)):
        try:
            found.append(document_of(kind, given) if isinstance(kind, str) else read_entry(kind, given))
        except ManyErrors as error:
            errors.extend(error.errors)
        except WetsideError as error:
            errors.append(error)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    own, rest = found
    values = columns_and_facts("bottle", own)
    volume_ml, seen_units = values.pop("left_ml"), values.pop("seen_units")
    values |= {
        "role": str(rest.role),
        "product": rest.product or "",
        "form": str(rest.form) if rest.form else "",
        "dilution": rest.dilution.text if rest.dilution else "",
        "opened": rest.opened,
        "contents": {one.name: one.percent for one in rest.contents},
    }
    return Read(values, volume_ml, seen_units)


def raw_of_bottle(bottle: Bottle) -> tuple[dict[str, Any], dict[str, Any]]:
    """What stands in the fields of a bottle's form, in plain form."""
    more: dict[str, Any] = {
        "role": bottle.role,
        "product": bottle.product or None,
        "form": bottle.form or None,
        "dilution": bottle.dilution or None,
        "opened": bottle.opened.isoformat() if bottle.opened else None,
        "contents": [{"name": name, "percent": f"{percent:g}"} for name, percent in bottle.contents.items()],
    }
    return raw_of("bottle", bottle), {name: value for name, value in more.items() if value is not None}


def make_bottle(raw: Mapping[str, Any], more: Mapping[str, Any], at: dt.datetime) -> Bottle:
    """Put a bottle on the shelf; its volume is the first line of its ledger, film that it has seen the next.

    Raises
    ------
    WetsideError
        With the fields of what cannot be taken; or if its mark stands on the shelf already.
    """
    read = read_bottle(raw, more)
    with transaction.atomic():
        bottle = make(Bottle, read.values)
        if read.volume_ml is not None:
            book_locked(bottle, NewLine("filled", read.volume_ml), at)
        if read.seen_units > 0:
            book_locked(bottle, NewLine("film", area_units=read.seen_units, film_class="ordinary"), at)
    return bottle


def change_bottle(bottle: Bottle, raw: Mapping[str, Any], more: Mapping[str, Any], revision: int | None) -> Bottle:
    """Correct what is said of a bottle; how much is in it stands in the ledger alone.

    Raises
    ------
    WetsideError
        As :func:`make_bottle`; or if it was changed meanwhile.
    """
    values = read_bottle(raw, more).values
    # Clearing times of an imported evening stand in the same place; a page that does not show them keeps them.
    values["facts"] = {**{k: v for k, v in bottle.facts.items() if k not in OWN}, **values["facts"]}
    return change(bottle, values, revision=revision)


def empty(bottle: UUID, at: dt.datetime, into: UUID | None = None, note: str = "") -> UUID:
    """Book a bottle as emptied, into a waste vessel where one is named; both lines are undone together.

    Returns
    -------
    line : UUID
        Of the line in the bottle's ledger.

    Raises
    ------
    RefusedError
        If the vessel collects something else.
    """
    with transaction.atomic():
        rows = locked([bottle] if into is None else [bottle, into])
        one = rows[bottle]
        left = one.left_ml
        if into is not None:
            vessel = rows[into]
            if into == bottle or not vessel.role.startswith(WASTE):
                raise RefusedError("services.bottles.not_for_waste", mark=vessel.mark)
            if not takes_waste_of(vessel.role, one.role):
                raise RefusedError("services.bottles.other_waste", mark=one.mark, vessel=vessel.mark)
        line = book_locked(one, NewLine("emptied", note=note, drawn_for=into), at)
        if into is not None and left:
            book_locked(rows[into], NewLine("filled", left, note=one.mark, drawn_for=into), at)
    return line.pk


WASTE_OF_ROLE = {
    "developer": "waste-developer",
    "fixer": "waste-fixer",
    "toner": "waste-toner",
}
"""Waste vessel of a role; fixer holds silver and is kept by itself, so is toner."""


def takes_waste_of(vessel_role: str, role: str) -> bool:
    """Whether a waste vessel collects what a bottle of a role holds: only its own kind."""
    return role.startswith(WASTE) is False and WASTE_OF_ROLE.get(role) == vessel_role


def film_line(entry: FilmEntry) -> NewLine:
    """Line of the ledger for film that went through."""
    size = entry.size
    note = f"{entry.count} x {size.name}"
    return NewLine("film", area_units=size.area_units * entry.count, film_class=str(entry.film_class), note=note)


def clearing_line(entry: ClearingEntry) -> NewLine:
    """Line of the ledger for a clearing test."""
    return NewLine(
        "clearing",
        clearing_s=entry.time_s,
        temp_c=entry.temp_c,
        film=entry.film,
        film_class=str(entry.film_class),
        fresh=entry.fresh,
    )


def find_bottle(key: UUID) -> Bottle:
    """Bottle by its identity, emptied and removed ones too.

    Raises
    ------
    UnknownNameError
        If there is none.
    """
    return find(Bottle, key, removed=True)


def fresh(bottle: Bottle) -> Bottle:
    """Bottle as it stands in the database now."""
    return find_bottle(bottle.pk)


def with_ledger(key: UUID) -> tuple[Bottle, list[Booked]]:
    """Find a bottle, emptied and removed ones too, with its ledger."""
    bottle = find_bottle(key)
    return bottle, lines_of([bottle.pk])[bottle.pk]


def bottle_key(text: str | None, field: str) -> UUID | None:
    """Identity of the bottle that a page chose in a field; None where it chose none.

    Raises
    ------
    UnknownNameError
        If it is none.
    """
    if not text:
        return None
    try:
        return UUID(text)
    except ValueError:
        raise UnknownNameError("services.records.not_found", what="bottle", place=Place(field=field)) from None


def evening_bottles(
    chosen: Collection[UUID] | None = None, *, diluted: Collection[str] = (), marked: Collection[str] = ()
) -> dict[UUID, dict[str, Any]]:
    """Bottles on the shelf as an evening file has them, with the newest clearing times of their ledgers; one query.

    Parameters
    ----------
    chosen : collection of UUID, optional
        Only these.
    diluted : collection of str
        Plain names of developers that are to be diluted: a bottle of such a name in which a working solution stands is
        left out, for the planner goes by names and would dilute it once more.
    marked : collection of str
        Plain marks that a bath asks for by themselves; these bottles stay.

    Returns
    -------
    rows : dict
        By the bottles' identities, in the order of their marks.

    Notes
    -----
    A clearing time goes along only beside a fresh one with the same film at the same temperature: the planner compares
    the two as they stand.
    """
    from wetside.services.records.bottles_judged import fresh_beside

    asked = standing().exclude(role__startswith=WASTE)
    if chosen is not None:
        asked = asked.filter(pk__in=chosen)
    lines = FilteredRelation("ledger", condition=Q(ledger__kind__in=(LineKind.CLEARING, LineKind.EMPTIED)))
    told = {f"line_{name}": F(f"lines__{name}") for name in ("number", *COLUMNS)}
    bottles: dict[UUID, Bottle] = {}
    ledgers: dict[UUID, list[tuple[Any, ...]]] = {}
    # A row a line: the bottle stands in each of them.
    for row in asked.annotate(lines=lines, **told).order_by("mark_key", "lines__number"):
        bottles.setdefault(row.pk, row)
        ledger = ledgers.setdefault(row.pk, [])
        if row.line_number is not None:
            ledger.append((row.pk, row.line_number, *(getattr(row, f"line_{name}") for name in COLUMNS)))
    found = {}
    for key, bottle in bottles.items():
        ready = bottle.form == BottleForm.WORKING and plain_name(bottle.holds) in diluted
        if ready and bottle.mark_key not in marked:
            continue
        raw = raw_of("bottle", bottle)
        now, fresh = fresh_beside(since_emptied(booked_of_rows([key], ledgers[key])[key]))
        if now is not None and fresh is not None:
            raw |= {"clearing": f"{now.clearing_s:g} s", "fresh_clearing": f"{fresh.clearing_s:g} s"}
        found[key] = raw
    return found
