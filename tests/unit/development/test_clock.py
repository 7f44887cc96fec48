"""Clock rules and stops."""

from __future__ import annotations

import math

import pytest

from wetside.development import convert_clock_s, effective_development_s
from wetside.errors import OutOfRangeError
from wetside.values.conditions import ClockRule, StopKind

HANDLING = {"pour_s": 10.0, "drain_s": 15.0, "stop_pour_s": 10.0}
ACID, WATER = StopKind.ACID, StopKind.WATER
FULL = ClockRule.FULL_TO_DRAIN


def test_water_after_acid_shortens_the_time() -> None:
    """Where plain water ends development, the clock must stop 15 s sooner."""
    moved = convert_clock_s(420.0, FULL, FULL, ACID, WATER, **HANDLING)
    assert moved.time_s == pytest.approx(405.0)
    assert not moved.is_same


def test_small_changes_do_not_count() -> None:
    """Below 2 % the number is given and marked as no change."""
    moved = convert_clock_s(1200.0, FULL, ClockRule.POUR_TO_DRAIN, ACID, ACID, **HANDLING)
    assert moved.time_s == pytest.approx(1210.0)
    assert moved.is_same


def test_what_the_source_does_not_say_is_left_alone() -> None:
    """A silent sheet is not converted, and it is said of what it is silent."""
    moved = convert_clock_s(420.0, None, ClockRule.POUR_TO_DRAINED, None, WATER, **HANDLING)
    assert (moved.time_s, moved.factor, moved.is_same, moved.unknown) == (420.0, 1.0, True, ("rule", "stop"))
    moved = convert_clock_s(420.0, ClockRule.FULL_TO_DRAINED, FULL, None, WATER, **HANDLING)
    assert (moved.time_s, moved.unknown) == (405.0, ("stop",))


def test_the_drain_lies_inside_or_outside() -> None:
    """Full to drained is longer on the clock than full to drain by the drain, for the same development."""
    moved = convert_clock_s(420.0, FULL, ClockRule.FULL_TO_DRAINED, ACID, ACID, **HANDLING)
    assert moved.time_s == pytest.approx(435.0)


@pytest.mark.parametrize("time_s", [0.0, -1.0, math.nan, math.inf])
def test_impossible_times(time_s: float) -> None:
    """A time must be a time."""
    with pytest.raises(OutOfRangeError):
        effective_development_s(time_s, FULL, ACID, **HANDLING)


def test_handling_that_eats_the_time() -> None:
    """A time that is all pour and drain is refused, before and after converting."""
    with pytest.raises(OutOfRangeError, match="nothing_left"):
        effective_development_s(20.0, ClockRule.POUR_TO_DRAINED, ACID, **HANDLING)
    with pytest.raises(OutOfRangeError, match="nothing_left"):
        convert_clock_s(12.0, FULL, FULL, ACID, WATER, **HANDLING)
    with pytest.raises(OutOfRangeError, match="handling_negative"):
        effective_development_s(420.0, FULL, ACID, pour_s=-1.0, drain_s=0.0, stop_pour_s=0.0)
