"""The reading family: inside its span, at its ends, and beyond."""

from __future__ import annotations

import math

import pytest

from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.values.family import contrast_family

CONDITIONS = Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY)
SCALE = (-3.0, -2.0, -1.0, 0.0)


def curve(dev_s, slope, *, log_h=SCALE, absolute=True):
    return characteristic_curve(dev_s, log_h, [0.2 + slope * (place + 3.0) for place in log_h], absolute=absolute)


def family(*curves):
    return contrast_family("Tolland 100", curves, conditions=CONDITIONS, channel="visual", evidence=Evidence.TESTED)


THREE = family(curve(600.0, 0.7), curve(300.0, 0.4), curve(420.0, 0.55))


def test_curves_stand_in_order_of_their_times():
    """However they were given, the shortest time comes first."""
    assert [one.dev_s for one in THREE.curves] == [300.0, 420.0, 600.0]
    assert THREE.span_s == (300.0, 600.0)
    assert THREE.absolute


def test_between_two_times_density_is_straight_in_time():
    """Half-way in time lies half-way in density, base + fog and speed point."""
    assert THREE.density_at(360.0, -1.0) == pytest.approx(0.2 + 2 * 0.475)
    assert THREE.base_fog_at(360.0) == pytest.approx(0.2)
    early, late = (one.speed_log_h() for one in THREE.curves[:2])
    assert THREE.speed_log_h_at(360.0) == pytest.approx((early + late) / 2)
    assert THREE.gradient_at(360.0, -2.5, 1.8) == pytest.approx(0.475)


def test_time_for_range_is_the_inverse_of_predicted_range():
    """The time found for a range predicts that range."""
    for wanted in (0.80, 0.95, 1.10, 1.30):
        time_s = THREE.time_for_range(-2.5, 2.0, wanted)
        assert THREE.predicted_range(time_s, -2.5, 2.0) == pytest.approx(wanted, abs=1e-12)
    assert THREE.time_for_range(-2.5, 2.0, 1.10) == pytest.approx(420.0)


def test_window_holds_the_times_inside_the_tolerance_and_is_cut_at_the_span():
    """Both ends are where the tolerance ends, or where testing ends."""
    window = THREE.window_for_range(-2.5, 2.0, 1.0, 0.1)
    assert THREE.predicted_range(window.low_s, -2.5, 2.0) == pytest.approx(0.9)
    assert THREE.predicted_range(window.high_s, -2.5, 2.0) == pytest.approx(1.1)
    assert THREE.window_for_range(-2.5, 2.0, 0.75, 0.1).low_s == 300.0


def test_beyond_the_span_is_refused_with_the_nearest_range():
    """Too soft and too hard an aim name what the nearest tested time gives."""
    for wanted, code, nearest, time_s in (
        (0.70, "values.family.range_too_small", 0.8, 300.0),
        (1.60, "values.family.range_too_large", 1.4, 600.0),
    ):
        with pytest.raises(OutOfRangeError) as caught:
            THREE.time_for_range(-2.5, 2.0, wanted)
        assert caught.value.code == code
        assert caught.value.params["nearest"] == pytest.approx(nearest)
        assert caught.value.params["dev_s"] == time_s
    with pytest.raises(OutOfRangeError) as caught:
        THREE.density_at(610.0, -1.0)
    assert caught.value.code == "values.family.beyond_span"


def test_a_tenth_beyond_is_open_only_when_asked_for():
    """Widened, the last two curves are drawn on straight; beyond a tenth it stays shut."""
    assert THREE.extended_span_s() == pytest.approx((270.0, 660.0))
    assert THREE.density_at(660.0, -1.0, widen=True) == pytest.approx(0.2 + 2 * 0.75)
    assert THREE.time_for_range(-2.5, 2.0, 1.45, widen=True) == pytest.approx(630.0)
    assert THREE.time_for_range(-2.5, 2.0, 0.75, widen=True) == pytest.approx(280.0)
    with pytest.raises(OutOfRangeError):
        THREE.density_at(661.0, -1.0, widen=True)
    with pytest.raises(OutOfRangeError):
        THREE.time_for_range(-2.5, 2.0, 1.6, widen=True)


def test_a_highlight_off_the_last_step_is_refused_with_how_far_the_readings_go():
    """The refusal names the last exposure that was read."""
    with pytest.raises(RefusedError) as caught:
        THREE.predicted_range(400.0, -2.0, 2.5)
    assert caught.value.code == "values.family.highlight_not_read"
    assert caught.value.params["reach_log_h"] == 0.0
    assert caught.value.params["missing"] == pytest.approx(0.5)
    with pytest.raises(RefusedError) as caught:
        THREE.time_for_range(-3.5, 2.5, 1.0)
    assert caught.value.code == "values.family.shadow_not_read"


def test_one_short_curve_costs_only_the_times_beside_it():
    """Where the other times hold the scene they still answer; towards the short one the refusal names it."""
    short = family(curve(300.0, 0.4), curve(420.0, 0.55), curve(600.0, 0.7, log_h=(-3.0, -2.0, -1.0)))
    assert short.time_for_range(-2.5, 2.0, 1.0) == pytest.approx(380.0)
    with pytest.raises(RefusedError) as caught:
        short.time_for_range(-2.5, 2.0, 1.3)
    assert caught.value.code == "values.family.highlight_not_read"
    assert caught.value.params["dev_s"] == 600.0


def test_a_family_that_does_not_rise_with_time_plans_nothing():
    """Swapped strips are found out."""
    with pytest.raises(RefusedError) as caught:
        family(curve(300.0, 0.6), curve(420.0, 0.5)).time_for_range(-2.5, 2.0, 1.1)
    assert caught.value.code == "values.family.not_rising"


@pytest.mark.parametrize(
    ("curves", "code"),
    [
        ((curve(300.0, 0.5),), "values.family.too_few"),
        ((), "values.family.too_few"),
        ((curve(300.0, 0.5), curve(300.0, 0.6)), "values.family.same_time"),
        ((curve(300.0, 0.5), curve(400.0, 0.6, absolute=False)), "values.family.mixed_scales"),
    ],
)
def test_what_makes_no_family_is_refused(curves, code):
    """Two times on one scale are the least."""
    with pytest.raises(RefusedError) as caught:
        family(*curves)
    assert caught.value.code == code


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_aims_that_are_no_numbers_are_refused(bad):
    """Range, tolerance and scene must be positive numbers."""
    for ask in (
        lambda: THREE.predicted_range(400.0, -2.5, bad),
        lambda: THREE.time_for_range(-2.5, bad, 1.0),
        lambda: THREE.time_for_range(-2.5, 2.0, bad),
        lambda: THREE.window_for_range(-2.5, 2.0, bad, 0.1),
        lambda: THREE.window_for_range(-2.5, 2.0, 1.0, bad),
        lambda: THREE.extended_span_s(bad or 1.0),
    ):
        with pytest.raises(OutOfRangeError):
            ask()
