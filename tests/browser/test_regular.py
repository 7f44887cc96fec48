"""A regular's evening: sheets, mishap, plan, comparison, freezing, files; by keys alone; at 200 % text."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import zipfile

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


def is_phone(page) -> bool:
    """Whether the page was opened with a screen that takes fingers."""
    return page.viewport_size["width"] < 500


def touch(page, target) -> None:
    """A tap of a finger where the screen takes one, a click of the mouse elsewhere."""
    if is_phone(page):
        target.tap()
    else:
        target.click()


def downloaded(page, link, folder) -> bytes:
    """What the link saves when it is touched."""
    with page.expect_download() as loading:
        touch(page, link)
    kept = folder / loading.value.suggested_filename
    loading.value.save_as(kept)
    return kept.read_bytes()


def enter_three(page) -> None:
    """Three rows: the holder side goes on by itself; by a finger with the button, by keys with Enter."""
    page.goto("/sheets/new/")
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()
    page.locator("#f-holder").fill(SIDES[0])
    page.locator("#f-film").fill("Tolland 100")
    page.locator("#f-size").fill("9x12cm")
    for count in range(1, 4):
        if is_phone(page):
            page.get_by_role("button", name="Keep, and the next").tap()
        else:
            page.keyboard.press("Enter")
        expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(count)


def run_program(*words) -> str:
    told = subprocess.run([sys.executable, "-c", RUN, *words], capture_output=True, text=True, check=False)
    assert told.returncode == 0, told.stderr
    return told.stdout


def values_of(export) -> dict[str, object]:
    """All records of an export, file by file; when and by what it was written is no value."""
    with zipfile.ZipFile(export) as packed:
        return {
            name: json.loads(packed.read(name)) if name.endswith(".json") else packed.read(name)
            for name in packed.namelist()
            if not name.endswith("manifest.json")
        }


def test_a_regular_evening_from_sheets_to_files(page, server, tmp_path) -> None:
    """The saved evening file gives the frozen plan's loads; the export gives its records in an empty archive."""
    furnish(server)
    enter_three(page)
    page.goto("/sheets/")
    touch(page, page.get_by_role("link", name=SIDES[2], exact=True))
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()
    touch(page, page.get_by_role("button", name="Double exposure"))
    expect(page.get_by_role("button", name="Double exposure")).to_have_attribute("aria-pressed", "true")
    touch(page, page.get_by_role("navigation", name="Parts of the darkroom").get_by_role("link", name="Sheets"))
    for side in SIDES:
        touch(page, page.get_by_role("checkbox", name=f"Pick {side}"))
    expect(page.locator("[data-picked-count]")).to_have_text("3 ticked")
    touch(page, page.get_by_role("button", name="Plan these"))
    if page.url.endswith("/plans/new/") or "sheet" in page.url.rpartition("?")[2]:
        touch(page, page.get_by_role("button", name="Plan these sheets"))
    page.wait_for_selector("#choices")
    if page.locator("#choices").get_attribute("open") is None:
        touch(page, page.locator("#choices > summary"))
    page.locator("#c-process").select_option(label="drum, one shot")
    page.wait_for_selector("a.bar:visible")
    touch(page, page.locator("#compare-choices > summary"))
    touch(page, page.get_by_label("drum, slow", exact=True))
    page.wait_for_selector("table.compared")
    expect(page.locator("table.compared")).to_contain_text("9:00")
    touch(page, page.locator(".freeze button"))
    page.wait_for_selector("text=What was frozen")
    frozen = json.loads(downloaded(page, page.get_by_role("link", name="plan.json", exact=True), tmp_path))
    downloaded(page, page.get_by_role("link", name="evening.toml", exact=True), tmp_path)
    again = json.loads(run_program("plan", str(tmp_path / "evening.toml"), "--json"))
    assert frozen["loads"]
    assert again["loads"] == frozen["loads"]
    touch(page, page.get_by_role("link", name="Run sheet").first)
    link = page.get_by_role("link", name=".pdf").first
    # The browser shows a PDF where it can, to be printed from there; an answer that is shown has no file to open.
    with page.context.expect_event("response", lambda answer: answer.url.endswith(".pdf")) as shown:
        touch(page, link)
    run_sheet = page.request.get(shown.value.url).body()
    assert shown.value.headers["content-type"] == "application/pdf"
    assert run_sheet.startswith(b"%PDF")
    assert run_sheet.rstrip().endswith(b"%%EOF")
    page.go_back()
    touch(page, page.get_by_role("link", name="Darkroom and archive"))
    downloaded(page, page.get_by_role("link", name="Download an export"), tmp_path)
    (export,) = tmp_path.glob("*.zip")
    run_program("import", str(export), "--data", str(tmp_path / "empty"))
    run_program("export", str(tmp_path / "again.zip"), "--data", str(tmp_path / "empty"))
    assert values_of(tmp_path / "again.zip") == values_of(export)


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
