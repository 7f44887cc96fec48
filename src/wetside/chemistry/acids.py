"""Stop bath from acid of any strength, and what is said about the acid."""

from __future__ import annotations

from typing import NamedTuple

from wetside.chemistry.criss_cross import mixture_strength
from wetside.chemistry.mixing import percent_dilution_ml

ACID_INTO_WATER = "chemistry.caution.acid_into_water"
"""The caution that goes with every mix of acid; what else the strength asks for is told by hazard data."""

STOP_LOW_PERCENT, STOP_HIGH_PERCENT = 1.0, 2.0
"""Usual strength of an acetic stop bath (anchell-2008, p. 104). [%]"""

FREEZES_C = 16.6
"""Glacial acetic acid is solid below this (us-army-ss0513: 61.9 F). [C]"""

GLACIAL_FROM_PERCENT = 98.0
"""Acid of at least this strength is told to freeze. Our choice. [%]"""


class AcidMix(NamedTuple):
    """What to measure [ml], and notes as codes with parameters; the caution about the order comes first."""

    acid_ml: float
    water_ml: float
    notes: tuple[tuple[str, dict[str, float]], ...]


def acid_bath_ml(strong_percent: float, wanted_percent: float, total_ml: float) -> AcidMix:
    """Acid and water for a stop bath, or for any weaker acid. [ml]

    Parameters
    ----------
    strong_percent : float
        Acid at hand: 99.6 for glacial acetic acid, 80, 28, or 5 for plain vinegar. [%]
    wanted_percent : float
        Not above it. [%]
    total_ml : float
        Bath wanted. [ml]

    Returns
    -------
    mix : AcidMix
        Notes: ``chemistry.caution.acid_into_water`` always; ``chemistry.acid_note.weak`` or ``.strong`` outside the
        usual 1 to 2 % of a stop bath; ``chemistry.acid_note.freezes`` for glacial acid.

    Raises
    ------
    OutOfRangeError
        If a strength is not positive or above 100 %, the wanted one the stronger, or the total out of range.

    Notes
    -----
    ``total * wanted / strong``; percent by volume, the small loss of volume left out.

    References
    ----------
    .. [1] anchell-2008, p. 104; us-army-ss0513.

    Examples
    --------
    >>> mix = acid_bath_ml(28.0, 1.5, 1000.0)
    >>> round(mix.acid_ml, 1), [code for code, _ in mix.notes]
    (53.6, ['chemistry.caution.acid_into_water'])
    """
    acid_ml = percent_dilution_ml(strong_percent, wanted_percent, total_ml)
    notes: list[tuple[str, dict[str, float]]] = [(ACID_INTO_WATER, {})]
    span = {"wanted_percent": wanted_percent, "low_percent": STOP_LOW_PERCENT, "high_percent": STOP_HIGH_PERCENT}
    if wanted_percent < STOP_LOW_PERCENT:
        notes.append(("chemistry.acid_note.weak", span))
    elif wanted_percent > STOP_HIGH_PERCENT:
        notes.append(("chemistry.acid_note.strong", span))
    if strong_percent >= GLACIAL_FROM_PERCENT:
        notes.append(("chemistry.acid_note.freezes", {"freezes_c": FREEZES_C}))
    return AcidMix(acid_ml, total_ml - acid_ml, tuple(notes))


def three_and_eight_percent(glacial_percent: float = 99.5) -> float:
    """True strength of "three parts of glacial acid and eight of water", which is called 28 %. [%]

    Parameters
    ----------
    glacial_percent : float
        Strength of the glacial acid. [%]

    Raises
    ------
    OutOfRangeError
        If the strength is negative or not finite.

    References
    ----------
    .. [1] us-navy-14209, web page 240; anchell-2008: the rule. Its result is 3 % low.

    Examples
    --------
    >>> round(three_and_eight_percent(), 2)
    27.14
    """
    return mixture_strength([(3.0, glacial_percent), (8.0, 0.0)])
