"""The frame of every page: reachable by keyboard, readable by a screen reader, never wider than the screen."""

from __future__ import annotations

import pytest

PARTS = ("/", "/sheets/", "/plans/", "/shelf/", "/films/", "/processes/", "/aims/", "/short/", "/darkroom/")


def test_empty_pages_have_no_findings_and_fit(page, axe_findings, sideways) -> None:
    """Every part of an empty darkroom is free of axe findings and needs no scrolling sideways, in every theme."""
    for address in PARTS:
        page.goto(address)
        assert not sideways(page), address
        for theme in ("light", "dark", "dim"):
            page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
            assert not axe_findings(page), (address, theme)


@pytest.mark.parametrize("theme", ["dark", "dim", "light"])
def test_the_theme_stays_on_the_device(page, theme) -> None:
    """A theme that was chosen holds on the next page."""
    page.goto("/")
    page.locator("[data-theme-choice]").select_option(theme)
    page.goto("/sheets/")
    assert page.locator("html").get_attribute("data-theme") == theme


def test_the_first_tab_leads_past_the_frame(page) -> None:
    """Keyboard only: the first stop is a link to the content."""
    page.goto("/")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.getAttribute('href')") == "#content"
