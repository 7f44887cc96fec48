"""Every page that links lead to, in the demo darkroom with two runs that are over: at both widths, in three lights."""

from __future__ import annotations

import re
from collections import deque
from typing import TYPE_CHECKING, Any
from urllib.parse import urldefrag, urlsplit

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from tests.browser.conftest import Server
    from tests.browser.runs_made import Made

KEY = re.compile(r"[0-9a-f]{8}-[0-9a-f-]{27}")
SMALLEST_TARGET_PX = 24
"""WCAG 2.2, success criterion 2.5.8, level AA."""
MOST_PAGES = 90
"""More would outgrow the suite's share of time: sample them, or give the suite its share in CONTRIBUTING.md."""
FILES = (".pdf", ".zip", ".toml", ".json", ".svg", ".wav", ".png", ".html")

LINKS = """() => [...document.querySelectorAll("a[href]")]
  .filter((link) => !link.hasAttribute("download"))
  .map((link) => new URL(link.getAttribute("href"), location.href).href)"""

# Links in a sentence are excepted by the criterion; so is what a circle of that size keeps apart, which is not tried
# here: a target is large enough by itself, or stands in running text.
SMALL = """(least) => {
  const seen = (one) => {
    const box = one.getBoundingClientRect();
    const style = getComputedStyle(one);
    return box.width > 1 && box.height > 1 && style.visibility !== "hidden" && Number(style.opacity) > 0;
  };
  const inText = (one) => {
    if (one.localName !== "a" || getComputedStyle(one).display !== "inline") return false;
    const block = one.closest("p, li, dd, dt, td, th, figcaption, summary, label, h1, h2, h3, span, div");
    return block.textContent.trim().length > one.textContent.trim().length;
  };
  const small = [];
  const targets = "a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [role=option]";
  for (const one of document.querySelectorAll(targets)) {
    if (!seen(one) || one.closest("details:not([open]) > :not(summary)")) continue;
    const label = one.labels?.[0] ?? one.closest("label");
    const boxes = [one, label].filter(Boolean).map((part) => part.getBoundingClientRect());
    if (boxes.some((box) => box.width >= least - 0.5 && box.height >= least - 0.5) || inText(one)) continue;
    const box = boxes[0];
    small.push(`${one.outerHTML.slice(0, 90)} ${box.width.toFixed(0)}x${box.height.toFixed(0)}`);
  }
  return small;
}"""

TWICE_THE_SIZE = "document.documentElement.style.fontSize = '200%'"
ONCE_THE_SIZE = "document.documentElement.style.fontSize = ''"
"""WCAG 2.1, success criterion 1.4.4; on a telephone, where the room is least."""
NAMELESS = """() => [...document.querySelectorAll("a[href]")]
  .filter((link) => !link.textContent.trim() && !link.getAttribute("aria-label"))
  .filter((link) => !link.querySelector("img[alt], svg title"))
  .map((link) => link.outerHTML.slice(0, 120))"""


@pytest.fixture
def server(server_of_runs: Server) -> Server:
    """Pages of the darkroom with runs that are over."""
    return server_of_runs


def furnish_more(page: Any) -> None:
    """Holders and a lot: what the demo leaves to its user."""
    page.goto("/holders/lots/")
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()
    page.locator("#t-film").fill("Tolland 100")
    page.locator("#t-number").fill("L-7")
    page.get_by_role("button", name="Keep the lot").click()
    expect(page.locator("tbody th").filter(has_text="L-7")).to_be_visible()
    page.goto("/holders/")
    expect(page.locator("html[data-outbox=ready]")).to_be_attached()
    if not page.locator("#n-holders").is_visible():
        page.locator("summary").filter(has_text="New holders").click()
    page.locator("#n-holders").fill("41 to 42")
    page.get_by_role("button", name="Keep the holders").click()
    expect(page.get_by_role("link", name="Holder 41")).to_be_visible()


