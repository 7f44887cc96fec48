"""The window chart of a page."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as ET

from wetside.adapters.typesetting.page_chart import page_chart
from wetside.cards.chart_frame import NARROW
from wetside.cards.window_chart import window_chart
from wetside.services.plan_evening import plan_file

DEMO = Path(__file__).resolve().parents[3] / "examples/demo/evening.toml"


def test_no_style_and_one_stop_for_the_tab_key() -> None:
    """The policy of the pages forbids styles; all sheets are links with their words, one of them reached by tab."""
    plan = plan_file(DEMO)
    for chart in (window_chart(plan), window_chart(plan, NARROW)):
        drawn = page_chart(chart, lambda sheet: f"/why/?sheet={sheet}&x=1")
        assert "style" not in drawn
        assert "#" not in re.sub(r"&#?\w+;", "", drawn)
        root = ET.fromstring(drawn)  # noqa: S314 (our own drawing)
        links = root.findall("{http://www.w3.org/2000/svg}a")
        assert len(links) == len(plan.sheets)
        assert [link.get("tabindex") for link in links].count("0") == 1
        assert {link.get("href").partition("=")[2].partition("&")[0] for link in links} == {s.id for s in plan.sheets}
        assert all(link.get("aria-label") for link in links)
