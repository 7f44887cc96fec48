"""What is near: sheets that wait, plans that were not run, bottles that are spent or past their day."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.db.models import Count, Min, Q

from wetside.adapters.clock import today
from wetside.records import models
from wetside.services.records.bottles import WASTE, standing
from wetside.services.records.demo import demo_is_here
from wetside.services.records.plans import age_days

if TYPE_CHECKING:
    import datetime as dt

FIXER_UNITS_PER_L = 20.0
"""Film that a litre of fixer serves where its maker's figure is not known; handbook, as the planner takes it."""

MOST_NEAR = 6
"""Bottles and plans that the first page tells. Our choice."""


class BottleNear(NamedTuple):
    """A bottle to look at; ``why`` is ``past``, ``soon``, ``spent`` or ``empty``."""

    bottle: models.Bottle
    why: str
    day: dt.date | None


class Near(NamedTuple):
    """All that the first page says."""

    waiting: int
    oldest_days: int | None
    irreplaceable: int
    drafts: tuple[models.Plan, ...]
    frozen: tuple[tuple[models.Plan, int], ...]
    bottles: tuple[BottleNear, ...]
    first: bool
    demo: bool


def near() -> Near:
    """What is near, in a handful of queries whatever the archive holds."""
    day = today()
    waiting = models.Sheet.kept.filter(state=models.SheetState.WAITING).aggregate(
        count=Count("pk"), oldest=Min("exposed"), precious=Count("pk", filter=Q(importance="irreplaceable"))
    )
    ready = Q(runs__removed_at=None, runs__state=models.RunState.READY, runs__rehearsal=False)
    light = models.Plan.kept.defer("document", "evening")
    frozen = light.exclude(frozen_at=None).annotate(ready=Count("runs", filter=ready)).filter(ready__gt=0)
    drafts = tuple(light.filter(frozen_at=None)[:MOST_NEAR])
    plans = tuple((plan, plan.ready) for plan in frozen[:MOST_NEAR])
    demo = demo_is_here()
    first = not (waiting["count"] or drafts or plans or demo) and not (
        models.Sheet.kept.exists() or models.Plan.kept.exists()
    )
    return Near(
        waiting=waiting["count"],
        oldest_days=age_days(waiting["oldest"], day),
        irreplaceable=waiting["precious"],
        drafts=drafts,
        frozen=plans,
        bottles=_bottles(day),
        first=first,
        demo=demo,
    )


def _bottles(day: dt.date) -> tuple[BottleNear, ...]:
    found = []
    for bottle in standing().exclude(role__startswith=WASTE):
        if bottle.keeps_until is not None and bottle.keeps_until < day:
            found.append(BottleNear(bottle, "past", bottle.keeps_until))
        elif bottle.left_ml == 0:
            found.append(BottleNear(bottle, "empty", None))
        elif _is_spent(bottle):
            found.append(BottleNear(bottle, "spent", None))
        elif bottle.keeps_until is not None and (bottle.keeps_until - day).days <= 14:
            found.append(BottleNear(bottle, "soon", bottle.keeps_until))
    return tuple(found[:MOST_NEAR])


def _is_spent(bottle: models.Bottle) -> bool:
    """Whether a bottle has served as much film as its maker or, for a fixer, common practice allows."""
    capacity = bottle.facts.get("capacity")
    if not isinstance(capacity, int | float):
        if bottle.role != models.BottleRole.FIXER:
            return False
        capacity = FIXER_UNITS_PER_L
    return bool(bottle.left_ml) and bottle.seen_units >= capacity * (bottle.left_ml or 0.0) / 1000.0
