"""What every function of this package asks of the numbers it is given."""

from __future__ import annotations

from math import isfinite

from wetside.errors import OutOfRangeError

LOWEST_C = 0.0
"""Water freezes. [C]"""
HIGHEST_C = 100.0
"""Water boils. [C]"""


def require_positive(value: float, code: str) -> None:
    """Raise ``code`` unless the value is finite and more than zero.

    Parameters
    ----------
    value : float
        In whatever unit the code speaks of. [any]
    code : str
        Code of the error.

    Raises
    ------
    OutOfRangeError
        ``code`` with the parameter ``value``.
    """
    if not isfinite(value) or value <= 0:
        raise OutOfRangeError(code, value=value)


def require_not_negative(value: float, code: str) -> None:
    """Raise ``code`` unless the value is finite and not below zero.

    Parameters
    ----------
    value : float
        In whatever unit the code speaks of. [any]
    code : str
        Code of the error.

    Raises
    ------
    OutOfRangeError
        ``code`` with the parameter ``value``.
    """
    if not isfinite(value) or value < 0:
        raise OutOfRangeError(code, value=value)


def require_liquid(temp_c: float) -> None:
    """Raise unless a watery bath can have the temperature.

    Parameters
    ----------
    temp_c : float
        Temperature. [C]

    Raises
    ------
    OutOfRangeError
        ``development.temperature.not_liquid`` outside 0 to 100 C, or if not finite.
    """
    if not isfinite(temp_c) or not LOWEST_C <= temp_c <= HIGHEST_C:
        raise OutOfRangeError("development.temperature.not_liquid", value=temp_c, low_c=LOWEST_C, high_c=HIGHEST_C)
