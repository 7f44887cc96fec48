"""The options of logs that `wetside run` kept: hold two against each other, take one into the archive."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command, data_folder


def add_compare(commands: Any) -> None:
    """Add `wetside compare`."""
    compare = command(
        commands,
        "compare",
        "compare",
        "Say why the negatives of two runs do not match, by their logs: the largest likely effect first.",
        "wetside compare load-1.log load-2.log",
    )
    compare.add_argument("one", metavar="LOG", help="log of a run, as wetside run --log keeps it")
    compare.add_argument("other", metavar="OTHER", help="log of another; figures tell what it has more")


def add_take(commands: Any) -> None:
    """Add `wetside take`."""
    take = command(
        commands,
        "take",
        "take",
        "Show what a run's log would bring to the archive, and with --yes take it in.",
        "wetside take load-1.log\n  wetside take load-1.log --yes --sheets\n  wetside take load-1.log --untie",
    )
    take.add_argument("log", metavar="LOG", help="log of a run, as wetside run --log keeps it")
    take.add_argument("--yes", action="store_true", help="do what is shown without it")
    only = take.add_mutually_exclusive_group()
    only.add_argument(
        "--sheets", action="store_true", help="its sheets are those of the archive that are shown; else none is touched"
    )
    only.add_argument(
        "--untie", action="store_true", help="its run was not the load, or had not the sheets, that it is tied to"
    )
    only.add_argument("--remove", action="store_true", help="take its run out of the archive; it can be brought back")
    data_folder(take)
