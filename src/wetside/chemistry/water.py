"""Water: how hard it is, what to do about it, and the wetting agent of the last bath."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from wetside.chemistry.limits import check_not_negative, check_positive
from wetside.errors import OutOfRangeError

if TYPE_CHECKING:
    from wetside.chemistry.fixer import Notes


class Hardness(StrEnum):
    """Classes of hardness (hard-waters)."""

    SOFT = "soft"
    MODERATE = "moderate"
    HARD = "hard"
    VERY_HARD = "very-hard"


_CLASSES = ((50.0, Hardness.SOFT), (150.0, Hardness.MODERATE), (300.0, Hardness.HARD))

_CALCIUM_CARBONATE, _CALCIUM_OXIDE = 100.087, 56.077
_GRAIN_MG, _US_GALLON_L, _IMPERIAL_GALLON_L = 64.79891, 3.785411784, 4.54609

SCALES = {
    "mg/l": 1.0,
    "mmol/l": _CALCIUM_CARBONATE,
    "german": 10.0 * _CALCIUM_CARBONATE / _CALCIUM_OXIDE,
    "french": 10.0,
    "clark": _GRAIN_MG / _IMPERIAL_GALLON_L,
    "us-grains": _GRAIN_MG / _US_GALLON_L,
}
"""Calcium carbonate of one degree, by definition: 10 mg of calcium oxide or of carbonate to a litre, a grain to an
imperial or a US gallon, a millimole to a litre. [mg/l]"""

HEXAMETAPHOSPHATE_G_PER_L = 1.0
"""Sodium hexametaphosphate that keeps lime in solution, dissolved with the sulfite (lime-deposits). [g/l]"""

WETTING_WATER_PARTS = 200.0
"""Water to one part of wetting agent, to begin with (harman-hp5-2018, p. 6). [1]"""


def hardness_mg_per_l(value: float, scale: str) -> float:
    """Hardness of water as calcium carbonate, from the scale of a water company. [mg/l]

    Parameters
    ----------
    value : float
        [degrees of the scale]
    scale : str
        A key of :data:`SCALES`.

    Raises
    ------
    OutOfRangeError
        If the value is negative or the scale unknown.

    References
    ----------
    .. [1] iupac-weights, calcium carbonate 100.087, calcium oxide 56.077.

    Examples
    --------
    >>> round(hardness_mg_per_l(1.0, "german"), 2)
    17.85
    """
    check_not_negative("value", value)
    if scale not in SCALES:
        raise OutOfRangeError("chemistry.water.scale", value=scale, known=list(SCALES))
    return value * SCALES[scale]


def hardness_class(mg_per_l: float) -> Hardness:
    """Class of a water by its hardness.

    Parameters
    ----------
    mg_per_l : float
        As calcium carbonate. [mg/l]

    Raises
    ------
    OutOfRangeError
        If it is negative.

    References
    ----------
    .. [1] hard-waters, soft below 50, moderate to 150, hard to 300.

    Examples
    --------
    >>> hardness_class(180.0).value
    'hard'
    """
    check_not_negative("mg_per_l", mg_per_l)
    for top_mg_per_l, kind in _CLASSES:
        if mg_per_l < top_mg_per_l or (mg_per_l == top_mg_per_l and kind is not Hardness.SOFT):
            return kind
    return Hardness.VERY_HARD


def hexametaphosphate_g(volume_ml: float) -> float:
    """Sodium hexametaphosphate for a developer that is mixed with hard water. [g]

    Parameters
    ----------
    volume_ml : float
        Developer. [ml]

    Raises
    ------
    OutOfRangeError
        If it is not positive.

    References
    ----------
    .. [1] lime-deposits, one gram to a litre.

    Examples
    --------
    >>> hexametaphosphate_g(600.0)
    0.6
    """
    check_positive("volume_ml", volume_ml)
    return volume_ml / 1000.0 * HEXAMETAPHOSPHATE_G_PER_L


def wetting_agent_ml(volume_ml: float, water_parts: float = WETTING_WATER_PARTS) -> float:
    """Wetting agent in a last bath. [ml]

    Parameters
    ----------
    volume_ml : float
        The bath. [ml]
    water_parts : float
        Water to one part. [1]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    References
    ----------
    .. [1] harman-hp5-2018, p. 6; ilford-processing-chart-2019.

    Examples
    --------
    >>> round(wetting_agent_ml(1000.0), 1)
    5.0
    """
    check_positive("volume_ml", volume_ml)
    check_positive("water_parts", water_parts)
    return volume_ml / (1.0 + water_parts)


def water_notes(kind: Hardness) -> Notes:
    """What a water asks for, as codes with parameters.

    Parameters
    ----------
    kind : Hardness
        From :func:`hardness_class`.

    Examples
    --------
    >>> [code for code, _ in water_notes(Hardness.HARD)]
    ['chemistry.water.lime', 'chemistry.water.last_bath']
    """
    if kind in (Hardness.HARD, Hardness.VERY_HARD):
        dose: dict[str, object] = {"grams_per_l": HEXAMETAPHOSPHATE_G_PER_L}
        return (("chemistry.water.lime", dose), ("chemistry.water.last_bath", {}))
    return ()
