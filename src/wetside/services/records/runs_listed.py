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
    rank = Case(*(When(state=state, then=Value(value)) for state, value in _RANK.items()), default=Value(2))
    first = (max(1, page) - 1) * PAGE
    # Loads that are ready stand in the order in which they are developed, the newest plan first.
    frozen = Case(When(state=models.RunState.READY, then=F("plan__frozen_at"))).desc(nulls_last=True)
    load = Case(When(state=models.RunState.READY, then=F("load"))).asc(nulls_last=True)
    rows = models.Run.kept.select_related("plan").defer("plan__document", "plan__evening")
    # First which, then what they are: the runs of ten years are sorted by their keys alone.
    ordered = models.Run.kept.order_by(rank, frozen, load, "-changed_at", "pk").values_list("pk", flat=True)
    here = list(ordered[first : first + PAGE + 1])
    found = sorted(rows.filter(pk__in=here[:PAGE]), key=lambda run: here.index(run.pk))
    return tuple(found), len(here) > PAGE
