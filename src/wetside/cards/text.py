"""A card as text for a terminal: plain by default, bold and one accent where asked, and nothing told by them alone."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from wetside.cards.blocks import Listing, Steps, Table
from wetside.cards.names import columns_taken
from wetside.cards.words import evidence_word
from wetside.values.evidence import Evidence
from wetside.wording.tied import untied, with_units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.cards.blocks import Card, Row

MARKS = {Evidence.TESTED: "■", Evidence.PUBLISHED: "●", Evidence.CONVERTED: "◐", Evidence.ASSUMED: "◌"}
"""Evidence told by shape: filled square, filled disc, half disc, dashed ring."""

NARROWEST = 40
_GAP = "  "
_CHOSEN = "▸ "
_TICK = "[ ] "
_BOLD, _ACCENT, _PLAIN = "\x1b[1m", "\x1b[35m", "\x1b[0m"


def card_lines(card: Card, width: int = 80, *, colour: bool = False) -> list[str]:
    """Render a card as lines of text.

    Parameters
    ----------
    card : Card
    width : int
        Places of the terminal; at least 40 are used. [1]
    colour : bool
        Add bold and one accent; every meaning stands in words and shapes as well.

    Returns
    -------
    card_lines : list of str
        Without line breaks and trailing blanks.
    """
    writer = _Writer(max(width, NARROWEST), colour=colour)
    writer.title(card.title)
    writer.paragraph(" ".join(card.subtitle))
    for block in card.blocks:
        writer.lines.append("")
        if isinstance(block, Table):
            writer.table(block)
        elif isinstance(block, Steps):
            writer.steps(block)
        else:
            writer.listing(block)
    used = {step.evidence for block in card.blocks if isinstance(block, Steps) for step in block.steps}
    if used:
        writer.lines.extend(("", _GAP.join(_marked(kind) for kind in Evidence if kind in used)))
    return [untied(line).rstrip() for line in writer.lines]


def _marked(kind: Evidence) -> str:
    return f"{MARKS[kind]} {evidence_word(kind)}"


def _cell(cell: str) -> str:
    return _marked(cell) if isinstance(cell, Evidence) else cell


class _Writer:
    def __init__(self, width: int, *, colour: bool) -> None:
        self.width, self.colour = width, colour
        self.lines: list[str] = []

    def styled(self, text: str, style: str) -> str:
        return f"{style}{text}{_PLAIN}" if self.colour and text else text

    def title(self, text: str) -> None:
        self.lines.extend(self.styled(line, _BOLD) for line in wrapped(text, self.width))

    def paragraph(self, text: str, indent: str = "") -> None:
        self.lines.extend(indent + line for line in wrapped(text, self.width - len(indent)) if line)

    def listing(self, block: Listing) -> None:
        if block.title:
            self.title(block.title)
        lead = _TICK if block.ticks else "- " if block.title else ""
        for item in block.items:
            first, *rest = wrapped(item, self.width - max(len(lead), 2))
            self.lines.append(lead + first)
            self.lines.extend(" " * len(lead) + line for line in rest)

    def steps(self, block: Steps) -> None:
        values = [step.value for step in block.steps] + [block.sum_value]
        wide = max(columns_taken(value) for value in values)
        room = self.width - 2 - len(_GAP) - wide
        for step in block.steps:
            first, *rest = wrapped(step.text, room)
            self.lines.append(
                f"{MARKS[step.evidence]} {padded(first, room)}{_GAP}{padded(step.value, wide, right=True)}"
            )
            self.lines.extend(f"  {line}" for line in rest)
            told = "; ".join(part for part in (step.effect, step.source) if part)
            if told:
                self.lines.extend(f"    {line}" for line in wrapped(told, self.width - 4))
        self.lines.append("─" * self.width)
        total = f"  {padded(block.sum_label, room)}{_GAP}{padded(block.sum_value, wide, right=True)}"
        self.lines.append(self.styled(total, _BOLD))

    def table(self, block: Table) -> None:
        if block.title:
            self.title(block.title)
        gutter = 2 if any(row.chosen for row in block.rows) else 0
        widths = self._widths(block, self.width - gutter)
        self._row([column.title for column in block.columns], block, widths, " " * gutter)
        self.lines.append(" " * gutter + "─" * (sum(widths) + len(_GAP) * (len(widths) - 1)))
        for row in block.rows:
            self._table_row(row, block, widths, gutter)
        if block.foot:
            self.paragraph(block.foot)

    def _table_row(self, row: Row, block: Table, widths: Sequence[int], gutter: int) -> None:
        start = len(self.lines)
        self._row([_cell(cell) for cell in row.cells], block, widths, _CHOSEN if row.chosen else " " * gutter)
        if row.remark:
            indent = " " * (gutter + widths[0] + len(_GAP))
            self.paragraph(row.remark, indent)
        if row.chosen:
            self.lines[start:] = [self.styled(line, _BOLD + _ACCENT) for line in self.lines[start:]]

    def _row(self, cells: Sequence[str], block: Table, widths: Sequence[int], lead: str) -> None:
        stacks = [wrapped(cell, width) for cell, width in zip(cells, widths, strict=True)]
        for index in range(max(len(stack) for stack in stacks)):
            parts = [
                padded(stack[index] if index < len(stack) else "", width, right=column.figures)
                for stack, width, column in zip(stacks, widths, block.columns, strict=True)
            ]
            self.lines.append((lead if index == 0 else " " * len(lead)) + _GAP.join(parts))

    @staticmethod
    def _widths(block: Table, room: int) -> list[int]:
        """Natural widths, the widest text columns narrowed until the table fits."""
        widths = [
            max(columns_taken(_cell(cell)) for cell in (column.title, *(row.cells[index] for row in block.rows)))
            for index, column in enumerate(block.columns)
        ]
        least = [
            max(
                (
                    columns_taken(word)
                    for cell in (column.title, *(row.cells[index] for row in block.rows))
                    for word in with_units(_cell(cell)).split(" ")
                ),
                default=1,
            )
            for index, column in enumerate(block.columns)
        ]
        room -= len(_GAP) * (len(widths) - 1)
        while sum(widths) > room:
            slack = [width - min(low, 24) for width, low in zip(widths, least, strict=True)]
            index = max(range(len(widths)), key=lambda i: (slack[i] > 0, widths[i]))
            if widths[index] <= 4:
                break
            widths[index] -= 1
        return widths


def wrapped(text: str, width: int) -> list[str]:
    """Lines of at most ``width`` places, broken between words where that can be; tied words stay together."""
    if columns_taken(text) <= width:
        return [text]
    lines: list[str] = []
    for line in textwrap.wrap(with_units(text), max(width, 1), break_on_hyphens=False) or [""]:
        rest = line
        while columns_taken(rest) > width:
            cut = next(i for i in range(1, len(rest) + 1) if i == len(rest) or columns_taken(rest[: i + 1]) > width)
            lines.append(rest[:cut])
            rest = rest[cut:]
        lines.append(rest)
    return lines


def padded(text: str, width: int, *, right: bool = False) -> str:
    """Text filled with spaces to ``width`` places."""
    fill = " " * max(width - columns_taken(text), 0)
    return fill + text if right else text + fill
