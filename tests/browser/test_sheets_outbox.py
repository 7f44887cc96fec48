"""The outbox in a browser: connection lost, server killed, answers lost, tabs; everything typed is sent once."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Iterator


@pytest.fixture(params=[(1280, 900), (390, 844)], ids=["desktop", "phone"])
def device(request, browser, server) -> Iterator[Any]:
    """A device of its own; a lost connection is no mistake of the page."""
    width, height = request.param
    context = browser.new_context(viewport={"width": width, "height": height}, base_url=server.address)
    wrong: list[str] = []
    context.on("weberror", lambda error: wrong.append(str(error.error)))
    yield context
    context.close()
    assert not wrong, wrong


def ready(page) -> None:
    # A function would be polled by evaluating text, which the pages' policy forbids.
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()


def opened(device, address="/sheets/new/"):
    page = device.new_page()
    page.goto(address)
    ready(page)
    return page


def enter(page, holder: str, film: str = "Quern") -> None:
    page.locator("#f-holder").fill(holder)
    page.locator("#f-film").fill(film)
    page.locator("#f-film").blur()
    offer = page.locator("#make-film")
    if offer.is_visible():
        offer.check()
    before = page.locator("[data-rows] li[data-number]").count()
    page.locator("#f-holder").press("Enter")
    expect(page.locator("[data-rows] li[data-number]")).to_have_count(before + 1)


def kept(server) -> list[str]:
    """Labels of all sheets in the archive, from the file itself."""
    with sqlite3.connect(server.data / "darkroom.sqlite3") as database:
        return [row[0] for row in database.execute("SELECT label_key FROM records_sheet ORDER BY made_at")]


def receipts(server) -> int:
    with sqlite3.connect(server.data / "darkroom.sqlite3") as database:
        return database.execute("SELECT COUNT(*) FROM records_receipt").fetchone()[0]


def start_again(server) -> subprocess.Popen[str]:
    """The program once more, on the same port and folder."""
    port = server.address.rpartition(":")[2]
    code = "import sys; from wetside.cli import main; sys.exit(main())"
    process = subprocess.Popen(
        [sys.executable, "-c", code, "serve", "--port", port],
        env={**os.environ, "WETSIDE_DATA": str(server.data), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert "http" in process.stdout.readline()
    return process


def said(page):
    return page.locator("[data-outbox-said]")


def test_what_is_typed_without_a_connection_is_sent_once_when_it_is_back(device, server) -> None:
    """Told in words how many wait; in their order."""
    page = opened(device)
    enter(page, "1 left")
    expect(page.locator("[data-rows] li").first).to_contain_text("sent")
    device.set_offline(True)
    for holder in ("1 right", "2 left", "2 right"):
        enter(page, holder)
    expect(said(page)).to_contain_text("Kept on this device: 3 not sent yet.")
    assert kept(server) == ["1 left"]
    device.set_offline(False)
    expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(4)
    expect(said(page)).to_have_text("Everything is sent.")
    assert kept(server) == ["1 left", "1 right", "2 left", "2 right"]
    assert receipts(server) == 4


def test_what_is_kept_survives_closing_the_page(device, server) -> None:
    """Another page of the same device sends it."""
    page = opened(device)
    device.set_offline(True)
    enter(page, "1 left")
    page.close()
    device.set_offline(False)
    page = opened(device, "/outbox/")
    expect(page.locator("h1")).to_have_text("Nothing waits on this device")
    expect(page.locator("[data-outbox-items] li")).to_have_count(0)
    assert kept(server) == ["1 left"]


def test_a_server_that_was_killed_and_comes_back_gets_everything(device, server) -> None:
    """On the same port, with the same folder; retried without a touch."""
    page = opened(device)
    enter(page, "1 left")
    expect(page.locator("[data-rows] li").first).to_contain_text("sent")
    server.process.kill()
    server.process.wait()
    enter(page, "1 right")
    enter(page, "2 left")
    expect(said(page)).to_contain_text("2 not sent yet")
    again = start_again(server)
    try:
        expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(3, timeout=20_000)
        assert kept(server) == ["1 left", "1 right", "2 left"]
    finally:
        again.kill()
        again.wait()


def test_an_answer_that_was_lost_is_asked_for_again_and_the_work_is_done_once(device, server) -> None:
    """The server took it, the page never heard: sent again, answered alike, one sheet."""
    page = opened(device)
    lost: list[int] = []

    def drop(route) -> None:
        if route.request.method == "POST" and len(lost) < 2:
            lost.append(route.fetch().status)
            route.abort()
        else:
            route.continue_()

    page.route("**/outbox/", drop)
    enter(page, "1 left")
    expect(page.locator("[data-rows] li").first).to_contain_text("sent", timeout=15_000)
    assert lost == [200, 200]
    assert kept(server) == ["1 left"]
    assert receipts(server) == 1


def test_two_tabs_of_one_device_send_each_item_once(device, server) -> None:
    """They count their items together, and see each other's."""
    first, second = opened(device), opened(device)
    device.set_offline(True)
    enter(first, "1 left")
    enter(second, "2 left")
    enter(first, "3 left")
    expect(said(second)).to_contain_text("3 not sent yet")
    device.set_offline(False)
    for page, count in ((first, 2), (second, 1)):
        expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(count, timeout=15_000)
    assert sorted(kept(server)) == ["1 left", "2 left", "3 left"]
    assert receipts(server) == 3


