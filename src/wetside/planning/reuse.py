"""Developer that film has been through before: what its bottle has seen, by its maker's rule."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.development import ReuseRule, UsedArea, Way, reused_time
from wetside.errors import RefusedError
from wetside.planning.documents.plan import Note, ReckoningStep
from wetside.planning.documents.words import BathKind
from wetside.planning.resolved import baths_of, bottle_of
from wetside.values.dilution import STOCK
from wetside.values.evidence import Source
from wetside.values.names import name_key
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from wetside.planning.documents.evening import Developer, Evening, Process
    from wetside.planning.library import Library

ADDED_PER_UNIT = 0.1
"""Share of the standard time for each unit of film in a litre, where only a reuse limit of one's own is known: what one
maker prints for several developers. [1]"""


def reuse_step(
    value_s: float, process: Process, evening: Evening, developer: Developer | None, library: Library
) -> tuple[ReckoningStep | None, tuple[Note, ...]]:
    """Lengthen a time for what the developer's bottle has seen at the start of the evening.

    Parameters
    ----------
    value_s : float
        Time so far. [s]
    process : Process
        Of the sheet.
    evening : Evening
        With its bottles.
    developer : Developer or None
        Of the first developing bath.
    library : Library
        Published rules of reuse.

    Raises
    ------
    RefusedError
        If no rule is known for the developer, or its bottle is not written down.
    """
    if process.way is not Way.REUSED:
        return None, ()
    rule = _rule(process, developer, library)
    bath = next(bath for bath in baths_of(process) if bath.does is BathKind.DEVELOP)
    bottle = bottle_of(evening.bottles, bath.bottle, process.developer)
    if rule is None or bottle is None or not bottle.volume_ml:
        raise RefusedError("planning.no_reuse_rule", developer=process.developer)
    seen = [UsedArea(bottle.seen_units * UNIT_AREA_CM2)] if bottle.seen_units > 0 else []
    found = reused_time(value_s, seen, UNIT_AREA_CM2, rule, max(1.0, bottle.volume_ml / 1000.0))
    notes = tuple(Note(remark.code, dict(remark.params)) for remark in found.remarks)
    if found.factor == 1.0:
        return None, notes
    params = {"bottle": bottle.mark, "seen": bottle.seen_units, "number": found.number}
    step = ReckoningStep(
        "planning.reused",
        params,
        value_s * found.factor,
        "s",
        found.factor,
        found.time.evidence,
        found.time.source,
        found.time.spread,
    )
    return step, notes


def _rule(process: Process, developer: Developer | None, library: Library) -> ReuseRule | None:
    """Maker's rule for the developer at its dilution, else one by the user's own reuse limit."""
    name = name_key((developer.published if developer else None) or process.developer)
    dilution = (process.dilution or STOCK).text
    for rule in library.reuse_rules:
        if name_key(rule.developer) == name and rule.dilution == dilution:
            return rule
    if developer is None or developer.reuse_ml_per_unit is None:
        return None
    return ReuseRule(
        process.developer,
        dilution,
        1000.0 / developer.reuse_ml_per_unit,
        ADDED_PER_UNIT,
        one_session=True,
        source=Source("own", "your reuse limit"),
    )
