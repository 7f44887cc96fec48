"""Properties of curves, families and measures for any readings."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from wetside.errors import WetsideError
from wetside.sensitometry import (
    arc_gauge,
    average_gradient,
    chord_gradient,
    contrast_index,
    curve_measures,
    curve_of_readings,
    curves_of_readings,
    gamma,
    grade_change,
    iso_delta,
    log_range_of_n,
    n_of_log_range,
    required_gradient,
    rising_fit,
    speed_log_h,
    zones_of_range_change,
)
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.values.family import contrast_family
from wetside.wording.sentence import known_codes, sentence

CONDITIONS = Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY)
ANY = st.floats(allow_nan=True, allow_infinity=True)
SHARE = st.floats(0.0, 1.0)


def check_said(code, params, package):
    """A code of this package, with a sentence that its parameters fill."""
    assert code in known_codes(package)
    assert sentence(code, params, ())


@st.composite
def curves(draw, dev_s=360.0, start=-3.0):
    """Rising readings, level parts among them."""
    count = draw(st.integers(2, 12))
    widths = draw(st.lists(st.floats(0.01, 0.6), min_size=count, max_size=count))
    rises = draw(st.lists(st.one_of(st.just(0.0), st.floats(0.0, 0.6)), min_size=count, max_size=count))
    log_h, density = [start], [0.2]
    for width, rise in zip(widths, rises, strict=True):
        log_h.append(log_h[-1] + width)
        density.append(density[-1] + rise)
    return characteristic_curve(dev_s, log_h, density)


def inside(curve, share):
    return curve.log_h[0] + share * (curve.log_h[-1] - curve.log_h[0])


@given(curves(), st.lists(SHARE, min_size=2, max_size=8))
def test_a_curve_never_falls_and_keeps_its_readings(curve, shares):
    """Between any two exposures density does not fall, and never leaves the readings around it."""
    places = sorted(inside(curve, share) for share in shares)
    densities = [curve.density_at(place) for place in places]
    assert all(after >= before - 1e-12 for before, after in pairwise(densities))
    assert all(curve.density[0] - 1e-12 <= density <= curve.density[-1] + 1e-12 for density in densities)
    assert all(curve.slope_at(place) >= 0.0 for place in places)
    assert tuple(curve.density_at(place) for place in curve.log_h) == curve.density


@given(curves(), SHARE)
def test_the_inverse_is_exact_and_the_first_crossing(curve, share):
    """The exposure found has the density asked for, and no smaller exposure has it."""
    density = curve.density[0] + share * (curve.density[-1] - curve.density[0])
    place = curve.log_h_at(density)
    assert curve.density_at(place) == pytest.approx(density, abs=1e-9)
    if place - 1e-4 >= curve.log_h[0]:
        assert curve.density_at(place - 1e-4) <= density


@given(st.lists(st.floats(-5, 5), max_size=30))
def test_smoothing_leaves_a_rising_set_alone_and_makes_every_set_rise(values):
    """A set that rises comes back to the bit; any other comes back rising, its mean kept."""
    rising = sorted(values)
    assert rising_fit(rising) == tuple(rising)
    fit = rising_fit(values)
    assert all(after >= before for before, after in pairwise(fit))
    assert sum(fit) == pytest.approx(sum(values), abs=1e-9)


@given(st.floats(0.2, 2.5), st.floats(-3.0, 0.0), st.integers(4, 25))
def test_every_measure_of_a_straight_line_is_its_slope(slope, start, count):
    """Average gradient, chord, contrast index, gamma and the speed triangle agree on a line."""
    length = 2.3 + 1.2 / slope
    log_h = [start + length * at / (count - 1) for at in range(count)]
    density = [0.2 + slope * (place - start) for place in log_h]
    assume(density[-1] < 6.0)
    curve, _ = curve_of_readings(300.0, log_h, density)
    found = [
        average_gradient(curve),
        chord_gradient(curve, start + 0.1, start + 1.1),
        contrast_index(curve),
        gamma(curve),
        iso_delta(curve) / 1.30,
    ]
    assert found == pytest.approx([slope] * 5, rel=1e-7)
    assert speed_log_h(curve) == pytest.approx(start + 0.1 / slope, abs=1e-9)


@given(curves())
def test_where_the_gauge_fits_it_fits_exactly(curve):
    """Both points stand at their distances on one line through the centre, or there is a refusal."""
    try:
        gauge = arc_gauge(curve)
    except WetsideError:
        return
    base = curve.base_fog
    for (log_h, density), radius in ((gauge.low, 0.2), (gauge.high, 2.2)):
        assert math.hypot(log_h - gauge.centre_log_h, density - base) == pytest.approx(radius, abs=1e-9)
        assert density - base == pytest.approx(gauge.contrast_index * (log_h - gauge.centre_log_h), abs=1e-9)
        assert curve.density_at(log_h) == pytest.approx(density, abs=1e-6)


@settings(max_examples=200)
@given(
    st.one_of(ANY, st.just(300.0)),
    st.lists(st.tuples(st.one_of(ANY, st.floats(-4, 1)), st.one_of(ANY, st.floats(0, 3))), max_size=8),
    st.one_of(st.none(), ANY, st.floats(0, 1)),
)
def test_garbage_is_refused_and_never_becomes_nan(dev_s, points, base_fog):
    """Any numbers at all give a finite curve or an error that can be said."""
    try:
        curve, told = curve_of_readings(dev_s, [p[0] for p in points], [p[1] for p in points], base_fog=base_fog)
    except WetsideError as error:
        check_said(error.code, error.params, "sensitometry")
        return
    measures = curve_measures(curve)
    for value in measures[:-1]:
        assert value is None or math.isfinite(value)
    assert all(math.isfinite(value) for value in curve.slope)
    for code, params in [*told, *((missing.code, missing.params) for missing in measures.missing)]:
        check_said(code, params, code.partition(".")[0])


@given(st.lists(st.tuples(st.one_of(ANY, st.sampled_from((300.0, 600.0))), ANY, ANY), max_size=12))
def test_garbage_rows_are_refused(rows):
    """Rows of any numbers give curves or our own errors."""
    try:
        curves_of_readings(rows)
    except WetsideError:
        return


@st.composite
def families(draw):
    """Straight or bent curves on one scale, each steeper than the one before."""
    count = draw(st.integers(2, 5))
    steps = draw(st.lists(st.floats(30.0, 300.0), min_size=count, max_size=count))
    gains = draw(st.lists(st.floats(1.05, 1.5), min_size=count, max_size=count))
    rises = draw(st.lists(st.floats(0.02, 0.5), min_size=6, max_size=6))
    time_s, gain, made = 200.0, 1.0, []
    for step, more in zip(steps, gains, strict=True):
        time_s, gain = time_s + step, gain * more
        density = [0.2]
        for rise in rises:
            density.append(density[-1] + rise * gain)
        made.append(characteristic_curve(time_s, [-3.0 + 0.5 * at for at in range(7)], density))
    return contrast_family("Tolland 100", made, conditions=CONDITIONS, channel="visual", evidence=Evidence.TESTED)


@given(families(), SHARE)
def test_a_family_is_its_tested_curves_at_tested_times(family, share):
    """At a tested time density, base + fog and speed point are the tested curve's, to the bit."""
    log_h = -3.0 + 3.0 * share
    for curve in family.curves:
        assert family.density_at(curve.dev_s, log_h) == curve.density_at(log_h)
        assert family.base_fog_at(curve.dev_s) == pytest.approx(curve.base_fog, abs=1e-15)
        try:
            assert family.speed_log_h_at(curve.dev_s) == curve.speed_log_h()
        except WetsideError as error:
            check_said(error.code, error.params, "values")


