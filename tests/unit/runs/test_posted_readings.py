"""Readings that a thermometer posts: what is used, and what is kept beside the run with its reason."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.fixtures.run_sample import Machine, b5_script, desk

from wetside.runs import commands as c
from wetside.runs.events import Where
from wetside.runs.fold import fold
from wetside.runs.readings import (
    AHEAD_S,
    COLDEST_C,
    FASTEST_C_PER_S,
    HOTTEST_C,
    KEPT,
    NOISE_C,
    STALE_S,
    STEP_C,
    Posted,
    kept_code,
    objection_to_reading,
)
from wetside.runs.state import ReadingAt
from wetside.wording import sentence


def code_of(posted: Posted, at_s: float = 100.0, earlier=(), changes_s=()) -> str | None:
    found = objection_to_reading(posted, at_s, earlier, changes_s)
    if found is not None:
        assert sentence(found.code, found.params)
        assert sentence(KEPT[found.code], {})
    return None if found is None else found.code


@pytest.mark.parametrize(
    ("posted", "code"),
    [
        (Posted(20.0), None),
        (Posted(COLDEST_C), None),
        (Posted(HOTTEST_C), None),
        (Posted(math.nextafter(COLDEST_C, 0.0)), "absurd"),
        (Posted(math.nextafter(HOTTEST_C, 99.0)), "absurd"),
        (Posted(-127.0), "absurd"),
        (Posted(None), "no_number"),
        (Posted(math.nan), "no_number"),
        (Posted(math.inf), "no_number"),
        (Posted(20.0, reads_high_c=math.nan), "offset"),
        (Posted(20.0, reads_high_c=-15.5), "offset"),
        (Posted(20.0, age_s=STALE_S), None),
        (Posted(20.0, age_s=STALE_S + 0.1), "stale"),
        (Posted(20.0, age_s=math.inf), "ahead"),
        (Posted(20.0, age_s=-AHEAD_S), None),
        (Posted(20.0, age_s=-AHEAD_S - 0.1), "ahead"),
    ],
)
def test_limits_of_a_reading_alone(posted: Posted, code: str | None) -> None:
    """Each limit holds at its very edge."""
    assert code_of(posted) == (None if code is None else f"runs.reading.{code}")


def test_no_bath_changes_faster_than_its_liquid_can() -> None:
    """A developer that was 20 C ten seconds ago is not 22 C now; after the noise and the fastest pace it may be 21."""
    last = (ReadingAt(90.0, 20.0, Where.DEVELOPER),)
    most_c = NOISE_C + 10.0 * FASTEST_C_PER_S[Where.DEVELOPER]
    assert most_c == pytest.approx(1.0)
    assert code_of(Posted(20.99), earlier=last) is None
    assert code_of(Posted(21.01), earlier=last) == "runs.reading.jump"
    assert code_of(Posted(18.99, Where.POURED_OUT), earlier=last) == "runs.reading.jump"


def test_the_offset_counts_in_a_jump() -> None:
    """Two thermometers that differ by their known offsets agree."""
    last = (ReadingAt(90.0, 20.0, Where.DEVELOPER),)
    assert code_of(Posted(22.0, reads_high_c=2.0), earlier=last) is None


def test_a_jacket_steps_by_hand_and_another_liquid_is_another_bath() -> None:
    """Hot water goes into a jacket at once; a reading from before the last pour is no measure; nor is an old one."""
    jacket = (ReadingAt(90.0, 20.0, Where.JACKET),)
    most_c = NOISE_C + STEP_C[Where.JACKET] + 10.0 * FASTEST_C_PER_S[Where.JACKET]
    assert code_of(Posted(20.0 + most_c - 0.01, Where.JACKET), earlier=jacket) is None
    assert code_of(Posted(20.0 + most_c + 0.01, Where.JACKET), earlier=jacket) == "runs.reading.jump"
    assert code_of(Posted(26.0), earlier=jacket) is None
    liquid = (ReadingAt(90.0, 20.0, Where.DEVELOPER),)
    assert code_of(Posted(26.0), earlier=liquid, changes_s=[95.0]) is None
    assert code_of(Posted(26.0), earlier=liquid, changes_s=[85.0]) == "runs.reading.jump"
    assert code_of(Posted(26.0), at_s=500.0, earlier=liquid) is None


def test_the_jackets_pace_is_that_of_a_heater() -> None:
    """2 kW into 5 litres, COMPUTED: 2000 W / (5 kg * 4186 J/(kg C)) = 0.0956 C/s, within our choice of 0.1."""
    assert 2000.0 / (5.0 * 4186.0) <= FASTEST_C_PER_S[Where.JACKET] <= 1.1 * 2000.0 / (5.0 * 4186.0)


def begun():
    made = desk(b5_script())
    made.tell(10.0, "1.full")
    return made


def test_a_good_reading_counts_as_if_it_were_typed() -> None:
    """The same facts, and the same words, as of a person's reading."""
    posted, typed = begun(), begun()
    first = posted.do(190.0, c.Post(Posted(19.4, reads_high_c=0.0, instrument="probe")))
    second = typed.do(190.0, c.Reading(19.4, Where.DEVELOPER, 0.0, "probe"))
    assert first == second
    assert posted.conduct.state().readings == typed.conduct.state().readings
    assert len(posted.conduct.state().readings) == 1


