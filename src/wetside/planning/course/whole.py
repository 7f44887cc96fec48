"""Everything around the loads of a plan, put together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.course.fixing import fixer_course
from wetside.planning.course.shelf import (
    draws_of_evening,
    draws_of_replenisher,
    mixing_of_evening,
    parts_unknown,
    waste_of_evening,
    water_of_evening_ml,
)
from wetside.planning.course.timeline import timeline
from wetside.planning.course.topping_up import topped_up
from wetside.planning.documents.course import Course
from wetside.planning.documents.plan import Note

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Evening, Process, Vessel
    from wetside.planning.documents.plan import Plan


def plan_with_course(
    plan: Plan, evening: Evening, processes: Sequence[Process], vessels: Sequence[Vessel], today: dt.date
) -> Plan:
    """Work out the course of the evening of a plan, and hand the plan back with it.

    Parameters
    ----------
    plan : Plan
        Its loads in their order.
    evening : Evening
        Hands, places, bottles.
    processes : sequence of Process
        Those that the loads name, the plain ones included.
    vessels : sequence of Vessel
    today : date
        Day of the evening.

    Returns
    -------
    plan : Plan
        With its course, and with what the course asks of single loads among their notes.
    """
    by_name = {process.name: process for process in processes}
    fixers, new_fixer, renewed_ml, notes = fixer_course(plan, evening, by_name)
    steps, places = timeline(plan, evening, new_fixer, vessels)
    replenished = topped_up(plan, evening, by_name, today)
    draws = (*draws_of_evening(plan, evening, by_name), *draws_of_replenisher(replenished.rows, evening))
    costs = [draw.cost for draw in draws if draw.cost is not None]
    told = [*notes, *parts_unknown(plan, evening, by_name)]
    most = max((len(load.sheets) for load in plan.loads), default=0)
    if evening.hang_places is not None and most > evening.hang_places:
        told.append(Note("planning.course.too_few_places", {"count": most, "places": evening.hang_places}))
    ends_s = steps[-1].starts_s + steps[-1].lasts_s if steps else 0.0
    course = Course(
        evening.starts_s,
        ends_s,
        steps,
        water_of_evening_ml(plan),
        mixing_of_evening(plan, [row.load for row in replenished.rows if row.bottle is not None]),
        draws,
        fixers,
        replenished.rows,
        waste_of_evening(plan, renewed_ml, sum(row.set_aside_ml for row in replenished.rows)),
        sum(costs) if costs else None,
        places,
        tuple(told),
    )
    loads = tuple(
        load._replace(notes=(*load.notes, *replenished.notes_of_load.get(load.number, ()))) for load in plan.loads
    )
    return plan._replace(loads=loads, course=course)
