"""The evening's page: its answer, its times, its lists, what it takes from the shelf."""

from __future__ import annotations

import pytest

from wetside.cards.blocks import BLANK, Listing, Table
from wetside.cards.course_card import course_card
from wetside.cards.hours import clock_time, length, length_in_words, rounded_end_s
from wetside.cards.text import card_lines
from wetside.planning.documents.course import CourseStep, FixerState

HOUR_S = 3600.0


def text(card, width=100):
    return "\n".join(card_lines(card, width))


def one_line(card):
    return " ".join(text(card).split())


def table(card, start):
    return next(block for block in card.blocks if isinstance(block, Table) and block.title.startswith(start))


def listing(card, start):
    return next(block for block in card.blocks if isinstance(block, Listing) and block.title.startswith(start))


def test_the_title_is_the_answer(plans, courses):
    """With a beginning the title says until when, with the vessels; the end is the next five minutes."""
    plan = plans.nine_sheets()
    card = course_card(plan, courses.two_drums(plan))
    assert card.title == "Done by 20:15: four loads, two drums"
    assert card.subtitle[0] == "Begin at 17:00; lights out for the first time at 17:40."
    assert "At most nine sheets hang at once." in card.subtitle
    assert "At most one sheet hangs at once." in course_card(plan, courses.two_drums(plan)._replace(places=1)).subtitle


def test_what_is_mixed_stands_before_the_list_that_asks_for_it(plans, courses):
    """In the order of the evening: mixing and bottles, the lists, then fixer and waste."""
    plan = plans.nine_sheets()
    card = course_card(plan, courses.two_drums(plan))
    titles = [block.title.partition(",")[0] for block in card.blocks]
    wanted = ["Mix in this order", "Take from these bottles", "First", "Then each load", "Last", "Fixer", "Waste"]
    assert [title for title in titles if title in wanted] == wanted


def test_without_a_beginning_the_title_says_how_long(plans, courses):
    """Without a time of day lengths are told, times count from the beginning, and no clock time stands anywhere."""
    plan = plans.nine_sheets()
    card = course_card(plan, courses.without_beginning(plan))
    assert card.title == "Three hours fifteen: four loads"
    assert card.subtitle[0] == "Lights out for the first time 40 min after the beginning."
    steps = table(card, "")
    assert steps.columns[0].title == "h:min"
    assert [row.cells[0] for row in steps.rows[:3]] == ["0:00", "0:40", "0:42"]
    for word in ("next day", "Midnight", " at 2", "17:"):
        assert word not in text(card)


def test_past_midnight_the_day_is_said(plans, courses):
    """An end past midnight is told with its day, and a line stands between the days."""
    plan = plans.nine_sheets()
    card = course_card(plan, courses.two_drums(plan, starts_s=21.75 * HOUR_S))
    assert card.title == "Done by 1:00 the next day: four loads, two drums"
    rows = [row.cells for row in table(card, "").rows]
    midnight = [row[2] for row in rows].index("Midnight")
    assert rows[midnight] == ("0:00", "", "Midnight", "from here on it is the next day")
    assert rows[midnight - 1][0].startswith("23:")
    assert rows[midnight + 1][0].startswith("0:")
    assert sum(row[2] == "Midnight" for row in rows) == 1
    assert listing(card, "Last").title == "Last, in the light, from 0:39 the next day"


def test_days_later_are_counted(plans, courses):
    """Where film dries for days the line says how many days later it is."""
    plan = plans.nine_sheets()
    course = courses.two_drums(plan, dries_s=40.0 * HOUR_S)
    card = course_card(plan, course)
    assert "two days later" in card.title
    assert "from here on it is two days later" in one_line(card)


def test_every_step_stands_with_its_time_and_reason(plans, courses):
    """Loading, running, waiting, looking and a new fixer stand in order, each with what it needs."""
    plan = plans.nine_sheets()
    rows = {row.cells[0]: row.cells[1:] for row in table(course_card(plan, courses.two_drums(plan)), "").rows}
    assert rows["17:00"] == ("40 min", "Set up", "in the light, by the first list")
    assert rows["17:40"] == ("2 min", "Lights out: load 1", "8\u00a0left, 8\u00a0right and 9\u00a0left into drum A")
    assert rows["17:42"] == ("26 min", "Run 1: develop 4:50", "by run sheet 1, to clips 1 to 3")
    assert rows["18:09"] == ("26 min", "Run 2: develop 5:20", "by run sheet 2, to clips 4 and 5")
    assert rows["18:35"][1:] == ("Look at load 2", "before the next is loaded: see Looks")
    assert rows["18:40"] == ("15 min", "Wait", "drum A must dry before load 3")
    assert rows["19:22"] == ("5 min", "New fixer", "bottle F, tempered before load 4")
    assert rows["19:54"] == ("20 min", "Clean, waste", "by the last list")


