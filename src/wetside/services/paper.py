"""A paper tested by eye: its range, the aim for the evening file, the grade and filter that suit, the proof time."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.printing_data import load_printing_ranges, rows_of_kind
from wetside.adapters.readings_file import tablet_steps
from wetside.errors import InputError, WetsideError
from wetside.sensitometry.grades import PrintingAim, PrintingFit, iso_range_iso6846, printing_for_range
from wetside.sensitometry.paper_test import (
    BlackTime,
    PaperTest,
    aim_of_test,
    mean_paper_test,
    minimum_black_time,
    paper_range_of_steps,
)
from wetside.services.options import needs, typed, whole
from wetside.units import parse_duration_s, parse_number

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path


class PaperAnswers(NamedTuple):
    """What was typed: steps such as ``5-11``, one for each print; or a density range of a negative; or a strip."""

    steps: Sequence[str] = ()
    printing: str = "graded-paper"
    density_range: str | None = None
    strip: Sequence[str] = ()
    same_from: str | None = None


class PaperJudged(NamedTuple):
    """Answer: test, aim and range number of the paper; fits for a density range; the proof time. None if not asked."""

    test: PaperTest | None
    aim: PrintingAim | None
    iso_range: int | None
    grade: PrintingFit | None
    filter: PrintingFit | None
    black: BlackTime | None


def paper(answers: PaperAnswers, *, tablet: Path | None = None, rows: Path | None = None) -> PaperJudged:
    """Judge a paper.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    if not answers.steps and answers.density_range is None and not answers.strip:
        raise InputError("services.paper_nothing")
    test = aim = number = grade = found = None
    if answers.steps:
        densities = None if tablet is None else [density for _, density in sorted(tablet_steps(tablet).items())]
        test = mean_paper_test([paper_range_of_steps(*_steps(text), densities) for text in answers.steps])
        aim = aim_of_test(test, answers.printing)
        number = iso_range_iso6846(test.log_exposure_range)
    wanted = None
    if answers.density_range is not None:
        wanted = typed("--range", parse_number, answers.density_range)
    elif test is not None:
        wanted = test.log_exposure_range
    if wanted is not None:
        known = load_printing_ranges(rows)
        try:
            grade = printing_for_range(wanted, rows_of_kind(known, "grade"))
            found = printing_for_range(wanted, rows_of_kind(known, "filter"))
        except WetsideError:
            if answers.density_range is not None:
                raise
    black = None
    if answers.strip:
        strip = needs("--same-from", answers.same_from, "--strip")
        times = [typed("--strip", parse_duration_s, text) for text in answers.strip]
        black = minimum_black_time(times, typed("--same-from", whole, strip))
    return PaperJudged(test, aim, number, grade, found, black)


def _steps(text: str) -> tuple[int, int]:
    first, mark, last = text.partition("-")
    if not mark:
        raise InputError("services.paper_steps", value=text)
    return typed("STEPS", whole, first.strip()), typed("STEPS", whole, last.strip())
