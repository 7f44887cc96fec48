"""Make the pictures of README.md from the demo evening: `python tools/pictures.py`.

The plan's page is taken by a Chromium (Debian: apt-get install chromium), the others come from typst.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures"


def main() -> int:
    """Write docs/pictures/plan.png, windows.png and run-sheet.png."""
    browser = shutil.which("chromium") or shutil.which("chromium-browser")
    if browser is None:
        print("pictures: no chromium on this machine; the plan's page cannot be taken")
        return 1
    import typst

    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder)
        subprocess.run(
            [ROOT / ".venv/bin/wetside", "plan", "examples/demo/evening.toml", "--out", out],
            cwd=ROOT,
            check=True,
            stdout=subprocess.DEVNULL,
        )
        PICTURES.mkdir(exist_ok=True)
        subprocess.run(
            [
                browser,
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-background-networking",
                "--hide-scrollbars",
                "--force-device-scale-factor=1.5",
                "--window-size=1080,1330",
                f"--user-data-dir={out / 'profile'}",
                f"--screenshot={PICTURES / 'plan.png'}",
                f"file://{out / 'plan.html'}",
            ],
            check=True,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        chart = out / "chart.typ"
        chart.write_text('#set page(width: auto, height: auto, margin: 0pt)\n#image("windows.svg", width: 585pt)\n')
        typst.compile(
            str(chart),
            output=str(PICTURES / "windows.png"),
            format="png",
            ppi=144.0,
            font_paths=[str(ROOT / "src/wetside/adapters/typesetting/fonts")],
        )
        shutil.copy(out / "load-1.png", PICTURES / "run-sheet.png")
    return 0


if __name__ == "__main__":
    sys.exit(main())