def test_a_step_of_an_unknown_kind_is_still_said(plans, courses):
    """A kind of step that the card does not know is said by its own code, not lost."""
    plan = plans.nine_sheets()
    course = courses.two_drums(plan)
    odd = CourseStep("rest", 0.0, 60.0, None, None, "planning.course.tidy", {})
    assert "hang, clean, label, waste" in text(course_card(plan, course._replace(steps=(odd, *course.steps))))


def test_the_first_list_is_in_the_order_of_a_real_evening(plans, courses):
    """Jacket and bottles, mixing, thermometer, clip in fixer, drop of developer, baths, dry vessel, safety: to tick."""
    plan = plans.nine_sheets()
    first = listing(course_card(plan, courses.two_drums(plan)), "First")
    assert first.ticks
    starts = ("Jacket", "Mix", "Thermometer", "Clip of", "A drop", "Baths", "Dry", "The page")
    assert len(first.items) == len(starts)
    assert all(item.startswith(start) for item, start in zip(first.items, starts, strict=True))
    assert "21.0 °C (your thermometer shows 21.4 °C)" in first.items[0]
    assert first.title == "First, in the light, from 17:00"


def test_the_clip_feeds_the_fix(plans, courses):
    """The clip test has a place to write in, and the clearing time up to which the planned fix is enough."""
    plan = plans.nine_sheets()
    clip = listing(course_card(plan, courses.two_drums(plan)), "First").items[3]
    assert BLANK in clip
    assert "Planned: 4:50, enough for 2:25, tabular film 1:37." in clip
    assert "plan again" in clip


def test_baths_are_named_by_their_bottles(plans, courses):
    """The baths stand in their order with the letters of their bottles."""
    plan = plans.nine_sheets()
    baths = listing(course_card(plan, courses.two_drums(plan)), "First").items[5].replace("\u00a0", " ")
    assert baths.endswith("pre-soak, D developer, S stop, F fixer, wash, wetting agent.")


def test_an_open_tray_keeps_the_light_out(plans, courses):
    """For a tray no lid is asked for, and the light stays out until the film has fixed."""
    plan = plans.tray_evening()
    said = one_line(course_card(plan, courses.two_drums(plan)))
    assert "out they stay until the film has fixed" in said
    assert "lid on and tried" not in said
    assert "Clean and level" in said
    assert "Water bath on" in said
    assert "one tray" in said
    assert "each its own time" in said


def test_a_look_has_places_for_the_readings_and_the_decision(plans, courses):
    """A look names its load, time and reason, with places for shadow and highlight, and keep, longer or shorter."""
    plan = plans.nine_sheets()
    looks = table(course_card(plan, courses.two_drums(plan)), "Looks")
    (row,) = looks.rows
    assert row.cells == ("2, at 18:35", "look at it: its time was never proved", BLANK, BLANK)
    for word in ("keep", "longer by", "shorter by"):
        assert word in row.remark
    assert "plan again" in looks.foot


def test_mixing_stands_in_order_with_its_parts(plans, courses):
    """What to mix is numbered, with volume, parts and how often."""
    plan = plans.nine_sheets()
    rows = [row.cells for row in table(course_card(plan, courses.two_drums(plan)), "Mix").rows]
    assert rows[0] == ("1", "Brackwater 1+14", "390 ml", "26 + 364 ml water", "4 times, fresh")
    assert rows[1] == ("2", "stop", "400 ml", "as its label says", "once")
    assert [row[0] for row in rows] == ["1", "2", "3", "4"]


def test_bottles_say_what_is_left_and_what_it_costs(plans, courses):
    """Each bottle has what it gives, what is left of it, and its cost where a price is known."""
    plan = plans.nine_sheets()
    card = course_card(plan, courses.two_drums(plan))
    rows = [row.cells for row in table(card, "Take").rows]
    assert rows[0] == ("C", "Brackwater", "30 ml", "nothing", "1.35")
    assert rows[1] == ("D", "Brackwater", "74 ml", "276 ml", "3.33")
    assert rows[2][3:] == ("not known", "–")
    assert "Chemistry: 4.68" in card.subtitle[-1]


