"""What pages of plans show beside plain values: evidence in words, cells beside their columns, answers compared."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import template
from django.utils.translation import gettext, gettext_lazy

from wetside.cards.blocks import BLANK
from wetside.cards.hours import clock_time_said, length, rounded_end_s
from wetside.cards.off_aim import off_aim, said_off_aim
from wetside.cards.words import evidence_word
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.services.records.plans_compared import Answer

register = template.Library()

ON_ITS_AIM = 0.5
"""Percent of time below which a sheet is told as on its aim, as on the cards. [%]"""


@register.filter
def beside(row: Any, columns: Iterable[Any]) -> list[tuple[Any, str]]:
    """Cells of a row, each with its column."""
    return list(zip(columns, row.cells, strict=True))


@register.filter
def item(table: Mapping[Any, Any], key: Any) -> Any:
    """Value of a key; None where there is none."""
    return table.get(key)


@register.filter
def to_write_in(cell: str) -> bool:
    """Whether a cell is a place to write in by hand."""
    return cell == BLANK


@register.simple_tag
def say_evidence(kind: str) -> str:
    """Word of a class of evidence."""
    return evidence_word(Evidence(kind))


FILES = (
    ("evening.pdf", gettext_lazy("the whole evening, to print")),
    ("safety.pdf", gettext_lazy("cautions, to hang up")),
    ("house.pdf", gettext_lazy("for those who share the house")),
    ("trouble.pdf", gettext_lazy("when something goes wrong, to hang up")),
    ("windows.svg", gettext_lazy("the chart")),
    ("plan.json", gettext_lazy("the plan for programs")),
    ("plan.html", gettext_lazy("the plan as one page, without this program")),
    ("evening.toml", gettext_lazy("the evening file that it was planned from")),
    ("pdf", gettext_lazy("run sheet to print")),
    ("html", gettext_lazy("run sheet as a page of its own")),
    ("png", gettext_lazy("run sheet as a picture")),
)
"""What a kept file is for: by its name, those of a load by their ending."""


@register.filter
def what_file(name: str) -> str:
    """What a kept file of a plan is for."""
    return next((str(said) for end, said in FILES if name == end or name.endswith(f".{end}")), "")


@register.filter
def off_said(answer: Answer) -> str:
    """How far the worst sheet of a plan is off its aim."""
    worst = answer.worst
    if worst is None or abs(worst.percent) < ON_ITS_AIM:
        return gettext("on its aim")
    return said_off_aim(off_aim(worst.density, worst.density_guess, worst.percent, worst.aim_range))


@register.filter
def end_said(answer: Answer) -> str:
    """When the evening of a plan is over, or how long it takes."""
    course = answer.plan.course if answer.plan is not None else None
    if course is None:
        return "–"
    end_s = rounded_end_s(course.ends_s, course.starts_s)
    return length(end_s) if course.starts_s is None else clock_time_said(end_s, course.starts_s)
