"""The house page of a darkroom that several people use."""

from __future__ import annotations

import re

from wetside.cards.blocks import BLANK, Listing, Table
from wetside.cards.house_card import house_card
from wetside.cards.text import card_lines


def said(card):
    return " ".join(" ".join(card_lines(card, 100)).split())


def test_who_to_ask_and_who_mixes():
    """The page begins with names to fill in, for the room, mixing, first aid, fuses and emergency."""
    card = house_card()
    assert card.title == "Ask before you mix"
    who = card.blocks[0]
    assert isinstance(who, Table)
    assert len(who.rows) == 5
    assert all(row.cells[1:] == (BLANK, BLANK) for row in who.rows)


def test_what_is_not_for_everybody():
    """Sensitisers, borates, pyrocatechol and minors are named, and the block is grave."""
    grave = next(block for block in house_card().blocks if isinstance(block, Listing) and block.grave)
    text = " ".join(grave.items)
    for word in ("Metol", "p-aminophenol", "hydroquinone", "Borax", "boric acid", "Pyrocatechol", "Minors"):
        assert word in text
    assert BLANK in grave.items[-1]


def test_labels_log_waste_and_way_out():
    """Labels, log, silver, authority, sign, door and the light in an emergency are told."""
    text = said(house_card())
    for word in ("who mixed it", "log of a bottle", "holds silver", "Local authority", "never locked", "light goes on"):
        assert word in text


def test_local_rules_are_blanks():
    """What holds in this place is left to write in; nothing is said to be permitted."""
    card = house_card()
    rules = card.blocks[-1]
    assert all(row.cells[1] == BLANK for row in rules.rows)
    assert not re.search(r"\b(permitted|allowed|legal|lawful|complies)\b", said(card))
    assert "nothing here says that they permit anything" in said(card)


def test_products_are_named_once_and_few():
    """Products are named with their sheets, each once, six at most, on one clean line."""
    text = said(house_card(["Brackwater", "Brackwater", "q\u202ez\n", *(f"product {n}" for n in range(9))]))
    assert text.count("Brackwater") == 1
    assert "q z" not in text
    assert "qz" in text
    assert "product 3" in text
    assert "product 4" not in text
