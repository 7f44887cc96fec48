"""TOML text into plain values; its mistakes of form in our words, with line and column."""

from __future__ import annotations

import re
from typing import Any

from wetside.adapters.printable import printable
from wetside.errors import Place, UnreadableError

MOST_KEY_PARTS = 20
"""Our choice: the evening file nests three deep; the standard library needs the square of the parts' number."""

_PART = r"(?:[A-Za-z0-9_-]+|\"[^\"\n]*\"|'[^'\n]*')"
_LONG_KEY = re.compile(rf"(?<![A-Za-z0-9_\-\"'.]){_PART}(?:[ \t]*\.[ \t]*{_PART}){{{MOST_KEY_PARTS}}}")
_WHERE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

_SAID = (
    ("Invalid statement", "files.toml.statement"),
    ("Expected '=' after a key", "files.toml.no_equals"),
    ("Invalid initial character for a key part", "files.toml.no_equals"),
    ("Invalid value", "files.toml.value"),
    ("Expected newline or end of document", "files.toml.rest"),
    ("Cannot overwrite a value", "files.toml.twice"),
    ("Cannot declare", "files.toml.twice"),
    ("Cannot mutate", "files.toml.twice"),
    ("Cannot redefine", "files.toml.twice"),
    ("Duplicate inline table key", "files.toml.twice"),
    ("Unclosed array", "files.toml.unclosed"),
    ("Unclosed inline table", "files.toml.unclosed"),
    ("Expected ']", "files.toml.unclosed"),
    ("Unterminated string", "files.toml.quotes"),
    ("Illegal character '\\n'", "files.toml.quotes"),
    ("Unescaped '\\'", "files.toml.backslash"),
    ("Invalid hex value", "files.toml.backslash"),
    ("Escaped character", "files.toml.backslash"),
    ("Invalid date or datetime", "files.toml.date"),
    ("Found invalid character", "files.toml.character"),
    ("Illegal character", "files.toml.character"),
)


def parse_toml(text: str, file: str) -> dict[str, Any]:
    """Plain values of a TOML text.

    Parameters
    ----------
    text : str
        With plain line ends.
    file : str
        Name for the error's place.

    Raises
    ------
    UnreadableError
        If the form is broken; TOML can only be read up to its first mistake of form, so that there is one of them.
    """
    import tomllib

    long_key = _LONG_KEY.search(text)
    if long_key:
        line = text.count("\n", 0, long_key.start()) + 1
        raise UnreadableError("files.toml.too_deep", place=Place(file, line), limit=MOST_KEY_PARTS)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _in_our_words(text, file, str(error)) from error
    except RecursionError as error:
        raise UnreadableError("files.toml.nested", place=Place(file=file)) from error
    except ValueError as error:  # a whole number of thousands of digits
        raise UnreadableError("files.toml.digits", place=Place(file=file, line=_line_of_digits(text))) from error


def _in_our_words(text: str, file: str, said: str) -> UnreadableError:
    lines = text.split("\n")
    where = _WHERE.search(said)
    if where and where[1]:
        line, column = int(where[1]), int(where[2])
    else:
        line = max((number for number, content in enumerate(lines, 1) if content.strip()), default=1)
        column = len(lines[line - 1]) + 1
    code = next((code for start, code in _SAID if said.startswith(start)), "files.toml.other")
    shown = printable(lines[line - 1][:200]) if line <= len(lines) else ""
    return UnreadableError(code, place=Place(file, line), column=column, text=shown)


def _line_of_digits(text: str) -> int | None:
    found = re.search(r"[0-9_]{4000}", text)
    return text.count("\n", 0, found.start()) + 1 if found else None
