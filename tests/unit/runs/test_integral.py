"""Readings, the jacket, and the end that moves: within the dead band not at all, beyond it within floor and share."""

from __future__ import annotations

import pytest
from tests.fixtures.run_sample import BATHS, desk, drum, planned, quick, script_of

from wetside.development.coefficient import named_coefficient
from wetside.development.integral import effective_relaxing_time_s
from wetside.planning.documents.evening import Process
from wetside.runs import commands as c
from wetside.runs.cues import shown_now
from wetside.runs.effects import sheet_effects
from wetside.runs.events import EndMoved, Where
from wetside.runs.integral import correction_of, course_of, effective_of_course
from wetside.runs.schedule import schedule_at
from wetside.runs.script import Pause
from wetside.runs.state import ReadingAt
from wetside.services.run_came import came_of

OWN = named_coefficient(0.097)


def running(**changed):
    script = planned(480.0)._replace(**changed)
    run = desk(script, retired=tuple(Pause))
    run.tell(200.0, "2.full")
    return run


def test_inside_the_dead_band_the_number_is_shown_and_nothing_moves() -> None:
    """0.2 C too cold is 1.9 %: told, not acted on."""
    run = running()
    decision = run.do(260.0, c.Reading(20.2))  # the instrument reads 0.4 C too high
    assert [said.code for said in decision.said] == ["runs.said.reading", "runs.integral.dead_band"]
    assert -2.0 < decision.said[1].params["percent"] < -1.0
    assert schedule_at(run.conduct.state(), 261.0).of("2.drain").due_s == 680.0


def test_beyond_the_dead_band_the_end_moves_and_says_what_it_is_worth() -> None:
    """1 C too cold from the first minute on: the end moves by about a tenth, and the density is told."""
    run = running()
    decision = run.do(230.0, c.Reading(19.4))
    moved = decision.events[1]
    assert isinstance(moved, EndMoved)
    # 450 s at 19 C want 450 (e^0.097 - 1) = 46 s more; the half minute before falls from 20 C and wants the rest.
    assert moved.shift_s == pytest.approx(47.0, abs=2.0)
    assert decision.said[1].params["density"] < -0.04
    assert shown_now(run.conduct.state(), 231.0).in_s == pytest.approx(680.0 + moved.shift_s - 231.0)


@pytest.mark.parametrize(
    ("changed", "shown_c", "bound", "shift_s"),
    [
        ({"floor_s": 470.0}, 21.9, "floor", -10.0),
        ({"most_shift": 0.05}, 19.4, "share", 24.0),
    ],
)
def test_the_end_moves_no_further_than_floor_and_share(changed, shown_c: float, bound: str, shift_s: float) -> None:
    """What binds is named, and what is left is told in percent."""
    decision = running(**changed).do(230.0, c.Reading(shown_c))
    assert decision.events[1].shift_s == pytest.approx(shift_s)
    assert decision.said[-1].code == f"runs.integral.bound_{bound}"


def test_outside_the_span_of_the_pairs_it_only_warns() -> None:
    """Decided 9: a live run only warns."""
    run = running(span_c=(20.0, 24.0))
    decision = run.do(230.0, c.Reading(18.0))
    assert [said.code for said in decision.said][1:] == ["runs.integral.outside"]
    assert len(decision.events) == 1
    state = run.conduct.state()
    effects = sheet_effects(state, schedule_at(state, 2000.0))
    assert {(one.density, one.told) for one in effects} == {(None, "outside")}
    said = " ".join(came_of(state, schedule_at(state, 2000.0)))
    assert "at a temperature outside what its developer's figures cover" in said
    assert "too far" not in said


def test_without_a_coefficient_readings_are_kept_and_nothing_is_reckoned() -> None:
    """No number is better than one that nobody measured."""
    run = desk(quick(), retired=tuple(Pause))
    run.tell(10.0)
    decision = run.do(60.0, c.Reading(15.0))
    assert [said.code for said in decision.said][1:] == ["runs.said.no_coefficient"]


def test_a_reading_in_the_jacket_works_through_the_vessels_own_pace() -> None:
    """Checked against the closed form of the exponential approach (tau 8 min, jacket 18 C)."""
    script = planned(480.0)._replace(tau_s=480.0)
    course = course_of(script, [ReadingAt(0.0, 18.0, Where.JACKET)], 0.0, 480.0)
    found = effective_of_course(course, OWN, 20.0, 0.0, 480.0)
    exact_s = effective_relaxing_time_s(480.0, 20.0, 18.0, 480.0, OWN, 20.0)
    assert found.time_s == pytest.approx(exact_s, rel=1e-5)


def test_the_curve_passes_through_both_readings() -> None:
    """A jacket bends the course between two readings, and never moves them."""
    script = planned(480.0)._replace(tau_s=300.0)
    readings = [
        ReadingAt(0.0, 18.0, Where.JACKET),
        ReadingAt(60.0, 19.8, Where.DEVELOPER),
        ReadingAt(400.0, 19.1, Where.POURED_OUT),
    ]
    course = course_of(script, readings, 0.0, 480.0)
    assert course.at(60.0) == pytest.approx(19.8)
    assert course.at(400.0 - 1e-9) == pytest.approx(19.1)
    assert course.at(200.0) < 19.8 - 0.7 * 140 / 340, "below the straight line: it falls faster at first"


def test_a_later_reading_moves_the_end_back() -> None:
    """The end follows what is known now; it is moved against the script, not added up."""
    run = running()
    first = run.do(230.0, c.Reading(19.4)).events[1]
    second = run.do(400.0, c.Reading(20.4)).events[1]
    assert 0.0 < second.shift_s < first.shift_s


def test_several_developing_baths_are_told_and_not_moved() -> None:
    """Through several developers no end is moved by itself: what they did is told after the run."""
    two = (BATHS[1], BATHS[1], *BATHS[2:])
    script = script_of(Process(name="two", developer="Brackwater", baths=two), drum(), 480.0, dark=False)
    run = desk(script, retired=tuple(Pause))
    run.tell(10.0)
    assert len(run.do(60.0, c.Reading(18.0)).events) == 1


def test_an_end_is_never_moved_into_the_past() -> None:
    """Far too warm, and noticed late: drain now."""
    script = planned(480.0)
    course = course_of(script, [ReadingAt(0.0, 23.0, Where.DEVELOPER)], 0.0, 4000.0)
    found = correction_of(script._replace(most_shift=0.9), course, 0.0, 480.0, 450.0)
    assert (found.bound, found.shift_s) == ("past", -30.0)