@given(families(), SHARE, SHARE, st.floats(0.3, 1.9), st.booleans())
def test_time_and_range_are_inverse(family, share, low, log_range, widen):
    """The time for a predicted range is the time that it was predicted for; nothing outside is answered."""
    log_h_low = -3.0 + low * 1.0
    low_s, high_s = family.extended_span_s() if widen else family.span_s
    dev_s = low_s + share * (high_s - low_s)
    wanted = family.predicted_range(dev_s, log_h_low, log_range, widen=widen)
    assume(wanted > 0.01)
    found = family.time_for_range(log_h_low, log_range, wanted, widen=widen)
    assert family.predicted_range(found, log_h_low, log_range, widen=widen) == pytest.approx(wanted, abs=1e-9)
    window = family.window_for_range(log_h_low, log_range, wanted, 0.08, widen=widen)
    assert window.low_s <= found <= window.high_s
    for end in window:
        assert abs(family.predicted_range(end, log_h_low, log_range, widen=widen) - wanted) <= 0.08 + 1e-9


@settings(max_examples=200)
@given(families(), ANY, ANY, ANY, ANY, st.booleans())
def test_a_family_answers_any_numbers_with_a_number_or_a_refusal(family, one, two, three, four, widen):
    """No question gives NaN, and every refusal can be said."""
    for ask in (
        lambda: family.density_at(one, two, widen=widen),
        lambda: family.predicted_range(one, two, three, widen=widen),
        lambda: family.base_fog_at(one, widen=widen),
        lambda: family.speed_log_h_at(one, widen=widen),
        lambda: family.time_for_range(one, two, three, widen=widen),
        lambda: family.window_for_range(one, two, three, four, widen=widen).low_s,
        lambda: family.curves[0].density_at(one),
        lambda: family.curves[0].log_h_at(one),
    ):
        try:
            assert math.isfinite(ask())
        except WetsideError as error:
            check_said(error.code, error.params, "values")


@given(ANY, ANY, ANY, ANY)
def test_aims_answer_any_numbers_with_a_number_or_a_refusal(one, two, three, four):
    """No aim gives NaN or overflows."""
    for ask in (
        lambda: required_gradient(one, two, three),
        lambda: log_range_of_n(one, two),
        lambda: n_of_log_range(one, two),
        lambda: grade_change(one),
        lambda: zones_of_range_change(one, two, three, flare_log=four),
    ):
        try:
            assert math.isfinite(ask())
        except WetsideError as error:
            check_said(error.code, error.params, "sensitometry")
