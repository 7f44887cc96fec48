"""A log of the terminal in Chromium: taken in with its sheets, untied, tied again, removed, brought back."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from tests.fixtures.run_logs import facts_of, log_of, quick

from wetside.runs.script import RunSheet

if TYPE_CHECKING:
    from tests.browser.conftest import Server

ROOT = Path(__file__).resolve().parents[2]
TWO_SHEETS = """
import django
django.setup()
from wetside.records import models
from wetside.services.records.changes import make
film = make(models.Film, {"name": "Tolland 100"})
for label in ("7 left", "7 right"):
    make(models.Sheet, {"label": label, "film": film})
"""


@pytest.mark.parametrize("page", ["phone"], indirect=True)
def test_a_log_is_taken_in_with_its_sheets_and_taken_back(
    page: Any, server: Server, tmp_path: Path, axe_findings: Any, sideways: Any
) -> None:
    """By keyboard where a choice is made; each step clean to axe and no wider than the screen."""
    environment = {**os.environ, "WETSIDE_DATA": str(server.data), "DJANGO_SETTINGS_MODULE": "wetside.web.settings"}
    subprocess.run([sys.executable, "-c", TWO_SHEETS], env=environment, check=True, timeout=60, cwd=ROOT)
    sheets = tuple(RunSheet(name, "Tolland 100", 90.0) for name in ("7 left", "7 right"))
    log = tmp_path / "load-1.log"
    log.write_bytes(log_of(facts_of(quick()._replace(sheets=sheets))))

    def choose() -> None:
        page.goto("/runs/")
        page.get_by_role("link", name="Take in a terminal's log").click()
        page.set_input_files("#log", log)
        page.get_by_role("button", name="Look at it").click()

    choose()
    page.wait_for_selector("text=A run that is not in the archive yet")
    assert axe_findings(page) == []
    assert sideways(page) <= 0
    page.get_by_role("radio", name="These records, sheet by sheet").focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Take it in").press("Enter")
    page.wait_for_selector("text=2 sheets belong to it")
    page.wait_for_selector("text=What came of it")
    assert axe_findings(page) == []
    assert sideways(page) <= 0
    choose()
    page.wait_for_selector("text=All of this log is in the archive already")
    assert sideways(page) <= 0
    page.get_by_role("link", name="The run", exact=True).click()
    page.get_by_role("link", name="These were not its sheets").press("Enter")
    page.wait_for_selector("text=Two sheets would wait again")
    assert axe_findings(page) == []
    assert sideways(page) <= 0
    page.get_by_role("button", name="Untie it").press("Enter")
    page.get_by_role("button", name="Tie it again").press("Enter")
    page.get_by_role("link", name="These were not its sheets").click()
    page.get_by_role("button", name="Untie it").click()
    page.get_by_role("link", name="Remove this run").press("Enter")
    page.wait_for_selector("text=It goes from every list")
    assert axe_findings(page) == []
    page.get_by_role("button", name="Remove this run").press("Enter")
    page.wait_for_selector("text=Tolland 100 in Brackwater 1+14 is removed")
    assert axe_findings(page) == []
    assert sideways(page) <= 0
    choose()
    page.wait_for_selector("text=This run was removed; taking its log in brings it back")
    assert sideways(page) <= 0
    page.get_by_role("radio", name="None of them").check()
    page.get_by_role("button", name="Bring it back").press("Enter")
    page.wait_for_selector("text=It was removed, and is back.")
