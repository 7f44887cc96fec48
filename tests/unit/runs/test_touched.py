"""What went wrong is told of the sheets that it touched, and of no other."""

from __future__ import annotations

import pytest
from tests.fixtures.run_sample import SHEETS, desk, planned, script_of
from tests.unit.runs.test_illegal_moves import facts

from wetside.planning.documents.evening import Process, Vessel
from wetside.planning.documents.words import VesselKind
from wetside.planning.schedule import SheetTime
from wetside.runs import commands as c
from wetside.runs.events import Incident, Noted, Opened
from wetside.runs.fold import fold
from wetside.runs.load_check import load_check
from wetside.runs.schedule import schedule_at
from wetside.runs.state import Status
from wetside.runs.touched import touched_sheets

ALL = tuple(sheet.id for sheet in SHEETS)


def touched(run):
    state = run.conduct.state()
    return [one.sheets for one in touched_sheets(state, schedule_at(state, state.known_s))]


@pytest.mark.parametrize(
    ("what", "at_s", "wanted"),
    [
        (Incident.POWER, 400.0, True),
        (Incident.POWER, 695.0, True),
        (Incident.POWER, 705.0, False),
        (Incident.LIGHT, 705.0, True),
        (Incident.LIGHT, 879.0, True),
        (Incident.LIGHT, 881.0, False),
        (Incident.LEAK, 881.0, True),
        (Incident.LEAK, 2990.0, False),
        (Incident.OTHER, 2990.0, True),
    ],
)
def test_an_incident_touches_what_it_can_still_harm(what, at_s, wanted) -> None:
    """Developer full at 3:20, stop at 11:40, fixer at 12:40: light is harmless from 14:40 on."""
    run = desk(planned(480.0, dark=False))
    for act, when in (("2.full", 200.0), ("3.full", 700.0), ("4.full", 760.0), ("hang", 3000.0)):
        run.tell(when, act)
    run.do(3010.0, c.Incidence(what, ago_s=3010.0 - at_s))
    assert touched(run) == [ALL if wanted else ()]


def test_what_was_seen_on_single_sheets_touches_just_these() -> None:
    """By name and by place, in the order of the places; a lost one may have been scratched before."""
    run = desk(planned(480.0))
    run.do(5.0, c.Lose(sheet=ALL[2]))
    run.do(6.0, c.Incidence(Incident.SCRATCHED, sheets=(ALL[2], ALL[0])))
    run.do(7.0, c.Incidence(Incident.STUCK, places=(2, 1)))
    run.do(8.0, c.Incidence(Incident.LIGHT, sheets=(ALL[1],), text="the lid"))
    assert touched(run) == [(ALL[0], ALL[2]), ALL[:2], (ALL[1],)]


@pytest.mark.parametrize(
    ("command", "code"),
    [
        (c.Incidence(Incident.SCRATCHED), "runs.refused.whose"),
        (c.Incidence(Incident.STUCK, sheets=("nobody",)), "runs.refused.sheet"),
        (c.Incidence(Incident.TOUCHED, places=(99,)), "runs.refused.place"),
        (c.Incidence(Incident.TOUCHED, places=(0,)), "runs.refused.place"),
        (c.Incidence(Incident.OTHER, ago_s=-60.0), "runs.refused.ago"),
    ],
)
def test_what_names_no_sheet_of_the_run_is_asked_back(command, code) -> None:
    """Nothing is kept of it."""
    run = desk(planned(480.0))
    assert run.do(6.0, command).refusal.code == code
    assert run.conduct.state().incidents == ()


def test_a_fact_of_a_sheet_that_is_not_there_is_contested() -> None:
    """What another device saw is stored all the same, and settled by a person."""
    state = fold(facts((Opened(planned()), Noted(Incident.STUCK, sheets=("nobody",)))))
    assert [(one.kind, one.code) for one in state.contested] == [("noted", "runs.contested.sheet")]
    assert state.incidents == ()


def test_a_sheet_lost_in_the_dark_saw_no_bath_and_one_lost_later_did() -> None:
    """The one leaves its share of the agent to the others; the other has had it, and hangs nowhere."""
    run = desk(planned(480.0))
    run.do(5.0, c.Lose(sheet=ALL[2]))
    run.tell(200.0, "2.full")
    said = run.do(900.0, c.Lose(sheet=ALL[0])).said
    assert [one.code for one in said] == ["runs.said.lost_wet"]
    run.tell(3000.0, "hang")
    assert run.do(3100.0, c.Lose(sheet=ALL[1])).refusal is None
    state = run.conduct.state()
    assert state.status is Status.ENDED
    assert (state.lost, state.spoilt) == ((ALL[2], ALL[0], ALL[1]), (ALL[0], ALL[1]))
    assert state.in_liquid == tuple(name for name in ALL if name != ALL[2])
    assert state.sheets == ALL[3:]
    assert load_check(state).left == len(ALL) - 1
    assert run.do(3200.0, c.Identify((ALL[0], *ALL[3:]))).refusal.code == "runs.refused.order"


def test_a_lost_sheet_is_touched_by_nothing_more() -> None:
    """It has its own line in the run."""
    run = desk(planned(480.0))
    run.do(5.0, c.Lose(sheet=ALL[2]))
    run.do(6.0, c.Incidence(Incident.LIGHT))
    assert touched(run) == [tuple(name for name in ALL if name != ALL[2])]


def test_sheets_with_their_own_times_are_touched_until_they_are_lifted() -> None:
    """Two in a tray, lifted one after the other; the power goes between."""
    tray = Vessel(name="tray", kind=VesselKind.TRAY, places=(("any", 6),), min_ml=500.0, max_ml=2000.0, spacing_s=30.0)
    own = [SheetTime("1 left", 400.0), SheetTime("2 left", 300.0)]
    script = script_of(Process(name="tray", developer="Brackwater"), tray, 400.0, SHEETS[:2], own_times=own, dark=False)
    run = desk(script)
    run.tell(10.0, "1.in.1")
    state = run.conduct.state()
    lifts = {due.act.sheet: due.at_s for due in schedule_at(state, 20.0).dues if due.act.does == "lift"}
    first, second = sorted(lifts, key=lifts.get)
    between = (lifts[first] + lifts[second]) / 2
    run.do(between, c.Incidence(Incident.POWER))
    run.do(between, c.Incidence(Incident.OTHER))
    assert touched(run) == [(second,), tuple(sheet.id for sheet in SHEETS[:2])]
