"""The live run in Chromium: keys, a server that dies and comes back, a page that is loaded anew, clocks that jump."""

from __future__ import annotations

import contextlib
import os
import re
import signal
import sqlite3
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import pytest
from tests.browser.conftest import Server, stop_server

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

READY = "html[data-run=ready]"
SAID, HEAD, CLOCK, ALONE = "[data-run-said]", "[data-run-head]", "[data-run-clock]", "[data-run-alone]"

RULES = "async () => (await fetch(document.querySelector('section[data-run]').dataset.rules)).json()"
NO_REPEAT_MS = 1600
SHOWN = (
    "[...document.querySelectorAll('[data-run-said], [data-run-head], [data-run-alone]')].map((one) => one.textContent)"
)


def open_quick(page: Any, minutes: str = "7:30") -> str:
    """A run of four words, opened and shown; its address."""
    page.goto("/runs/new/")
    page.locator("main [name=film]").fill("Tolland 100")
    page.locator("main [name=developer]").fill("Brackwater")
    page.locator("main [name=time]").fill(minutes)
    page.locator("main form button.first").first.click()
    page.wait_for_selector(READY)
    until(page, "document.querySelector('[data-run-head]').textContent.length > 3")
    return str(page.url)


def until(page: Any, expression: str, timeout: int = 30_000) -> None:
    """Wait until an expression holds; the pages' policy forbids the driver's own way, which evaluates text there."""
    for _ in range(timeout // 100):
        if page.evaluate(expression):
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"{expression}; the page says: {page.evaluate(SHOWN)}")


def told_facts(page: Any) -> dict[str, Any]:
    rules: dict[str, Any] = page.evaluate(RULES)
    return rules


def seconds(text: str) -> int:
    minutes, _, rest = text.partition(":")
    return int(minutes) * 60 + int(rest)


