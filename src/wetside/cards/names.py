"""Text that a person typed, made fit for one line of any medium."""

from __future__ import annotations

import unicodedata

from wetside.wording.tied import TIE, with_units

LONGEST_TIED = 12
"""Characters of a label that is never broken, such as ``12 right``; a longer one may have to be. Our choice."""

LONGEST = 60
"""Characters of a label on paper; the plan itself keeps all of it. Our choice."""

_TURNS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f")
"""Marks that turn the direction of what follows, and would reach beyond the label."""


def clean(text: str) -> str:
    r"""Return the text on one line, without control characters and direction marks.

    Examples
    --------
    >>> clean("7 left\n\x1b[31m")
    '7 left [31m'
    """
    kept = [
        " " if unicodedata.category(mark) in ("Cc", "Zl", "Zp") else mark
        for mark in text
        if mark not in _TURNS and unicodedata.category(mark) != "Cs"
    ]
    return " ".join("".join(kept).split())


def short(text: str, most: int = LONGEST) -> str:
    """Return the cleaned text, its middle left out where it is longer than ``most`` characters.

    The end is kept because labels made by counting differ there.

    Examples
    --------
    >>> short("Harbour wall at low tide, second camera, 12", 24)
    'Harbour wall a…amera, 12'
    """
    text = clean(text)
    if len(text) <= most:
        return text
    tail = most * 3 // 8
    return f"{text[: most - tail - 1].rstrip()}…{text[-tail:].lstrip()}"


def label(text: str, most: int = LONGEST) -> str:
    r"""Return a sheet's label, shortened like :func:`short`, its words tied together where it is a short one.

    Examples
    --------
    >>> label("4 right").split(" "), label("Harbour wall at low tide").split(" ")[:2]
    (['4\xa0right'], ['Harbour', 'wall'])
    """
    told = short(text, most)
    return told.replace(" ", TIE) if len(told) <= LONGEST_TIED else told


def capital(text: str) -> str:
    """Return the text with its first letter as a capital."""
    return text[:1].upper() + text[1:]


def columns_taken(text: str) -> int:
    """Places that the text takes on a terminal: two for wide characters, none for marks set on others."""
    return sum(
        0 if unicodedata.combining(mark) else 2 if unicodedata.east_asian_width(mark) in "WF" else 1 for mark in text
    )


def letters_wide(text: str) -> float:
    """Width of a text in average letters of a proportional type, estimated on the wide side.

    Examples
    --------
    >>> letters_wide("ill") < 2 < letters_wide("WWW")
    True
    """
    return sum(_letter_wide(mark) for mark in text)


def _letter_wide(mark: str) -> float:
    if unicodedata.combining(mark):
        return 0.0
    if unicodedata.east_asian_width(mark) in "WF":
        return 2.0
    if mark in "iljtfrI.,:;'!|()[] ":
        return 0.6
    return 1.7 if mark in "WMmw@%" else 1.3 if mark.isupper() else 1.0


def fitting(text: str, letters: float) -> str:
    """Return the cleaned text, shortened in its middle until it is at most ``letters`` average letters wide.

    Parameters
    ----------
    text : str
        As it was typed.
    letters : float
        Room. [average letters]
    """
    text = clean(text)
    most = len(text)
    shown = text
    while letters_wide(shown) > letters and most > 3:
        most -= 1
        shown = short(text, most)
    return shown


def breakable(text: str, letters: float = 16.0, mark: str = "\u200b") -> str:
    """Return the text ready to be set: numbers tied to their units, long words with invisible places to break.

    Parameters
    ----------
    text : str
    letters : float
        Width of the narrowest column that a word must fit. [average letters]
    mark : str
        What stands at a place to break.

    Examples
    --------
    >>> breakable("390 ml in 10 s").count(" ")
    2
    """
    return " ".join(_breakable_word(word, letters, mark) for word in with_units(text).split(" "))


def _breakable_word(word: str, letters: float, mark: str) -> str:
    if letters_wide(word) <= letters:
        return word
    parts, run = [""], 0.0
    for letter in word:
        wide = _letter_wide(letter)
        if wide and run + wide > letters / 2:
            parts.append("")
            run = 0.0
        parts[-1] += letter
        run += wide
    return mark.join(parts)
