"""What was mixed for tonight's runs and is booked already, so that a run does not book it a second time."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, NamedTuple

from wetside.records import models

if TYPE_CHECKING:
    from collections.abc import Iterable
    from uuid import UUID

    from django.db.models import QuerySet

MIXED_BEFORE = dt.timedelta(hours=12)
"""A mixing so long before a run is still for that evening. Our choice."""
MOST_RUNS = 50
"""Runs of the same evening that are asked for what they took. Our choice."""


class Mixed(NamedTuple):
    """A drawing that a mixing has booked: its line, the bottle it came from, where it went, what of it is left. [ml]

    A mix that was poured at once stands for one of the bottles that it was drawn from.
    """

    line: UUID
    bottle: UUID
    into: UUID
    at: dt.datetime
    left_ml: float
    at_once: bool


def drawn_for_mixings(began_at: dt.datetime, ended_at: dt.datetime) -> QuerySet[models.BottleLine]:
    """Lines of drawings by mixings shortly before a run, or during it."""
    return models.BottleLine.objects.filter(
        kind=models.BottleLineKind.DRAWN,
        at__gte=began_at - MIXED_BEFORE,
        at__lte=ended_at,
        undoes=None,
        undone_by=None,
        drawn_for__isnull=False,
    )


def mixed_for(run: models.Run, drawn: Iterable[models.BottleLine], began_at: dt.datetime) -> tuple[Mixed, ...]:
    """Drawings by mixings that no run has taken yet.

    Parameters
    ----------
    run : Run
        Itself does not count among those that took them.
    drawn : iterable of BottleLine
        See :func:`drawn_for_mixings`.
    began_at : datetime
        When the run began.
    """
    rows = sorted(drawn, key=lambda line: (line.at, line.bottle_id.hex, line.number))
    lines = [(line, line.drawn_for_id) for line in rows if line.drawn_for_id is not None]
    if not lines:
        return ()
    taken, booked = _taken_by_others(run, began_at - MIXED_BEFORE)
    drawn_from: dict[tuple[dt.datetime, UUID], set[UUID]] = {}
    for line, into in lines:
        drawn_from.setdefault((line.at, into), set()).add(line.bottle_id)
    return tuple(
        Mixed(
            line=line.pk,
            bottle=line.bottle_id,
            into=into,
            at=line.at,
            left_ml=left_ml,
            at_once=into in drawn_from[line.at, into],
        )
        for line, into in lines
        if str(line.pk) not in booked and (left_ml := -line.change_ml - taken.get(str(line.pk), 0.0)) > 0
    )


def _taken_by_others(run: models.Run, since: dt.datetime) -> tuple[dict[str, float], set[str]]:
    """What other runs took of each mixing [ml], and lines that runs have booked themselves."""
    taken: dict[str, float] = {}
    booked: set[str] = set()
    others = models.Run.kept.filter(changed_at__gte=since).order_by("-changed_at")
    for key, facts in others.values_list("pk", "facts")[:MOST_RUNS]:
        found = facts.get("booked") or {}
        booked |= set(found.get("lines", ()))
        if key == run.pk:
            continue
        for line, amount_ml in found.get("mixed", {}).items():
            taken[line] = taken.get(line, 0.0) + float(amount_ml)
    return taken, booked
