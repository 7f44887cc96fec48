"""The shelf: how many bottles, what is spent and what is near its end, what collects waste."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.bath_data import load_bath_capacities
from wetside.adapters.chemistry_data import load_keeping
from wetside.chemistry.cautions import cautions_of
from wetside.services.records.bottles import WASTE, standing
from wetside.services.records.bottles_hazards import combination_names, combination_table
from wetside.services.records.bottles_judged import (
    GOOD,
    NEAR,
    SPENT,
    Judged,
    Seen,
    Tables,
    clearing_tests,
    judge,
    seen_by_class,
)
from wetside.services.records.ledger import lines_of
from wetside.services.records.shelf_told import Told

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from wetside.chemistry.combinations import WrongCombination
    from wetside.records.models import Bottle
    from wetside.services.records.ledger_fold import Booked

ROWS = 50
"""Bottles of one page of the shelf. Our choice."""
MOST_ENDS = 20
"""Bottles near their end that are told at length; more are counted. Our choice."""


class Danger(NamedTuple):
    """Two bottles by their marks that must not meet, the sentence's code, and where that can be read."""

    first: str
    second: str
    code: str
    source: str


class Row(NamedTuple):
    """A bottle beside its judgement, film that it has seen by class, and its newest clearing test."""

    bottle: Bottle
    judged: Judged
    seen: tuple[Seen, ...] = ()
    clearing: Booked | None = None


class ShelfPage(NamedTuple):
    """The shelf as a page shows it; ``title`` is its answer, ``dangers`` what stands here and must not meet."""

    title: Told
    total: int
    ends: tuple[Row, ...]
    more_ends: int
    rows: tuple[Row, ...]
    page: int
    pages: int
    waste: tuple[Bottle, ...]
    waste_cautions: tuple[str, ...]
    dangers: tuple[Danger, ...]


@cache
def tables() -> Tables:
    """Shipped figures of capacities and keeping."""
    return Tables(load_bath_capacities(), load_keeping())


def shelf_page(today: dt.date, page: int = 1) -> ShelfPage:
    """What stands on the shelf.

    Parameters
    ----------
    today : date
    page : int
        Of the list of bottles, counted from 1.
    """
    bottles = list(standing())
    wanted = (one.pk for one in bottles if not one.role.startswith(WASTE))
    ledgers = lines_of(wanted, dated=False, judging=True)
    judged = [Row(one, judge(one, ledgers.get(one.pk, []), tables(), today)) for one in bottles]
    use = [row for row in judged if not row.bottle.role.startswith(WASTE)]
    ends = [row for row in use if row.judged.state == SPENT] + [row for row in use if row.judged.state == NEAR]
    pages = max(1, -(-len(use) // ROWS))
    page = min(max(1, page), pages)
    return ShelfPage(
        _title(use, ends),
        len(use),
        tuple(ends[:MOST_ENDS]),
        max(0, len(ends) - MOST_ENDS),
        tuple(_whole(row, ledgers[row.bottle.pk]) for row in use[(page - 1) * ROWS : page * ROWS]),
        page,
        pages,
        tuple(one for one in bottles if one.role.startswith(WASTE)),
        cautions_of(["waste"]),
        _dangers(bottles),
    )


def _whole(row: Row, ledger: Sequence[Booked]) -> Row:
    tests = clearing_tests(ledger)
    return row._replace(seen=seen_by_class(ledger), clearing=tests[-1] if tests else None)


def _title(use: Sequence[Row], ends: Sequence[Row]) -> Told:
    count = in_words(len(use), "bottle")
    if not use:
        return Told("services.shelf.title_empty", {})
    if not ends:
        return Told("services.shelf.title_good", {"count": count})
    spent = [row for row in ends if row.judged.state == SPENT]
    if len(ends) == 1:
        what = ends[0].bottle.holds
        code = "services.shelf.title_spent" if spent else "services.shelf.title_near"
        return Told(code, {"count": count, "mark": ends[0].bottle.mark, "holds": what})
    near = len(ends) - len(spent)
    if not near:
        return Told("services.shelf.title_many_spent", {"count": count, "spent": in_words(len(spent)).casefold()})
    if not spent:
        return Told("services.shelf.title_many_near", {"count": count, "near": in_words(near).casefold()})
    params = {"count": count, "spent": in_words(len(spent)).casefold(), "near": in_words(near).casefold()}
    return Told("services.shelf.title_both", params)


_WORDS = (*("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"),)


def in_words(count: int, thing: str = "") -> str:
    """Count as a title says it, with its thing in the right number.

    Examples
    --------
    >>> in_words(11, "bottle"), in_words(1, "bottle"), in_words(40, "vessel"), in_words(3)
    ('Eleven bottles', 'One bottle', '40 vessels', 'Three')
    """
    number = _WORDS[count] if count < len(_WORDS) else str(count)
    return f"{number} {thing}{'' if count == 1 else 's'}" if thing else number


def _dangers(bottles: Sequence[Bottle]) -> tuple[Danger, ...]:
    """Pairs on this shelf that give off gas or hurt, each row once with the marks of the first two under it."""
    table = combination_table()
    marks: dict[frozenset[str], str] = {}
    for bottle in bottles:
        classes = {word for name in combination_names(bottle) for word in table.classes[_key(name)]}
        if classes:
            marks.setdefault(frozenset(classes), bottle.mark)
    found: dict[str, tuple[str, str, WrongCombination]] = {}
    kinds = list(marks.items())
    for place, (one, mark) in enumerate(kinds):
        for other, beside in kinds[place + 1 :]:
            for row in table.wrong:
                if row.kind != "quality" and (
                    (row.first & one and row.second & other) or (row.first & other and row.second & one)
                ):
                    found.setdefault(row.key, (mark, beside, row))
    ordered = sorted(found.values(), key=lambda one: (one[2].kind != "gas", one[2].key))
    return tuple(
        Danger(
            one, other, f"chemistry.combination.{row.key}", f"{row.source}, {row.where}" if row.source else row.status
        )
        for one, other, row in ordered
    )


def _key(name: str) -> str:
    from wetside.values.names import name_key

    return name_key(name)


__all__ = ["GOOD", "NEAR", "SPENT", "Row", "ShelfPage", "in_words", "shelf_page", "tables"]
