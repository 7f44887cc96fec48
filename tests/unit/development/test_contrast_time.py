"""Contrast against time without a family, the first-order law, the push rule, the floor."""

from __future__ import annotations

import math

import pytest

from wetside.development import (
    FirstOrderLaw,
    density_range_change_assumed,
    elasticity_of_two_times,
    first_order_law,
    floor_check,
    gradient_first_order,
    push_factor_rollei,
    sourced_time_factor_assumed,
    temperature_factor_arrhenius,
    time_factor_assumed,
    time_first_order_s,
)
from wetside.development.arrhenius import activation_energy_of_q10
from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence


def test_range_and_time_factor_undo_each_other() -> None:
    """The time that makes a range softer makes it as much softer as was wanted."""
    change = density_range_change_assumed(1.05, time_factor_assumed(0.5, 0.62))
    assert 1.05 + change == pytest.approx(1.05 * 0.5 / 0.62)


def test_the_factor_is_assumed_with_a_spread() -> None:
    """Films lie on both sides of the assumed elasticity."""
    factor = sourced_time_factor_assumed(0.5, 0.583)
    assert factor.evidence is Evidence.ASSUMED
    assert factor.spread > 0.01


def test_too_far_is_refused() -> None:
    """Twentyfold is no correction any more."""
    with pytest.raises(RefusedError, match="too_far"):
        time_factor_assumed(3.0, 0.1)
    with pytest.raises(RefusedError, match="too_far"):
        time_factor_assumed(1e300, 1e-300)


@pytest.mark.parametrize(("wanted", "given"), [(0.0, 0.6), (0.6, -1.0), (math.nan, 0.6), (0.6, math.inf)])
def test_impossible_gradients(wanted: float, given: float) -> None:
    """A contrast is a positive number."""
    with pytest.raises(OutOfRangeError):
        time_factor_assumed(wanted, given)


def test_impossible_elasticities_factors_and_ranges() -> None:
    """So are the other values."""
    with pytest.raises(OutOfRangeError):
        time_factor_assumed(0.6, 0.5, elasticity=0.0)
    with pytest.raises(OutOfRangeError):
        density_range_change_assumed(-0.1, 1.0)
    with pytest.raises(OutOfRangeError):
        density_range_change_assumed(1.0, 21.0)
    with pytest.raises(InputError, match="same_time"):
        elasticity_of_two_times(300, 0.5, 300, 0.6)


@pytest.mark.parametrize("second", [1.10, 1.2, 0.55, 0.5])
def test_what_is_not_first_order_is_refused(second: float) -> None:
    """Twice the contrast or more after twice the time, or no more at all, follows another law."""
    with pytest.raises(RefusedError, match="not_first_order"):
        first_order_law(360, 0.55, second)


def test_the_law_is_not_extrapolated() -> None:
    """A quarter beyond the tested times, and never to the limit."""
    law = first_order_law(360, 0.55, 0.80)
    assert gradient_first_order(law, 880.0) < law.limit
    with pytest.raises(RefusedError, match="outside_tested"):
        gradient_first_order(law, 901.0)
    with pytest.raises(RefusedError, match="outside_tested"):
        time_first_order_s(law, 0.99)
    with pytest.raises(RefusedError, match="above_limit"):
        time_first_order_s(law, law.limit)


def test_nothing_shows_in_the_induction_time() -> None:
    """Before anything shows there is no contrast."""
    assert gradient_first_order(FirstOrderLaw(1.2, 0.0025, 60.0), 30.0) == 0.0


def test_push_is_printed_for_two_stops() -> None:
    """Beyond what is printed the rule is refused."""
    assert push_factor_rollei(0.0).value == 1.0
    with pytest.raises(RefusedError, match="beyond_printed"):
        push_factor_rollei(2.1)
    with pytest.raises(OutOfRangeError):
        push_factor_rollei(math.nan)


def test_floor() -> None:
    """At the floor a time is not below it."""
    check = floor_check(300.0, 10.0, 15.0, 300.0)
    assert not check.below
    assert (check.margin_s, check.handling_share) == (0.0, pytest.approx(25 / 300))
    assert floor_check(299.0, 10.0, 15.0, 300.0).below
    for values in ((0.0, 1.0, 1.0, 1.0), (1.0, -1.0, 1.0, 1.0), (1.0, 1.0, 1.0, math.nan)):
        with pytest.raises(OutOfRangeError):
            floor_check(*values)


def test_the_two_laws_of_temperature_part_little() -> None:
    """Over four degrees a constant share per degree and the chemist's law agree within 1 %."""
    energy = activation_energy_of_q10(2.0)
    assert temperature_factor_arrhenius(energy, 20.0, 24.0) == pytest.approx(2.0**-0.4, rel=0.01)
    with pytest.raises(InputError):
        activation_energy_of_q10(2.0, 25.0, 15.0)
    with pytest.raises(OutOfRangeError):
        temperature_factor_arrhenius(-1.0, 20.0, 24.0)
    with pytest.raises(OutOfRangeError):
        temperature_factor_arrhenius(math.nan, 20.0, 24.0)
