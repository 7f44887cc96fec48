"""A run that was tied to a load or to sheets by mistake is untied, and can be tied again as it was.

The run keeps its facts, its looks, and, where only sheets were tied, its booking: what happened at the sink did happen,
whichever sheets it were. What came upon sheets by the tie goes back along with it, and the page shows it beforehand.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from wetside.errors import ConflictError, Place, RefusedError, UnknownNameError
from wetside.records import models
from wetside.records.one_writer import NEGATIVES, one_writer
from wetside.runs.state import Status
from wetside.services.records.changes import bring_back, change, make, remove
from wetside.services.records.evenings import identities
from wetside.services.records.runs_booked import booked_of
from wetside.services.records.runs_log import conduct_of
from wetside.services.records.runs_sheets import sheets_follow, sheets_of_run
from wetside.services.records.runs_tied import TIED, load_that_fits
from wetside.services.records.sheets_names import UNDEVELOPED
from wetside.services.records.sheets_runs import runs_holding
from wetside.services.run_terminal import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.runs.state import State

LOG = "log"
"""Key of a run's facts under which stands which log it was taken from."""
UNTIED = "untied"
"""Key of a run's facts under which stands what it was tied to before it was untied, so that it can be tied again."""
_BY_A_RUN = "run: "
"""What the reason begins with for which a run has ended a sheet; one that a person ended has another."""


class Goes(NamedTuple):
    """What untying does to a sheet.

    ``name`` in the run's script; ``state`` it is to have, None where it stays as it is; ``side`` its holder's side
    that it lies in again; ``number`` the negative's number that goes, empty where none does, and ``before`` the one
    that it had before the run; ``shared`` whether another run holds the sheet too.
    """

    sheet: models.Sheet
    name: str
    state: str | None
    side: models.HolderSide | None
    number: str
    before: str
    shared: bool

    @property
    def stays(self) -> bool:
        """Whether nothing of the sheet changes."""
        return self.state is None and not self.number


class Untying(NamedTuple):
    """What untying a run would do.

    ``load`` names the load that it is tied to, empty where single sheets are; ``blocked`` is why it cannot be done,
    None where it can.
    """

    run: models.Run
    load: str
    sheets: tuple[Goes, ...]
    blocked: RefusedError | None


def is_taken(run: models.Run) -> bool:
    """Whether a run was taken from a log."""
    return LOG in run.facts


def is_tied(run: models.Run) -> bool:
    """Whether a run that was taken from a log is tied to a load or to sheets."""
    return is_taken(run) and (run.plan_id is not None or bool(run.facts.get(TIED)))


def own_name(state: State) -> str:
    """What a run is called that belongs to no load."""
    script = state.script
    if script is None:
        return ""
    return say("services.runs_taken.title", {"film": script.name, "developer": script.developer})


def tie_to_load(run: models.Run, ready: models.Run) -> models.Run:
    """Make a taken run that of a load which was not begun; the load's own run, which is empty, is put away.

    Parameters
    ----------
    run : Run
        One without a plan, locked by the caller, whose transaction this is.
    ready : Run
        Of the load.

    Raises
    ------
    UnknownNameError
        If the load was begun meanwhile.
    """
    ready = models.Run.objects.select_for_update(of=("self",)).select_related("plan").get(pk=ready.pk)
    if ready.removed_at is not None or ready.state != models.RunState.READY or ready.events.exists():
        raise UnknownNameError("services.runs_taken.no_such_load", place=Place(field="tie"))
    remove(ready, timezone.now(), why="a log is this load")
    facts = {name: value for name, value in run.facts.items() if name != UNTIED}
    values = {"plan": ready.plan, "load": ready.load, "name": ready.name, "demo": ready.demo, "facts": facts}
    return change(run, values, why="tied to its load")


