"""Readings: what is taken, what is smoothed and told, what is refused."""

from __future__ import annotations

import math

import pytest

from wetside.errors import ManyErrors, WetsideError
from wetside.sensitometry import (
    curve_of_readings,
    curves_of_readings,
    family_of_readings,
    log_h_of_steps,
    nominal_tablet,
)
from wetside.values.conditions import Agitation, Conditions
from wetside.values.evidence import Evidence
from wetside.wording.sentence import known_codes, sentence

LOG_H = (-3.0, -2.5, -2.0, -1.5, -1.0)
RISING = (0.10, 0.20, 0.50, 0.80, 1.10)


def reports_of(told):
    return [report.code.rsplit(".", 1)[1] for report in told]


def test_order_does_not_matter():
    """Readings from the densest step down give the same curve."""
    assert curve_of_readings(300.0, LOG_H[::-1], RISING[::-1]) == curve_of_readings(300.0, LOG_H, RISING)


def test_base_and_fog_not_given_is_the_lowest_reading_and_is_said():
    """Taken for granted, and reported."""
    curve, told = curve_of_readings(300.0, LOG_H, RISING)
    assert (curve.base_fog, curve.base_fog_given) == (0.10, False)
    assert reports_of(told) == ["base_fog_lowest"]


def test_given_base_and_fog_is_used():
    """A given value is not second-guessed; one above a reading is reported."""
    curve, told = curve_of_readings(300.0, LOG_H, RISING, base_fog=0.08)
    assert (curve.base_fog, curve.base_fog_given, told) == (0.08, True, ())
    assert reports_of(curve_of_readings(300.0, LOG_H, RISING, base_fog=0.15)[1]) == ["base_fog_above"]


def test_a_small_dip_is_smoothed_and_told_with_place_and_depth():
    """The report names where the dip is and how deep."""
    curve, told = curve_of_readings(300.0, LOG_H, (0.10, 0.54, 0.50, 0.80, 1.10))
    assert curve.density[1:3] == pytest.approx((0.52, 0.52))
    assert reports_of(told) == ["dip_smoothed", "base_fog_lowest"]
    assert told[0].params["dip"] == pytest.approx(0.04)
    assert told[0].params["log_h"] == -2.0
    assert told[0].params["count"] == 2


def test_a_patch_read_twice_alike_counts_once():
    """The same exposure with the same density is one reading."""
    curve, _ = curve_of_readings(300.0, (*LOG_H, -1.0), (*RISING, 1.10))
    assert len(curve.log_h) == 5


BAD = [
    (300.0, LOG_H, (0.2,) * 5, None, "flat"),
    (300.0, LOG_H, (0.20, 0.21, 0.20, 0.22, 0.23), None, "flat"),
    (300.0, LOG_H, RISING[::-1], None, "falling"),
    (300.0, LOG_H, (0.1, 0.9, 0.2, 0.9, 1.0), None, "dip_too_deep"),
    (300.0, LOG_H[:3], RISING[:3], None, "too_few"),
    (300.0, (), (), None, "too_few"),
    (300.0, (-3.0, -3.0, -3.0, -3.0), (0.2,) * 4, None, "too_few"),
    (300.0, (-3.0, -2.5, -2.5, -1.0), (0.1, 0.2, 0.4, 0.8), None, "log_h_repeated"),
    (300.0, LOG_H, RISING[:4], None, "uneven"),
    (300.0, LOG_H, (*RISING[:4], math.nan), None, "density_impossible"),
    (300.0, LOG_H, (*RISING[:4], math.inf), None, "density_impossible"),
    (300.0, LOG_H, (-1.0, *RISING[1:]), None, "density_impossible"),
    (300.0, (math.nan, *LOG_H[1:]), RISING, None, "log_h_impossible"),
    (0.0, LOG_H, RISING, None, "time_impossible"),
    (math.nan, LOG_H, RISING, None, "time_impossible"),
    (300.0, LOG_H, RISING, 1.10, "base_fog_over_all"),
    (300.0, LOG_H, RISING, math.nan, "base_fog_impossible"),
]


