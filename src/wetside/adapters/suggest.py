"""The nearest known word to one that nobody knows."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

LONGEST_WORD = 80
MOST_WORDS = 300
"""Beyond these nothing is compared: a slip of the pen is short, and a broken file must not cost minutes."""


def nearest_word(word: str, known: Iterable[str]) -> str | None:
    """Known word that a person most likely meant, or None.

    Parameters
    ----------
    word : str
        What was written.
    known : iterable of str
        What would be understood.

    Returns
    -------
    nearest : str or None
        Compared without case, blanks, hyphens and underscores.

    Examples
    --------
    >>> nearest_word("Develloper", ["developer", "dilution"])
    'developer'
    >>> nearest_word("fernseher", ["developer", "dilution"]) is None
    True
    """
    from difflib import get_close_matches

    if len(word) > LONGEST_WORD:
        return None
    spelled: dict[str, str] = {}
    for name in known:
        if len(name) <= LONGEST_WORD:
            spelled.setdefault(_bare(name), name)
        if len(spelled) >= MOST_WORDS:
            break
    matches = get_close_matches(_bare(word), list(spelled), n=1, cutoff=0.6)
    return spelled[matches[0]] if matches else None


def _bare(word: str) -> str:
    return "".join(letter for letter in word.casefold() if letter not in " -_\t")
