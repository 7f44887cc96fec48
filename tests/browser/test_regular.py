"""A regular's evening: sheets, mishap, plan, comparison, freezing, files; by keys alone; at 200 % text."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest
from playwright.sync_api import expect

SHELF = """
import django
django.setup()
from wetside.records.models import *
from wetside.services.records.changes import make
times = [{"developer": "Brackwater", "dilution": "1+14", "time": "7:30"},
         {"developer": "Marrow", "dilution": "1+9", "time": "9:00"}]
make(Film, {"name": "Tolland 100", "ei": 80.0, "facts": {"times": times}})
for name, developer, dilution in (("drum, one shot", "Brackwater", "1+14"), ("drum, slow", "Marrow", "1+9")):
    process = make(Process, {"name": name})
    ProcessVersion.objects.create(process=process, version=1, developer=developer, dilution=dilution, temp_c=20.0,
                                  clock="full-to-drain")
make(Vessel, {"name": "long drum", "kind": "drum", "min_ml": 300.0, "max_ml": 1000.0, "facts": {"places": 6}})
"""
RUN = "import sys; from wetside.cli import main; sys.exit(main())"
SIDES = ("31 left", "31 right", "32 left")
MAIN = (
    "/",
    "/sheets/",
    "/sheets/new/",
    "/plans/",
    "/plans/new/",
    "/shelf/",
    "/films/",
    "/processes/",
    "/aims/",
    "/short/",
)


def furnish(server) -> None:
    """Put a regular's shelf into the running server's folder."""
    environment = {**os.environ, "WETSIDE_DATA": str(server.data), "DJANGO_SETTINGS_MODULE": "wetside.web.settings"}
    told = subprocess.run([sys.executable, "-c", SHELF], env=environment, capture_output=True, text=True, check=False)
    assert told.returncode == 0, told.stderr


def fetched(page, link) -> bytes:
    """What a link of the page leads to."""
    answer = page.request.get(link.get_attribute("href"))
    assert answer.ok, answer.url
    return answer.body()


def enter_three(page) -> None:
    """Three rows by Enter: the holder side goes on by itself."""
    page.goto("/sheets/new/")
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()
    page.locator("#f-holder").fill(SIDES[0])
    page.locator("#f-film").fill("Tolland 100")
    page.locator("#f-size").fill("9x12cm")
    for count in range(1, 4):
        page.keyboard.press("Enter")
        expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(count)


def test_a_regular_evening_from_sheets_to_files(page, server, tmp_path) -> None:
    """The exported evening file gives the loads of the frozen plan."""
    furnish(server)
    enter_three(page)
    page.goto("/sheets/")
    page.get_by_role("link", name=SIDES[2], exact=True).click()
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()
    page.get_by_role("button", name="Double exposure").click()
    expect(page.get_by_role("button", name="Double exposure")).to_have_attribute("aria-pressed", "true")
    page.goto("/plans/new/")
    for box in page.locator("input[name=sheets]").all():
        box.check()
    page.get_by_role("button", name="Plan these sheets").click()
    page.wait_for_selector("#choices")
    if page.locator("#choices").get_attribute("open") is None:
        page.locator("#choices > summary").click()
    page.locator("#c-process").select_option(label="drum, one shot")
    page.wait_for_selector("a.bar:visible")
    page.locator("#compare-choices > summary").click()
    page.get_by_label("drum, slow", exact=True).check()
    page.wait_for_selector("table.compared")
    expect(page.locator("table.compared")).to_contain_text("9:00")
    page.locator(".freeze button").click()
    page.wait_for_selector("text=What was frozen")
    kept = {}
    for name in ("plan.json", "evening.toml"):
        kept[name] = tmp_path / name
        kept[name].write_bytes(fetched(page, page.get_by_role("link", name=name, exact=True)))
    page.get_by_role("link", name="Run sheet").first.click()
    assert fetched(page, page.get_by_role("link", name=".pdf").first).startswith(b"%PDF")
    again = subprocess.run(
        [sys.executable, "-c", RUN, "plan", str(kept["evening.toml"]), "--json"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert again.returncode == 0, again.stderr
    frozen = json.loads(kept["plan.json"].read_text("utf-8"))
    assert frozen["loads"]
    assert json.loads(again.stdout)["loads"] == frozen["loads"]


def test_from_start_to_a_frozen_plan_by_keys_alone(page) -> None:
    """Tab, arrows and Enter reach the button that furnishes, a bar of the chart, and the freezing."""
    page.goto("/")

    def tab_to(words: str, key: str = "Enter") -> None:
        for _ in range(150):
            page.keyboard.press("Tab")
            if words in page.evaluate("document.activeElement.textContent + document.activeElement.classList"):
                page.keyboard.press(key)
                return
        pytest.fail(f"the tab key does not reach {words!r}")

    tab_to("Furnish the demo darkroom")
    page.wait_for_selector("a.bar:visible")
    tab_to("bar", "ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_selector("#why-title:focus")
    tab_to("Freeze into 6 run sheets")
    page.wait_for_selector("text=What was frozen")


def test_text_of_twice_the_size_leaves_no_sideways_scroll(page, server, sideways) -> None:
    """Letters doubled by the browser's own setting at 640 pixels, as WCAG 1.4.4 asks."""
    furnish(server)
    enter_three(page)
    page.set_viewport_size({"width": 640, "height": 900})
    styled = page.context.new_cdp_session(page)
    styled.send("DOM.enable")
    styled.send("CSS.enable")
    wide = {}
    for address in MAIN:
        page.goto(address)
        before = page.evaluate("parseFloat(getComputedStyle(document.querySelector('h1')).fontSize)")
        frame = styled.send("Page.getFrameTree")["frameTree"]["frame"]["id"]
        sheet = styled.send("CSS.createStyleSheet", {"frameId": frame})["styleSheetId"]
        styled.send("CSS.setStyleSheetText", {"styleSheetId": sheet, "text": "html { font-size: 200% !important }"})
        after = page.evaluate("parseFloat(getComputedStyle(document.querySelector('h1')).fontSize)")
        assert after > before * 1.5, (address, before, after)
        if (by := sideways(page)) > 0:
            wide[address] = by
    assert wide == {}
