"""Page of a bottle: what is in it, what is known of it, its ledger, its hazards and what it must not meet."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.cautions import cautions_of
from wetside.services.records.bottles import WASTE, standing, takes_waste_of, with_ledger
from wetside.services.records.bottles_hazards import Hazards, WrongPair, combination_names, hazards_of, wrong_with
from wetside.services.records.bottles_judged import Judged, Seen, clearing_tests, judge, seen_by_class
from wetside.services.records.bottles_rotation import advice_of, second_baths
from wetside.services.records.changes import history_of
from wetside.services.records.ledger import drawn_last, page_of_ledger
from wetside.services.records.shelf import tables
from wetside.services.records.shelf_told import Told, all_told

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence
    from uuid import UUID

    from wetside.records.models import Bottle, BottleLine
    from wetside.services.records.changes import Version
    from wetside.services.records.ledger_fold import Booked

USUAL_DRAW_ML = 50.0
"""What one tap draws where nothing was drawn before. Our choice. [ml]"""
OCCASION = {
    "developer": "develop",
    "stop": "stop",
    "fixer": "fix",
    "wash-aid": "wash-aid",
    "wetting": "wetting",
    "waste-developer": "waste",
    "waste-fixer": "waste",
    "waste-toner": "waste",
}
MOST_PAIRS = 12
"""Wrong combinations told of one bottle. Our choice; each kind of them stands once."""


class PairTold(NamedTuple):
    """A wrong combination once, with the marks of all bottles it concerns."""

    code: str
    kind: str
    marks: tuple[str, ...]


class BottlePage(NamedTuple):
    """Everything that a bottle's page shows."""

    bottle: Bottle
    judged: Judged
    seen: tuple[Seen, ...]
    tests: tuple[Booked, ...]
    lines: list[BottleLine]
    page: int
    pages: int
    hazards: Hazards
    hazards_told: tuple[Told, ...]
    known_to_combinations: bool
    wrong: tuple[PairTold, ...]
    waste: tuple[Bottle, ...]
    cautions: tuple[str, ...]
    waste_cautions: tuple[str, ...]
    history: tuple[Version, ...]
    quick_ml: float | None
    seconds: tuple[Bottle, ...]
    advice: tuple[Told, ...]


def bottle_page(key: UUID, today: dt.date, page: int = 1) -> BottlePage:
    """What a bottle's page shows.

    Parameters
    ----------
    key : UUID
    today : date
    page : int
        Of the ledger, counted from 1.

    Raises
    ------
    UnknownNameError
        If there is no such bottle.
    """
    bottle, ledger = with_ledger(key)
    others = list(standing().exclude(pk=key))
    lines, pages = page_of_ledger(bottle, page)
    hazards = hazards_of(bottle)
    quick = drawn_last(bottle) or USUAL_DRAW_ML
    judged = judge(bottle, ledger, tables(), today)
    seconds = second_baths(bottle, others)
    can_draw = not bottle.role.startswith(WASTE)
    return BottlePage(
        bottle,
        judged,
        seen_by_class(ledger),
        tuple(clearing_tests(ledger)),
        lines,
        min(max(1, page), pages),
        pages,
        hazards,
        all_told(hazards.notes),
        bool(combination_names(bottle)),
        _told(wrong_with(bottle, others)),
        tuple(one for one in others if takes_waste_of(one.role, bottle.role)),
        cautions_of([OCCASION.get(bottle.role, "other")]),
        cautions_of(["waste"]),
        history_of(bottle, 20),
        quick if can_draw and bottle.left_ml is not None and bottle.left_ml >= quick else None,
        tuple(seconds),
        advice_of(bottle, judged, second=bool(seconds)),
    )


def _told(pairs: Sequence[WrongPair]) -> tuple[PairTold, ...]:
    found: dict[str, tuple[str, list[str]]] = {}
    for pair in pairs:
        found.setdefault(pair.code, (pair.row.kind, []))[1].append(pair.mark)
    return tuple(PairTold(code, kind, tuple(marks)) for code, (kind, marks) in found.items())[:MOST_PAIRS]
