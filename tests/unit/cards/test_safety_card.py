"""The page that is ticked before the light goes out."""

from __future__ import annotations

import pytest

from wetside.cards.blocks import BLANK
from wetside.cards.safety_card import safety_card
from wetside.cards.text import card_lines
from wetside.chemistry import caution_codes, cautions_of
from wetside.planning.documents.plan import Note
from wetside.wording import sentence

DRUM = ("mix", "develop", "stop", "fix", "wetting", "waste", "electricity")


def with_cautions(plan, occasions=DRUM):
    return plan._replace(cautions=tuple(Note(code) for code in cautions_of(occasions)))


def items(card):
    return [item for block in card.blocks for item in block.items]


def test_what_everybody_must_know_stands_there(plans):
    """Way out, unlocked door, residual-current switch, battery, plug, heat, scalds, air, gloves and eyes are told."""
    said = " ".join(items(safety_card(plans.plain_evening())))
    for word in (
        "never lock",
        "eyes shut",
        "residual-current switch",
        "battery",
        "Pull the motor's plug",
        "out of water it burns",
        "scalds",
        "Fan or vent",
        "gloves",
        "Protect your eyes",
        "light on, out",
    ):
        assert word in said


def test_what_is_done_is_ticked(plans):
    """Way out, electricity, heat and protection are lists to tick; first aid is grave."""
    card = safety_card(with_cautions(plans.nine_sheets()))
    ticked = [block.title for block in card.blocks if block.ticks]
    assert ticked == ["The way out", "Water and electricity", "Heat", "Hands, eyes, air"]
    assert [block.title for block in card.blocks if block.grave] == ["If something splashes"]


@pytest.mark.parametrize("occasions", [DRUM, ("develop",), ("storage",), ()])
def test_every_caution_of_the_evening_stands_there_once(plans, occasions):
    """No caution of the plan is lost, and none is told twice."""
    told = items(safety_card(with_cautions(plans.nine_sheets(), occasions)))
    for code in cautions_of(occasions):
        assert told.count(sentence(code, {})) == 1, code
    assert len(told) == len(set(told))


def test_a_new_caution_is_not_lost(plans):
    """Whatever cautions chemistry comes to have, a plan that has all of them shows all of them."""
    plan = plans.nine_sheets()._replace(cautions=tuple(Note(code) for code in caution_codes()))
    told = items(safety_card(plan))
    assert [code for code in caution_codes() if sentence(code, {}) not in told] == []


def test_baths_without_a_caution_have_no_block(plans):
    """An evening without cautions of its own leaves that block out."""
    assert "This evening’s baths" not in [block.title for block in safety_card(plans.plain_evening()).blocks]


def test_first_aid_defers_to_the_products_sheet(plans):
    """First aid begins with the light, sends to the product's sheet, and has places for numbers."""
    aid = next(block for block in safety_card(plans.plain_evening()).blocks if block.grave)
    assert aid.items[0] == "Light on first."
    assert any("safety sheet" in item and "follow it" in item for item in aid.items)
    assert aid.items[-1].count(BLANK) == 2


def test_nothing_is_permitted(plans):
    """The page defers to the local authority and never says that something may go down a drain."""
    said = " ".join(card_lines(safety_card(with_cautions(plans.nine_sheets())), 100))
    assert "local authority" in said
    for word in ("permitted", "allowed", "is legal", "is safe", "you may pour"):
        assert word not in said
