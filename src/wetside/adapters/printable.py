"""What a file holds, made fit to stand in a sentence on a terminal."""

from __future__ import annotations

import re

UNPRINTABLE = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Controls, marks that turn the direction of a line round, and halves of characters."""


def printable(text: str) -> str:
    r"""Put text on one line and spell out what cannot be printed: a file must not steer the terminal.

    Examples
    --------
    >>> print(printable("7\x1b[2J  left"))
    7\x1b[2J left
    """
    return UNPRINTABLE.sub(lambda found: ascii(found[0])[1:-1], " ".join(text.split()))
