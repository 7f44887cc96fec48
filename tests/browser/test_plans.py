"""Plans as a person meets them: the first start, the short way, a plan whose choices are live, by mouse and by keys."""

from __future__ import annotations

import re
import time

THREE_MINUTES_S = 180.0
ACT_S = 6.0
"""What one act of a person who reads takes: find, aim, press, look. Our choice, on the slow side. [s]"""
LETTER_S = 0.35
"""What one typed letter takes a person who is no typist: 34 words a minute. [s]"""


class Person:
    """A scripted person: counts acts and letters, and what the pages took beside them."""

    def __init__(self, page) -> None:
        self.page = page
        self.acts = 0
        self.letters = 0
        self.began = time.monotonic()

    def press(self, locator) -> None:
        self.acts += 1
        locator.click()

    def type(self, label: str, text: str) -> None:
        self.acts += 1
        self.letters += len(text)
        self.page.get_by_label(label, exact=False).first.fill(text)

    @property
    def seconds(self) -> float:
        return self.acts * ACT_S + self.letters * LETTER_S + time.monotonic() - self.began


def test_a_newcomer_reaches_a_useful_plan(page) -> None:
    """First start to a plan that can be tried and frozen: two acts, far below three minutes."""
    person = Person(page)
    page.goto("/")
    person.press(page.get_by_role("button", name="Furnish the demo darkroom"))
    page.wait_for_selector("a.bar:visible")
    assert page.locator("h1").inner_text() == "Eleven sheets, six loads"
    person.press(page.locator(".freeze button"))
    page.wait_for_selector("text=What was frozen")
    assert page.get_by_role("link", name="Run sheet").count() == 6
    assert person.acts == 2
    assert person.seconds < THREE_MINUTES_S


def test_a_newcomer_reaches_a_run_sheet_on_the_short_way(page) -> None:
    """First start, four answers and the time of the box: a run sheet, with eight acts and below three minutes."""
    person = Person(page)
    page.goto("/")
    person.press(page.get_by_role("link", name="Four answers"))
    person.type("Film", "Tolland 40")
    person.type("Developer and dilution", "Marrow 1+9")
    person.type("Sheets", "6")
    person.type("Vessel", "drum 6, 300-1000 ml")
    person.press(page.get_by_role("button", name="Show the run sheet"))
    assert page.locator(".mistake").count() == 1
    page.wrong.clear()  # the browser reports the 422 that says so
    person.type("Time", "7:30")
    person.press(page.get_by_role("button", name="Show the run sheet"))
    assert page.locator("h1").inner_text() == "Six sheets, one load"
    assert "develop 7:30" in page.locator(".run-sheet").inner_text()
    assert person.acts == 8
    assert person.seconds < THREE_MINUTES_S


def furnished(page) -> str:
    page.goto("/")
    page.get_by_role("button", name="Furnish the demo darkroom").click()
    page.wait_for_selector("a.bar:visible")
    return str(page.url)


def chart(page):
    return page.locator("svg.windows:visible")


def test_a_choice_changes_the_plan_at_once(page) -> None:
    """Twins together: a load fewer, without a new page; the field keeps the focus and what was open stays open."""
    furnished(page)
    page.locator("#choices > summary").click()
    page.locator("#f-twins-apart").uncheck()
    page.wait_for_selector("h1:text-is('Eleven sheets, five loads')")
    assert page.locator("#choices").get_attribute("open") is not None
    assert page.evaluate("document.activeElement.id") == "f-twins-apart"
    assert chart(page).locator("a.bar").count() == 11


def test_a_mistake_in_a_choice_stands_beside_it(page) -> None:
    """The plan before stays; the field says what is wrong; put right, it plans again."""
    furnished(page)
    page.locator("#choices > summary").click()
    page.locator("#f-floor").fill("soon")
    page.locator("#f-floor").press("Tab")
    page.wait_for_selector("#f-floor-m")
    assert page.locator("#f-floor").input_value() == "soon"
    page.wrong.clear()  # the browser reports the 422 that says so
    page.locator("#f-floor").fill("6:00")
    page.locator("#f-floor").press("Tab")
    page.wait_for_selector("#f-floor-m", state="detached")


def test_the_chart_is_walked_by_keyboard(page) -> None:
    """One stop for the tab key, arrows from bar to bar, each said; Enter opens the reckoning and goes there."""
    furnished(page)
    bars = chart(page).locator("a.bar")
    bars.first.focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    said = page.locator("[data-bar-said]").inner_text()
    assert said == bars.nth(2).get_attribute("aria-label")
    assert "window" in said
    page.keyboard.press("End")
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == bars.last.get_attribute("aria-label")
    assert chart(page).locator('a.bar[tabindex="0"]').count() == 1
    page.keyboard.press("Enter")
    page.wait_for_selector("#why-title")
    page.wait_for_selector("#why-title:focus")
    label = bars.last.get_attribute("aria-label").partition(":")[0]
    assert page.locator("#why-title").inner_text().startswith(label)


def test_the_chart_fits_a_phone_and_is_legible(page) -> None:
    """No wider than the screen, and no letter smaller than twelve pixels as drawn."""
    furnished(page)
    drawn = chart(page)
    box = drawn.bounding_box()
    assert box["width"] <= page.viewport_size["width"]
    smallest = drawn.evaluate(
        "svg => Math.min(...[...svg.querySelectorAll('text')].map("
        "text => text.getAttribute('font-size') * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width))"
    )
    assert smallest >= 12


def test_developers_are_compared_beside_each_other(page) -> None:
    """Picked in the choices, answered as a table under the plan."""
    furnished(page)
    page.locator("#choices > summary").click()
    page.locator("#compare-choices > summary").click()
    page.locator('#compare-choices input[type="checkbox"]').first.check()
    page.wait_for_selector("table.compared")
    assert "at hand" in page.locator("table.compared").inner_text()


def test_a_load_is_noted_and_taken_back(page) -> None:
    """From the run sheet, and undone on the same page."""
    furnished(page)
    page.locator(".freeze button").click()
    page.get_by_role("link", name="Run sheet").first.click()
    page.get_by_role("button", name="Note it as developed").click()
    page.wait_for_selector("text=Noted as developed for 7:20")
    page.get_by_role("button", name="Take that back").click()
    page.wait_for_selector("text=Developed by the clock on the wall?")


def test_pages_of_plans_have_no_findings_and_fit(page, axe_findings, sideways) -> None:
    """Free of axe findings in every theme and no wider than the screen: empty, furnished, frozen, short, mistaken."""
    short = "/short/?film=Tolland+40&developer=Marrow+1%2B9&number=8&vessel=drum+6,+300-1000+ml"

    def look(name: str) -> None:
        assert not sideways(page), name
        for theme in ("light", "dark", "dim"):
            page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
            assert not axe_findings(page), (name, theme)

    for address in ("/", "/plans/", "/plans/new/", "/plans/import/", "/short/", f"{short}&time=7:30"):
        page.goto(address)
        look(address)
    page.goto(short)
    look("short way with a mistake")
    page.wrong.clear()
    address = furnished(page)
    chart(page).locator("a.bar").nth(1).click()
    page.wait_for_selector("#why-title")
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    look("a draft, all open")
    for other in ("/plans/new/", "/plans/", "/"):
        page.goto(other)
        look(f"furnished {other}")
    page.goto(address)
    page.locator(".freeze button").click()
    page.wait_for_selector("text=What was frozen")
    look("frozen")
    page.get_by_role("link", name="Run sheet").first.click()
    page.wait_for_url(re.compile("/loads/1/"))
    look("a load")
