"""Whole processes, timed beside a bare interpreter start in the same run."""

from __future__ import annotations

import os
import shutil
import statistics
import subprocess
import sys
import time
from pathlib import Path

PROGRAM = shutil.which("wetside", path=str(Path(sys.executable).parent))
BARE = [sys.executable, "-c", "pass"]
MOST_MB = 300.0
"""Memory that no command may pass. [MB]"""


def wetside(*words: object) -> list[str]:
    """Words that start the installed program."""
    return [*([PROGRAM] if PROGRAM else [sys.executable, "-m", "wetside.cli"]), *map(str, words)]


def surroundings() -> dict[str, str]:
    """Environment in which byte code is kept, as it is on a machine in use."""
    return {
        name: value
        for name, value in os.environ.items()
        if name not in ("PYTHONDONTWRITEBYTECODE", "PYTHONUNBUFFERED", "PYTHONPYCACHEPREFIX")
    }


def run_s(words: list[str]) -> tuple[float, float]:
    """Wall time [s] and largest memory [MB] of a process that must end well."""
    begin = time.perf_counter()
    process = subprocess.Popen(words, stdout=subprocess.DEVNULL, env=surroundings())
    _, status, usage = os.wait4(process.pid, 0)
    lasted_s = time.perf_counter() - begin
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        sys.exit(f"{' '.join(words)} ended with {process.returncode}")
    return lasted_s, usage.ru_maxrss / (1e6 if sys.platform == "darwin" else 1e3)


def compare(words: list[str], rounds: int) -> tuple[float, float, float]:
    """Median time [s], ratio to a bare start, and memory [MB], both measured in turn so that a busy machine slows both.

    The ratio is that of the fastest runs: what else the machine does can only add.
    """
    run_s(words)
    bare, ours, memory = [], [], 0.0
    for _ in range(rounds):
        bare += [run_s(BARE)[0] for _ in range(3)]
        lasted_s, used = run_s(words)
        ours.append(lasted_s)
        memory = max(memory, used)
    return statistics.median(ours), min(ours) / min(bare), memory


class Report:
    """Lines of a benchmark, and whether a gate was missed."""

    def __init__(self) -> None:
        self.missed = False

    def line(self, name: str, measured: str, *, held: bool | None = None) -> None:
        """Print one line; ``held`` tells how a gate ended, None where there is none."""
        verdict = "" if held is None else "  ok" if held else "  MISSED"
        self.missed |= held is False
        print(f"  {name:<44}{measured}{verdict}", flush=True)

    def memory(self, name: str, used_mb: float) -> None:
        """Hold memory against the limit."""
        self.line(name, f"{used_mb:.0f} MB (at most {MOST_MB:.0f})", held=used_mb <= MOST_MB)
