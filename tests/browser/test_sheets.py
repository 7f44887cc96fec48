"""Pages of sheets and holders in a browser: whole by keyboard and by thumb, in every theme, as wide as the screen."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import pytest
from playwright.sync_api import expect
from tests.browser.conftest import Server, start_server, stop_server

if TYPE_CHECKING:
    from collections.abc import Iterator

CASES = json.loads((Path(__file__).parents[1] / "fixtures/next_labels.json").read_text("utf-8"))

FILLED = """
import datetime as dt
from wetside.web.serve import set_up
set_up()
from wetside.records.models import *
from wetside.services.records.changes import make
from wetside.services.records.sheets import add_sheet, end_sheet, remove_sheet, correct_sheet
from wetside.services.records.holders import *
from wetside.services.records.holders_moves import load, doubt, unload
tolland = make(Film, {"name": "Tolland 100", "ei": 80.0, "facts": {"reciprocity": {"power": 1.31}}})
make(Film, {"name": "Morvane 320", "ei": 320.0})
process = make(Process, {"name": "drum, one shot"})
ProcessVersion.objects.create(process=process, version=1, developer="Brackwater", dilution="1+24", temp_c=20.0,
                              clock="full-to-drain")
make(Aim, {"name": "grade 2", "printing": "graded-paper", "density_range": 1.05})
keep_lot("Tolland 100", "4711", expires="2026-01-01")
make_holders("1 to 5", size="9x12cm")
today = dt.date(2026, 11, 25)
load(sides_named("1 to 3"), "Tolland 100", lot="4711", day=today, today=today)
doubt(sides_named("1 left")[0])
unload(sides_named("1 right")[0])
for holder, more in (("2 left", {"n": "N-1", "process": "drum, one shot"}), ("7 left", {"importance": "irreplaceable"}),
                     ("8 left", {"suspect": True, "mishaps": ["double-exposure"]}), ("9 left", {"twin": "7 left"})):
    sheet = add_sheet({"holder": holder, "film": "Tolland 100", "exposed": "2026-09-07", "size": "9x12cm", **more})
meant = {"time": "2 s", "filter": 4.0, "extension": "450 mm", "focal": "300 mm", "ei": 80.0}
correct_sheet(sheet, {"holder": "9 left", "film": "Tolland 100", "meant": meant, "mishaps": ["bellows-forgotten"],
                      "shadow": {"ev": 9.0, "zone": 3.0}, "highlight": {"ev": 15.0, "zone": 8.0}})
lost = add_sheet({"holder": "10 left", "film": "Tolland 100"})
end_sheet(lost, "lost")
gone = add_sheet({"holder": "11 left", "film": "Tolland 100"})
remove_sheet(gone, dt.datetime(2026, 11, 25, tzinfo=dt.UTC))
print(sheet.pk, Holder.kept.first().pk)
"""


class Filled(NamedTuple):
    """A darkroom with an evening's sheets, and the identities of a sheet and a holder in it."""

    folder: Path
    keys: list[str]


@pytest.fixture(scope="session")
def filled_darkroom(empty_darkroom: Path, tmp_path_factory: pytest.TempPathFactory) -> Filled:
    """Made once, and copied for each test."""
    folder = tmp_path_factory.mktemp("filled") / "darkroom"
    shutil.copytree(empty_darkroom, folder)
    environment = {**os.environ, "WETSIDE_DATA": str(folder), "DJANGO_SETTINGS_MODULE": "wetside.web.settings"}
    told = subprocess.run([sys.executable, "-c", FILLED], env=environment, capture_output=True, text=True, check=False)
    assert told.returncode == 0, told.stderr
    return Filled(folder, told.stdout.split())


@pytest.fixture
def filled(filled_darkroom: Filled) -> list[str]:
    """Identities of a sheet and a holder in the darkroom that the test's server works on."""
    return filled_darkroom.keys


@pytest.fixture
def server(request: pytest.FixtureRequest, empty_darkroom: Path, tmp_path: Path) -> Iterator[Server]:
    """Program on a copy of the filled darkroom where the test asks for one, else of an empty one."""
    wants_filled = "filled" in request.fixturenames
    from_folder = request.getfixturevalue("filled_darkroom").folder if wants_filled else empty_darkroom
    shutil.copytree(from_folder, tmp_path / "darkroom")
    started = start_server(tmp_path / "darkroom")
    yield started
    stop_server(started)