def pattern(address: str) -> str:
    """Address without what differs between records of one kind."""
    path = KEY.sub("KEY", urlsplit(address).path)
    return re.sub(r"/[0-9]+(?=/|$)", "/N", path)


def beside_the_links(page: Any, made: Made) -> list[str]:
    """Pages of one address in another state than the one that the links lead to first."""
    page.goto(f"/plans/{made.plan}/loads/3/")
    page.get_by_role("button", name="Rehearse it with water").click()
    page.wait_for_url("**/runs/*/")
    rehearsal = urlsplit(page.url).path
    page.goto(f"/runs/{made.other}/after/")
    page.get_by_role("button", name="Book it so").click()
    page.wait_for_selector("text=Undo the whole booking")
    page.goto(f"/runs/{made.other}/hanging/")
    with page.expect_navigation():
        page.get_by_role("button", name="The order is not known").click()
    page.goto("/sheets/?show=developed")
    developed = page.locator("main th a").first.get_attribute("href")
    return [
        f"/plans/{made.plan}/loads/1/",
        f"/plans/{made.plan}/loads/3/",
        f"/runs/{made.one}/",
        f"/runs/{made.one}/after/",
        f"/runs/{made.one}/hanging/",
        f"/runs/{made.other}/",
        f"/runs/{made.other}/after/",
        f"/runs/compare/?one={made.one}&other={made.other}",
        f"{developed}",
        rehearsal,
    ]


def test_every_page_that_links_lead_to(page: Any, made: Made, server: Any, axe_findings: Any, sideways: Any) -> None:
    """Answered, titled, clean to axe, no wider than the screen, targets large enough, links with names."""
    furnish_more(page)
    waiting, known = deque(["/", *beside_the_links(page, made)]), {"/"}
    wrong: list[str] = []
    lights = ("dark", "dim")
    visited, desktop = 0, page.viewport_size["width"] > 1000
    while waiting:
        address = waiting.popleft()
        answer = page.goto(address)
        visited += 1
        if answer.status != 200:
            wrong.append(f"{address}: answered with {answer.status}")
            continue
        expect(page.locator("main")).to_be_visible()
        found = [f"h1: {page.locator('h1').count()} of them"] if page.locator("h1:visible").count() != 1 else []
        if (by := sideways(page)) > 0:
            found.append(f"{by} px wider than the screen")
        if not desktop:
            page.evaluate(TWICE_THE_SIZE)
            if (by := sideways(page)) > 0:
                found.append(f"{by} px wider than the screen with text of twice the size")
            page.evaluate(ONCE_THE_SIZE)
        found += [f"a link without a name: {link}" for link in page.evaluate(NAMELESS)]
        found += [f"too small: {target}" for target in page.evaluate(SMALL, SMALLEST_TARGET_PX)]
        # Each page at one of the widths, and the other lights in turn: the audit is what takes the time.
        if desktop == bool(visited % 2):
            found += axe_findings(page)
        if visited % 6 == 0:
            light = lights[visited // 6 % 2]
            page.evaluate("(light) => { document.documentElement.dataset.theme = light; }", light)
            found += [f"in {light}: {one}" for one in axe_findings(page)]
        found += [f"the console: {told}" for told in page.wrong]
        page.wrong.clear()
        wrong += [f"{pattern(address)}: {one}" for one in dict.fromkeys(found)]
        for link in page.evaluate(LINKS):
            bare = urldefrag(link)[0]
            parts = urlsplit(bare)
            if not bare.startswith(server.address) or parts.path.endswith(FILES) or parts.path.startswith("/api/"):
                continue
            if pattern(bare) not in known:
                known.add(pattern(bare))
                waiting.append(bare.removeprefix(server.address))
    assert not wrong, f"{len(wrong)} on {visited} pages:\n" + "\n".join(wrong)
    assert visited >= 40, f"only {visited} pages were reached"
    assert visited <= MOST_PAGES
