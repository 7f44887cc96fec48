"""Writing a bottle's ledger: lines are added, never changed; a mistake is undone by a line that says so.

The line and the sums beside the bottle are written in one transaction while the bottle's row is locked, so that two
who write at once lose nothing. What was booked together (a mixing, a bottle emptied into a waste vessel) is undone
together.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.db.models import Q

from wetside.errors import RefusedError, UnknownNameError
from wetside.records.models import Bottle, BottleLine, BottleLineKind, worker
from wetside.services.records.changes import change, remove
from wetside.services.records.ledger_fold import ML_DECIMALS, UNIT_DECIMALS, Booked, Sums, fold
from wetside.services.records.replenished import uncount_top_ups

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence
    from uuid import UUID

COLUMNS = (
    "kind",
    "change_ml",
    "area_units",
    "film_class",
    "clearing_s",
    "temp_c",
    "film",
    "fresh",
    "id",
    "undoes_id",
)


class NewLine(NamedTuple):
    """What is to be booked; ``amount_ml`` is never negative: its kind says which way it goes. [ml]"""

    kind: str
    amount_ml: float = 0.0
    area_units: float = 0.0
    film_class: str = ""
    clearing_s: float | None = None
    temp_c: float | None = None
    film: str = ""
    fresh: bool = False
    note: str = ""
    drawn_for: UUID | None = None


WITHOUT_FILM = (BottleLineKind.DRAWN, BottleLineKind.RETURNED, BottleLineKind.COUNTED)
"""Lines that judge nothing in a bottle that no film went through."""


def lines_of(bottles: Iterable[UUID], *, dated: bool = True, judging: bool = False) -> dict[UUID, list[Booked]]:
    """Ledgers of bottles, each in the order of its numbers; one query.

    Parameters
    ----------
    bottles : iterable of UUID
    dated : bool
        Whether the moments are wanted; a whole shelf is read twice as fast without.
    judging : bool
        Only lines by which a bottle can be judged: of one that no film went through, not what was drawn and counted.
    """
    found: dict[UUID, list[Booked]] = {key: [] for key in bottles}
    rows = BottleLine.objects.filter(bottle__in=list(found)).order_by("bottle", "number")
    if judging:
        seen = BottleLine.objects.filter(bottle__in=list(found), kind=BottleLineKind.FILM).order_by().values("bottle")
        rows = rows.filter(~Q(kind__in=WITHOUT_FILM) | Q(bottle__in=seen))
    # What undoes a line is of its bottle and its kind, so it stands in these rows: the table is not joined with itself,
    # which takes databases half a minute once their statistics say that the column is mostly empty.
    dates = ("at",) if dated else ()
    read = list(rows.values_list("bottle_id", "number", *dates, *COLUMNS))
    return booked_of_rows(found, read, dated=dated)


def booked_of_rows(
    bottles: Iterable[UUID], rows: Sequence[tuple[Any, ...]], *, dated: bool = False
) -> dict[UUID, list[Booked]]:
    """Lines of ledgers as they are judged, of rows that hold every line of a kind with what undoes it.

    Parameters
    ----------
    bottles : iterable of UUID
    rows : sequence of tuple
        Bottle, number, the moment if ``dated``, and :data:`COLUMNS`, in the order of the numbers.
    dated : bool
    """
    found: dict[UUID, list[Booked]] = {key: [] for key in bottles}
    gone = {row[-1] for row in rows}
    for bottle, number, *values, line, undoes in rows:
        counts = undoes is None and line not in gone
        found[bottle].append(Booked._make([number, *(() if dated else (None,)), *values, counts]))
    return found


def locked(bottles: Iterable[UUID]) -> dict[UUID, Bottle]:
    """Rows of bottles, locked until the transaction ends, always in the same order.

    Raises
    ------
    UnknownNameError
        If one is not there or was removed.
    """
    wanted = set(bottles)
    rows = Bottle.objects.select_for_update().filter(pk__in=wanted, removed_at=None).order_by("pk")
    found = {bottle.pk: bottle for bottle in rows}
    if len(found) < len(wanted):
        raise UnknownNameError("services.records.not_found", what="bottle")
    return found


def book(bottle: UUID, line: NewLine, at: dt.datetime) -> BottleLine:
    """Add a line to a bottle's ledger.

    Parameters
    ----------
    bottle : UUID
    line : NewLine
    at : datetime
        When it happened.

    Raises
    ------
    RefusedError
        If more is drawn than there is, or if nobody has said yet how much there is.
    """
    with transaction.atomic():
        return book_locked(locked([bottle])[bottle], line, at)


def book_locked(bottle: Bottle, line: NewLine, at: dt.datetime) -> BottleLine:
    """Add a line to the ledger of a bottle whose row is locked already; see :func:`book`."""
    booked = lines_of([bottle.pk])[bottle.pk]
    before = fold(booked)
    change_ml, area = _changes(bottle, line, before)
    number = booked[-1].number + 1 if booked else 1
    written = BottleLine.objects.create(
        bottle=bottle,
        number=number,
        at=at,
        by=worker(),
        kind=line.kind,
        change_ml=change_ml,
        area_units=area,
        film_class=line.film_class,
        clearing_s=line.clearing_s,
        temp_c=line.temp_c,
        film=line.film,
        fresh=line.fresh,
        note=line.note,
        drawn_for_id=line.drawn_for,
    )
    _keep(bottle, fold([*booked, Booked(number, at, line.kind, change_ml, area)]))
    if line.kind == BottleLineKind.EMPTIED:
        change(bottle, {"emptied_at": at}, why="emptied")
        bottle.emptied_at = at
    elif line.kind == BottleLineKind.FILLED and bottle.emptied_at is not None:
        change(bottle, {"emptied_at": None}, why="filled again")
        bottle.emptied_at = None
    return written


def _changes(bottle: Bottle, line: NewLine, before: Sums) -> tuple[float, float]:
    """What a line changes in the sums: liquid [ml] and film [units]."""
    amount = round(line.amount_ml, ML_DECIMALS)
    left = before.left_ml
    if line.kind == BottleLineKind.EMPTIED:
        return -(left or 0.0), -before.seen_units
    if line.kind == BottleLineKind.COUNTED:
        return round(amount - (left or 0.0), ML_DECIMALS), 0.0
    if line.kind in (BottleLineKind.DRAWN, BottleLineKind.RETURNED) and left is None:
        raise RefusedError("services.ledger.count_first", mark=bottle.mark)
    if line.kind == BottleLineKind.DRAWN:
        if left is not None and amount > left + 10.0**-ML_DECIMALS / 2:
            raise RefusedError("services.ledger.not_enough", mark=bottle.mark, left_ml=left, amount_ml=amount)
        return -amount, 0.0
    if line.kind in (BottleLineKind.FILLED, BottleLineKind.RETURNED):
        return amount, 0.0
    return 0.0, round(line.area_units, UNIT_DECIMALS)


def _keep(bottle: Bottle, sums: Sums) -> None:
    """Write the sums beside the bottle; the ledger is their history, the record keeps no state for them."""
    Bottle.objects.filter(pk=bottle.pk).update(left_ml=sums.left_ml, seen_units=sums.seen_units)
    bottle.left_ml, bottle.seen_units = sums


def booked_together(line: BottleLine) -> list[BottleLine]:
    """Lines that were written in one act with a line, itself among them: a mixing, an emptying into a waste vessel.

    They share the moment and the bottle that it was for; a filling by such an act is for its own bottle.
    """
    if line.drawn_for_id is None:
        return [line]
    return list(BottleLine.objects.filter(at=line.at, undoes=None, drawn_for=line.drawn_for_id).order_by("-number"))


def undo(line: UUID, at: dt.datetime) -> tuple[Bottle, ...]:
    """Undo a line, and whatever was booked together with it, by further lines.

    Parameters
    ----------
    line : UUID
    at : datetime
        When it is undone.

    Returns
    -------
    bottles : tuple of Bottle
        Whose ledgers were written to. A bottle that was made by the mixing which is undone here is removed with it.

    Raises
    ------
    RefusedError
        If it undoes another or was undone already, or if later lines build upon it.
    UnknownNameError
        If there is no such line.
    """
    with transaction.atomic():
        found = BottleLine.objects.filter(pk=line).first()
        if found is None:
            raise UnknownNameError("services.records.not_found", what="line")
        if found.undoes_id is not None:
            raise RefusedError("services.ledger.undo_of_undo")
        together = booked_together(found)
        bottles = locked({one.bottle_id for one in together})
        ledgers = lines_of(bottles)
        for one in together:
            _undo_locked(bottles[one.bottle_id], one, ledgers, at)
        uncount_top_ups(bottles, together)
        _remove_if_made_so(bottles, together, ledgers, at)
        return tuple(bottles.values())


def _undo_locked(bottle: Bottle, line: BottleLine, ledgers: Mapping[UUID, list[Booked]], at: dt.datetime) -> None:
    booked = ledgers[bottle.pk]
    place = next(place for place, one in enumerate(booked) if one.number == line.number)
    if not booked[place].counts:
        raise RefusedError("services.ledger.undone_already", mark=bottle.mark, number=line.number)
    before, after = fold(booked), fold(booked, without=line.number)
    if after.left_ml is not None and after.left_ml < 0:
        raise RefusedError("services.ledger.built_upon", mark=bottle.mark, number=line.number, short_ml=-after.left_ml)
    change_ml = round((after.left_ml or 0.0) - (before.left_ml or 0.0), ML_DECIMALS)
    area = round(after.seen_units - before.seen_units, UNIT_DECIMALS)
    number = booked[-1].number + 1
    BottleLine.objects.create(
        bottle=bottle,
        number=number,
        at=at,
        by=worker(),
        kind=line.kind,
        change_ml=change_ml,
        area_units=area,
        film_class=line.film_class,
        clearing_s=line.clearing_s,
        temp_c=line.temp_c,
        film=line.film,
        fresh=line.fresh,
        undoes=line,
    )
    booked[place] = booked[place]._replace(counts=False)
    booked.append(Booked(number, at, line.kind, change_ml, area, counts=False))
    _keep(bottle, after)
    _mend_emptied(bottle, booked)


def _mend_emptied(bottle: Bottle, booked: Sequence[Booked]) -> None:
    """A bottle is empty as long as the last of its fillings and emptyings that count is an emptying."""
    turns = [one for one in booked if one.counts and one.kind in (BottleLineKind.FILLED, BottleLineKind.EMPTIED)]
    emptied_at = turns[-1].at if turns and turns[-1].kind == BottleLineKind.EMPTIED else None
    if bottle.emptied_at != emptied_at:
        change(bottle, {"emptied_at": emptied_at}, why="undone")
        bottle.emptied_at = emptied_at


def _remove_if_made_so(
    bottles: Mapping[UUID, Bottle],
    together: Iterable[BottleLine],
    ledgers: Mapping[UUID, list[Booked]],
    at: dt.datetime,
) -> None:
    """Remove a bottle that the undone act had made, if nothing else was booked on it."""
    for line in together:
        made = line.kind == BottleLineKind.FILLED and line.number == 1 and line.drawn_for_id == line.bottle_id
        if made and not any(one.counts for one in ledgers[line.bottle_id]):
            remove(bottles[line.bottle_id], at, why="mixing undone")


def unlike_its_ledger() -> list[tuple[Bottle, Sums]]:
    """Bottles whose kept sums differ from their ledger, each with what the ledger says; empty in a sound archive."""
    bottles = list(Bottle.objects.all())
    ledgers = lines_of(bottle.pk for bottle in bottles)
    return [
        (bottle, sums)
        for bottle in bottles
        if (sums := fold(ledgers[bottle.pk])) != Sums(bottle.left_ml, bottle.seen_units)
    ]


def page_of_ledger(bottle: Bottle, page: int, lines: int = 25) -> tuple[list[BottleLine], int]:
    """Lines of a ledger, the newest first, and how many pages there are.

    Parameters
    ----------
    bottle : Bottle
    page : int
        Counted from 1; one that is not there gives the nearest.
    lines : int
        Of a page.
    """
    rows = BottleLine.objects.filter(bottle=bottle)
    pages = max(1, -(-rows.count() // lines))
    page = min(max(1, page), pages)
    shown = rows.order_by("-number").select_related("drawn_for", "undoes", "undone_by", "bottle")
    return list(shown[(page - 1) * lines : page * lines]), pages


def drawn_last(bottle: Bottle) -> float | None:
    """The amount that was drawn last from a bottle, which is offered for the next time. [ml]"""
    rows = BottleLine.objects.filter(~Q(change_ml=0), bottle=bottle, kind=BottleLineKind.DRAWN, undoes=None)
    last = rows.order_by("-number").values_list("change_ml", flat=True).first()
    return None if last is None else -float(last)