def untying_of(run: models.Run) -> Untying:
    """What untying a run would do to its sheets, or why it cannot be done; nothing is written.

    Parameters
    ----------
    run : Run
    """
    if not is_tied(run):
        return Untying(run, "", (), RefusedError("services.runs_taken.none_tied"))
    records = {sheet.pk: (name, sheet) for name, sheet in sheets_of_run(run).items()}
    if run.plan_id is None:  # a record that was removed is tied none the less
        names = run.facts[TIED]
        rows = models.Sheet.objects.filter(pk__in=identities(names)).select_related("lot", "film")
        records = {sheet.pk: (names[str(sheet.pk)], sheet) for sheet in rows}
    ground = _ground(run, records)
    goes = tuple(_goes(run, name, sheet, ground) for name, sheet in sorted(records.values(), key=lambda one: one[0]))
    return Untying(run, run.name if run.plan_id is not None else "", goes, _blocked(run))


def _blocked(run: models.Run) -> RefusedError | None:
    """A load's bottles, weights and top-up come from its plan; single sheets change nothing of what was booked."""
    if run.plan is None:
        return None
    if booked_of(run) is not None:
        return RefusedError("services.runs_taken.untie_booked", run=run.name)
    if run.plan.facts.get("replanned_to"):
        return RefusedError("services.runs_taken.untie_replanned", run=run.name)
    return None


class _Ground(NamedTuple):
    """What stands around the sheets of a run: asked for all of them at once.

    ``histories`` of each sheet, the newest first; ``others`` names of the ended runs that hold it too; ``sides`` that
    are free; ``planned`` sheets that have a place in a load of a frozen plan.
    """

    histories: Mapping[UUID, list[Any]]
    others: Mapping[UUID, list[str]]
    sides: Mapping[UUID, models.HolderSide]
    planned: frozenset[UUID]


def _ground(run: models.Run, sheets: Iterable[UUID]) -> _Ground:
    keys = list(sheets)
    histories: dict[UUID, list[Any]] = {key: [] for key in keys}
    for version in models.Sheet.history.filter(id__in=keys).order_by("-history_date", "-history_id"):
        histories[version.id].append(version)
    lay = {version.side_id for versions in histories.values() for version in versions if version.side_id}
    free = models.HolderSide.kept.filter(pk__in=lay, state=models.SideState.UNLOADED)
    places = models.PlanSheet.objects.filter(sheet__in=keys, load__isnull=False, plan__removed_at=None)
    frozen = places.filter(plan__frozen_at__isnull=False)
    at = list(frozen.values_list("sheet", "plan", "load"))
    ended = models.Run.kept.filter(state=models.RunState.ENDED, rehearsal=False).exclude(pk=run.pk)
    of_loads = ended.filter(plan__in={plan for _, plan, _ in at}).values_list("plan", "load", "name")
    loads = {(plan, load): name for plan, load, name in of_loads}
    others: dict[UUID, list[str]] = {key: [] for key in keys}
    for sheet, plan, load in at:
        if (plan, load) in loads:
            others[sheet].append(loads[plan, load])
    texts = [str(key) for key in keys]
    tied = ended.filter(plan=None, **{f"facts__{TIED}__has_any_keys": texts})
    for name, names in tied.values_list("name", f"facts__{TIED}"):
        for text in set(names) & set(texts):
            others[UUID(text)].append(name)
    return _Ground(histories, others, {side.pk: side for side in free}, frozenset(sheet for sheet, _, _ in at))


def _goes(run: models.Run, name: str, sheet: models.Sheet, ground: _Ground) -> Goes:
    history = ground.histories[sheet.pk]
    others = ground.others[sheet.pk]
    rank = next((rank for rank, one in enumerate(history) if one.state in UNDEVELOPED), None)
    by_a_run = rank and str(history[rank - 1].history_change_reason or "").startswith(_BY_A_RUN)
    if not rank or not by_a_run or others:
        # Where two runs of one name hold it, nobody knows which of them gave the number.
        before = None if run.name in others else _number_before(history, f"hung: {run.name}")
        number = "" if before is None else sheet.negative
        return Goes(sheet, name, None, None, number, before or "", bool(others))
    old = history[rank]
    waits = models.SheetState.WAITING.value
    state = str(old.state) if sheet.pk in ground.planned else waits  # from a plan it hangs only where that is frozen
    side = ground.sides.get(old.side_id) if sheet.removed_at is None else None
    number = sheet.negative if sheet.negative != old.negative else ""
    return Goes(sheet, name, state, side, number, old.negative, shared=False)


