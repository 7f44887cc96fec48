"""Dilutions as people write them. A colon or a letter is never guessed at."""

from __future__ import annotations

import re

from wetside.errors import AmbiguousError, OutOfRangeError, UnreadableError
from wetside.units.number import cleaned, number_in_front
from wetside.units.table import plain
from wetside.values.dilution import STOCK, Dilution, dilution_of_parts

MOST_DILUTE = 10_000.0
"""Volumes of working solution to one of concentrate beyond which a dilution is a slip of the pen. Our choice. [1]"""

_EXAMPLE = "1+24"
_STOCK_WORDS = frozenset({"stock", "undiluted", "neat", "full strength"})
_LETTER = re.compile(r"(?:dil(?:ution|\.)? ?)?([a-z])", re.IGNORECASE)
_RATIO_MARK = re.compile(r" ?[:/\N{RATIO}\N{FULLWIDTH COLON}] ?")
_PERCENT = re.compile(r"(.*?) ?(?:%|percent|per cent)", re.IGNORECASE)
_IN_NAME = re.compile(
    r"\d[\d.,]* ?[+:/\N{RATIO}\N{FULLWIDTH COLON}\N{FULLWIDTH PLUS SIGN}] ?\d[\d.,]*"
    r"(?: ?[+:/\N{RATIO}\N{FULLWIDTH COLON}] ?\d[\d.,]*)*|\d[\d.,]* ?%"
)


def parse_dilution(text: str) -> Dilution:
    """Read a dilution.

    Parameters
    ----------
    text : str
        ``1+24`` (one part and 24 of water), ``1+2+100`` (two concentrates and water), ``4 %`` (four parts in a hundred)
        or ``stock``.

    Returns
    -------
    dilution : Dilution

    Raises
    ------
    AmbiguousError
        If it has a colon: ``1:24`` is 1+24 to some and 1 in 24, which is 1+23, to others; both are spelled out. Also if
        it is one bare number.
    OutOfRangeError
        If a part is not finite or negative, if no concentrate is in it, or if it is weaker than 1 in 10 000.
    UnreadableError
        If it is a letter, whose meaning differs between makers, or not a dilution at all.

    Examples
    --------
    >>> parse_dilution("1 + 24"), parse_dilution("1+2+100").agents, parse_dilution("4 %").text
    (Dilution(agents=(1.0,), water=24.0), (1.0, 2.0), '4+96')
    """
    clean = cleaned(text, _EXAMPLE)
    if clean.casefold() in _STOCK_WORDS:
        return STOCK
    letter = _LETTER.fullmatch(clean)
    if letter:
        raise UnreadableError("chemistry.dilution.letter", value=text, letter=letter[1].upper(), example=_EXAMPLE)
    if _RATIO_MARK.search(clean):
        raise _ratio_refusal(clean, text)
    percent = _PERCENT.fullmatch(clean)
    if percent:
        return _checked(_percent_dilution(_part(percent[1], text), text), text)
    pieces = clean.split("+")
    if len(pieces) == 1:
        value = _part(clean, text)
        choices = (f"1+{plain(value)}", f"{plain(value)} %") if value > 0 else (_EXAMPLE,)
        raise AmbiguousError("chemistry.dilution.bare", value=text, choices=choices)
    *agents, water = (_part(piece, text) for piece in pieces)
    return _checked(dilution_of_parts(tuple(agents), water), text)


def require_name_only(name: str) -> None:
    """Refuse a developer's name that still holds a dilution: read as a name it would be poured undiluted.

    Parameters
    ----------
    name : str
        What is left of the developer once its dilution was taken off.

    Raises
    ------
    AmbiguousError
        If a colon or a slash stands in it; every reading is spelled out.
    UnreadableError
        If parts or a percentage stand in it.

    Examples
    --------
    >>> require_name_only("Number 9")
    """
    found = _IN_NAME.search(" ".join(name.split()))
    if found is None:
        return
    if _RATIO_MARK.search(found[0]):
        parse_dilution(found[0])
    raise UnreadableError("chemistry.dilution.in_name", value=name, dilution=found[0], example=_EXAMPLE)


