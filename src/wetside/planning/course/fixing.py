"""The fixer over an evening: film that goes through it, when it is renewed, how long it must act."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry import FilmFixed, clearing_limit_s, fix_multiple, fix_time_s, fixer_share, fixer_weight
from wetside.chemistry.fixer import UNITS_PER_LITRE
from wetside.planning.documents.course import FixerState
from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import AfterUse, BathKind, FixClass
from wetside.planning.resolved import baths_of, bottle_of
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from wetside.planning.documents.evening import Bath, Bottle, Evening, Process
    from wetside.planning.documents.plan import Plan

FIRST_ROUNDING = 1e-9


class FixerCourse(NamedTuple):
    """State of each fixer, bottle renewed before a load by its number, renewed volume [ml], and notes."""

    fixers: tuple[FixerState, ...]
    new_fixer: dict[int, str]
    renewed_ml: float
    notes: tuple[Note, ...]


def fixing_bottle(bath: Bath, evening: Evening) -> Bottle | None:
    """Bottle that a fixing bath comes from and goes back to; None for other baths or where none is written down."""
    if bath.does is not BathKind.FIX or bath.after is not AfterUse.BACK:
        return None
    return bottle_of(evening.bottles, bath.bottle, bath.name or bath.does.value)


def fix_time_of(bath: Bath, evening: Evening, *, tabular: bool) -> tuple[float | None, Note | None]:
    """Fixing time of a bath: its own, or longer where tonight's clearing time asks for it.

    Returns
    -------
    time_s : float or None
        [s]
    note : Note or None
        Said where the clearing time decides, or where the fixer is spent by it.
    """
    bottle = fixing_bottle(bath, evening)
    if bottle is None or bottle.clearing_s is None:
        return bath.time_s, None
    wanted_s = fix_time_s(bottle.clearing_s, fix_multiple(tabular=tabular))
    params = {
        "bottle": bottle.mark,
        "clearing_s": bottle.clearing_s,
        "fix_s": wanted_s,
        "fresh_s": bottle.fresh_clearing_s,
    }
    if bottle.fresh_clearing_s is not None and bottle.clearing_s > clearing_limit_s(bottle.fresh_clearing_s):
        return max(wanted_s, bath.time_s or 0.0), Note("planning.course.fixer_spent", params)
    if bath.time_s is None or wanted_s > bath.time_s:
        return wanted_s, Note("planning.course.fix_by_clearing", params)
    return bath.time_s, None


def fixer_course(plan: Plan, evening: Evening, processes: dict[str, Process]) -> FixerCourse:
    """Follow each fixer through the loads in their order.

    A fixer is renewed before the load that would take it past its capacity, by its maker's figure or 20 units of film
    to a litre; silver that was not developed counts, so a thin sheet weighs more.
    """
    tabular = {plain_name(film.name): film.fixing is FixClass.TABULAR for film in evening.films}
    states: dict[str, FixerState] = {}
    new_fixer: dict[int, str] = {}
    renewed_ml = 0.0
    films_of = _films_by_load(plan, tabular)
    for load in plan.loads:
        films = films_of[load.number]
        for bath in baths_of(processes[load.process]):
            bottle = fixing_bottle(bath, evening)
            if bottle is None:
                continue
            volume_ml = bottle.volume_ml or bath.volume_ml or load.volume_ml
            per_l = bottle.capacity_per_l or UNITS_PER_LITRE
            capacity = per_l * volume_ml / 1000.0
            before = bottle.seen_units / capacity
            state = states.get(bottle.mark, FixerState(bottle.mark, before, before, capacity, None, ()))
            fix_s, _ = fix_time_of(bath, evening, tabular=any(film.tabular for film in films))
            if fix_s is not None:
                state = state._replace(fix_s=max(fix_s, state.fix_s or 0.0))
            share = fixer_share(films, volume_ml, per_l)
            if state.after > 0 and state.after + share > 1.0 + FIRST_ROUNDING:
                state = state._replace(after=0.0, changes=(*state.changes, load.number))
                new_fixer[load.number] = bottle.mark
                renewed_ml += volume_ml
            states[bottle.mark] = state._replace(after=state.after + share)
    notes = tuple(
        Note(
            "planning.course.fixer_short", {"bottle": state.bottle, "share": state.after, "units": state.capacity_units}
        )
        for state in states.values()
        if state.after > 1.0 + FIRST_ROUNDING
    )
    return FixerCourse(tuple(states.values()), new_fixer, renewed_ml, notes)


def _films_by_load(plan: Plan, tabular: dict[str, bool]) -> dict[int, list[FilmFixed]]:
    """Film of each load as the fixer meets it."""
    films: dict[int, list[FilmFixed]] = {load.number: [] for load in plan.loads}
    for sheet in plan.sheets:
        film = FilmFixed(
            sheet.area_cm2,
            tabular=tabular.get(plain_name(sheet.film), False),
            weight=fixer_weight(sheet.stop_error),
        )
        films[sheet.load].append(film)
    return films
