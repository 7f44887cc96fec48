"""Two fixing baths in turn: the used first bath goes, the second moves up, and its count begins anew.

As second bath it met film that was nearly fixed; its silver and its strength stay, and so do the clearing times of when
it was fresh.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import transaction

from wetside.chemistry.clearing import advice_for_used_fixer
from wetside.chemistry.fixer_baths import PROMOTIONS
from wetside.errors import Place, RefusedError
from wetside.planning.documents.keys import kept_table, key
from wetside.records.models import BottleLine
from wetside.services.records.bottles import WASTE, takes_waste_of
from wetside.services.records.bottles_judged import SPENT, Judged
from wetside.services.records.ledger import NewLine, book_locked, lines_of, locked
from wetside.services.records.ledger_fold import since_emptied
from wetside.services.records.shelf_told import Told, all_told

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable
    from uuid import UUID

    from wetside.records.models import Bottle

MOST_STEPS = 20
"""Baths that a chain is followed back through. Our choice."""


@kept_table
class MoveUp:
    """The second bath that moves up, and where the first one goes."""

    second: str = key("second", "name", "Fixer that film meets second.")
    into: str | None = key("into", "name", "Waste vessel that takes the first bath.", default=None)


def promotions_of(bottle: UUID) -> int:
    """How often a second bath has moved up since both were new, along the baths that this one took over from. [1]"""
    count = 0
    here = bottle
    while count < MOST_STEPS:
        rows = BottleLine.objects.filter(drawn_for=here, kind="emptied", undoes=None, undone_by=None)
        before = rows.exclude(bottle=here).exclude(drawn_for__role__startswith=WASTE).order_by("-at").first()
        if before is None:
            return count
        here = before.bottle_id
        count += 1
    return count


def second_baths(bottle: Bottle, others: Iterable[Bottle]) -> list[Bottle]:
    """Fixers that could move up behind a bottle: of one dilution, and with something in them."""
    if bottle.role != "fixer":
        return []
    return [one for one in others if one.role == "fixer" and one.left_ml and one.dilution == bottle.dilution]


def advice_of(bottle: Bottle, judged: Judged, *, second: bool) -> tuple[Told, ...]:
    """What to do with a fixer that is spent; nothing for others.

    Parameters
    ----------
    bottle : Bottle
    judged : Judged
    second : bool
        Whether another fixer stands there that could move up.
    """
    spent = any(line.state == SPENT and line.share is not None for line in judged.lines)
    if bottle.role != "fixer" or not spent:
        return ()
    # No sheets are to be fixed again here, so that no time is named: any positive one will do.
    notes = advice_for_used_fixer(1.0, 0, second_bath=second)
    if second and promotions_of(bottle.pk) >= PROMOTIONS:
        notes = tuple(
            ("services.renew_both", {}) if code == "chemistry.fixer.promote" else (code, params)
            for code, params in notes
        )
    return all_told(notes)


def move_up(first: UUID, second: UUID, at: dt.datetime, into: UUID | None = None) -> BottleLine:
    """Empty the first bath, and let the second begin its count anew as the first; undone as one.

    Parameters
    ----------
    first, second : UUID
    at : datetime
    into : UUID, optional
        Waste vessel of the first bath.

    Returns
    -------
    line : BottleLine
        Of the bath that moved up.

    Raises
    ------
    RefusedError
        If either is no fixer, nothing is known to be in the second, the two are one, or it has moved up three times.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 3; anchell-2008, p. 107: after three promotions both are renewed.
    """
    with transaction.atomic():
        rows = locked([first, second, *([into] if into is not None else [])])
        old, new = rows[first], rows[second]
        if first == second or old.role != "fixer" or new.role != "fixer" or not new.left_ml:
            raise RefusedError("services.rotation.not_a_second", place=Place(field="second"), mark=new.mark)
        if promotions_of(first) >= PROMOTIONS:
            raise RefusedError("services.renew_both")
        if into is not None and not takes_waste_of(rows[into].role, old.role):
            raise RefusedError("services.bottles.other_waste", mark=old.mark, vessel=rows[into].mark)
        fresh = [one for one in since_emptied(lines_of([second])[second]) if one.kind == "clearing" and one.fresh]
        left, stays = old.left_ml, new.left_ml

        def booked(bottle: Bottle, kind: str, **values: Any) -> BottleLine:
            return book_locked(bottle, NewLine(kind, drawn_for=second, **values), at)

        booked(old, "emptied", note=new.mark)
        if into is not None and left:
            booked(rows[into], "filled", amount_ml=left, note=old.mark)
        booked(new, "emptied", note=old.mark)
        last = booked(new, "filled", amount_ml=stays, note=old.mark)
        for test in fresh:
            booked(
                new,
                "clearing",
                clearing_s=test.clearing_s,
                temp_c=test.temp_c,
                film=test.film,
                film_class=test.film_class,
                fresh=True,
            )
    return last
