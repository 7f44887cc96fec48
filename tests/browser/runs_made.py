"""A darkroom in which two runs of the demo evening are over, made once for all tests that look over runs."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

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
print(one.pk, other.pk, plan.pk)
"""


class Made(NamedTuple):
    """A data folder with two runs of the demo evening, their identities, and that of their plan."""

    folder: Path
    one: str
    other: str
    plan: str


def made_in(folder: Path, empty: Path) -> Made:
    """Two runs that a simulated photographer has done, one with a fact that is contested."""
    shutil.copytree(empty, folder)
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
    return Made(folder, *done.stdout.split()[-3:])
