"""What the next sheet will most likely be called: the other side of the holder, the next number.

The entry page does the same on its own where the server cannot be asked; ``tests/fixtures/next_labels.json`` holds
cases that both must answer alike.
"""

from __future__ import annotations

import re

_PAIRS = (("left", "right"), ("l", "r"), ("a", "b"), ("links", "rechts"))
_SIDED = re.compile(r"(.*?)([0-9]+)(\s*)(left|right|links|rechts|l|r|a|b)", re.IGNORECASE | re.ASCII)
_NUMBERED = re.compile(r"(.*?)([0-9]+)", re.ASCII)
LONGEST_NUMBER = 9
"""Digits of a number that is counted up; a longer one is no count. Our choice."""


def next_label(text: str) -> str:
    """Label or holder side after this one; empty where nothing is counted in it.

    Parameters
    ----------
    text : str
        As it was typed.

    Examples
    --------
    >>> next_label("3 left"), next_label("3 right"), next_label("7A"), next_label("larch 09"), next_label("larch")
    ('3 right', '4 left', '7B', 'larch 10', '')
    """
    text = text.strip()
    sided = _SIDED.fullmatch(text)
    if sided is not None and len(sided[2]) <= LONGEST_NUMBER:
        stem, number, gap, side = sided.groups()
        for first, second in _PAIRS:
            if side.casefold() == first:
                return f"{stem}{number}{gap}{_cased(second, side)}"
            if side.casefold() == second:
                return f"{stem}{_up(number)}{gap}{_cased(first, side)}"
    numbered = _NUMBERED.fullmatch(text)
    if numbered is not None and len(numbered[2]) <= LONGEST_NUMBER:
        return f"{numbered[1]}{_up(numbered[2])}"
    return ""


def _up(digits: str) -> str:
    return str(int(digits) + 1).zfill(len(digits))


def _cased(word: str, like: str) -> str:
    """Word written as the other one was: 4L leads to 4R, 4 Left to 4 Right."""
    if like.isupper():
        return word.upper()
    return word.capitalize() if like[0].isupper() else word
