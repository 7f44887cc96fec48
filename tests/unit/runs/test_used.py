"""What a run has used of each bath, by what hands told."""

from __future__ import annotations

import pytest
from tests.fixtures.run_sample import SHEETS, desk, planned, quick, script_of

from wetside.planning.documents.evening import Bath, Process, Vessel
from wetside.planning.documents.words import BathKind, VesselKind
from wetside.planning.schedule import SheetTime
from wetside.runs import commands as c
from wetside.runs.schedule import schedule_at
from wetside.runs.used import baths_used, water_ml


def used(run):
    state = run.conduct.state()
    return baths_used(state, schedule_at(state, state.known_s))


def test_a_plain_run_uses_its_baths_once_and_its_washes_together() -> None:
    """Three changes of a wash are one bath of three fills; the wetting agent outside the vessel is there too."""
    run = desk(planned(480.0, dark=False))
    for act, when in (("2.full", 200.0), ("3.full", 700.0), ("hang", 3000.0)):
        run.tell(when, act)
    found = used(run)
    kinds = [(one.kind.value, one.fills, one.volume_ml) for one in found]
    assert kinds == [
        ("presoak", 1, 300.0),
        ("develop", 1, 300.0),
        ("stop", 1, 300.0),
        ("fix", 1, 300.0),
        ("wash", 3, 900.0),
        ("wetting", 1, 300.0),
    ]
    assert (found[1].concentrate_ml, found[1].water_ml, found[1].bottle) == (20.0, 280.0, "D")
    assert water_ml(found, run.conduct.state().script.stop) == 300.0 + 280.0 + 900.0


def test_of_a_run_that_was_given_up_only_what_was_told_counts() -> None:
    """Developer told; five minutes later the run is given up, though the stop would have been due before that."""
    run = desk(planned(480.0, dark=False))
    run.tell(200.0, "2.full")
    run.do(1000.0, c.Abandon())
    assert [one.kind.value for one in used(run)] == ["presoak", "develop"]
    dry = desk(planned(480.0))
    dry.do(30.0, c.Abandon())
    assert used(dry) == ()


def test_a_run_that_goes_on_counts_what_is_due_as_far_as_it_went() -> None:
    """A bath ahead is no bath used."""
    run = desk(planned(480.0, dark=False))
    run.tell(200.0, "2.full")
    assert [one.kind.value for one in used(run)] == ["presoak", "develop"]


def test_a_stop_of_water_is_water_and_one_from_a_bottle_is_not() -> None:
    """By what ends development in the script, and by the bottle."""
    baths = (
        Bath(does=BathKind.DEVELOP, bottle="D"),
        Bath(does=BathKind.STOP, name="water rinse", time_s=30.0),
        Bath(does=BathKind.FIX, bottle="F", time_s=300.0),
    )
    drum = Vessel(name="drum", kind=VesselKind.DRUM, places=(("any", 6),), min_ml=300.0, max_ml=900.0)
    for name, more in (("water rinse", 300.0), ("Stop", 0.0)):
        own = tuple(
            bath if bath.does is not BathKind.STOP else Bath(does=bath.does, name=name, time_s=30.0) for bath in baths
        )
        run = desk(script_of(Process(name="p", developer="Brackwater", baths=own), drum, 400.0, dark=False))
        for act, when in (("1.full", 10.0), ("hang", 2000.0)):
            run.tell(when, act)
        assert water_ml(used(run), run.conduct.state().script.stop) == 280.0 + more


def test_trays_and_runs_of_four_words_are_counted_too() -> None:
    """Sheets with their own times share one developer; a quick run knows no volumes and says none."""
    tray = Vessel(name="tray", kind=VesselKind.TRAY, places=(("any", 6),), min_ml=500.0, max_ml=2000.0)
    own = [SheetTime(sheet.id, 400.0) for sheet in SHEETS[:2]]
    run = desk(
        script_of(Process(name="tray", developer="Brackwater"), tray, 400.0, SHEETS[:2], own_times=own, dark=False)
    )
    run.tell(10.0, "1.in.1")
    run.tell(3000.0, "hang")
    assert [one.kind.value for one in used(run)] == ["develop", "stop", "fix", "wash", "wetting"]
    fast = desk(quick(480.0))
    fast.tell(10.0, "1.full")
    fast.tell(2000.0, "hang")
    assert {one.volume_ml for one in used(fast)} == {None}
    assert water_ml(used(fast), fast.conduct.state().script.stop) == 0.0


@pytest.mark.parametrize("told", [("2.full",), ("2.full", "3.full", "4.full")])
def test_what_nobody_told_counts_where_the_run_ended(told) -> None:
    """Hanging tells that the film went through all."""
    run = desk(planned(480.0, dark=False))
    for place, act in enumerate(told):
        run.tell(200.0 + 500.0 * place, act)
    run.tell(4000.0, "hang")
    assert len(used(run)) == 6