def test_without_prices_no_cost_is_told(plans, courses):
    """Where no price is known there is no column and no sentence of cost."""
    plan = plans.nine_sheets()
    course = courses.without_beginning(plan)
    course = course._replace(draws=tuple(draw._replace(cost=None) for draw in course.draws))
    card = course_card(plan, course)
    assert [column.title for column in table(card, "Take").columns] == ["bottle", "holds", "take", "then left"]
    assert "Chemistry" not in " ".join(card.subtitle)


@pytest.mark.parametrize(
    ("changes", "said"), [((), "not this evening"), ((4,), "before load 4"), ((2, 4), "before loads 2 and 4")]
)
def test_the_fixer_says_when_it_is_renewed(plans, courses, changes, said):
    """A fixer has its share before and after, its time, and the loads before which it is renewed."""
    plan = plans.nine_sheets()
    course = courses.two_drums(plan)._replace(fixers=(FixerState("F", 0.25, 0.8, 8.0, 290.0, changes),))
    assert table(course_card(plan, course), "Fixer").rows[0].cells == ("F", "25 %", "80 %", said, "4:50")


def test_waste_defers_to_the_local_authority(plans, courses):
    """Waste is told by its vessel with its volume; where it goes is the authority's word."""
    plan = plans.nine_sheets()
    waste = table(course_card(plan, courses.two_drums(plan)), "Waste")
    assert waste.rows[1].cells == ("used fixer, which holds silver", "400 ml")
    assert "local authority" in waste.foot
    assert "ask before" in waste.foot


def test_the_plain_evening_leaves_out_what_it_has_not(plans, courses):
    """One load without bottles, looks and notes has a time table and three lists, nothing else."""
    plan = plans.plain_evening()
    card = course_card(plan, courses.plain(plan))
    assert card.title == "One hour thirty: one load"
    assert [type(block) for block in card.blocks] == [Table, Listing, Listing, Listing]
    assert "2.1 litres of water." in card.subtitle


def test_an_evening_without_a_load_says_so(plans, courses):
    """Where no sheet has a time there is nothing to lay out."""
    plan = plans.nine_sheets()
    card = course_card(plan._replace(loads=()), courses.two_drums(plan))
    assert card.title == "No load to run this evening"


def test_hostile_names_stay_on_their_line(plans, courses):
    """Control characters and direction marks are gone, long names are shortened, width is kept."""
    plan = plans.hostile_plan()
    lines = card_lines(course_card(plan, courses.hostile(plan)), 60)
    assert all(mark not in "".join(lines) for mark in "\u202e\x1b\x00")
    assert max(len(line) for line in lines) <= 60


@pytest.mark.parametrize("width", [40, 60, 80, 110])
def test_the_text_keeps_its_width(plans, courses, width):
    """No line of the terminal is wider than asked for."""
    plan = plans.nine_sheets()
    assert max(len(line) for line in card_lines(course_card(plan, courses.past_midnight(plan)), width)) <= width


def test_ticks_are_boxes_in_a_terminal(plans, courses):
    """A list to tick has a box before each line, other lists a dash."""
    plan = plans.nine_sheets()
    said = text(course_card(plan, courses.two_drums(plan)))
    assert "\n[ ] Jacket" in said
    assert "\n- Run by the run sheet" in said


@pytest.mark.parametrize(
    ("from_start_s", "starts_s", "said"),
    [(0.0, 0.0, "0:00"), (89.0, 86_340.0, "0:00"), (29.0, 86_340.0, "23:59"), (36_000.0, None, "10:00")],
)
def test_times_of_day(from_start_s, starts_s, said):
    """Times are rounded to the minute and wrap at midnight."""
    assert clock_time(from_start_s, starts_s) == said


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (5, "Five minutes"),
        (55, "Fifty-five minutes"),
        (60, "One hour"),
        (65, "One hour five"),
        (310, "Five hours ten"),
        (720, "Twelve hours"),
        (1475, "24 hours thirty-five"),
    ],
)
def test_lengths_in_words(minutes, said):
    """A length of whole five minutes is said in words up to twelve hours."""
    assert length_in_words(minutes * 60.0) == said


def test_the_end_is_never_told_too_early():
    """The end moves to the next five minutes of the clock, not of the evening."""
    assert rounded_end_s(601.0, 120.0) == 780.0
    assert rounded_end_s(600.0, None) == 600.0
    assert length(0.0) == "1 min"
