"""The paper test by eye, and the least time for black."""

from __future__ import annotations

import csv
from collections import defaultdict
from pathlib import Path

import pytest

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry import curve_of_readings, log_exposure_range_iso6846, nominal_tablet
from wetside.sensitometry.paper_test import (
    aim_of_test,
    black_time_for_base_s,
    mean_paper_test,
    minimum_black_time,
    paper_range_of_steps,
    strip_times_s,
)
from wetside.values.evidence import Evidence
from wetside.wording.sentence import known_codes, sentence

TRACE = Path(__file__).parents[2] / "published/sensitometry/paper_a_curves.csv"
NAN = float("nan")


def traced_papers():
    points = defaultdict(list)
    with TRACE.open(encoding="utf-8") as lines:
        for name, log_h, density in csv.reader(line for line in lines if line[0] not in "#dsf"):
            points[name].append((float(log_h), float(density)))
    return [curve_of_readings(120.0, *zip(*rows, strict=True), absolute=False)[0] for rows in points.values()]


@pytest.mark.parametrize("shift", [0.0, 0.05, 0.10])
@pytest.mark.parametrize("paper", traced_papers())
def test_a_tablet_printed_on_a_known_paper_gives_its_range(paper, shift):
    """Judged by the standard's own tones, the count is true to the uncertainty that it states."""
    net = paper.density[-1] - paper.base_fog
    dark, light = paper.base_fog + 0.90 * net, paper.base_fog + 0.04
    start = paper.log_h_at(dark) + 0.2 + shift
    tablet = nominal_tablet()
    toned = [
        at
        for at, step in enumerate(tablet, 1)
        if paper.log_h_at(light) <= start - (step - tablet[0]) <= paper.log_h_at(dark)
    ]
    test = paper_range_of_steps(toned[0], toned[-1])
    assert abs(test.log_exposure_range - log_exposure_range_iso6846(paper)) <= test.uncertainty


def test_an_even_tablet_is_counted():
    """With steps of 0.15 the range is the count times 0.15."""
    for first, last in ((2, 2), (3, 9), (2, 20)):
        test = paper_range_of_steps(first, last)
        assert test.log_exposure_range == pytest.approx(0.15 * (last - first + 1))
        assert test.uncertainty == pytest.approx(0.15)


def test_a_test_makes_a_tested_aim():
    """The aim carries printing, channels and the evidence of one's own paper."""
    aim = aim_of_test(paper_range_of_steps(5, 11), "variable-paper")
    assert (aim.tolerance, aim.channels, aim.evidence) == (0.15, ("blue", "green"), Evidence.TESTED)


def test_four_tests_are_twice_as_sure_as_one():
    """The uncertainty of the mean falls with the root of the number."""
    one = paper_range_of_steps(5, 11)
    assert mean_paper_test([one] * 4).uncertainty == pytest.approx(one.uncertainty / 2)


def test_the_least_time_for_black_lies_between_two_strips():
    """The first full black is taken; the strip before it is the other bound."""
    times = strip_times_s(8.0, 0.5, 5)
    black = minimum_black_time(times, 4)
    assert (black.time_s, black.low_s) == (times[3], times[2])


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: paper_range_of_steps(1, 8), "sensitometry.paper_test.no_black"),
        (lambda: paper_range_of_steps(5, 21), "sensitometry.paper_test.no_white"),
        (lambda: paper_range_of_steps(9, 5), "sensitometry.paper_test.wrong_way"),
        (lambda: paper_range_of_steps(0, 5), "sensitometry.tablet.step"),
        (lambda: paper_range_of_steps(2, 3, (0.1, 0.1, 0.3, 0.4)), "sensitometry.paper_test.tablet_falls"),
        (lambda: paper_range_of_steps(2, 3, (NAN, 0.1, 0.3, 0.4)), "sensitometry.tablet.density"),
        (lambda: mean_paper_test([]), "sensitometry.paper_test.none"),
        (lambda: aim_of_test(paper_range_of_steps(5, 11), "linen"), "sensitometry.aim.printing_unknown"),
        (lambda: strip_times_s(0.0, 0.5, 4), "sensitometry.density.print_time"),
        (lambda: strip_times_s(8.0, 0.0, 4), "sensitometry.paper_test.stops_apart"),
        (lambda: strip_times_s(8.0, 0.5, 1), "sensitometry.paper_test.strips"),
        (lambda: minimum_black_time((8.0, 11.0, 16.0), 1), "sensitometry.paper_test.first_black"),
        (lambda: minimum_black_time((8.0, 11.0, 16.0), 3), "sensitometry.paper_test.last_black"),
        (lambda: minimum_black_time((8.0, 11.0, 16.0), 4), "sensitometry.paper_test.strip"),
        (lambda: minimum_black_time((8.0, 7.0, 16.0), 2), "sensitometry.paper_test.times_fall"),
        (lambda: black_time_for_base_s(10.0, -1.0, 0.3), "sensitometry.density.impossible"),
    ],
)
def test_what_is_no_test_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence that says what to do."""
    with pytest.raises((OutOfRangeError, RefusedError)) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())
