"""``wetside paper``: the range that a paper takes, found by eye or by its name, and what suits a negative."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.answer import WIDEST, print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.services.paper import PaperAnswers, PaperJudged, lines_for_the_file, paper
from wetside.services.printing_choice import LISTED
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

    from wetside.sensitometry.grades import PrintingFit, PrintingRange

NEAR_ENOUGH = 0.08
"""A grade or filter this near suits: the tolerance of graded paper. [density]"""

LISTED_BESIDE = 50
"""Columns that range, evidence and source of a listed row want beside its name."""


def run(arguments: argparse.Namespace) -> int:
    """Print range, aim, grade, filter and proof time."""
    answer = paper(
        PaperAnswers(
            steps=arguments.steps,
            printing=arguments.printing,
            density_range=arguments.range,
            strip=arguments.strip or (),
            same_from=arguments.same_from,
            number=arguments.number,
            grade=arguments.grade,
            filter=arguments.filter,
            process=arguments.process,
            product=arguments.product,
            listing=arguments.list,
        ),
        tablet=Path(arguments.tablet) if arguments.tablet else None,
        rows=Path(arguments.rows) if arguments.rows else None,
    )
    told = _told(answer)
    name = arguments.name or answer.name or "own paper"
    block = [] if answer.aim is None else lines_for_the_file(answer.aim, name)
    if arguments.json:
        print_json({**_as_json(answer), "evening_file": "\n".join(block) or None, "notes": told_json(told)})
        return ExitCode.OK
    rows = _rows(answer)
    if rows:
        print_answer(rows, told)
    if block:
        how = wrapped(sentence("cli.paper.for_the_file", {"name": name}), min(text_width(), WIDEST))
        print_lines(["", *how, "", *(f"    {line}" for line in block)])
    if answer.listed:
        print_lines([*([""] if rows else []), *_listing(answer.listed)])
    return ExitCode.OK


def _as_json(answer: PaperJudged) -> dict[str, Any]:
    test, aim = answer.test, answer.aim
    return {
        "range": None if test is None else test.log_exposure_range,
        "uncertainty": None if test is None else test.uncertainty,
        "uncertainty_grades": answer.test_grades,
        "iso_range": answer.iso_range,
        "tolerance": None if aim is None else aim.tolerance,
        "aim": None
        if aim is None
        else {
            "for": aim.printing,
            "range": aim.density_range,
            "tolerance": aim.tolerance,
            "channels": list(aim.channels),
            "evidence": aim.evidence.value,
            "source": aim.source.key if aim.source else None,
        },
        "grade": _fit_json(answer.grade),
        "filter": _fit_json(answer.filter),
        "black_s": None if answer.black is None else answer.black.time_s,
        "listed": [
            {
                "kind": row.kind,
                "for": row.printing,
                "name": row.name,
                "range_low": row.range_low,
                "range_high": row.range_high,
                "evidence": row.evidence.value,
                "source": row.source.key,
                "note": row.note,
            }
            for row in answer.listed
        ],
    }


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
    if answer.aim is not None:
        within = {"range": round(answer.aim.density_range, 2), "tolerance": answer.aim.tolerance}
        rows.append(("cli.paper.aims_at", sentence("cli.paper.within", within)))
        source = answer.aim.source
        key = f" ({source.key})" if source is not None and source.key != "own" else ""
        rows.append(("cli.paper.evidence", _marked(answer.aim.evidence.value) + key))
    if answer.iso_range is not None:
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
        worth: dict[str, Any] = {"off": answer.test.uncertainty, "time": answer.test.time_share}
        if answer.test_grades is None:
            told.append(("cli.paper.worth_alternative", worth))
        else:
            told.append(("cli.paper.worth", {**worth, "grades": answer.test_grades}))
    elif answer.aim is not None and answer.aim.source is not None and answer.aim.source.key == "own":
        told.append(("cli.paper.number_rounded", {}))
    if answer.aim is not None and "uv" in answer.aim.channels:
        told.append(("cli.paper.in_uv", {}))
    if answer.aim is not None and answer.aim.printing == "scanner":
        told.append(("cli.paper.scanner", {}))
    if answer.grade is not None:
        off = answer.grade.off
        if abs(off) > NEAR_ENOUGH:
            told.append(("cli.paper.beyond_soft" if off > 0 else "cli.paper.beyond_hard", {"off": abs(off)}))
        told.append(("cli.paper.grades_recalled", {}))
    if answer.black is not None:
        told.append(("cli.paper.black_span", {"low_s": answer.black.low_s, "time_s": answer.black.time_s}))
    return told


def _marked(evidence: str) -> str:
    from wetside.cards.text import MARKS
    from wetside.values.evidence import Evidence

    return f"{MARKS[Evidence(evidence)]} {evidence}"


def _listing(rows: tuple[PrintingRange, ...]) -> list[str]:
    """Tables of what is known by name, each row with its evidence and source."""
    wide = max(len(row.name) for row in rows)
    narrow = text_width() < wide + LISTED_BESIDE
    lines: list[str] = []
    for kind in LISTED:
        lines.append(sentence(f"cli.paper.title_{kind}", {}))
        for row in rows:
            if row.kind == kind:
                span = shown(row.range_low, "density")
                if row.range_high > row.range_low:
                    span += f"\N{EN DASH}{shown(row.range_high, 'density')}"
                told = f"{_marked(row.evidence.value)} ({row.source.key})"
                lines += (
                    [f"  {row.name:<{wide}}  {span}", f"    {told}"]
                    if narrow
                    else [f"  {row.name:<{wide}}  {span:<9}  {told}"]
                )
        lines.append("")
    return [*lines, *wrapped(sentence("cli.paper.list_told", {}), min(text_width(), WIDEST))]
