"""What a run's page says without a script: what to do next and when, what is missing, what was told, what it did."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.cues import overdue, shown_now
from wetside.runs.effects import sheet_effects
from wetside.runs.events import Where
from wetside.runs.fold import is_over
from wetside.runs.schedule import schedule_at
from wetside.services.run_terminal import say
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.runs.moment import Moment
    from wetside.runs.script import RunSheet
    from wetside.runs.state import Contested, IncidentAt, ReadingAt, State


class Effect(NamedTuple):
    """What the run did to one sheet, or to the load: time, density and percent, with what was assumed."""

    sheet: str
    planned_s: float
    actual_s: float
    density: float | None
    percent: float
    assumed: tuple[str, ...]


class RunShown(NamedTuple):
    """A run at one moment.

    ``next`` is the largest line; ``missing`` what is asked for again; ``bath`` what the film is in; ``run_s`` None
    while the clock is in doubt [s]; ``by_watch`` whether a watch must be read.
    """

    next: str
    missing: str
    bath: str
    run_s: float | None
    doubtful: bool
    over: bool
    sheets: tuple[RunSheet, ...]
    lost: tuple[str, ...]
    readings: tuple[ReadingAt, ...]
    incidents: tuple[IncidentAt, ...]
    effects: tuple[Effect, ...]
    contested: tuple[tuple[Contested, str], ...]
    identified: bool
    places: tuple[str, ...]


def shown_of(state: State, now: Moment) -> RunShown:
    """Page of a run.

    Parameters
    ----------
    state : State
        Of a run that was opened.
    now : Moment
    """
    when = None if state.clock is None else state.clock.at(now, state.known_s)
    now_s = state.known_s if when is None else when.s
    doubtful = state.doubtful or (when is not None and when.doubtful)
    found = shown_now(state._replace(doubtful=doubtful), now_s)
    missing = None if doubtful else overdue(state, now_s)
    schedule = schedule_at(state, now_s)
    inside = None if doubtful else schedule.bath()
    return RunShown(
        next=say(found.code, found.params),
        missing="" if missing is None else say(missing.code, missing.params),
        bath="" if inside is None else inside.act.bath or sentence(f"runs.bath.{inside.act.kind}", {}),
        run_s=None if doubtful else now_s,
        doubtful=doubtful,
        over=is_over(state),
        sheets=() if state.script is None else state.script.sheets,
        lost=state.lost,
        readings=state.readings,
        incidents=state.incidents,
        effects=tuple(
            Effect(one.sheet, one.planned_s, one.actual_s, one.density, one.percent, one.assumed)
            for one in (sheet_effects(state, schedule) if is_over(state) else ())
        ),
        contested=tuple((one, sentence(one.code, {})) for one in state.contested),
        identified=state.identified,
        places=tuple(where.value for where in Where),
    )
