"""One page to print and hang by the sink: what to do when something goes wrong in the middle of a run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.blocks import BLANK, Card, Column, Listing, Row, Table
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable

WORTH_C = 0.3
"""Worth two to three per cent of time, for developer and pre-soak (common practice). [C]"""
SMALLEST_PT = 10
"""As in a book: it is read once before, and found again by its headings. [pt]"""


def trouble_card() -> Card:
    """Lay out the page of troubles.

    Returns
    -------
    trouble_card : Card
        People first, then the clock, then the troubles by where the film is. It needs no plan and no program: it is
        for when the program is the trouble. What no source stands for is marked as common practice on it.
    """
    blocks: tuple[Table | Listing, ...] = (
        _listing("people", ("harm", "splash", "power_water"), grave=True),
        Table(
            sentence("cards.trouble.watch", {}),
            tuple(Column(sentence(f"cards.trouble.column_{name}", {})) for name in ("what", "full", "drain")),
            tuple(Row((sentence(f"cards.trouble.{name}", {}), BLANK, BLANK)) for name in ("developer", "next")),
            sentence("cards.trouble.watch_note", {}),
        ),
        _listing("program", ("dead", "again", "clock", "back")),
        _listing("before", ("light", "lost", "wrong_first")),
        _listing("inside", ("motor", "leak", "early", "cold", "stuck")),
        _listing("after", ("no_stop", "look", "order")),
        _listing("then", ("write", "log", "rest")),
    )
    return Card(sentence("cards.trouble.title", {}), (sentence("cards.trouble.subtitle", {}),), blocks, SMALLEST_PT)


def _listing(title: str, names: Iterable[str], *, grave: bool = False) -> Listing:
    said = tuple(sentence(f"cards.trouble.{name}", {"step": WORTH_C} if name == "cold" else {}) for name in names)
    return Listing(sentence(f"cards.trouble.{title}", {}), said, grave)
