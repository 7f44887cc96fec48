"""The course of an evening from its file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.adapters.plain_document import json_text, plain_value
from wetside.adapters.typesetting import write_evening_cards
from wetside.adapters.whole_file import write_whole
from wetside.errors import RefusedError
from wetside.planning.documents.course import COURSE_FORMAT, CourseHead
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


def course_document(plan: Plan, course: Course) -> dict[str, Any]:
    """Plain values of a course as it is kept by itself: its format, whose it is, and the course's own fields.

    Parameters
    ----------
    plan : Plan
    course : Course
        Of that plan.
    """
    head = CourseHead(COURSE_FORMAT, plan.tool, plan.name, plan.date)
    return {**plain_value(head), **plain_value(course)}


def write_course(plan: Plan, course: Course, folder: Path, paper: str = "a4") -> list[Path]:
    """Write the evening's pages, and the course itself as ``course.json``.

    Parameters
    ----------
    plan : Plan
    course : Course
        Of that plan.
    folder : Path
        Made if it does not exist; other files in it are left alone.
    paper : str
        ``a4`` or ``letter``.

    Returns
    -------
    written : list of Path

    Raises
    ------
    InputError
        If the folder cannot be made or written to.
    """
    written = write_evening_cards(plan, course, folder, paper)
    document = folder / "course.json"
    write_whole(document, f"{json_text(course_document(plan, course))}\n".encode())
    return [*written, document]
