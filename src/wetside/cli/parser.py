"""The commands, their options and their help. Each command's work is imported only when it runs."""

from __future__ import annotations

import argparse
import sys
from importlib import import_module
from typing import TYPE_CHECKING, Any

from wetside import __version__
from wetside.cli.exit_codes import ExitCode

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence


class _Help(argparse.RawDescriptionHelpFormatter):
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


def _command(commands: Any, name: str, module: str, summary: str, example: str) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name,
        help=summary,
        description=summary,
        epilog=f"example:\n  {example}",
        formatter_class=_Help,
        allow_abbrev=False,
    )
    parser.set_defaults(run=_later(module))
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    return parser


def build_parser(only: str | None = None) -> argparse.ArgumentParser:
    """All commands, or one of them where the rest would only cost time."""
    parser = argparse.ArgumentParser(
        prog="wetside",
        description="From exposed black-and-white sheets to negatives that print.",
        epilog="example:\n  wetside plan evening.toml --out sheets\n\neach command: wetside COMMAND --help",
        formatter_class=_Help,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"wetside {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", prog="wetside")
    for name, add in COMMANDS.items():
        if only in (None, name):
            add(commands)
    return parser


def _add_plan(commands: Any) -> None:
    plan = _command(
        commands,
        "plan",
        "plan",
        "Put the sheets of an evening into the fewest loads.",
        "wetside plan evening.toml --out sheets\n"
        '  wetside plan --film "Tolland 100" --developer Brackwater --dilution 1+14 --time 7:30 \\\n'
        "    --count 12 --size 9x12cm --vessel drum:6,300-1000ml",
    )
    plan.add_argument("file", nargs="?", metavar="FILE", help="evening file; leave it out and answer by options")
    plan.add_argument(
        "--out",
        metavar="DIR",
        help="write a run sheet for each load there (PDF, HTML, PNG), the plan as HTML and JSON, and windows.svg",
    )
    plan.add_argument("--paper", choices=("a4", "letter"), default="a4", help="paper of the run sheets")
    plan.add_argument(
        "--rows", metavar="DIR", help="folder with published rows of your own, read after the shipped ones"
    )
    plain = plan.add_argument_group("the plain evening, without a file")
    plain.add_argument("--film", help="film on the sheets")
    plain.add_argument("--ei", help="exposure index that picks the published row")
    plain.add_argument("--developer", help="developer")
    plain.add_argument("--dilution", help="dilution such as 1+14, or stock")
    plain.add_argument(
        "--time", help="bare time such as 7:30, as it holds in your vessel; else a published row is taken"
    )
    plain.add_argument("--temp", help="temperature, 20 C if left out")
    plain.add_argument("--count", dest="number", help="how many sheets")
    plain.add_argument("--size", help="format such as 9x12cm or 4x5in")
    plain.add_argument("--vessel", help="kind, places and limits, such as drum:6,300-1000ml")


def _add_why(commands: Any) -> None:
    why = _command(
        commands,
        "why",
        "why",
        "Show the reckoning behind one sheet, line by line.",
        'wetside why evening.toml "7 left"',
    )
    why.add_argument("file", metavar="FILE", help="evening file")
    why.add_argument("sheet", metavar="SHEET", help="label or holder side of the sheet")
    why.add_argument("--rows", metavar="DIR", help="folder with published rows of your own")


def _add_schedule(commands: Any) -> None:
    schedule = _command(
        commands,
        "schedule",
        "schedule",
        "Lay out the whole evening: what comes when, what to mix, when it ends.",
        "wetside schedule evening.toml --out sheets",
    )
    schedule.add_argument("file", metavar="FILE", help="evening file")
    schedule.add_argument(
        "--out", metavar="DIR", help="write the evening, the safety page and the house page there (PDF, HTML)"
    )
    schedule.add_argument("--paper", choices=("a4", "letter"), default="a4", help="paper of the pages")
    schedule.add_argument("--rows", metavar="DIR", help="folder with published rows of your own")


