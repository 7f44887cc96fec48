"""What is near: sheets that wait, plans that were not run, bottles that are spent or past their day."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from django.db.models import Count, Min, Q
from django.utils import timezone

from wetside.adapters.clock import today
from wetside.records import models
from wetside.services.records.bottles import WASTE, standing
from wetside.services.records.bottles_judged import NEAR, SPENT, judge
from wetside.services.records.demo import demo_is_here
from wetside.services.records.ledger import lines_of
from wetside.services.records.plans import age_days
from wetside.services.records.shelf import Row, tables

MOST_NEAR = 6
"""Bottles and plans that the first page tells. Our choice."""
MOST_READY = 200
"""Plans with loads that wait for their run, among which the newest are looked for; nobody has so many. Our choice."""

ASKED_FOR = dt.timedelta(days=14)
"""So long the first page asks for the booking of a run; who never books is left alone then. Our choice."""
MOST_ASKED = 3
"""Runs whose booking the first page asks for at once. Our choice."""


class Near(NamedTuple):
    """All that the first page says."""

    waiting: int
    oldest_days: int | None
    irreplaceable: int
    drafts: tuple[models.Plan, ...]
    frozen: tuple[tuple[models.Plan, int], ...]
    unbooked: tuple[models.Run, ...]
    bottles: tuple[Row, ...]
    first: bool
    demo: bool


def near() -> Near:
    """What is near, in a handful of queries whatever the archive holds."""
    day = today()
    waiting = models.Sheet.kept.filter(state=models.SheetState.WAITING).aggregate(
        count=Count("pk"), oldest=Min("exposed"), precious=Count("pk", filter=Q(importance="irreplaceable"))
    )
    light = models.Plan.kept.defer("document", "evening")
    # From the runs that are ready, which are few, and not from all plans that were ever frozen.
    runs = models.Run.kept.filter(state=models.RunState.READY, rehearsal=False, plan__isnull=False)
    ready = dict(runs.order_by().values_list("plan").annotate(Count("pk")))
    frozen = light.exclude(frozen_at=None).filter(pk__in=list(ready)[:MOST_READY])
    drafts = tuple(light.filter(frozen_at=None)[:MOST_NEAR])
    plans = tuple((plan, ready[plan.pk]) for plan in frozen[:MOST_NEAR])
    demo = demo_is_here()
    unbooked = _unbooked()
    first = not (waiting["count"] or drafts or plans or demo or unbooked) and not (
        models.Sheet.kept.exists() or models.Plan.kept.exists()
    )
    return Near(
        waiting=waiting["count"],
        oldest_days=age_days(waiting["oldest"], day),
        irreplaceable=waiting["precious"],
        drafts=drafts,
        frozen=plans,
        unbooked=unbooked,
        bottles=_bottles(day),
        first=first,
        demo=demo,
    )


def _unbooked() -> tuple[models.Run, ...]:
    """Runs that are over since a short while and stand in no book yet, the newest first."""
    over = models.Run.kept.filter(
        state=models.RunState.ENDED, rehearsal=False, changed_at__gte=timezone.now() - ASKED_FOR
    )
    open_ones = over.exclude(facts__has_key="booked").exclude(facts__has_key="noted")
    return tuple(open_ones.order_by("-changed_at")[:MOST_ASKED])


def _bottles(day: dt.date) -> tuple[Row, ...]:
    """Bottles that the shelf judges as spent or near their end, spent ones first; two queries."""
    bottles = [bottle for bottle in standing() if not bottle.role.startswith(WASTE)]
    ledgers = lines_of((bottle.pk for bottle in bottles), dated=False, judging=True)
    judged = [Row(bottle, judge(bottle, ledgers[bottle.pk], tables(), day)) for bottle in bottles]
    return tuple(row for state in (SPENT, NEAR) for row in judged if row.judged.state == state)[:MOST_NEAR]
