"""Washing by changes, by half-time and in cold water."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.adapters.bath_data import load_wash_methods
from wetside.chemistry import Carried
from wetside.errors import OutOfRangeError, RefusedError

UNIT = Carried(2.0, 2.0, 6.0)


def codes(notes):
    return [code for code, _ in notes]


def test_the_counted_fills_reach_the_limit_and_one_less_does_not():
    """The number is the smallest that will do; a clean start needs none."""
    fills = chemistry.fills_to_limit(600.0, 0.1, 20.0, 250.0)
    assert 600.0 * chemistry.wash_fraction(20.0, 250.0, fills) <= 0.1
    assert 600.0 * chemistry.wash_fraction(20.0, 250.0, fills - 1) > 0.1
    assert chemistry.fills_to_limit(0.05, 0.1, 20.0, 250.0) == 0


def test_more_than_a_hundred_changes_are_refused():
    """Hardly any water to what is carried is no wash."""
    with pytest.raises(RefusedError) as caught:
        chemistry.fills_to_limit(600.0, 0.1, 1000.0, 1.0)
    assert caught.value.code == "chemistry.wash.too_many"
    with pytest.raises(RefusedError):
        chemistry.fills_to_limit(600.0, 0.1, 1e12, 1e-9)


def test_a_quick_emulsion_comes_to_balance():
    """With a half-time near nothing both models agree, for the film and for the whole."""
    steps = chemistry.wash_by_half_time(600.0, UNIT, 500.0, [600.0] * 3, 0.5)
    for fills, step in enumerate(steps, 1):
        share = chemistry.wash_fraction(10.0, 500.0, fills)
        assert step.left_mg == pytest.approx(600.0 * share, rel=1e-6)
        assert step.emulsion_mg == pytest.approx(120.0 * share, rel=1e-6)


def test_the_half_time_that_just_does_is_found_and_hopeless_limits_are_refused():
    """It meets the limit, a little more does not; balance itself is a bound; no limit at all takes any half-time."""
    times = (60.0, 60.0, 60.0)
    slowest_s = chemistry.slowest_half_time_s(600.0, UNIT, 500.0, times, 0.7)
    at, above = (
        chemistry.wash_by_half_time(600.0, UNIT, 500.0, times, slowest_s * factor)[-1].emulsion_mg
        for factor in (1.0, 1.001)
    )
    assert at <= 0.7 < above
    with pytest.raises(RefusedError) as caught:
        chemistry.slowest_half_time_s(600.0, UNIT, 500.0, (60.0,), 0.7)
    assert caught.value.code == "chemistry.wash.never"
    assert chemistry.slowest_half_time_s(600.0, UNIT, 500.0, times, 500.0) == 180_000.0


def test_cold_water_warns_and_never_blocks():
    """Within 5 degrees nothing, beyond it the makers' limit, at 15 and below the longer wash."""
    assert chemistry.wash_notes(15.1, 20.0) == ()
    assert codes(chemistry.wash_notes(15.0, 20.0)) == ["chemistry.wash.cold"]
    assert codes(chemistry.wash_notes(8.0)) == ["chemistry.wash.far_from_process", "chemistry.wash.cold"]
    assert codes(chemistry.wash_notes(26.0)) == ["chemistry.wash.far_from_process"]
    with pytest.raises(OutOfRangeError):
        chemistry.wash_notes(80.0)


def test_hardened_film_and_film_on_a_wall_are_told():
    """Changes are published for fixer without hardener; the back of a film on a wall is washed out of the drum."""
    assert codes(chemistry.wash_notes(hardened=True)) == ["chemistry.wash.hardened"]
    assert chemistry.wash_notes(hardened=True, by_changes=False) == ()
    assert codes(chemistry.wash_notes(on_a_wall=True)) == ["chemistry.wash.out_of_drum"]


def test_every_shipped_method_has_its_source_or_is_marked():
    """A method without a source is common practice or assumed, and none is marked READ without one."""
    methods = load_wash_methods()
    assert len({method.name for method in methods}) == len(methods)
    for method in methods:
        assert bool(method.source) == (method.status == "READ")
        assert method.status in {"READ", "common practice", "assumed"}
        assert method.minutes or method.changes


def test_running_water_of_a_cold_tap_takes_twice_as_long():
    """One maker's two rows meet at 15 degrees."""
    by_name = {method.name: method for method in load_wash_methods()}
    cold, warm = by_name["running water, 15 C or colder"], by_name["running water, above 15 C"]
    assert cold.warmest_c == warm.coldest_c == 15.0
    assert chemistry.minutes_of_method(cold) == 2 * chemistry.minutes_of_method(warm)


def test_the_number_of_changes_can_be_the_callers():
    """Five one-minute fills in place of three."""
    drum = next(method for method in load_wash_methods() if method.name == "three fills in a drum")
    assert (chemistry.minutes_of_method(drum), chemistry.minutes_of_method(drum, 5)) == (3.0, 5.0)


def test_sides_of_a_film_are_one_or_two():
    """A film coated on both sides may hold double."""
    assert chemistry.residual_limit_mg(100.0, coated_sides=2) == 2 * chemistry.residual_limit_mg(100.0)
    with pytest.raises(OutOfRangeError):
        chemistry.residual_limit_mg(100.0, coated_sides=3)
