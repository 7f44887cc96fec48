"""After a run, in Chromium: booked, undone, hung with numbers, told in the sheet's story; sound for axe."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.browser.conftest import Server

LIGHTS = ("light", "dark", "dim")
ENDED = Path(__file__).resolve().parents[1] / "fixtures/run_ended.py"


def ended_run(server: Server) -> str:
    """Identity of a run that has ended in the server's darkroom."""
    environment = {**os.environ, "WETSIDE_DATA": str(server.data)}
    environment.pop("DJANGO_ALLOW_ASYNC_UNSAFE", None)
    made = subprocess.run([sys.executable, str(ENDED)], env=environment, capture_output=True, text=True, check=False)
    assert made.returncode == 0, made.stderr
    return made.stdout.strip()


def test_the_way_from_the_last_bath_to_the_file(
    page: Any, server: Server, axe_findings: Callable[[Any], list[str]], sideways: Callable[[Any], int]
) -> None:
    """From the run's page to the booking, its undoing, the hanging with a mistake, and the story of a sheet."""

    def look(*lights: str) -> None:
        for light in lights:
            page.select_option("[data-theme-choice]", light)
            assert axe_findings(page) == [], (page.url, light)
            assert sideways(page) <= 0, (page.url, light)

    run = ended_run(server)
    page.goto(f"/runs/{run}/")
    page.get_by_role("link", name="Book what it used").click()
    assert page.locator("h1").inner_text().startswith("To book: three baths")
    look(*LIGHTS)
    page.locator("summary", has_text="More of this bath").first.press("Enter")
    page.locator("[name='b2.drawn']").fill("a lot")
    page.locator("[name='b2.drawn']").press("Enter")
    assert page.locator("#f-b2-drawn-m").inner_text()
    page.wrong.clear()  # the browser notes the refusal's 422
    look("dark")
    water = float(page.locator("[name=water]").input_value())
    page.locator("[name='b2.drawn']").fill("22,5")
    expect(page.locator("[name=water]")).to_have_value(f"{water - 2.5:.0f}")
    assert page.locator("#f-b2-drawn-m").count() == 0
    page.locator("[name='b4.drawn']").fill("480")
    expect(page.locator("[name='b4.returned']")).to_have_value("480")
    page.locator("[name='b4.returned']").fill("490")
    page.wait_for_selector("#f-b4-returned-m")
    look("dark")
    page.locator("[name='b4.returned']").fill("470")
    page.wait_for_selector("#f-b4-returned-m", state="detached")
    page.locator("[name='b4.drawn']").fill("500")
    page.wait_for_selector("text=neither came back nor went to waste here")
    assert page.locator("[name='b4.returned']").input_value() == "470"  # typed by hand
    page.locator("[name='b4.drawn']").fill("501")  # and sent before anybody could see what follows
    page.locator("[name='b4.drawn']").press("Enter")
    page.wait_for_selector("text=Undo the whole booking")
    assert page.locator("h1").inner_text() == "Booked: three bottles of the shelf"
    assert "drawn 22.5 ml" in page.locator(".booked").inner_text().replace("\N{NO-BREAK SPACE}", " ")
    look("light")
    page.get_by_role("button", name="Undo the whole booking").press("Enter")
    page.wait_for_selector(".booking")
    page.get_by_role("button", name="The vessel is dry now").press("Enter")
    page.wait_for_selector("text=after its last liquid")
    page.get_by_role("link", name="Which sheet hangs where?").click()
    page.wait_for_url(re.compile("/hanging/"))
    look(*LIGHTS)
    page.get_by_role("link", name="One is lost, scratched, or stuck to another?").click()
    page.locator("#m-what").select_option("scratched")
    page.get_by_role("button", name="Keep it").press("Enter")
    page.wait_for_selector("#m-sheets-m")
    page.wrong.clear()
    look(*LIGHTS)
    page.locator("[name=sheets]").last.press("Space")
    page.get_by_role("button", name="Keep it").press("Enter")
    page.wait_for_selector("h1:has-text('which is where?')")
    clips = page.locator(".clips select")
    names = [one for one in clips.first.locator("option").evaluate_all("all => all.map(one => one.value)") if one]
    page.get_by_role("button", name="They hang so").press("Enter")
    page.wait_for_selector("#clip-1-m")
    page.wrong.clear()
    look("light")
    other = page.context.new_page()  # a second page of the same run, loaded before anybody told
    other.goto(page.url)
    for clip, name in enumerate(reversed(names)):
        clips.nth(clip).select_option(name)
        other.locator(".clips select").nth(clip).select_option(names[clip])
    page.locator("[name='number.1']").fill("B 101")
    page.get_by_role("button", name="They hang so").press("Enter")
    page.wait_for_selector("h1:has-text('each on its clip')")
    other.wait_for_selector("[data-hanging-news]:not([hidden])")
    other.get_by_role("button", name="They hang so").press("Enter")
    other.wait_for_selector("h1:has-text('Told differently')")
    assert sideways(other) <= 0
    other.close()
    page.wait_for_selector("[data-hanging-news]:not([hidden])")
    page.locator("[data-hanging-news] a").click()
    page.wait_for_selector("h1:has-text('Told differently')")
    look(*LIGHTS)
    page.get_by_role("button", name="The other is right").press("Enter")
    page.wait_for_selector("h1:has-text('each on its clip')")
    page.goto(f"/runs/{run}/")
    page.locator("summary", has_text="was taken back or left out").press("Enter")
    look("light")
    page.get_by_role("button", name="Count it again").press("Enter")
    page.wait_for_selector("h2:has-text('One thing was told differently')")
    look("dark")
    page.get_by_role("button", name="What counts now is right").press("Enter")
    page.goto(f"/runs/{run}/hanging/")
    page.wait_for_selector("h1:has-text('each on its clip')")
    page.locator("main table").first.get_by_role("link", name=names[-1]).click()
    page.wait_for_selector("#story")
    story = page.locator(".run-told").inner_text()
    assert "Hung on clip 1." in story
    assert "the power went." in story
    assert "seen to be scratched." in story
    assert "B 101" in page.locator("p.lead").inner_text()
    look("dark")
    page.goto(f"/runs/{run}/after/")
    page.get_by_role("link", name="Long drum").click()
    assert "From one run: 24 s." in page.locator(".learned").inner_text()
    look("light")
