"""What holds for any run: any process, any sequence of answers, any order in which two devices hand over."""

from __future__ import annotations

import math
import random

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.fixtures.run_sample import BATHS, FIRST, Machine, desk, drum, planned, quick, script_of

from wetside.planning.documents.evening import Bath, Process, Vessel
from wetside.planning.documents.words import BathKind, VesselKind
from wetside.planning.schedule import SheetTime
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
from wetside.runs.cues import CueKind, cues_between, shown_now
from wetside.runs.decide import decide
from wetside.runs.effects import sheet_effects
from wetside.runs.event_log import MemoryLog
from wetside.runs.events import (
    Device,
    Done,
    EndMoved,
    Incident,
    Read,
    Resumed,
    Where,
    Why,
    data_of_event,
    event_of_fact,
    facts_of_events,
)
from wetside.runs.fold import fold
from wetside.runs.load_check import used_liquids
from wetside.runs.schedule import How, schedule_at
from wetside.runs.script import Pause, bath_number, developing_baths, pause_points
from wetside.runs.script_data import data_of_script, script_of_data
from wetside.runs.simulator import Person, Sink, simulate
from wetside.runs.state import Status
from wetside.values.conditions import ClockRule

KINDS = st.sampled_from([kind for kind in BathKind if kind is not BathKind.DEVELOP])


@st.composite
def processes(draw):
    """A free list of baths with one to three developing ones anywhere in it, in a drum with any pour and drain."""
    before = draw(st.lists(KINDS, max_size=2))
    after = draw(st.lists(KINDS, min_size=1, max_size=4))
    between = [draw(st.lists(KINDS, max_size=1)) for _ in range(draw(st.integers(0, 2)))]
    kinds = [*before, BathKind.DEVELOP]
    for some in between:
        kinds += [*some, BathKind.DEVELOP]
    baths = tuple(
        Bath(does=kind, time_s=None if kind is BathKind.DEVELOP else draw(st.integers(20, 600)), changes=1)
        for kind in (*kinds, *after)
    )
    clock = draw(st.sampled_from(ClockRule))
    vessel = drum(draw(st.integers(0, 30)), draw(st.integers(0, 30)))
    return script_of(
        Process(name="any", developer="Brackwater", baths=baths, clock=clock),
        vessel,
        float(draw(st.integers(300, 1800))),
        dark=draw(st.booleans()),
    )


COMMANDS = st.one_of(
    st.just(c.Tell()),
    st.just(c.Tell(on_time=True)),
    st.just(c.TakeBack()),
    st.builds(c.Tell, st.sampled_from([act.key for act in planned().acts]), st.floats(0, 100)),
    st.builds(c.Reading, st.floats(15, 25), st.sampled_from(Where)),
    st.builds(c.Lose, st.sampled_from(["1 left", "2 left", "nobody", None])),
    st.builds(c.Retire, st.sampled_from(Pause)),
    st.builds(c.Look, st.floats(-60, 60)),
    st.builds(c.Incidence, st.sampled_from(Incident), st.floats(0, 50)),
    st.builds(c.Identify, st.sampled_from([None, ("1 left",), ("2 left", "1 left")])),
    st.just(c.Resume()),
)
STEPS = st.lists(st.tuples(st.floats(0.5, 400.0), COMMANDS), max_size=25)


@given(processes())
def test_nothing_waits_between_drum_full_and_stop_in(script) -> None:
    """Whatever the baths are: with every pause kept and no answer, time runs from the first developer to the stop."""
    developing = developing_baths(script)
    for key in pause_points(script).values():
        number = bath_number(key)
        assert number < developing[0] or number > developing[-1] or (number == developing[0] and key.endswith(".pour"))
    first_full = f"{developing[0]}.full"
    facts = facts_of_events((c_open(script), Done(first_full)), FIRST.at(0.0), Device("t", 1))
    state = fold(facts)
    dues = schedule_at(state, 1.0).dues
    inside = [due for due in dues if developing[0] <= bath_number(due.act.key) <= developing[-1]]
    assert all(
        due.due_s is not None and due.how is not How.WAITS for due in inside if not due.act.key.endswith(".pour")
    )
    stop = next((due for due in dues if due.act.key == f"{developing[-1] + 1}.full"), None)
    assert stop is None or stop.due_s is not None
    assert all(not math.isnan(due.due_s) for due in dues if due.due_s is not None)


