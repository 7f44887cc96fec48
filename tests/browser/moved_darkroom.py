"""A darkroom in which a test lets time pass: a laptop that serves, with its clock, and a browser beside the sink."""

from __future__ import annotations

import signal
from typing import TYPE_CHECKING, Any

from tests.browser.conftest import Server, start_server, stop_server
from tests.browser.test_run_page import CLOCK, HEAD, READY, SAID, seconds, until
from tests.fixtures.terminal_run import REPEAT_S

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.fixtures.moved_clock import MovedClock


class Darkroom:
    """A laptop that serves, with its clock, and a browser beside the sink."""

    def __init__(self, data: Path, clock: MovedClock, browser: Any) -> None:
        self.clock = clock
        self.server: Server = start_server(data, program=clock.words())
        self.context = browser.new_context(viewport={"width": 1280, "height": 900}, base_url=self.server.address)
        self.wrong: list[str] = []
        self.page = self.new_page()
        self.context.clock.install()

    def new_page(self) -> Any:
        page = self.context.new_page()
        page.on("pageerror", lambda error: self.wrong.append(str(error)))
        return page

    def on(self, seconds: float) -> None:
        """Time passes, on the laptop and at the page; what is under way between them comes to its end before."""
        self.page.wait_for_timeout(100)
        self.clock.on(seconds)
        self.context.clock.fast_forward(round(seconds * 1000))
        self.page.wait_for_timeout(100)

    def to(self, seconds: float) -> None:
        """Time passes until so long after the clock's begin. [s]"""
        self.on(self.clock.left_to(seconds))

    def power_gone(self) -> None:
        """The laptop dies, with its server and its browser's page."""
        self.kill()
        self.page.close()

    def kill(self) -> None:
        self.server.process.send_signal(signal.SIGKILL)
        self.server.process.wait()

    def start(self) -> None:
        port = self.server.address.rpartition(":")[2]
        self.server = start_server(self.server.data, port=port, program=self.clock.words())

    def frozen_plan(self, evening: Path) -> None:
        """Take an evening file, and freeze its plan."""
        page = self.page
        page.goto("/plans/import/")
        page.set_input_files("#files", evening)
        page.locator("main form button.first").click()
        page.get_by_role("button", name="Take it all").click()
        page.locator(".freeze button").click()
        page.wait_for_selector("text=What was frozen")

    def planned_run(self, evening: Path) -> str:
        """Take an evening file, freeze its plan, start its first load; the run's address."""
        self.frozen_plan(evening)
        self.page.get_by_role("button", name="Start load 1").click()
        self.shown()
        return str(self.page.url)

    def shown(self) -> None:
        self.page.wait_for_selector(READY, timeout=20_000)
        until(self.page, "document.querySelector('[data-run-head]').textContent.length > 3")

    def tell(self, taken: str) -> None:
        """Press the pedal; what was taken is shown."""
        self.page.keyboard.press("PageDown")
        said = self.page.locator(SAID)
        for _ in range(80):
            if taken in said.inner_text():
                break
            self.page.wait_for_timeout(100)
        assert taken in said.inner_text()
        self.on(REPEAT_S)

    def head(self) -> tuple[str, int]:
        """What to do next, and in how many seconds; the page may be about to draw. [s]"""
        until(self.page, "/^[0-9]+:[0-9]{2}$/.test(document.querySelector('[data-run-clock]').textContent)", 3000)
        return self.page.locator(HEAD).inner_text(), seconds(self.page.locator(CLOCK).inner_text())

    def came(self) -> list[str]:
        """What came of the run, as its page tells it."""
        self.page.locator("[data-run-over] a").click()
        self.page.wait_for_selector(".told-list")
        return list(self.page.locator(".told-list li").all_inner_texts())

    def rules(self) -> dict[str, Any]:
        """The run's facts, as the server has them."""
        address = f"{self.page.url}rules.json"
        return dict(self.page.evaluate(f"async () => (await fetch('{address}')).json()"))

    def close(self) -> None:
        self.context.close()
        stop_server(self.server)


def opened(data: Path, clock: MovedClock, browser: Any) -> Iterator[Darkroom]:
    """A darkroom for one test; no mistake of a script in it."""
    room = Darkroom(data, clock, browser)
    yield room
    room.close()
    assert room.wrong == []
