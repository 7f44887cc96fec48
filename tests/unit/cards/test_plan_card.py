"""The plan's card and the reckoning, as blocks and as text."""

from __future__ import annotations

import pytest

from wetside.cards.blocks import Listing, Steps, Table
from wetside.cards.off_aim import off_aim, said_off_aim
from wetside.cards.plan_card import plan_card
from wetside.cards.reckoning import reckoning_card
from wetside.cards.text import MARKS, card_lines, wrapped
from wetside.planning.documents.plan import Note, Rung
from wetside.values.evidence import Evidence
from wetside.wording import known_codes


def text(card, width=80, **more):
    return "\n".join(card_lines(card, width, **more))


def test_title_is_the_answer(plans):
    """The card is headed by its answer."""
    card = plan_card(plans.nine_sheets())
    assert card.title == "Nine sheets, four loads"
    assert card.subtitle[0] == "Fewest possible."


def test_the_plain_evening_is_short(plans):
    """One film and one load take at most 25 lines of a terminal."""
    assert len(card_lines(plan_card(plans.plain_evening()))) <= 25


def test_every_sheet_and_load_stands_on_the_card(plans):
    """Each sheet is named and each load has its time, liquid and vessel."""
    plan = plans.eventful_evening()
    said = " ".join(text(plan_card(plan), 110).split())
    for sheet in plan.sheets[:-2]:
        assert sheet.id in said
    for word in ("4:50", "5:20", "7:45", "9:05", "26 + 364 water", "drum A", "drum B"):
        assert word in said


def test_a_bound_that_is_not_reached_is_told(plans):
    """Where fewer loads might be possible the card does not claim the fewest."""
    card = plan_card(plans.eventful_evening())
    assert "not proved" in card.subtitle[0]
    assert "without a time" in " ".join(card.subtitle)
    unplanned = next(block for block in card.blocks if isinstance(block, Listing) and block.grave)
    assert unplanned.items[0].startswith("13\u00a0left: ")


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["3"], "3: "),
        (["3", "4", "7"], "sheets 3, 4 and 7: "),
        (["3", "4", "5"], "sheets 3 to 5: "),
        (["3 left", "4 left"], "3\u00a0left and 4\u00a0left: "),
        ([str(number * 2) for number in range(9)], "sheets 0, 2, 4, 6, 8, 10 and three more: "),
    ],
)
def test_sheets_without_a_time_for_the_same_reason_stand_together(plans, names, said):
    """A reason is told once, in front of it all its sheets; another reason has a line of its own."""
    plan = plans.eventful_evening()
    one = plan.unplanned[0]
    other = one._replace(id="99", params={**one.params, "film": "Tolland 25"})
    same = [one._replace(id=name) for name in names]
    card = plan_card(plan._replace(unplanned=(same[0], other, *same[1:])))
    items = next(block for block in card.blocks if isinstance(block, Listing) and block.grave).items
    assert len(items) == 2
    assert items[0].startswith(said)
    assert items[1].startswith("99: ")


def test_density_stands_before_percent(plans):
    """Ladder and remarks tell density, paper grade and zones first, and signed percent last."""
    card = plan_card(plans.nine_sheets())
    ladder = next(block for block in card.blocks if isinstance(block, Table) and block.title.startswith("If you want"))
    assert [column.title for column in ladder.columns][2:] == ["density", "paper grade", "zones", "time"]
    assert ladder.rows[0].cells[2:] == ("−0.21", "1¼ softer", "−1⅓", "−19 %")
    assert [row.chosen for row in ladder.rows] == [False, True, False]


def test_rungs_say_what_they_cost(plans):
    """A rung names the sheets whose window breaks, what is not proved, what is alike and which rule it drops."""
    plan = plans.nine_sheets()
    rung = Rung(
        2,
        3.0,
        None,
        -0.3,
        -25.0,
        "5 left",
        None,
        ("5 left", "2 left"),
        proved=False,
        chosen=False,
        alike=True,
        without="twins",
    )
    said = text(plan_card(plan._replace(ladder=(rung, *plan.ladder))))
    for word in (
        "Outside the window: 5 left, 2 left.",
        "With twins in one load.",
        "thermometer",
        "not proved",
        "about −0.30",
    ):
        assert word in " ".join(said.split())


def test_the_need_that_binds_is_named_with_what_would_pass(plans):
    """Wetting and agent are two checks; the one that binds is named, and what would pass."""
    said = " ".join(text(plan_card(plans.nine_sheets())).split())
    assert "Loads 1, 2, 4: The developing agent binds" in said
    assert "Load 3: The vessel binds" in said
    assert "Would pass: 460 ml of this dilution; 1+11 in this vessel." in said


def test_notes_are_told_once(plans):
    """A note that several sheets share stands once, with their names."""
    plan = plans.nine_sheets()
    note = Note("planning.long_time", {"time_s": 1300.0})
    sheets = tuple(sheet._replace(notes=(note,)) if index < 2 else sheet for index, sheet in enumerate(plan.sheets))
    said = text(plan_card(plan._replace(sheets=sheets)))
    assert said.count("beyond 20 minutes") == 1
    assert "2 left, 2 right: " in said


