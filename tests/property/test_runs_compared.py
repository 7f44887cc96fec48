"""What holds for any two runs side by side, and for whatever two devices told of one."""

from __future__ import annotations

from math import fsum, isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.fixtures.run_sample import BATHS, FIRST, desk, drum, planned, script_of

from wetside.development.ways import Way
from wetside.planning.documents.evening import Process
from wetside.planning.documents.words import VesselKind
from wetside.runs import commands as c
from wetside.runs.compared import Run, compare
from wetside.runs.events import Device, Done, Opened, TakenBack, Where, facts_of_events
from wetside.runs.fold import fold
from wetside.runs.known import Known
from wetside.runs.script import Pause
from wetside.runs.settling import open_questions
from wetside.values.conditions import ClockRule

NUMBERS = st.floats(0.1, 3.0)
KNOWN = st.builds(
    Known,
    process=st.sampled_from([None, "drum", "tray"]),
    process_version=st.sampled_from([None, 1, 2]),
    way=st.sampled_from([None, Way.ONE_BATH, Way.REUSED, Way.STAND]),
    vessel_kept=st.booleans(),
    checked_high_c=st.none() | st.floats(-1.0, 1.0),
    lots=st.sampled_from([None, ("A 1",), ("B 7",)]),
    reuse_factor=st.sampled_from([None, 1.0, 1.1, 1.4]),
    own_time_s=st.none() | st.floats(300.0, 900.0),
    measured_range=st.none() | st.floats(0.6, 1.6),
)


@st.composite
def runs(draw):
    """A run with any script, told late or early, read or not."""
    baths = BATHS if draw(st.booleans()) else BATHS[1:]
    process = Process(name="any", developer="Brackwater", baths=baths, clock=draw(st.sampled_from(ClockRule)))
    script = script_of(
        process,
        drum(draw(st.integers(0, 25)), draw(st.integers(0, 25))),
        float(draw(st.integers(300, 1200))),
        per_c=draw(st.sampled_from([None, 0.08, 0.097])),
        dark=False,
    )._replace(
        temp_c=draw(st.floats(18.0, 22.0)),
        vessel=draw(st.sampled_from(["", "drum", "tray"])),
        vessel_kind=draw(st.sampled_from(VesselKind)).value,
        thermometer=draw(st.sampled_from(["glass", "red"])),
        reads_high_c=draw(st.sampled_from([0.0, 0.4])),
        developer=draw(st.sampled_from(["Brackwater", "Marrow"])),
        volume_ml=draw(st.sampled_from([0.0, 300.0, 500.0])),
        concentrate_ml=draw(st.sampled_from([0.0, 20.0, 60.0])),
        agent_ratio=draw(st.sampled_from([None, 0.6, 1.0, 1.5])),
    )
    one = desk(script, retired=tuple(Pause))
    develop = 2 if baths is BATHS else 1
    full_s = 180.0 + draw(st.floats(0.0, 60.0))
    one.tell(full_s, f"{develop}.full")
    if draw(st.booleans()):
        one.do(full_s + 60.0, c.Reading(draw(st.floats(18.0, 22.0)), draw(st.sampled_from(Where))))
    if draw(st.booleans()):
        one.tell(full_s + script.time_s + draw(st.floats(30.0, 90.0)), f"{develop + 1}.full")
    return Run(one.conduct.state(), 20_000.0, draw(KNOWN))


@settings(max_examples=120, deadline=None)
@given(runs(), runs())
def test_a_swap_turns_every_sign_and_nothing_else(one: Run, other: Run) -> None:
    """Same rows, same order of size, same spread; every figure with the other sign, every value on the other side."""
    there, back = compare(one, other), compare(other, one)
    turned = {row.difference.kind: row for row in back.ranked}
    assert [row.difference.kind for row in there.ranked] == [row.difference.kind for row in back.ranked] or len(
        {round(abs(row.difference.share or 0.0), 9) for row in there.ranked}
    ) < len(there.ranked)
    for row in there.ranked:
        same = turned.pop(row.difference.kind)
        assert same.difference.share == pytest.approx(-(row.difference.share or 0.0), abs=1e-12)
        assert same.difference.spread == pytest.approx(row.difference.spread, rel=1e-9)
        assert same.difference.backing is row.difference.backing
        assert (same.difference.one, same.difference.other) == (row.difference.other, row.difference.one)
        if row.worth is not None:
            assert same.worth is not None
            assert same.worth.density == pytest.approx(-row.worth.density, abs=1e-12)
            assert same.worth.zones == pytest.approx(-row.worth.zones, abs=1e-12)
    assert turned == {}
    assert [(row.kind, row.one, row.other) for row in there.listed] == [
        (row.kind, row.other, row.one) for row in back.listed
    ]
    assert back.share == pytest.approx(-there.share, abs=1e-12)
    assert back.spread == pytest.approx(there.spread)
    assert (back.direct, back.reference_range) == (there.direct, pytest.approx(there.reference_range))
    flipped = {(not fact.first, fact.note.code) for fact in back.missing}
    assert flipped == {(fact.first, fact.note.code) for fact in there.missing}


@settings(max_examples=80, deadline=None)
@given(runs(), runs())
def test_the_rows_add_up(one: Run, other: Run) -> None:
    """The sum's density is that of its rows; every figure is finite; the spread is never below two equal runs'."""
    found = compare(one, other)
    assert isfinite(found.share)
    assert found.spread >= found.noise.density_spread / found.reference_range / 0.65 - 1e-12
    if found.worth is not None and all(row.worth is not None for row in found.ranked):
        assert found.worth.density == pytest.approx(fsum(row.worth.density for row in found.ranked if row.worth))


@settings(max_examples=60, deadline=None)
@given(runs())
def test_a_run_beside_itself_differs_in_nothing(one: Run) -> None:
    """No figure but 0, and nothing listed but what nobody knows of either."""
    found = compare(one, one)
    assert all(abs(row.difference.share or 0.0) < 1e-12 for row in found.ranked)
    assert found.share == pytest.approx(0.0, abs=1e-12)


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(["2.full", "2.drain", "3.full", "4.full"]), st.floats(0, 2000)), max_size=12))
def test_every_question_that_is_offered_is_settled_by_what_is_offered(told) -> None:
    """Whatever two devices told: leaving a fact out, or counting it instead, leaves fewer questions."""
    facts = list(facts_of_events([Opened(planned(), retired=tuple(Pause))], FIRST.at(0.0), Device("one", 1)))
    for number, (act, at_s) in enumerate(told, 1):
        device = Device(("one", "other")[number % 2], number + 1)
        facts += facts_of_events([Done(act)], FIRST.at(at_s), device)
    state = fold(facts)
    before = {one.name for one in state.contested}
    assert {one.told.name for one in open_questions(facts, state)} == before
    for question in open_questions(facts, state):
        ways = [[question.told.name]] if question.may_go else []
        ways += [[rival.name for rival in question.rivals]] if question.may_count else []
        for names in ways:
            settled = facts_of_events([TakenBack(*name) for name in names], FIRST.at(3000.0), Device("person", 1))
            left = {one.name for one in fold([*facts, *settled]).contested}
            assert question.told.name not in left
            if names != [question.told.name]:
                assert left < before