def _number_before(history: Sequence[Any], why: str) -> str | None:
    """Number before the one that a sheet has now, if that one was given for a reason; None where it was not."""
    if not history or not history[0].negative:
        return None
    given = next((rank for rank, one in enumerate(history) if one.negative != history[0].negative), len(history))
    if history[given - 1].history_change_reason != why[: models.LABEL_LENGTH]:
        return None
    return str(history[given].negative) if given < len(history) else ""


def untie(run: models.Run, revision: int | None = None) -> Untying:
    """Take back what a run was tied to.

    Sheets that a run has ended, and no other run holds, are what they were before: they wait or are planned, lie in
    their holder's side if nothing else does, and lose the number that they got since. Of the others only a number that
    this run's hanging gave goes. A load is ready again. What the log tells of the run stays.

    Parameters
    ----------
    run : Run
    revision : int, optional
        State of the run that the person saw.

    Returns
    -------
    untying : Untying
        What was done, with the run as it is now.

    Raises
    ------
    RefusedError
        If nothing is tied; if the load is booked, or its plan was planned anew after it.
    ConflictError
        If the run was changed meanwhile, or the label of a sheet was taken.
    """
    with transaction.atomic():
        # The run first, then the numbers, as at hanging: nobody waits for the other for ever.
        run = models.Run.objects.select_for_update(of=("self",)).select_related("plan").get(pk=run.pk)
        one_writer(NEGATIVES)
        found = untying_of(run)
        if found.blocked is not None:
            raise found.blocked
        _require_seen(run, revision)
        for one in found.sheets:
            _put_back(run, one)
        was: dict[str, Any] = {
            "at": timezone.now().isoformat(),
            "numbers": {str(one.sheet.pk): one.number for one in found.sheets if one.number},
            "shared": [str(one.sheet.pk) for one in found.sheets if one.shared],
        }
        facts = {name: value for name, value in run.facts.items() if name != TIED}
        if run.plan is None:
            was["sheets"] = run.facts[TIED]
            return found._replace(run=change(run, {"facts": {**facts, UNTIED: was}}, why="sheets not its own"))
        was |= {"plan": str(run.plan.pk), "load": run.load, "called": run.name}
        return found._replace(run=_off_its_load(run, {**facts, UNTIED: was}))


def _require_seen(run: models.Run, revision: int | None) -> None:
    if revision is not None and run.revision != revision:
        raise ConflictError("services.records.changed_meanwhile", what=run.name)


def _put_back(run: models.Run, one: Goes) -> None:
    values: dict[str, Any] = {"negative": one.before} if one.number else {}
    if one.state is not None:
        values |= {"state": models.SheetState(one.state), "developed_at": None}
    if one.side is not None:
        values["side"] = one.side
    if not values:
        return
    sheet = change(one.sheet, values, why=f"not of run: {run.name}")
    if one.side is not None:
        state = models.SideState.SUSPECT if sheet.suspect else models.SideState.EXPOSED
        lies = {"state": state, "film": sheet.film, "lot": sheet.lot or one.side.lot}
        change(one.side, lies, why=f"sheet {sheet}")


