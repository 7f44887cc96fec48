"""Acts of a load, by each clock rule and in vessels where each sheet has its own time."""

from __future__ import annotations

import dataclasses
from itertools import pairwise

import pytest

from wetside.planning.documents.evening import Bath, Process, Vessel
from wetside.planning.documents.words import AfterUse, BathKind, VesselKind
from wetside.planning.schedule import PourParts, SheetTime, schedule_of_load
from wetside.values.conditions import ClockRule

DRUM = Vessel("drum", VesselKind.DRUM, (("any", 6),), 300.0, 1000.0, pour_s=12.0, drain_s=18.0, spacing_s=20.0)
TRAY = dataclasses.replace(DRUM, kind=VesselKind.TRAY)
BATHS = (
    Bath(BathKind.PRESOAK, time_s=300.0, volume_ml=500.0),
    Bath(BathKind.DEVELOP, bottle="D"),
    Bath(BathKind.STOP, bottle="S", time_s=45.0, after=AfterUse.BACK),
    Bath(BathKind.FIX, time_s=240.0, temp_c=18.0),
    Bath(BathKind.WASH, time_s=60.0, changes=2),
    Bath(BathKind.WETTING, time_s=60.0, out_of_vessel=True),
)
POUR = PourParts(400.0, 100.0, 300.0)


def acts_of(clock=ClockRule.FULL_TO_DRAIN, baths=BATHS, vessel=DRUM, own=None, time_s=480.0):
    process = Process("p", "Brackwater", None, 20.0, clock, 1, baths)
    return schedule_of_load(process, vessel, time_s, POUR, 20.0, 0.4, own)


def moments(acts):
    return {act.key: act.clock_s for act in acts}


@pytest.mark.parametrize(
    ("clock", "pour_s", "full_s", "drain_s", "stop_s"),
    [
        # 12 s to pour, 18 s to drain, 8:00: by the four rules, worked by hand.
        (ClockRule.FULL_TO_DRAIN, -12.0, 0.0, 480.0, 498.0),
        (ClockRule.FULL_TO_DRAINED, -12.0, 0.0, 462.0, 480.0),
        (ClockRule.POUR_TO_DRAIN, 0.0, 12.0, 480.0, 498.0),
        (ClockRule.POUR_TO_DRAINED, 0.0, 12.0, 462.0, 480.0),
    ],
)
def test_each_clock_rule(clock, pour_s, full_s, drain_s, stop_s):
    """The clock shows 0:00 where the rule begins, and the drain begins where the rule says."""
    at = moments(acts_of(clock))
    assert (at["2.pour"], at["2.full"], at["2.drain"], at["3.pour"]) == (pour_s, full_s, drain_s, stop_s)


def test_the_drain_is_anchored_to_the_act_that_starts_the_clock():
    """Drain is full plus the time, or the first drop plus the time, so that a slow pour moves it rightly."""
    by_key = {act.key: act for act in acts_of()}
    assert (by_key["2.drain"].anchor, by_key["2.drain"].offset_s) == ("2.full", 480.0)
    by_key = {act.key: act for act in acts_of(ClockRule.POUR_TO_DRAIN)}
    assert (by_key["2.drain"].anchor, by_key["2.drain"].offset_s) == ("2.pour", 480.0)


def test_acts_and_what_they_hold():
    """Volumes, bottles, temperatures and changes stand on the acts that need them."""
    acts = acts_of()
    by_key = {act.key: act for act in acts}
    developer = by_key["2.pour"]
    assert (developer.volume_ml, developer.concentrate_ml, developer.water_ml) == (400.0, 100.0, 300.0)
    assert (developer.bottle, developer.temp_c, developer.shown_temp_c) == ("D", 20.0, 20.4)
    assert by_key["1.pour"].volume_ml == 500.0
    assert by_key["3.pour"].volume_ml == 400.0
    assert (by_key["3.pour"].after, by_key["2.pour"].after) == ("back", "waste")
    assert (by_key["4.pour"].temp_c, by_key["4.pour"].shown_temp_c) == (18.0, 18.4)
    assert [act.changes for act in acts if act.kind == "wash" and act.does == "pour"] == [1, 2]
    assert [act.does for act in acts[-2:]] == ["move", "hang"]
    assert acts[-1].clock_s - acts[-2].clock_s == 60.0


