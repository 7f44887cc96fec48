"""Options of a command as typed: parsed, or refused with the option's own name."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from wetside.errors import InputError, Place, WetsideError
from wetside.units import whole_number

if TYPE_CHECKING:
    from collections.abc import Callable

Value = TypeVar("Value")


def typed(option: str, parse: Callable[[str], Value], text: str) -> Value:
    """Parse what was typed; an error learns which option it belongs to.

    Raises
    ------
    WetsideError
        Of the parser, with the option as its place.
    """
    try:
        return parse(text)
    except WetsideError as error:
        raise error.at(Place(field=option)) from None


def typed_or_none(option: str, parse: Callable[[str], Value], text: str | None) -> Value | None:
    """Parse what was typed, if anything was."""
    return None if text is None else typed(option, parse, text)


def needs(option: str, text: str | None, beside: str) -> str:
    """Text of an option that another one cannot do without.

    Raises
    ------
    InputError
        If it was not given.
    """
    if text is None:
        raise InputError("services.option_missing_with", option=option, other=beside)
    return text


def whole(text: str) -> int:
    """Parse a whole number from 1 to 10,000.

    Raises
    ------
    InputError
        If it is none.
    """
    number = whole_number(text, most=10_000)
    if not number:
        raise InputError("services.not_whole", value=text, most=10_000)
    return number
