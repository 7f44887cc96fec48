"""Stop bath by count and in words."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.errors import OutOfRangeError
from wetside.values.conditions import StopKind
from wetside.wording import sentence


def codes(notes):
    return [code for code, _ in notes]


def test_count_and_indicator_each_end_a_bath():
    """Either is enough; a bath used once is discarded anyway."""
    assert chemistry.judge_stop(1.0).action == "discard"
    assert chemistry.judge_stop(0.2, indicator_turned=True).action == "discard"
    assert chemistry.judge_stop(0.2, indicator_turned=False).action == "keep"
    assert chemistry.judge_stop(0.2, reused=False).action == "discard"
    with pytest.raises(OutOfRangeError):
        chemistry.judge_stop(-0.1)


def test_nobody_has_to_see_a_colour():
    """Without an indicator reading the count is told, and the indicator's own sentence names light and dark."""
    assert codes(chemistry.judge_stop(0.2).notes) == ["chemistry.stop.by_count"]
    said = sentence("chemistry.stop.indicator_turned", {}, ())
    assert "light to dark" in said


def test_water_stops_slowly_and_is_told():
    """Half a minute against a quarter; too short a rinse is named."""
    assert chemistry.stop_halting_s(StopKind.WATER) > chemistry.stop_halting_s(StopKind.ACID)
    assert codes(chemistry.stop_notes(StopKind.WATER, 20.0)) == ["chemistry.stop.water", "chemistry.stop.short"]
    assert codes(chemistry.stop_notes(StopKind.WATER, 30.0)) == ["chemistry.stop.water"]


def test_an_acid_stop_is_told_when_short_cold_or_after_carbonate():
    """10 s, 18 to 24 degrees, pinholes; a plain one says nothing."""
    assert chemistry.stop_notes(StopKind.ACID, 10.0, 20.0) == ()
    notes = chemistry.stop_notes(StopKind.ACID, 9.0, 27.0, carbonate_developer=True)
    assert codes(notes) == ["chemistry.stop.short", "chemistry.stop.temperature", "chemistry.stop.pinholes"]


def test_what_is_left_never_goes_below_nothing():
    """A spent bath takes no more film."""
    assert chemistry.stop_capacity_left_cm2([516.128 * 20], 1000.0) == 0.0
    assert chemistry.stop_capacity_left_cm2([], 1000.0) == pytest.approx(15 * 516.128)
