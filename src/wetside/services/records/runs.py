"""Live runs in the archive: opened from a frozen load or from four words, steered by commands, fed by devices.

What happened stands in the run's log alone; the run's own row repeats where it stands, so that lists need not fold.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.db.models import Case, Count, Exists, Max, OuterRef, When
from django.utils import timezone

from wetside.errors import RefusedError, UnknownNameError
from wetside.records import models
from wetside.records.event_log import StoredLog
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
from wetside.runs.fold import fold
from wetside.runs.rules import rules_of
from wetside.runs.script import Pause
from wetside.runs.state import Status
from wetside.services.records.changes import change, find, make
from wetside.services.records.runs_scripts import planned_script, short_script
from wetside.services.records.sheets import end_sheet

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from uuid import UUID

    from wetside.runs.decide import Decision
    from wetside.runs.fact import Fact
    from wetside.runs.moment import Moment
    from wetside.runs.state import State

SERVER = "server"
"""Device under whose name this process tells what a page asked it to decide."""
PAGE = 25
KEPT_STATES = 64
"""Folded runs that a process remembers: a few evenings with many watchers. Our choice. [1]"""

STATES = {
    Status.NOTHING: models.RunState.READY,
    Status.READY: models.RunState.READY,
    Status.RUNNING: models.RunState.RUNNING,
    Status.ENDED: models.RunState.ENDED,
    Status.ABANDONED: models.RunState.ABANDONED,
}


class Line(NamedTuple):
    """A run in the list; ``opened`` where its log has begun."""

    run: models.Run
    opened: bool


class Lines(NamedTuple):
    """A page of runs, the newest first, with how many are on, wait opened, and are ready to be opened."""

    lines: tuple[Line, ...]
    more: bool
    running: int
    ready: int


class HandedOver(NamedTuple):
    """Places of facts that a device handed over, and the place of the run's last fact."""

    seqs: tuple[int, ...]
    seq: int


def find_run(key: UUID | str) -> models.Run:
    """Run by its identity.

    Raises
    ------
    UnknownNameError
        If there is none.
    """
    return find(models.Run, key)


def list_runs(page: int = 1) -> Lines:
    """Runs whose log has begun and loads that are ready, those that are on first."""
    kept = models.Run.kept.select_related("plan").exclude(state=models.RunState.READY, plan__removed_at__isnull=False)
    begun = models.RunEvent.objects.filter(run=OuterRef("pk"))
    rank = Case(When(state=models.RunState.RUNNING, then=0), When(state=models.RunState.READY, then=1), default=2)
    rows = kept.annotate(opened=Exists(begun), rank=rank).order_by("rank", "-changed_at")
    start = (page - 1) * PAGE
    found = list(rows[start : start + PAGE + 1])
    counts = dict(
        models.Run.kept.filter(state__in=[models.RunState.RUNNING, models.RunState.READY])
        .order_by()
        .values_list("state")
        .annotate(n=Count("pk"))
    )
    return Lines(
        tuple(Line(run, run.opened) for run in found[:PAGE]),
        len(found) > PAGE,
        counts.get(models.RunState.RUNNING, 0),
        counts.get(models.RunState.READY, 0),
    )


def running() -> models.Run | None:
    """The run that is on; the newest of several."""
    return models.Run.kept.filter(state=models.RunState.RUNNING).order_by("-changed_at").first()


def conduct_of(run: models.Run, device: str = SERVER) -> Conduct:
    """A device's hand on a run."""
    return Conduct(StoredLog(), str(run.pk), device)


def open_planned(
    plan: models.Plan, load: int, now: Moment, *, rehearsal: bool = False, retired: Sequence[Pause] = ()
) -> models.Run:
    """Open the run of a frozen load, or a rehearsal of it with water beside it.

    A run that is open already is given as it is: two taps on "start" start once.

    Parameters
    ----------
    plan : Plan
        A frozen one.
    load : int
        Its number. [1]
    now : Moment
    rehearsal : bool
        A run of its own: no sheet, bottle or capacity is touched.
    retired : sequence of Pause
        Where this user waits no more.

    Raises
    ------
    RefusedError
        If the load is developed, or the plan is a draft.
    UnknownNameError
        If there is no such load.
    """
    script = planned_script(plan, load)
    if rehearsal:
        run = make(
            models.Run,
            {
                "plan": plan,
                "load": load,
                "name": f"{plan.name}, load {load}"[-120:],
                "rehearsal": True,
                "demo": plan.demo,
            },
            why="rehearsal",
        )
    else:
        found = plan.runs.filter(removed_at=None, rehearsal=False, load=load).exclude(state=models.RunState.ABANDONED)
        ready = found.first()
        if ready is None:
            raise UnknownNameError("services.plans.no_load", load=load)
        if ready.state == models.RunState.ENDED:
            raise RefusedError("services.runs.developed", load=load)
        run = ready
    conduct_of(run).do(c.Open(script, rehearsal, tuple(retired)), now)
    return run


