"""What every command does with its answer: text for people, JSON for scripts, errors in either form."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.errors import ManyErrors, RefusedError, WetsideError

if TYPE_CHECKING:
    from collections.abc import Iterable


def wants_colour() -> bool:
    """Colour only on a terminal, and never where NO_COLOR is set."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def text_width() -> int:
    """Columns to print for: those of the terminal, between 60 and 110."""
    import shutil

    return max(60, min(110, shutil.get_terminal_size((100, 24)).columns))


def print_json(value: dict[str, Any]) -> None:
    """Print any document as JSON; a number that is not finite is a fault and stops here."""
    from wetside.adapters.plain_document import json_text

    print(json_text(value))


def print_lines(lines: Iterable[str]) -> None:
    """Print lines without trailing blanks."""
    for line in lines:
        print(line.rstrip())


def report_error(error: WetsideError, *, as_json: bool) -> ExitCode:
    """Print an error, or all errors of a file, and return the exit code."""
    from wetside.wording import speak_error

    errors = error.errors if isinstance(error, ManyErrors) else (error,)
    if as_json:
        print_json({"errors": [_error_json(one) for one in errors]})
    else:
        for one in errors:
            print(f"wetside: {speak_error(one)}", file=sys.stderr)
        if len(errors) > 1:
            print(f"wetside: {speak_error(error)}", file=sys.stderr)
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
