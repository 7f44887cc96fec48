"""Ranges, grades, filters and aims, and the data behind them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from wetside.adapters.printing_data import density_limit, load_printing_ranges, row_named, rows_of_kind
from wetside.errors import ManyErrors, OutOfRangeError, RefusedError, UnknownNameError
from wetside.sensitometry.grades import (
    aim_of_paper,
    aim_of_row,
    grade_of_range,
    iso_range_iso6846,
    printing_for_range,
)
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.wording.sentence import known_codes, sentence

ROWS = load_printing_ranges()
GRADES, FILTERS = rows_of_kind(ROWS, "grade"), rows_of_kind(ROWS, "filter")
NAN = float("nan")


def test_what_is_recalled_is_marked_assumed():
    """No row from memory claims a page: its evidence is assumed and its source common practice, or its note says so."""
    for row in ROWS:
        recalled = row.source.key == "common-practice" or "recalled" in row.note
        assert not recalled or row.evidence is Evidence.ASSUMED, row


@pytest.mark.parametrize(
    ("name", "density_range", "evidence"),
    [
        ("platinum", 1.80, "published"),
        ("Printing-out paper", 1.80, "published"),
        ("albumen", 2.25, "published"),
        ("salted paper, contrast raised", 2.05, "published"),
        ("gum", 1.10, "assumed"),
    ],
)
def test_aims_of_alternative_processes(name, density_range, evidence):
    """A process is found by name, aims at the middle of its range, and is read in UV."""
    aim = aim_of_row(row_named(rows_of_kind(ROWS, "process"), name))
    assert (aim.density_range, aim.evidence.value) == (pytest.approx(density_range), evidence)
    assert aim.channels == ("uv",)
    assert aim.tolerance >= 0.10


def test_a_grade_keeps_the_tolerance_of_graded_paper():
    """A grade spans many papers; that is no leave for one."""
    assert aim_of_row(row_named(GRADES, "2")).tolerance == 0.08


def test_limits_are_limits_and_no_aims():
    """Scanner and printing set a density of the highlight, assumed; no range follows from it."""
    assert density_limit(ROWS, "scanner").net_density == 2.0
    assert density_limit(ROWS, "printing").evidence is Evidence.ASSUMED
    with pytest.raises(RefusedError, match="limit_is_no_aim"):
        aim_of_row(row_named(rows_of_kind(ROWS, "limit"), "scanner"))


def test_an_unknown_name_names_the_nearest():
    """A process that is misspelt is not guessed."""
    with pytest.raises(UnknownNameError) as caught:
        row_named(rows_of_kind(ROWS, "process"), "platinm")
    assert caught.value.params["nearest"] == "platinum"


def test_grades_join_without_gap():
    """Every range between the ends has a grade."""
    ordered = sorted(GRADES, key=lambda row: row.range_low)
    assert all(a.range_high == b.range_low for a, b in pairwise(ordered))


@pytest.mark.parametrize("density_range", [0.2, 1.9])
def test_beyond_the_filters_the_end_is_taken_and_the_rest_told(density_range):
    """A negative outside every filter gets the end one, with what is left over."""
    fit = printing_for_range(density_range, FILTERS)
    assert fit.row.name == ("5" if density_range < 1 else "00")
    assert fit.off == pytest.approx(density_range - fit.row.range_mid)
    assert fit.share is None


def test_own_rows_come_after_ours_and_take_their_place(tmp_path):
    """A user's row of the same kind, product and name replaces ours; a new one is added."""
    (tmp_path / "printing").mkdir()
    (tmp_path / "printing" / "own.csv").write_text(
        "kind,printing,name,range_low,evidence,source\n"
        "process,alternative,Platinum,1.65,tested,own\nlimit,scanner,scanner,2.4,tested,own\n"
        "process,alternative,my gum,1.1,tested,own\n"
    )
    rows = load_printing_ranges(tmp_path)
    assert len(rows) == len(ROWS) + 1
    assert row_named(rows_of_kind(rows, "process"), "platinum").range_mid == 1.65
    assert density_limit(rows, "scanner") == ("scanner", 2.4, Evidence.TESTED)


def test_wrong_rows_are_told_with_their_places(tmp_path):
    """Every wrong cell is an error of its own, with file, line and column."""
    (tmp_path / "printing").mkdir()
    (tmp_path / "printing" / "own.csv").write_text(
        "kind,printing,name,range_low,range_high,source\n"
        "grad,graded-paper,2,1.0,1.1,own\nprocess,linen,x,1.0,1.1,own\nprocess,alternative,y,1.5,1.2,own\n"
    )
    with pytest.raises(ManyErrors) as caught:
        load_printing_ranges(tmp_path)
    assert [(e.place.line, e.place.field) for e in caught.value.errors] == [
        (2, "kind"),
        (3, "printing"),
        (4, "range_high"),
    ]


def test_a_measured_paper_gives_its_own_aim():
    """A paper's own curve is stronger than any table."""
    aim = aim_of_paper(characteristic_curve(120.0, (0.0, 1.2), (0.0, 2.0)), "variable-paper")
    assert aim.density_range == pytest.approx(1.2 * (1.8 - 0.04) / 2.0)
    assert (aim.channels, aim.evidence) == (("blue", "green"), Evidence.TESTED)


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: iso_range_iso6846(NAN), "sensitometry.grade.range_impossible"),
        (lambda: grade_of_range(1.9, GRADES), "sensitometry.grade.none_holds"),
        (lambda: grade_of_range(1.0, ()), "sensitometry.grade.none_holds"),
        (lambda: printing_for_range(-1.0, FILTERS), "sensitometry.grade.range_impossible"),
        (lambda: printing_for_range(1.0, ()), "sensitometry.grade.no_rows"),
        (
            lambda: aim_of_row(row_named(rows_of_kind(ROWS, "limit"), "scanner")),
            "sensitometry.grade.limit_is_no_aim",
        ),
    ],
)
def test_what_has_no_grade_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence."""
    with pytest.raises((OutOfRangeError, RefusedError)) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())
