"""The characteristic curve: what it gives back, and where it stops."""

from __future__ import annotations

import math

import pytest
from scipy.interpolate import PchipInterpolator

from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.curve import characteristic_curve

LOG_H = (-3.0, -2.7, -2.3, -2.0, -1.6, -1.0, -0.4)
DENSITY = (0.21, 0.21, 0.30, 0.48, 0.76, 1.18, 1.50)
CURVE = characteristic_curve(360.0, LOG_H, DENSITY)


def test_curve_and_slope_agree_with_an_independent_interpolator():
    """Density and slope are those of a monotone cubic that someone else wrote."""
    other = PchipInterpolator(LOG_H, DENSITY)
    slopes = other.derivative()
    for at in range(261):
        place = -3.0 + 0.01 * at
        assert CURVE.density_at(place) == pytest.approx(float(other(place)), abs=1e-12)
        assert CURVE.slope_at(place) == pytest.approx(float(slopes(place)), abs=1e-9)


def test_readings_come_back_exactly():
    """At a tested exposure the curve is the reading, to the last bit."""
    assert [CURVE.density_at(place) for place in LOG_H] == list(DENSITY)


def test_level_part_gives_its_start():
    """A density that the curve holds for a while is found where it begins."""
    curve = characteristic_curve(360.0, (-3.0, -2.0, -1.0, 0.0), (0.2, 0.6, 0.6, 1.0))
    assert curve.log_h_at(0.6) == -2.0
    assert curve.log_h_at(0.2) == -3.0


@pytest.mark.parametrize("log_h", [-3.01, -0.39, math.inf, -math.inf, math.nan])
def test_nothing_is_extrapolated(log_h):
    """Outside the readings neither density nor slope is given."""
    for ask in (CURVE.density_at, CURVE.slope_at):
        with pytest.raises(OutOfRangeError) as caught:
            ask(log_h)
        assert caught.value.code == "values.curve.beyond_log_h"


@pytest.mark.parametrize("density", [0.2, 1.51, math.inf, math.nan])
def test_a_density_that_was_not_read_has_no_exposure(density):
    """The inverse keeps to the readings too."""
    with pytest.raises(OutOfRangeError) as caught:
        CURVE.log_h_at(density)
    assert caught.value.code == "values.curve.beyond_density"


def test_rounding_of_a_sum_does_not_miss_the_end():
    """A sum of exposures that lands a rounding error beyond the last reading means the last reading."""
    assert CURVE.density_at(-0.4 + 1e-12) == 1.50


def test_speed_point_that_was_not_read_is_refused():
    """A base + fog far below the readings leaves the speed point unread."""
    curve = characteristic_curve(360.0, LOG_H, DENSITY, base_fog=0.05)
    with pytest.raises(RefusedError) as caught:
        curve.speed_log_h()
    assert caught.value.code == "values.curve.speed_point_not_read"


@pytest.mark.parametrize(
    ("dev_s", "log_h", "density", "code"),
    [
        (0.0, (-1.0, 0.0), (0.1, 0.2), "values.curve.dev_not_positive"),
        (math.nan, (-1.0, 0.0), (0.1, 0.2), "values.curve.dev_not_positive"),
        (60.0, (-1.0, 0.0), (0.1,), "values.curve.uneven"),
        (60.0, (-1.0,), (0.1,), "values.curve.too_few"),
        (60.0, (-1.0, math.nan), (0.1, 0.2), "values.curve.impossible"),
        (60.0, (-1.0, 0.0), (0.1, 1e300), "values.curve.impossible"),
        (60.0, (0.0, 0.0), (0.1, 0.2), "values.curve.log_h_not_rising"),
        (60.0, (-1.0, 0.0), (0.2, 0.1), "values.curve.density_falls"),
    ],
)
def test_what_draws_no_curve_is_refused(dev_s, log_h, density, code):
    """Each kind of bad reading has its own code."""
    with pytest.raises(OutOfRangeError) as caught:
        characteristic_curve(dev_s, log_h, density)
    assert caught.value.code == code