@pytest.mark.parametrize(
    ("posted", "code"),
    [(Posted(85.0, instrument="probe"), "absurd"), (Posted(None), "no_number"), (Posted(20.0, age_s=99.0), "stale")],
)
def test_what_is_not_used_is_kept_and_moves_nothing(posted: Posted, code: str) -> None:
    """It stands in the log and in the state with its reason; no end moves, and replay gives the same."""
    made = begun()
    before = made.conduct.state()
    decision = made.do(190.0, c.Post(posted))
    state = made.conduct.state()
    assert decision.refusal is None
    assert [event.KIND for event in decision.events] == ["set-aside"]
    assert [one.code for one in state.set_aside] == [f"runs.reading.{code}"]
    assert state.set_aside[0].shown == ("" if posted.shown_c is None else f"{posted.shown_c:g}")
    assert (state.readings, state.shifts, state.status) == (before.readings, before.shifts, before.status)
    assert fold(made.conduct.facts) == state


def test_a_stuck_jump_never_talks_itself_in() -> None:
    """However often it comes, a value that cannot be is not used, until a person reads and types it."""
    made = begun()
    made.do(100.0, c.Post(Posted(20.0)))
    for rank in range(5):
        made.do(110.0 + 10.0 * rank, c.Post(Posted(30.0)))
    assert len(made.conduct.state().set_aside) == 5
    made.do(170.0, c.Reading(30.0, reads_high_c=0.0))
    made.do(180.0, c.Post(Posted(30.1)))
    assert [one.temp_c for one in made.conduct.state().readings] == [20.0, 30.0, 30.1]


def test_a_doubtful_clock_keeps_the_reading_aside() -> None:
    """After a restart with a clock that cannot be right nothing is used, and nothing is lost."""
    made = begun()
    other = Machine("second", 5.0, off_s=-90_000.0)
    decision = made.conduct.do(c.Post(Posted(20.0)), other.at(200.0))
    assert decision.refusal is None
    assert [one.code for one in made.conduct.state().set_aside] == ["runs.reading.clock"]


def test_an_abandoned_run_takes_no_reading() -> None:
    """It is refused, with the status, and nothing is written."""
    made = begun()
    made.do(100.0, c.Abandon())
    count = len(made.conduct.facts)
    decision = made.do(110.0, c.Post(Posted(20.0)))
    assert decision.refusal is not None
    assert decision.refusal.code == "runs.refused.status"
    made.conduct.state()
    assert len(made.conduct.facts) == count


def test_a_reason_of_a_newer_program_is_said_to_be_one() -> None:
    """Its code is kept; the words say that this program does not know it."""
    assert kept_code("runs.reading.of_2040") == "runs.reading.other_kept"
    assert sentence("runs.reading.other_kept", {})


@given(
    shown_c=st.none() | st.floats(), age_s=st.floats(), high_c=st.floats(), where=st.sampled_from(list(Where)),
    at_s=st.floats(1.0, 5000.0),
)  # fmt: skip
def test_every_reading_is_used_or_kept(shown_c, age_s, high_c, where, at_s) -> None:
    """Whatever is posted to a run that goes on, one reading more stands in it, in one of the two lists."""
    made = begun()
    decision = made.do(10.0 + at_s, c.Post(Posted(shown_c, where, age_s, high_c)))
    state = made.conduct.state()
    assert decision.refusal is None
    assert len(state.readings) + len(state.set_aside) == 1
    assert not state.contested