def open_short(answers: Mapping[str, str], now: Moment, *, rehearsal: bool = False) -> models.Run:
    """Open a run of film, developer and minutes; it counts from the first "full", and nothing else is asked.

    Raises
    ------
    WetsideError
        With the field of everything that must be put right.
    """
    script = short_script(answers)
    name = f"{script.name} in {script.developer}"[:120]
    run = make(models.Run, {"name": name, "rehearsal": rehearsal}, why="the short way")
    conduct_of(run).do(c.Open(script, rehearsal, (Pause.BEFORE_DEVELOPER,)), now)
    return run


def command(run: models.Run, wanted: c.Command, now: Moment, device: str = SERVER) -> Decision:
    """Decide on what a person asks, keep what comes of it, and bring the run's row along.

    Raises
    ------
    ConflictError
        If the log stays busy.
    """
    conduct = conduct_of(run, device)
    conduct.take_up(state_of(run), _known(run))
    decision = conduct.do(wanted, now)
    if decision.events:
        settle(run, conduct.state())
    return decision


def hand_over(run: models.Run, facts: Sequence[Fact]) -> HandedOver:
    """Take what a device saw, each fact once; observations are never refused.

    Raises
    ------
    ConflictError
        If a known fact comes with another content.
    """
    conduct = conduct_of(run)
    taken = conduct.hand_over(facts)
    settle(run, conduct.state())
    return HandedOver(taken.seqs, taken.last)


@lru_cache(maxsize=KEPT_STATES)
def _folded(key: str, seq: int) -> tuple[State, tuple[Fact, ...]]:
    facts = tuple(one.fact for one in StoredLog().read(key) if one.seq <= seq)
    return fold(facts), facts


def state_of(run: models.Run) -> State:
    """State of a run by its log; a long log is folded once for each fact and process."""
    return _folded(str(run.pk), StoredLog().last(str(run.pk)))[0]


def last_seq(run: models.Run) -> int:
    """Place of a run's last fact; 0 where its log has not begun. [1]"""
    return StoredLog().last(str(run.pk))


def last_seqs(runs: Sequence[str]) -> dict[str, int]:
    """Places of the last facts of several runs, in one question.

    Parameters
    ----------
    runs : sequence of str
        Identities.
    """
    rows = models.RunEvent.objects.filter(run_id__in=runs).order_by().values_list("run_id").annotate(last=Max("seq"))
    return {str(run): last for run, last in rows}


def rules_now(run: models.Run, now: Moment) -> dict[str, Any]:
    """Rules of a run as data, see :func:`wetside.runs.rules.rules_of`.

    Raises
    ------
    RefusedError
        If the run was not opened yet.
    """
    return rules_of(state_of(run), now, last_seq(run))


def _known(run: models.Run) -> tuple[Fact, ...]:
    return _folded(str(run.pk), StoredLog().last(str(run.pk)))[1]


def settle(run: models.Run, state: State) -> models.Run:
    """Bring the run's row, and with its end the sheets, to where its log stands.

    Done after every command and again when the run is opened, so that a process that was killed between the two
    leaves nothing behind: what counts is the log.
    """
    wanted = STATES[state.status]
    now: models.Run = models.Run.objects.get(pk=run.pk)
    if now.state == wanted:
        return now
    with transaction.atomic():
        settled: models.Run = change(now, {"state": wanted}, why=f"run {wanted}")
        if now.rehearsal or now.plan is None:
            return settled
        if wanted == models.RunState.ENDED:
            _end_sheets(settled, state)
        elif wanted == models.RunState.ABANDONED:
            # Its sheets still hang from the plan: the load can be run again, or noted by hand.
            models.Run(plan=now.plan, load=now.load, name=now.name, demo=now.demo).save()
        return settled


def _end_sheets(run: models.Run, state: State) -> None:
    lost = set(state.lost)
    at = timezone.now()
    for place in run.plan.places.filter(load=run.load).select_related("sheet"):  # type: ignore[union-attr]
        if place.sheet.state not in (models.SheetState.PLANNED, models.SheetState.WAITING):
            continue
        gone = place.sheet.label in lost
        end_sheet(
            place.sheet,
            models.SheetState.LOST if gone else models.SheetState.DEVELOPED,
            at=None if gone else at,
            why=f"{'lost in' if gone else 'developed:'} {run.name}",
        )
