"""Planned against actual: each line by hand."""

from __future__ import annotations

from math import log

import pytest
from tests.fixtures.run_sample import BATHS, SHEETS, desk, drum, planned, script_of

from wetside.planning.documents.evening import Process, Vessel
from wetside.planning.documents.words import VesselKind
from wetside.planning.schedule import SheetTime
from wetside.runs import commands as c
from wetside.runs.against_plan import PlanLine, against_plan
from wetside.runs.script import Pause
from wetside.runs.state import State

FULL = 200.0


def told(script=None, *, late_s: float = 0.0, **more: object):
    """A run whose developer was full at 200 s, and whose stop went in as much too late."""
    one = desk(script or planned(), retired=tuple(Pause), **more)
    one.tell(10.0, "dark.out")
    one.tell(20.0, "dark.on")
    one.tell(FULL, "2.full")
    one.tell(FULL + 440.0 + 25.0 + late_s, "3.full")
    return one


def lines(state: State) -> dict[str, PlanLine]:
    return {line.kind: line for line in against_plan(state, 3000.0)}


def test_the_hands_by_hand() -> None:
    """Thirty seconds late of 7:37.5: 1.05 x 0.65 x ln(487.5 / 457.5) = 0.0434 density."""
    line = lines(told(late_s=30.0).conduct.state())["hands"]
    assert (line.planned.params["time_s"], line.actual.params["time_s"]) == (457.5, 487.5)
    assert line.worth is not None
    assert line.worth.density == pytest.approx(1.05 * 0.65 * log(487.5 / 457.5))
    assert not line.untold


def test_an_end_that_nobody_told_is_marked() -> None:
    """Taken as done when due: as planned, and said."""
    one = desk(planned(), retired=tuple(Pause))
    one.tell(10.0, "dark.out")
    one.tell(20.0, "dark.on")
    one.tell(FULL, "2.full")
    line = lines(one.conduct.state())["hands"]
    assert line.untold
    assert line.actual.params["time_s"] == pytest.approx(457.5)


def test_temperature_and_the_end_that_it_moved() -> None:
    """A degree too cold all through: told as a mean, and the moved end beside it works against it."""
    one = desk(planned(), retired=tuple(Pause))
    one.tell(10.0, "dark.out")
    one.tell(20.0, "dark.on")
    one.tell(FULL, "2.full")
    one.do(FULL + 1.0, c.Reading(19.4))  # the instrument shows 0.4 too much
    found = lines(one.conduct.state())
    assert found["temperature"].actual.code == "runs.actual.temp_mean"
    assert found["temperature"].actual.params["temp_c"] == pytest.approx(19.0, abs=0.02)
    assert found["moved"].actual.params["by_s"] > 30.0
    assert found["temperature"].worth is not None
    assert found["moved"].worth is not None
    assert found["temperature"].worth.density < 0 < found["moved"].worth.density
    unread = lines(told().conduct.state())["temperature"]
    assert (unread.actual.code, unread.worth) == ("runs.actual.not_read", None)
    unknown = desk(planned(per_c=None), retired=tuple(Pause))
    unknown.tell(FULL, "2.full")
    unknown.do(FULL + 1.0, c.Reading(19.4))
    assert lines(unknown.conduct.state())["temperature"].actual.code == "runs.actual.no_coefficient"


def test_a_lost_sheet_gives_the_others_more() -> None:
    """Short of agent at 0.8; one of six lost makes it 0.96: more active, more density."""
    script = planned()._replace(agent_ratio=0.8)
    one = desk(script, retired=tuple(Pause))
    one.do(5.0, c.Lose("1 left"))
    one.tell(10.0, "dark.out")
    one.tell(20.0, "dark.on")
    one.tell(FULL, "2.full")
    line = lines(one.conduct.state())["sheets"]
    assert line.actual.params == {"count": 5, "lost": ("1 left",)}
    assert line.worth is not None
    assert line.worth.density > 0
    assert "sheets" not in lines(told().conduct.state())


def test_other_baths_are_told_where_they_differed() -> None:
    """A fixer of 6:00 in place of 5:00 is told, without a density; a stop on time is not."""
    one = told()
    one.tell(FULL + 700.0, "4.full")
    one.tell(FULL + 1085.0, "5.full")
    found = [line for line in against_plan(one.conduct.state(), 3000.0) if line.kind == "bath"]
    assert any(line.what.params["kind"] == "fix" and line.worth is None for line in found)


def test_sheets_with_times_of_their_own_have_lines_of_their_own() -> None:
    """In a tray each sheet is told for itself."""
    tray = Vessel(name="tray", kind=VesselKind.TRAY, places=(("any", 8),), min_ml=1000.0, max_ml=1500.0)
    process = Process(name="tray", developer="Brackwater", baths=BATHS)
    times = [SheetTime("1 left", 360.0), SheetTime("2 left", 480.0)]
    one = desk(script_of(process, tray, 480.0, SHEETS[:2], own_times=times, dark=False), retired=tuple(Pause))
    found = [line for line in against_plan(one.conduct.state(), 5000.0) if line.kind == "sheet"]
    assert [line.what.params["sheet"] for line in found] == ["2 left", "1 left"]
    assert [line.planned.params["time_s"] for line in found] == [480.0, 360.0]


def test_a_run_that_was_not_opened_has_no_lines() -> None:
    """Nothing was planned, nothing happened."""
    assert against_plan(State(), 0.0) == ()
    assert drum().min_ml == 300.0
