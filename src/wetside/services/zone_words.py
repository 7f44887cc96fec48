"""Zones as people write them: 3, III, I.5, and readings or gains on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import InputError, Place, WetsideError
from wetside.services.options import typed
from wetside.units import parse_number

if TYPE_CHECKING:
    from collections.abc import Callable

_ROMAN = ("0", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X")
_VALUES = {name.casefold(): float(place) for place, name in enumerate(_ROMAN)}


def parse_zone(text: str) -> float:
    """Zone of ``3``, ``III``, ``2.5`` or ``II.5``.

    Raises
    ------
    InputError
        If it is no number and no Roman one from I to X.

    Examples
    --------
    >>> parse_zone("III"), parse_zone("i.5"), parse_zone("2,5")
    (3.0, 1.5, 2.5)
    """
    word, mark, part = text.strip().replace(",", ".").partition(".")
    whole = _VALUES.get(word.casefold())
    if whole is None or word == "0":
        return parse_number(text)
    if not mark:
        return whole
    if not (part.isascii() and part.isdecimal()):
        raise InputError("services.zone_form", value=text)
    return whole + float(f"0.{part}")


def zone_name(zone: float) -> str:
    """Write a zone as it is called: Roman where it is whole and has a name.

    Examples
    --------
    >>> zone_name(3.0), zone_name(0.0), zone_name(1.5), zone_name(12.0)
    ('III', '0', '1.5', '12')
    """
    if zone in range(len(_ROMAN)):
        return _ROMAN[int(zone)]
    return f"{zone:.3g}"


def at_zone(option: str, text: str, code: str, parse: Callable[[str], float] = parse_number) -> tuple[float, float]:
    """Read ``9@3`` or ``9@III``: a value and the zone that it is for.

    Parameters
    ----------
    option : str
        That it was typed for.
    text : str
    code : str
        Of the error where there is no ``@``; it may use ``value``.
    parse : callable
        Reads the value.

    Raises
    ------
    WetsideError
        With the option as its place.
    """
    value, at, zone = text.partition("@")
    if not at:
        error: WetsideError = InputError(code, value=text)
        raise error.at(Place(field=option))
    return typed(option, parse, value), typed(option, parse_zone, zone)
