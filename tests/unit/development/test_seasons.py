"""Three ways out of a bath at the wrong temperature."""

from __future__ import annotations

import pytest

from wetside.development import (
    GENERAL_COEFFICIENT,
    SeasonalWay,
    TimePair,
    coefficient_of_pairs,
    named_coefficient,
    published_rules_span,
    short_rule_factor,
    ways_out,
)
from wetside.errors import WetsideError
from wetside.values.conditions import Agitation
from wetside.values.evidence import Evidence, Sourced

TIME = Sourced(600.0, Evidence.PUBLISHED)
OWN = coefficient_of_pairs([TimePair(20, 570, 24, 480, cold_soft_s=15, warm_soft_s=15)])


def codes(way) -> list[str]:
    return [remark.code.rpartition(".")[2] for remark in way.remarks]


def test_the_three_ways() -> None:
    """Tempering keeps the time and tells the degrees; another time is closed outside the span; dilution is untested."""
    temper, time, dilute = ways_out(TIME, 20, 26, OWN)
    assert (temper.way, temper.degrees_c, temper.time) == (SeasonalWay.TEMPER, -6.0, TIME)
    assert not time.is_open
    assert codes(time) == ["outside_span"]
    assert not dilute.is_open
    assert codes(dilute) == ["dilution_untested"]


def test_inside_the_span_the_time_moves_with_its_evidence() -> None:
    """A changed time is converted and carries the coefficient's spread."""
    time = ways_out(TIME, 20, 23, OWN)[1]
    assert time.is_open
    assert time.time.evidence is Evidence.CONVERTED
    assert time.time.value < 600
    assert time.time.spread > 0


def test_a_named_coefficient_opens_the_way_as_assumed() -> None:
    """Outside every pair only a person's own word counts, and is assumed."""
    time = ways_out(TIME, 20, 26, named_coefficient(0.097))[1]
    assert time.time.evidence is Evidence.ASSUMED
    assert time.floor.below is False


def test_a_time_under_the_floor_is_said() -> None:
    """Below the floor the share of pour and drain is told."""
    time = ways_out(TIME, 20, 28, named_coefficient(0.097))[1]
    assert time.is_open
    assert time.floor.below
    assert time.remarks[-1].params["floor_s"] == pytest.approx(300)
    assert codes(time) == ["below_floor"]


def test_hydroquinone_closes_the_cold_way() -> None:
    """Under 15 C with hydroquinone no time is converted, even by a named coefficient."""
    assert codes(ways_out(TIME, 20, 14, named_coefficient(0.09), hydroquinone=True)[1]) == ["character"]
    assert ways_out(TIME, 20, 14, named_coefficient(0.09), hydroquinone=False)[1].is_open


def test_a_long_time_in_rotation_is_said() -> None:
    """A cold bath makes a long time, which fogs in rotation and not in a still tank."""
    time = ways_out(TIME, 20, 13, named_coefficient(0.12), agitation=Agitation.ROTARY)[1]
    assert codes(time) == ["too_long"]
    assert codes(ways_out(TIME, 20, 13, named_coefficient(0.12), agitation=Agitation.INTERMITTENT)[1]) == []


def test_only_a_tested_dilution_opens_its_way() -> None:
    """A tested or published time opens it and asks for the agent again; a converted one does not."""
    tested = Sourced(780.0, Evidence.TESTED)
    way = ways_out(TIME, 20, 26, OWN, tested_dilution=tested)[2]
    assert way.time == tested
    assert codes(way) == ["dilution_agent"]
    converted = Sourced(780.0, Evidence.CONVERTED)
    assert not ways_out(TIME, 20, 26, OWN, tested_dilution=converted)[2].is_open


def test_nothing_changes_at_the_right_temperature() -> None:
    """At the time's own temperature the time keeps its evidence, whatever the span."""
    time = ways_out(TIME, 30, 30, OWN)[1]
    assert time.time.value == 600
    assert time.time.evidence is Evidence.PUBLISHED


def test_rules_disagree_and_some_end() -> None:
    """The added rule leaves nothing after ten degrees, and then says nothing."""
    span = published_rules_span(600, 20, 31, own=[OWN])
    assert [one.time_s is None for one in span.times] == [False, False, True, False]
    assert span.low_s < span.high_s
    with pytest.raises(WetsideError) as caught:
        short_rule_factor(20, 30)
    assert caught.value.code == "development.seasons.rule_ends"


@pytest.mark.parametrize(
    ("call", "code"),
    [
        (lambda: ways_out(Sourced(0.0, Evidence.TESTED), 20, 24, OWN), "seasons.time_not_positive"),
        (lambda: ways_out(TIME, 20, 120, OWN), "temperature.not_liquid"),
        (lambda: short_rule_factor(20, 21, per_c=0), "seasons.rule_not_positive"),
        (lambda: short_rule_factor(20, 21, per_c=1.5, compound=True), "seasons.rule_ends"),
        (lambda: published_rules_span(0, 20, 21), "seasons.time_not_positive"),
    ],
)
def test_what_cannot_be_is_refused(call, code: str) -> None:
    """Impossible times and temperatures carry their code."""
    with pytest.raises(WetsideError) as caught:
        call()
    assert caught.value.code == f"development.{code}"


def test_the_general_chart_is_only_assumed() -> None:
    """A developer of which nothing is known moves by the general chart, assumed."""
    assert ways_out(TIME, 20, 22, GENERAL_COEFFICIENT)[1].time.evidence is Evidence.ASSUMED
