"""The shelf in a browser: readable by a screen reader, no wider than a phone, whole by keyboard."""

from __future__ import annotations

from typing import Any

THEMES = ("light", "dark", "dim")


def fill(page: Any, **values: str) -> None:
    for name, value in values.items():
        field = page.locator(f"[name={name}]").first
        if field.evaluate("field => field.tagName") == "SELECT":
            field.select_option(value)
        else:
            field.fill(value)


def add(page: Any, **values: str) -> str:
    page.goto("/shelf/bottles/new/")
    fill(page, **values)
    page.get_by_role("button", name="Put it on the shelf").click()
    page.wait_for_url("**/shelf/bottles/*-*/")
    return str(page.url)


def sound(page: Any, axe_findings: Any, sideways: Any) -> None:
    assert not sideways(page), page.url
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert not sideways(page), page.url
    for theme in THEMES:
        page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
        assert not axe_findings(page), (page.url, theme)


def furnish(page: Any) -> dict[str, str]:
    """A shelf with something of everything."""
    add(page, mark="D", holds="Brackwater", role="developer", form="concentrate", volume="500 ml", opened="2026-01-02")
    fixer = add(page, mark="F", holds="Rapid fixer", role="fixer", form="working", dilution="1+4", volume="1 l")
    for time, fresh in (("0:40", True), ("1:15", False)):
        page.goto(fixer)
        page.get_by_text("Clearing test", exact=True).click()
        form = page.locator("form[action$='enter/clearing/']")
        form.locator("[name=time]").fill(time)
        form.locator("[name=temp]").fill("20")
        form.locator("[name=film]").fill("Tolland 100")
        form.locator("[name=fresh]").set_checked(fresh)
        form.get_by_role("button").click()
        page.get_by_text("Undo it").wait_for()
    add(page, mark="T", holds="Selenium toner", role="toner", volume="500 ml", keeps_until="2020-01-01")
    add(page, mark="S", holds="Acid stop", role="stop", volume="1 l")
    add(page, mark="W", holds="used fixer", role="waste-fixer", volume="300 ml")
    page.goto("/shelf/vessels/new/")
    fill(page, name="short drum", kind="drum", places="9x12cm 6, 13x18cm 4", min="300 ml", max="1000 ml")
    page.get_by_role("button", name="Add it").click()
    page.wait_for_url("**/shelf/vessels/*-*/")
    vessel = str(page.url)
    page.goto("/shelf/instruments/new/")
    fill(page, name="long glass one", kind="thermometer")
    page.get_by_role("button", name="Add it").click()
    page.wait_for_url("**/shelf/instruments/*-*/")
    fill(page, against="ice water", reference="0 C", read="0.4 C")
    page.get_by_role("button", name="Keep the check").click()
    page.get_by_role("button", name="Take this offset").wait_for()
    return {"fixer": fixer, "vessel": vessel, "instrument": str(page.url)}


def test_every_page_of_the_shelf_has_no_findings_and_fits(page: Any, axe_findings: Any, sideways: Any) -> None:
    """Filled pages, with everything unfolded, in every theme."""
    made = furnish(page)
    mixing = "/shelf/mixing/?what=Brackwater&dilution=1%2B24&volume=600+ml&concentrate_temp=17+C"
    for address in (
        "/shelf/",
        made["fixer"],
        "/shelf/bottles/new/",
        f"{made['fixer']}change/",
        "/shelf/gone/",
        "/shelf/mixing/",
        mixing,
        "/shelf/mixing/?what=formula%3Amq-borax&volume=1+l",
        "/shelf/vessels/",
        made["vessel"],
        "/shelf/instruments/",
        made["instrument"],
    ):
        page.goto(address)
        sound(page, axe_findings, sideways)
    page.goto("/shelf/")
    assert page.locator("h1").inner_text() == "Four bottles; one spent, one near the end"


def test_empty_parts_teach_the_next_step(page: Any, axe_findings: Any, sideways: Any) -> None:
    """An empty shelf, no vessel and no instrument each lead on."""
    for address, link in (
        ("/shelf/", "Add a bottle"),
        ("/shelf/mixing/", "Add a bottle"),
        ("/shelf/vessels/", "Add a vessel"),
        ("/shelf/instruments/", "Add an instrument"),
    ):
        page.goto(address)
        sound(page, axe_findings, sideways)
        assert page.get_by_role("link", name=link).is_visible()


def test_drawn_with_one_tap_and_undone_by_keyboard(page: Any) -> None:
    """One tap books the usual amount; the way back is reached without a pointer."""
    add(page, mark="D", holds="Brackwater", role="developer", volume="500 ml")
    page.get_by_role("button", name="Drawn 50").click()
    page.get_by_text("Undo it").wait_for()
    assert page.locator("h1").inner_text().replace("\N{NO-BREAK SPACE}", " ") == "D: 450 ml of Brackwater"
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "Undo it":
            break
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="500").wait_for()


def test_mixed_by_keyboard(page: Any) -> None:
    """From the question to the booked bottle with keys alone."""
    add(page, mark="D", holds="Brackwater", role="developer", volume="500 ml")
    page.goto("/shelf/mixing/")
    page.locator("[name=what]").focus()
    page.keyboard.press("B")
    page.keyboard.press("Tab")
    page.keyboard.type("1+24")
    page.keyboard.press("Tab")
    page.keyboard.type("600")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="From these bottles").wait_for()
    page.locator("[name=mark]").focus()
    page.keyboard.type("W")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Brackwater 1+24").wait_for()
    assert page.locator("h1").inner_text().replace("\N{NO-BREAK SPACE}", " ") == "W: 600 ml of Brackwater 1+24"
