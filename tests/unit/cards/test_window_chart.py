"""The window chart as geometry."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wetside.cards.chart_frame import BROAD, NARROW
from wetside.cards.label_places import tiers
from wetside.cards.names import letters_wide
from wetside.cards.window_chart import LEAST_LABEL, window_chart


def test_a_bar_for_each_sheet(plans):
    """Up to sixty sheets each have a bar, whose ends and own time lie in the order of the times."""
    chart = window_chart(plans.nine_sheets())
    assert len(chart.bars) == 9
    assert all(bar.low_x < bar.own_x < bar.high_x for bar in chart.bars)
    assert {line.time for line in chart.lines} == {"4:50", "5:20", "7:45", "9:05"}


def test_a_line_ends_at_the_last_bar_that_it_serves(plans):
    """Each line runs to the lowest bar of its load, at the load's own time."""
    plan = plans.nine_sheets()
    chart = window_chart(plan)
    for line in chart.lines:
        number = int(line.name.removeprefix("load "))
        served = [bar for bar in chart.bars if f"load {number} " in bar.summary]
        assert line.points[-1] == (served[-1].crossing.x, served[-1].y)
        assert line.first_y == served[0].y


def test_outside_is_told_by_shape_and_word(plans):
    """A load outside a sheet's window is marked so, with its amount in words."""
    outside = [bar for bar in window_chart(plans.eventful_evening()).bars if not bar.crossing.inside]
    assert len(outside) == 1
    assert outside[0].crossing.text.startswith("outside, −0.")
    assert "outside its window" in outside[0].summary


def test_many_like_sheets_share_a_bar(plans):
    """Four hundred sheets of six families are six bars that say how many they are."""
    chart = window_chart(plans.many_sheets())
    assert [bar.name for bar in chart.bars] == ["67 ×", "67 ×", "67 ×", "67 ×", "67 ×", "65 ×"]
    assert chart.lines[0].name == "loads 1–7"


def test_own_times_make_one_line(plans):
    """In a tray the load's line visits each sheet at its own time."""
    chart = window_chart(plans.tray_evening(4))
    assert len(chart.lines) == 1
    assert chart.lines[0].time == "own times"
    assert {x for x, _ in chart.lines[0].points[1:]} == {bar.crossing.x for bar in chart.bars}


def test_words_for_those_who_do_not_see_it(plans):
    """The description holds every sheet with its window, time and load."""
    plan = plans.nine_sheets()
    chart = window_chart(plan)
    assert all(sheet.id in chart.description for sheet in plan.sheets)
    assert chart.title == "Windows: Nine sheets, four loads"


def test_an_empty_plan_has_no_chart(plans):
    """Where no sheet has a time there is nothing to draw."""
    assert window_chart(plans.nine_sheets()._replace(sheets=(), loads=())) is None


@pytest.mark.parametrize("frame", [BROAD, NARROW])
@given(wanted=st.lists(st.floats(0.0, 1.0), min_size=1, max_size=40))
def test_labels_never_overlap(frame, wanted):
    """However near each other loads lie, labels on one line keep their distance and stay on the drawing."""
    places = sorted(frame.left + part * (frame.right - frame.left) for part in wanted)
    placed = tiers(places, LEAST_LABEL, frame.left, frame.right)
    for tier in {row for _, row in placed}:
        row = [x for x, one in placed if one == tier]
        assert all(right - left >= LEAST_LABEL - 1e-6 for left, right in pairwise(row))
        assert row[0] >= frame.left - 1e-6
        assert row[-1] <= frame.right + 1e-6


SAMPLES = ["nine_sheets", "eventful_evening", "tray_evening", "many_sheets", "plain_evening"]


@pytest.mark.parametrize("frame", [BROAD, NARROW])
@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_leaves_the_plot(plans, name, frame):
    """Bars, own times, loads and ticks lie between the edges of the plot."""
    chart = window_chart(getattr(plans, name)(), frame)
    for x in [x for bar in chart.bars for x in (bar.low_x, bar.high_x, bar.own_x, bar.crossing.x)] + [
        t.x for t in chart.ticks
    ]:
        assert frame.left - 0.01 <= x <= frame.right + 0.01
    assert len(chart.ticks) <= frame.most_ticks + 2


@pytest.mark.parametrize("name", SAMPLES)
def test_on_a_phone_words_stand_above_their_bar_and_fit(plans, name):
    """In the narrow frame no word reaches over the edge or into the bar; the legend takes the lines that it needs."""
    plan = getattr(plans, name)()
    chart = window_chart(plan, NARROW)
    assert len(chart.bars) == len(window_chart(plan).bars)
    for bar in chart.bars:
        assert bar.name_y < bar.y - 9.0
        assert bar.film_x + letters_wide(bar.film) * 6.8 <= NARROW.width
        if bar.crossing.text:
            assert (bar.crossing.text_y, bar.crossing.text_anchor) == (bar.name_y, "end")
    assert len(chart.legend) > 1
    assert " · ".join(chart.legend) == window_chart(plan).legend[0]
    assert chart.height > chart.bottom + 46.0 + 16.0 * (len(chart.legend) - 1)
