"""Start of the program: a whole ``wetside mix`` process against a bare interpreter."""

from __future__ import annotations

import sys

from timed import BARE, Report, compare, wetside

MOST = 6.0
"""Bare starts that ``wetside mix`` may take."""


def main() -> int:
    report = Report()
    bare_s, _, _ = compare(BARE, 10)
    report.line("bare interpreter", f"{bare_s * 1000:7.1f} ms")
    for words, gate in (
        (("mix", "1+24", "600ml"), MOST),
        (("mix", "1+24", "600ml", "--json"), MOST),
        (("--version",), None),
        (("expose", "2s", "--filter", "4", "--power", "1.3"), None),
        (("curve", "examples/demo/tolland-100.csv"), None),
        (("plan", "examples/b1/evening.toml"), None),
        (("plan", "examples/demo/evening.toml"), None),
    ):
        lasted_s, ratio, used_mb = compare(wetside(*words), 8)
        limit = f" (at most {gate:.0f})" if gate else ""
        report.line(
            f"wetside {' '.join(words)}"[:43],
            f"{lasted_s * 1000:7.1f} ms  {ratio:5.1f} bare starts{limit}  {used_mb:.0f} MB",
            held=None if gate is None else ratio <= gate,
        )
    return int(report.missed)


if __name__ == "__main__":
    sys.exit(main())
