"""Pages of films, processes and aims on a real server: free of findings, narrow enough, whole by keyboard."""

from __future__ import annotations

from pathlib import Path

CURVES = (Path(__file__).resolve().parents[2] / "examples/demo/tolland-100.csv").read_text("utf-8")


def keep_film(page):
    page.goto("/films/new/")
    page.fill("#f-name", "Tolland 100")
    page.fill("[name='times[1].developer']", "Brackwater")
    page.fill("[name='times[1].time']", "8:00")
    page.get_by_role("button", name="Keep the film").click()
    page.wait_for_url("**/films/*-*/")


def look_at(page, axe_findings, sideways):
    assert not sideways(page), page.url
    for theme in ("light", "dark", "dim"):
        page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
        assert not axe_findings(page), (page.url, theme)


def test_a_film_with_a_test_is_entered_looked_at_and_kept(page, axe_findings, sideways) -> None:
    """From the empty list to a film that rests on a test, each page on the way free of findings."""
    keep_film(page)
    look_at(page, axe_findings, sideways)
    page.get_by_role("link", name="Enter a test").click()
    page.wait_for_selector("#f-readings")
    look_at(page, axe_findings, sideways)
    page.fill("#f-readings", "dev_min,log_h,density\n5,-2.4,thick\n")
    page.fill("#f-developer", "Brackwater")
    page.get_by_role("button", name="Look at the readings").click()
    page.wait_for_selector("[role=alert]")
    page.wrong.clear()  # the browser itself reports every answer of 422
    look_at(page, axe_findings, sideways)
    page.fill("#f-readings", CURVES)
    page.get_by_role("button", name="Look at the readings").click()
    page.wait_for_selector("svg.curves >> visible=true")
    look_at(page, axe_findings, sideways)
    page.get_by_role("button", name="Keep this test").click()
    page.wait_for_url("**/films/*-*/")
    assert "rests on your own tests" in page.inner_text("h1")
    look_at(page, axe_findings, sideways)


def test_baths_are_ordered_by_keyboard_alone(page, axe_findings, sideways) -> None:
    """The button of the bath that moved keeps the focus, so that it can be pressed again."""
    page.goto("/processes/new/")
    look_at(page, axe_findings, sideways)
    page.fill("#f-name", "drum, one shot")
    page.fill("#f-developer", "Brackwater")
    page.locator("button[value='down-1']").focus()
    page.keyboard.press("Enter")
    page.wait_for_selector("legend:has-text('2. Develop')")
    assert page.evaluate("document.activeElement.value") == "down-2"
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector("legend:has-text('1. Develop')")
    page.locator("#f-name").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/processes/*-*/")
    look_at(page, axe_findings, sideways)


def test_an_aim_of_a_paper_by_name(page, axe_findings, sideways) -> None:
    """Chosen from the list, looked at, kept."""
    page.goto("/aims/new/")
    look_at(page, axe_findings, sideways)
    page.get_by_role("button", name="Begin with it").click()
    page.wait_for_selector("h1:has-text('not kept yet')")
    page.get_by_role("button", name="Keep the aim").click()
    page.wait_for_url("**/aims/")
    assert page.inner_text("h1").startswith("One aim")
    look_at(page, axe_findings, sideways)


def test_a_developer_with_a_pair(page, axe_findings, sideways) -> None:
    """Its title becomes the share of time a degree."""
    page.goto("/films/developers/new/")
    look_at(page, axe_findings, sideways)
    page.fill("#f-name", "Brackwater")
    for name, value in (("cold", "20"), ("cold_time", "8:00"), ("warm", "24"), ("warm_time", "5:55")):
        page.fill(f"[name='pairs[1].{name}']", value)
    page.get_by_role("button", name="Keep the developer").click()
    page.wait_for_selector("h1:has-text('7.5 % of time a degree')")
    look_at(page, axe_findings, sideways)
