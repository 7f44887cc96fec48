"""Temperature coefficients: pairs, spans, spreads and refusals."""

from __future__ import annotations

import math

import pytest

from wetside.development import (
    GENERAL_COEFFICIENT,
    TimePair,
    coefficient_of_pair,
    coefficient_of_pairs,
    coefficient_of_q10,
    coefficient_span_of_pair,
    is_inside_span,
    named_coefficient,
    q10_of_coefficient,
    sourced_temperature_factor,
    temperature_factor,
)
from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence, Source

ONE, OTHER = Source("one"), Source("other")


def test_q10_and_coefficient_are_two_ways_to_say_one_thing() -> None:
    """Going there and back changes nothing."""
    assert coefficient_of_q10(q10_of_coefficient(0.07)) == pytest.approx(0.07, rel=1e-14)


def test_the_value_is_the_mean_of_the_best_source() -> None:
    """The source with the most pairs gives value and span; the other widens the spread and stays visible."""
    pairs = [
        TimePair(20, 480, 30, 160, source=OTHER),
        TimePair(20, 480, 24, 380, source=ONE),
        TimePair(18, 480, 24, 340, source=ONE),
    ]
    found = coefficient_of_pairs(pairs)
    assert found.source == Source("one")
    assert found.span_c == (18, 24)
    mean = (math.log(480 / 380) / 4 + math.log(480 / 340) / 6) / 2
    assert found.per_c == pytest.approx(mean)
    assert found.spread == pytest.approx(math.log(3) / 10 - mean)
    assert dict(found.by_source) == pytest.approx({"other": math.log(3) / 10, "one": mean})


def test_a_tested_pair_outranks_many_printed_ones() -> None:
    """One's own test is the better evidence, however many pairs a sheet has."""
    own = TimePair(20, 600, 24, 500, Evidence.TESTED, Source("own"))
    found = coefficient_of_pairs([*[TimePair(20, 600, 24, 400, source=ONE)] * 5, own])
    assert found.evidence is Evidence.TESTED
    assert found.span_c == (20, 24)


def test_a_source_can_be_named() -> None:
    """Whoever names a sheet gets its pairs alone."""
    pairs = [TimePair(20, 480, 24, 380, source=ONE), TimePair(20, 480, 30, 160, source=OTHER)]
    assert coefficient_of_pairs(pairs, source_key="other").span_c == (20, 30)


def test_a_single_pair_is_soft_by_its_rounding() -> None:
    """Half-minute rounding of one pair is its spread: half of what it leaves open."""
    pair = TimePair(20, 570, 24, 480, cold_soft_s=15, warm_soft_s=15)
    low, high = coefficient_span_of_pair(pair)
    assert coefficient_of_pairs([pair]).spread == pytest.approx((high - low) / 2)


def test_softness_never_makes_a_negative_coefficient() -> None:
    """No developer works slower when it is warmer."""
    assert coefficient_span_of_pair(TimePair(20, 300, 24, 299, cold_soft_s=15, warm_soft_s=15))[0] == 0.0


@pytest.mark.parametrize(
    ("pair", "code"),
    [
        (TimePair(24, 300, 20, 400), "development.pair.not_warmer"),
        (TimePair(20, 300, 20, 300), "development.pair.not_warmer"),
        (TimePair(20, 300, 24, 400), "development.pair.not_shorter"),
        (TimePair(20, 0, 24, 400), "development.pair.time_not_positive"),
        (TimePair(20, 300, 24, math.nan), "development.pair.time_not_positive"),
        (TimePair(math.inf, 300, 24, 200), "development.temperature.not_liquid"),
        (TimePair(20, 300, 20.1, 100), "development.coefficient.out_of_range"),
        (TimePair(20, 300, 24, 200, cold_soft_s=300), "development.pair.too_soft"),
    ],
)
def test_impossible_pairs(pair: TimePair, code: str) -> None:
    """A pair that cannot be is refused with what is wrong."""
    with pytest.raises((InputError, OutOfRangeError)) as caught:
        coefficient_of_pair(pair)
    assert caught.value.code == code


def test_no_pairs() -> None:
    """Nothing comes of nothing."""
    with pytest.raises(InputError, match="no_pairs"):
        coefficient_of_pairs([])
    with pytest.raises(InputError, match="no_pairs"):
        coefficient_of_pairs([TimePair(20, 300, 24, 200)], source_key="absent")


@pytest.mark.parametrize("value", [-0.01, 0.51, math.nan, math.inf])
def test_impossible_coefficients(value: float) -> None:
    """A coefficient that no developer has is refused."""
    with pytest.raises(OutOfRangeError):
        named_coefficient(value)
    with pytest.raises(OutOfRangeError):
        q10_of_coefficient(value)


@pytest.mark.parametrize("value", [0.99, 0.0, -1.0, math.nan, math.inf, 1e300])
def test_impossible_q10(value: float) -> None:
    """So is a ratio below 1 or beyond any developer's."""
    with pytest.raises(OutOfRangeError):
        coefficient_of_q10(value)


def test_either_temperature_outside_the_span_is_refused() -> None:
    """Where from counts as much as where to."""
    pairs = coefficient_of_pairs([TimePair(20, 480, 24, 380, source=ONE)])
    for from_c, to_c in ((20, 26), (18, 20), (26, 20)):
        with pytest.raises(RefusedError) as caught:
            temperature_factor(pairs, from_c, to_c)
        assert caught.value.code == "development.temperature.outside_span"
        assert caught.value.params["low_c"] == 20
        assert caught.value.params["source"] == "one"


def test_the_same_temperature_needs_no_coefficient() -> None:
    """A time that stays at its temperature stays as it is, wherever that is."""
    assert temperature_factor(GENERAL_COEFFICIENT, 30.0, 30.0) == 1.0


def test_a_named_coefficient_holds_anywhere_and_is_assumed() -> None:
    """Whoever names a coefficient takes it upon themselves."""
    named = named_coefficient(0.0565)
    assert is_inside_span(named, 26.0)
    factor = sourced_temperature_factor(named, 20.0, 26.0)
    assert factor.evidence is Evidence.ASSUMED
    assert factor.spread is None


@pytest.mark.parametrize("temp_c", [-1.0, 101.0, math.nan])
def test_impossible_temperatures(temp_c: float) -> None:
    """Ice and steam develop nothing."""
    with pytest.raises(OutOfRangeError):
        temperature_factor(GENERAL_COEFFICIENT, 20.0, temp_c)
