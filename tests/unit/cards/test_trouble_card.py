"""The page for a run in which something goes wrong: one page, people first, and the same words in the docs."""

from __future__ import annotations

from pathlib import Path

import pytest

from wetside.adapters.typesetting.paper import Typesetter
from wetside.cards.blocks import Listing, Table
from wetside.cards.trouble_card import trouble_card

PAGE = Path(__file__).parents[3] / "docs" / "when_something_goes_wrong.md"


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_is_one_page(paper: str) -> None:
    """What hangs by the sink is read at a glance: one page on either paper."""
    assert len(Typesetter(trouble_card(), paper, "").pictures()) == 1


def test_people_come_first() -> None:
    """Before any film: harm, splashes, water in a device; told as grave."""
    first = trouble_card().blocks[0]
    assert isinstance(first, Listing)
    assert first.grave
    assert "help" in first.items[0]


def test_the_page_in_the_docs_says_the_same() -> None:
    """Every sentence of the card stands in the docs, word for word."""
    page = PAGE.read_text("utf-8")
    card = trouble_card()
    said = [card.title, *card.subtitle, *(block.title for block in card.blocks if not hasattr(block, "steps"))]
    for block in card.blocks:
        said += block.items if isinstance(block, Listing) else [block.foot] if isinstance(block, Table) else []
    assert [text for text in said if text not in page] == []


def test_nothing_waits_and_no_screen_is_safe() -> None:
    """It repeats what the run itself keeps: nothing waits up to the stop."""
    texts = " ".join(block.foot for block in trouble_card().blocks if isinstance(block, Table))
    assert "nothing waits" in texts