def ready(page) -> None:
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()


def rows(page):
    return page.locator("[data-rows] li")


def test_filled_pages_have_no_findings_and_fit(page, filled, axe_findings, sideways) -> None:
    """Every page of the part, with everything on it, in every theme."""
    sheet, holder = filled
    addresses = (
        "/sheets/",
        "/sheets/new/",
        f"/sheets/{sheet}/",
        "/sheets/?show=lost",
        "/sheets/?show=removed",
        "/sheets/list/",
        "/holders/",
        f"/holders/{holder}/",
        "/holders/lots/",
        "/outbox/",
    )
    for address in addresses:
        page.goto(address)
        for details in page.locator("details:not([open]) > summary").all():
            details.click()
        assert sideways(page) <= 0, address
        for theme in ("light", "dark", "dim"):
            page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
            assert not axe_findings(page), (address, theme)


def test_ten_sheets_by_keyboard_alone(page, filled) -> None:
    """Enter keeps the row and begins the next: film, size and day stay, the holder side goes on."""
    page.goto("/sheets/new/")
    ready(page)
    page.locator("#f-holder").fill("20 left")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.type("Morvane 320")
    for _ in range(10):
        page.keyboard.press("Enter")
        expect(page.locator("#f-holder")).to_be_focused()
    expect(rows(page).filter(has_text="sent")).to_have_count(10)
    expect(page.locator("h1")).to_have_text("Next: 25 left")
    expect(page.locator("#f-film")).to_have_value("Morvane 320")
    page.goto("/sheets/")
    expect(page.locator("h1")).to_contain_text("14 sheets wait")
    for holder in ("20 left", "24 right"):
        expect(page.get_by_role("link", name=holder, exact=True)).to_be_visible()


# A disk that takes its time: whatever else wants to write waits until it is let go.
HELD = """
() => new Promise((begun) => {
  const request = indexedDB.open("wetside-outbox");
  request.onsuccess = () => {
    const items = request.result.transaction(["items", "meta"], "readwrite").objectStore("items");
    window.letGo = false;
    const hold = () => {
      if (window.letGo) request.result.close();
      else items.count().onsuccess = hold;
    };
    hold();
    begun();
  };
})
"""


def test_a_slow_disk_swallows_no_row_and_mixes_none(page, filled) -> None:
    """Rows entered while the first is being written: each with its own facts, in their order; the next stays typed."""
    page.goto("/sheets/new/")
    ready(page)
    page.evaluate(HELD)
    holder = page.locator("#f-holder")
    holder.fill("20 left")
    page.locator("#f-film").fill("Morvane 320")
    holder.press("Enter")
    expect(holder).to_have_value("20 right")
    page.locator("#f-n").fill("N-1")
    holder.press("Enter")
    expect(page.locator("#f-n")).to_have_value("")
    holder.fill("31 left")
    page.locator("#f-film").fill("Tolland 100")
    holder.press("Enter")
    holder.press_sequentially("40 l")
    page.wait_for_timeout(400)
    expect(page.locator("[data-rows] li[data-number]")).to_have_count(0)
    expect(rows(page).filter(has_text="being written")).to_have_count(3)
    page.evaluate("window.letGo = true")
    expect(rows(page).filter(has_text="sent")).to_have_count(3)
    told = [
        " ".join(text.split())
        for text in page.locator("[data-rows] li[data-number] > span:nth-child(-n+3)").all_inner_texts()
    ]
    assert told == ["31 left", "Tolland 100", "", "20 right", "Morvane 320", "N-1", "20 left", "Morvane 320", ""]
    expect(holder).to_have_value("40 l")
    page.reload()
    ready(page)
    expect(holder).to_have_value("40 l")


