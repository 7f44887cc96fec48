"""What a flash gives to each zone."""

from __future__ import annotations

import pytest

from wetside.errors import OutOfRangeError
from wetside.sensitometry.preflash import flash_zone_for_gain, flashed_zones, stops_gained_by_flash, zone_after_flash
from wetside.values.curve import characteristic_curve
from wetside.wording.sentence import known_codes, sentence

CURVE = characteristic_curve(300.0, (-3.2, -2.8, -2.4, -2.0, -1.0), (0.10, 0.14, 0.30, 0.55, 1.25))
NAN = float("nan")


@pytest.mark.parametrize(("flash", "low", "high"), [(1.0, 0.30, 0.35), (1.5, 0.40, 0.45), (2.0, 0.55, 0.60)])
def test_shadows_gain_a_third_to_two_thirds_and_highs_nothing(flash, low, high):
    """A flash on I to II gives Zone III a third to two thirds of a stop, and VIII nothing that shows."""
    assert low < stops_gained_by_flash(3.0, flash) < high
    assert stops_gained_by_flash(8.0, flash) < 0.03


def test_a_flash_on_its_own_zone_is_a_stop():
    """Twice the light is one zone."""
    assert zone_after_flash(2.0, 2.0) == pytest.approx(3.0)


def test_the_flash_for_a_gain_is_the_inverse():
    """The flash that was asked for gives the gain that was asked for."""
    assert stops_gained_by_flash(3.0, flash_zone_for_gain(3.0, 0.5)) == pytest.approx(0.5)


def test_density_follows_the_curve_from_its_speed_point():
    """Zone I lies on the speed point unless it is placed; densities are net, and None beyond the readings."""
    first, third, far = flashed_zones(1.5, (1.0, 3.0, 9.0), curve=CURVE)
    assert first.net_before == pytest.approx(0.10)
    assert third.net_after > third.net_before
    assert far.net_before is None
    assert far.net_after is None
    placed = flashed_zones(1.5, (1.0,), curve=CURVE, zone_one_log_h=-2.4)[0]
    assert placed.net_before == pytest.approx(0.20)


def test_without_a_curve_only_stops_are_told():
    """No density is guessed."""
    assert {zone.net_after for zone in flashed_zones(1.0)} == {None}


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: zone_after_flash(NAN, 1.0), "sensitometry.zone.impossible"),
        (lambda: zone_after_flash(3.0, 99.0), "sensitometry.zone.impossible"),
        (lambda: flash_zone_for_gain(3.0, 0.0), "sensitometry.flash.gain"),
        (lambda: flashed_zones(1.0, curve=CURVE, zone_one_log_h=NAN), "sensitometry.zone.anchor"),
    ],
)
def test_what_is_no_flash_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence."""
    with pytest.raises(OutOfRangeError) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())
