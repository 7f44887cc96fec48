"""Looking over runs in Chromium: two beside each other, a look and what it changes, what was told differently."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from itertools import cycle
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import pytest
from tests.browser.conftest import start_server, stop_server

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tests.browser.conftest import Server

ROOT = Path(__file__).resolve().parents[2]
MADE = """
import django
django.setup()
from tests.fixtures.run_records import develop, moment_of_run
from wetside.runs.fact import Fact
from wetside.services.records import demo, plans_frozen, runs
plan = plans_frozen.freeze(demo.make_demo())
one = develop(runs.open_planned(plan.pk, 1))
other = develop(runs.open_planned(plan.pk, 2), late_s=40.0)
late = moment_of_run(one, 500.0)
runs.hand_over(one, [Fact("done", 1, late.at_utc, late.boot_s, late.boot_id, "b" * 32, 1, {"act": "2.full"})])
print(one.pk, other.pk)
"""


class Made(NamedTuple):
    """A data folder with two runs of the demo evening, and their identities."""

    folder: Path
    one: str
    other: str


@pytest.fixture(scope="module")
def made(empty_darkroom: Path, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """Two runs that a simulated photographer has done, one with a fact that is contested; made once for both widths."""
    folder = tmp_path_factory.mktemp("looked-over") / "darkroom"
    shutil.copytree(empty_darkroom, folder)
    environment = {
        **os.environ,
        "WETSIDE_DATA": str(folder),
        "DJANGO_SETTINGS_MODULE": "wetside.web.settings",
        "PYTHONPATH": os.pathsep.join([str(ROOT), str(ROOT / "src")]),
    }
    done = subprocess.run(
        [sys.executable, "-c", MADE], env=environment, capture_output=True, text=True, check=False, timeout=120
    )
    assert done.returncode == 0, done.stderr
    return Made(folder, *done.stdout.split()[-2:])


@pytest.fixture
def server(made: Made, tmp_path: Path) -> Iterator[Server]:
    """Program on a copy of that folder."""
    shutil.copytree(made.folder, tmp_path / "darkroom")
    started = start_server(tmp_path / "darkroom")
    yield started
    stop_server(started)


def test_runs_are_looked_over(
    page: Any, made: Made, axe_findings: Callable[[Any], list[str]], sideways: Callable[[Any], int]
) -> None:
    """From the list to two runs side by side; one settled; a look told, its proposal taken; a light a page."""
    lights = cycle(("light", "dark", "dim"))

    def sound() -> None:
        light = next(lights)
        page.select_option("[data-theme-choice]", light)
        assert axe_findings(page) == [], (page.url, light)
        assert sideways(page) <= 0, (page.url, light)

    page.goto("/runs/")
    page.click("text=Compare two")
    assert page.locator("h1").inner_text() == "Which two runs do not match?"
    sound()
    page.select_option("#c-one", made.one)
    page.select_option("#c-other", made.other)
    page.click("button:has-text('Compare')")
    assert page.locator("h1").inner_text().startswith("Load 2: likely +")
    assert "Late and early acts" in page.locator("main").inner_text()
    sound()
    page.goto(f"/runs/{made.one}/")
    assert "One thing was told differently" in page.locator("main").inner_text()
    assert "Planned and actual" in page.locator("main").inner_text()
    sound()
    page.click("text=What counts now is right")
    assert "told differently" not in page.locator("main").inner_text()
    page.click("text=Look at a negative")
    page.check("[name=how][value=densitometer]")
    assert page.locator("#l-low").is_visible()
    assert not page.locator("[name=shadow]").first.is_visible()
    page.fill("#l-low", "0,30")
    page.fill("#l-high", "much")
    page.click("text=Keep the look")
    assert page.locator("#l-high-m").inner_text()
    sound()
    page.fill("#l-high", "1,55")
    page.click("text=Keep the look")
    assert "Range 1.25" in page.locator("main").inner_text()
    sound()
    page.click("text=Take the new times")
    page.wait_for_url("**/plans/*-*/")
    assert "Planned anew" in page.locator(".told").first.inner_text()
    page.click("text=Undo the planning anew")
    assert "ready again" in page.locator(".told").first.inner_text()
    page.wrong[:] = [line for line in page.wrong if "422" not in line]
