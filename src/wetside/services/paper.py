"""A paper tested by eye or named: its range, the aim for the evening file, the grade and filter that suit."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.printing_data import load_printing_ranges, rows_of_kind
from wetside.errors import InputError, Place, WetsideError
from wetside.sensitometry.aims import grade_change
from wetside.sensitometry.grades import PrintingAim, PrintingFit, PrintingRange, iso_range_iso6846, printing_for_range
from wetside.sensitometry.paper_test import (
    BlackTime,
    PaperTest,
    aim_of_test,
    mean_paper_test,
    minimum_black_time,
    paper_range_of_steps,
)
from wetside.services.options import needs, typed, whole
from wetside.services.printing_choice import (
    LARGEST_AIM,
    LISTED,
    SILVER,
    SMALLEST_AIM,
    PrintingNames,
    filters_of,
    named_printing,
)
from wetside.units import parse_duration_s, parse_number

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path


class PaperAnswers(NamedTuple):
    """What was typed: steps such as ``5-11``, one for each print; or what the paper is called; or a negative's range.

    ``number``, ``grade``, ``filter`` and ``process`` name one thing between them; ``product`` is the paper of a filter.
    """

    steps: Sequence[str] = ()
    printing: str | None = None
    density_range: str | None = None
    strip: Sequence[str] = ()
    same_from: str | None = None
    number: str | None = None
    grade: str | None = None
    filter: str | None = None
    process: str | None = None
    product: str | None = None
    listing: bool = False


class PaperJudged(NamedTuple):
    """Answer; None where it was not asked.

    ``test``, ``aim`` and ``iso_range`` are the paper's, ``name`` what a row calls it; ``test_grades`` what the test
    leaves open [paper grades], None where the printing has no grades;
    ``grade`` and ``filter`` fit a density range; ``black`` is the proof time; ``listed`` what is known by name.
    """

    test: PaperTest | None
    test_grades: float | None
    aim: PrintingAim | None
    name: str | None
    iso_range: int | None
    grade: PrintingFit | None
    filter: PrintingFit | None
    black: BlackTime | None
    listed: tuple[PrintingRange, ...]


def paper(answers: PaperAnswers, *, tablet: Path | None = None, rows: Path | None = None) -> PaperJudged:
    """Judge a paper.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    asked = answers.steps or answers.density_range is not None or answers.strip or answers.listing
    if not asked and not _names(answers).options:
        raise InputError("services.paper_nothing")
    known = load_printing_ranges(rows)
    test, aim, name = _aim(answers, known, tablet)
    grade = found = None
    wanted = None if aim is None or aim.printing not in SILVER else aim.density_range
    if answers.density_range is not None:
        wanted = typed("--range", parse_number, answers.density_range)
    if wanted is not None:
        try:
            grade = printing_for_range(wanted, rows_of_kind(known, "grade"))
            found = printing_for_range(wanted, filters_of(answers.product, known))
        except WetsideError as error:
            if answers.density_range is not None:
                raise error.at(Place(field="--range")) from None
    black = None
    if answers.strip:
        strip = needs("--same-from", answers.same_from, "--strip")
        times = [typed("--strip", parse_duration_s, text) for text in answers.strip]
        black = minimum_black_time(times, typed("--same-from", whole, strip))
    return PaperJudged(
        test,
        None if test is None or aim is None or aim.printing not in SILVER else grade_change(test.uncertainty),
        aim,
        name,
        None if aim is None else _number_of(aim),
        grade,
        found,
        black,
        tuple(row for kind in LISTED for row in rows_of_kind(known, kind)) if answers.listing else (),
    )


def _names(answers: PaperAnswers) -> PrintingNames:
    """What was typed of the name of a paper."""
    return PrintingNames(
        number=answers.number,
        grade=answers.grade,
        filter=answers.filter,
        process=answers.process,
        printing=answers.printing,
        product=answers.product,
    )


def _aim(
    answers: PaperAnswers, known: Sequence[PrintingRange], tablet: Path | None
) -> tuple[PaperTest | None, PrintingAim | None, str | None]:
    """Test, aim and a row's name: from the steps of a printed tablet, from a range number, or from a named row."""
    names = _names(answers)
    if answers.steps and names.options:
        raise InputError("services.paper_twice", options=["STEPS", *names.options])
    if answers.steps:
        densities = None if tablet is None else _tablet(tablet)
        test = mean_paper_test([paper_range_of_steps(*_steps(text), densities) for text in answers.steps])
        return test, aim_of_test(test, answers.printing or "graded-paper"), None
    if not names.options:
        return None, None, None
    found = named_printing(names, known)
    return None, found.aim, found.name


def _tablet(path: Path) -> list[float]:
    """Densities of a tablet's own steps, the clear one first; the reader is heavy and seldom needed. [density]"""
    from wetside.adapters.readings_file import tablet_steps

    return [density for _, density in sorted(tablet_steps(path).items())]


def _number_of(aim: PrintingAim) -> int | None:
    return iso_range_iso6846(aim.density_range) if aim.printing in SILVER else None


def lines_for_the_file(aim: PrintingAim, name: str) -> list[str]:
    """Lines of an evening file that hold an aim; none where the file would not take its range."""
    import json

    density_range = round(aim.density_range, 2)
    if not SMALLEST_AIM <= density_range <= LARGEST_AIM:
        return []
    return [
        "[[aims]]",
        f"name = {json.dumps(name, ensure_ascii=False)}",
        f'for = "{aim.printing}"',
        f"range = {density_range:.2f}",
        f"tolerance = {aim.tolerance:.2f}",
    ]


def _steps(text: str) -> tuple[int, int]:
    first, mark, last = text.partition("-")
    if not mark:
        raise InputError("services.paper_steps", value=text)
    return typed("STEPS", whole, first.strip()), typed("STEPS", whole, last.strip())
