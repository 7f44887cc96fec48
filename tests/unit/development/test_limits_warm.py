"""Warm and cold limits, each by its source."""

from __future__ import annotations

import pytest

from wetside.adapters.ways_data import load_temperature_ranges
from wetside.development import longest_remarks, require_warm_enough, temperature_remarks
from wetside.errors import WetsideError
from wetside.values.conditions import Agitation

RANGES = [one for one in load_temperature_ranges() if one.purpose == "developing"]


def codes(remarks) -> list[str]:
    return [remark.code.removeprefix("development.") for remark in remarks]


def test_inside_all_ranges_nothing_is_said() -> None:
    """A bath at 21 C needs no remark."""
    assert temperature_remarks(21.0, RANGES, hydroquinone=True) == ()


def test_sources_that_disagree_each_speak() -> None:
    """At 25 C one source allows it with care, two name less; above 24 C the warm work begins."""
    assert codes(temperature_remarks(25.0, RANGES)) == [
        "warm.above_range",
        "warm.with_care",
        "warm.above_range",
        "warm.sulfate",
        "warm.harden",
        "warm.wet_time",
        "warm.no_colder_wash",
    ]


def test_cold_is_said_by_source_and_by_agent() -> None:
    """At 12 C every range is left, and hydroquinone hardly works unless there is none."""
    assert codes(temperature_remarks(12.0, RANGES)) == ["cold.below_range"] * 3 + ["cold.hydroquinone"]
    assert "cold.hydroquinone" not in codes(temperature_remarks(12.0, RANGES, hydroquinone=False))


def test_the_tray_has_its_own_range() -> None:
    """One sheet holds the tray within a degree."""
    (tray,) = [one for one in load_temperature_ranges() if one.purpose == "tray"]
    assert codes(temperature_remarks(22.0, [tray])) == ["warm.above_range"]


def test_conversion_ends_in_the_cold() -> None:
    """Under 15 C with hydroquinone a conversion is refused."""
    require_warm_enough(14.0, hydroquinone=False)
    require_warm_enough(15.0, hydroquinone=True)
    with pytest.raises(WetsideError) as caught:
        require_warm_enough(14.9, hydroquinone=True)
    assert caught.value.code == "development.cold.character"


def test_the_longest_time_is_for_rotation() -> None:
    """Twenty minutes are allowed, more is said, and only where air is churned in."""
    assert longest_remarks(1200, Agitation.ROTARY) == ()
    assert codes(longest_remarks(1201, Agitation.ROTARY)) == ["warm.too_long"]
    assert longest_remarks(3600, Agitation.STAND) == ()
    with pytest.raises(WetsideError) as caught:
        longest_remarks(0, Agitation.ROTARY)
    assert caught.value.code == "development.warm.time_not_positive"