def c_open(script):
    from wetside.runs.events import Opened

    return Opened(script)


@given(processes())
def test_a_script_comes_back_from_its_data(script) -> None:
    """What stands in the first fact is the whole script."""
    assert script_of_data(data_of_script(script)) == script


@given(STEPS)
@settings(max_examples=80)
def test_any_sequence_and_any_prefix_folds(steps) -> None:
    """Replay changes nothing; decide never gives what apply rejects; no shown number is anything but a number."""
    run = desk(planned())
    now_s = 0.0
    for after_s, command in steps:
        now_s += after_s
        known = run.conduct.state()
        decision = decide(known, command, FIRST.at(now_s))
        run.do(now_s, command)
        state = run.conduct.state()
        fresh = {fact.name for fact in run.conduct.facts[len(run.conduct.facts) - len(decision.events) :]}
        assert not [one for one in state.contested if one.name in fresh], (command, state.contested)
        shown = shown_now(state, now_s)
        assert shown.in_s is None or math.isfinite(shown.in_s)
        for effect in sheet_effects(state, schedule_at(state, now_s)):
            assert math.isfinite(effect.actual_s)
            assert effect.least_s <= effect.actual_s + 1e-6
            assert effect.actual_s <= effect.most_s + 1e-6
    facts = run.conduct.facts
    whole = fold(facts)
    assert fold(facts) == whole
    assert fold([*facts, *facts]) == whole
    for length in range(len(facts) + 1):
        prefix = fold(facts[:length])
        assert prefix.script is None or schedule_at(prefix, now_s).dues
    for fact in facts:
        assert data_of_event(event_of_fact(fact)) == fact.data


OBSERVED = st.lists(
    st.tuples(
        st.floats(1.0, 900.0),
        st.one_of(
            st.builds(Done, st.sampled_from(["1.full", "1.drain", "2.full", "3.full", "hang"]), st.floats(0.0, 5.0)),
            st.builds(Read, st.floats(15.0, 25.0), st.sampled_from(Where), st.just(0.0), st.just("glass")),
            st.builds(EndMoved, st.just("1.drain"), st.floats(-30.0, 60.0), st.sampled_from(Why)),
            st.builds(Resumed, st.just(0.0)),
        ),
    ),
    max_size=8,
)


def outbox(device: str, machine: Machine, observed):
    ordered = sorted(observed, key=lambda one: one[0])
    return [
        facts_of_events((event,), machine.at(at_s), Device(device, number))[0]
        for number, (at_s, event) in enumerate(ordered, 1)
    ]


@given(OBSERVED, OBSERVED, st.randoms(use_true_random=False))
def test_any_interleaving_of_two_outboxes_gives_the_same_run(first, second, order) -> None:
    """The same set of events and the same effective development, in whatever order two devices hand over."""
    opened = facts_of_events((c_open(quick()),), FIRST.at(0.0), Device("terminal", 1))
    one = outbox("phone", Machine("phone", 50.0, 1.5), first)
    two = outbox("tablet", Machine("tablet", 9000.0, -0.4), second)

    def handed_over(mixed):
        run = desk()
        run.conduct.hand_over(opened)
        for fact in mixed:
            run.conduct.hand_over([fact])
            run.conduct.hand_over([fact])  # handed over twice, taken once
        return run.conduct

    mixed, left, right = [], list(one), list(two)
    while left or right:
        source = left if left and (not right or order.random() < 0.5) else right
        mixed.append(source.pop(0))
    plain, other = handed_over([*one, *two]), handed_over(mixed)
    assert {fact.name for fact in plain.facts} == {fact.name for fact in other.facts}
    assert len(plain.facts) == len(other.facts) == 1 + len(one) + len(two)
    states = [conduct.state() for conduct in (plain, other)]
    assert states[0]._replace(contested=()) == states[1]._replace(contested=())
    assert sorted(states[0].contested) == sorted(states[1].contested)
    effects = [sheet_effects(state, schedule_at(state, 1000.0)) for state in states]
    assert effects[0] == effects[1]


