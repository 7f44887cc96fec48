"""On which line each key of a TOML text stands: a second pass, made only when there is something to complain of.

The text has been read by the standard library before, so that its form is known to be right; whatever this scanner
does not understand all the same costs a line number, never the error itself.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wetside.adapters.findings import FieldPath

_BLANK = re.compile(r"(?:[ \t\n]+|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_BASIC = re.compile(r'"(?:[^"\\\n]|\\.)*"')
_LITERAL = re.compile(r"'[^'\n]*'")
_LONG_BASIC = re.compile(r'"""(?:[^\\]|\\.)*?"{3,5}(?!")', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''.*?'{3,5}(?!')", re.DOTALL)
_OTHER = re.compile(r"[^,\]}\n#]+")


class KeyLines:
    r"""Lines of the keys of a TOML text.

    Parameters
    ----------
    text : str
        Valid TOML with plain line ends.

    Examples
    --------
    >>> KeyLines('a = 1\n[[sheets]]\n[[sheets]]\nlabel = "x"\n').line_of(("sheets", 1, "label"))
    4
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._ends = [match.start() for match in re.finditer("\n", text)]
        self._lines: dict[FieldPath, int] = {}
        self._counts: dict[FieldPath, int] = {}
        with suppress(_LostError, RecursionError):
            self._document()

    def line_of(self, path: FieldPath) -> int | None:
        """Line of a key, or of the nearest table around it, or None; 1 is the first."""
        while path:
            line = self._lines.get(path)
            if line is not None:
                return line
            path = path[:-1]
        return None

    def _note(self, path: FieldPath, position: int) -> None:
        self._lines.setdefault(path, bisect_right(self._ends, position - 1) + 1)

    def _document(self) -> None:
        text, position = self._text, 0
        table: FieldPath = ()
        while True:
            position = _skip(_BLANK, text, position)
            if position >= len(text):
                return
            if text[position] == "[":
                table, position = self._header(position)
            else:
                position = self._pair(position, table)

    def _header(self, start: int) -> tuple[FieldPath, int]:
        many = self._text.startswith("[[", start)
        parts, position = self._key(start + (2 if many else 1))
        path: FieldPath = ()
        for rank, part in enumerate(parts):
            path += (part,)
            self._note(path, start)
            count = self._counts.get(path, 0)
            if many and rank == len(parts) - 1:
                self._counts[path] = count + 1
                path += (count,)
                self._note(path, start)
            elif count:
                path += (count - 1,)
        return path, position + (2 if many else 1)

    def _key(self, position: int) -> tuple[list[str], int]:
        text, parts = self._text, []
        while True:
            position = _skip(_SPACE, text, position)
            for pattern in (_BARE, _BASIC, _LITERAL):
                match = pattern.match(text, position)
                if match:
                    break
            else:
                raise _LostError
            parts.append(_plain(match[0]))
            position = _skip(_SPACE, text, match.end())
            if text[position : position + 1] != ".":
                return parts, position
            position += 1

    def _pair(self, start: int, table: FieldPath) -> int:
        parts, position = self._key(start)
        path = table
        for part in parts:
            path += (part,)
            self._note(path, start)
        if self._text[position : position + 1] != "=":
            raise _LostError
        return self._value(_skip(_SPACE, self._text, position + 1), path)

    def _value(self, position: int, path: FieldPath) -> int:
        text = self._text
        first = text[position : position + 1]
        if first == "[":
            return self._array(position + 1, path)
        if first == "{":
            return self._inline(position + 1, path)
        for pattern in (_LONG_BASIC, _LONG_LITERAL, _BASIC, _LITERAL, _OTHER):
            match = pattern.match(text, position)
            if match:
                return match.end()
        raise _LostError

    def _array(self, position: int, path: FieldPath) -> int:
        text, rank = self._text, 0
        while True:
            position = _skip(_BLANK, text, position)
            if text[position : position + 1] == "]":
                return position + 1
            self._note((*path, rank), position)
            position = _skip(_BLANK, text, self._value(position, (*path, rank)))
            rank += 1
            if text[position : position + 1] == ",":
                position += 1

    def _inline(self, position: int, path: FieldPath) -> int:
        text = self._text
        while True:
            position = _skip(_BLANK, text, position)
            if text[position : position + 1] == "}":
                return position + 1
            position = _skip(_BLANK, text, self._pair(position, path))
            if text[position : position + 1] == ",":
                position += 1


class _LostError(Exception):
    """The scanner does not understand the text from here on."""


def _skip(pattern: re.Pattern[str], text: str, position: int) -> int:
    match = pattern.match(text, position)
    return match.end() if match else position


def _plain(part: str) -> str:
    """Key part without its quotation marks; escapes are undone the way the standard library does."""
    if part[0] == "'":
        return part[1:-1]
    if part[0] != '"':
        return part
    if "\\" not in part:
        return part[1:-1]
    import tomllib

    return str(next(iter(tomllib.loads(f"{part} = 0"))))
