"""Engraved and exact numbers."""

import math

import pytest

from wetside.errors import OutOfRangeError
from wetside.exposure import aperture_exact, aperture_nominal, shutter_exact, shutter_nominal


def test_number_of_two_series_means_the_nearest_exact_value():
    """1.2 and 13 without a step mean 1.189 and 12.70; a named step decides otherwise."""
    assert aperture_exact(1.2) == pytest.approx(2 ** (0.5 / 2))
    assert aperture_exact(1.2, step="third") == pytest.approx(2 ** (2 / 3 / 2))
    assert aperture_exact(13) == pytest.approx(2 ** (22 / 3 / 2))
    assert aperture_exact(13, step="half") == pytest.approx(2 ** (7.5 / 2))


def test_sixth_of_a_second_means_the_third_stop():
    """1/6 s lies nearer to the third stop than to the half."""
    assert shutter_exact(1 / 6) == pytest.approx(2 ** -(8 / 3))
    assert shutter_exact(1 / 6, step="half") == pytest.approx(2**-2.5)


@pytest.mark.parametrize("variant", [3.4, 6.8, 9.6, 13.6, 6.4, 28])
def test_other_engravings_of_a_stop_are_known(variant):
    """Variants seen in print stand for the stop they are meant for."""
    assert aperture_exact(variant) != variant
    assert abs(2 * math.log2(aperture_exact(variant) / variant)) < 0.11


@pytest.mark.parametrize("number", [7.7, 12.5, 22.627, 260.0])
def test_number_on_no_scale_is_taken_as_it_is(number):
    """A lens may be engraved with anything."""
    assert aperture_exact(number) == number


@pytest.mark.parametrize("number", [22, 5.6, 13])
def test_step_that_has_not_the_number_leaves_it(number):
    """A number that is not on the named scale is taken as it is; full stops are on every scale."""
    assert (aperture_exact(number, step="full") == number) == (number == 13)


def test_counted_times_are_exact():
    """From 1 s on a person counts: 15 s is 15 s, unless it is said to be engraved."""
    assert [shutter_exact(t) for t in (1.0, 7.0, 15.0, 30.0)] == [1.0, 7.0, 15.0, 30.0]
    assert [shutter_exact(t, counted=False) for t in (2.0, 7.0, 15.0, 30.0, 60.0)] == [2.0, 7.0, 16.0, 32.0, 64.0]


def test_decimals_of_an_engraved_time_are_recognised():
    """0.0167 s is 1/60 s; 0.14 s is nothing engraved."""
    assert shutter_exact(0.0167) == 1 / 64
    assert shutter_exact(0.14) == 0.14


def test_nominal_of_exact_is_engraved():
    """Every exact stop comes back as what is engraved, on each scale."""
    assert [aperture_nominal(2 ** (av / 2), "full") for av in range(15)] == [
        1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64, 90, 128,
    ]  # fmt: skip
    assert aperture_nominal(6.9, "half") == 6.7
    assert aperture_nominal(6.9, "third") == 7.1
    assert shutter_nominal(0.0625) == pytest.approx(1 / 15)
    assert shutter_nominal(18.0) == 18.0
    assert shutter_nominal(35.0, counted=False) == 30.0


@pytest.mark.parametrize("call", [lambda: aperture_nominal(0.7), lambda: aperture_nominal(200.0)])
def test_nominal_aperture_off_the_scale_is_refused(call):
    """Nothing is clipped to the end of the scale."""
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.code == "exposure.aperture.off_scale"


@pytest.mark.parametrize(("time_s", "counted"), [(1e-4, True), (200.0, False)])
def test_nominal_time_off_the_scale_is_refused(time_s, counted):
    """Nothing is clipped to the end of the scale."""
    with pytest.raises(OutOfRangeError) as caught:
        shutter_nominal(time_s, counted=counted)
    assert caught.value.code == "exposure.shutter.off_scale"


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf, 1e9])
@pytest.mark.parametrize("call", [aperture_exact, aperture_nominal, shutter_exact, shutter_nominal])
def test_numbers_that_cannot_be_are_refused(call, value):
    """Zero, negative, not a number, endless."""
    with pytest.raises(OutOfRangeError):
        call(value)
