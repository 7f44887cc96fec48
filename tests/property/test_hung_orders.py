"""Two devices tell which sheet hangs where, see or do not see each other's word, and hand over in any order."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from tests.fixtures.run_sample import FIRST, Machine, planned

from wetside.runs.events import Device, Done, Identified, Opened, TakenBack, facts_of_events
from wetside.runs.fold import fold
from wetside.runs.settling import open_questions

MACHINES = {"phone": Machine("phone", 50.0, -400.0), "tablet": Machine("tablet", 9000.0, 30.0)}
ORDERS = st.sampled_from([None, ("1 left", "2 left"), ("2 left", "1 left"), ("2 left", "3 left"), ("1 left", "1 left")])
STEPS = st.lists(st.tuples(st.sampled_from(sorted(MACHINES)), st.booleans(), ORDERS, st.floats(1.0, 300.0)), max_size=8)
OPENING = facts_of_events([Opened(planned()), Done("2.full"), Done("hang")], FIRST.at(0.0), Device("terminal", 1))


def tellings(steps):
    """Facts of both devices; a step may look at what the other has told before it tells."""
    told, seen, at_s = [], {name: set() for name in MACHINES}, 3000.0
    for device, looks, order, after_s in steps:
        at_s += after_s
        if looks:
            seen[device] |= {fact.name for fact in told}
        number = 1 + sum(fact.device == device for fact in told)
        knew = tuple(sorted(seen[device]))
        made = facts_of_events([Identified(order, knew)], MACHINES[device].at(at_s), Device(device, number))[0]
        seen[device].add(made.name)
        told.append(made)
    return told


@given(STEPS, st.randoms(use_true_random=False))
def test_any_interleaving_gives_the_same_order_and_the_same_questions(steps, chance) -> None:
    """Whoever handed over first: what counts, what is asked, and what comes of each answer are the same."""
    told = tellings(steps)
    mixed = sorted(told, key=lambda _: chance.random())
    plain, other = fold([*OPENING, *told]), fold([*OPENING, *mixed])
    assert other == plain
    assert open_questions([*OPENING, *mixed], other) == open_questions([*OPENING, *told], plain)


@given(STEPS)
def test_one_act_settles_each_question_either_way(steps) -> None:
    """Counted instead, it is the order, and nothing about the order is left; left out, one question less is asked."""
    facts = [*OPENING, *tellings(steps)]
    state = fold(facts)
    for asked in open_questions(facts, state):
        if asked.code != "runs.contested.hung_otherwise":
            continue
        for names, order in ((asked.against, asked.told.order), (asked.itself, state.order)):
            gone = facts_of_events([TakenBack(*name) for name in names], FIRST.at(9000.0), Device("person", 1))
            settled = fold([*facts, *gone])
            assert settled.order == order
            assert len(settled.hung_otherwise) < len(state.hung_otherwise)
            assert names != asked.against or not settled.hung_otherwise
        assert asked.may_count


@given(STEPS)
def test_who_saw_all_that_was_told_has_the_last_word(steps) -> None:
    """A correction by somebody who saw everything leaves nothing to settle, whatever went before."""
    facts = [*OPENING, *tellings([*steps, ("phone", True, ("3 left", "1 left"), 5.0)])]
    state = fold(facts)
    assert (state.order, state.hung_otherwise) == (("3 left", "1 left"), ())
