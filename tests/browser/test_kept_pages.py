"""Pages on which things are entered are loaded anew without the server, take entries, and send each once later."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from typing import Any

from playwright.sync_api import expect

SHELF = """
import django
django.setup()
from wetside.records.models import Film
from wetside.services.records.changes import make
from wetside.services.records.holders import keep_lot, make_holders
from wetside.services.records.sheets import add_sheet
make(Film, {"name": "Quern 100"})
make_holders("1 to 2", size="9x12cm")
add_sheet({"holder": "1 left", "film": "Quern 100"})
keep_lot("Quern 100", "L-7")
"""


def furnish(server) -> None:
    """Film, holders, a lot and a sheet in the running server's folder."""
    environment = {**os.environ, "WETSIDE_DATA": str(server.data), "DJANGO_SETTINGS_MODULE": "wetside.web.settings"}
    told = subprocess.run([sys.executable, "-c", SHELF], env=environment, capture_output=True, text=True, check=False)
    assert told.returncode == 0, told.stderr


def rows(server, query: str) -> list[tuple[Any, ...]]:
    with sqlite3.connect(server.data / "darkroom.sqlite3") as database:
        return database.execute(query).fetchall()


def start_again(server) -> subprocess.Popen[str]:
    code = "import sys; from wetside.cli import main; sys.exit(main())"
    process = subprocess.Popen(
        [sys.executable, "-c", code, "serve", "--port", server.address.rpartition(":")[2]],
        env={**os.environ, "WETSIDE_DATA": str(server.data), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert "http" in process.stdout.readline()
    return process


def opened(device, address: str) -> Any:
    """A page that its worker has kept."""
    page = device.new_page()
    page.goto(address)
    expect(page.locator("html[data-outbox=ready][data-kept=asked]")).to_be_attached()
    assert until(page, kept=True), f"{address} is not kept"
    return page


def until(page, *, kept: bool) -> bool:
    """Whether the page is kept, or no longer, within five seconds."""
    for _ in range(100):
        if page.evaluate("async (url) => Boolean(await caches.match(url))", page.url) is kept:
            return True
        page.wait_for_timeout(50)
    return False


def load_anew(page) -> None:
    """Loaded from what is kept, and saying so."""
    page.reload()
    expect(page.locator("html[data-outbox=ready][data-kept-at]")).to_be_attached()
    expect(page.locator(".told").first).to_contain_text("The server does not answer. This page is as it was at")


def told_at_a_desk(new, one, sideways) -> None:
    """The same at the width of a desk: a sheet, and a correction that is half typed, each loaded anew and kept."""
    for page in (new, one):
        load_anew(page)
        assert sideways(page) <= 0
    new.locator("#f-holder").fill("7 left")
    new.locator("#f-film").fill("Quern 100")
    new.locator("#f-holder").press("Enter")
    expect(new.locator("[data-rows] li[data-number]")).to_have_count(1)
    load_anew(new)
    expect(new.locator("[data-rows] li[data-number]")).to_contain_text("kept on this device")
    one.locator("#h-note").press_sequentially("two")
    one.wait_for_timeout(400)
    load_anew(one)
    expect(one.locator("#h-note")).to_have_value("two")


def test_every_entry_page_is_loaded_anew_without_the_server_and_sends_once(browser, server, sideways) -> None:
    """Sheets, a sheet's exposure and mishap, a lot, a holder's correction: typed, reloaded, kept, stored once."""
    furnish(server)
    device = browser.new_context(viewport={"width": 390, "height": 844}, base_url=server.address)
    wrong: list[str] = []
    device.on("weberror", lambda error: wrong.append(str(error.error)))
    (key,) = (row[0] for row in rows(server, "SELECT id FROM records_sheet"))
    holder = rows(server, "SELECT id FROM records_holder WHERE name = '2'")[0][0]
    film, lot = rows(server, "SELECT film_id, id FROM records_filmlot")[0]
    new = opened(device, "/sheets/new/")
    sheet, one = opened(device, f"/sheets/{_dashed(key)}/"), opened(device, f"/holders/{_dashed(holder)}/")
    box = opened(device, f"/films/{_dashed(film)}/lots/{_dashed(lot)}/")
    desk = browser.new_context(viewport={"width": 1280, "height": 900}, base_url=server.address)
    desk.on("weberror", lambda error: wrong.append(str(error.error)))
    at_desk = [opened(desk, address) for address in ("/sheets/new/", f"/holders/{_dashed(holder)}/")]
    server.process.kill()
    server.process.wait()

    load_anew(new)
    new.locator("#f-holder").fill("2 left")
    new.locator("#f-film").fill("Quern 100")
    new.locator("#f-holder").press("Enter")
    expect(new.locator("[data-rows] li[data-number]")).to_have_count(1)
    load_anew(new)
    expect(new.locator("[data-rows] li[data-number]")).to_contain_text("kept on this device")
    expect(new.locator("#f-holder")).to_have_value("2 right")
    new.locator("#f-holder").press("Enter")
    expect(new.locator("[data-rows] li[data-number]")).to_have_count(2)

    load_anew(sheet)
    sheet.locator("#f-note").press_sequentially("gate in the wind")
    sheet.wait_for_timeout(400)
    load_anew(sheet)
    expect(sheet.locator("#f-note")).to_have_value("gate in the wind")
    sheet.get_by_role("button", name="Double exposure").click()
    expect(sheet.locator(".not-sent")).to_be_visible()
    load_anew(sheet)
    expect(sheet.get_by_role("button", name="Double exposure")).to_have_attribute("aria-pressed", "true")
    sheet.locator("#f-note").fill("gate in the wind, twice")
    sheet.get_by_role("button", name="Keep", exact=True).click()
    expect(sheet.locator("[data-outbox-said]")).to_contain_text("4 not sent yet")

    load_anew(one)
    one.locator("#h-note").fill("leaks at the hinge")
    one.get_by_role("button", name="Keep", exact=True).click()
    load_anew(box)
    box.locator("#f-bought").fill("25")
    box.get_by_role("button", name="Keep the lot").click()
    expect(box.locator("[data-outbox-said]")).to_contain_text("6 not sent yet")
    told_at_a_desk(*at_desk, sideways)

    again = start_again(server)
    try:
        box.get_by_role("button", name="Try now").click()
        expect(box.locator("h1")).to_contain_text("Quern 100", timeout=15_000)
        new.goto("/outbox/")
        expect(new.locator("h1")).to_have_text("Nothing waits on this device", timeout=15_000)
        at_desk[0].goto("/outbox/")
        expect(at_desk[0].locator("h1")).to_have_text("Nothing waits on this device", timeout=15_000)
        stored = [label for (label,) in rows(server, "SELECT label_key FROM records_sheet ORDER BY made_at")]
        assert stored.count("7 left") == 1, "the desk's, whenever it came"
        assert [label for label in stored if label != "7 left"] == ["1 left", "2 left", "2 right"]
        assert rows(server, "SELECT COUNT(*) FROM records_receipt") == [(7,)]
        assert rows(server, "SELECT note FROM records_holder WHERE name = '2'") == [("leaks at the hinge",)]
        assert rows(server, "SELECT bought FROM records_filmlot") == [(25,)]
        note, facts = rows(server, "SELECT note, facts FROM records_sheet WHERE label_key = '1 left'")[0]
        assert note == "gate in the wind, twice"
        assert "double-exposure" in facts
        new.evaluate("fetch('/sign-out/', {method: 'POST'})")
        assert until(new, kept=False), "who signs out leaves no page behind"
        assert not wrong, wrong
    finally:
        device.close()
        desk.close()
        again.kill()
        again.wait()


def _dashed(key: str) -> str:
    from uuid import UUID

    return str(UUID(key))