def again_on_port(old: Server) -> Server:
    """The same darkroom on the same port, as after a crash."""
    port = old.address.rpartition(":")[2]
    environment = {**os.environ, "WETSIDE_DATA": str(old.data), "PYTHONUNBUFFERED": "1"}
    environment.pop("DJANGO_ALLOW_ASYNC_UNSAFE", None)
    process = subprocess.Popen(
        [sys.executable, "-c", "import sys; from wetside.cli import main; sys.exit(main())", "serve", "--port", port],
        env=environment,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    line = process.stdout.readline()
    assert re.search(r"http://\S+/", line), line
    return Server(old.address, old.data, process)


@pytest.fixture
def crash(server: Server) -> Iterator[Any]:
    """Kill the server without a word, and start it again on its port."""
    started: list[Server] = []

    class Crash:
        @staticmethod
        def kill() -> None:
            running = started[-1] if started else server
            running.process.send_signal(signal.SIGKILL)
            running.process.wait()

        @staticmethod
        def start() -> None:
            started.append(again_on_port(server))

    yield Crash
    for one in started:
        if one.process.poll() is None:
            stop_server(one)


def test_a_run_by_keys_alone(page: Any, sideways: Callable[[Any], int]) -> None:
    """Told by a pedal's key, a bounce taken once, taken back, a temperature typed: no hand on a mouse."""
    open_quick(page)
    assert page.locator(HEAD).inner_text().startswith(("Pour", "The developer"))
    assert not page.locator("[data-run-back]").is_visible()
    until(page, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    page.keyboard.press("PageDown")
    until(page, "document.querySelector('[data-run-said]').textContent.includes('the developer is in')")
    page.keyboard.press("PageDown")
    page.wait_for_timeout(300)
    assert "the developer is in" in page.locator(SAID).inner_text()
    assert page.locator("[data-run-back]").inner_text() == "Take back: the developer is in"
    assert 400 < seconds(page.locator(CLOCK).inner_text()) <= 450
    page.wait_for_timeout(NO_REPEAT_MS)
    stamps = told_facts(page)["stamps"]
    assert list(stamps) == ["1.full"]
    page.keyboard.press("Backspace")
    until(page, "document.querySelector('[data-run-said]').textContent.startsWith('Taken back')")
    page.wait_for_timeout(800)
    assert told_facts(page)["stamps"] == {}
    assert not page.locator("[data-run-back]").is_visible()
    page.keyboard.press(" ")
    until(page, "document.querySelector('[data-run-said]').textContent.includes('the developer is in')")
    page.keyboard.press("t")
    page.keyboard.type("20,4")
    page.keyboard.press("Enter")
    until(page, "document.querySelector('[data-run-said]').textContent.includes('20.4')")
    until(page, "document.querySelector('[data-run-where]').textContent.includes('20.4')")
    assert sideways(page) <= 0


@pytest.mark.parametrize("theme", ["light", "dark", "dim"])
def test_the_page_is_clean_in_every_theme(
    page: Any, server: Server, theme: str, axe_findings: Callable[[Any], list[str]], sideways: Callable[[Any], int]
) -> None:
    page.context.add_cookies([{"name": "theme", "value": theme, "url": server.address}])
    open_quick(page)
    assert axe_findings(page) == []
    for more in page.locator("details.run-more > summary").all():
        more.click()
    assert axe_findings(page) == []
    assert sideways(page) <= 0


def test_text_at_twice_the_size_stays_on_the_screen(page: Any, sideways: Callable[[Any], int]) -> None:
    open_quick(page)
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.set_viewport_size({"width": 390, "height": 844})
    page.wait_for_timeout(400)
    assert sideways(page) <= 0
    assert page.locator(CLOCK).is_visible()


def calm_page(browser: Any, server: Server, **more: Any) -> Any:
    """A page whose refused requests are no failure of the test."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, base_url=server.address, **more)
    return context.new_page()


def test_server_killed_in_the_developer(browser: Any, server: Server, crash: Any) -> None:
    """Told while the server is dead, by one page and a second one: nothing lost, each fact once."""
    page = calm_page(browser, server)
    open_quick(page, "1:00")
    until(page, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    page.keyboard.press("Enter")
    page.wait_for_timeout(NO_REPEAT_MS)
    before = seconds(page.locator(CLOCK).inner_text())
    crash.kill()
    until(page, "document.querySelector('[data-run-alone]').textContent.includes('alone')", timeout=15000)
    assert "temperature is not corrected" in page.locator(ALONE).inner_text()
    page.keyboard.press("Backspace")
    until(page, "document.querySelector('[data-run-said]').textContent.startsWith('Taken back')")
    page.wait_for_timeout(NO_REPEAT_MS)
    page.keyboard.press("PageDown")
    until(page, "document.querySelector('[data-run-said]').textContent.includes('the developer is in')")
    page.keyboard.press("t")
    page.keyboard.type("20.6")
    page.keyboard.press("Enter")
    until(page, "document.querySelector('[data-run-said]').textContent.includes('no end is moved')")
    until(page, "document.querySelector('[data-run-alone]').textContent.includes('3 kept')")
    page.wait_for_timeout(9000)
    after = page.locator(CLOCK).inner_text()
    assert 0 <= seconds(after) < before, "it counts on"
    crash.start()
    until(page, "document.querySelector('[data-run-alone]').hidden", timeout=30000)
    page.wait_for_timeout(1500)
    rules = told_facts(page)
    assert rules["seq"] == 5, "opened, told, taken back, told, read: each once"
    assert list(rules["stamps"]) == ["1.full"]
    assert rules["stamps"]["1.full"]["number"] == 3
    assert [reading["temp_c"] for reading in rules["readings"]] == [20.6]
    assert rules["contested"] == 0
    page.context.close()


def test_loaded_anew_in_the_bath_with_the_server_alive_and_dead(browser: Any, server: Server, crash: Any) -> None:
    page = calm_page(browser, server)
    open_quick(page)
    until(page, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    page.keyboard.press("Enter")
    until(page, "document.documentElement.dataset.kept === 'asked'", timeout=15000)
    page.wait_for_timeout(1500)
    page.reload()
    page.wait_for_selector(READY)
    until(page, "/^[0-9]+:[0-9]{2}$/.test(document.querySelector('[data-run-clock]').textContent)")
    alive = seconds(page.locator(CLOCK).inner_text())
    assert 420 < alive <= 450
    page.wait_for_timeout(1500)
    crash.kill()
    page.reload()
    page.wait_for_selector(READY, timeout=20000)
    until(page, "/^[0-9]+:[0-9]{2}$/.test(document.querySelector('[data-run-clock]').textContent)")
    dead = seconds(page.locator(CLOCK).inner_text())
    assert alive - 25 < dead <= alive
    assert "alone" in page.locator(ALONE).inner_text()
    page.keyboard.press("Backspace")
    until(page, "document.querySelector('[data-run-said]').textContent.startsWith('Taken back')")
    page.reload()
    page.wait_for_selector(READY, timeout=20000)
    assert "1 kept" in page.locator(ALONE).inner_text(), "what was told alone outlives another reload"
    crash.start()
    until(page, "document.querySelector('[data-run-alone]').hidden", timeout=30000)
    page.wait_for_timeout(1000)
    assert told_facts(page)["stamps"] == {}
    page.context.close()


@contextlib.contextmanager
def resting(server: Server) -> Iterator[None]:
    """A database that cannot answer, under a server that does: what every page asks first is not there."""
    with contextlib.closing(sqlite3.connect(server.data / "darkroom.sqlite3", isolation_level=None)) as tables:
        tables.execute("ALTER TABLE records_darkroom RENAME TO records_resting")
        try:
            yield
        finally:
            tables.execute("ALTER TABLE records_resting RENAME TO records_darkroom")


def test_loaded_anew_while_the_database_rests(browser: Any, server: Server) -> None:
    """The server says that it cannot: the run counts on from what is kept, what is told meanwhile is handed over."""
    page = calm_page(browser, server)
    address = open_quick(page)
    until(page, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    page.keyboard.press("Enter")
    until(page, "document.documentElement.dataset.kept === 'asked'", timeout=15000)
    page.wait_for_timeout(NO_REPEAT_MS)
    with resting(server):
        other = calm_page(browser, server)
        assert other.goto(address).status == 503
        assert other.locator("h1").inner_text() == "The database does not answer"
        page.reload()
        page.wait_for_selector(READY, timeout=20000)
        until(page, "/^7:[0-9]{2}$/.test(document.querySelector('[data-run-clock]').textContent)")
        assert "alone" in page.locator(ALONE).inner_text()
        page.keyboard.press("Backspace")
        until(page, "document.querySelector('[data-run-said]').textContent.startsWith('Taken back')")
        until(page, "document.querySelector('[data-run-alone]').textContent.includes('1 kept')")
    other.get_by_role("link", name="Try again").click()
    other.wait_for_selector(READY, timeout=20000)
    until(page, "document.querySelector('[data-run-alone]').hidden", timeout=30000)
    until(page, "document.querySelector('[data-run-alone]').textContent.includes('kept') === false")
    assert told_facts(page)["stamps"] == {}
    other.context.close()
    page.context.close()


def test_news_come_again_after_an_answer_that_was_none(browser: Any, server: Server) -> None:
    """A browser gives a stream up for good after one refusal; the page asks for it anew."""
    page, other = calm_page(browser, server), calm_page(browser, server)
    asked: list[str] = []

    def refused_once(route: Any) -> None:
        asked.append(route.request.url)
        if len(asked) == 1:
            route.fulfill(status=503)
        else:
            route.continue_()

    page.route("**/watch", refused_once)
    address = open_quick(page)
    until(page, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    for _ in range(60):
        if len(asked) > 1:
            break
        page.wait_for_timeout(100)
    assert len(asked) == 2
    other.goto(address)
    other.wait_for_selector(READY)
    other.keyboard.press("Enter")
    until(page, "document.querySelector('[data-run-clock]').textContent.startsWith('7:')", timeout=10000)
    for one in (other, page):
        one.context.close()


def test_a_wall_clock_that_jumps(browser: Any, server: Server, crash: Any) -> None:
    """The time stays right with a server; alone, set back changes nothing, set forward before one's eyes shows none."""
    page = calm_page(browser, server)
    page.add_init_script(
        "const real = Date.now.bind(Date); window.jump = 0; Date.now = () => real() + window.jump * 1000;"
    )
    open_quick(page)
    until(page, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    page.keyboard.press("Enter")
    page.wait_for_timeout(1000)
    for jump in (-3600, 7200):
        page.evaluate(f"window.jump = {jump}")
        page.wait_for_timeout(2500)
        assert 400 < seconds(page.locator(CLOCK).inner_text()) <= 450
    crash.kill()
    until(page, "document.querySelector('[data-run-alone]').textContent.includes('alone')", timeout=15000)
    page.evaluate("window.jump = -100")
    page.wait_for_timeout(1200)
    assert 390 < seconds(page.locator(CLOCK).inner_text()) <= 450
    page.evaluate("window.jump = 200")
    until(page, "document.querySelector('[data-run-head]').textContent.includes('watch')")
    assert page.locator(CLOCK).inner_text() == ""
    page.keyboard.press("PageDown")
    until(page, "document.querySelector('[data-run-said]').textContent.includes('watch')")
    page.locator("details.run-more > summary").nth(1).click()
    page.locator("#run-watch").fill("1:40")
    page.keyboard.press("Enter")
    until(page, "/^[0-9]+:[0-9]{2}$/.test(document.querySelector('[data-run-clock]').textContent)")
    assert 350 < seconds(page.locator(CLOCK).inner_text()) <= 370
    page.context.close()


def test_two_devices_act_on_one_run(browser: Any, server: Server) -> None:
    """What one tells the other shows without being asked; what the other takes back counts for both."""
    first, second = calm_page(browser, server), calm_page(browser, server)
    wrong: list[str] = []
    for page in (first, second):
        page.on("pageerror", lambda error: wrong.append(str(error)))
    address = open_quick(first)
    second.goto(address)
    second.wait_for_selector(READY)
    until(first, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    first.locator("[data-run-track]").click()
    until(second, "document.querySelector('[data-run-tell]').textContent.includes('the stop is in')", timeout=8000)
    shown = [seconds(page.locator(CLOCK).inner_text()) for page in (first, second)]
    assert abs(shown[0] - shown[1]) <= 1
    second.keyboard.press("u")
    until(first, "document.querySelector('[data-run-tell]').textContent.includes('the developer is in')", timeout=8000)
    rules = told_facts(first)
    assert (rules["seq"], rules["stamps"], rules["contested"]) == (3, {}, 0)
    # A second tab of the first device, which does not come through: the tab beside it hands over what was told there.
    tab = first.context.new_page()
    tab.route("**/facts", lambda route: route.abort())
    tab.goto(address)
    tab.wait_for_selector(READY)
    tab.keyboard.press("PageDown")
    until(second, "document.querySelector('[data-run-tell]').textContent.includes('the stop is in')", timeout=8000)
    rules = told_facts(first)
    assert (rules["seq"], list(rules["stamps"]), rules["contested"]) == (4, ["1.full"], 0), "once, and by nobody twice"
    assert wrong == []
    for page in (first, second):
        page.context.close()


def test_a_hidden_page_is_right_when_it_comes_back(browser: Any, server: Server) -> None:
    page = calm_page(browser, server)
    open_quick(page)
    until(page, "document.querySelector('[data-run-head]').textContent.includes('Drain')", timeout=15000)
    before = seconds(page.locator(CLOCK).inner_text())
    other = page.context.new_page()
    other.goto("/")
    other.bring_to_front()
    page.evaluate(
        "Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });"
        "document.dispatchEvent(new Event('visibilitychange'))"
    )
    page.wait_for_timeout(4000)
    page.evaluate(
        "Object.defineProperty(document, 'visibilityState', { value: 'visible', configurable: true });"
        "document.dispatchEvent(new Event('visibilitychange'))"
    )
    page.bring_to_front()
    page.wait_for_timeout(300)
    assert 3 <= before - seconds(page.locator(CLOCK).inner_text()) <= 6
    page.context.close()
