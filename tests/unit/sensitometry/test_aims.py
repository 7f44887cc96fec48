"""Aims: what a printing asks for and what an error amounts to."""

from __future__ import annotations

import pytest

from wetside.errors import OutOfRangeError
from wetside.sensitometry import (
    default_tolerance,
    density_of_opacity,
    density_of_print_times,
    grade_change,
    log_range_of_n,
    n_of_log_range,
    opacity_of_density,
    required_gradient,
    zones_of_range_change,
)
from wetside.wording.sentence import known_codes, sentence

NAN, INF = float("nan"), float("inf")


def test_tolerances_are_those_that_were_decided():
    """Graded paper is the strictest, what can still be corrected the mildest."""
    wanted = {"graded-paper": 0.08, "variable-paper": 0.15, "scanner": 0.15, "alternative": 0.10}
    assert {name: default_tolerance(name) for name in wanted} == wanted


@pytest.mark.parametrize("n", [-2.0, -1.0, 0.0, 1.0, 2.0])
def test_a_zone_off_is_a_zone(n):
    """A range that the next zone's development would give is one zone off, on either side."""
    for step in (-1.0, 1.0):
        ratio = required_gradient(1.0, log_range_of_n(n + step)) / required_gradient(1.0, log_range_of_n(n))
        assert zones_of_range_change(1.05 * ratio, 1.05, n) == pytest.approx(step)
    assert zones_of_range_change(1.05, 1.05, n) == 0.0


def test_half_a_grade_is_the_stated_difference():
    """The sign says whether the negative is harder or softer than wanted."""
    assert grade_change(0.085) == pytest.approx(0.5)
    assert grade_change(-0.085) == pytest.approx(-0.5)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: default_tolerance("linen"),
        lambda: required_gradient(0.0, 2.2),
        lambda: required_gradient(NAN, 2.2),
        lambda: required_gradient(1.05, INF),
        lambda: required_gradient(1.05, 2.2, -0.1),
        lambda: required_gradient(1.05, 2.2, NAN),
        lambda: required_gradient(1.05, 0.4, 0.4),
        lambda: log_range_of_n(NAN),
        lambda: log_range_of_n(7.4),
        lambda: log_range_of_n(-INF),
        lambda: n_of_log_range(-1.0),
        lambda: grade_change(INF),
        lambda: zones_of_range_change(0.0, 1.05),
        lambda: zones_of_range_change(1.2, 1.05, 5.5),
        lambda: density_of_opacity(0.5),
        lambda: density_of_opacity(NAN),
        lambda: opacity_of_density(1e4),
        lambda: opacity_of_density(NAN),
        lambda: density_of_print_times(0.0, 10.0),
        lambda: density_of_print_times(10.0, INF),
    ],
)
def test_what_has_no_answer_is_refused_in_words(ask):
    """No NaN and no overflow comes back, and each refusal has a sentence."""
    with pytest.raises(OutOfRangeError) as caught:
        ask()
    assert caught.value.code in known_codes("sensitometry")
    assert sentence(caught.value.code, caught.value.params, ())