def _add_mix(commands: Any) -> None:
    mix = _command(commands, "mix", "mix", "Work out the parts of a working solution.", "wetside mix 1+24 600ml")
    mix.add_argument(
        "dilution", metavar="DILUTION", help="parts such as 1+24 or 1+2+100, a percentage such as 4%%, or stock"
    )
    mix.add_argument("volume", metavar="VOLUME", help="how much is wanted, such as 600ml or 1.5l")
    mix.add_argument("--smallest", metavar="VOLUME", default="10 ml", help="smallest amount that your measure reads")


def _add_expose(commands: Any) -> None:
    expose = _command(
        commands,
        "expose",
        "expose",
        "Correct a metered time in the right order, or place a reading.",
        "wetside expose 2s --filter 4 --extension 270mm --focal 180mm --power 1.3\n"
        "  wetside expose --shadow 9@3 --highlight 14@8",
    )
    expose.add_argument("time", nargs="?", metavar="TIME", help="metered time, such as 1/15s or 8s")
    expose.add_argument("--metered-at", metavar="F", help="aperture of the reading")
    expose.add_argument("--set-to", metavar="F", help="aperture that will be set")
    expose.add_argument(
        "--filter", metavar="FACTOR", action="append", help="filter factor; give it again for a second filter"
    )
    expose.add_argument("--extension", metavar="LENGTH", help="bellows extension")
    expose.add_argument("--focal", metavar="LENGTH", help="focal length")
    expose.add_argument("--film", metavar="FILM", help="film whose published reciprocity is used")
    expose.add_argument("--power", metavar="P", help="reciprocity exponent of your own")
    expose.add_argument("--threshold", metavar="TIME", default="1 s", help="no correction up to this time")
    expose.add_argument("--shadow", metavar="EV@ZONE", help="shadow reading and the zone to put it on")
    expose.add_argument("--highlight", metavar="EV@ZONE", help="highlight reading and the zone that it shall print on")
    expose.add_argument("--rows", metavar="DIR", help="folder with published rows of your own")


def _add_curve(commands: Any) -> None:
    curve = _command(
        commands,
        "curve",
        "curve",
        "Measure characteristic curves from readings of a step tablet.",
        "wetside curve readings.csv --svg curves.svg",
    )
    curve.add_argument(
        "readings",
        metavar="READINGS",
        help="CSV with columns dev_min, log_h, density; or dev_min, step, density with --tablet or --nominal",
    )
    curve.add_argument("--tablet", metavar="FILE", help="CSV with the tablet's own step and density")
    curve.add_argument("--nominal", action="store_true", help="take the tablet's steps as 0.15 each")
    curve.add_argument("--base-fog", metavar="D", help="density of unexposed film; else the lowest reading")
    curve.add_argument("--svg", metavar="FILE", help="draw the curves")


def _add_schema(commands: Any) -> None:
    schema = _command(commands, "schema", "schema", "Print the schema of a kept file.", "wetside schema evening")
    schema.add_argument("document", nargs="?", choices=("evening", "plan"), help="which document")
    schema.add_argument("--write", metavar="DIR", help="write all schemas there")
    schema.add_argument("--check", metavar="DIR", help="fail if the schemas there are stale")


def _add_complete(commands: Any) -> None:
    complete = _command(
        commands,
        "complete",
        "complete",
        "Print a completion script for your shell.",
        "wetside complete bash >> ~/.bash_completion",
    )
    complete.add_argument("shell", choices=("bash", "zsh", "fish"), help="which shell")


COMMANDS: dict[str, Callable[[Any], None]] = {
    "plan": _add_plan,
    "why": _add_why,
    "schedule": _add_schedule,
    "mix": _add_mix,
    "expose": _add_expose,
    "curve": _add_curve,
    "schema": _add_schema,
    "complete": _add_complete,
}
"""Each command by its name, in the order of the help."""


def parse_words(words: Sequence[str]) -> argparse.Namespace:
    """Parse the command line; a mistake ends the program with code 2 and a usage line, as everywhere."""
    parser = build_parser(words[0] if words and words[0] in COMMANDS else None)
    arguments = parser.parse_args(words)
    if not hasattr(arguments, "run"):
        parser.print_help(sys.stderr)
        raise SystemExit(int(ExitCode.INPUT))
    return arguments
