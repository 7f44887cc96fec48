"""What the runs of a vessel have shown of it, run by run, and what they say together."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import ConflictError, RefusedError, UnknownNameError
from wetside.records import models
from wetside.runs.from_plan import POURED_KINDS, Handling, KeptVessel
from wetside.runs.learned import Lesson, lesson_of, shown_by_run
from wetside.runs.schedule import schedule_at
from wetside.services.records.changes import change
from wetside.services.records.runs_log import states_of
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from uuid import UUID

    from wetside.runs.state import State

TAUGHT = ("pour_s", "drain_s", "dries_s", "follows_s", "jacket_off_c")
"""Columns of a vessel that its runs can teach, in the order in which a page tells them."""
NEWEST_RUNS = 9
"""Runs that are looked at, the newest: a vessel is learned anew after a repair. Our choice. [1]"""
LOOKED_THROUGH = 60
"""Runs of any vessel that are looked through for them, those that ended last. Our choice. [1]"""
STEP: Mapping[str, float] = {"pour_s": 1.0, "drain_s": 1.0, "dries_s": 60.0, "follows_s": 10.0, "jacket_off_c": 0.1}
"""What a learned value is rounded to: nobody knows it finer. Our choice. [s, C]"""
WORTH: Mapping[str, float] = {"pour_s": 2.0, "drain_s": 2.0, "dries_s": 60.0, "follows_s": 30.0, "jacket_off_c": 0.2}
"""Difference from what is kept below which nothing is offered: hands and thermometers differ as much. Our choice."""
WORTH_SHARE = 0.15
"""The same as a share of what is kept. Our choice. [1]"""
LEARNED_IN_RUNS = "learned in runs"
"""Reason in the history of a vessel that adopted a value."""
REFUSED = "vessel_kept"
"""Key of a run's facts under which stands what was offered after it and not wanted."""


class Timed(NamedTuple):
    """What the runs of a vessel have shown, by column, the newest first [s, C].

    ``refused`` are values that somebody was offered and did not want, by column; ``newest`` the run that was opened
    last.
    """

    values: Mapping[str, list[float]]
    refused: Mapping[str, list[float]]
    newest: UUID | None


def timed_in_runs(names: Iterable[str]) -> Timed:
    """What each run of a vessel has shown of it.

    Two questions to the database, whatever there is. Rehearsals, runs that did not end and those of which nothing was
    told teach nothing.

    Parameters
    ----------
    names : iterable of str
        What the vessel is, and was, called.
    """
    ended = models.Run.kept.filter(state=models.RunState.ENDED, rehearsal=False).order_by("-changed_at")
    opened = models.RunEvent.objects.filter(
        run__in=ended.values("pk")[:LOOKED_THROUGH], seq=1, kind="opened", data__script__vessel__in=sorted(set(names))
    )
    facts_of_runs = dict(opened.order_by("-at_utc", "run").values_list("run", "run__facts")[:NEWEST_RUNS])
    if not facts_of_runs:
        return Timed({}, {}, None)
    values: dict[str, list[float]] = {}
    refused: dict[str, list[float]] = {}
    states = states_of(facts_of_runs)
    for key, facts in facts_of_runs.items():
        for column, value in _shown(states[key], facts).items():
            values.setdefault(column, []).append(value)
        for column, value in facts.get(REFUSED, {}).items():
            refused.setdefault(column, []).append(value)
    return Timed(values, refused, next(iter(facts_of_runs)))


def _shown(state: State, facts: Mapping[str, object]) -> dict[str, float]:
    shown = shown_by_run(state, schedule_at(state, state.known_s))
    values: dict[str, float] = {name: value for name, value in shown._asdict().items() if value is not None}
    dried_s = facts.get("dried_s")
    if isinstance(dried_s, int | float):
        values["dries_s"] = float(dried_s)
    return values


class Taught(NamedTuple):
    """What the runs say of one column of a vessel beside what is kept of it.

    ``offered`` what may be adopted, rounded as a person would say it; None where the runs are too few or disagree,
    where they agree with what is kept, or where somebody did not want it.
    """

    column: str
    kept: float | None
    lesson: Lesson
    offered: float | None
    refused: bool = False


def taught_by(vessel: models.Vessel, timed: Timed) -> tuple[Taught, ...]:
    """What runs say of a vessel, column by column; only columns that a run has shown."""
    found = []
    for column in TAUGHT:
        values = timed.values.get(column)
        if values:
            found.append(_taught(column, getattr(vessel, column), lesson_of(column, values), timed))
    return tuple(found)


def _taught(column: str, kept: float | None, lesson: Lesson, timed: Timed) -> Taught:
    if lesson.value is None:
        return Taught(column, kept, lesson, None)
    value = float(round(lesson.value / STEP[column]) * STEP[column])
    value = round(value, 3)
    stands = kept if kept is not None else 0.0  # a jacket that nobody spoke of is where it should be
    near = max(WORTH[column], WORTH_SHARE * abs(stands))
    if abs(value - stands) < near:
        return Taught(column, kept, lesson, None)
    refused = any(abs(value - one) < near for one in timed.refused.get(column, ()))
    return Taught(column, kept, lesson, None if refused else value, refused)


