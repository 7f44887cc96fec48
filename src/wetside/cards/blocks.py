"""What a card is made of: one set of blocks that terminal, screen and paper all draw from."""

from __future__ import annotations

from typing import NamedTuple

from wetside.values.evidence import Evidence  # noqa: TC001 (named tuples keep their annotations)

BLANK = "________"
"""A place to write in by hand: a line on paper and screen, as it stands in a terminal."""


class Column(NamedTuple):
    """One column of a table; figures stand to the right, under each other."""

    title: str
    figures: bool = False


class Row(NamedTuple):
    """One line of a table; ``chosen`` is the line that holds, ``remark`` a word under it."""

    cells: tuple[str, ...]
    chosen: bool = False
    remark: str = ""


class Table(NamedTuple):
    """Rows under columns, with a heading that may be empty and a line under the table."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    foot: str = ""


class Listing(NamedTuple):
    """Sentences one below the other.

    ``grave`` where a person or a sheet may come to harm; ``ticks`` where each is done and ticked off, in this order.
    """

    title: str
    items: tuple[str, ...]
    grave: bool = False
    ticks: bool = False


class Step(NamedTuple):
    """One line of a reckoning: its evidence, what it is, what it does, and where that comes from."""

    evidence: Evidence
    text: str
    value: str
    effect: str
    source: str


class Steps(NamedTuple):
    """A stack of reckoning lines and what they come to."""

    steps: tuple[Step, ...]
    sum_label: str
    sum_value: str


class Card(NamedTuple):
    """A document: its title is its answer.

    ``smallest_pt`` is the least size of its letters; a page that is to stay one page takes smaller ones. [pt]
    """

    title: str
    subtitle: tuple[str, ...]
    blocks: tuple[Table | Listing | Steps, ...]
    smallest_pt: int = 13
