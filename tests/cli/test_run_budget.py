"""What a plain run asks of the hands at a terminal, and how soon it counts: the budget of corrections 1.3 and 1.4."""

from __future__ import annotations

import os
import re
import time
from collections import Counter
from pathlib import Path

import pytest
from tests.fixtures.moved_clock import MovedClock
from tests.fixtures.terminal_run import TerminalRun, plan_of

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs a pseudo-terminal")
ROOT = Path(__file__).resolve().parents[2]
START_S, PAUSE_S, LETTER_S = 15.0, 0.4, 0.09
"""From "start" to a counting run; a person looks first, and types eleven letters a second at most. [s]"""
COUNTS = re.compile(r"(?P<what>[^.!|]*?)[, ]+IN (?P<in>\d+:\d\d)")


def _in_s(text: str) -> int:
    minutes, _, seconds = text.partition(":")
    return int(minutes) * 60 + int(seconds)


def test_from_the_first_letter_to_a_counting_run(tmp_path: Path) -> None:
    """The whole command typed by hand, Enter, and a time that counts: under 15 s."""
    command = 'wetside run --film "Tolland 100" --developer Brackwater --time 7:30 --log tonight.log'
    clock = MovedClock(tmp_path / "clock.json")
    words = ["run", "--film", "Tolland 100", "--developer", "Brackwater", "--time", "7:30", "--log", tmp_path / "a.log"]
    begun = time.monotonic()
    at = TerminalRun(clock.words(*words))
    try:
        at.until(r"DEVELOPER, FULL IN 0:\d\d")
        lasted_s = PAUSE_S + len(command) * LETTER_S + time.monotonic() - begun
    finally:
        at.close()
    assert lasted_s < START_S, lasted_s


def test_a_plain_load_at_a_terminal(tmp_path: Path) -> None:
    """A person who follows the screen presses: at most 3 before lights out, 1 after, 1 a bath, 1 at the end."""
    plan = plan_of(tmp_path, ROOT / "examples" / "demo" / "evening.toml")
    clock = MovedClock(tmp_path / "clock.json")
    at = TerminalRun(clock.words("run", "--plan", plan, "--load", "1"), clock.on)
    acts = Counter({"before lights out": 1})  # the command
    try:
        at.until("DRY")
        for _ in range(60):
            line = at.screen().partition("| now")[0].strip()
            found = COUNTS.match(line)
            if found is not None and not re.search("FULL|AGENT|HANG", found["what"]):
                clock.on(_in_s(found["in"]) + 0.5)
                continue
            asked = "DRY" in line or "LID" in line
            # Where nothing presses the person takes a while, drains, and pours.
            clock.on(_in_s(found["in"]) + 0.5 if found is not None else 4.0 if asked else 40.0)
            kind = "before lights out" if "DRY" in line else "after" if "LID" in line else "a bath"
            kind = "at the end" if line.startswith("HANG") else kind
            at.answer(" ", "Taken|Which hangs")
            acts[kind] += 1
            if kind == "at the end":
                break
    finally:
        at.close()
    assert acts == {"before lights out": 2, "after": 1, "a bath": 6, "at the end": 1}, at.seen[-2000:]
