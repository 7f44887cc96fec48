"""What the options of several commands are made of."""

from __future__ import annotations

import argparse
from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable


class Help(argparse.RawDescriptionHelpFormatter):
    """Help as wide as the terminal; the library's own way to ask for that loads half an archive program."""

    def __init__(self, prog: str) -> None:
        from wetside.cli.output import text_width

        super().__init__(prog, width=text_width() - 2)


def _later(module: str) -> Callable[[argparse.Namespace], int]:
    """Run a command of a module that is imported only then."""

    def run(arguments: argparse.Namespace) -> int:
        code: int = import_module(f"wetside.cli.{module}").run(arguments)
        return code

    return run


def command(commands: Any, name: str, module: str, summary: str, example: str) -> argparse.ArgumentParser:
    """Add a command with its summary, its example and `--json`."""
    parser: argparse.ArgumentParser = commands.add_parser(
        name,
        help=summary,
        description=summary,
        epilog=f"example:\n  {example}",
        formatter_class=Help,
        allow_abbrev=False,
    )
    parser.set_defaults(run=_later(module))
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    return parser


def own_rows(parser: argparse.ArgumentParser) -> None:
    """Add `--rows`."""
    parser.add_argument(
        "--rows", metavar="DIR", help="folder with published rows of your own, read after the shipped ones"
    )


def page_size(parser: argparse.ArgumentParser, of_what: str) -> None:
    """Add `--paper`."""
    parser.add_argument("--paper", choices=("a4", "letter"), default="a4", help=f"paper of the {of_what}")


def flash(parser: Any, of_what: str) -> None:
    """Add what tells of a pre-flash."""
    parser.add_argument("--flash", metavar="ZONE", help=f"zone of a pre-flash, such as I.5: {of_what}")
    parser.add_argument("--flash-gain", metavar="STOPS@ZONE", help="or what a zone shall gain by it, such as 0.5@III")


def printing_names(parser: Any, processes: str) -> None:
    """Add the names that a paper or process goes by."""
    parser.add_argument("--number", metavar="R", help="range number of the paper, such as R110")
    parser.add_argument("--grade", help="paper grade, 0 to 6")
    parser.add_argument("--filter", help="filter of a variable paper")
    parser.add_argument("--product", metavar="PAPER", help="the paper that the filter is for, if several are known")
    parser.add_argument("--process", metavar="NAME", help=processes)


def data_folder(parser: Any) -> None:
    """Add `--data`."""
    parser.add_argument("--data", metavar="DIR", help="folder of the data; else WETSIDE_DATA, else the system's place")
