"""Runs as lists show them: how many are on, which one, and a page of all; a handful of queries whatever there is."""

from __future__ import annotations

from typing import NamedTuple

from django.db.models import Case, Count, F, Value, When

from wetside.records import models

PAGE = 25
_RANK = {models.RunState.RUNNING: 0, models.RunState.READY: 1}


class Counts(NamedTuple):
    """Runs in each state; of the rehearsals only those that are ready stand apart. [runs]"""

    running: int
    ready: int
    ended: int
    abandoned: int
    rehearsals: int = 0

    @property
    def all(self) -> int:
        """All of them. [runs]"""
        return sum(self)


def count_runs() -> Counts:
    """How many runs there are in each state."""
    found: dict[str, int] = {}
    for state, rehearsal, count in models.Run.kept.order_by().values_list("state", "rehearsal").annotate(Count("pk")):
        name = "rehearsals" if rehearsal and state == models.RunState.READY else str(state)
        found[name] = found.get(name, 0) + count
    return Counts(*(found.get(name, 0) for name in Counts._fields))


def running() -> models.Run | None:
    """The run that was begun last and is on; None where none is."""
    found: models.Run | None = (
        models.Run.kept.filter(state=models.RunState.RUNNING).only("pk", "name").order_by("-changed_at").first()
    )
    return found


def list_runs(page: int = 1) -> tuple[tuple[models.Run, ...], bool]:
    """A page of the runs: those that are on, those that are ready, then the others; and whether there are more."""
    first = (max(1, page) - 1) * PAGE
    rows = models.Run.kept.select_related("plan").defer("plan__document", "plan__evening")
    # Loads that are ready stand in the order in which they are developed, those of the plan that was frozen last first.
    frozen = Case(When(state=models.RunState.READY, then=F("plan__frozen_at"))).desc(nulls_last=True)
    load = Case(When(state=models.RunState.READY, then=F("load"))).asc(nulls_last=True)
    rank = Case(*(When(state=state, then=Value(value)) for state, value in _RANK.items()))
    open_ones = list(rows.filter(state__in=_RANK).order_by(rank, frozen, load, "-changed_at", "pk"))
    here = open_ones[first : first + PAGE + 1]
    if len(here) <= PAGE:
        # First which, then what they are: the runs of ten years are sorted by their keys alone.
        past = max(0, first - len(open_ones))
        others = models.Run.kept.exclude(state__in=_RANK).order_by("-changed_at", "pk").values_list("pk", flat=True)
        keys = list(others[past : past + PAGE + 1 - len(here)])
        here += sorted(rows.filter(pk__in=keys), key=lambda run: keys.index(run.pk))
    return tuple(here[:PAGE]), len(here) > PAGE
