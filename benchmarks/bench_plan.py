"""Planning: many equal sheets, and mixed sizes, weights and drums, as whole processes and inside one."""

from __future__ import annotations

import datetime as dt
import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from evenings import equal_sheets, mixed_sheets
from timed import Report, compare, run_s, surroundings, wetside

MOST_RATIO = 15.0
"""Bare starts that a plan of 400 equal sheets may take."""
MOST_EQUAL_S = 1.0
"""For 5,000 equal sheets, planned. [s]"""
MOST_MIXED_S = 10.0
"""For 200 mixed sheets. [s]"""
MOST_GAP = 1
"""Loads between plan and bound of the one mixed group. decided 4."""


def planned_s(path: Path) -> tuple[float, int, int]:
    """Time that planning takes once the file is read [s], loads and bound; the best of three."""
    from wetside.adapters.evening_file import read_evening
    from wetside.planning.evening_plan import plan_evening
    from wetside.services.library import load_library

    evening, library = read_evening(path), load_library()
    best = float("inf")
    for _ in range(3):
        begin = time.perf_counter()
        plan = plan_evening(evening, library, today=dt.date(2026, 11, 20), tool="bench", inputs={})
        best = min(best, time.perf_counter() - begin)
    return best, len(plan.loads), plan.lower_bound


def document_of(path: Path) -> dict[str, object]:
    done = subprocess.run(wetside("plan", path, "--json"), capture_output=True, env=surroundings(), check=True)
    found: dict[str, object] = json.loads(done.stdout)
    return found


def main() -> int:
    report = Report()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        four = folder / "400.toml"
        four.write_text(equal_sheets(400), "utf-8")
        lasted_s, ratio, used_mb = compare(wetside("plan", four, "--json"), 7)
        report.line(
            "400 equal sheets, whole process",
            f"{lasted_s * 1000:7.1f} ms  {ratio:5.1f} bare starts (at most {MOST_RATIO:.0f})",
            held=ratio <= MOST_RATIO,
        )
        plan = document_of(four)
        report.line("  fewest loads proved", str(plan["lower_bound"]), held=bool(plan["proved"]))

        many = folder / "5000.toml"
        many.write_text(equal_sheets(5000), "utf-8")
        inside_s, loads, bound = planned_s(many)
        report.line(
            "5,000 equal sheets, planned",
            f"{inside_s:7.2f} s (under {MOST_EQUAL_S:.0f} s), {loads} loads, bound {bound}",
            held=inside_s < MOST_EQUAL_S,
        )
        whole_s, many_mb = run_s(wetside("plan", many, "--json"))
        report.line("5,000 equal sheets, whole process", f"{whole_s:7.2f} s")

        most_mb = max(used_mb, many_mb)
        for seed in (1, 2, 3):
            mixed = folder / f"mixed{seed}.toml"
            mixed.write_text(mixed_sheets(200, seed), "utf-8")
            whole_s, mixed_mb = run_s(wetside("plan", mixed, "--json"))
            most_mb = max(most_mb, mixed_mb)
            plan = document_of(mixed)
            loads, bound = len(plan["loads"]), int(str(plan["lower_bound"]))  # type: ignore[arg-type]
            report.line(
                f"200 sheets, sizes, weights, two drums ({seed})",
                f"{whole_s:7.2f} s (at most {MOST_MIXED_S:.0f} s), {loads} loads, bound {bound}, gap {loads - bound}",
                held=whole_s <= MOST_MIXED_S and loads - bound <= MOST_GAP and not plan["unplanned"],
            )
        report.memory("largest memory of them all", most_mb)
    return int(report.missed)


if __name__ == "__main__":
    sys.exit(main())
