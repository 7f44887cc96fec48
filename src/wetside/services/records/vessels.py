"""Vessels: made and corrected; a time that runs have shown to be another is offered, never adopted silently."""

from __future__ import annotations

import statistics
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.records.models import RunEvent, Vessel
from wetside.services.records.changes import change, find, make
from wetside.services.records.documents import columns_and_facts, document_of, raw_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from uuid import UUID

KEYS = ("name", "kind", "places", "min", "max", "pour", "drain", "dries", "spacing")
"""Keys of the evening file's vessel, in the order in which a page asks for them."""

VESSEL_TIMED = "vessel-timed"
"""Kind of a run's event that teaches a vessel's time."""
NEWEST_RUNS = 60
"""Such events that are looked at, the newest: a vessel is learned anew after a repair. Our choice. [1]"""
LEARNED = {"pour_s": "pour", "drain_s": "drain", "dries_s": "dries"}
"""Times that runs can teach, by their columns; each with its key."""
ENOUGH_RUNS = 3
"""Runs after which the middle of what was timed is offered. Our choice. [1]"""
LEAST_SHARE = 0.15
"""Difference from the stated time below which nothing is offered: hands differ as much. Our choice. [1]"""
LEAST_S = 2.0
"""The same for short times. Our choice. [s]"""


class Offer(NamedTuple):
    """A time that runs have shown to differ from the stated one. [s]"""

    column: str
    stated_s: float
    learned_s: float
    runs: int
    low_s: float
    high_s: float


def vessels() -> list[Vessel]:
    """Vessels of the darkroom, by name."""
    return list(Vessel.kept.all())


def make_vessel(raw: Mapping[str, Any]) -> Vessel:
    """Add a vessel.

    Raises
    ------
    WetsideError
        With the fields of what cannot be taken; or if its name is taken.
    """
    return make(Vessel, columns_and_facts("vessel", document_of("vessel", raw)))


def change_vessel(vessel: Vessel, raw: Mapping[str, Any], revision: int | None) -> Vessel:
    """Correct a vessel.

    Raises
    ------
    WetsideError
        As :func:`make_vessel`; or if it was changed meanwhile.
    """
    return change(vessel, columns_and_facts("vessel", document_of("vessel", raw)), revision=revision)


def raw_of_vessel(vessel: Vessel) -> dict[str, Any]:
    """What stands in the fields of a vessel's form, in plain form."""
    return raw_of("vessel", vessel)


def places_of(vessel: Vessel) -> tuple[tuple[str, int], ...]:
    """Sizes with the sheets that a vessel takes of each; one row ``any`` where it takes as many of every size."""
    found: tuple[tuple[str, int], ...] = document_of("vessel", raw_of("vessel", vessel)).places
    return found


def offers_of(vessel: Vessel, timed: Mapping[str, Sequence[float]]) -> tuple[Offer, ...]:
    """Times of a vessel that runs have shown to be others than stated.

    Parameters
    ----------
    vessel : Vessel
    timed : mapping of str to sequence of float
        What runs have timed, by column. [s]

    Notes
    -----
    The median of at least :data:`ENOUGH_RUNS` runs, to whole seconds.
    """
    found = []
    for column in LEARNED:
        times: Iterable[float] = timed.get(column, ())
        known = sorted(times)
        if len(known) < ENOUGH_RUNS:
            continue
        stated = getattr(vessel, column)
        learned = float(round(statistics.median(known)))
        if abs(learned - stated) >= max(LEAST_S, LEAST_SHARE * stated):
            found.append(Offer(column, stated, learned, len(known), known[0], known[-1]))
    return tuple(found)


def take_offer(vessel: Vessel, offer: Offer, revision: int | None = None) -> Vessel:
    """Adopt a learned time: only when somebody says so.

    Raises
    ------
    ConflictError
        If the vessel was changed meanwhile, or the time lies outside the limits of its table.
    """
    return change(vessel, {offer.column: offer.learned_s}, revision=revision, why="learned in runs")


def find_vessel(key: UUID) -> Vessel:
    """Vessel by its identity, removed ones too.

    Raises
    ------
    UnknownNameError
        If there is none.
    """
    return find(Vessel, key, removed=True)


def removed_vessel(key: UUID) -> Vessel | None:
    """Vessel that was removed; None where it was not, or where there is none."""
    found: Vessel | None = Vessel.objects.filter(pk=key).exclude(removed_at=None).first()
    return found


def timed_in_runs(vessel: Vessel) -> dict[str, list[float]]:
    """What runs have timed of a vessel, by column. [s]

    Moments of ended runs whose event says so: the kind ``vessel-timed`` with the vessel, the column and the seconds;
    rehearsals do not count. Empty as long as no run has said any.
    """
    events = RunEvent.objects.filter(kind=VESSEL_TIMED, run__rehearsal=False, data__vessel=str(vessel.pk))
    found: dict[str, list[float]] = {}
    for data in events.order_by("-at_utc").values_list("data", flat=True)[:NEWEST_RUNS]:
        column, seconds = data.get("column"), data.get("seconds")
        if column in LEARNED and isinstance(seconds, int | float):
            found.setdefault(column, []).append(float(seconds))
    return found
