"""Booking what was mixed: drawings and the filled bottle in one transaction, undone together."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import transaction

from wetside.errors import InputError, Place, RefusedError
from wetside.planning.documents.keys import kept_table, key
from wetside.records.models import Bottle, BottleLine
from wetside.services.records.bottles_hazards import contents_of_formula, thinned
from wetside.services.records.changes import change, find, make
from wetside.services.records.ledger import NewLine, book_locked, locked
from wetside.services.records.replenished import KEY as REPLENISHED
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from uuid import UUID

    from wetside.services.records.mixing import Proposal

MIXED = "mixed"
"""Reason in the history of a bottle that a mixing made or filled."""


@kept_table
class Target:
    """Where the mixed liquid goes."""

    mark: str | None = key(
        "mark",
        "name",
        "Of a new bottle, or of one that holds the same; empty if it is used at once.",
        default=None,
        example="W",
    )
    holds: str | None = key("holds", "text", "If not as above.", default=None, example="Brackwater 1+24")


def mark_taken(mark: str) -> Bottle | None:
    """Bottle on the shelf with a mark, if there is one."""
    found: Bottle | None = Bottle.objects.filter(mark_key=plain_name(mark), removed_at=None, emptied_at=None).first()
    return found


def book_mixing(proposal: Proposal, target: Target, at: dt.datetime, today: dt.date) -> tuple[BottleLine, ...]:
    """Book a mixing: what was drawn, and the bottle that was made or filled.

    Parameters
    ----------
    proposal : Proposal
        With the draws as they were made.
    target : Target
    at : datetime
    today : date
        Day that the bottle was mixed on.

    Returns
    -------
    lines : tuple of BottleLine
        All of them; undoing any one undoes all.

    Raises
    ------
    InputError
        If liquid is lacking, more is drawn than wanted, or the bottle holds something else.
    RefusedError
        If a bottle has less than is drawn from it.
    """
    for part in proposal.parts:
        _check_whole(part.lacking_ml, part.name, ready=proposal.ready)
    draws = [(draw.bottle.pk, draw.draw_ml) for part in proposal.parts for draw in part.draws if draw.draw_ml > 0]
    with transaction.atomic():
        into = _target(proposal, target, today)
        if into is None and not draws:
            raise InputError("services.mixing.nothing_to_book", place=Place(field="mark"))
        rows = locked([*(bottle for bottle, _ in draws), *([into.pk] if into is not None else [])])
        if into is not None and into.pk in dict(draws):
            raise InputError("services.mixing.into_itself", place=Place(field="mark"), mark=into.mark)
        # Without a bottle that takes it the drawings stand together for the first of their bottles.
        group: UUID = into.pk if into is not None else draws[0][0]
        note = f"{proposal.title}, {proposal.total_ml:g} ml"
        lines = [
            book_locked(rows[bottle], NewLine("drawn", amount, note=note, drawn_for=group), at)
            for bottle, amount in draws
        ]
        if into is not None:
            line = NewLine("filled", proposal.total_ml, note=note, drawn_for=group)
            lines.append(book_locked(rows[into.pk], line, at))
    return tuple(lines)


def _check_whole(lacking_ml: float, name: str, *, ready: bool) -> None:
    if ready:
        return
    if lacking_ml > 0:
        raise InputError("services.mixing.lacking", name=name, lacking_ml=lacking_ml)
    if lacking_ml < 0:
        raise InputError("services.mixing.too_much", name=name, over_ml=-lacking_ml)


def _target(proposal: Proposal, target: Target, today: dt.date) -> Bottle | None:
    """Bottle that takes the mix: one of that mark, or a new one; None where it is used at once."""
    if target.mark is None:
        return None
    holds = target.holds or proposal.title
    values = _values(proposal, holds, today)
    there = mark_taken(target.mark)
    if there is None:
        return make(Bottle, {"mark": target.mark, **values}, why=MIXED)
    if there.left_ml != 0.0:
        if plain_name(there.holds) != plain_name(holds):
            raise RefusedError(
                "services.mixing.holds_other", place=Place(field="mark"), mark=there.mark, holds=there.holds
            )
        # Fresh beside old: what is older decides how long it keeps and what it has seen.
        values.pop("mixed")
    elif REPLENISHED in there.facts:
        values["facts"] = {**there.facts, REPLENISHED: "0 ml"}
    return change(find(Bottle, there.pk), values, why=MIXED)


def _values(proposal: Proposal, holds: str, today: dt.date) -> dict[str, Any]:
    values: dict[str, Any] = {"holds": holds, "role": proposal.role, "mixed": today, "opened": None}
    if proposal.formula is not None:
        form = "concentrate" if proposal.formula.use else "working" if proposal.formula.kind != "developer" else "stock"
        return values | {"form": form, "dilution": "", "contents": contents_of_formula(proposal.formula), "product": ""}
    drawn = [(draw.bottle, draw.draw_ml) for part in proposal.parts for draw in part.draws if draw.draw_ml > 0]
    contents: dict[str, float] = {}
    if all(bottle.contents for bottle, _ in drawn):
        for bottle, amount in drawn:
            for name, percent in thinned(bottle.contents, amount / proposal.total_ml).items():
                contents[name] = round(contents.get(name, 0.0) + percent, 4)
    source = proposal.parts[0].draws[0].bottle
    first = drawn[0][0] if drawn else source
    stock = proposal.water_ml <= 0
    return values | {
        "product": first.product,
        "form": first.form if stock else "working",
        "dilution": "" if stock else proposal.dilution.text,
        "contents": contents,
    }
