"""The window chart as geometry."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wetside.cards.window_chart import LEAST_LABEL, PLOT_LEFT, PLOT_RIGHT, _tiers, window_chart


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


@given(st.lists(st.floats(PLOT_LEFT, PLOT_RIGHT), min_size=1, max_size=40))
def test_labels_never_overlap(wanted):
    """However near each other loads lie, labels on one line keep their distance and stay on the drawing."""
    placed = _tiers(sorted(wanted), LEAST_LABEL)
    for tier in {row for _, row in placed}:
        row = [x for x, one in placed if one == tier]
        assert all(right - left >= LEAST_LABEL - 1e-6 for left, right in pairwise(row))
        assert row[0] >= PLOT_LEFT - 1e-6
        assert row[-1] <= PLOT_RIGHT + 1e-6


@pytest.mark.parametrize("name", ["nine_sheets", "eventful_evening", "tray_evening", "many_sheets", "plain_evening"])
def test_nothing_leaves_the_plot(plans, name):
    """Bars, own times, loads and ticks lie between the edges of the plot."""
    chart = window_chart(getattr(plans, name)())
    for x in [x for bar in chart.bars for x in (bar.low_x, bar.high_x, bar.own_x, bar.crossing.x)] + [
        t.x for t in chart.ticks
    ]:
        assert PLOT_LEFT - 0.01 <= x <= PLOT_RIGHT + 0.01
    assert len(chart.ticks) <= 11