def test_nothing_is_told_by_colour_alone(plans):
    """With colour the same words stand as without it."""
    import re

    card = plan_card(plans.nine_sheets())
    assert re.sub(r"\x1b\[\d+m", "", text(card, colour=True)) == text(card)
    assert "\x1b" not in text(card)
    assert "▸" in text(card)


@pytest.mark.parametrize("width", [40, 60, 80, 110])
@pytest.mark.parametrize("name", ["nine_sheets", "eventful_evening", "hostile_plan", "plain_evening", "many_sheets"])
def test_lines_keep_to_the_width(plans, name, width):
    """No line is wider than the terminal, and no control character of a label comes through."""
    from wetside.cards.names import columns_taken

    for line in card_lines(plan_card(getattr(plans, name)()), width):
        assert columns_taken(line) <= max(width, 52)
        assert all(mark.isprintable() for mark in line)


def test_reckoning_shows_every_step_with_its_mark(plans):
    """Each line has its evidence mark, factor, effect and source; the sum and the weakest part follow."""
    plan = plans.nine_sheets()
    card = reckoning_card(plan, plan.sheets[4])
    assert card.title == "7 left: why 5:20"
    steps = next(block for block in card.blocks if isinstance(block, Steps))
    assert [step.evidence for step in steps.steps] == [
        Evidence.PUBLISHED,
        Evidence.ASSUMED,
        Evidence.TESTED,
        Evidence.CONVERTED,
    ]
    assert steps.steps[1].value == "× 0.870"
    assert steps.steps[1].effect == "−0.11 density, ⅔ grade softer, −¾ zone, −13 % of time"
    said = text(card)
    assert all(mark in said for mark in MARKS.values())
    assert "Weakest part: intermittent to rotary" in said
    assert "Morvane data sheet, page 2, 2024-03" in said


def test_off_aim_says_softer_and_harder():
    """Less density is softer, more is harder; what is below the last digit has no grade."""
    assert said_off_aim(off_aim(-0.17, None, -20.0)).startswith("−0.17 density, 1 grade softer")
    assert off_aim(0.085, None, 10.0).grade == "½ harder"
    assert off_aim(0.001, None, 0.2).grade == ""
    assert off_aim(None, -0.05, -8.0).guessed
    assert said_off_aim(off_aim(None, None, 9.0)) == "+9 % of time"
    assert off_aim(-2.0, None, -90.0).zones == ""


def test_every_vessel_bath_clock_and_evidence_has_its_words():
    """Each word of the files has the sentence that a card needs for it."""
    from wetside.planning.documents.words import BathKind, VesselKind
    from wetside.values.conditions import ClockRule

    codes = known_codes("cards")
    wanted = (
        [f"cards.bath.{kind}" for kind in BathKind]
        + [f"cards.place.{kind}" for kind in VesselKind]
        + [f"cards.clock.{rule}" for rule in ClockRule]
        + [f"cards.evidence.{kind}" for kind in Evidence]
        + [f"cards.why.advice_{kind}" for kind in (Evidence.CONVERTED, Evidence.ASSUMED)]
        + [f"cards.plan.binds_{need}" for need in ("wetting", "agent", "vessel", "unknown")]
    )
    assert [code for code in wanted if code not in codes] == []


def test_wrapped_keeps_every_letter():
    """Words too long for a line are cut, never dropped."""
    assert "".join(wrapped("W" * 50 + " " + "猫" * 30, 20)).replace(" ", "") == "W" * 50 + "猫" * 30


def test_all_cautions_where_there_is_room(plans):
    """The page tells every caution of the plan; the terminal the short form, and where the rest stands."""
    cautions = (Note("chemistry.caution.gloves"), Note("chemistry.caution.silver_bottle"))
    plan = plans.plain_evening()._replace(cautions=cautions)
    whole, brief = plan_card(plan, all_cautions=True).blocks[-1], plan_card(plan).blocks[-1]
    assert "Used fixer holds silver" in whole.items[1]
    assert "safety sheet" in brief.items[0]
    assert "authority" in brief.items[1]
    assert "plan’s page" in brief.items[1]


def test_a_label_inside_a_note_cannot_steer_the_terminal(plans):
    """Notes that carry what a person typed come out on clean lines, wherever they stand."""
    from wetside.cards.run_sheet import run_sheet_of_load

    plan = plans.nine_sheets()
    note = Note("planning.suspect_alone", {"sheet": "\x1b[2J\u202e8 left\n"})
    loads = (plan.loads[0]._replace(notes=(note,)), *plan.loads[1:])
    sheets = (plan.sheets[0]._replace(notes=(note,)), *plan.sheets[1:])
    plan = plan._replace(loads=loads, sheets=sheets, notes=(note,))
    lines = [*card_lines(plan_card(plan)), *card_lines(reckoning_card(plan, plan.sheets[0]))]
    lines += [text for _, text in run_sheet_of_load(plan, plan.loads[0]).feet]
    assert any("8 left is a suspect" in line for line in lines)
    assert all(mark.isprintable() or mark == "\u00a0" for line in lines for mark in line)
