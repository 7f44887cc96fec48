"""The device that stays in the dark, in Chromium: black to the last pixel, with the server alive and dead."""

from __future__ import annotations

import os
import signal
import struct
import subprocess
import sys
import zlib
from typing import TYPE_CHECKING, Any

import pytest
from tests.browser.test_run_page import NO_REPEAT_MS, until

if TYPE_CHECKING:
    from collections.abc import Callable

from wetside.adapters.speech import voice_here

pytestmark = pytest.mark.skipif(voice_here() is None, reason="no voice is installed")
PAGE = "document.documentElement.darkPage"
HEARD = f"{PAGE}.heard.join(' | ')"
STAMPS = f"Object.keys({PAGE}.rules.stamps).join()"


def frozen_load(page: Any) -> str:
    """The demo darkroom, its plan frozen; address of its first load."""
    page.goto("/")
    page.locator("form[action='/demo/make/'] button").first.click()
    page.wait_for_load_state()
    page.goto("/plans/")
    page.locator("main a[href^='/plans/']:not([href*=new]):not([href*=import])").first.click()
    page.wait_for_load_state()
    page.locator("form[action$='/freeze/'] button").first.click()
    page.wait_for_load_state()
    return f"{page.url.rstrip('/')}/loads/1/"


def ready_to_turn_black(page: Any) -> None:
    """A guided run of the first load, its black page with the sound tried."""
    page.goto(f"{frozen_load(page)}loading/")
    page.locator("button[value=dark]").click()
    page.wait_for_selector("[data-dark-try]:enabled", timeout=60_000)
    page.locator("[data-dark-try]").click()
    page.wait_for_selector("[data-dark-go]:enabled", timeout=60_000)


def lit_bytes(png: bytes) -> int:
    """Colour values of a picture that are not 0.

    Each line of a PNG says how its values differ from their neighbours': all are 0 if, and only if, no difference is.
    """
    width, height, depth, colour = struct.unpack(">IIBB", png[16:26])
    assert (depth, colour) == (8, 2), "three colours of 8 bits"
    at, packed = 8, b""
    while at < len(png):
        length, kind = struct.unpack(">I4s", png[at : at + 8])
        if kind == b"IDAT":
            packed += png[at + 8 : at + 8 + length]
        at += length + 12
    lines = zlib.decompress(packed)
    step = 3 * width + 1
    assert len(lines) == height * step
    return sum(step - 1 - lines[line + 1 : line + step].count(0) for line in range(0, len(lines), step))


def black(page: Any) -> None:
    """Not one pixel of the page is lit."""
    assert lit_bytes(page.screenshot(animations="allow")) == 0


def press(page: Any, key: str) -> None:
    page.keyboard.press(key)
    page.wait_for_timeout(NO_REPEAT_MS)


def test_the_page_stays_black_through_a_loading(page: Any, axe_findings: Callable[..., Any], sideways: Any) -> None:
    """Told, bounced, taken back, lost, told to the end: all heard, nothing seen."""
    ready_to_turn_black(page)
    for way in ("tone", "clip"):
        assert page.locator(f"[data-dark-way={way}] span").inner_text() == "works"
    assert axe_findings(page) == []
    assert sideways(page) <= 0
    assert lit_bytes(page.screenshot()) > 0
    address, history = page.url, page.evaluate("history.length")
    title = page.title()
    page.locator("[data-dark-go]").click()
    until(page, f"{PAGE}.black")
    black(page)
    until(page, f"{HEARD}.includes('Telephone away?')")
    press(page, "x")
    assert page.evaluate(STAMPS) == "dark.out"
    black(page)
    assert "slot 1: sheet" in page.evaluate(HEARD)
    # a bounce counts once; a key that is held down counts once
    page.keyboard.press("PageDown")
    page.keyboard.press("PageDown")
    page.keyboard.down("b")
    page.keyboard.down("b")
    page.keyboard.up("b")
    page.wait_for_timeout(NO_REPEAT_MS)
    assert page.evaluate(STAMPS) == "dark.out,dark.load.1"
    black(page)
    press(page, "Backspace")
    assert page.evaluate(STAMPS) == "dark.out"
    assert "Taken back" in page.evaluate(HEARD)
    black(page)
    # lost: asked back once, then both checks are told
    press(page, "l")
    assert page.evaluate(f"{PAGE}.rules.lost.length") == 0
    press(page, "l")
    until(page, f"{PAGE}.rules.lost.length === 1")
    said = page.evaluate(HEARD)
    assert " is lost. Left: " in said
    assert "wet the vessel: enough" in said
    black(page)
    # a tap is next, a tap held for a second goes back
    before = page.evaluate(STAMPS)
    page.mouse.click(150, 300)
    page.wait_for_timeout(NO_REPEAT_MS)
    assert page.evaluate(STAMPS) == f"{before},dark.load.2"
    page.mouse.move(80, 200)
    page.mouse.down()
    page.wait_for_timeout(1000)
    black(page)
    page.mouse.up()
    page.wait_for_timeout(NO_REPEAT_MS)
    assert page.evaluate(STAMPS) == before
    for key in (" ", "Enter", "Tab", "7", "ArrowDown", "z", "F"):
        if page.evaluate(f"'dark.on' in {PAGE}.rules.stamps"):
            break
        press(page, key)
        black(page)
    assert page.evaluate(f"'dark.on' in {PAGE}.rules.stamps")
    assert "The next press shows the run" in page.evaluate(HEARD)
    assert (page.url, page.evaluate("history.length"), page.title()) == (address, history, title)
    # everything was spoken by clips that were rendered before
    assert page.evaluate(f"{PAGE}.heard.filter((text) => !{PAGE}.signals.sound.buffers.has(text))") == []
    page.keyboard.press(" ")
    page.wait_for_url(address.replace("dark/", ""))
    page.wait_for_selector("html[data-run=ready]")


