"""How names are compared: those that a person types with those that stand in a file or on a sheet."""

from __future__ import annotations

_BRANDS = frozenset({"ilford", "harman", "ilfotec", "foma"})
"""Makers whose name may stand in front of a product's or be left out."""


def plain_name(text: str) -> str:
    """Name as it is compared inside one file: lower case, single spaces.

    Examples
    --------
    >>> plain_name("  Tolland  100 ")
    'tolland 100'
    """
    return " ".join(text.casefold().split())


def name_key(text: str) -> str:
    """Name as it is looked up among published rows: ``ILFORD HP5+``, ``hp5 plus`` and ``HP5 PLUS`` are one.

    Parameters
    ----------
    text : str
        Name of a film or a developer. Case, blanks and hyphens do not count, ``+`` is read as "plus", and a brand in
        front may be left out.

    Examples
    --------
    >>> name_key("ILFORD HP5+") == name_key("hp5 Plus"), name_key("ILFOTEC DD-X") == name_key("ddx")
    (True, True)
    """
    words = text.casefold().replace("+", " plus ").split()
    while len(words) > 1 and words[0] in _BRANDS:
        words = words[1:]
    return "".join(letter for letter in "".join(words) if letter.isalnum())
