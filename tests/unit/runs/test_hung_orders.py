"""Two devices tell which sheet hangs where: who saw the other's word corrects it, what nobody saw a person settles."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import pytest
from tests.fixtures.run_sample import FIRST, Machine, desk, planned

from wetside.runs import commands as c
from wetside.runs.events import Device, Identified, Lost, TakenBack, event_of_fact, facts_of_events
from wetside.runs.fold import fold
from wetside.runs.script import Pause
from wetside.runs.settling import left_out, open_questions

PHONE = Machine("phone", 50.0, -300.0)
"""Its wall clock is five minutes slow."""
AB, BA, BC = ("1 left", "2 left"), ("2 left", "1 left"), ("2 left", "3 left")


@pytest.fixture
def begun():
    one = desk(planned(), retired=tuple(Pause))
    for at_s, key in ((10.0, "dark.out"), (20.0, "dark.on"), (200.0, "2.full"), (3000.0, "hang")):
        one.tell(at_s, key)
    return one


def told(device, number, at_s, order, knew=(), machine=FIRST):
    return facts_of_events([Identified(order, knew)], machine.at(at_s), Device(device, number))[0]


def without(facts, names):
    gone = facts_of_events([TakenBack(*name) for name in names], FIRST.at(9000.0), Device("person", 1))
    return (*facts, *gone)


def test_a_second_order_by_somebody_who_had_not_seen_the_first_is_contested(begun) -> None:
    """The first counts, the other stands against it; either can be made to count, by one act."""
    facts = (*begun.conduct.facts, told("desk", 1, 3100.0, AB), told("phone", 1, 3110.0, BA))
    state = fold(facts)
    assert (state.order, [one.order for one in state.hung_otherwise]) == (AB, [BA])
    (asked,) = open_questions(facts, state)
    assert (asked.told.order, asked.rivals[0].order, asked.may_count) == (BA, AB, True)
    assert asked.code == "runs.contested.hung_otherwise"
    for names, order in ((asked.against, BA), (asked.itself, AB)):
        settled = fold(without(facts, names))
        assert (settled.order, settled.contested) == (order, ())
        (left,) = left_out(without(facts, names), settled)
        again = fold(
            (*without(facts, names), *facts_of_events([TakenBack(*left.by)], FIRST.at(9100.0), Device("p", 1)))
        )
        assert (again.order, len(again.contested)) == (AB, 1)


def test_who_had_seen_the_first_corrects_it(begun) -> None:
    """Also where the clock of the second device is slow, so that its word seems the earlier one; taken back, the first
    counts again.
    """
    one, other = told("desk", 1, 3100.0, AB), told("phone", 1, 3200.0, BA, (("desk", 1),), PHONE)
    for facts in ((one, other), (other, one)):
        state = fold((*begun.conduct.facts, *facts))
        assert (state.order, state.contested) == (BA, ())
        assert fold(without((*begun.conduct.facts, *facts), [("phone", 1)])).order == AB


def test_a_command_knows_what_its_log_knows_unless_it_says_less(begun) -> None:
    """A person at the run corrects; a page that was loaded before the first order says that it had seen none."""
    begun.do(3100.0, c.Identify(AB))
    begun.do(3200.0, c.Identify(BA))
    assert (begun.conduct.state().order, begun.conduct.state().contested) == (BA, ())
    begun.do(3300.0, c.Identify(None, ()))
    state = begun.conduct.state()
    assert (state.order, [one.order for one in state.hung_otherwise]) == (BA, [None])
    begun.do(3400.0, c.Identify(BC))
    assert (begun.conduct.state().order, begun.conduct.state().contested) == (BC, ())


def test_the_same_order_twice_is_no_question(begun) -> None:
    """Nor one that only still names a sheet that was told lost meanwhile."""
    facts = (*begun.conduct.facts, told("desk", 1, 3100.0, AB), told("phone", 1, 3110.0, AB))
    assert (fold(facts).order, fold(facts).contested) == (AB, ())
    lost = facts_of_events([Lost("1 left")], FIRST.at(3120.0), Device("desk", 2))[0]
    facts = (*begun.conduct.facts, told("desk", 1, 3100.0, AB), lost, told("phone", 1, 3130.0, ("2 left",)))
    assert fold(facts).contested == ()


def test_two_that_agree_against_the_first_are_one_question(begun) -> None:
    """One act leaves both out, or counts both."""
    facts = (*begun.conduct.facts, *(told(name, 1, 3100.0, order) for name, order in (("a", AB), ("b", BA), ("c", BA))))
    (asked,) = open_questions(facts, fold(facts))
    assert asked.itself == (("b", 1), ("c", 1))
    for names, order in ((asked.against, BA), (asked.itself, AB)):
        assert (fold(without(facts, names)).order, fold(without(facts, names)).contested) == (order, ())


def test_not_known_stands_against_an_order(begun) -> None:
    """Whoever says that nobody can tell speaks against whoever told, and may be the one who is right."""
    facts = (*begun.conduct.facts, told("desk", 1, 3100.0, AB), told("phone", 1, 3110.0, None))
    (asked,) = open_questions(facts, fold(facts))
    settled = fold(without(facts, asked.against))
    assert (settled.identified, settled.order, settled.contested) == (True, None, ())


def test_settling_does_not_bring_back_what_was_corrected_long_ago(begun) -> None:
    """Each device corrected itself once, blind of the other: one act settles it, whichever way."""
    facts = (
        *begun.conduct.facts,
        told("desk", 1, 3100.0, BC),
        told("phone", 1, 3105.0, ("3 left", "1 left")),
        told("desk", 2, 3110.0, AB, (("desk", 1),)),
        told("phone", 2, 3120.0, BA, (("phone", 1),)),
    )
    (asked,) = open_questions(facts, fold(facts))
    assert (asked.told.order, [rival.order for rival in asked.rivals]) == (BA, [AB])
    for names, order in ((asked.against, BA), (asked.itself, AB)):
        settled = fold(without(facts, names))
        assert (settled.order, settled.contested) == (order, ())


def test_three_devices_are_settled_one_after_the_other_or_at_once(begun) -> None:
    """That the first is right settles one question; that the third is right settles both."""
    facts = (*begun.conduct.facts, *(told(name, 1, 3100.0, order) for name, order in (("a", AB), ("b", BA), ("c", BC))))
    second, third = open_questions(facts, fold(facts))
    assert fold(without(facts, second.itself)).contested[0].name == ("c", 1)
    settled = fold(without(facts, third.against))
    assert (settled.order, settled.contested) == (BC, ())


def test_who_claims_to_have_seen_each_other_raises_nothing(begun) -> None:
    """Nobody can have told so; the last counts, in whatever order they arrive."""
    pair = (told("a", 1, 3100.0, AB, (("b", 1), ("a", 1))), told("b", 1, 3110.0, BA, (("a", 1), ("nobody", 9))))
    for facts in permutations(pair):
        state = fold((*begun.conduct.facts, *facts))
        assert (state.order, state.contested) == (BA, ())


@pytest.mark.parametrize(
    "knew", ["desk 1", [["desk"]], [["desk", "1"]], [["desk", 1, 2]], [[1, 1]], [1], {}, [["desk", True]]]
)
def test_damaged_names_are_kept_and_change_nothing(begun, knew) -> None:
    """What cannot be read is contested, never an error."""
    fact = told("desk", 1, 3100.0, AB)
    state = fold((*begun.conduct.facts, replace(fact, data={**fact.data, "knew": knew})))
    assert (state.identified, [one.code for one in state.contested]) == (False, ["runs.event.data"])


def test_what_was_known_comes_back_from_its_data() -> None:
    """Also of nobody, and of the first form."""
    for knew in ((), (("desk", 1), ("server-3f", 20)), None):
        assert event_of_fact(told("phone", 1, 3100.0, AB, knew)) == Identified(AB, knew)