@given(st.integers(0, 10_000), st.booleans(), st.sampled_from([None, 40.0, 200.0, 480.0]), st.booleans())
@settings(max_examples=12)
def test_a_simulated_photographer_always_gets_to_the_end(seed, rehearsal, cut_s, careless) -> None:
    """Delays, forgotten and doubled answers, a power cut: the run ends, nothing is contested, water is not booked."""
    conduct = Conduct(MemoryLog(), "run", "terminal")
    person = Person(forgets=0.3, doubles=0.4, scatter_s=5.0) if careless else Person()
    sink = Sink(jacket_off_c=-0.8, cut_from_s=cut_s, cut_to_s=None if cut_s is None else cut_s + 130.0)
    happened = list(
        simulate(conduct, planned(), random.Random(seed), FIRST.at(0.0), person=person, sink=sink, rehearsal=rehearsal)
    )
    state = conduct.state()
    assert state.status is Status.ENDED
    assert not state.contested
    assert bool(used_liquids(state, 1e5)) is not rehearsal
    assert {one.cue.kind for one in happened if one.cue} >= {CueKind.PROMPT, CueKind.COUNT, CueKind.NOW}
    at = [one.at_s for one in happened if one.cue]
    assert at == sorted(at)


@given(st.integers(2, 8), st.integers(5, 40), st.data())
@settings(max_examples=30)
def test_sheets_in_a_tray_keep_their_own_times(count, spacing_s, data) -> None:
    """A late entry moves that sheet's lift and no other's; each sheet is told its own development."""
    times = [
        SheetTime(f"{number} left", 300.0 + 15.0 * data.draw(st.integers(0, 20))) for number in range(1, count + 1)
    ]
    vessel = Vessel(
        name="tray", kind=VesselKind.TRAY, places=(("any", 8),), min_ml=1000.0, max_ml=2000.0, pour_s=0.0, drain_s=10.0,
        spacing_s=float(spacing_s),
    )  # fmt: skip
    sheets = tuple(planned().sheets[0]._replace(id=one.id) for one in times)
    process = Process(name="tray", developer="Brackwater", baths=BATHS[1:])
    run = desk(script_of(process, vessel, 400.0, sheets, own_times=times, dark=False), retired=tuple(Pause))
    first = schedule_at(run.conduct.state(), 1.0)
    second = first.of("1.in.2")
    late_s = data.draw(st.floats(1.0, 4.0))
    assert run.tell((second.due_s or 0.0) + late_s, "1.in.2").refusal is None
    after = schedule_at(run.conduct.state(), (second.due_s or 0.0) + late_s)
    for due in first.dues:
        if due.act.does == "lift" and due.act.sheet != second.act.sheet:
            assert after.of(due.act.key).due_s == due.due_s
    assert sorted(effect.sheet for effect in sheet_effects(run.conduct.state(), after)) == sorted(
        one.id for one in times
    )
    for effect in sheet_effects(run.conduct.state(), after):
        assert effect.actual_s == effect.planned_s


@given(st.floats(0.0, 2000.0), st.floats(1.0, 600.0))
def test_cues_of_two_stretches_are_those_of_one(since_s, lasts_s) -> None:
    """Asking twice gives each cue once."""
    run = desk(quick(), retired=tuple(Pause))
    state = run.conduct.state()
    middle_s, until_s = since_s + lasts_s / 3.0, since_s + lasts_s
    parts = (*cues_between(state, since_s, middle_s), *cues_between(state, middle_s, until_s))
    assert list(parts) == list(cues_between(state, since_s, until_s))


def test_every_prompt_of_a_pour_or_drain_comes_thirty_to_forty_seconds_ahead_where_hands_are_free() -> None:
    """The prompt for the drain of the developer comes 35 s ahead and names the stop's bottle."""
    run = desk(planned(), retired=tuple(Pause))
    run.tell(20.0, "2.full")
    state = run.conduct.state()
    drain_s = schedule_at(state, 21.0).of("2.drain").due_s
    prompt = next(
        cue for cue in cues_between(state, 21.0, 600.0) if cue.act == "2.drain" and cue.kind is CueKind.PROMPT
    )
    assert 30.0 <= drain_s - prompt.at_s <= 40.0
    assert prompt.params["then_bottle"] == "S"
