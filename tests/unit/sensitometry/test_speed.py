"""ISO speed: its contrast condition, its marks, and every refusal."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from wetside.adapters.printing_data import load_speed_classes
from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.speed import (
    HALF_CLASS,
    SpeedClass,
    metered_lux_s,
    speed_class_iso6,
    speed_iso6,
    speed_of_family_iso6,
    speed_point_lux_s,
)
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.values.family import contrast_family
from wetside.wording.sentence import known_codes, sentence

TABLE = load_speed_classes()
NAN = float("nan")


def straight(slope, dev_s=300.0, last=2.0, absolute=True):
    return characteristic_curve(dev_s, (-3.0, last), (0.1, 0.1 + (last + 3.0) * slope), absolute=absolute)


def family(*slopes, **more):
    curves = [straight(slope, 300.0 + 60.0 * at, **more) for at, slope in enumerate(slopes)]
    return contrast_family(
        "Tolland 100",
        curves,
        conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
        channel="visual",
        evidence=Evidence.TESTED,
    )


def test_the_table_is_the_series():
    """Every row's nominal exposure is that of its degrees, and classes join without gap or overlap."""
    for entry in TABLE:
        assert entry.log_hm == pytest.approx(math.log10(0.8) - (entry.degrees - 1) / 10.0, abs=0.0005)
        assert 1.0 + 10.0 * math.log10(entry.arithmetic) == pytest.approx(entry.degrees, abs=0.25)
    for slow, fast in pairwise(TABLE):
        assert slow.limits_log_hm[0] == pytest.approx(fast.limits_log_hm[1])
        assert fast.degrees == slow.degrees + 1
    assert (TABLE[0].arithmetic, TABLE[-1].arithmetic) == (6.0, 3200.0)


def test_half_way_between_two_marks_the_slower_counts():
    """A film on the limit is not called faster than it may be."""
    slow, fast = TABLE[12], TABLE[13]
    assert speed_class_iso6(slow.log_hm - HALF_CLASS, TABLE) == slow
    assert speed_class_iso6(slow.log_hm - HALF_CLASS - 0.002, TABLE) == fast


def test_a_film_beyond_the_marks_has_a_speed_and_no_mark():
    """What is slower than the slowest mark is told exactly, without a mark."""
    slow = characteristic_curve(300.0, (-0.5, 3.0), (0.1, 0.1 + 3.5 * 0.8 / 1.3))
    found = speed_iso6(slow, TABLE)
    assert found.marked is None
    assert found.arithmetic == pytest.approx(0.8 / 10**found.log_hm)
    with pytest.raises(OutOfRangeError, match=r"speed\.off_table"):
        speed_class_iso6(found.log_hm, TABLE)


@pytest.mark.parametrize("slope", [0.58, 0.61, 0.65])
def test_a_curve_inside_the_condition_has_a_speed(slope):
    """The condition leaves 0.05 of density either side, and the miss is told."""
    assert speed_iso6(straight(slope), TABLE).miss == pytest.approx(1.3 * slope - 0.8)


@pytest.mark.parametrize("slope", [0.40, 0.70])
def test_a_curve_outside_is_refused_with_its_miss(slope):
    """The refusal says by how much."""
    with pytest.raises(RefusedError) as caught:
        speed_iso6(straight(slope), TABLE)
    assert caught.value.code == "sensitometry.speed.condition_missed"
    assert caught.value.params["miss"] == pytest.approx(1.3 * slope - 0.8)


def test_a_family_is_interpolated_to_the_condition():
    """The time is where 0.80 is met, and the speed is that of this time."""
    found = speed_of_family_iso6(family(0.5, 0.6, 0.7), TABLE)
    share = (0.80 / 1.30 - 0.6) / 0.1
    assert found.dev_s == pytest.approx(360.0 + 60.0 * share)
    assert found.interpolated
    assert found.miss == 0.0


def test_a_tested_time_that_meets_it_is_taken_as_it_is():
    """No interpolation is claimed where none was made."""
    found = speed_of_family_iso6(family(0.80 / 1.30, 0.7), TABLE)
    assert found.dev_s == pytest.approx(300.0)
    assert found.iso_delta == pytest.approx(0.80)


def test_a_family_that_nearly_meets_it_uses_its_nearest_time():
    """Inside the tolerance the nearest tested time serves, and its miss is told."""
    found = speed_of_family_iso6(family(0.65, 0.75), TABLE)
    assert found.dev_s == 300.0
    assert found.miss == pytest.approx(1.3 * 0.65 - 0.8)


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: speed_of_family_iso6(family(0.4, 0.5), TABLE), "sensitometry.speed.no_time_meets"),
        (lambda: speed_of_family_iso6(family(0.5, 0.7, last=-2.0), TABLE), "sensitometry.log_h.not_read"),
        (lambda: speed_of_family_iso6(family(0.5, 0.7, absolute=False), TABLE), "sensitometry.speed.relative"),
        (lambda: speed_iso6(straight(0.6, absolute=False), TABLE), "sensitometry.speed.relative"),
        (lambda: speed_iso6(straight(0.6), TABLE, tolerance=NAN), "sensitometry.speed.tolerance"),
        (lambda: speed_class_iso6(NAN, TABLE), "sensitometry.speed.off_table"),
        (lambda: speed_class_iso6(-2.0, ()), "sensitometry.speed.off_table"),
        (lambda: speed_point_lux_s(0.0), "sensitometry.speed.not_positive"),
        (lambda: metered_lux_s(NAN), "sensitometry.speed.not_positive"),
    ],
)
def test_what_gives_no_speed_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence that its parameters fill."""
    with pytest.raises((OutOfRangeError, RefusedError)) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())


def test_a_class_knows_its_limits():
    """They lie half a step either side."""
    assert SpeedClass(100.0, 21, -2.097).limits_log_hm == pytest.approx((-2.147, -2.047))
