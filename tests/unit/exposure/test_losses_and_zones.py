"""Bellows, filters, meters, zones: what is refused, and the small rules."""

import math

import pytest

from wetside import exposure as ex
from wetside.errors import OutOfRangeError


def test_bellows_shorter_than_the_focal_length_is_refused():
    """Nothing is sharp there; most often the two numbers are exchanged."""
    with pytest.raises(OutOfRangeError) as caught:
        ex.bellows_factor(150.0, 210.0)
    assert caught.value.code == "exposure.extension.too_short"
    assert caught.value.params == {"value": 150.0, "focal_length_mm": 210.0}


def test_bellows_at_infinity_is_one():
    """No extension, no loss."""
    assert ex.bellows_factor(150.0, 150.0) == 1.0
    assert ex.bellows_factor_magnification(0.0) == 1.0


def test_no_filter_is_factor_one():
    """A stack of none loses nothing."""
    assert ex.stacked_factor() == 1.0


def test_rating_moves_the_exposure_value_at_iso_100():
    """A pair that belongs to ISO 400 is two stops less at ISO 100."""
    assert ex.exposure_value(16.0, 1 / 128, iso=400.0) == 13.0
    assert ex.metered_time_s(13.0, 16.0, iso=400.0) == 1 / 128


def test_meter_constants_are_declared_and_may_be_others():
    """K and C are arguments with the usual values."""
    assert ex.luminance_cd_m2(10.0, k=14.0) / ex.luminance_cd_m2(10.0) == pytest.approx(14.0 / 12.5)
    assert ex.illuminance_lx(10.0, c=340.0) / ex.illuminance_lx(10.0) == pytest.approx(340.0 / 250.0)


def test_fall_is_not_cut_at_the_scale():
    """A light fourteen stops over the shadow falls far beyond X, and N says so."""
    assert ex.zone_fall(1.0, 3.0, 15.0) == 17.0
    assert ex.zones_n(1.0, 3.0, 15.0) == -9.0


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, -1.0, 1e300])
@pytest.mark.parametrize(
    "call",
    [
        lambda v: ex.bellows_factor(v, 100.0),
        lambda v: ex.bellows_factor(100.0, v),
        ex.bellows_factor_magnification,
        ex.factor_stops,
        ex.density_factor,
        lambda v: ex.stacked_factor(2.0, v),
        lambda v: ex.opened_aperture(8.0, v),
        lambda v: ex.aperture_change_factor(8.0, v),
        lambda v: ex.placed_ev(9.0, v),
        lambda v: ex.zones_n(9.0, v, 14.0),
        lambda v: ex.exposure_value(8.0, v),
        lambda v: ex.exposure_value(8.0, 1.0, iso=v),
        lambda v: ex.luminance_cd_m2(9.0, k=v),
        lambda v: ex.illuminance_lx(9.0, c=v),
    ],
)
def test_numbers_that_cannot_be_are_refused(call, value):
    """A typed error, never a NaN."""
    with pytest.raises(OutOfRangeError):
        call(value)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 1e300])
@pytest.mark.parametrize(
    "call",
    [
        ex.stops_factor,
        ex.nominal_stops,
        ex.luminance_cd_m2,
        ex.illuminance_lx,
        lambda v: ex.metered_time_s(v, 8.0),
        lambda v: ex.zone_fall(v, 3.0, 14.0),
        lambda v: ex.double_exposure_stops(v, 0.0, 3.0),
    ],
)
def test_readings_that_cannot_be_are_refused(call, value):
    """The same where negative values are possible."""
    with pytest.raises(OutOfRangeError):
        call(value)
