"""Describe the machine, then run every script ``benchmarks/bench_*.py``; end with 1 if one of them misses its ratio.

A benchmark prints absolute times and, in the same run, ratios to a bare interpreter start; only ratios are gates.
"""

from __future__ import annotations

import os
import platform
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def processor() -> str:
    """Model of the processor as the system tells it."""
    told = Path("/proc/cpuinfo")
    if told.is_file():
        for line in told.read_text(encoding="utf-8").splitlines():
            name, _, model = line.partition(":")
            if name.strip() in ("model name", "Model", "cpu model"):
                return model.strip()
    return platform.processor() or platform.machine() or "unknown"


def memory_gib() -> float | None:
    """Physical memory. [GiB]"""
    try:
        return os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    except (AttributeError, ValueError, OSError):
        return None


def main() -> int:
    """Run what ``benchmarks`` holds."""
    usable = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    memory = memory_gib()
    print(f"processor  {processor()}, {usable} cores" + (f", {memory:.0f} GiB" if memory else ""))
    print(f"system     {platform.system()} {platform.release()}")
    print(f"python     {platform.python_implementation()} {platform.python_version()}")
    if hasattr(os, "getloadavg"):
        print(f"load       {os.getloadavg()[0]:.1f} in the last minute (times are good only near 0)")
    scripts = sorted((ROOT / "benchmarks").glob("bench_*.py"))
    if not scripts:
        print("NOTE no benchmark yet")
    missed = []
    for script in scripts:
        print(f"\n{script.stem.removeprefix('bench_')}", flush=True)
        if subprocess.run([sys.executable, script], cwd=ROOT, check=False).returncode:
            missed.append(script.name)
    if missed:
        print(f"\nmissed: {', '.join(missed)}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
