"""Write the fixtures that hold the pages' reckoning to the core's; with ``--check`` only compare.

Each holds a run's rules at some moments, and beside them what the core says of them: every due time, every cue of the
next minutes, the largest line, the act that an answer tells and what makes it doubtful, and the rules after more facts.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "src")]

from tests.fixtures.run_rules_sample import STORIES  # noqa: E402 (found only once the path is known)

FOLDER = ROOT / "tests" / "fixtures" / "run_rules"


def text_of(fixture: dict[str, Any]) -> str:
    """Text of a fixture's file: one line a check, so that a change can be read."""
    checks = ",\n".join(json.dumps(check, ensure_ascii=False, sort_keys=True) for check in fixture["checks"])
    return f'{{"format": 1, "name": {json.dumps(fixture["name"])}, "checks": [\n{checks}\n]}}\n'


def main() -> int:
    """Write or compare."""
    check = "--check" in sys.argv[1:]
    wrong = []
    for name, story in STORIES.items():
        path = FOLDER / f"{name}.json"
        text = text_of({"name": name, "checks": story()})
        if check and (not path.is_file() or path.read_text("utf-8") != text):
            wrong.append(path.name)
        elif not check:
            FOLDER.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
    old = {path.stem for path in FOLDER.glob("*.json")} - set(STORIES)
    for name in sorted(wrong + [f"{stem}.json" for stem in old]):
        print(f"{name} is not what the core says now: run tools/run_rules_fixtures.py")
    return 1 if wrong or old else 0


if __name__ == "__main__":
    sys.exit(main())
