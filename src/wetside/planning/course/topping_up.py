"""Replenished developer over an evening: what goes in after each load, and what the bath has become by then."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.development import UsedArea, Way, top_up
from wetside.errors import RefusedError
from wetside.planning.documents.course import Replenishing
from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import BathKind
from wetside.planning.resolved import baths_of, bottle_of
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt

    from wetside.planning.documents.evening import Bottle, Evening, Process
    from wetside.planning.documents.plan import Load, Plan

NOT_SEASONED = "development.replenish.not_seasoned"
"""Said only where it is written down what has gone into the bath."""
NO_RATE = "planning.course.no_replenisher"
"""Said of a load where nobody wrote down how much replenisher its developer asks for."""


class ToppedUp(NamedTuple):
    """Top-ups in the order of the loads, and what to know of each load by its number."""

    rows: tuple[Replenishing, ...]
    notes_of_load: dict[int, tuple[Note, ...]]


def topped_up(plan: Plan, evening: Evening, processes: dict[str, Process], today: dt.date) -> ToppedUp:
    """Replenisher after each load of a replenished developer.

    The bath is what its bottle holds, or what the load pours where that is not written down. What film carries out is
    not counted: the bath is filled to its mark again from what was set aside, which makes up for it.

    Parameters
    ----------
    plan : Plan
        Its loads in their order.
    evening : Evening
    processes : dict of str to Process
        By name.
    today : date
        Day that the bath's age is counted to.
    """
    rates = {plain_name(one.name): one.replenisher_ml_per_cm2 for one in evening.developers}
    films: dict[int, list[UsedArea]] = {load.number: [] for load in plan.loads}
    for sheet in plan.sheets:
        if sheet.area_cm2 > 0:
            films[sheet.load].append(UsedArea(sheet.area_cm2, sheet.weight))
    rows: list[Replenishing] = []
    notes: dict[int, tuple[Note, ...]] = {}
    added: dict[str, float] = {}
    for load in plan.loads:
        process = processes[load.process]
        if process.way is not Way.REPLENISHED:
            continue
        rate = rates.get(plain_name(process.developer))
        if rate is None:
            notes[load.number] = (Note(NO_RATE, {"developer": process.developer}),)
            continue
        if not films[load.number]:
            continue  # no size is known, and the plan says so
        bottle = _bath(process, evening)
        key = bottle.mark if bottle is not None else process.developer
        known_ml = None if bottle is None else bottle.replenished_ml
        before_ml = added.setdefault(key, known_ml or 0.0)
        age = (today - bottle.mixed).days if bottle is not None and bottle.mixed is not None else None
        try:
            found = top_up(
                films[load.number],
                rate,
                _bath_ml(bottle, load),
                added_before_ml=before_ml,
                age_days=None if age is None or age < 0 else age,
            )
        except RefusedError as error:
            notes[load.number] = (Note(error.code, dict(error.params)),)
            continue
        added[key] = before_ml + found.add_ml
        rows.append(
            Replenishing(
                load.number,
                None if bottle is None else bottle.mark,
                process.developer,
                sum(one.area_cm2 * one.weight for one in films[load.number]),
                _bath_ml(bottle, load),
                found.take_out_ml,
                found.add_ml,
                None if known_ml is None else found.turnover,
                None if known_ml is None else found.state.value,
            )
        )
        said = Note("planning.course.top_up", {"developer": process.developer, "add_ml": found.add_ml})
        remarks = tuple(
            Note(remark.code, dict(remark.params))
            for remark in found.remarks
            if known_ml is not None or remark.code != NOT_SEASONED
        )
        notes[load.number] = (said, *remarks)
    return ToppedUp(tuple(rows), notes)


def replenisher_name(developer: str) -> str:
    """What a bottle of replenisher holds, as the evening file names it."""
    return f"{developer} replenisher"


def _bath(process: Process, evening: Evening) -> Bottle | None:
    bath = next(bath for bath in baths_of(process) if bath.does is BathKind.DEVELOP)
    return bottle_of(evening.bottles, bath.bottle, process.developer)


def _bath_ml(bottle: Bottle | None, load: Load) -> float:
    return bottle.volume_ml if bottle is not None and bottle.volume_ml else load.volume_ml
