"""Typed papers: tested by eye, or named by number, grade, filter or process; lines for the evening file."""

from __future__ import annotations

import pytest

from wetside.adapters.evening_file import evening_of_text
from wetside.errors import RefusedError, WetsideError
from wetside.services.paper import PaperAnswers, lines_for_the_file, paper

EVENING = """
format = 1
size = "9x12cm"
[[films]]
name = "Tolland 100"
times = [{ developer = "Brackwater", dilution = "1+24", time = "7:30" }]
[[vessels]]
name = "drum"
kind = "drum"
places = 6
min = "300 ml"
max = "1000 ml"
[[sheets]]
label = "3 left"
"""


def test_a_tested_paper_has_a_tested_aim():
    """Seven toned steps are 1.05, true to a step of 0.15, which is nine tenths of a grade."""
    found = paper(PaperAnswers(("5-11",)))
    assert found.aim.density_range == pytest.approx(1.05)
    assert found.test_grades == pytest.approx(0.15 / 0.17)
    assert (found.aim.evidence.value, found.iso_range, found.grade.row.name) == ("tested", 110, "2")


def test_an_alternative_process_has_no_grades():
    """A printing other than silver paper is given neither grade, filter nor range number."""
    found = paper(PaperAnswers(("5-17",), printing="alternative"))
    assert (found.grade, found.filter, found.iso_range, found.test_grades) == (None, None, None, None)
    assert found.aim.channels == ("uv",)


@pytest.mark.parametrize("text", ["110", "R110", "r 110", "R 110"])
def test_a_range_number(text):
    """R is a hundred times the range (grainmag-grades)."""
    assert paper(PaperAnswers(number=text)).aim.density_range == pytest.approx(1.10)


@pytest.mark.parametrize(
    ("answers", "density_range", "tolerance", "printing", "evidence"),
    [
        (PaperAnswers(filter="3"), 0.90, 0.15, "variable-paper", "published"),
        (PaperAnswers(process="Platinum"), 1.80, 0.10, "alternative", "published"),
        (PaperAnswers(process="albumen"), 2.25, 0.10, "alternative", "published"),
        (PaperAnswers(process="gum"), 1.10, 0.20, "alternative", "assumed"),
        (PaperAnswers(grade="2"), 1.05, 0.08, "graded-paper", "assumed"),
    ],
)
def test_named_rows(answers, density_range, tolerance, printing, evidence):
    """A row gives its middle, its evidence, and the wider of half its span and the printing's tolerance."""
    aim = paper(answers).aim
    assert (aim.density_range, aim.tolerance) == (pytest.approx(density_range), pytest.approx(tolerance))
    assert (aim.printing, aim.evidence.value) == (printing, evidence)


def test_a_scanner_is_an_aim_by_our_choice_and_a_limit_beside_it():
    """The scanner's aim is told to be our choice; the limit of density for printing is none, and is refused as one."""
    aim = paper(PaperAnswers(process="scanner")).aim
    assert (aim.density_range, aim.tolerance) == (pytest.approx(1.05), pytest.approx(0.15))
    assert (aim.printing, aim.channels, aim.evidence.value, aim.source.key) == (
        "scanner",
        ("scanner",),
        "assumed",
        "our-choice",
    )
    limits = [row for row in paper(PaperAnswers(listing=True)).listed if row.kind == "limit" and row.name == "scanner"]
    assert aim.density_range + aim.tolerance < limits[0].range_low
    with pytest.raises(RefusedError) as caught:
        paper(PaperAnswers(process="printing"))
    assert caught.value.code == "sensitometry.grade.limit_is_no_aim"
    assert caught.value.place.field == "--process"


def test_the_list_has_processes_enlargers_and_limits_each_with_evidence():
    """Every listed row says where it is from."""
    listed = paper(PaperAnswers(listing=True)).listed
    assert {row.kind for row in listed} == {"process", "enlarger", "limit"}
    assert all(row.source.key and row.evidence for row in listed)


@pytest.mark.parametrize("name", ["own paper", 'with "marks" and \\ strokes', "Größe Ω"])
def test_lines_for_the_file_are_read_back(name):
    """What is printed to be pasted is a table of the evening file, whatever the aim is called."""
    aim = paper(PaperAnswers(("5-11",), printing="variable-paper")).aim
    read = evening_of_text("\n".join([EVENING, *lines_for_the_file(aim, name)])).aims[0]
    assert (read.name, read.printing.value, read.density_range, read.tolerance) == (name, "variable-paper", 1.05, 0.15)


def test_no_lines_that_the_file_would_refuse():
    """A single toned step is a range that no evening file takes."""
    assert lines_for_the_file(paper(PaperAnswers(("5-5",))).aim, "own") == []


@pytest.mark.parametrize(
    ("answers", "code"),
    [
        (PaperAnswers(), "services.paper_nothing"),
        (PaperAnswers(("5",)), "services.paper_steps"),
        (PaperAnswers(("5-11",), grade="2"), "services.paper_twice"),
        (PaperAnswers(grade="2", filter="2"), "services.paper_twice"),
        (PaperAnswers(grade="2", printing="graded-paper"), "services.paper_for_named"),
        (PaperAnswers(number="R9"), "services.paper_number"),
        (PaperAnswers(number="Rnan"), "units.number.not_finite"),
        (PaperAnswers(grade="12"), "starting_points.choice.unknown"),
        (PaperAnswers(filter="2", product="foo"), "services.paper_product"),
        (PaperAnswers(strip=("8s",)), "services.option_missing_with"),
        (PaperAnswers(density_range="9"), "sensitometry.grade.range_impossible"),
    ],
)
def test_half_said(answers, code):
    """What is missing, said twice or impossible is refused by name."""
    with pytest.raises(WetsideError) as caught:
        paper(answers)
    assert caught.value.code == code
