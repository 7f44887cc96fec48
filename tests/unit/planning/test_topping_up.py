"""Replenished developer over an evening: top-ups by hand, the bath's state, and what is told where figures lack."""

from __future__ import annotations

import datetime as dt

import pytest

from wetside.adapters.evening_file import evening_of_text
from wetside.errors import ConflictError
from wetside.planning.evening_plan import plan_evening
from wetside.services.library import load_library

FILE = """
format = 1
date = 2026-11-21
size = "4x5in"
process = "tank"
films = [{ name = "Tolland 100", times = [
  { developer = "Longmere", time = "8:00", agitation = "rotary", way = "replenished", own = true, source = "own" }] }]
processes = [{ name = "tank", developer = "Longmere", way = "replenished", baths = [
  { does = "develop", bottle = "L"AFTER }, { does = "fix", time = "5:00", after = "back" } ] }]
developers = [{ name = "Longmere"RATE }]
bottles = [{ mark = "L", holds = "Longmere", volume = "VOLUME", mixed = 2026-MIXED REPLENISHED },
  { mark = "R", holds = "Longmere replenisher", volume = "600 ml" }]
vessels = [{ name = "drum", kind = "drum", places = 4, min = "300 ml", max = "1 l" }]
sheets = [{ label = "a", set = { aperture = "f/8" }, meant = { aperture = "f/16" } }, { label = "b" }, { label = "c" },
  { label = "d" }, { label = "e" }, { label = "f" }]
"""
FILLED = {
    "AFTER": ', after = "back"',
    "RATE": ', replenisher = "26 ml per unit"',
    "VOLUME": "1 l",
    "MIXED": "11-01",
    "REPLENISHED": ', replenished = "950 ml"',
}


def evening(**other):
    """The file with some of its parts otherwise."""
    text = FILE
    for mark, said in (FILLED | other).items():
        text = text.replace(mark, said)
    return evening_of_text(text)


@pytest.fixture(scope="module")
def planned():
    library = load_library()
    return lambda **other: plan_evening(evening(**other), library, today=dt.date(2026, 11, 21), tool="test", inputs={})


def codes(load):
    return [note.code for note in load.notes]


def test_each_load_is_topped_up_for_its_film(planned):
    """26 ml for four sheets of 4x5 in, a sheet two stops over counting 1 + 2/3: 6.5 ml a plain sheet."""
    plan = planned()
    rows = plan.course.replenishing
    by_load = {load.number: load for load in plan.loads}
    for row in rows:
        sheets = by_load[row.load].sheets
        wanted = 6.5 * (len(sheets) + (2 / 3 if "a" in sheets else 0.0))
        assert row.add_ml == pytest.approx(wanted, rel=1e-3)
        assert row.set_aside_ml == pytest.approx(wanted, rel=1e-3)
        assert row.bath_ml == 1000.0
    total = sum(row.add_ml for row in rows)
    assert total == pytest.approx(6.5 * (6 + 2 / 3), rel=1e-3)
    draw = next(draw for draw in plan.course.draws if draw.bottle == "R")
    assert draw.volume_ml == pytest.approx(total)
    waste = {one.vessel: one.volume_ml for one in plan.course.waste}
    assert waste["planning.course.waste_developer"] == pytest.approx(total)


def test_the_bath_seasons_over_the_evening(planned):
    """What went in before counts on from load to load: 950 ml of 1000 ml are not a whole volume yet."""
    rows = planned().course.replenishing
    assert rows[-1].turnover == pytest.approx((950.0 + sum(row.add_ml for row in rows)) / 1000.0)
    assert [row.state for row in rows] == ["settling", "settling"]
    assert {row.state for row in planned(REPLENISHED=', replenished = "1.3 l"').course.replenishing} == {"seasoned"}


def test_what_is_not_written_down_is_not_claimed(planned):
    """Without the bath's history neither its state nor a warning of it is told; the top-up still is."""
    plan = planned(REPLENISHED="")
    assert [(row.turnover, row.state) for row in plan.course.replenishing] == [(None, None)] * 2
    assert all("planning.course.top_up" in codes(load) for load in plan.loads)
    assert not any("development.replenish.not_seasoned" in codes(load) for load in plan.loads)


def test_without_a_rate_the_plan_asks_for_it(planned):
    """No rate ships, so none is made up."""
    plan = planned(RATE="")
    assert plan.course.replenishing == ()
    assert all("planning.course.no_replenisher" in codes(load) for load in plan.loads)


def test_the_bath_in_its_bottle_is_not_mixed(planned):
    """What stands in its bottle already is not on the list of what to mix."""
    assert [row.kind for row in planned().course.mixing] == ["fix"]


def test_a_top_up_that_swallows_the_bath_is_told_and_left_out(planned):
    """A rate of a litre to four sheets would be a fresh bath: said on the load, and the evening goes on."""
    plan = planned(RATE=', replenisher = "1 l per unit"', VOLUME="400 ml")
    assert plan.loads
    assert any("development.replenish.whole_bath" in codes(load) for load in plan.loads)


def test_old_and_large_are_told(planned):
    """More than a tenth of the bath at once, and a bath of four months."""
    plan = planned(RATE=', replenisher = "150 ml per unit"', MIXED="07-01")
    told = {code for load in plan.loads for code in codes(load)}
    assert {"development.replenish.large", "development.replenish.renew"} <= told


def test_a_replenished_bath_that_is_thrown_away_is_refused():
    """The two contradict each other, and the error names the key."""
    with pytest.raises(ConflictError) as caught:
        evening(AFTER="")
    assert caught.value.code == "files.bath.replenished_thrown"
    assert "after" in caught.value.place.field
