"""Keep the printed output in the docs true: run what it was printed by, and replace or compare it.

A fenced block below a comment belongs to the command in the comment::

    <!-- printed: wetside mix 1+24 600ml -->
    ```
    ...
    ```

``(exit 2)`` after ``printed`` names the exit code where it is not 0. Commands run from the root of the repository
with no colour and 100 columns; what they write to standard error follows what they write to standard output.
"""

from __future__ import annotations

import argparse
import difflib
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BLOCK = re.compile(
    r"(?P<head><!-- printed(?: \(exit (?P<exit>\d+)\))?: (?P<command>[^\n]+?) -->\n+(?P<fence>`{3,})(?P<kind>\w*)\n)"
    r"(?P<body>.*?)(?P<foot>^(?P=fence)$)",
    re.DOTALL | re.MULTILINE,
)
MARK = re.compile(r"^<!-- printed\b", re.MULTILINE)


def pages() -> list[Path]:
    """Markdown files that may hold printed output."""
    return [ROOT / "README.md", *sorted((ROOT / "docs").rglob("*.md"))]


def printed(command: str, exit_code: int) -> str:
    """Run a command of the program and return what it prints, without blanks at line ends."""
    words = shlex.split(command)
    if not words or words[0] != "wetside":
        sys.exit(f"print_docs: only the program itself may be printed, not {command!r}")
    environment = os.environ | {
        "PATH": f"{ROOT / '.venv' / 'bin'}{os.pathsep}{os.environ.get('PATH', '')}",
        "COLUMNS": "100",
        "NO_COLOR": "1",
        "LC_ALL": "C.UTF-8",
        "LANGUAGE": "",
        "PYTHONUTF8": "1",
    }
    done = subprocess.run(
        words,
        cwd=ROOT,
        env=environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=60,
    )
    if done.returncode != exit_code:
        sys.exit(f"print_docs: {command!r} ended with {done.returncode}, not {exit_code}:\n{done.stdout}{done.stderr}")
    return "".join(f"{line.rstrip()}\n" for line in (done.stdout + done.stderr).strip("\n").splitlines())


def renewed(text: str) -> str:
    """Return a page with every printed block as the program prints it now."""

    def body(found: re.Match[str]) -> str:
        return found["head"] + printed(found["command"], int(found["exit"] or 0)) + found["foot"]

    return BLOCK.sub(body, text)


def main() -> int:
    """Replace, or with ``--check`` compare, every printed block of the docs."""
    parser = argparse.ArgumentParser(description="Regenerate printed output in the docs.")
    parser.add_argument("--check", action="store_true", help="change nothing; show what is stale and end with 1")
    check = parser.parse_args().check
    blocks = stale = 0
    for page in pages():
        if not page.is_file():
            continue
        name = str(page.relative_to(ROOT))
        text = page.read_text(encoding="utf-8")
        whole = len(BLOCK.findall(text))
        if whole != len(MARK.findall(text)):
            sys.exit(f"print_docs: {name}: a 'printed' comment without a fenced block right below it")
        blocks += whole
        new = renewed(text)
        if new == text:
            continue
        stale += 1
        if check:
            lines = difflib.unified_diff(
                text.splitlines(), new.splitlines(), f"{name} as it stands", f"{name} as printed now", lineterm=""
            )
            print("\n".join(lines))
        else:
            page.write_text(new, encoding="utf-8")
            print(f"renewed {name}")
    if not blocks:
        print("NOTE no page holds printed output yet")
    if check and stale:
        print("Stale: look at the difference, then run `make docs`.")
    return 1 if check and stale else 0


if __name__ == "__main__":
    sys.exit(main())