def test_an_enter_that_is_held_down_is_one(page, filled) -> None:
    """The keyboard repeats it; the row is kept once."""
    page.goto("/sheets/new/")
    ready(page)
    page.locator("#f-holder").fill("20 left")
    page.locator("#f-film").fill("Morvane 320")
    page.locator("#f-holder").focus()
    for _ in range(5):
        page.keyboard.down("Enter")
    page.keyboard.up("Enter")
    expect(rows(page).filter(has_text="sent")).to_have_count(1)
    expect(page.locator("h1")).to_have_text("Next: 20 right")


def test_a_device_without_room_sends_the_plain_way(page, filled) -> None:
    """Nothing can be kept on the device: the row goes to the server as it would without any script, whole."""
    page.add_init_script("""
        const put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (...given) {
          if (this.name === "items") throw new DOMException("no room", "QuotaExceededError");
          return put.apply(this, given);
        };
    """)
    page.goto("/sheets/new/")
    ready(page)
    page.locator("#f-holder").fill("20 left")
    page.locator("#f-film").fill("Morvane 320")
    page.locator("#f-n").fill("N-1")
    page.wait_for_timeout(400)  # it is on the device as half typed now, and must not come back
    page.locator("#f-holder").press("Enter")
    expect(page.locator("h1")).to_have_text("Next: 20 right")
    expect(rows(page).first).to_contain_text("20 left")
    expect(rows(page).first).to_contain_text("N\N{MINUS SIGN}1")


def test_entry_by_thumb(page, filled) -> None:
    """Every control that a row needs is at least 44 pixels high, and the row is kept by a tap."""
    page.goto("/sheets/new/")
    ready(page)
    for name in ("#f-holder", "#f-film", "#f-size", "#f-exposed", "button.first"):
        assert page.locator(f"form[data-row] {name}").first.bounding_box()["height"] >= 44, name
    page.locator("#f-holder").fill("30 left")
    page.locator("#f-film").fill("Tolland 100")
    page.locator("form[data-row] button.first").click()
    expect(rows(page).first).to_contain_text("sent")
    expect(page.locator("#f-holder")).to_have_value("30 right")


def test_a_film_that_nobody_knows_is_offered_to_be_made(page) -> None:
    """Decided before the server is asked; the second row knows it."""
    page.goto("/sheets/new/")
    ready(page)
    page.locator("#f-holder").fill("3 left")
    page.locator("#f-film").fill("Quern")
    page.keyboard.press("Enter")
    expect(page.locator("#make-film")).to_be_focused()
    expect(rows(page)).to_have_count(0)
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    expect(rows(page).first).to_contain_text("sent")
    page.keyboard.press("Enter")
    expect(rows(page).filter(has_text="sent")).to_have_count(2)


def test_a_row_without_its_two_facts_is_told_before_it_is_kept(page) -> None:
    """In words, at the field; nothing goes into the outbox."""
    page.goto("/sheets/new/")
    ready(page)
    page.locator("#f-holder").press("Enter")
    expect(page.locator("[data-field=holder] .mistake")).to_have_text(
        "Give a holder side or a label: one of them is enough."
    )
    expect(page.locator("[data-field=film] .mistake")).to_be_visible()
    expect(page.locator("#f-holder")).to_be_focused()
    expect(page.locator("[data-offer]")).to_be_hidden()
    expect(rows(page)).to_have_count(0)


def test_both_sides_count_labels_up_alike(page) -> None:
    """The page has the same rule as the server."""
    page.goto("/sheets/new/")
    ready(page)
    wrong = [(label, told, after) for label, after in CASES if (told := page.evaluate("nextLabel", label)) != after]
    assert not wrong


def test_the_pipeline_follows_the_typing(page, filled) -> None:
    """Each step with its time, while one types; and N with the readings."""
    sheet, _ = filled
    page.goto(f"/sheets/{sheet}/")
    ready(page)
    expect(page.locator("#reckoned")).to_contain_text("Give 44.1 s")
    page.locator('[name="meant.filter"]').fill("8")
    expect(page.locator("#reckoned")).to_contain_text("Give 109 s")
    page.locator('[name="highlight.ev"]').fill("14")
    expect(page.locator("#reckoned h2").first).to_have_text("N asked for by the readings")
    page.locator('[name="meant.filter"]').fill("0")
    expect(page.locator("#reckoned")).to_contain_text("cannot be read yet")


