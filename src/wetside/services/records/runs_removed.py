"""A run that was taken from a log is removed, and brought back: its facts stay in the archive all the while.

A load's run goes and comes with its plan. One that was told at this archive's own pages stays: it is no copy of a file.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction
from django.utils import timezone

from wetside.errors import RefusedError, UnknownNameError
from wetside.records import models
from wetside.services.records.changes import bring_back, change
from wetside.services.records.runs_booked import booked_of
from wetside.services.records.runs_tied import TIED
from wetside.services.records.runs_untied import is_taken

if TYPE_CHECKING:
    from uuid import UUID


def removed_run(key: UUID | str) -> models.Run | None:
    """A run that was removed and can be brought back by itself; None where there is none of that identity.

    Parameters
    ----------
    key : UUID
    """
    found: models.Run | None = models.Run.objects.filter(pk=key, plan=None).exclude(removed_at=None).first()
    return found


def why_not_removed(run: models.Run) -> RefusedError | None:
    """What keeps a run from being removed: what must be undone first. None where nothing does."""
    if not is_taken(run):
        return RefusedError("services.runs_taken.no_log", run=run.name)
    if run.plan_id is not None:
        return RefusedError("services.runs_taken.remove_load", run=run.name)
    if run.facts.get(TIED):
        return RefusedError("services.runs_taken.remove_tied", sheets=sorted(run.facts[TIED].values()), run=run.name)
    if booked_of(run) is not None:
        return RefusedError("services.runs_taken.remove_booked", run=run.name)
    return None


def remove_taken(run: models.Run, revision: int | None = None) -> models.Run:
    """Take a run that came from a log out of lists, comparisons and what vessels learn.

    Parameters
    ----------
    run : Run
    revision : int, optional
        State of the run that the person saw.

    Raises
    ------
    RefusedError
        If it came from no log, is tied or booked, or is removed already.
    ConflictError
        If it was changed meanwhile.
    """
    with transaction.atomic():
        run = models.Run.objects.select_for_update(of=("self",)).get(pk=run.pk)
        if run.removed_at is not None:
            raise RefusedError("services.records.removed_already", what=run.name)
        kept_by = why_not_removed(run)
        if kept_by is not None:
            raise kept_by
        return change(run, {"removed_at": timezone.now()}, revision=revision, why="log removed")


def bring_run_back(run: models.Run) -> models.Run:
    """Undo a removal; what is back already stays as it is.

    Raises
    ------
    UnknownNameError
        If the run belongs to a plan: then it comes back with that.
    """
    with transaction.atomic():
        run = models.Run.objects.select_for_update(of=("self",)).get(pk=run.pk)
        if run.removed_at is None:
            return run
        if run.plan_id is not None:
            raise UnknownNameError("services.records.not_found", what="run")
        return bring_back(run, why="log brought back")
