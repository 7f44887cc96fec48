"""What holds for any developing time."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wetside.development import (
    TimePair,
    agitation_factor,
    coefficient_of_pair,
    coefficient_of_pairs,
    coefficient_of_q10,
    convert_clock_s,
    density_range_change_assumed,
    duration_for_effective_s,
    effective_relaxing_time_s,
    effective_time_s,
    elasticity_of_two_times,
    first_order_law,
    floor_check,
    gradient_first_order,
    named_coefficient,
    push_factor_rollei,
    q10_of_coefficient,
    relaxation_time_s,
    temperature_factor,
    time_factor_assumed,
    time_first_order_s,
)
from wetside.errors import RefusedError, WetsideError
from wetside.values.conditions import Agitation, ClockRule, StopKind
from wetside.wording import speak_error

ANY = st.floats()
TEMPS = st.floats(10.0, 35.0)
PER_C = st.floats(0.0, 0.15)
TIMES = st.floats(60.0, 3600.0)
HANDLING = st.floats(0.0, 40.0)
CONVERTIBLE = st.sampled_from([Agitation.ROTARY, Agitation.TRAY, Agitation.INTERMITTENT])


@given(PER_C, TEMPS, TEMPS, TEMPS)
def test_temperature_there_and_back(per_c: float, first_c: float, second_c: float, third_c: float) -> None:
    """Going there and back is no change, and a way round is the way straight."""
    named = named_coefficient(per_c)
    there, back = temperature_factor(named, first_c, second_c), temperature_factor(named, second_c, first_c)
    assert there * back == pytest.approx(1.0, rel=1e-12)
    round_about = there * temperature_factor(named, second_c, third_c)
    assert round_about == pytest.approx(temperature_factor(named, first_c, third_c), rel=1e-12)


@given(st.floats(0.0, 0.5))
def test_q10_there_and_back(per_c: float) -> None:
    """Coefficient and Q10 are one."""
    assert coefficient_of_q10(q10_of_coefficient(per_c)) == pytest.approx(per_c, abs=1e-14)


@given(TEMPS, st.floats(1.0, 10.0), TIMES, st.floats(0.3, 1.0))
def test_a_pair_predicts_itself(cold_c: float, apart_c: float, cold_s: float, share: float) -> None:
    """The coefficient of one pair gives its warm time back; a degree beyond the pair it is refused."""
    pair = TimePair(cold_c, cold_s, cold_c + apart_c, cold_s * share)
    if math.log(1.0 / share) / apart_c > 0.5:
        return
    coefficient = coefficient_of_pairs([pair])
    warm_s = cold_s * temperature_factor(coefficient, pair.cold_c, pair.warm_c)
    assert warm_s == pytest.approx(pair.warm_s, rel=1e-9)
    for temp_c in (pair.cold_c - 1.0, pair.warm_c + 1.0):
        with pytest.raises(RefusedError):
            temperature_factor(coefficient, pair.cold_c, temp_c)


@given(PER_C, TEMPS, TIMES, st.lists(st.floats(0.0, 1.0), max_size=6))
def test_a_constant_temperature_is_the_time_itself(per_c: float, temp_c: float, time_s: float, parts: list) -> None:
    """Any readings of a steady bath add up to the time."""
    readings = [(0.0, temp_c), *((part * time_s, temp_c) for part in sorted(parts)), (time_s, temp_c)]
    assert effective_time_s(readings, named_coefficient(per_c), temp_c) == pytest.approx(time_s, rel=1e-12)
    steady_s = effective_relaxing_time_s(time_s, temp_c, temp_c, 300.0, named_coefficient(per_c), temp_c)
    assert steady_s == pytest.approx(time_s, rel=1e-12)


@given(PER_C, TEMPS, TEMPS, TIMES, st.floats(0.01, 0.99))
def test_the_integral_adds_up(per_c: float, first_c: float, last_c: float, time_s: float, part: float) -> None:
    """A reading on the line between two others changes nothing, and the result lies between the extremes."""
    named, mid_s = named_coefficient(per_c), part * time_s
    whole = effective_time_s([(0.0, first_c), (time_s, last_c)], named, 20.0)
    middle = (mid_s, first_c + (last_c - first_c) * part)
    assert effective_time_s([(0.0, first_c), middle, (time_s, last_c)], named, 20.0) == pytest.approx(whole, rel=1e-9)
    rates = [math.exp(per_c * (temp_c - 20.0)) for temp_c in (first_c, last_c)]
    assert min(rates) * (1 - 1e-9) <= whole / time_s <= max(rates) * (1 + 1e-9)


@given(PER_C, TEMPS, TEMPS, st.floats(60.0, 5000.0), TIMES)
def test_a_trimmed_time_develops_as_far(
    per_c: float, start_c: float, jacket_c: float, tau_s: float, time_s: float
) -> None:
    """The inverse of the relaxing integral is its inverse."""
    named = named_coefficient(per_c)
    duration_s = duration_for_effective_s(time_s, start_c, jacket_c, tau_s, named, 20.0)
    reached_s = effective_relaxing_time_s(duration_s, start_c, jacket_c, tau_s, named, 20.0)
    assert reached_s == pytest.approx(time_s, rel=1e-8)


@given(CONVERTIBLE, CONVERTIBLE, st.booleans(), st.booleans())
def test_agitation_there_and_back(first: Agitation, second: Agitation, before: bool, after: bool) -> None:
    """Going there and back is no change."""
    there = agitation_factor(first, second, presoak_from=before, presoak_to=after)
    back = agitation_factor(second, first, presoak_from=after, presoak_to=before)
    assert there.value * back.value == pytest.approx(1.0)


@given(
    st.floats(300.0, 3600.0),
    st.sampled_from(list(ClockRule)),
    st.sampled_from(list(ClockRule)),
    st.sampled_from(list(StopKind)),
    st.sampled_from(list(StopKind)),
    HANDLING,
    HANDLING,
    HANDLING,
)
def test_clock_there_and_back(time_s, first, second, before, after, pour_s, drain_s, stop_pour_s) -> None:
    """Going there and back is no change."""
    handling = (pour_s, drain_s, stop_pour_s)
    there = convert_clock_s(time_s, first, second, before, after, *handling)
    back = convert_clock_s(there.time_s, second, first, after, before, *handling)
    assert back.time_s == pytest.approx(time_s, rel=1e-12)
    assert there.is_same is (abs(there.time_s / time_s - 1.0) < 0.02)


@given(st.floats(0.3, 1.2), st.floats(0.3, 1.2))
def test_contrast_there_and_back(wanted: float, given_: float) -> None:
    """Going there and back is no change; more contrast always takes more time."""
    there = time_factor_assumed(wanted, given_)
    assert there * time_factor_assumed(given_, wanted) == pytest.approx(1.0, rel=1e-12)
    assert (there > 1.0) is (wanted > given_) or math.isclose(wanted, given_, rel_tol=1e-15)
    assert 1.0 + density_range_change_assumed(1.0, there) == pytest.approx(wanted / given_, rel=1e-12)


@given(TIMES, st.floats(0.2, 1.0), st.floats(1.05, 1.95))
def test_the_first_order_law_goes_through_its_points(short_s: float, gradient: float, growth: float) -> None:
    """Both contrasts come back, and so does the time of any between."""
    law = first_order_law(short_s, gradient, gradient * growth)
    assert gradient_first_order(law, short_s) == pytest.approx(gradient, rel=1e-9)
    assert gradient_first_order(law, 2.0 * short_s) == pytest.approx(gradient * growth, rel=1e-9)
    assert time_first_order_s(law, gradient) == pytest.approx(short_s, rel=1e-6)


CALLS = [
    lambda a, b, c, d: coefficient_of_pair(TimePair(a, b, c, d)),
    lambda a, b, c, _: temperature_factor(named_coefficient(a), b, c),
    lambda a, b, c, d: effective_time_s([(0.0, b), (c, d)], named_coefficient(a), 20.0),
    lambda a, b, c, d: effective_relaxing_time_s(a, b, c, d, named_coefficient(0.1), 20.0),
    lambda a, b, c, d: duration_for_effective_s(a, b, c, d, named_coefficient(0.1), 20.0),
    relaxation_time_s,
    lambda a, b, c, d: (
        convert_clock_s(
            a, ClockRule.POUR_TO_DRAINED, ClockRule.FULL_TO_DRAIN, StopKind.WATER, StopKind.ACID, b, c, d
        ).factor
    ),
    lambda a, b, c, _: time_factor_assumed(a, b, c),
    lambda a, b, c, _: density_range_change_assumed(a, b, c),
    elasticity_of_two_times,
    lambda a, b, c, d: gradient_first_order(first_order_law(a, b, c), d),
    lambda a, b, c, d: time_first_order_s(first_order_law(a, b, c), d),
    lambda a, *_: push_factor_rollei(a).value,
    lambda a, b, c, d: floor_check(a, b, c, d).handling_share,
]


@settings(max_examples=60)
@given(
    st.sampled_from(range(len(CALLS))),
    *[ANY | TEMPS | TIMES | st.floats(0.0, 2.0)] * 4,
)
def test_no_number_makes_a_nan_or_a_traceback(call: int, a: float, b: float, c: float, d: float) -> None:
    """Any four numbers give a finite answer or a refusal that can be said."""
    try:
        answer = CALLS[call](a, b, c, d)
    except WetsideError as error:
        said = speak_error(error, ("en",))
    else:
        said = ""
        assert math.isfinite(answer)
    assert "development." not in said