def _off_its_load(run: models.Run, facts: Mapping[str, Any]) -> models.Run:
    """The run is one of its own again; the load is ready, by the run that was put away for it or by a new one."""
    plan, load, called = run.plan, run.load, run.name
    assert plan is not None  # noqa: S101 (asked by the caller)
    name = own_name(conduct_of(run).state())[: models.LABEL_LENGTH] or called
    values = {"plan": None, "load": 1, "name": name, "demo": False, "facts": dict(facts)}
    free = change(run, values, why="not that load")
    of_load = plan.runs.filter(load=load, rehearsal=False)
    begun_anew = of_load.filter(removed_at=None).exclude(state=models.RunState.ABANDONED).exists()
    if begun_anew or plan.frozen_at is None:  # since it was given up
        return free
    ready = of_load.filter(state=models.RunState.READY, events=None).exclude(removed_at=None)
    kept = ready.order_by("-removed_at").first()
    if kept is not None:
        bring_back(kept, why="ready again")
    else:
        made = {"plan": plan, "load": load, "name": called, "demo": plan.demo}
        make(models.Run, made, why="ready again")
    return free


def was_tied_to(run: models.Run) -> tuple[str, ...]:
    """What a run was tied to until it was untied: a load, or sheets by their names; nothing where it never was."""
    was = run.facts.get(UNTIED) or {}
    return (was["called"],) if "plan" in was else tuple(sorted(was.get("sheets", {}).values()))


def tie_again(run: models.Run, revision: int | None = None) -> models.Run:
    """Undo :func:`untie`: load or sheets as before, with the numbers that went.

    Parameters
    ----------
    run : Run
    revision : int, optional
        State of the run that the person saw.

    Raises
    ------
    RefusedError
        If it was not untied, a sheet was removed, or another run holds one by now.
    ConflictError
        If the run was changed meanwhile, the load was begun, or a number names another sheet.
    """
    with transaction.atomic():
        # The run first, then the numbers, as at hanging: nobody waits for the other for ever.
        run = models.Run.objects.select_for_update(of=("self",)).select_related("plan").get(pk=run.pk)
        one_writer(NEGATIVES)
        was = run.facts.get(UNTIED)
        if not was or is_tied(run) or run.removed_at is not None:
            raise RefusedError("services.runs_taken.none_untied")
        _require_seen(run, revision)
        state = conduct_of(run).state()
        tied = _to_its_load(run, was, state) if "plan" in was else _to_its_sheets(run, was)
        if state.status is Status.ENDED:
            sheets_follow(tied, state)
        _number_again(tied, was.get("numbers", {}))
        return tied


def _to_its_load(run: models.Run, was: Mapping[str, Any], state: State) -> models.Run:
    plans = identities([str(was["plan"])])
    ready = None if state.script is None or not plans else load_that_fits(state.script, plans[0], was["load"])
    if ready is None:
        raise ConflictError("services.runs_taken.load_moved_on", load=was["called"])
    return tie_to_load(run, ready)


def _to_its_sheets(run: models.Run, was: Mapping[str, Any]) -> models.Run:
    kept = {str(sheet.pk): sheet for sheet in models.Sheet.kept.filter(pk__in=identities(was["sheets"]))}
    for key, name in was["sheets"].items():
        if key not in kept:
            raise RefusedError("services.runs_taken.sheet_gone", sheet=name)
        other = runs_holding(kept[key]).filter(state=models.RunState.ENDED).exclude(pk=run.pk).first()
        if other is not None and key not in was.get("shared", ()):
            raise RefusedError("services.runs_taken.sheet_elsewhere", sheet=name, run=other.name)
    facts = {name: value for name, value in run.facts.items() if name != UNTIED}
    return change(run, {"facts": {**facts, TIED: was["sheets"]}}, why="tied again")


def _number_again(run: models.Run, numbers: Mapping[str, str]) -> None:
    for sheet in _kept_sheets(numbers):
        number = numbers[str(sheet.pk)]
        if sheet.negative or sheet.state in UNDEVELOPED:
            continue
        other = models.Sheet.kept.filter(negative=number).exclude(pk=sheet.pk).first()
        if other is not None:
            raise ConflictError("services.runs_taken.number_elsewhere", number=number, sheet=str(other))
        change(sheet, {"negative": number}, why=f"hung: {run.name}")


def _kept_sheets(keys: Iterable[str]) -> list[models.Sheet]:
    return list(models.Sheet.kept.filter(pk__in=identities(keys)))
