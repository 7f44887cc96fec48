"""The page that hangs in a darkroom of many: who to ask, who mixes, what is not for everybody, blanks to fill."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.blocks import BLANK, Card, Column, Listing, Row, Table
from wetside.cards.names import short
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable

MOST_PRODUCTS = 6


def house_card(products: Iterable[str] = ()) -> Card:
    """Lay out the house page.

    Parameters
    ----------
    products : iterable of str
        Names of developers and other products whose safety sheets must lie there; the first six are named.

    Returns
    -------
    house_card : Card
        With places to write in what holds in this place; it never says that a rule permits something.
    """
    named = list(dict.fromkeys(short(product, 30) for product in products))[:MOST_PRODUCTS]
    sheets = (
        sentence("cards.house.read_sheets", {"products": named}) if named else sentence("cards.house.read_sheet", {})
    )
    blocks: tuple[Table | Listing, ...] = (
        _blanks("who", ("what", "name", "reach"), ("in_charge", "mixes", "aid", "fuses", "emergency")),
        Listing(
            sentence("cards.house.mixing", {}),
            (sentence("cards.house.only_named", {}), sheets, sentence("cards.house.protect", {})),
        ),
        _listing("substances", ("sensitisers", "borates", "pyrocatechol", "selenium", "minors"), grave=True),
        _listing("dark", ("sign", "never_locked", "harm")),
        _listing("labels", ("label", "log", "own_goes")),
        _listing("waste", ("silver", "developer", "collected", "asked")),
        _blanks("rules", ("rule", "here"), ("hours", "air", "electric", "spill", "other")),
    )
    return Card(sentence("cards.house.title", {}), (sentence("cards.house.subtitle", {}),), blocks)


def _listing(title: str, names: Iterable[str], *, grave: bool = False) -> Listing:
    said = tuple(sentence(f"cards.house.{name}", {}) for name in names)
    return Listing(sentence(f"cards.house.{title}", {}), said, grave)


def _blanks(title: str, columns: tuple[str, ...], names: Iterable[str]) -> Table:
    """A table whose first column is told and whose others are written in by hand."""
    return Table(
        sentence(f"cards.house.{title}", {}),
        tuple(Column(sentence(f"cards.house.column_{name}", {})) for name in columns),
        tuple(Row((sentence(f"cards.house.{name}", {}), *[BLANK] * (len(columns) - 1))) for name in names),
    )
