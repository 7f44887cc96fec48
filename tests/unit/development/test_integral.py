"""Development at a changing temperature."""

from __future__ import annotations

import math

import pytest

from wetside.development import (
    GENERAL_COEFFICIENT,
    duration_for_effective_s,
    effective_relaxing_time_s,
    effective_temp_c,
    effective_time_s,
    named_coefficient,
    relaxation_time_s,
    relaxed_temp_c,
)
from wetside.errors import InputError, OutOfRangeError, RefusedError

OWN = named_coefficient(0.08)


def simpson(rate, duration_s: float, parts: int = 2000) -> float:
    """Integral by another way than the code's."""
    width = duration_s / parts
    odd = sum(rate(width * i) for i in range(1, parts, 2))
    even = sum(rate(width * i) for i in range(2, parts, 2))
    return width / 3.0 * (rate(0.0) + rate(duration_s) + 4.0 * odd + 2.0 * even)


@pytest.mark.parametrize(("start_c", "jacket_c"), [(20.0, 16.0), (24.0, 20.0), (15.0, 40.0), (40.0, 5.0), (20.0, 20.0)])
def test_relaxing_agrees_with_a_quadrature(start_c: float, jacket_c: float) -> None:
    """The series is the integral, for a weak and for a strong drift."""

    def rate(t: float) -> float:
        return math.exp(0.08 * (relaxed_temp_c(t, start_c, jacket_c, 420.0) - 20.0))

    computed = effective_relaxing_time_s(600.0, start_c, jacket_c, 420.0, OWN, 20.0)
    assert computed == pytest.approx(simpson(rate, 600.0), rel=1e-10)


def test_a_ramp_agrees_with_a_quadrature() -> None:
    """A straight fall is integrated exactly."""
    computed = effective_time_s([(0, 22.0), (500, 18.0)], OWN, 20.0)
    assert computed == pytest.approx(simpson(lambda t: math.exp(0.08 * (2.0 - t / 125.0)), 500.0), rel=1e-12)


def test_a_step_takes_no_time() -> None:
    """Two readings at one moment are a step."""
    computed = effective_time_s([(0, 20.0), (100, 20.0), (100, 25.0), (200, 25.0)], OWN, 20.0)
    assert computed == pytest.approx(100.0 + 100.0 * math.exp(0.4))


def test_duration_is_the_inverse() -> None:
    """The trimmed time develops as far as was wanted, warm or cold."""
    for jacket_c in (14.0, 20.0, 27.0):
        duration_s = duration_for_effective_s(450.0, 21.0, jacket_c, 300.0, OWN, 20.0)
        assert effective_relaxing_time_s(duration_s, 21.0, jacket_c, 300.0, OWN, 20.0) == pytest.approx(450.0, rel=1e-9)


def test_the_vessel_constant_is_the_inverse_of_relaxing() -> None:
    """What was learned from two readings tells the second of them."""
    tau_s = relaxation_time_s(600.0, 24.0, 21.0, 20.0)
    assert relaxed_temp_c(600.0, 24.0, 20.0, tau_s) == pytest.approx(21.0)


def test_effective_temperature_of_a_steady_bath() -> None:
    """A steady bath has the temperature that it has."""
    effective_s = effective_time_s([(0, 23.0), (400, 23.0)], OWN, 20.0)
    assert effective_temp_c(effective_s, 400.0, OWN, 20.0) == pytest.approx(23.0)


def test_outside_the_span_a_plan_is_refused_and_a_live_run_is_not() -> None:
    """A run that is under way needs its number, and the warning is its own affair."""
    readings = [(0, 20.0), (300, 27.0)]
    with pytest.raises(RefusedError):
        effective_time_s(readings, GENERAL_COEFFICIENT, 20.0)
    with pytest.raises(RefusedError):
        effective_relaxing_time_s(300.0, 28.0, 20.0, 400.0, GENERAL_COEFFICIENT, 20.0)
    assert effective_time_s(readings, GENERAL_COEFFICIENT, 20.0, strict=False) > 300.0
    assert effective_relaxing_time_s(300.0, 28.0, 20.0, 400.0, GENERAL_COEFFICIENT, 20.0, strict=False) > 300.0


@pytest.mark.parametrize(
    ("readings", "code"),
    [
        ([], "development.integral.too_few_readings"),
        ([(0, 20.0)], "development.integral.too_few_readings"),
        ([(0, 20.0), (300, 20.0), (200, 20.0), (400, 20.0)], "development.integral.time_backwards"),
        ([(0, 20.0), (math.nan, 20.0)], "development.integral.time_impossible"),
        ([(0, 20.0), (1e9, 20.0)], "development.integral.time_impossible"),
        ([(0, 20.0), (300, math.inf)], "development.temperature.not_liquid"),
    ],
)
def test_impossible_readings(readings, code: str) -> None:
    """Readings that cannot be are refused."""
    with pytest.raises((InputError, OutOfRangeError)) as caught:
        effective_time_s(readings, OWN, 20.0)
    assert caught.value.code == code


def test_a_liquid_that_leaves_its_jacket_has_no_constant() -> None:
    """Going away from the jacket, past it, or standing still is no relaxation."""
    for end_c in (25.0, 19.0, 24.0, 20.0):
        with pytest.raises(InputError):
            relaxation_time_s(600.0, 24.0, end_c, 20.0)


def test_values_that_are_not_positive() -> None:
    """Times, constants and coefficients of nothing are refused."""
    with pytest.raises(OutOfRangeError):
        relaxed_temp_c(-1.0, 20.0, 20.0, 300.0)
    with pytest.raises(OutOfRangeError):
        relaxed_temp_c(1.0, 20.0, 20.0, 0.0)
    with pytest.raises(OutOfRangeError):
        effective_temp_c(300.0, 300.0, named_coefficient(0.0), 20.0)
    with pytest.raises(OutOfRangeError):
        duration_for_effective_s(0.0, 20.0, 20.0, 300.0, OWN, 20.0)
