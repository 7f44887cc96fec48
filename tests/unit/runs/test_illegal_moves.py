"""One short test for every move that may not be, and for every answer that is refused or asked back."""

from __future__ import annotations

import pytest
from tests.fixtures.run_sample import FIRST, Machine, again, desk, planned, quick

from wetside.runs import commands as c
from wetside.runs.events import (
    EVENTS,
    Abandoned,
    Device,
    Done,
    Doubted,
    EndMoved,
    Identified,
    Incident,
    Lost,
    Noted,
    Opened,
    Read,
    Resumed,
    Retired,
    SetAside,
    TakenBack,
    TimeTold,
    Where,
    Why,
    facts_of_events,
)
from wetside.runs.fold import fold
from wetside.runs.schedule import schedule_at
from wetside.runs.script import LIGHTS_ON, LIGHTS_OUT, Pause
from wetside.runs.state import DRY, LAST, LEGAL_MOVES, WET, Status
from wetside.wording import sentence
from wetside.wording.sentence import known_codes

SAMPLE = {
    "opened": Opened(quick()),
    DRY: Done(LIGHTS_OUT),
    WET: Done("2.full"),
    LAST: Done("hang"),
    "doubted": Doubted("2.full", "runs.doubt.early"),
    "taken-back": TakenBack("phone", 99),
    "read": Read(20.0, Where.DEVELOPER),
    "set-aside": SetAside("85", Where.JACKET, "runs.reading.absurd"),
    "lost": Lost("1 left"),
    "retired": Retired(Pause.AFTER_STOP),
    "end-moved": EndMoved("2.drain", 10.0, Why.LOOK),
    "noted": Noted(Incident.LIGHT),
    "resumed": Resumed(0.0),
    "time-told": TimeTold(500.0),
    "identified": Identified(None),
    "abandoned": Abandoned(),
}
WAY_TO = {
    Status.NOTHING: (),
    Status.READY: (Opened(planned()),),
    Status.RUNNING: (Opened(planned()), Done("1.full")),
    Status.ENDED: (Opened(planned()), Done("hang")),
    Status.ABANDONED: (Opened(planned()), Abandoned()),
}
MOVES = [(status, move) for status in Status for move in SAMPLE]


def facts(events, device="terminal", machine=FIRST, every_s=600.0):
    """Facts of events, one every ten minutes."""
    return [
        fact
        for place, event in enumerate(events)
        for fact in facts_of_events((event,), machine.at(place * every_s), Device(device, place + 1))
    ]


def test_the_table_is_whole() -> None:
    """Every status has its moves, every move of the table is one of an event, and every event has a move."""
    assert set(LEGAL_MOVES) == set(Status)
    assert {move for moves in LEGAL_MOVES.values() for move in moves} == set(SAMPLE)
    assert set(EVENTS) == {event.KIND for event in SAMPLE.values()}


@pytest.mark.parametrize(("status", "move"), MOVES)
def test_a_move_goes_where_the_table_says_or_nowhere(status: Status, move: str) -> None:
    """A legal move leads to its status; any other is kept as contested and changes nothing else."""
    before = facts(WAY_TO[status])
    assert fold(before).status is status
    more = facts((*WAY_TO[status], SAMPLE[move]))
    state = fold(more)
    wanted = LEGAL_MOVES[status].get(move)
    if wanted is not None:
        assert state.status is wanted
        return
    assert state.status is status
    assert state.contested[-1].code == "runs.contested.move"
    assert state._replace(contested=(), clock=None) == fold(before)._replace(contested=(), clock=None)


