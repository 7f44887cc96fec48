"""Write the schemas of the kept files, made from their types, to ``docs/formats``; with ``--check`` only compare."""

from __future__ import annotations

import importlib.util
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def main() -> int:
    """Hand the work to the program itself."""
    if importlib.util.find_spec("wetside.services.schemas") is None:
        print("NOTE schemas are NOT checked: wetside.services.schemas does not exist yet")
        return 0
    how = "--check" if "--check" in sys.argv[1:] else "--write"
    program = ROOT / ".venv" / "bin" / "wetside"
    return subprocess.run([program, "schema", how, "docs/formats"], cwd=ROOT, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