def _part(piece: str, text: str) -> float:
    piece = piece.strip()
    if not piece or "/" in piece:
        raise UnreadableError("chemistry.dilution.unreadable", value=text, example=_EXAMPLE)
    try:
        value, rest = number_in_front(piece, example=_EXAMPLE, point_thousandths=True, comma_thousandths=True)
    except UnreadableError:
        raise UnreadableError("chemistry.dilution.unreadable", value=text, example=_EXAMPLE) from None
    if rest:
        raise UnreadableError("chemistry.dilution.unreadable", value=text, example=_EXAMPLE)
    return value


def _percent_dilution(percent: float, text: str) -> Dilution:
    if not 0 < percent <= 100:
        raise OutOfRangeError("chemistry.dilution.percent", value=text, low=0.0, high=100.0, example="4 %")
    return dilution_of_parts((percent,), 100.0 - percent)


def _checked(dilution: Dilution, text: str) -> Dilution:
    if min(dilution.agents) * MOST_DILUTE < dilution.total_parts:
        raise OutOfRangeError("chemistry.dilution.too_weak", value=text, most=MOST_DILUTE, example=_EXAMPLE)
    return dilution


def _ratio_refusal(clean: str, text: str) -> AmbiguousError | UnreadableError:
    """Refusal of a colon or a slash, with every reading that makes sense."""
    parts = [_part(piece, text) for piece in _RATIO_MARK.split(clean)]
    if min(parts) <= 0:
        return UnreadableError("chemistry.dilution.unreadable", value=text, example=_EXAMPLE)
    as_sum = "+".join(plain(part) for part in parts)
    if len(parts) > 2:
        return AmbiguousError("chemistry.dilution.colons", value=text, choices=(as_sum,))
    agent, other = parts
    if other < agent:
        return AmbiguousError(
            "chemistry.dilution.colons", value=text, choices=(as_sum, f"{plain(other)}+{plain(agent)}")
        )
    beside, within = colon_readings(agent, other)
    as_share = write_dilution(within)
    return AmbiguousError(
        "chemistry.dilution.colon",
        value=text,
        choices=(as_sum, as_share),
        beside=as_sum,
        within=f"{plain(agent)} in {plain(other)}",
        within_parts=as_share,
        stronger_percent=(strength_ratio(within, beside) - 1.0) * 100.0,
    )


def colon_readings(agent_parts: float, other_parts: float) -> tuple[Dilution, Dilution]:
    """Both readings of a colon: a beside b of water, and a within b of working solution.

    Parameters
    ----------
    agent_parts, other_parts : float
        The numbers before and after the colon; the second not smaller than the first. [parts]

    Raises
    ------
    OutOfRangeError
        If a part is not finite, the first is not positive, or the second is smaller.

    Examples
    --------
    >>> [reading.text for reading in colon_readings(1.0, 24.0)]
    ['1+24', '1+23']
    """
    return dilution_of_parts((agent_parts,), other_parts), dilution_of_parts((agent_parts,), other_parts - agent_parts)


def strength_ratio(dilution: Dilution, reference: Dilution) -> float:
    """How strong a dilution is beside another one; 1 where both are equal. [1]

    Parameters
    ----------
    dilution, reference : Dilution

    Notes
    -----
    The share of concentrate in the one over the share in the other. ``1:31`` read as 1 in 31 is 3.2 % stronger than
    1+31, and ``1:4`` read as 1 in 4 is 25 % stronger than 1+4.

    Examples
    --------
    >>> within_31, beside_31 = Dilution((1.0,), 30.0), Dilution((1.0,), 31.0)
    >>> round(strength_ratio(within_31, beside_31), 4)
    1.0323
    """
    return dilution.agent_fraction / reference.agent_fraction


def write_dilution(dilution: Dilution) -> str:
    """Text that :func:`parse_dilution` reads back as exactly the same parts.

    Parameters
    ----------
    dilution : Dilution
        [parts]

    Examples
    --------
    >>> write_dilution(Dilution((1.0,), 24.0)), write_dilution(STOCK)
    ('1+24', 'stock')
    """
    if dilution == STOCK:
        return "stock"
    return "+".join(plain(part) for part in (*dilution.agents, dilution.water))
