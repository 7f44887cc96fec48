"""Make the pictures of docs/tutorial/browser.md by walking its path: `python tools/browser_pictures.py`.

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


def started(folder: str) -> tuple[subprocess.Popen[str], str]:
    """Server of this checkout on a folder, and its address."""
    environment = {
        **os.environ,
        "WETSIDE_DATA": str(Path(folder) / "darkroom"),
        "PYTHONPATH": str(ROOT / "src"),
        "PYTHONUNBUFFERED": "1",
    }
    words = [sys.executable, "-c", SERVE, "serve", "--port", "0"]
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


def main() -> int:
    """Write docs/pictures/browser/*.png."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        print("browser_pictures: no chromium on this machine; the pages cannot be taken")
        return 1
    from playwright.sync_api import sync_playwright

    PICTURES.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        process, address = started(folder)
        browser = playwright.chromium.launch(
            executable_path=chromium, args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
        )
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
            browser.close()
            process.send_signal(signal.SIGINT)
            process.wait(20)
    return 0


if __name__ == "__main__":
    sys.exit(main())
