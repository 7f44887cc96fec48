"""What every command does with its answer: text for people, JSON for scripts, errors in either form."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any, TextIO

from wetside.cli.exit_codes import ExitCode
from wetside.errors import ManyErrors, RefusedError, WetsideError

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path


def wants_colour() -> bool:
    """Colour only on a terminal, and never where NO_COLOR is set."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def speaks_utf8(stream: TextIO) -> bool:
    """Whether an output can show every character."""
    return (getattr(stream, "encoding", None) or "utf-8").lower().replace("-", "") == "utf8"


def text_width() -> int:
    """Columns to print for: those of the terminal, between 40 and 110; 100 where there is none."""
    stated = os.environ.get("COLUMNS", "")
    if stated.isdecimal() and stated.isascii() and len(stated) < 6 and int(stated):
        found = int(stated)
    else:
        try:
            found = os.get_terminal_size(sys.__stdout__.fileno()).columns if sys.__stdout__ else 0
        except (OSError, ValueError, AttributeError):
            found = 0
    return max(40, min(110, found or 100))


def wrapped(text: str, width: int) -> list[str]:
    """Break a sentence into lines, never between a number and its unit.

    The library's own wrapper would cost the start of the program more than this.
    """
    from wetside.wording.tied import untied, with_units

    lines = [""]
    for word in with_units(" ".join(text.split())).split(" "):
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return [untied(line) for line in lines]


def print_json(value: dict[str, Any]) -> None:
    """Print any document as JSON; a number that is not finite is a fault and stops here."""
    from wetside.adapters.plain_document import json_text

    text = json_text(value)
    if not text.isascii() and not speaks_utf8(sys.stdout):
        text = "".join(mark if mark.isascii() else _escaped(mark) for mark in text)
    print(text)


def _escaped(mark: str) -> str:
    import json

    return json.dumps(mark)[1:-1]


def print_lines(lines: Iterable[str]) -> None:
    """Print lines without trailing blanks."""
    for line in lines:
        print(line.rstrip())


def print_written(folder: str, written: Iterable[Path]) -> None:
    """Say which files were written, under what stands above."""
    from wetside.wording import sentence

    print()
    print(sentence("cli.written_to", {"folder": folder, "names": ", ".join(path.name for path in written)}))


def report_error(error: WetsideError, *, as_json: bool) -> ExitCode:
    """Print an error, or all errors of a file, and return the exit code.

    A file that cannot be reached or written has a code of its own: the input may be sound.
    """
    from wetside.wording import speak_error

    errors = error.errors if isinstance(error, ManyErrors) else (error,)
    if as_json:
        print_json({"errors": [_error_json(one) for one in errors]})
    else:
        for one in errors:
            print(f"wetside: {speak_error(one)}", file=sys.stderr)
        if len(errors) > 1:
            print(f"wetside: {speak_error(error)}", file=sys.stderr)
    if all(one.code.startswith("files.file.") for one in errors):
        return ExitCode.NOT_WRITTEN
    return ExitCode.REFUSED if all(isinstance(one, RefusedError) for one in errors) else ExitCode.INPUT


def _error_json(error: WetsideError) -> dict[str, Any]:
    from wetside.wording import speak_error

    place = error.place
    return {
        "code": error.code,
        "file": place.file if place else None,
        "line": place.line if place else None,
        "field": place.field if place else None,
        "message": speak_error(error),
    }