@pytest.mark.parametrize(
    ("events", "code"),
    [
        ((Done("9.full"),), "runs.contested.act"),
        ((Done("1.full"), Done("1.full")), "runs.contested.again"),
        ((Done("2.full"), Done("1.full")), "runs.contested.passed"),
        ((Done("1.full"), Done("2.full", ago_s=1500.0)), "runs.contested.before"),
        ((Lost("nobody"),), "runs.contested.sheet"),
        ((Read(1e15, Where.DEVELOPER),), "runs.contested.absurd"),
        ((Read(20.0, Where.JACKET, reads_high_c=-90.0),), "runs.contested.absurd"),
        ((Read(5.0, Where.DEVELOPER, reads_high_c=9.0),), "runs.contested.absurd"),
        ((Lost("1 left"), Lost("1 left")), "runs.contested.sheet"),
        ((EndMoved("2.full", 5.0, Why.LOOK),), "runs.contested.act"),
        ((Done("1.full"), Identified(("1 left", "1 left"))), "runs.contested.order"),
        ((Done("1.full"), Identified(("nobody",))), "runs.contested.order"),
        ((TakenBack("phone", 7),), "runs.contested.nothing_there"),
        ((TakenBack("terminal", 1),), "runs.contested.nothing_there"),
    ],
)
def test_what_cannot_be_true_is_kept_as_contested(events, code: str) -> None:
    """An observation is never lost: it is stored, named with the reason, and changes nothing."""
    state = fold(facts((Opened(planned()), *events)))
    assert [one.code for one in state.contested] == [code]
    assert code in known_codes("runs")


def refusal(decision):
    assert decision.refusal is not None
    assert sentence(decision.refusal.code, decision.refusal.params, ()) != decision.refusal.code
    return decision.refusal.code


def test_nothing_can_be_told_before_a_run_is_open() -> None:
    """A run must be opened before anything else."""
    assert refusal(desk().tell(1.0)) == "runs.refused.not_opened"


def test_a_run_opens_once() -> None:
    """A second opening is refused."""
    assert refusal(desk(quick()).do(5.0, c.Open(quick()))) == "runs.refused.opened"


def test_a_repeat_within_a_moment_is_ignored() -> None:
    """A bounced pedal skips nothing (corrections 1.8)."""
    run = desk(quick(), retired=tuple(Pause))
    run.tell(10.0)
    again_ = run.tell(11.4)
    assert (again_.events, refusal(again_)) == ((), "runs.refused.repeat")
    assert set(run.conduct.state().stamps) == {"1.full"}


def test_an_act_that_is_too_early_counts_when_it_is_told_twice() -> None:
    """Stop in, three seconds after the developer is full: asked back; told again within ten seconds it stands."""
    run = desk(quick(), retired=tuple(Pause))
    run.tell(10.0)
    assert refusal(run.tell(13.0)) == "runs.doubt.impossible"
    assert "2.full" not in run.conduct.state().stamps
    assert refusal(run.tell(200.0)) == "runs.doubt.early"
    assert refusal(run.tell(215.0)) == "runs.doubt.early", (
        "told again after more than ten seconds it is asked back anew"
    )
    assert run.tell(220.0).refusal is None
    assert run.conduct.state().stamps["2.full"].insisted


def test_hanging_is_told_once() -> None:
    """Nothing is waited for once the run is over."""
    run = desk(quick(), retired=tuple(Pause))
    run.tell(5000.0, "hang")
    assert refusal(run.tell(5010.0)) in ("runs.refused.nothing", "runs.refused.status")


@pytest.mark.parametrize(
    ("command", "code"),
    [
        (c.Tell("9.full"), "runs.refused.act"),
        (c.Tell("1.full", ago_s=float("nan")), "runs.refused.no_time"),
        (c.Tell("1.full", ago_s=9999.0), "runs.refused.ago"),
        (c.Tell("2.full", on_time=True), "runs.refused.not_due"),
        (c.TakeBack(), "runs.refused.nothing_told"),
        (c.TakeBack(("phone", 3)), None),
        (c.Reading(200.0), "runs.refused.reading"),
        (c.Reading(float("nan")), "runs.refused.reading"),
        (c.Reading(20.0, reads_high_c=99.0), "runs.refused.offset"),
        (c.Lose("1 left"), "runs.refused.no_sheets"),
        (c.Retire(Pause.BEFORE_PRESOAK), "runs.refused.pause"),
        (c.Look(99_999.0), "runs.refused.look"),
        (c.Incidence(ago_s=-1.0), "runs.refused.ago"),
        (c.Incidence(ago_s=9999.0), "runs.refused.ago"),
        (c.Identify(("nobody",)), "runs.refused.order"),
        (c.TellTime(-5.0), "runs.refused.time"),
    ],
)
def test_a_command_that_cannot_be_is_refused_in_a_sentence(command, code) -> None:
    """Every refusal names its reason, and appends nothing."""
    run = desk(quick(), retired=tuple(Pause))
    decision = run.do(30.0, command)
    if code is None:
        assert run.conduct.state().contested[-1].code == "runs.contested.nothing_there"
        return
    assert refusal(decision) == code
    assert len(run.conduct.facts) == 1


