"""The demo's evening at speed: load after load at the page, acts and seconds counted against the budget."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Any

from tests.browser.plain_person import PlainPerson
from tests.browser.test_run_page import CLOCK, HEAD, READY, until

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.browser.moved_darkroom import Darkroom

START_S = 15.0
"""From "start" to a run that counts (decided 24). [s]"""
PAUSE_S, LETTER_S = 0.4, 0.09
"""A person looks before each act, and types eleven letters a second at most. Our choice. [s]"""
MOST = {"before lights out": 3, "after": 1, "at the end": 1}


def test_two_loads_one_after_the_other(
    darkroom: Darkroom,
    axe_findings: Callable[[Any], list[str]],
    sideways: Callable[[Any], int],
) -> None:
    """A plain load wants one act a bath; the way from its end to the next load is one act."""
    page = darkroom.page
    page.goto("/")
    page.get_by_role("button", name="Furnish the demo darkroom").click()
    page.wait_for_selector("a.bar:visible")
    page.locator(".freeze button").click()
    page.wait_for_selector("text=What was frozen")
    page.get_by_role("button", name="Start load 1").click()
    darkroom.shown()
    person = PlainPerson(darkroom)
    person.go_through()
    assert {kind: person.acts[kind] <= most for kind, most in MOST.items()} == dict.fromkeys(MOST, True), person.acts
    assert person.acts["a bath"] == 6, "pre-soak, developer, stop, fixer, wash, wetting agent: one each"
    page.wait_for_selector("[data-run-over]:visible")
    assert page.locator(HEAD).inner_text() == "The run is over"
    assert not page.locator("[data-run-tell]").is_visible()
    assert not page.locator("[data-run-track]").is_visible()
    assert axe_findings(page) == []
    first = page.url
    page.locator("[data-run-over]").get_by_role("button", name="Start load 2").click()
    page.wait_for_url(lambda address: address != first)
    darkroom.shown()
    assert page.locator(HEAD).inner_text() == "Lights out?"
    page.goto(first)
    assert axe_findings(page) == []
    assert sideways(page) <= 0
    assert page.locator(".run-next h2").inner_text() == "Next: load 2", "as long as nothing was poured"
    page.goto("/runs/")
    names = page.locator("main table th[scope=row] a").all_inner_texts()
    assert [name.rpartition(" ")[2] for name in names] == ["2", "3", "4", "5", "6", "1"], "in the evening's order"


def test_from_start_to_a_counting_run(page: Any) -> None:
    """From the first page by hand: two taps, three answers, Enter; under 15 s with a person's pauses."""
    page.goto("/")

    def typed(text: str) -> None:
        page.wait_for_timeout(PAUSE_S * 1000)
        page.keyboard.type(text, delay=LETTER_S * 1000)

    begun = time.monotonic()
    page.wait_for_timeout(PAUSE_S * 1000)
    page.get_by_role("link", name="Runs", exact=True).click()
    page.wait_for_timeout(PAUSE_S * 1000)
    page.locator("main").get_by_role("link", name="Film, developer, minutes").click()
    page.wait_for_timeout(PAUSE_S * 1000)
    page.locator("main [name=film]").click()
    typed("Tolland 100")
    page.keyboard.press("Tab")
    typed("Brackwater 1+14")
    page.keyboard.press("Tab")
    typed("7:30")
    page.keyboard.press("Enter")
    page.wait_for_selector(READY)
    until(page, "/^[0-9]+:[0-9]{2}$/.test(document.querySelector('[data-run-clock]').textContent)")
    lasted_s = time.monotonic() - begun
    assert lasted_s < START_S, lasted_s
    assert page.locator(CLOCK).inner_text() != ""
