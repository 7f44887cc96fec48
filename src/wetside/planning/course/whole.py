"""Everything around the loads of a plan, put together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.course.fixing import fixer_course
from wetside.planning.course.shelf import draws_of_evening, mixing_of_evening, waste_of_evening, water_of_evening_ml
from wetside.planning.course.timeline import timeline
from wetside.planning.documents.course import Course
from wetside.planning.documents.plan import Note

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Evening, Process, Vessel
    from wetside.planning.documents.plan import Plan


def course_of_plan(plan: Plan, evening: Evening, processes: Sequence[Process], vessels: Sequence[Vessel]) -> Course:
    """Work out the course of the evening of a plan.

    Parameters
    ----------
    plan : Plan
        Its loads in their order.
    evening : Evening
        Hands, places, bottles.
    processes : sequence of Process
        Those that the loads name, the plain ones included.
    vessels : sequence of Vessel

    Returns
    -------
    course : Course
    """
    by_name = {process.name: process for process in processes}
    fixers, new_fixer, renewed_ml, notes = fixer_course(plan, evening, by_name)
    steps, places = timeline(plan, evening, new_fixer, vessels)
    draws = draws_of_evening(plan, evening, by_name)
    costs = [draw.cost for draw in draws if draw.cost is not None]
    told = list(notes)
    most = max((len(load.sheets) for load in plan.loads), default=0)
    if evening.hang_places is not None and most > evening.hang_places:
        told.append(Note("planning.course.too_few_places", {"count": most, "places": evening.hang_places}))
    ends_s = steps[-1].starts_s + steps[-1].lasts_s if steps else 0.0
    return Course(
        evening.starts_s,
        ends_s,
        steps,
        water_of_evening_ml(plan),
        mixing_of_evening(plan),
        draws,
        fixers,
        waste_of_evening(plan, renewed_ml),
        sum(costs) if costs else None,
        places,
        tuple(told),
    )
