"""Spaces at which no line may end: between a number and its unit, and inside short names."""

from __future__ import annotations

import re

TIE = "\u00a0"
"""The no-break space; a terminal gets an ordinary one in its place once the lines are made."""

_UNIT = re.compile(
    r"(?<=[0-9¼½¾⅓⅔⅛]) (?=(?:ml|l|litres?|s|min|h|mm|cm|cm²|m²|µg|g|kg|°C|°F|%|W|stops?|zones?|grades?|density)(?!\w))"
)


def with_units(text: str) -> str:
    """Return the text with each number tied to its unit, so that no line ends between them.

    Examples
    --------
    >>> with_units("390 ml in 10 s").count(" ")
    2
    """
    return _UNIT.sub(TIE, text)


def untied(text: str) -> str:
    """Return a finished line with ordinary spaces, as a terminal shows it and a person copies it.

    Examples
    --------
    >>> untied(with_units("390 ml in 10 s"))
    '390 ml in 10 s'
    """
    return text.replace(TIE, " ")
