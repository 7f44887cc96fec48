"""Documents as paper and screen: PDF and PNG by typst, pages of HTML, drawings of SVG."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from wetside.cards.blocks import Card
    from wetside.planning.documents.course import Course
    from wetside.planning.documents.plan import Plan

MOST_RECKONINGS = 60
"""Reckonings on a plan's page: beyond this like sheets would only repeat each other. Our choice."""


def write_cards(plan: Plan, folder: Path, paper: str = "a4", course: Course | None = None) -> list[Path]:
    """Write a run sheet for each load, the window chart and the plan's page; with a course the evening's pages too.

    Parameters
    ----------
    plan : Plan
    folder : Path
        Made if it does not exist. Each file is written whole beside its place and then moved there; other files are
        left alone.
    paper : str
        ``a4`` or ``letter``.
    course : Course, optional
        Of that plan; see :func:`write_evening_cards`.

    Returns
    -------
    paths : list of Path
        Files that were written: ``load-1.pdf``, ``load-1.html``, ``load-1.png`` (``load-1-2.png`` is a second page),
        ``windows.svg``, ``plan.html``.

    Raises
    ------
    InputError
        If the folder cannot be written to, or the paper is not known.
    """
    paths = _written(_contents(plan, paper), folder, paper)
    return paths if course is None else [*paths, *write_evening_cards(plan, course, folder, paper)]


def write_evening_cards(plan: Plan, course: Course, folder: Path, paper: str = "a4") -> list[Path]:
    """Write the pages of an evening: its course, what keeps people safe, the house page.

    Parameters
    ----------
    plan : Plan
    course : Course
        Of that plan.
    folder : Path
        Made if it does not exist.
    paper : str
        ``a4`` or ``letter``.

    Returns
    -------
    paths : list of Path
        ``evening``, ``safety``, ``house`` and ``trouble``, each as ``.pdf`` and ``.html``.

    Raises
    ------
    InputError
        If the folder cannot be written to, or the paper is not known.
    """
    return _written(_evening_contents(plan, course, paper), folder, paper)


def _written(contents: Iterator[tuple[str, bytes]], folder: Path, paper: str) -> list[Path]:
    from wetside.adapters.typesetting.paper import known_paper
    from wetside.adapters.whole_file import write_whole

    known_paper(paper)
    _make(folder)
    paths = []
    for name, content in contents:
        write_whole(folder / name, content)
        paths.append(folder / name)
    return paths


def evening_cards(plan: Plan, course: Course) -> dict[str, Card]:
    """Cards of an evening by the names of their files.

    Parameters
    ----------
    plan : Plan
    course : Course
    """
    from wetside.cards.course_card import course_card
    from wetside.cards.house_card import house_card
    from wetside.cards.safety_card import safety_card
    from wetside.cards.trouble_card import trouble_card

    return {
        "evening": course_card(plan, course),
        "safety": safety_card(plan),
        "house": house_card(load.developer for load in plan.loads),
        "trouble": trouble_card(),
    }


def _evening_contents(plan: Plan, course: Course, paper: str) -> Iterator[tuple[str, bytes]]:
    from wetside.adapters.typesetting.html import html_of_card
    from wetside.adapters.typesetting.paper import Typesetter

    for name, card in evening_cards(plan, course).items():
        foot = "" if name in ("house", "trouble") else _foot(plan)
        yield f"{name}.pdf", Typesetter(card, paper, foot).pdf()
        yield f"{name}.html", html_of_card(card, foot).encode()


def _foot(plan: Plan) -> str:
    from wetside.cards.names import clean, short

    return " · ".join(part for part in (short(plan.name), clean(plan.date), clean(plan.tool)) if part)


def _make(folder: Path) -> None:
    from wetside.errors import InputError, Place

    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "not a name that a folder can have"
        raise InputError(
            "files.file.unwritable", place=Place(file=str(folder)), name=folder.name, reason=reason
        ) from error


def _contents(plan: Plan, paper: str) -> Iterator[tuple[str, bytes]]:
    from wetside.adapters.typesetting.html import html_of_plan, html_of_run_sheet
    from wetside.adapters.typesetting.paper import Typesetter
    from wetside.adapters.typesetting.svg import svg_of_chart
    from wetside.cards.chart_frame import NARROW
    from wetside.cards.plan_card import plan_card, sheets_alike
    from wetside.cards.reckoning import reckoning_card
    from wetside.cards.run_sheet import run_sheet_of_load
    from wetside.cards.window_chart import window_chart

    for load in plan.loads:
        sheet = run_sheet_of_load(plan, load, fahrenheit=paper == "letter")
        setter = Typesetter(sheet, paper)
        name = f"load-{load.number}"
        yield f"{name}.pdf", setter.pdf()
        yield f"{name}.html", html_of_run_sheet(sheet).encode()
        for page, picture in enumerate(setter.pictures(), start=1):
            yield (f"{name}.png" if page == 1 else f"{name}-{page}.png"), picture
    chart = window_chart(plan)
    if chart is not None:
        yield "windows.svg", svg_of_chart(chart).encode()
    lots = sheets_alike(plan.sheets, by_reckoning=True)[:MOST_RECKONINGS]
    reckonings = [reckoning_card(plan, lot[0]) for lot in lots]
    evening = " · ".join(part for part in (plan.name, plan.date, plan.tool) if part)
    card = plan_card(plan, all_cautions=True)
    yield "plan.html", html_of_plan(card, chart, reckonings, evening, window_chart(plan, NARROW)).encode()
