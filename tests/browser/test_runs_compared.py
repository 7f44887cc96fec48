"""Looking over runs in Chromium: two beside each other, a look and what it changes, what was told differently."""

from __future__ import annotations

from itertools import cycle
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.browser.conftest import Server
    from tests.browser.runs_made import Made


@pytest.fixture
def server(server_of_runs: Server) -> Server:
    """Pages of the darkroom with runs that are over."""
    return server_of_runs


def test_runs_are_looked_over(
    page: Any, made: Made, axe_findings: Callable[[Any], list[str]], sideways: Callable[[Any], int]
) -> None:
    """From the list to two runs side by side; one settled; a look told, its proposal taken; a light a page."""
    lights = cycle(("light", "dark", "dim"))

    def sound() -> None:
        light = next(lights)
        page.select_option("[data-theme-choice]", light)
        assert axe_findings(page) == [], (page.url, light)
        assert sideways(page) <= 0, (page.url, light)

    page.goto("/runs/")
    page.click("text=Compare two")
    assert page.locator("h1").inner_text() == "Which two runs do not match?"
    sound()
    page.select_option("#c-one", made.one)
    page.select_option("#c-other", made.other)
    page.click("button:has-text('Compare')")
    assert page.locator("h1").inner_text().startswith("Load 2: likely +")
    assert "Late and early acts" in page.locator("main").inner_text()
    sound()
    page.goto(f"/runs/{made.one}/")
    assert "One thing was told differently" in page.locator("main").inner_text()
    assert "Planned and actual" in page.locator("main").inner_text()
    sound()
    page.click("text=What counts now is right")
    assert "told differently" not in page.locator("main").inner_text()
    page.click("text=One thing was taken back or left out")
    assert page.locator(".contested-left li").count() == 1
    sound()
    page.click("text=Look at a negative")
    page.check("[name=how][value=densitometer]")
    assert page.locator("#l-low").is_visible()
    assert not page.locator("[name=shadow]").first.is_visible()
    page.fill("#l-low", "0,30")
    page.fill("#l-high", "much")
    page.click("text=Keep the look")
    assert page.locator("#l-high-m").inner_text()
    sound()
    page.fill("#l-high", "1,55")
    page.click("text=Keep the look")
    assert "Range 1.25" in page.locator("main").inner_text()
    sound()
    page.click("text=Take the new times")
    page.wait_for_url("**/plans/*-*/")
    assert "Planned anew" in page.locator(".told").first.inner_text()
    page.click("text=Undo the planning anew")
    assert "ready again" in page.locator(".told").first.inner_text()
    page.wrong[:] = [line for line in page.wrong if "422" not in line]
