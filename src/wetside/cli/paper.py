"""``wetside paper``: the range that a paper takes, found by eye, and what suits a negative."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.answer import print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.services.paper import PaperAnswers, PaperJudged, paper
from wetside.wording import shown

if TYPE_CHECKING:
    import argparse

    from wetside.sensitometry.grades import PrintingFit


def run(arguments: argparse.Namespace) -> int:
    """Print range, number, grade, filter and proof time."""
    answer = paper(
        PaperAnswers(
            steps=arguments.steps,
            printing=arguments.printing,
            density_range=arguments.range,
            strip=arguments.strip or (),
            same_from=arguments.same_from,
        ),
        tablet=Path(arguments.tablet) if arguments.tablet else None,
        rows=Path(arguments.rows) if arguments.rows else None,
    )
    told = _told(answer)
    if arguments.json:
        test = answer.test
        print_json(
            {
                "range": None if test is None else test.log_exposure_range,
                "uncertainty": None if test is None else test.uncertainty,
                "iso_range": answer.iso_range,
                "tolerance": None if answer.aim is None else answer.aim.tolerance,
                "grade": _fit_json(answer.grade),
                "filter": _fit_json(answer.filter),
                "black_s": None if answer.black is None else answer.black.time_s,
                "notes": told_json(told),
            }
        )
    else:
        print_answer(_rows(answer), told)
    return ExitCode.OK


def _fit_json(fit: PrintingFit | None) -> dict[str, Any] | None:
    if fit is None:
        return None
    return {"name": fit.row.name, "product": fit.row.product, "off": fit.off, "source": fit.row.source.key}


def _rows(answer: PaperJudged) -> list[tuple[str, str]]:
    rows: list[tuple[str, str]] = []
    if answer.test is not None:
        test = answer.test
        rows.append(
            ("cli.paper.range", f"{shown(test.log_exposure_range, 'density')} ± {shown(test.uncertainty, 'density')}")
        )
        rows.append(("cli.paper.number", f"R {answer.iso_range}"))
    if answer.grade is not None:
        rows.append(("cli.paper.grade", answer.grade.row.name))
    if answer.filter is not None:
        rows.append(("cli.paper.filter", f"{answer.filter.row.name} ({answer.filter.row.product})"))
    if answer.black is not None:
        rows.append(("cli.paper.black", shown(answer.black.time_s, "shutter")))
    return rows


def _told(answer: PaperJudged) -> list[tuple[str, dict[str, Any]]]:
    told: list[tuple[str, dict[str, Any]]] = []
    if answer.test is not None:
        told.append(("cli.paper.worth", {"range": answer.test.range_share, "time": answer.test.time_share}))
    if answer.aim is not None:
        told.append(("cli.paper.aim", {"printing": answer.aim.printing, "range": round(answer.aim.density_range, 2)}))
    if answer.grade is not None:
        told.append(("cli.paper.grades_recalled", {}))
    if answer.black is not None:
        told.append(("cli.paper.black_span", {"low_s": answer.black.low_s, "time_s": answer.black.time_s}))
    return told
