"""How much replenisher has gone into a bath since it was mixed, kept on its bottle where that was ever said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.adapters.evening_writer import plain_word
from wetside.planning.course.topping_up import replenisher_name
from wetside.planning.documents.evening import Bottle as BottleDocument
from wetside.planning.documents.keys import declared_keys
from wetside.services.records.changes import change
from wetside.units import parse_volume_ml
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from uuid import UUID

    from wetside.records.models import Bottle, BottleLine

KEY = "replenished"


def holds_replenisher_of(source: Bottle, bath: Bottle) -> bool:
    """Whether a bottle holds the replenisher of a bath, by what is written on the two."""
    return plain_name(source.holds) == plain_name(replenisher_name(bath.holds))


def count_top_up(bath: Bottle, by_ml: float, why: str) -> None:
    """Count replenisher on the bottle that it went into, or back out of it where that is undone. [ml]

    Where nobody ever said what has gone in, nothing is known afterwards either, and nothing is kept.
    """
    said = bath.facts.get(KEY)
    if said is None:
        return
    total_ml = round(max(0.0, parse_volume_ml(str(said)) + by_ml), 1)
    said = plain_word(declared_keys(BottleDocument)[KEY], total_ml)
    bath.facts = change(bath, {"facts": {**bath.facts, KEY: said}}, why=why).facts


def uncount_top_ups(bottles: Mapping[UUID, Bottle], lines: Iterable[BottleLine]) -> None:
    """Take back what undone top-ups had counted: replenisher that left its own bottle for a bath."""
    for line in lines:
        into = None if line.drawn_for_id is None else bottles.get(line.drawn_for_id)
        if line.kind == "drawn" and into is not None and holds_replenisher_of(bottles[line.bottle_id], into):
            count_top_up(into, line.change_ml, "top-up undone")
