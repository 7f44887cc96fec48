"""Run sheets as data."""

from __future__ import annotations

import pytest

from wetside.cards.names import label
from wetside.cards.run_sheet import run_sheet_of_load
from wetside.errors import OutOfRangeError
from wetside.wording import shown


def rows_by_key(sheet):
    return {key: row for row in sheet.rows for key in row.keys}


def test_title_is_the_answer(plans):
    """The title says the load and its time, the subtitle what lies in what, how warm, by which clock."""
    plan = plans.nine_sheets()
    sheet = run_sheet_of_load(plan, plan.loads[1])
    assert sheet.title == "Load 2: develop 5:20"
    said = " ".join(sheet.subtitle)
    for word in ("Morvane 320", "Brackwater 1+14", "drum B", "21.0 °C", "21.4 °C", "full to the start", "4:51 to 5:52"):
        assert word in said


@pytest.mark.parametrize("name", ["nine_sheets", "plain_evening", "eventful_evening", "tray_evening"])
def test_every_act_has_a_line_or_is_folded_into_one(plans, name):
    """Each pour, move, kept drain, entry, lift and hanging of the schedule stands on the sheet, at its own time."""
    plan = getattr(plans, name)()
    for load in plan.loads:
        rows = rows_by_key(run_sheet_of_load(plan, load))
        for act in load.schedule:
            if act.does in ("pour", "move", "enter", "lift", "hang", "full"):
                assert act.key in rows
            if act.does in ("move", "enter", "lift") or (act.does == "pour" and act.kind != "develop"):
                assert rows[act.key].time == shown(act.clock_s, "mss")


def test_drains_that_matter_have_a_line(plans):
    """The drains of pre-soak, developer, stop and fixer are acts of their own in a drum."""
    plan = plans.nine_sheets()
    rows = rows_by_key(run_sheet_of_load(plan, plan.loads[1]))
    kept = [
        act
        for act in plan.loads[1].schedule
        if act.does == "drain" and act.kind in ("presoak", "develop", "stop", "fix")
    ]
    assert len(kept) == 4
    assert all(rows[act.key].act == "Drain" for act in kept)


def test_every_sheet_has_a_place_and_a_clip(plans):
    """Each sheet stands once, with its place and a clip of its own through the whole evening."""
    plan = plans.eventful_evening()
    clips = []
    for load in plan.loads:
        sheet = run_sheet_of_load(plan, load)
        assert len(sheet.places) == len(load.sheets)
        clips += [place.clip for place in sheet.places]
    assert len(set(clips)) == len(plan.sheets)


@pytest.mark.parametrize(
    ("clock", "time"), [("full-to-drain", "0:00"), ("pour-to-drain", "0:00"), ("full-to-drained", "0:00")]
)
def test_developer_stands_where_the_clock_starts(plans, clock, time):
    """The line of the first developing bath is at 0:00 under every clock rule, and says when the clock starts."""
    sheets = [plans.sheet_of("7 left", "Tolland 100", 400.0, 1, 400.0)]
    load = plans.load_of(1, sheets, 400.0, clock=clock)
    plan = plans.plan_of((load,), sheets)
    row = rows_by_key(run_sheet_of_load(plan, load))["2.pour"]
    assert row.time == time
    assert ("at full" if clock.startswith("full") else "first drop") in row.detail


@pytest.mark.parametrize("name", ["nine_sheets", "plain_evening", "tray_evening"])
def test_nothing_waits_from_developer_to_the_bath_that_ends_it(plans, name):
    """The band is one piece: from the first developing line to the next bath in, and nothing beside it."""
    plan = getattr(plans, name)()
    for load in plan.loads:
        rows = run_sheet_of_load(plan, load).rows
        inside = [index for index, row in enumerate(rows) if not row.waits]
        assert inside == list(range(inside[0], inside[-1] + 1))
        develop = {act.key for act in load.schedule if act.kind == "develop"}
        assert set(rows[inside[0]].keys) & develop
        assert not set(rows[inside[-1]].keys) & develop
        assert not any(set(row.keys) & develop for row in rows if row.waits)


def test_hand_moment_is_before_the_drain(plans):
    """The next bottle is in the hand 30 to 40 seconds before the drain."""
    plan = plans.nine_sheets()
    said = dict(run_sheet_of_load(plan, plan.loads[1]).feet)["Nothing waits"]
    assert "bottle S" in said
    assert "4:50" in said


def test_feet_carry_the_cautions(plans):
    """Gloves, eyes, air, battery, silver, authority, safety sheet and the power cut are on every run sheet."""
    plan = plans.plain_evening()
    said = " ".join(f"{title} {text}" for title, text in run_sheet_of_load(plan, plan.loads[0]).feet)
    for word in ("Gloves", "eye", "air", "safety sheet", "battery", "silver", "authority", "wristwatch", "by hand"):
        assert word in said


def test_a_sheet_outside_its_window_is_named(plans):
    """The run sheet names the sheets that its time does not suit."""
    plan = plans.eventful_evening()
    assert "Outside its window: a very long label" in " ".join(run_sheet_of_load(plan, plan.loads[3]).subtitle)


def test_letter_paper_may_show_fahrenheit(plans):
    """Both scales stand side by side where they are asked for."""
    plan = plans.plain_evening()
    sheet = run_sheet_of_load(plan, plan.loads[0], fahrenheit=True)
    assert "20.0 °C (68.0 °F)" in sheet.subtitle[0]
    assert sheet.fields[0].after == "°F"


def test_tray_lines_move_one_sheet_each(plans):
    """Where each sheet has its own time it enters and leaves on lines of its own."""
    plan = plans.tray_evening(4)
    sheet = run_sheet_of_load(plan, plan.loads[0])
    assert sheet.title == "Load 1: develop 5:35 to 6:10"
    for name in plan.loads[0].sheets:
        own = [row for row in sheet.rows if row.sheet == name]
        assert [row.act for row in own] == [f"{label(name)} in", f"{label(name)} out"]
        planned = next(one.time_s for one in plan.sheets if one.id == name)
        assert own[1].clock_s - own[0].clock_s == pytest.approx(planned)


def test_a_load_of_another_plan_is_refused(plans):
    """A load number that the plan does not have is an error with the numbers that it has."""
    plan, other = plans.plain_evening(), plans.nine_sheets()
    with pytest.raises(OutOfRangeError, match="no_such_load"):
        run_sheet_of_load(plan, other.loads[2])


def test_no_control_character_passes(plans):
    """Labels cannot steer a printer or a terminal, nor turn the direction of the text around them."""
    plan = plans.hostile_plan()
    sheet = run_sheet_of_load(plan, plan.loads[0])
    said = "".join(place.sheet for place in sheet.places) + "".join(sheet.subtitle) + sheet.evening
    assert not any(mark in said for mark in "\x1b\x00\x07\u202e\u202c")
    assert all(len(place.sheet) <= 60 for place in sheet.places)
