"""Facts that speak against each other: what stands against which, and what settles it."""

from __future__ import annotations

import pytest
from tests.fixtures.run_sample import FIRST, desk, planned

from wetside.runs.events import Device, Done, Identified, Lost, TakenBack, facts_of_events
from wetside.runs.fold import fold
from wetside.runs.script import Pause
from wetside.runs.settling import open_questions


def run_of_two():
    """Developer full at 200 s by the terminal, and at 207 s by a telephone."""
    one = desk(planned(), retired=tuple(Pause))
    one.tell(10.0, "dark.out")
    one.tell(20.0, "dark.on")
    one.tell(200.0, "2.full")
    other = facts_of_events([Done("2.full")], FIRST.at(207.0), Device("phone", 1))
    one.conduct.hand_over(other)
    return one.conduct


def taken_back(conduct, names):
    facts = facts_of_events([TakenBack(*name) for name in names], FIRST.at(900.0), Device("person", 1))
    return fold([*conduct.facts, *facts])


def test_two_devices_told_the_same_act() -> None:
    """The first counts, the second stands against it; either may be left out, and both stay."""
    conduct = run_of_two()
    state = conduct.state()
    (found,) = open_questions(conduct.facts, state)
    assert (found.told.name, found.told.act, found.told.at_s) == (("phone", 1), "2.full", pytest.approx(207.0))
    assert [rival.at_s for rival in found.rivals] == [pytest.approx(200.0)]
    assert (found.may_count, found.may_go, found.code) == (True, True, "runs.contested.again")
    right = taken_back(conduct, [found.told.name])
    assert (right.contested, right.stamps["2.full"].at_s) == ((), pytest.approx(200.0))
    other = taken_back(conduct, [rival.name for rival in found.rivals])
    assert (other.contested, other.stamps["2.full"].at_s) == ((), pytest.approx(207.0))
    assert {fact.name for fact in conduct.facts} >= {("phone", 1), found.rivals[0].name}


def test_an_act_that_was_told_for_before_another() -> None:
    """A stop at 150 s against a developer that was full at 200 s: it counts only if the developer does not."""
    one = desk(planned(), retired=tuple(Pause))
    one.tell(10.0, "dark.out")
    one.tell(20.0, "dark.on")
    one.tell(200.0, "2.full")
    one.conduct.hand_over(facts_of_events([Done("3.full", ago_s=60.0)], FIRST.at(210.0), Device("phone", 1)))
    (found,) = open_questions(one.conduct.facts, one.conduct.state())
    assert [rival.act for rival in found.rivals] == ["2.full"]
    assert found.code in ("runs.contested.before", "runs.contested.passed")
    assert found.may_count


def test_facts_without_a_rival_can_be_left_out_only() -> None:
    """A sheet that is not in the run, an order that names one twice; what took nothing back changes nothing."""
    conduct = run_of_two()
    odd = [Lost("nobody"), Identified(("1 left", "1 left")), TakenBack("nobody", 7)]
    conduct.hand_over(facts_of_events(odd, FIRST.at(220.0), Device("tablet", 1)))
    found = {one.told.name: one for one in open_questions(conduct.facts, conduct.state())}
    assert [(found["tablet", number].may_count, found["tablet", number].may_go) for number in (1, 2, 3)] == [
        (False, True),
        (False, True),
        (False, False),
    ]
    left = taken_back(conduct, [("tablet", 1), ("tablet", 2)])
    assert {one.name for one in left.contested} == {("phone", 1), ("tablet", 3)}
