"""Runs in Chromium: the list, a start by keys alone, everything without a script; sound for axe in any light."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.browser.conftest import Server

LIGHTS = ("light", "dark", "dim")


def fill(page: Any) -> None:
    page.goto("/runs/new/")
    for name, text in (("film", "Tolland 100"), ("developer", "Brackwater 1+24"), ("time", "8:00")):
        page.locator(f"main [name={name}]").fill(text)
    page.keyboard.press("Enter")
    page.wait_for_url("**/runs/*-*/")


def test_pages_of_runs_are_sound_in_every_light(
    page: Any, axe_findings: Callable[[Any], list[str]], sideways: Callable[[Any], int]
) -> None:
    """Empty list, new run, forms of a run, list, a run given up: axe finds nothing, none is too wide."""
    addresses = ["/runs/", "/runs/new/"]
    fill(page)
    run = page.url
    addresses += [f"{run}?more", "/runs/"]

    def look(address: str) -> None:
        page.goto(address)
        for light in LIGHTS:
            page.select_option("[data-theme-choice]", light)
            assert axe_findings(page) == [], (address, light)
            assert sideways(page) <= 0, (address, light)

    for address in addresses:
        look(address)
    page.goto(f"{run}?more")
    page.click("text=Give this run up")
    assert page.locator("h1").last.inner_text() == "The run was given up"
    look(run)


def test_a_run_without_a_script(browser: Any, server: Server) -> None:
    """Start, tell, take back, a reading, a mistake beside its field, an incident, giving up: forms alone."""
    context = browser.new_context(base_url=server.address, java_script_enabled=False)
    page = context.new_page()
    fill(page)
    run = page.url
    assert page.locator("h1.run-head").inner_text().startswith("Developer, full in 0:")
    page.click(".run-plain .run-tell")
    assert "Taken: developer, full." in page.locator(".told").first.inner_text()
    assert page.locator("h1.run-head").inner_text().startswith("Developer, drain in ")
    assert page.locator(".run-plain .run-tell").inner_text() == "Stop is in"
    assert page.locator("noscript").count() == 1
    page.click(".run-plain >> text=Take back: the developer is in")
    assert "Taken back" in page.locator(".told").first.inner_text()
    assert page.locator("text=Take back").count() == 0
    page.click("text=Temperature, lost sheet")
    page.fill("#p-shown", "warm")
    page.click("text=Keep the reading")
    assert page.locator("#p-shown").input_value() == "warm"
    assert page.locator("#p-shown-m").inner_text()
    page.fill("#p-shown", "20,5")
    page.click("text=Keep the reading")
    assert "20.5" in page.locator(".told").first.inner_text()
    page.goto(f"{run}?more")
    page.fill("#p-why", "no water")
    page.click("text=Give this run up")
    assert page.locator("h1.run-head").inner_text() == "The run was given up"
    context.close()