def test_a_mishap_is_one_tap(page, filled) -> None:
    """It becomes a stop error, goes into the story, and is taken back by another tap."""
    sheet, _ = filled
    page.goto(f"/sheets/{sheet}/")
    ready(page)
    page.locator('[name="note"]').fill("windy")
    page.get_by_role("button", name="Filter forgotten").click()
    tapped = page.get_by_role("button", name="Filter forgotten")
    expect(tapped).to_have_attribute("aria-pressed", "true")
    expect(tapped).to_contain_text("2 stops on the film: under")
    expect(page.locator('[name="note"]')).to_have_value("windy")
    expect(page.locator(".story")).to_contain_text("filter forgotten")
    ready(page)
    page.get_by_role("button", name="Filter forgotten").click()
    expect(page.get_by_role("button", name="Filter forgotten")).to_have_attribute("aria-pressed", "false")


def test_a_refused_correction_is_shown_at_its_field_and_mended(page, filled) -> None:
    """What was typed stays; mended, it goes under the same number."""
    sheet, _ = filled
    page.goto(f"/sheets/{sheet}/")
    ready(page)
    page.locator('[name="n"]').fill("N-9")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("[data-field=n] .mistake")).to_be_visible()
    expect(page.locator('[name="n"]')).to_be_focused()
    page.locator('[name="n"]').fill("N-2")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_contain_text("N\N{MINUS SIGN}2")
    page.wrong[:] = [told for told in page.wrong if "422" not in told]


def test_a_run_of_sheets_is_ticked_with_shift(page, filled) -> None:
    """And goes on to a plan."""
    page.goto("/sheets/")
    ready(page)
    boxes = page.locator("input[name=sheet]")
    boxes.first.click()
    boxes.last.click(modifiers=["Shift"])
    expect(page.locator("input[name=sheet]:checked")).to_have_count(4)
    expect(page.locator("[data-picked-count]")).to_have_text("4 ticked")
    led: list[str] = []

    def to_the_plan(route) -> None:
        led.append(route.fetch(max_redirects=0).headers["location"])
        route.fulfill(status=204)

    page.route(re.compile("/sheets/pick/"), to_the_plan)
    with page.expect_request(re.compile("/sheets/pick/")):
        page.get_by_role("button", name="Plan these").click()
    page.wait_for_timeout(300)
    assert led[0].startswith("/plans/new/?sheets=")
    assert led[0].count(",") == 3


def test_a_side_is_exposed_by_one_tap_and_taken_back(page, filled) -> None:
    """The sheet is made and goes again."""
    page.goto("/holders/")
    ready(page)
    page.get_by_role("button", name="Exposed 3 left").click()
    expect(page.get_by_role("link", name="sheet 3 left")).to_be_visible()
    ready(page)
    page.get_by_role("button", name="Take back 3 left").click()
    expect(page.get_by_role("link", name="sheet 3 left")).to_have_count(0)
    expect(page.get_by_role("button", name="Exposed 3 left")).to_be_visible()


def test_rows_are_pasted_looked_through_and_kept(page) -> None:
    """Without any script of ours."""
    page.goto("/sheets/list/")
    page.locator("#pasted").fill("holder\tfilm\n3 left\tTolland 100\n3 right\tTolland 100\n")
    page.get_by_role("button", name="Look through").click()
    expect(page.locator("h1")).to_have_text("2 sheets can be kept")
    page.get_by_role("button", name="Keep all of them").click()
    expect(page.locator("h1")).to_contain_text("Two sheets wait")


@pytest.mark.parametrize("javascript", [False])
def test_without_scripts_entry_works(browser, server, javascript) -> None:
    """The plain form, one row after the other."""
    context = browser.new_context(base_url=server.address, java_script_enabled=javascript)
    page = context.new_page()
    page.goto("/sheets/new/")
    page.locator("#f-holder").fill("3 left")
    page.locator("#f-film").fill("Quern")
    page.keyboard.press("Enter")
    expect(page.locator("[data-field=film] .mistake")).to_be_visible()
    page.locator("#make-film").check()
    page.locator("#f-holder").press("Enter")
    expect(page.locator("h1")).to_have_text("Next: 3 right")
    expect(page.locator("#f-film")).to_have_value("Quern")
    context.close()
