"""Write the interface's page and description, made from its calls, into ``docs``; with ``--check`` only compare."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def main() -> int:
    """Write or compare; the settings get a data folder of their own, so that nobody's is touched."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"DJANGO_SETTINGS_MODULE": "wetside.web.settings", "WETSIDE_DATA": folder}
        import django

        django.setup()
        from wetside.web.api.page import interface_files

        files = interface_files(ROOT / "docs")
    stale = [path for path, text in files.items() if not path.is_file() or path.read_text("utf-8") != text]
    for path in stale:
        print(f"stale: {path.relative_to(ROOT)}" if "--check" in sys.argv[1:] else f"written: {path.relative_to(ROOT)}")
        if "--check" not in sys.argv[1:]:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(files[path], "utf-8")
    return 1 if stale and "--check" in sys.argv[1:] else 0


if __name__ == "__main__":
    sys.exit(main())
