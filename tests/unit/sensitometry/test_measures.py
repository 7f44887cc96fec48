"""Measures of a curve, and what they say where the readings stop."""

from __future__ import annotations

import pytest

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry import (
    arc_gauge,
    average_gradient,
    chord_gradient,
    curve_measures,
    gamma,
    log_exposure_range_iso6846,
    nominal_tablet,
    speed_arithmetic_iso6,
    speed_degrees_iso6,
)
from wetside.values.curve import characteristic_curve
from wetside.wording.sentence import known_codes, sentence


def straight(slope, length, **named):
    return characteristic_curve(300.0, (-3.0, -3.0 + length), (0.2, 0.2 + slope * length), **named)


def test_a_short_set_of_readings_gives_what_it_reaches():
    """Measures beyond the readings are None, each with a reason that can be said."""
    measures = curve_measures(straight(0.6, 1.0, absolute=False))
    assert measures.speed_log_h == pytest.approx(-3.0 + 0.1 / 0.6)
    assert measures.iso_delta is measures.gradient_150 is measures.contrast_index is measures.gamma is None
    assert [missing.measure for missing in measures.missing] == [
        "iso_delta",
        "gradient_150",
        "contrast_index",
        "gamma",
        "speed",
    ]
    for missing in measures.missing:
        assert missing.code in known_codes(missing.code.partition(".")[0])
        assert sentence(missing.code, missing.params, ())


def test_gauge_points_lie_on_the_arcs_the_curve_and_one_line():
    """The gauge that is found is a gauge: distances 0.2 and 2.2, on the curve, in line."""
    curve = characteristic_curve(
        360.0, (-3.0, -2.7, -2.3, -2.0, -1.6, -1.0, -0.4, 0.2), (0.21, 0.22, 0.30, 0.48, 0.76, 1.18, 1.50, 1.7)
    )
    gauge = arc_gauge(curve)
    for (log_h, density), radius in ((gauge.low, 0.2), (gauge.high, 2.2)):
        assert curve.density_at(log_h) == pytest.approx(density, abs=1e-9)
        assert (log_h - gauge.centre_log_h) ** 2 + (density - 0.21) ** 2 == pytest.approx(radius**2, abs=1e-9)
        assert (density - 0.21) / (log_h - gauge.centre_log_h) == pytest.approx(gauge.contrast_index, abs=1e-9)


def test_a_long_toe_does_not_catch_the_gauge():
    """Of two places where the gauge fits, the steep one is meant."""
    curve = characteristic_curve(
        360.0, (-6.0, -5.0, -4.0, -3.0, -2.0, -1.0, 0.0), (0.200, 0.201, 0.205, 0.215, 0.60, 1.20, 1.80)
    )
    assert arc_gauge(curve).contrast_index > 0.5


def test_the_gauge_needs_faint_steps():
    """Readings that begin above the inner arc are refused."""
    with pytest.raises(RefusedError) as caught:
        arc_gauge(characteristic_curve(360.0, (-3.0, 0.0), (0.5, 2.0), base_fog=0.0))
    assert caught.value.code == "sensitometry.contrast_index.no_fit"


def test_gamma_needs_both_net_densities():
    """Readings that start above net 0.40 or end below net 1.00 have no gamma."""
    for curve in (straight(0.6, 1.2), characteristic_curve(360.0, (-3.0, 0.0), (0.7, 2.0), base_fog=0.2)):
        with pytest.raises(RefusedError) as caught:
            gamma(curve)
        assert caught.value.code == "sensitometry.density.not_read"


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_bad_arguments_are_refused(bad):
    """Log ranges, speeds and tablets must be positive numbers."""
    curve = straight(0.6, 3.0)
    for ask in (
        lambda: average_gradient(curve, bad),
        lambda: chord_gradient(curve, 0.0, bad if bad <= 0 else float("nan")),
        lambda: speed_degrees_iso6(bad),
        lambda: nominal_tablet(bad),
    ):
        with pytest.raises(OutOfRangeError):
            ask()


def test_relative_exposures_give_no_speed():
    """A speed needs lux-seconds."""
    with pytest.raises(RefusedError) as caught:
        speed_arithmetic_iso6(straight(0.6, 3.0, absolute=False))
    assert caught.value.code == "sensitometry.speed.relative"


def test_a_paper_that_was_not_read_to_white_is_refused():
    """The lightest tone must be among the readings."""
    with pytest.raises(RefusedError):
        log_exposure_range_iso6846(characteristic_curve(120.0, (0.0, 1.0), (0.3, 2.0), base_fog=0.0))