def test_which_sheet_is_lost_must_be_said() -> None:
    """Outside guided loading the sheet is named by its label or place, and must be in the run."""
    run = desk(planned())
    assert refusal(run.do(5.0, c.Lose())) == "runs.refused.which_sheet"
    assert refusal(run.do(5.0, c.Lose("nobody"))) == "runs.refused.sheet"
    assert refusal(run.do(5.0, c.Lose(place=99))) == "runs.refused.which_sheet"
    assert run.do(5.0, c.Lose(place=2)).events == (Lost("2 left"),)


def test_an_end_that_is_past_cannot_be_looked_at() -> None:
    """After the drain no look moves anything."""
    run = desk(quick(), retired=tuple(Pause))
    assert refusal(run.do(900.0, c.Look(10.0))) == "runs.refused.no_end"


def test_in_an_abandoned_run_nothing_more_is_read() -> None:
    """A run that was given up takes no readings."""
    run = desk(quick(), retired=tuple(Pause))
    run.do(20.0, c.Abandon("tray fell"))
    assert refusal(run.do(30.0, c.Reading(20.0))) == "runs.refused.status"
    assert refusal(run.do(30.0, c.Abandon())) == "runs.refused.status"


def test_taking_back_gives_the_time_back() -> None:
    """A fact that was taken back stays in the log and no longer counts."""
    run = desk(quick(), retired=tuple(Pause))
    run.tell(17.0)
    assert schedule_at(run.conduct.state(), 20.0).of("1.drain").due_s == 467.0
    assert run.do(20.0, c.TakeBack()).refusal is None
    assert schedule_at(run.conduct.state(), 20.0).of("1.drain").due_s == 460.0
    assert len(run.conduct.facts) == 3
    run.tell(22.0)
    assert schedule_at(run.conduct.state(), 23.0).of("1.drain").due_s == 472.0


def test_holds_come_before_any_liquid() -> None:
    """A hold that is told after the first liquid is contested: the lights were long on."""
    state = fold(facts((Opened(planned()), Done("1.full"), Done(LIGHTS_ON))))
    assert [one.code for one in state.contested] == ["runs.contested.move"]


def test_a_second_machine_whose_clock_lies_before_the_run_is_doubted() -> None:
    """Facts with an impossible time are kept and do not move anything."""
    run = desk(quick(), retired=tuple(Pause))
    late = again(run, Machine("other", 5.0, off_s=-4000.0), "phone")
    late.conduct.hand_over(facts_of_events((Done("1.full"),), late.machine.at(20.0), Device("phone", 1)))
    state = run.conduct.state()
    assert state.stamps == {}
    assert not state.doubtful, "the device that steers keeps its own sure clock"
    assert [one.code for one in state.contested] == ["runs.contested.clock"]


def test_a_watch_is_believed_after_a_restart_with_a_clock_far_ahead() -> None:
    """A wall clock that cannot be right makes no time known, so that the watch's smaller one is taken."""
    run = desk(quick(), retired=tuple(Pause))
    run.tell(12.0)
    late = again(run, Machine("second", 5.0 - 100.0, off_s=90_000.0))
    late.do(100.0, c.Resume())
    assert late.conduct.state().doubtful
    assert late.do(101.0, c.TellTime(101.0)).refusal is None
    state = late.conduct.state()
    assert not state.doubtful
    assert state.clock.at(late.machine.at(130.0), state.known_s).s == 130.0
