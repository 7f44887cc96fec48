"""The short form of ``make soak``: kills, cuts inside every write, tears, full disks, clocks, simulated evenings."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest
from tests.fixtures import run_soak as soak

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL and limits of files")


def test_kills_at_moments_of_chance_lose_nothing(tmp_path: Path) -> None:
    """Eighty writers killed in the midst: what was told as taken is there, in order."""
    assert soak.kills_of_a_file(tmp_path / "run.log", 80, 3).acknowledged > 0


def test_a_cut_inside_any_write_loses_nothing(tmp_path: Path) -> None:
    """For every change of the file in a run, at its beginning, in its middle and at its end."""
    seen = soak.cuts_inside_every_write(tmp_path, (0.0, 0.5, 1.0))
    assert seen.acknowledged == 5
    assert seen.tries >= 3 * 10


def test_a_run_torn_anywhere_opens(tmp_path: Path) -> None:
    """After every 97th byte of a whole run."""
    assert soak.tears(tmp_path, 97, 1).tries > 50


def test_a_disk_that_fills_anywhere_leaves_the_log_whole(tmp_path: Path) -> None:
    """After each 600 bytes: refused, nothing half taken, and it goes on when there is room."""
    seen = soak.full_disks(tmp_path, 600)
    assert seen.acknowledged == seen.tries > 5


def test_no_clock_makes_a_wrong_time(tmp_path: Path) -> None:
    """Set, cut, asleep: two hundred evenings."""
    seen = soak.clocks(200, 5)
    assert seen.acknowledged > 20
    assert "0 in doubt" not in seen.said


def test_simulated_evenings_end(tmp_path: Path) -> None:
    """Six photographers of all kinds."""
    assert soak.evenings(6, 7).tries == 6
