"""The course of an evening from its file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import RefusedError
from wetside.services.plan_evening import plan_file

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.planning.documents.course import Course
    from wetside.planning.documents.plan import Plan


def course_of_file(path: Path, rows: Path | None = None) -> tuple[Plan, Course]:
    """Plan an evening file and lay out its course.

    Raises
    ------
    ManyErrors, WetsideError
        As :func:`~wetside.services.plan_evening.plan_file`.
    RefusedError
        If no sheet could be planned, with the reason of the first.
    """
    plan = plan_file(path, rows)
    if plan.course is None:
        first = plan.unplanned[0]
        raise RefusedError(first.code, **first.params)
    return plan, plan.course
