"""Which sheets something that went wrong has touched: by when it was, and where each sheet was then."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.words import BathKind
from wetside.runs.events import Incident
from wetside.runs.script import bath_number, developing_baths

if TYPE_CHECKING:
    from wetside.runs.schedule import Schedule
    from wetside.runs.state import IncidentAt, State

FIXED_AFTER_S = 120.0
"""After two minutes in the fixer light does no more harm to film; common practice, ``assumed``. [s]"""


class Touched(NamedTuple):
    """An incident, and the sheets that it touched; none where it came too late to matter."""

    incident: IncidentAt
    sheets: tuple[str, ...]


def touched_sheets(state: State, schedule: Schedule) -> tuple[Touched, ...]:
    """Incidents of a run in their order, each with its sheets.

    Parameters
    ----------
    state : State
    schedule : Schedule

    Notes
    -----
    Light touches every sheet until two minutes after the fixer was full. A power cut stops tempering and turning, and
    touches what still developed: up to the stop being full, or up to a sheet's own lift. A leak touches what was in the
    vessel until its last liquid left it. Of anything else nobody knows: it touches all. Where somebody saw on which
    sheets it was, it touches just these, a lost one among them.
    """
    return tuple(Touched(one, _sheets(one, state, schedule)) for one in state.incidents)


def _sheets(incident: IncidentAt, state: State, schedule: Schedule) -> tuple[str, ...]:
    if incident.sheets:
        return tuple(sheet.id for sheet in state.script.sheets if sheet.id in incident.sheets) if state.script else ()
    began_s = incident.began_s
    if incident.what is Incident.LIGHT:
        fixed_s = _full_s(schedule, BathKind.FIX)
        return state.sheets if fixed_s is None or began_s < fixed_s + FIXED_AFTER_S else ()
    if incident.what is Incident.POWER:
        return _developing(began_s, state, schedule)
    if incident.what is Incident.LEAK:
        ends = [due.at_s for due in schedule.dues if due.act.does == "drain" and due.at_s is not None]
        return state.sheets if not ends or began_s < max(ends) else ()
    return state.sheets


def _full_s(schedule: Schedule, kind: BathKind) -> float | None:
    """When the first bath of a kind was full [s]; None where there is none, or it has no time yet."""
    found = next(
        (due for due in schedule.dues if due.act.kind == kind.value and due.act.does in ("full", "move")), None
    )
    return None if found is None else found.at_s


def _developing(began_s: float, state: State, schedule: Schedule) -> tuple[str, ...]:
    """Sheets whose development had not ended."""
    lifts = {due.act.sheet: due.at_s for due in schedule.dues if due.act.does == "lift"}
    if lifts:
        return tuple(name for name in state.sheets if (lifted_s := lifts.get(name)) is None or began_s < lifted_s)
    if state.script is None:
        return ()
    last = developing_baths(state.script)[-1]
    after = next(
        (due for due in schedule.dues if bath_number(due.act.key) == last + 1 and due.act.does in ("full", "move")),
        None,
    )
    return state.sheets if after is None or after.at_s is None or began_s < after.at_s else ()