def test_only_what_is_safe_to_delay_waits():
    """Pre-soak, developer and what follows the stop may wait; full, drain of the developer and stop never do."""
    waits = {act.key: act.waits for act in acts_of()}
    assert {key for key, wait in waits.items() if not wait} == {"2.full", "2.drain", "3.pour"}


def test_two_developing_baths_share_the_time():
    """Shares of the time divide it, the rest goes to the bath without one, and nothing waits between them."""
    baths = (Bath(BathKind.DEVELOP, share=0.4), Bath(BathKind.DEVELOP), Bath(BathKind.STOP, time_s=30.0))
    acts = acts_of(baths=baths)
    at = moments(acts)
    assert at["1.drain"] - at["1.full"] == pytest.approx(192.0)
    assert at["2.drain"] - at["2.full"] == pytest.approx(288.0)
    assert [act.key for act in acts if not act.waits] == [
        *("1.full", "1.drain", "2.pour", "2.full", "2.drain", "3.pour"),
    ]


def test_a_developing_bath_with_its_own_time_keeps_it():
    """A fixed developing bath (divided development) is not stretched by the plan."""
    baths = (Bath(BathKind.DEVELOP, time_s=180.0), Bath(BathKind.DEVELOP), Bath(BathKind.STOP, time_s=30.0))
    at = moments(acts_of(baths=baths))
    assert at["1.drain"] - at["1.full"] == 180.0
    assert at["2.drain"] - at["2.full"] == 480.0


OWN = [SheetTime("a", 300.0), SheetTime("b", 480.0), SheetTime("c", 470.0), SheetTime("d", 300.0)]


@pytest.mark.parametrize("kind", [VesselKind.TRAY, VesselKind.TUBES, VesselKind.HANGERS])
def test_each_sheet_has_its_own_time(kind):
    """The longest goes in first; each stays exactly its time; the hands move one sheet at a time."""
    acts = acts_of(vessel=dataclasses.replace(TRAY, kind=kind), own=OWN)
    moves = [act for act in acts if act.does in ("enter", "lift")]
    entered = {act.sheet: act.clock_s for act in moves if act.does == "enter"}
    lifted = {act.sheet: act.clock_s for act in moves if act.does == "lift"}
    assert list(entered) == ["b", "c", "a", "d"]
    assert {sheet: lifted[sheet] - entered[sheet] for sheet in entered} == {one.id: one.time_s for one in OWN}
    at = sorted(act.clock_s for act in moves)
    assert all(later - earlier >= 20.0 for earlier, later in pairwise(at))
    assert min(entered.values()) == 0.0
    # 20 s, and 10 s more because c is in for 10 s less than b; and so on, by hand.
    assert entered == {"b": 0.0, "c": 30.0, "a": 220.0, "d": 240.0}
    assert next(act for act in acts if act.kind == "stop").clock_s == max(lifted.values())


def test_equal_sheets_follow_at_the_spacing():
    """Sheets of one time enter and leave at the pace of the hands."""
    acts = acts_of(vessel=TRAY, own=[SheetTime(name, 300.0) for name in "dcba"], time_s=300.0)
    assert [(act.sheet, act.clock_s) for act in acts if act.does == "enter"] == [
        *(("a", 0.0), ("b", 20.0), ("c", 40.0), ("d", 60.0)),
    ]
    assert [act.clock_s for act in acts if act.does == "lift"] == [300.0, 320.0, 340.0, 360.0]


def test_a_second_developing_bath_in_a_tray_does_not_wait():
    """Between two developing baths nobody is asked, in a tray as in a drum."""
    baths = (Bath(BathKind.DEVELOP, share=0.5), Bath(BathKind.DEVELOP, share=0.5), Bath(BathKind.STOP, time_s=30.0))
    acts = acts_of(baths=baths, vessel=TRAY, own=OWN)
    assert {act.key: act.waits for act in acts}["2.pour"] is False


def test_plain_baths_stand_in():
    """A process that lists no baths is developed, stopped, fixed, washed three times and wetted."""
    kinds = [act.kind for act in acts_of(baths=()) if act.does in ("pour", "move")]
    assert kinds == ["develop", "stop", "fix", "wash", "wash", "wash", "wetting"]
