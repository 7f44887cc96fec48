"""Numbers stay with their units where lines break, on paper, on screen and in a terminal."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from wetside.cards.names import label
from wetside.cards.text import card_lines
from wetside.cards.text import wrapped as wrapped_on_card
from wetside.cli.output import wrapped
from wetside.wording.tied import TIE, untied, with_units

TORN = re.compile(r"[0-9¼½¾⅓⅔]$")
UNIT = re.compile(r"^(ml|s|°C|%|mm|g|min|stops?)\b|^(°C|%)")
TEXT = (
    "Bring 390 ml to 20.0 °C in 10 s, at 15 mm and −2 %, for 20 minutes; +1⅓ stops of it, 3 grades, 14 loads, 5 g and "
    "a very long word beside 1000 ml of water at 24.0 °C."
)


@pytest.mark.parametrize("wrap", [wrapped, wrapped_on_card])
@pytest.mark.parametrize("width", range(12, 100))
def test_no_line_ends_between_a_number_and_its_unit(wrap, width):
    """At every width each unit stands on the line of its number, and nothing is lost or added."""
    lines = [untied(line) for line in wrap(TEXT, width)]
    assert not any(TORN.search(one) and UNIT.search(other) for one, other in pairwise(lines))
    assert " ".join(lines) == TEXT
    assert max(map(len, lines)) <= width


def test_other_words_are_not_tied():
    """A number is tied to a unit, never to a noun, and a word that only begins like a unit is none."""
    for text in ("14 loads", "3 slow sheets", "2 left", "5 gloves", "20 minutes", "7 months"):
        assert TIE not in with_units(text)


def test_short_labels_stay_whole_and_long_ones_may_break():
    """A side of a holder is never torn; a label as long as a line is not forced to stand on one."""
    assert label("4 right") == f"4{TIE}right"
    assert TIE not in label("Harbour wall at low tide")
    assert label(f"4{TIE}right", 40) == label("4 right")


def test_a_terminal_gets_ordinary_spaces(plans_for_ties):
    """No-break spaces keep the lines together and do not reach the terminal, where a person copies names."""
    for width in range(40, 111, 5):
        lines = card_lines(plans_for_ties, width)
        assert not any(TIE in line for line in lines)
        told = "\n".join(lines)
        assert "4 right" in told
        assert not re.search(r"\b[0-9]\n[ │]*(?:left|right)\b", told)


@pytest.fixture(scope="module")
def plans_for_ties():
    """A card whose table names many holder sides in a narrow column."""
    from wetside.cards.blocks import Card, Column, Row, Table

    names = ", ".join(label(f"{number} {side}") for number in range(1, 9) for side in ("left", "right"))
    table = Table("", (Column("load", figures=True), Column("sheets")), (Row(("1", names)),))
    return Card("Sixteen sheets", (), (table,))
