"""Make the pictures of docs/tutorial/browser.md and first_run.md by walking their paths.

`python tools/browser_pictures.py` makes all of them, with the word `run` only those of the run.

Needs a Chromium (Debian: apt-get install chromium) and Playwright, as the tests of the pages do. The server runs on a
data folder of its own, which is gone afterwards.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures" / "browser"
DESK = {"width": 1100, "height": 760}
TALL = {"width": 1100, "height": 1180}
PHONE = {"width": 390, "height": 760}
PASTED = "holder\tfilm\tn\n14 left\tTolland 100\tN-1\n14 right\tTolland 100\tN-9\n15 left\tMorvane 320\tN\n"
SERVE = "import sys; from wetside.cli import main; sys.exit(main())"


CLOCK = ROOT / "tests" / "fixtures" / "moved_clock.py"


def started(folder: str, program: tuple[str, ...] = ("-c", SERVE)) -> tuple[subprocess.Popen[str], str]:
    """Server of this checkout on a folder, and its address."""
    environment = {
        **os.environ,
        "WETSIDE_DATA": str(Path(folder) / "darkroom"),
        "PYTHONPATH": str(ROOT / "src"),
        "PYTHONUNBUFFERED": "1",
    }
    words = [sys.executable, *program, "serve", "--port", "0"]
    process = subprocess.Popen(words, env=environment, stdout=subprocess.PIPE, text=True)
    for line in process.stdout or ():
        if found := re.search(r"http://\S+/", line):
            return process, found.group()
    sys.exit("browser_pictures: the server ended before it listened")


def take(page: Any, name: str, at: str | None = None) -> None:
    """Picture of what the screen shows, with a place of the page at its top."""
    if at is None:
        page.evaluate("scrollTo(0, 0)")
    else:
        page.locator(at).first.evaluate("place => scrollTo(0, place.getBoundingClientRect().top + scrollY - 24)")
    page.evaluate("document.activeElement && document.activeElement.blur()")
    page.screenshot(path=PICTURES / f"{name}.png")


def entered(page: Any, holder: str, film: str) -> None:
    """One row of the entry page, kept and sent."""
    page.locator("#f-holder").fill(holder)
    page.locator("#f-film").fill(film)
    page.locator("#f-film").press("Enter")
    page.locator("[data-rows] li").first.get_by_text("sent").wait_for()


def walk(page: Any) -> str:
    """Path of the tutorial on a desk; the address of the plan."""
    page.goto("/")
    take(page, "start")
    page.get_by_role("button", name="Furnish the demo darkroom").click()
    page.wait_for_selector("a.bar:visible")
    plan = str(page.url)
    page.goto("/sheets/new/")
    page.wait_for_selector("html[data-outbox=ready]")
    entered(page, "20 left", "Tolland 100")
    take(page, "sheet-entered")
    page.goto("/sheets/")
    page.get_by_role("link", name="20 left", exact=True).click()
    page.wait_for_selector("html[data-outbox=ready]")
    page.locator('[name="meant.time"]').fill("2 s")
    page.locator('[name="meant.filter"]').fill("4")
    page.get_by_role("button", name="Filter forgotten").click()
    page.wait_for_selector("[aria-pressed=true]")
    page.wait_for_selector("#reckoned h2:has-text('on the film')")
    take(page, "mishap", "#mishaps")
    page.goto("/sheets/list/")
    page.locator("#pasted").fill(PASTED)
    page.get_by_role("button", name="Look through").click()
    page.wait_for_selector(".error-list")
    take(page, "list-mistake")
    page.locator("#pasted").fill(PASTED.replace("N-9", "N"))
    page.get_by_role("button", name="Look through again").click()
    page.get_by_role("button", name="Keep all of them").click()
    page.wait_for_selector("text=15 left")
    page.goto(plan)
    page.set_viewport_size(TALL)
    take(page, "plan")
    page.set_viewport_size(DESK)
    page.locator("#choices > summary").click()
    page.locator("#compare-choices > summary").click()
    page.locator('#compare-choices input[type="checkbox"]').first.check()
    page.wait_for_selector("table.compared")
    page.locator("#k-typed").fill("Marrow 1+9")
    page.locator("#k-typed").press("Tab")
    page.wait_for_selector("table.compared thead th:nth-of-type(2)")
    take(page, "compared", "#compared")
    page.goto(plan)
    page.locator(".freeze button").click()
    page.wait_for_selector("text=What was frozen")
    page.get_by_role("link", name="Run sheet").first.click()
    take(page, "run-sheet")
    page.goto("/shelf/")
    take(page, "shelf")
    page.goto("/films/")
    page.get_by_role("link", name="Tolland 100", exact=True).first.click()
    page.wait_for_selector("h1")
    take(page, "film")
    return plan


def walk_evening(browser: Any, folder: str) -> None:
    """Pictures of docs/tutorial/browser.md."""
    Path(folder).mkdir()
    process, address = started(folder)
    try:
        desk = browser.new_context(viewport=DESK, base_url=address, color_scheme="light", reduced_motion="reduce")
        plan = walk(desk.new_page())
        phone = browser.new_context(
            viewport=PHONE, base_url=address, color_scheme="dark", has_touch=True, reduced_motion="reduce"
        )
        page = phone.new_page()
        page.goto("/sheets/new/")
        page.wait_for_selector("html[data-outbox=ready]")
        take(page, "phone-sheet")
        page.goto(plan)
        take(page, "phone-plan", "svg.windows:visible")
    finally:
        process.send_signal(signal.SIGINT)
        process.wait(20)


class RunWalk:
    """A run's path at speed: the clocks of the server's machine and of the page are moved on together."""

    def __init__(self, page: Any, clock: Path) -> None:
        self.page, self.clock, self.plus_s = page, clock, 0.0

    def on(self, seconds: float) -> None:
        """Let time pass. [s]"""
        self.page.wait_for_timeout(400)
        self.plus_s += seconds
        self.clock.write_text(f'[{self.plus_s}, "", 0.0]', "utf-8")
        self.page.clock.fast_forward(round(seconds * 1000))
        self.page.wait_for_timeout(900)

    def tell(self) -> None:
        """Press the pedal."""
        self.page.keyboard.press("PageDown")
        self.on(1.7)

    def walk(self) -> None:
        """From "film, developer, minutes" to what came of it."""
        page = self.page
        page.goto("/runs/new/")
        for name, text in (("film", "Tolland 100"), ("developer", "Brackwater 1+14"), ("time", "7:30")):
            page.locator(f"main [name={name}]").fill(text)
        take(page, "run-at-once")
        page.locator("main form button.first").click()
        page.wait_for_selector("html[data-run=ready]")
        self.on(10)
        self.tell()
        self.on(300)
        take(page, "run-developer")
        page.keyboard.press("t")
        page.keyboard.type("20,4")
        page.keyboard.press("Enter")
        self.on(145)
        page.set_viewport_size(PHONE)
        page.evaluate("document.documentElement.dataset.theme = 'dark'")
        self.on(5)
        take(page, "phone-run", "section[data-run]")
        page.evaluate("document.documentElement.dataset.theme = 'light'")
        page.set_viewport_size(DESK)
        for after_s in (20, 60, 310, 430, 80):
            self.on(after_s)
            self.tell()
        page.locator("[data-run-over] a").click()
        page.wait_for_selector(".told-list")
        take(page, "run-over")


def walk_run(browser: Any, folder: str) -> None:
    """Pictures of docs/tutorial/first_run.md."""
    Path(folder).mkdir()
    clock = Path(folder) / "clock.json"
    clock.write_text('[0.0, "", 0.0]', "utf-8")
    process, address = started(folder, (str(CLOCK), str(clock)))
    try:
        context = browser.new_context(viewport=DESK, base_url=address, color_scheme="light", reduced_motion="reduce")
        page = context.new_page()
        page.clock.install()
        RunWalk(page, clock).walk()
    finally:
        process.send_signal(signal.SIGINT)
        process.wait(20)


def main() -> int:
    """Write docs/pictures/browser/*.png."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        print("browser_pictures: no chromium on this machine; the pages cannot be taken")
        return 1
    from playwright.sync_api import sync_playwright

    PICTURES.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=chromium, args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
        )
        try:
            if sys.argv[1:] != ["run"]:
                walk_evening(browser, str(Path(folder) / "evening"))
            walk_run(browser, str(Path(folder) / "run"))
        finally:
            browser.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