@pytest.mark.parametrize("device", [(390, 844)], indirect=True, ids=["phone"])
def test_the_same_act_in_two_tabs_of_which_one_is_cut_off(device, server) -> None:
    """A sheet entered twice is one sheet and a question; a mishap told twice is one mishap; nothing is sent twice."""
    cut, through = opened(device), opened(device)
    cut.route("**/outbox/**", lambda route: route.abort())
    sent: list[tuple[int, int]] = []

    def noted(answer) -> None:
        if answer.request.method == "POST" and answer.url.endswith("/outbox/"):
            sent.append((answer.request.post_data_json["number"], answer.status))

    device.on("response", noted)
    device.set_offline(True)
    enter(cut, "1 left")
    enter(through, "1 left")
    device.set_offline(False)
    for page in (cut, through):
        refused = page.locator("[data-outbox-refused]")
        expect(refused).to_contain_text("waits already", timeout=15_000)
        expect(refused.locator("li")).to_have_count(1)
    assert kept(server) == ["1 left"]
    assert sorted(sent) == [(1, 200), (2, 422)]
    through.get_by_role("button", name="Drop").click()
    expect(cut.locator("[data-outbox-refused]").get_by_role("button", name="Mend")).to_have_count(0)

    enter(cut, "2 left")
    expect(cut.locator("[data-rows] li").first).to_contain_text("sent")
    assert kept(server) == ["1 left", "2 left"], "sent by the other tab"

    key = cut.locator("[data-rows] li a").first.get_attribute("href", timeout=5000)
    for page in (cut, through):
        page.goto(key)
        ready(page)
    device.set_offline(True)
    cut.get_by_role("button", name="Double exposure").click()
    expect(through.locator(".not-sent")).to_be_visible()
    through.get_by_role("button", name="Double exposure").click()
    expect(said(cut)).to_contain_text("2 not sent yet")
    device.set_offline(False)
    for page in (cut, through):
        expect(said(page)).not_to_contain_text("not sent yet", timeout=15_000)
    through.reload()
    expect(through.get_by_role("button", name="Double exposure")).to_have_attribute("aria-pressed", "true")
    assert sorted(number for number, _ in sent) == [1, 2, 3, 4, 5]


def test_a_refused_item_is_shown_and_mended_and_the_others_go_on(device, server) -> None:
    """It does not stand in the way of what comes after it."""
    page = opened(device)
    device.set_offline(True)
    enter(page, "1 left")
    enter(page, "1 left")
    enter(page, "2 left")
    device.set_offline(False)
    refused = page.locator("[data-outbox-refused]")
    expect(refused).to_contain_text("waits already")
    expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(2)
    refused.get_by_role("button", name="Mend").click()
    expect(page.locator("#f-holder")).to_have_value("1 left")
    page.locator("#f-holder").fill("1 right")
    page.locator("#f-holder").press("Enter")
    expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(3)
    expect(refused.locator("li")).to_have_count(0)
    assert sorted(kept(server)) == ["1 left", "1 right", "2 left"]


def test_a_dropped_item_can_be_brought_back(device, server) -> None:
    """Nothing goes without a way back, not even what was refused."""
    page = opened(device)
    enter(page, "1 left")
    enter(page, "1 left")
    refused = page.locator("[data-outbox-refused]")
    refused.get_by_role("button", name="Drop").click()
    refused.get_by_role("button", name="Bring it back").click()
    expect(refused.get_by_role("button", name="Mend")).to_be_visible()
    assert kept(server) == ["1 left"]


def test_typing_on_while_the_row_is_kept_is_left_alone(device, server) -> None:
    """Faster than the disk: the next row is what was typed, not what would be counted up."""
    page = opened(device)
    page.locator("#f-holder").fill("1 left")
    page.locator("#f-film").fill("Quern")
    page.locator("#f-film").blur()
    page.locator("#make-film").check()
    page.evaluate(
        """() => {
          const form = document.querySelector("form[data-row]");
          form.requestSubmit();
          form.elements.holder.value = "9 left";
        }"""
    )
    expect(page.locator("[data-rows] li").first).to_contain_text("sent")
    expect(page.locator("#f-holder")).to_have_value("9 left")
    page.locator("#f-holder").press("Enter")
    expect(page.locator("[data-rows] li").filter(has_text="sent")).to_have_count(2)
    assert kept(server) == ["1 left", "9 left"]


def test_what_is_half_typed_survives_a_reload(device) -> None:
    """Per form; and can be emptied."""
    page = opened(device)
    page.locator("#f-holder").press_sequentially("7 ri")
    page.locator("#f-film").press_sequentially("Que")
    page.wait_for_timeout(400)
    page.reload()
    ready(page)
    expect(page.locator("#f-holder")).to_have_value("7 ri")
    expect(page.locator("#f-film")).to_have_value("Que")
    expect(page.get_by_text("What you had typed is back.")).to_be_visible()
    page.get_by_role("button", name="Empty it").click()
    expect(page.locator("#f-holder")).to_have_value("")


def test_a_correction_typed_without_a_connection_is_kept_too(device, server) -> None:
    """A sheet's own page waits with its mishap, and follows when the answer comes."""
    page = opened(device)
    enter(page, "1 left")
    expect(page.locator("[data-rows] li").first).to_contain_text("sent")
    page.locator("[data-rows] li a").first.click()
    ready(page)
    device.set_offline(True)
    page.get_by_role("button", name="Double exposure").click()
    expect(said(page)).to_contain_text("1 not sent yet")
    device.set_offline(False)
    expect(page.get_by_role("button", name="Double exposure")).to_have_attribute("aria-pressed", "true")


def test_a_token_that_went_stale_is_fetched_anew(device, server) -> None:
    """The page was open longer than its cookie."""
    page = opened(device)
    enter(page, "1 left")
    expect(page.locator("[data-rows] li").first).to_contain_text("sent")
    device.clear_cookies()
    enter(page, "1 right")
    expect(page.locator("[data-rows] li").first).to_contain_text("sent")
    assert kept(server) == ["1 left", "1 right"]
