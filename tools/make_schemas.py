"""Write the schemas of the kept files, made from their types, to ``docs/formats``; with ``--check`` only compare."""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
EXPORT = ROOT / "docs" / "formats" / "export.schema.json"


def export_text() -> str:
    """Schema of the archive's plain files; its types are the tables, so that the framework is set up."""
    from wetside.web.serve import set_up

    set_up()
    from wetside.services.archive.export_schema import export_schema

    return json.dumps(export_schema(), indent=1) + "\n"


def main() -> int:
    """Hand the work to the program itself, and do the archive's own."""
    if importlib.util.find_spec("wetside.services.schemas") is None:
        print("NOTE schemas are NOT checked: wetside.services.schemas does not exist yet")
        return 0
    check = "--check" in sys.argv[1:]
    program = ROOT / ".venv" / "bin" / "wetside"
    code = subprocess.run(
        [program, "schema", "--check" if check else "--write", "docs/formats"], cwd=ROOT, check=False
    ).returncode
    text = export_text()
    if not check:
        EXPORT.write_text(text, "utf-8")
    elif not EXPORT.is_file() or EXPORT.read_text("utf-8") != text:
        print(f"{EXPORT.name} is stale: python tools/make_schemas.py")
        return code or 1
    return code


if __name__ == "__main__":
    sys.exit(main())
