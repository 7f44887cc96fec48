"""Our characters on an output that cannot show them: spelled with those that every output has."""

from __future__ import annotations

import codecs

SPELLED = {
    "─": "-",
    "■": "#",
    "●": "*",
    "◐": "+",
    "◌": "o",
    "·": ".",
    "▸": ">",
    "–": "-",
    "—": "-",
    "−": "-",
    "×": "x",
    "±": "+/-",
    "µ": "u",
    "°": "",
    "²": "2",
    "’": "'",
    "‘": "'",
    "“": '"',
    "”": '"',
    "…": "...",
    "¼": "1/4",
    "⅓": "1/3",
    "½": "1/2",
    "⅔": "2/3",
    "¾": "3/4",
    "⅛": "1/8",
    "\N{NO-BREAK SPACE}": " ",
}
"""What our texts hold beyond ASCII; anything else is written as its number."""


def spell(error: UnicodeError) -> tuple[str, int]:
    """Spell what an encoder could not write; an error handler for :func:`codecs.register_error`.

    Examples
    --------
    >>> "20 °C, −½, 1¼".encode("ascii", "wetside.spelling")
    b'20 C, -1/2, 1 1/4'
    """
    if not isinstance(error, UnicodeEncodeError):
        raise error
    text = ""
    before = error.object[error.start - 1 : error.start]
    for character in error.object[error.start : error.end]:
        spelled = SPELLED.get(character, f"\\u{ord(character):04x}")
        text += f" {spelled}" if before.isdigit() and "/" in spelled else spelled
        before = character
    return text, error.end


codecs.register_error("wetside.spelling", spell)
