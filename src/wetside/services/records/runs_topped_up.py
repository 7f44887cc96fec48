"""The top-up of a replenished developer after its run: replenisher into the bath, what is over into its waste."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.development import UsedArea, top_up
from wetside.errors import WetsideError
from wetside.planning.course.topping_up import NO_RATE, replenisher_name
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.planning.documents.plan import Plan
    from wetside.records.models import Bottle
    from wetside.runs.state import State

WHOLE_BATH = "development.replenish.whole_bath"
"""The film asks for as much as the bath holds: no top-up, and nothing is proposed."""


class DueTopUp(NamedTuple):
    """What a run's film asks for.

    ``mark`` is the bath's bottle as the plan has it, None where it names none; ``bath_ml`` the volume at its mark;
    ``add_ml`` is None where nobody wrote down how much, or no top-up would do [ml]. ``code`` with ``params`` says it.
    """

    developer: str
    mark: str | None
    bath_ml: float | None
    add_ml: float | None
    code: str
    params: Mapping[str, Any]


def top_up_due(document: Plan | None, load: int | None, state: State) -> DueTopUp | None:
    """Top-up of a run's developer, for the sheets that were developed; None where its developer is not replenished.

    The rate and the mark are those that the plan reckoned with; a lost sheet asks for nothing.

    Parameters
    ----------
    document : Plan or None
        As it was frozen.
    load : int or None
        Its number.
    state : State
        Of the run.
    """
    script = state.script
    found = None if document is None else next((one for one in document.loads if one.number == load), None)
    if document is None or found is None or script is None:
        return None
    told = {note.code: dict(note.params) for note in found.notes}
    for code in (NO_RATE, WHOLE_BATH):
        if code in told:
            return DueTopUp(found.developer, None, None, None, code, told[code])
    rows = () if document.course is None else document.course.replenishing
    row = next((one for one in rows if one.load == load), None)
    if row is None or row.weighted_cm2 <= 0:
        return None
    film = [
        UsedArea(one.area_cm2, one.weight) for one in script.sheets if one.id in state.in_liquid and one.area_cm2 > 0
    ]
    if not film:
        return None
    try:
        due = top_up(film, row.add_ml / row.weighted_cm2, row.bath_ml)
    except WetsideError as error:
        return DueTopUp(row.developer, row.bottle, row.bath_ml, None, error.code, dict(error.params))
    params = {"add_ml": due.add_ml, "bath_ml": row.bath_ml, "developer": row.developer}
    return DueTopUp(row.developer, row.bottle, row.bath_ml, due.add_ml, "services.run_after.top_up", params)


def over_the_mark_ml(due: DueTopUp, held_ml: float, add_ml: float) -> float:
    """Used developer that has no room any more once the replenisher is in. [ml]

    Parameters
    ----------
    due : DueTopUp
    held_ml : float
        What the bottle would hold with all of the used developer back in it; below its mark the top-up first fills up
        what film carried out.
    add_ml : float
        Replenisher that goes in.
    """
    if due.bath_ml is None:
        return 0.0
    return round(min(add_ml, max(0.0, held_ml + add_ml - due.bath_ml)), 1)


def replenisher_bottle(bottles: Iterable[Bottle], developer: str, add_ml: float) -> Bottle | None:
    """Bottle of replenisher that is drawn from: the oldest that holds enough [ml], else the oldest that holds any."""
    wanted = plain_name(replenisher_name(developer))
    same = [one for one in bottles if plain_name(one.holds) == wanted]
    same.sort(key=lambda one: (one.mixed or dt.date.max, one.mark_key))
    enough = [one for one in same if (one.left_ml or 0.0) >= add_ml]
    return next(iter((*enough, *(one for one in same if one.left_ml), *same)), None)
