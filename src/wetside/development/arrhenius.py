"""The chemist's law of temperature, to tell what a constant share per degree means.

Over the ten degrees of a darkroom the two laws part by less than the softness of any published pair, so plans use the
coefficient; this is for comparing developers with what chemistry books print.
"""

from __future__ import annotations

from math import exp, log

from wetside.development._demands import require_liquid, require_positive
from wetside.errors import InputError, OutOfRangeError

GAS_CONSTANT = 8.314462618
"""Exact since 2019. [J/mol/K]"""
ZERO_C_IN_K = 273.15
"""Exact by definition. [K]"""
_HIGHEST_ENERGY = 500_000.0


def activation_energy_of_q10(q10: float, low_c: float = 15.0, high_c: float = 25.0) -> float:
    """Activation energy that a ratio of rates ten degrees apart means between two temperatures.

    Parameters
    ----------
    q10 : float
        1 or more. [1]
    low_c, high_c : float
        Temperatures between which the two laws agree. [C]

    Returns
    -------
    energy : float
        [J/mol]

    Raises
    ------
    InputError
        If the second temperature is not above the first.
    OutOfRangeError
        If the ratio is not positive.

    Notes
    -----
    ``R * ln(q10) * (high - low) / 10 / (1/T_low - 1/T_high)``, T in kelvin.

    Examples
    --------
    >>> round(activation_energy_of_q10(2.0) / 1000)
    50
    """
    require_positive(q10, "development.coefficient.q10_not_positive")
    require_liquid(low_c)
    require_liquid(high_c)
    if high_c <= low_c:
        raise InputError("development.pair.not_warmer", cold_c=low_c, warm_c=high_c)
    inverse = 1.0 / (low_c + ZERO_C_IN_K) - 1.0 / (high_c + ZERO_C_IN_K)
    return GAS_CONSTANT * log(q10) * (high_c - low_c) / 10.0 / inverse


def temperature_factor_arrhenius(energy: float, from_c: float, to_c: float) -> float:
    """Multiplier of a time for another temperature, by the chemist's law.

    Parameters
    ----------
    energy : float
        Activation energy, from 0 to 500 000. [J/mol]
    from_c, to_c : float
        [C]

    Returns
    -------
    factor : float
        [1]

    Raises
    ------
    OutOfRangeError
        If the energy is outside its range, or a temperature is no liquid's.

    Notes
    -----
    ``exp(E/R * (1/T_to - 1/T_from))``.

    Examples
    --------
    >>> round(temperature_factor_arrhenius(50_000, 20.0, 24.0), 2)
    0.76
    """
    require_liquid(from_c)
    require_liquid(to_c)
    if not 0 <= energy <= _HIGHEST_ENERGY:
        raise OutOfRangeError("development.arrhenius.energy", value=energy, high=_HIGHEST_ENERGY)
    return exp(energy / GAS_CONSTANT * (1.0 / (to_c + ZERO_C_IN_K) - 1.0 / (from_c + ZERO_C_IN_K)))
