"""Numbers as people type them: comma or point, a real minus sign, blanks that do not break, fractions."""

from __future__ import annotations

import math
import re

from wetside.errors import AmbiguousError, OutOfRangeError, UnreadableError

NUMBER = r"(?:[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?|[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?"
"""A number without its sign."""
FRACTION = r"(?:[0-9]{1,6} )?[0-9]{1,6} ?/ ?[0-9]{1,6}"
"""``1/15``, ``1 1/2``."""
LONGEST_TEXT = 120
"""No quantity needs more characters; longer text is refused unread. Our choice."""

_BLANKS = re.compile(r"\s+")
_SIGNED_NUMBER = re.compile(rf"([+-]?) ?({FRACTION}|{NUMBER})")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")
_GROUPS = re.compile(r"[+-]? ?[0-9]{1,3}(?:[.,'’][0-9]{3})+(?:[.,][0-9]*)?(?![0-9])")


def cleaned(text: str, example: str) -> str:
    """Text with single plain blanks and a plain minus, ready to be read.

    Parameters
    ----------
    text : str
        What a person typed.
    example : str
        How the value is written, for the refusal.

    Raises
    ------
    UnreadableError
        If it is not text, empty, or too long to be a quantity.

    Examples
    --------
    >>> cleaned("\N{MINUS SIGN}0,4\N{NO-BREAK SPACE}C ", "-0.4 C")
    '-0,4 C'
    """
    if not isinstance(text, str):
        raise UnreadableError("units.text.wanted", value=text, example=example)
    plain = _BLANKS.sub(" ", text.replace("\N{MINUS SIGN}", "-")).strip()
    if not plain:
        raise UnreadableError("units.text.empty", example=example)
    if len(plain) > LONGEST_TEXT:
        raise UnreadableError("units.text.too_long", value=plain, length=len(plain), example=example)
    return plain


def whole_number(text: object, most: int = 10**9 - 1) -> int | None:
    """Whole number as typed or sent, None where it is none: plain digits alone, without sign, and not above a bound.

    Parameters
    ----------
    text : object
        What was typed; anything but text is no number.
    most : int
        Largest one that is taken; longer text is not even read.

    Examples
    --------
    >>> whole_number(" 12 "), whole_number("007"), whole_number("²"), whole_number("-1"), whole_number("13", most=12)
    (12, 7, None, None, None)
    """
    if not isinstance(text, str):
        return None
    plain = text.strip()
    if (
        not (plain.isascii() and plain.isdecimal())
        or len(plain.lstrip("0")) > len(str(most))
        or len(plain) > LONGEST_TEXT
    ):
        return None
    number = int(plain)
    return number if number <= most else None


def number_in_front(text: str, *, example: str, point_thousandths: bool, comma_thousandths: bool) -> tuple[float, str]:
    """Return the number at the start of a cleaned text, and what follows it.

    Parameters
    ----------
    text : str
        Cleaned text.
    example : str
        How the value is written, for the refusal.
    point_thousandths, comma_thousandths : bool
        Whether ``1.250`` (``1,250``) is one and a quarter; if not it is refused, because it may be 1250.

    Raises
    ------
    AmbiguousError
        If a mark may part thousands as well as decimals.
    OutOfRangeError
        If the number is not finite.
    UnreadableError
        If no number stands in front.

    Examples
    --------
    >>> number_in_front("1,5 l", example="600 ml", point_thousandths=False, comma_thousandths=False)
    (1.5, 'l')
    >>> number_in_front("1/15 s", example="1/15 s", point_thousandths=True, comma_thousandths=True)[1]
    's'
    """
    grouped = _GROUPS.match(text)
    if grouped and (sum(grouped.group().count(mark) for mark in ".,") > 1 or set("'’") & set(grouped.group())):
        raise UnreadableError("units.number.thousands", value=text, example=example)
    match = _SIGNED_NUMBER.match(text)
    if match is None:
        if text.lstrip("+-").casefold().startswith(("nan", "inf")):
            raise OutOfRangeError("units.number.not_finite", value=text, example=example)
        raise UnreadableError("units.number.unreadable", value=text, example=example)
    sign, digits = match.groups()
    rest = text[match.end() :].strip()
    if "/" in digits:
        value = _fraction(digits, text, example)
    else:
        if _THOUSANDS.fullmatch(digits):
            allowed = point_thousandths if "." in digits else comma_thousandths
            if not allowed:
                whole, decimals = re.split("[.,]", digits)
                unit = f" {rest}" if rest else ""
                parted = repr(float(f"{whole}.{decimals}")).removesuffix(".0")
                # Three decimals would be refused again: a fourth one settles what they are.
                settled = f"{parted}0" if _THOUSANDS.fullmatch(parted) else parted
                choices = (f"{whole}{decimals}{unit}", f"{settled}{unit}")
                raise AmbiguousError("units.number.two_readings", value=text, choices=choices)
        value = float(digits.replace(" ", "").replace(",", "."))
    if not math.isfinite(value):
        raise OutOfRangeError("units.number.not_finite", value=text, example=example)
    return (-value if sign == "-" and value else value), rest


def _fraction(digits: str, text: str, example: str) -> float:
    front, _, below = digits.partition("/")
    whole, _, above = front.strip().rpartition(" ")
    if int(below) == 0:
        raise UnreadableError("units.number.fraction_of_zero", value=text, example=example)
    return int(whole or 0) + int(above) / int(below)


def parse_number(text: str, *, comma_thousandths: bool = False) -> float:
    """Read a number without a unit.

    Parameters
    ----------
    text : str
        With a decimal comma or point.
    comma_thousandths : bool
        True where ``1,250`` can only be one and a quarter, as in a column of densities. [1]

    Raises
    ------
    AmbiguousError
        For ``1,250``, which may be 1250, unless the caller knows better.
    OutOfRangeError
        If it is not finite.
    UnreadableError
        If it is not a number.

    Examples
    --------
    >>> parse_number("1,5"), parse_number("\N{MINUS SIGN}0.30"), parse_number("2 1/2")
    (1.5, -0.3, 2.5)
    """
    example = "1.5"
    value, rest = number_in_front(
        cleaned(text, example), example=example, point_thousandths=True, comma_thousandths=comma_thousandths
    )
    if rest:
        raise UnreadableError("units.number.unreadable", value=text, example=example)
    return value