@pytest.mark.parametrize(("dev_s", "log_h", "density", "base_fog", "code"), BAD)
def test_what_does_not_rise_is_refused(dev_s, log_h, density, base_fog, code):
    """Each kind of bad set is refused by its own code, and the code can be said."""
    with pytest.raises(WetsideError) as caught:
        curve_of_readings(dev_s, log_h, density, base_fog=base_fog)
    assert caught.value.code == f"sensitometry.readings.{code}"
    assert caught.value.code in known_codes("sensitometry")
    assert sentence(caught.value.code, caught.value.params, ())


def test_rows_become_one_curve_for_each_time():
    """Rows in any order are put together by time; base + fog may differ by time."""
    rows = [
        (time_s, log_h, density * time_s / 300.0)
        for log_h, density in zip(LOG_H, RISING, strict=True)
        for time_s in (600.0, 300.0)
    ]
    curves, told = curves_of_readings(rows, base_fog={600.0: 0.18})
    assert [curve.dev_s for curve in curves] == [300.0, 600.0]
    assert [curve.base_fog for curve in curves] == [0.10, 0.18]
    assert reports_of(told) == ["base_fog_lowest"]


def test_all_bad_times_are_named_at_once():
    """One bad time is one error, more come together."""
    good = [(300.0, log_h, density) for log_h, density in zip(LOG_H, RISING, strict=True)]
    flat = [(time_s, log_h, 0.2) for time_s in (400.0, 500.0) for log_h in LOG_H]
    with pytest.raises(ManyErrors) as caught:
        curves_of_readings(good + flat)
    assert [error.params["dev_s"] for error in caught.value.errors] == [400.0, 500.0]
    with pytest.raises(WetsideError) as one:
        curves_of_readings(good + flat[:5])
    assert one.value.code == "sensitometry.readings.flat"
    with pytest.raises(WetsideError) as none:
        curves_of_readings([])
    assert none.value.code == "sensitometry.readings.none"


def test_one_time_makes_no_family():
    """A family needs two times."""
    rows = [(300.0, log_h, density) for log_h, density in zip(LOG_H, RISING, strict=True)]
    with pytest.raises(WetsideError) as caught:
        family_of_readings(
            rows,
            film="Tolland 100",
            conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.TRAY),
            channel="visual",
            evidence=Evidence.TESTED,
        )
    assert caught.value.code == "values.family.too_few"


def test_steps_of_a_tablet_become_exposures():
    """A denser step exposes less; without a known exposure the scale is relative."""
    tablet = nominal_tablet()
    known = log_h_of_steps((1, 2, 21), tablet, -0.5)
    relative = log_h_of_steps((1, 2, 21), tablet)
    assert known == pytest.approx((-0.55, -0.70, -3.55))
    assert relative == pytest.approx(tuple(place + 0.5 for place in known))


@pytest.mark.parametrize(
    ("steps", "tablet", "exposure", "code"),
    [
        ((0,), (0.05, 0.2), None, "step"),
        ((3,), (0.05, 0.2), None, "step"),
        ((1.5,), (0.05, 0.2), None, "step"),
        ((math.nan,), (0.05, 0.2), None, "step"),
        ((1,), (math.nan, 0.2), None, "density"),
        ((1,), (0.05, 0.2), math.inf, "exposure"),
    ],
)
def test_what_is_no_step_is_refused(steps, tablet, exposure, code):
    """Steps off the tablet and impossible tablets are refused."""
    with pytest.raises(WetsideError) as caught:
        log_h_of_steps(steps, tablet, exposure)
    assert caught.value.code == f"sensitometry.tablet.{code}"
    assert sentence(caught.value.code, caught.value.params, ())