def adopt(
    vessel: models.Vessel, taught: Taught, revision: int | None = None, *, seen: str | None = None
) -> models.Vessel:
    """Adopt what runs teach: only when somebody says so; a change of the vessel like any other.

    Parameters
    ----------
    vessel : Vessel
    taught : Taught
    revision : int, optional
        State of the vessel that the person saw.
    seen : str, optional
        Value that the person saw offered, as the page has it; a run that came to its end meanwhile may have changed it.

    Raises
    ------
    RefusedError
        If nothing is offered, or the vessel was removed.
    ConflictError
        If the vessel or the offer was changed meanwhile, or the value lies outside the limits of its table.
    """
    if vessel.removed_at is not None:
        raise RefusedError("services.run_after.vessel_removed", vessel=vessel.name)
    if taught.offered is None:
        raise RefusedError("services.run_after.nothing_offered")
    if seen and seen != f"{taught.offered:g}":
        raise ConflictError("services.run_after.offer_changed")
    return change(vessel, {taught.column: taught.offered}, revision=revision, why=LEARNED_IN_RUNS)


def keep_own(taught: Taught, timed: Timed) -> None:
    """Keep what stands: the same value is not offered again as long as its runs are among the newest."""
    if taught.offered is None or timed.newest is None:
        return
    run = models.Run.objects.get(pk=timed.newest)
    refused = {taught.column: taught.offered}
    change(
        run,
        {"facts": lambda facts: {**facts, REFUSED: {**facts.get(REFUSED, {}), **refused}}},
        why="vessel kept as it is",
    )


def forget_jacket(vessel: models.Vessel, revision: int | None = None) -> models.Vessel:
    """Take back what was adopted of a vessel's jacket.

    Raises
    ------
    ConflictError
        If the vessel was changed meanwhile.
    """
    return change(vessel, {"follows_s": None, "jacket_off_c": None}, revision=revision, why="jacket forgotten")


def adopted(vessel: models.Vessel) -> frozenset[str]:
    """Columns of a vessel whose value was adopted from runs and stands since."""
    states = list(vessel.history.order_by("-history_date", "-history_id").values(*TAUGHT, "history_change_reason"))
    found = set()
    for column in TAUGHT:
        reason = None
        for state in states:
            if state[column] != getattr(vessel, column):
                break
            reason = state["history_change_reason"]
        if reason == LEARNED_IN_RUNS and getattr(vessel, column) is not None:
            found.add(column)
    return frozenset(found)


class Known(NamedTuple):
    """What a run's script takes over from its vessel: only what was adopted, None where that is nothing. [s, C]"""

    handling: Handling | None
    tau_s: float | None
    jacket_off_c: float | None


def known_of_vessel(vessel: models.Vessel | None) -> Known:
    """What runs have taught of a vessel and somebody adopted."""
    if vessel is None:
        return Known(None, None, None)
    columns = adopted(vessel)
    handling = Handling(vessel.pour_s, vessel.drain_s) if columns & {"pour_s", "drain_s"} else None
    return Known(handling, vessel.follows_s, vessel.jacket_off_c)


def vessels_for_quick() -> tuple[models.Vessel, ...]:
    """Vessels that a run without a plan can be in, by name."""
    return tuple(models.Vessel.kept.filter(kind__in=[kind.value for kind in POURED_KINDS]))


def kept_vessel(name: str) -> KeptVessel:
    """Vessel of the archive for a run without a plan: pour and drain as they are kept, the jacket as it was learned.

    Raises
    ------
    UnknownNameError
        If there is none of that name.
    RefusedError
        If sheets are moved in it, each in its own time.
    """
    vessel = vessel_named(name)
    if vessel is None:
        known = tuple(one.name for one in vessels_for_quick())
        code = "services.runs.no_vessel" if known else "services.runs.no_vessels"
        raise UnknownNameError(code, value=name, known=known)
    if vessel.kind not in POURED_KINDS:
        raise RefusedError("services.runs.vessel_kind", vessel=vessel.name)
    known_of = known_of_vessel(vessel)
    return KeptVessel(
        name=vessel.name,
        kind=vessel.kind,
        handling=Handling(vessel.pour_s, vessel.drain_s),
        learned=known_of.handling is not None,
        tau_s=known_of.tau_s,
        jacket_off_c=known_of.jacket_off_c,
    )


def vessel_named(name: str) -> models.Vessel | None:
    """Vessel of the records by the name that a script gives it."""
    found: models.Vessel | None = models.Vessel.kept.filter(name_key=plain_name(name)).first() if name else None
    return found


def names_of(vessel: models.Vessel) -> set[str]:
    """What a vessel is, and was, called."""
    return {vessel.name, *vessel.history.order_by().values_list("name", flat=True).distinct()}
