"""What a page of a plan shows: the card, the chart (broad and for a phone), loads, windows, the evening."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.typesetting.page_chart import page_chart
from wetside.cards.blocks import Listing, Table
from wetside.cards.chart_frame import NARROW
from wetside.cards.course_card import course_card
from wetside.cards.off_aim import off_aim, said_off_aim
from wetside.cards.plan_card import plan_card
from wetside.cards.shelf_tables import tables_after, tables_before
from wetside.cards.window_chart import window_chart
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.cards.blocks import Card, Row
    from wetside.planning.documents.plan import Load, Plan, PlannedSheet

COUNTED_AS_OFF = 0.5
"""Percent of time below which a sheet is told as on its aim, as on the cards. [%]"""


class LoadRow(NamedTuple):
    """A load with the words of the plan's card about it."""

    load: Load
    time: str
    sheets: str
    remark: str


class SheetRow(NamedTuple):
    """A sheet with how far it is off its aim in words; empty where it is on it."""

    sheet: PlannedSheet
    address: str
    off: str
    outside: bool


class PlanShown(NamedTuple):
    """All parts of a plan's page that come from the plan itself."""

    plan: Plan
    card: Card
    loads: tuple[LoadRow, ...]
    ladder: Table | None
    listings: tuple[Listing, ...]
    sheets: tuple[SheetRow, ...]
    chart: str
    narrow_chart: str
    evening: Card | None
    shelf: tuple[Table, ...]

    @property
    def care_title(self) -> str:
        """Heading of the cautions, which stand folded."""
        return sentence("cards.plan.care", {})


def plan_shown(plan: Plan, address: Callable[[str], str]) -> PlanShown:
    """Lay a plan out for a page.

    Parameters
    ----------
    plan : Plan
        The document.
    address : callable
        Address of a sheet's reckoning, by its label.
    """
    card = plan_card(plan, all_cautions=True)
    tables = [block for block in card.blocks if isinstance(block, Table)]
    rows: tuple[Row, ...] = tables[0].rows if plan.loads else ()
    broad, narrow = window_chart(plan), window_chart(plan, NARROW)
    shelf = () if plan.course is None else (*tables_before(plan.course), *tables_after(plan.course))
    evening = course_card(plan, plan.course) if plan.course is not None else None
    if evening is not None:
        titles = {table.title for table in shelf}
        blocks = tuple(block for block in evening.blocks if getattr(block, "title", "") not in titles)
        evening = evening._replace(blocks=blocks)
    return PlanShown(
        plan=plan,
        card=card,
        loads=tuple(
            LoadRow(load, row.cells[1], row.cells[2], row.remark) for load, row in zip(plan.loads, rows, strict=True)
        ),
        ladder=tables[2] if len(tables) > 2 else None,
        listings=tuple(block for block in card.blocks if isinstance(block, Listing)),
        sheets=tuple(_sheet(sheet, address(sheet.id)) for sheet in plan.sheets),
        chart=page_chart(broad, address) if broad is not None else "",
        narrow_chart=page_chart(narrow, address) if narrow is not None else "",
        evening=evening,
        shelf=shelf,
    )


def _sheet(sheet: PlannedSheet, address: str) -> SheetRow:
    outside = sheet.deviation > 1.0 + 1e-9
    off = ""
    if abs(sheet.percent) >= COUNTED_AS_OFF:
        off = said_off_aim(off_aim(sheet.density, sheet.density_guess, sheet.percent, sheet.aim_range))
    return SheetRow(sheet, address, off, outside)


def why_context(plan: Plan | None, label: str) -> dict[str, Any]:
    """Reckoning of one sheet for its fragment, or for a page of its own.

    Raises
    ------
    UnknownNameError
        If the plan has no time for such a sheet.
    """
    from wetside.cards.reckoning import reckoning_card
    from wetside.errors import UnknownNameError
    from wetside.planning.evening_plan import find_sheet

    sheet = find_sheet(plan, label) if plan is not None else None
    if plan is None or sheet is None:
        raise UnknownNameError("web.no_reckoning", sheet=label)
    return {"card": reckoning_card(plan, sheet), "sheet": sheet}
