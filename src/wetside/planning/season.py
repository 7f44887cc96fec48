"""What a warm or a cold developer asks for: what sources say of its temperature, and what belongs to the work then."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import VesselKind

if TYPE_CHECKING:
    from wetside.development import PublishedRange
    from wetside.planning.documents.plan import Load
    from wetside.planning.library import Library
    from wetside.planning.resolved import ResolvedSheet

NORMAL_C = 20.0
"""Inside every range that a source names for developing, so that at it nothing needs to be read. [C]"""

SLACK_C = 0.5
"""Ends of ranges are printed to the degree: a developer this little outside is not outside. Our choice. [C]"""

RANGES_OF_VESSEL = {VesselKind.TRAY.value: frozenset({"developing", "tray"})}
"""Purposes of published ranges that count for a vessel; for the others that of developing alone."""

SAID_TOGETHER = {
    "development.cold.below_range": "planning.season_below",
    "development.warm.with_care": "planning.season_care",
    "development.warm.above_range": "planning.season_above",
}
"""Sources that agree on a temperature are told in one sentence."""


def with_season(load: Load, first: ResolvedSheet, library: Library) -> Load:
    """Load with what there is to know of its temperature.

    Parameters
    ----------
    load : Load
    first : ResolvedSheet
        Any sheet of the load: its developer counts.
    library : Library
        Temperatures that sources name.

    Returns
    -------
    load : Load
        Unchanged within half a degree of 20 C, and inside the ranges of all sources.
    """
    if abs(load.temp_c - NORMAL_C) <= SLACK_C:
        return load
    from wetside.development import temperature_remarks

    purposes = RANGES_OF_VESSEL.get(load.vessel_kind, frozenset({"developing"}))
    ranges = [_widened(one) for one in library.temperature_ranges if one.purpose in purposes]
    hydroquinone = None if first.developer is None else first.developer.hydroquinone
    told: list[Note] = []
    together: dict[str, list[dict[str, object]]] = {}
    for remark in temperature_remarks(load.temp_c, ranges, hydroquinone=hydroquinone):
        code = SAID_TOGETHER.get(remark.code)
        if code is None:
            told.append(Note(remark.code, dict(remark.params)))
        else:
            together.setdefault(code, []).append(dict(remark.params))
    agreed = [_agreed(code, load.temp_c, found) for code, found in together.items()]
    return load._replace(notes=(*load.notes, *agreed, *told))


def _widened(one: PublishedRange) -> PublishedRange:
    careful_c = None if one.careful_c is None else one.careful_c + SLACK_C
    return one._replace(low_c=one.low_c - SLACK_C, high_c=one.high_c + SLACK_C, careful_c=careful_c)


def _agreed(code: str, temp_c: float, found: list[dict[str, object]]) -> Note:
    """One note of several sources: all of them, with the nearest end of their ranges."""
    lows, highs = ([float(str(one[end])) for one in found] for end in ("low_c", "high_c"))
    params = {
        "temp_c": temp_c,
        "sources": list(dict.fromkeys(str(one["source"]) for one in found)),
        "low_c": min(lows) + SLACK_C,
        "high_c": max(highs) - SLACK_C,
    }
    return Note(code, params)


def jacket_notes(process_name: str, temp_c: float, tonight_c: float) -> tuple[Note, ...]:
    """What a jacket that cannot be brought to the process's temperature means, and what the way back would be.

    Parameters
    ----------
    process_name : str
    temp_c : float
        That the process is meant for. [C]
    tonight_c : float
        Of the jacket. [C]
    """
    from wetside.development import published_rules_span

    said = Note("planning.jacket", {"process": process_name, "temp_c": temp_c, "tonight_c": tonight_c})
    if abs(temp_c - tonight_c) <= SLACK_C:
        return (said,)
    span = published_rules_span(100.0, temp_c, tonight_c)
    ways = {
        "degrees_c": temp_c - tonight_c,
        "temp_c": temp_c,
        "low_percent": span.low_s - 100.0,
        "high_percent": span.high_s - 100.0,
    }
    return said, Note("planning.season_ways", ways)
