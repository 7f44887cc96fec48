"""Holders with their sides and notches, and lots of film with their dates."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NamedTuple
from uuid import UUID

from django.db import transaction
from django.db.models import Count, Prefetch, Q

from wetside.adapters.kinds import READERS
from wetside.errors import ConflictError, InputError, OutOfRangeError, Place, UnreadableError
from wetside.planning.documents.evening import Sheet as SheetDocument
from wetside.planning.documents.keys import declared_keys
from wetside.records.models import Film, FilmLot, Holder, HolderSide, Sheet, SideState
from wetside.services.records import changes
from wetside.services.records.sheets_names import SIDE_WORDS, UNDEVELOPED, film_of, holder_and_side
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from wetside.errors import WetsideError

PAGE = 40
"""Holders on a page; our choice."""
MOST_IN_SPAN = 200
"""Holders of one span; more is a slip of the pen. Our choice."""
USUAL_SIDES = ("left", "right")
EXPIRES_SOON_DAYS = 60
"""A lot that expires within so many days is told to expire soon. Our choice. [days]"""

_SPAN = re.compile(r"(.*?)([0-9]{1,6})\s*(?:to|-|\N{EN DASH}|\.\.)\s*\1?([0-9]{1,6})", re.IGNORECASE | re.ASCII)


class SideShown(NamedTuple):
    """A side, the sheet that waits in it, and what is said of its lot."""

    side: HolderSide
    sheet: Sheet | None
    lot_says: str


class HolderShown(NamedTuple):
    """A holder and its sides."""

    holder: Holder
    sides: tuple[SideShown, ...]


class HolderPage(NamedTuple):
    """A page of holders, and how many sides stand in each state."""

    total: int
    holders: tuple[HolderShown, ...]
    states: dict[str, int]
    page: int
    pages: int


def holders_of_span(text: str) -> list[str]:
    """Names of holders in a text: ``3 to 10``, ``3-10``, ``2, 5, 7``, ``old 1 to old 4``, or one name.

    Raises
    ------
    InputError
        If it is empty, runs backwards, or spans too many.

    Examples
    --------
    >>> holders_of_span("3 to 5, 9"), holders_of_span("Tall 1 to 2")
    (['3', '4', '5', '9'], ['Tall 1', 'Tall 2'])
    """
    place = Place(field="holders")
    names: list[str] = []
    for part in (part.strip() for part in re.split(r"[,;\n]", text)):
        span = _SPAN.fullmatch(part)
        if span is None:
            names += [" ".join(part.split())] if part else []
            continue
        first, last = int(span[2]), int(span[3])
        if last < first:
            raise OutOfRangeError("services.holders.backwards", place=place, value=part, first=last, last=first)
        if last - first >= MOST_IN_SPAN:
            raise OutOfRangeError(
                "services.holders.span_too_long", place=place, count=last - first + 1, most=MOST_IN_SPAN
            )
        width = len(span[2]) if span[2].startswith("0") else 0
        names += [f"{span[1]}{number:0{width}d}" for number in range(first, last + 1)]
    names = list(dict.fromkeys(names))
    if not names:
        raise InputError("services.holders.none_named", place=place)
    if len(names) > MOST_IN_SPAN:
        raise OutOfRangeError("services.holders.span_too_long", place=place, count=len(names), most=MOST_IN_SPAN)
    long = [name for name in names if len(name) > 40]
    if long:
        raise OutOfRangeError("services.holders.name_too_long", place=place, value=long[0], most=40)
    return names


def make_holders(text: str, *, size: str = "", sides: Iterable[str] = USUAL_SIDES, notch: str = "") -> list[Holder]:
    """Make holders with their empty sides; all of them or none.

    Parameters
    ----------
    text : str
        As :func:`holders_of_span` reads it.
    size : str
        Format of their sheets, as typed; may be empty.
    sides : iterable of str
        Names of the sides.
    notch : str
        The user's own code cut into the flap; for one holder only.

    Raises
    ------
    WetsideError
        If a name is taken, the size cannot be read, or one notch is given to several holders.
    """
    names = holders_of_span(text)
    if notch and len(names) > 1:
        raise ConflictError("services.holders.one_notch", place=Place(field="notch"), count=len(names))
    called = [_side_name(side) for side in sides if side.strip()]
    if not called or len(set(map(plain_name, called))) != len(called):
        raise InputError("services.holders.sides", place=Place(field="sides"))
    with transaction.atomic():
        holders = []
        for name in names:
            values = {"name": name, "size": size_name(size), "notch": notch_text(notch)}
            holder = changes.make(Holder, values)
            for side in called:
                changes.make(HolderSide, {"holder": holder, "side": side})
            holders.append(holder)
    return holders


def _side_name(text: str) -> str:
    word = " ".join(text.split())[:40]
    return SIDE_WORDS.get(word.casefold(), word)


def size_name(text: str) -> str:
    """Name of a format as typed; empty stays empty.

    Raises
    ------
    WetsideError
        If it cannot be read.
    """
    if not text.strip():
        return ""
    try:
        return str(READERS["size"](text, declared_keys(SheetDocument)["size"]).name)
    except InputError as error:
        raise error.at(Place(field="size")) from None


def notch_text(text: str) -> str:
    """The user's notch code, as it is compared: single blanks.

    Raises
    ------
    OutOfRangeError
        If it is longer than a flap is wide.
    """
    text = " ".join(text.split())
    if len(text) > 40:
        raise OutOfRangeError("services.holders.name_too_long", place=Place(field="notch"), value=text, most=40)
    return text


def change_holder(holder: Holder, *, name: str, size: str, notch: str, note: str, revision: int | None) -> Holder:
    """Correct a holder's name, size, notch and note.

    Raises
    ------
    WetsideError
        If the name is empty or taken, or the holder was changed meanwhile.
    """
    name = " ".join(name.split())
    if not name:
        raise InputError("services.holders.none_named", place=Place(field="name"))
    if len(name) > 40:
        raise OutOfRangeError("services.holders.name_too_long", place=Place(field="name"), value=name, most=40)
    values = {"name": name, "size": size_name(size), "notch": notch_text(notch), "note": note}
    return changes.change(holder, values, revision=revision)


def remove_holder(holder: Holder, at: dt.datetime) -> Holder:
    """Take a holder away, its sides with it.

    Raises
    ------
    ConflictError
        If film lies in one of its sides.
    """
    with transaction.atomic():
        sides = list(HolderSide.kept.filter(holder=holder))
        full = [side for side in sides if side.state in (SideState.LOADED, SideState.EXPOSED, SideState.SUSPECT)]
        if full:
            raise ConflictError("services.holders.not_empty", what=str(holder), sides=[side.side for side in full])
        for side in sides:
            changes.remove(side, at)
        return changes.remove(holder, at)


def bring_holder_back(holder: Holder) -> Holder:
    """Undo the removal of a holder and of the sides that went with it.

    Raises
    ------
    ConflictError
        If its name was taken meanwhile.
    """
    with transaction.atomic():
        for side in HolderSide.objects.filter(holder=holder, removed_at=holder.removed_at):
            changes.bring_back(side)
        return changes.bring_back(holder)


def holder_page(
    today: dt.date, page: int = 1, *, state: str = "", notch: str = "", removed: bool = False
) -> HolderPage:
    """A page of holders with their sides.

    Parameters
    ----------
    today : date
    page : int
        From 1; what lies outside is the nearest.
    state : str
        Only holders with a side in this state.
    notch : str
        Only holders whose notch this is: the holder behind a mark seen on a negative.
    removed : bool
        The removed ones instead.
    """
    holders = Holder.objects.exclude(removed_at=None) if removed else Holder.kept.all()
    if notch:
        holders = holders.filter(notch__iexact=" ".join(notch.split()))
    if state in SideState.values:
        holders = holders.filter(pk__in=HolderSide.kept.filter(state=state).values("holder_id"))
    sides = HolderSide.kept.select_related("film", "lot").order_by("made_at", "side")
    waits = Sheet.kept.filter(state__in=UNDEVELOPED)
    # Numbers in their order: 2 stands before 10.
    ordered = sorted(holders.values_list("pk", "name_key"), key=lambda row: _counted(row[1]))
    count = len(ordered)
    pages = max(1, -(-count // PAGE))
    page = min(max(page, 1), pages)
    here = [pk for pk, _ in ordered[(page - 1) * PAGE : page * PAGE]]
    found = holders.filter(pk__in=here).prefetch_related(
        Prefetch("sides", queryset=sides, to_attr="kept_sides"),
        Prefetch("kept_sides__sheets", queryset=waits, to_attr="waiting"),
    )
    by_key = {holder.pk: holder for holder in found}
    shown = tuple(
        HolderShown(by_key[pk], tuple(_side_shown(side, today) for side in by_key[pk].kept_sides)) for pk in here
    )
    states = dict(
        HolderSide.kept.filter(holder__removed_at=None).order_by().values_list("state").annotate(count=Count("pk"))
    )
    return HolderPage(count, shown, states, page, pages)


def _counted(name: str) -> tuple[tuple[int, int, str], ...]:
    parts = re.findall(r"[0-9]+|[^0-9]+", name)
    return tuple((0, int(part), "") if part.isascii() and part.isdigit() else (1, 0, part) for part in parts)


def _side_shown(side: Any, today: dt.date) -> SideShown:
    return SideShown(side, side.waiting[0] if side.waiting else None, lot_says(side.lot, today))


def lot_says(lot: FilmLot | None, today: dt.date) -> str:
    """Whether a lot is ``expired`` or expires ``soon``; empty where neither is known."""
    if lot is None or lot.expires is None:
        return ""
    days = (lot.expires - today).days
    return "expired" if days < 0 else "soon" if days <= EXPIRES_SOON_DAYS else ""


def lots(today: dt.date, film: Film | None = None) -> list[tuple[FilmLot, str, int]]:
    """Lots of film, each with what its date says and how many sheets of it are kept."""
    found = FilmLot.kept.select_related("film").annotate(used=Count("sheets", filter=Q(sheets__removed_at=None)))
    if film is not None:
        found = found.filter(film=film)
    return [(lot, lot_says(lot, today), lot.used) for lot in found.order_by("expires", "number")[:200]]


def keep_lot(
    film: str, number: str, *, size: str = "", expires: str = "", bought: str = "", make_film: bool = False
) -> FilmLot:
    """Keep a lot of a film.

    Parameters
    ----------
    film : str
        Name of the film.
    number : str
        As it stands on the box.
    size, expires, bought : str
        As typed; may be empty.
    make_film : bool
        Whether a film that is not known is made with just its name.

    Raises
    ------
    WetsideError
        With the field of what cannot be taken.
    """
    errors: list[WetsideError] = []
    number = " ".join(number.split())[:80]
    if not number:
        raise InputError("services.holders.lot_number", place=Place(field="number"))
    with transaction.atomic():
        found = film_of(" ".join(film.split()), errors, make_film=make_film)
        if found is None:
            raise errors[0]
        values = {"film": found, "number": number, "size": size_name(size), "expires": day_of(expires, "expires")}
        return changes.make(FilmLot, {**values, "bought": _count_of(bought)})


def _count_of(text: str) -> int | None:
    if not text.strip():
        return None
    text = text.strip()
    if text.isascii() and text.isdigit() and len(text) < 10 and 0 < int(text) <= 100_000:
        return int(text)
    raise UnreadableError("services.holders.count", place=Place(field="bought"), value=text[:40])


def day_of(text: str, field: str) -> dt.date | None:
    """Day as typed; None where nothing is.

    Raises
    ------
    UnreadableError
        If it is no day.
    """
    if not text.strip():
        return None
    try:
        day: dt.date = READERS["date"](text, declared_keys(SheetDocument)["exposed"]._replace(name=field))
    except InputError as error:
        raise error.at(Place(field=field)) from None
    return day


def sides_named(text: str) -> list[HolderSide]:
    """Sides of a text: ``3 to 10``, ``3 to 10, both sides`` (all of them), ``3 left, 4 right``.

    Raises
    ------
    WetsideError
        If a holder or a side is not kept.
    """
    both = re.sub(r"[,\s]*\b(both|all)\s+sides?\b", "", text, flags=re.IGNORECASE)
    sides: list[HolderSide] = []
    for name in holders_of_span(both):
        holder = Holder.kept.filter(name_key=plain_name(name)).first()
        if holder is not None:
            sides += list(HolderSide.kept.filter(holder=holder).order_by("made_at", "side"))
            continue
        named = holder_and_side(name)
        found = (
            [
                side
                for side in HolderSide.kept.filter(holder__name_key=plain_name(named[0]), holder__removed_at=None)
                if plain_name(side.side) == plain_name(named[1])
            ]
            if named
            else []
        )
        if not found:
            raise InputError("services.holders.no_such", place=Place(field="holders"), value=name)
        sides += found
    return list(dict.fromkeys(sides))


class Removed(NamedTuple):
    """A holder or a lot that was removed and can be brought back."""

    kind: str
    key: UUID
    name: str


def removed_by_key(text: str) -> Removed | None:
    """Holder or lot that was just removed; None where there is none, or it is back."""
    try:
        key = UUID(text)
    except ValueError:
        return None
    holder = Holder.objects.filter(pk=key).exclude(removed_at=None).first()
    if holder is not None:
        return Removed("holder", key, holder.name)
    lot = FilmLot.objects.filter(pk=key).exclude(removed_at=None).first()
    return Removed("lot", key, lot.number) if lot is not None else None


def holder_by_key(key: UUID, *, removed: bool = False) -> Holder:
    """Holder by its identity.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    return changes.find(Holder, key, removed=removed)


def sheets_of(holder: Holder, most: int = 100) -> list[Sheet]:
    """Sheets that were exposed in a holder, the newest first: a leak or soft focus is found again by its holder."""
    # How sides were written comes from the index alone; only what was this holder is read.
    written = Sheet.kept.filter(holder__istartswith=holder.name).order_by().values_list("holder", flat=True).distinct()
    sides = [side for side in written if _is_of(side, holder)]
    found = Sheet.kept.filter(holder__in=sides).select_related("film").order_by("-exposed", "-made_at")
    return list(found[:most])


def _is_of(side: str, holder: Holder) -> bool:
    named = holder_and_side(side)
    return named is not None and plain_name(named[0]) == holder.name_key


def remove_lot(key: UUID, at: dt.datetime) -> FilmLot:
    """Take a lot away; sheets keep it.

    Raises
    ------
    RefusedError
        If it is removed already.
    """
    return changes.remove(changes.find(FilmLot, key, removed=True), at)


def bring_lot_back(key: UUID) -> FilmLot:
    """Undo the removal of a lot.

    Raises
    ------
    ConflictError
        If its number was taken meanwhile.
    """
    return changes.bring_back(changes.find(FilmLot, key, removed=True))