@pytest.mark.parametrize("page", ["phone"], indirect=True)
def test_a_silent_server_changes_nothing_in_the_dark(page: Any, server: Any) -> None:
    """Killed: still black, still spoken, every answer kept; back: each is handed over once."""
    ready_to_turn_black(page)
    page.locator("[data-dark-go]").click()
    until(page, f"{PAGE}.black")
    page.wait_for_timeout(NO_REPEAT_MS)
    press(page, "1")
    until(page, f"{PAGE}.handover.waiting.length === 0")
    server.process.send_signal(signal.SIGKILL)
    server.process.wait()
    page.wrong.clear()
    press(page, "2")
    black(page)
    press(page, "l")
    press(page, "l")
    black(page)
    until(page, f"{PAGE}.rules.lost.length === 1")
    assert page.evaluate(STAMPS) == "dark.out,dark.load.1"
    assert page.evaluate(f"{PAGE}.handover.waiting.length") == 2
    port = server.address.rpartition(":")[2]
    again = subprocess.Popen(
        [sys.executable, "-c", "import sys; from wetside.cli import main; sys.exit(main())", "serve", "--port", port],
        env={**os.environ, "WETSIDE_DATA": str(server.data), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert again.stdout is not None
        again.stdout.readline()
        until(page, f"{PAGE}.handover.waiting.length === 0", timeout=40_000)
        until(page, f"{PAGE}.base.lost.length === 1")
        assert page.evaluate(f"Object.keys({PAGE}.base.stamps).join()") == "dark.out,dark.load.1"
        black(page)
    finally:
        page.wrong.clear()
        page.goto("about:blank")
        again.send_signal(signal.SIGINT)
        again.wait(10)


@pytest.mark.parametrize("page", ["phone"], indirect=True)
def test_the_page_is_shown_only_when_it_is_asked_for_twice(page: Any) -> None:
    """Escape once is asked back; after that any other key is an answer again."""
    ready_to_turn_black(page)
    page.locator("[data-dark-go]").click()
    until(page, f"{PAGE}.black")
    page.evaluate("document.exitFullscreen().catch(() => {})")
    page.wait_for_timeout(NO_REPEAT_MS)
    black(page)
    press(page, "Escape")
    black(page)
    assert "Show the page?" in page.evaluate(HEARD)
    page.keyboard.press("Escape")
    page.wait_for_selector("html[data-run=ready]:not(.dark-on)")


def test_the_loading_order_plays_and_goes_from_place_to_place(page: Any, axe_findings: Any, sideways: Any) -> None:
    """Media with its acts for a headset; the row that is told is marked; the page is whole in every light."""
    load = frozen_load(page)
    page.goto(f"{load}loading/?pause=5")
    for light in ("light", "dark", "dim"):
        page.evaluate(f"document.documentElement.dataset.theme = '{light}'")
        assert axe_findings(page) == [], light
    assert sideways(page) <= 0
    player = "document.querySelector('audio[data-loading]')"
    until(page, f"{player}.readyState >= 1")
    places = page.locator("tr[data-at]").count()
    assert page.evaluate(f"{player}.duration") > 5 * places
    assert page.evaluate("navigator.mediaSession.metadata.title") == page.locator("h1").inner_text()
    page.evaluate(f"{player}.loadingActs.nexttrack()")
    page.evaluate(f"{player}.loadingActs.nexttrack()")
    until(page, "document.querySelector('tr[aria-current]')?.rowIndex === 2")
    page.evaluate(f"{player}.loadingActs.previoustrack()")
    until(page, "document.querySelector('tr[aria-current]')?.rowIndex === 1")
    page.evaluate(f"{player}.loadingActs.play()")
    began = page.evaluate(f"{player}.currentTime")
    until(page, f"{player}.currentTime > {began} + 0.5")
    page.evaluate(f"{player}.loadingActs.pause()")
    assert page.evaluate(f"{player}.paused")
    assert page.evaluate("navigator.mediaSession.playbackState") in ("paused", "playing")
    page.locator("button[value=after]").click()
    page.wait_for_selector("html[data-run=ready]")
    assert "dark.out" in page.evaluate(
        "async () => (await (await fetch(document.querySelector('section[data-run]').dataset.rules)).json()).stamps"
    )
