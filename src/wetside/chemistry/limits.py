"""What every amount of this package must be before it is reckoned with."""

from __future__ import annotations

from wetside.errors import OutOfRangeError

SMALLEST_AMOUNT_ML, LARGEST_AMOUNT_ML = 0.1, 1_000_000.0
"""Amounts outside 0.1 ml to 1000 l are slips of the pen. Our choice. [ml]"""


SMALLEST_VALUE, LARGEST_VALUE = 1e-9, 1e12
"""Positive values outside these would leave the numbers that a computer can reckon with. Our choice."""


def check_positive(name: str, value: float) -> None:
    """Refuse a value that is not finite, or not more than zero; ``name`` carries its unit.

    Parameters
    ----------
    name : str
        Name of the parameter, which carries its unit.
    value : float
        In the unit that the name carries. [any]

    Raises
    ------
    OutOfRangeError
        If it is not from :data:`SMALLEST_VALUE` to :data:`LARGEST_VALUE`.
    """
    if not SMALLEST_VALUE <= value <= LARGEST_VALUE:
        raise OutOfRangeError("chemistry.value.not_positive", name=name, value=value)


def check_not_negative(name: str, value: float) -> None:
    """Refuse a value that is not finite, or less than zero; ``name`` carries its unit.

    Parameters
    ----------
    name : str
        Name of the parameter, which carries its unit.
    value : float
        In the unit that the name carries. [any]

    Raises
    ------
    OutOfRangeError
        If it is not from 0 to :data:`LARGEST_VALUE`.
    """
    if not 0 <= value <= LARGEST_VALUE:
        raise OutOfRangeError("chemistry.value.negative", name=name, value=value)


def check_amount_ml(value_ml: float) -> None:
    """Refuse an amount that nobody can mean. [ml]

    Parameters
    ----------
    value_ml : float
        [ml]

    Raises
    ------
    OutOfRangeError
        If it is not from 0.1 ml to 1000 l.
    """
    if not SMALLEST_AMOUNT_ML <= value_ml <= LARGEST_AMOUNT_ML:
        raise OutOfRangeError(
            "chemistry.amount.out_of_range",
            value_ml=value_ml,
            low_ml=SMALLEST_AMOUNT_ML,
            high_l=LARGEST_AMOUNT_ML / 1000.0,
        )
