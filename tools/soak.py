"""Hours of trouble for runs: kills, cuts inside writes, torn logs, full disks, clocks, simulated evenings.

``make soak`` runs the long form; ``--kills``, ``--evenings`` and ``--clocks`` say how much of each. The tables are
tried on SQLite, or on the database that ``WETSIDE_DATABASE`` names. What the suites run of it is in
``tests/crash/test_soak_short.py``. Fails at the first fact that is lost.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from tests.fixtures import run_soak as soak  # noqa: E402


def set_up(folder: Path) -> None:
    """Begin a darkroom to write into."""
    from wetside.web.serve import open_darkroom

    opened = open_darkroom(str(folder), "soak")
    opened.close()


def main() -> int:
    """Go through all trials, one after the other, and tell what each saw."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--kills", type=int, default=1000)
    parser.add_argument("--evenings", type=int, default=500)
    parser.add_argument("--clocks", type=int, default=5000)
    parser.add_argument("--seed", type=int, default=int(time.time()))
    wanted = parser.parse_args()
    print(f"seed {wanted.seed}")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        set_up(folder / "darkroom")
        log = folder / "run.log"
        trials = (
            ("log in a file, killed", lambda: soak.kills_of_a_file(log, wanted.kills, wanted.seed)),
            ("log in tables, killed", lambda: soak.kills_of_tables(wanted.kills, wanted.seed)),
            ("cut inside every write", lambda: soak.cuts_inside_every_write(folder, (0.0, 0.1, 0.5, 0.9, 1.0))),
            ("torn after every byte", lambda: soak.tears(folder, 1, wanted.seed)),
            ("disk full", lambda: soak.full_disks(folder, 7)),
            ("clocks", lambda: soak.clocks(wanted.clocks, wanted.seed)),
            ("evenings", lambda: soak.evenings(wanted.evenings, wanted.seed)),
        )
        for title, trial in trials:
            begun = time.monotonic()
            print(f"{title}: {soak.told(trial())} in {time.monotonic() - begun:.1f} s", flush=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
