"""Numbers with their nouns: nine sheets, one load, 14 clips."""

from __future__ import annotations

from wetside.cards.names import capital
from wetside.wording import known_codes, sentence


def counted(noun: str, count: int) -> str:
    """Say a number of things, as a word up to twelve.

    Parameters
    ----------
    noun : str
        A noun of the catalogue: ``sheet``, ``load``.
    count : int
        How many. [1]

    Examples
    --------
    >>> counted("sheet", 9), counted("load", 1), counted("sheet", 40)
    ('nine sheets', 'one load', '40 sheets')
    """
    word = f"cards.number.{count}"
    number = sentence(word, {}) if word in known_codes("cards") else str(count)
    return sentence(f"cards.noun.{noun}_{'one' if count == 1 else 'many'}", {"number": number})


def counted_first(noun: str, count: int) -> str:
    """Say the same with a capital, to begin a title.

    Examples
    --------
    >>> counted_first("sheet", 9)
    'Nine sheets'
    """
    return capital(counted(noun, count))
