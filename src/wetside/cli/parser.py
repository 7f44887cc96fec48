"""The commands, their options and their help. What a command needs is imported only when it is asked for."""

from __future__ import annotations

import argparse
import sys
from importlib import import_module
from typing import TYPE_CHECKING

from wetside import __version__
from wetside.cli.exit_codes import ExitCode
from wetside.cli.options.parts import Help

if TYPE_CHECKING:
    from collections.abc import Sequence

COMMANDS: dict[str, str] = {
    "plan": "evening",
    "why": "evening",
    "schedule": "evening",
    "mix": "baths",
    "expose": "exposing",
    "curve": "exposing",
    "temper": "baths",
    "fixer": "baths",
    "wash": "baths",
    "paper": "printing",
    "run": "evening",
    "compare": "logs",
    "take": "logs",
    "serve": "archive",
    "account": "archive",
    "negative": "printing",
    "check": "archive",
    "backup": "archive",
    "export": "archive",
    "import": "archive",
    "token": "programs",
    "schema": "shell",
    "complete": "shell",
}
"""Each command and the module of `wetside.cli.options` that adds it, in the order of the help."""


def build_parser(only: str | None = None) -> argparse.ArgumentParser:
    """All commands, or one of them where the rest would only cost time."""
    parser = argparse.ArgumentParser(
        prog="wetside",
        description="From exposed black-and-white sheets to negatives that print.",
        epilog="example:\n  wetside plan evening.toml --out sheets\n\neach command: wetside COMMAND --help",
        formatter_class=Help,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"wetside {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", prog="wetside")
    for name, group in COMMANDS.items():
        if only in (None, name):
            import_module(f"wetside.cli.options.{group}").__dict__[f"add_{name}"](commands)
    return parser


def parse_words(words: Sequence[str]) -> argparse.Namespace:
    """Parse the command line; a mistake ends the program with code 2 and a usage line, as everywhere."""
    parser = build_parser(words[0] if words and words[0] in COMMANDS else None)
    arguments = parser.parse_args(words)
    if not hasattr(arguments, "run"):
        parser.print_help(sys.stderr)
        raise SystemExit(int(ExitCode.INPUT))
    return arguments
