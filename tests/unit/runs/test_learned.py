"""What runs teach of a vessel: worked by hand, and found again in simulated runs; refused where they do not agree."""

from __future__ import annotations

import random
from math import exp

import pytest
from tests.fixtures.run_sample import FIRST, desk, drum, planned, quick, script_of

from wetside.planning.documents.evening import Process, Vessel
from wetside.planning.documents.words import VesselKind
from wetside.planning.schedule import SheetTime
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
from wetside.runs.event_log import MemoryLog
from wetside.runs.events import Where
from wetside.runs.learned import lesson_of, shown_by_run, tau_of_gaps
from wetside.runs.schedule import schedule_at
from wetside.runs.simulator import Person, Sink, simulate


def shown(desk_):
    state = desk_.conduct.state()
    return shown_by_run(state, schedule_at(state, state.known_s))


def told(script, *acts, hung=4000.0, **more):
    """A run in which these acts were told at these times, and hanging at the end."""
    made = desk(script, **more)
    for act, when in acts:
        made.tell(when, act)
    made.tell(hung, "hang")
    return made


def test_pour_and_drain_are_taken_as_told() -> None:
    """Drain of the developer at 8:00 after full, stop poured 14 s later and full 12 s after that."""
    run = told(quick(480.0), ("1.full", 10.0), ("1.drain", 490.0), ("2.pour", 504.0), ("2.full", 516.0))
    found = shown(run)
    assert (found.pour_s, found.drain_s) == (12.0, 14.0)


def test_full_alone_shows_both_together() -> None:
    """Stated 10 and 15 s; from the drain's word at 8:10 to full at 8:45 are 35 s: 14 and 21 in the stated shares."""
    run = told(quick(480.0), ("1.full", 10.0), ("2.full", 525.0))
    found = shown(run)
    assert found.pour_s == pytest.approx(14.0)
    assert found.drain_s == pytest.approx(21.0)


def test_one_told_apart_leaves_the_rest_to_the_other() -> None:
    """Pouring told as 12 s, both together 35 s: 23 s drain."""
    run = told(quick(480.0), ("1.full", 10.0), ("2.pour", 513.0), ("2.full", 525.0))
    found = shown(run)
    assert (found.pour_s, found.drain_s) == (12.0, pytest.approx(23.0))


def test_a_pause_is_no_draining() -> None:
    """The stop stays in for ten minutes: what comes after it shows nothing of hands."""
    run = told(quick(480.0), ("1.full", 10.0), ("3.full", 1400.0), hung=6000.0)
    assert shown(run).drain_s is None


def test_what_does_not_count_shows_nothing() -> None:
    """A rehearsal, a run that goes on, one that was given up, sheets with their own times."""
    acts = (("1.full", 10.0), ("2.full", 525.0))
    assert shown(told(quick(480.0), *acts, rehearsal=True)) == (None,) * 4
    going = desk(quick(480.0))
    for act, when in acts:
        going.tell(when, act)
    assert shown(going) == (None,) * 4
    going.do(600.0, c.Abandon())
    assert shown(going) == (None,) * 4
    tray = Vessel(name="tray", kind=VesselKind.TRAY, places=(("any", 6),), min_ml=500.0, max_ml=2000.0)
    own = script_of(
        Process(name="tray", developer="Brackwater"), tray, 400.0, own_times=[SheetTime("1 left", 400.0)], dark=False
    )
    found = shown(told(own, ("1.in.1", 10.0), ("2.full", 440.0)))
    assert (found.pour_s, found.drain_s) == (None, None)


def test_the_pace_towards_the_jacket_worked_by_hand() -> None:
    """Jacket at 18.0: gaps of 2.0, 1.2131 and 0.7358 C at 0:00, 4:00 and 8:00 are 2 exp(-t / 8:00)."""
    assert tau_of_gaps([(0.0, 2.0), (240.0, 1.2131), (480.0, 0.7358)]) == pytest.approx(480.0, abs=0.1)
    assert tau_of_gaps([(0.0, -2.0), (480.0, -0.7358)]) == pytest.approx(480.0, abs=0.1)
    off = [(at_s, 2.0 * exp(-at_s / 480.0)) for at_s in (0.0, 120.0, 240.0, 360.0, 480.0)]
    off[2] = (240.0, 1.9)
    assert tau_of_gaps(off) == pytest.approx(480.0, rel=0.05)


