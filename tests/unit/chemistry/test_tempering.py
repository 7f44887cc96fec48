"""Bottle, vessel and jacket."""

from __future__ import annotations

import math

import pytest

from wetside import chemistry
from wetside.adapters import chemistry_data as data
from wetside.errors import OutOfRangeError, RefusedError


def test_a_small_volume_suffers_most_from_a_cold_vessel():
    """150, 300 and 500 ml at 20 C in 300 g of plastic at 17 C: 1.3, 0.9 and 0.6 C lost."""
    lost = [20.0 - chemistry.poured_temperature_c(volume, 20.0, 300.0, 1.7, 17.0) for volume in (150.0, 300.0, 500.0)]
    assert [round(value, 1) for value in lost] == [1.3, 0.9, 0.6]


def test_a_vessel_without_weight_changes_nothing():
    """No plastic, no loss."""
    assert chemistry.poured_temperature_c(300.0, 20.0, 0.0, 1.7, 17.0) == 20.0


def test_the_jacket_is_reached_in_the_end():
    """After ten time constants a bottle has the jacket's temperature; at the beginning its own."""
    assert chemistry.relaxed_temperature_c(16.0, 24.0, 348.0, 0.0) == 16.0
    assert chemistry.relaxed_temperature_c(16.0, 24.0, 348.0, 3480.0) == pytest.approx(24.0, abs=0.001)


def test_a_start_for_a_mean_has_that_mean():
    """What comes out is put back in, also over no time at all."""
    for time_s in (0.0, 60.0, 600.0, 6000.0):
        start_c = chemistry.start_for_mean_c(20.0, 17.0, 900.0, time_s)
        assert chemistry.mean_temperature_c(start_c, 17.0, 900.0, time_s) == pytest.approx(20.0)


def test_near_enough_takes_no_time():
    """A bottle within 0.3 C of the jacket is ready; 8 C off takes 19 minutes, not five or ten."""
    assert chemistry.time_within_s(20.2, 20.0, 348.0) == 0.0
    assert chemistry.time_within_s(16.0, 24.0, 348.0) / 60.0 == pytest.approx(19.0, abs=0.1)


@pytest.mark.parametrize("wanted_c", [24.0, 25.0, 15.9])
def test_what_lies_beyond_start_or_jacket_is_never_reached(wanted_c):
    """The jacket's own temperature, what lies past it, and what lies behind the start are refused."""
    with pytest.raises(RefusedError):
        chemistry.time_to_temperature_s(16.0, 24.0, 348.0, wanted_c)


def test_the_start_is_reached_at_once():
    """No time to the temperature that is already there, whatever stands around."""
    assert chemistry.time_to_temperature_s(16.0, 16.0, 348.0, 16.0) == 0.0


def test_readings_teach_the_constant_they_were_made_with():
    """A bottle of 600 s, read after 300 s, is learned as one of 600 s, and the span holds it."""
    end_c = chemistry.relaxed_temperature_c(24.0, 18.0, 600.0, 300.0)
    learned = chemistry.learned_time_constant(24.0, end_c, 18.0, 300.0)
    assert learned.tau_s == pytest.approx(600.0)
    assert learned.low_s < 600.0 < learned.high_s


def test_readings_too_close_have_no_upper_end():
    """A change that the thermometer cannot tell from none says how quick it is at most."""
    assert chemistry.learned_time_constant(20.0, 19.95, 16.0, 600.0).high_s is None
    assert chemistry.learned_time_constant(20.0, 16.05, 16.0, 600.0).low_s == 0.0


@pytest.mark.parametrize("end_c", [20.0, 20.5, 16.0, 15.0])
def test_readings_that_do_not_come_nearer_teach_nothing(end_c):
    """Standing still, going away, arriving or passing is refused."""
    with pytest.raises(RefusedError):
        chemistry.learned_time_constant(20.0, end_c, 16.0, 600.0)


def test_a_loss_makes_the_heater_slower():
    """A jacket that gives heat to the room takes longer; a tiny loss changes nothing."""
    plain = chemistry.heater_time_s(5000.0, 15.0, 20.0, 300.0)
    assert chemistry.heater_time_s(5000.0, 15.0, 20.0, 300.0, 10.0, 15.0) > plain
    assert chemistry.heater_time_s(5000.0, 15.0, 20.0, 300.0, 1e-6, 15.0) == pytest.approx(plain)
    assert chemistry.heater_time_s(5000.0, 20.0, 20.0, 300.0) == 0.0


def test_a_heater_that_is_too_weak_is_refused_with_what_it_reaches():
    """100 W against 10 W/K holds 10 C above the room."""
    with pytest.raises(RefusedError) as caught:
        chemistry.heater_time_s(5000.0, 15.0, 38.0, 100.0, 10.0, 15.0)
    assert caught.value.params["most_c"] == pytest.approx(25.0)


def test_the_right_temperature_has_no_effect():
    """At the temperature that was meant nothing is off."""
    effect = chemistry.temperature_effect(20.0, 20.0, 600.0, 480.0, 20.0, 0.097, 1.05)
    assert effect == pytest.approx((20.0, 0.0, 0.0, 0.0))


def test_a_warm_jacket_makes_up_for_a_cold_vessel():
    """Poured in at 19.1 C, in a jacket of 20.5 C for twice the time constant: the mean is near 20 C."""
    effect = chemistry.temperature_effect(19.13, 20.5, 240.0, 480.0, 20.0, 0.097, 1.05)
    alone = chemistry.temperature_effect(19.13, 19.13, 240.0, 480.0, 20.0, 0.097, 1.05)
    assert abs(effect.off_c) < 0.2
    assert alone.density < -0.05 < effect.density


def test_the_mean_rate_is_integrated_well_enough():
    """Against a sum of 20000 steps, for 8 C of drift."""
    steps = 20000
    exact = sum(math.exp(0.1 * (24.0 - 8.0 * math.exp(-(n + 0.5) / steps * 4.0) - 20.0)) for n in range(steps)) / steps
    effect = chemistry.temperature_effect(16.0, 24.0, 150.0, 600.0, 20.0, 0.1, 1.0)
    assert effect.time_percent == pytest.approx((exact - 1.0) * 100.0, abs=1e-4)


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf, 0.0])
def test_a_time_constant_is_positive(bad):
    """0, negative and non-finite constants are refused."""
    with pytest.raises(OutOfRangeError):
        chemistry.relaxed_temperature_c(20.0, 16.0, bad, 60.0)


def test_the_specific_heat_to_use_stands_first():
    """Sources differ on polypropylene by a fifth; the measured value at 20 C leads."""
    first, *others = data.load_materials()["polypropylene"]
    assert (first.heat_j_gk, first.temp_c) == (1.68, 20.0)
    assert max(other.heat_j_gk for other in others) == 2.0
    assert data.load_materials()["ABS"][0].density_g_ml == 1.04
