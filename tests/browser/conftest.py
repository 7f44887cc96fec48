"""A real server on a data folder of its own, Debian's Chromium in front of it, at desktop and phone width."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from typing import TYPE_CHECKING, Any, NamedTuple

import pytest
from tests.fixtures.moved_clock import MovedClock

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from tests.browser.runs_made import Made

CHROMIUM = shutil.which("chromium")
WIDTHS = {"desktop": (1280, 900), "phone": (390, 844)}

if CHROMIUM is None:
    collect_ignore_glob = ["test_*.py"]
    if os.environ.get("CI") == "true":
        raise RuntimeError("no chromium here (Debian package chromium): the pages cannot be tried")


class Server(NamedTuple):
    """A running program and its address."""

    address: str
    data: Path
    process: subprocess.Popen[str]


PROGRAM = (sys.executable, "-c", "import sys; from wetside.cli import main; sys.exit(main())")


def start_server(data: Path, *, port: str = "0", program: Sequence[str] = PROGRAM) -> Server:
    """Program on a data folder, at a port (0: one that is free); returns once it listens."""
    environment = {**os.environ, "WETSIDE_DATA": str(data), "PYTHONUNBUFFERED": "1"}
    environment.pop("DJANGO_ALLOW_ASYNC_UNSAFE", None)
    process = subprocess.Popen(
        [*program, "serve", "--port", port],
        env=environment,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    line = process.stdout.readline()
    found = re.search(r"http://\S+/", line)
    assert found, line
    return Server(found.group().rstrip("/"), data, process)


def stop_server(server: Server) -> None:
    server.process.send_signal(signal.SIGINT)
    try:
        server.process.wait(10)
    except subprocess.TimeoutExpired:
        server.process.kill()
        server.process.wait()


@pytest.fixture(scope="session")
def empty_darkroom(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder that a first start has made: its tables are made once, and copied for each test."""
    folder = tmp_path_factory.mktemp("empty") / "darkroom"
    stop_server(start_server(folder))
    return folder


@pytest.fixture(scope="session")
def made(empty_darkroom: Path, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """A darkroom with two runs that are over; made once, and copied for each test."""
    from tests.browser.runs_made import made_in

    return made_in(tmp_path_factory.mktemp("looked-over") / "darkroom", empty_darkroom)


@pytest.fixture
def server_of_runs(made: Made, tmp_path: Path) -> Iterator[Server]:
    """Program on a copy of that darkroom."""
    shutil.copytree(made.folder, tmp_path / "darkroom")
    started = start_server(tmp_path / "darkroom")
    yield started
    stop_server(started)


@pytest.fixture
def server(empty_darkroom: Path, tmp_path: Path) -> Iterator[Server]:
    if empty_darkroom.is_dir():
        shutil.copytree(empty_darkroom, tmp_path / "darkroom")
    started = start_server(tmp_path / "darkroom")
    yield started
    stop_server(started)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
        )
        yield started
        started.close()


@pytest.fixture(params=list(WIDTHS))
def page(request: pytest.FixtureRequest, browser: Any, server: Server) -> Iterator[Any]:
    """Page at one of the widths; a mistake in a script, a refused style or a failed request ends the test."""
    width, height = WIDTHS[request.param]
    context = browser.new_context(
        viewport={"width": width, "height": height},
        base_url=server.address,
        has_touch=request.param == "phone",
        reduced_motion="reduce" if request.param == "phone" else "no-preference",
    )
    opened = context.new_page()
    wrong: list[str] = []
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("console", lambda told: wrong.append(told.text) if told.type == "error" else None)
    opened.wrong = wrong
    yield opened
    context.close()
    wrong = without_what_was_left(wrong)
    assert not wrong, wrong


def without_what_was_left(wrong: list[str]) -> list[str]:
    """Messages but those of a reckoning whose page was left while it ran: the library tells that as two failures."""
    for _ in range(sum(told.startswith("htmx:sendAbort") for told in wrong)):
        for name in ("htmx:sendAbort", "htmx:afterRequest"):
            found = next((told for told in wrong if told.startswith(name)), None)
            if found is not None:
                wrong.remove(found)
    return wrong


@pytest.fixture
def clock(tmp_path: Path) -> MovedClock:
    """Clock of a machine that a test moves on."""
    return MovedClock(tmp_path / "clock.json")


@pytest.fixture
def darkroom(empty_darkroom: Path, tmp_path: Path, clock: MovedClock, browser: Any) -> Iterator[Any]:
    """A server on that machine, and a page whose clock goes with it."""
    from tests.browser.moved_darkroom import opened

    if empty_darkroom.is_dir():
        shutil.copytree(empty_darkroom, tmp_path / "darkroom")
    yield from opened(tmp_path / "darkroom", clock, browser)


@pytest.fixture
def axe_findings() -> Callable[[Any], list[str]]:
    """What axe finds wrong with a page as it stands, one line each."""
    from axe_playwright_python.sync_playwright import Axe

    script = Axe().axe_script
    rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

    def findings(page: Any) -> list[str]:
        # The script is given to a page once, and only what is wrong is sent back: the rest is what takes the time.
        if not page.evaluate("'axe' in window"):
            page.evaluate(script)
        told: list[str] = page.evaluate(
            """async (rules) => {
              const found = await axe.run(document, { runOnly: rules, resultTypes: ["violations"] });
              const line = (one, node) => `${one.id}: ${node.html.slice(0, 160)}`;
              return found.violations.flatMap((one) => one.nodes.map((node) => line(one, node)));
            }""",
            rules,
        )
        return told

    return findings


@pytest.fixture
def sideways() -> Callable[[Any], int]:
    """Pixels by which a page is wider than its screen. [px]"""
    return lambda page: page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