@pytest.mark.parametrize(
    "gaps",
    [
        [],
        [(0.0, 2.0)],
        [(0.0, 0.8), (300.0, 0.4)],
        [(0.0, 2.0), (20.0, 1.9)],
        [(0.0, 2.0), (300.0, 2.1)],
        [(0.0, 2.0), (300.0, -0.5)],
        [(0.0, 2.0), (300.0, 0.1)],
        [(0.0, 2.0), (300.0, 1.99)],
    ],
    ids=["none", "one", "too near", "too soon", "grows", "crossed", "arrived", "does not follow"],
)
def test_readings_that_cannot_tell_a_pace_tell_none(gaps) -> None:
    """Nothing is made up of them."""
    assert tau_of_gaps(gaps) is None


def test_readings_of_a_run_show_its_pace() -> None:
    """Developer read at 60 and 420 s after full, jacket 1.5 C too cold; the instrument's offset is taken off both."""
    run = desk(quick(480.0))
    run.tell(10.0, "1.full")
    for at_s, where, true_c in (
        (20.0, Where.JACKET, 18.5),
        (70.0, Where.DEVELOPER, 18.5 + 1.5 * exp(-60.0 / 480.0)),
        (430.0, Where.DEVELOPER, 18.5 + 1.5 * exp(-420.0 / 480.0)),
    ):
        run.do(at_s, c.Reading(true_c + 0.3, where, reads_high_c=0.3))
    run.tell(520.0, "2.full")
    run.tell(3000.0, "hang")
    found = shown(run)
    assert found.follows_s == pytest.approx(480.0, rel=1e-6)
    assert found.jacket_off_c == pytest.approx(-1.5)


@pytest.mark.parametrize(
    ("values", "wanted"),
    [
        ([], None),
        ([14.0, 15.0], None),
        ([14.0, 15.0, 15.0], (15.0, 14.0, 15.0)),
        ([15.0, 31.0, 14.0], (15.0, 14.0, 15.0)),
        ([8.0, 15.0, 31.0], None),
        ([8.0, 9.0, 30.0, 31.0], None),
        ([20.0, 24.0, 16.0, 21.0, 90.0], (21.0, 16.0, 24.0)),
    ],
)
def test_runs_are_offered_only_where_they_agree(values, wanted) -> None:
    """The median with the spread of those near it; one bad evening moves nothing."""
    lesson = lesson_of("drain_s", values)
    assert lesson.few == (len(values) < 3)
    assert (None if lesson.value is None else (lesson.value, lesson.low, lesson.high)) == wanted


def test_simulated_runs_teach_the_vessel_that_was_simulated() -> None:
    """Hands 6 s later than stated at every bath, a jacket 2 C too cold that is followed within eight minutes."""
    found = []
    for seed in range(5):
        script = planned(480.0, dark=False)
        conduct = Conduct(MemoryLog(), f"run {seed}", "terminal")
        person, sink = Person(delay_s=6.0, scatter_s=0.8), Sink(jacket_off_c=-2.0, tau_s=480.0)
        for _ in simulate(conduct, script, random.Random(seed), FIRST.at(0.0), person=person, sink=sink):
            pass
        state = conduct.state()
        # The jacket is read once the sheets hang; the run's instrument reads 0.4 too high.
        conduct.do(c.Reading(18.4, Where.JACKET), FIRST.at(state.known_s + 1.0))
        found.append(shown_by_run(conduct.state(), schedule_at(conduct.state(), state.known_s)))
    both = lesson_of("drain_s", [one.pour_s + one.drain_s for one in found])
    assert both.value == pytest.approx(drum().pour_s + drum().drain_s + 6.0, abs=1.5)
    follows = lesson_of("follows_s", [one.follows_s for one in found if one.follows_s is not None])
    assert follows.value == pytest.approx(480.0, rel=0.15)
    jacket = lesson_of("jacket_off_c", [one.jacket_off_c for one in found])
    assert jacket.value == pytest.approx(-2.0, abs=1e-6)
