"""What went wrong is told of the sheets that it touched, and of no other."""

from __future__ import annotations

import pytest
from tests.fixtures.run_sample import SHEETS, desk, planned, script_of

from wetside.planning.documents.evening import Process, Vessel
from wetside.planning.documents.words import VesselKind
from wetside.planning.schedule import SheetTime
from wetside.runs import commands as c
from wetside.runs.events import Incident
from wetside.runs.schedule import schedule_at
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
