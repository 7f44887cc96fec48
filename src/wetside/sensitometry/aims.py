"""What a printing asks of a negative, and how far off a range is in paper grades and zones."""

from __future__ import annotations

import math

from wetside.errors import OutOfRangeError

NORMAL_LOG_RANGE = 2.20
"""Luminance range of an average subject (handbook, S19). [log10]"""
NORMAL_FLARE_LOG = 0.40
"""What flare takes from that range at the film; a default that a user can change (assumed). [log10]"""
ZONE_LOG = math.log10(2.0)
"""One zone, one stop. [log10]"""
GRADE_DENSITY = 0.17
"""Difference of density range that one paper grade takes up; half a grade is 0.085 of a range of 1.05
(handbook, corrections 3.1). [density]"""

_FURTHEST = 20.0
"""No two densities lie further apart. [density]"""
_TOLERANCE = {"graded-paper": 0.08, "variable-paper": 0.15, "scanner": 0.15, "alternative": 0.10}


def default_tolerance(printing: str) -> float:
    """How far a density range may be off before a print shows it; our choice by what the printing can still correct.

    Parameters
    ----------
    printing : str
        ``graded-paper``, ``variable-paper``, ``scanner`` or ``alternative``.

    Returns
    -------
    tolerance : float
        Either side of the aim. [density]

    Raises
    ------
    OutOfRangeError
        If the printing is none of these.

    Examples
    --------
    >>> default_tolerance("graded-paper"), default_tolerance("scanner")
    (0.08, 0.15)
    """
    try:
        return _TOLERANCE[printing]
    except KeyError:
        raise OutOfRangeError("sensitometry.aim.printing_unknown", printing=printing, known=list(_TOLERANCE)) from None


def required_gradient(density_range: float, log_range: float, flare_log: float = NORMAL_FLARE_LOG) -> float:
    """Gradient that turns a scene into a negative of the wanted density range.

    Parameters
    ----------
    density_range : float
        That the printing asks for; positive. [density]
    log_range : float
        Of the subject, from placed shadow to highlight; more than the flare. [log10]
    flare_log : float
        What flare takes from that range at the film; 0 where it is left out; subtracted here and nowhere else. [log10]

    Returns
    -------
    required_gradient : float
        [density per log H]

    Raises
    ------
    OutOfRangeError
        If a number is not finite, the range is not positive, flare is negative or leaves nothing of the scene.

    Notes
    -----
    ``density range / (log range - flare)``.

    References
    ----------
    .. [1] apug-1396476, gradient as density range over log exposure range.

    Examples
    --------
    >>> round(required_gradient(1.05, 2.20, 0.40), 3), round(required_gradient(1.20, 2.10, 0.0), 2)
    (0.583, 0.57)
    """
    _check_range("sensitometry.aim.density_range", density_range)
    return density_range / _film_range(log_range, flare_log)


def log_range_of_n(n: float, normal_log_range: float = NORMAL_LOG_RANGE) -> float:
    """Subject range that a development of N + n is for: one zone fewer for each step of expansion.

    Parameters
    ----------
    n : float
        -1 for N-1, 0 for N, +1 for N+1; fractions are allowed. [zones]
    normal_log_range : float
        Range that N is for. [log10]

    Returns
    -------
    log_range : float
        [log10]

    Raises
    ------
    OutOfRangeError
        If a number is not finite, or no range is left.

    Notes
    -----
    ``normal range - n · log10 2``; with 0.301 for the logarithm it agrees to five digits.

    Examples
    --------
    >>> round(log_range_of_n(-1.0), 3), round(log_range_of_n(1.0), 3)
    (2.501, 1.899)
    """
    _check_range("sensitometry.aim.log_range", normal_log_range)
    if not math.isfinite(n):
        raise OutOfRangeError("sensitometry.aim.n", n=n, highest=normal_log_range / ZONE_LOG)
    log_range = normal_log_range - n * ZONE_LOG
    if not (math.isfinite(log_range) and log_range > 0.0):
        raise OutOfRangeError("sensitometry.aim.n", n=n, highest=normal_log_range / ZONE_LOG)
    return log_range


def n_of_log_range(log_range: float, normal_log_range: float = NORMAL_LOG_RANGE) -> float:
    """Zones of expansion (positive) or contraction that a subject range calls for: the inverse of N to range. [zones]

    Parameters
    ----------
    log_range : float
        Of the subject; positive. [log10]
    normal_log_range : float
        Range that N is for. [log10]

    Raises
    ------
    OutOfRangeError
        If either is not a positive number.

    Examples
    --------
    >>> round(n_of_log_range(2.501), 2)
    -1.0
    """
    _check_range("sensitometry.aim.log_range", log_range)
    _check_range("sensitometry.aim.log_range", normal_log_range)
    return (normal_log_range - log_range) / ZONE_LOG


def grade_change(density_difference: float) -> float:
    """Paper grades that a difference of density range amounts to.

    Parameters
    ----------
    density_difference : float
        Range that is or will be, less the range that the paper wants. [density]

    Returns
    -------
    grade_change : float
        Positive where the negative is the harder one and the paper must be so much softer. [grades]

    Raises
    ------
    OutOfRangeError
        If no film has such a difference.

    Examples
    --------
    >>> grade_change(0.085), grade_change(-0.17)
    (0.5, -1.0)
    """
    if not abs(density_difference) <= _FURTHEST:
        raise OutOfRangeError("sensitometry.aim.difference", difference=density_difference)
    return density_difference / GRADE_DENSITY


def zones_of_range_change(
    density_range: float,
    aim_range: float,
    n: float = 0.0,
    *,
    normal_log_range: float = NORMAL_LOG_RANGE,
    flare_log: float = NORMAL_FLARE_LOG,
) -> float:
    """Zones of expansion (positive) or contraction that a range amounts to beside the one that was wanted.

    Parameters
    ----------
    density_range : float
        That is or will be; positive. [density]
    aim_range : float
        That was wanted; positive. [density]
    n : float
        Development that the sheet was meant for. [zones]
    normal_log_range, flare_log : float
        See :func:`log_range_of_n` and :func:`required_gradient`. [log10]

    Returns
    -------
    zones : float
        +1 where the sheet comes out as if it had been developed one zone further. [zones]

    Raises
    ------
    OutOfRangeError
        If a range is not positive, or N + n leaves no scene to compare.

    Notes
    -----
    The step from N + n to the next zone multiplies the required gradient by a known factor; zones are
    ``ln(range / aim) / ln(factor)``, with the factor of the side on which the range is off
    (handbook, corrections 3.2).

    Examples
    --------
    >>> round(zones_of_range_change(1.116, 1.05), 2)
    0.33
    """
    _check_range("sensitometry.aim.density_range", density_range)
    _check_range("sensitometry.aim.density_range", aim_range)
    share = math.log(density_range) - math.log(aim_range)
    if share == 0.0:
        return 0.0
    step = 1.0 if share > 0.0 else -1.0
    here = _film_range(log_range_of_n(n, normal_log_range), flare_log)
    there = _film_range(log_range_of_n(n + step, normal_log_range), flare_log)
    return step * share / math.log(here / there)


def _check_range(code: str, value: float) -> None:
    if not (math.isfinite(value) and 1e-6 < value < 1e6):
        raise OutOfRangeError(code, value=value)


def _film_range(log_range: float, flare_log: float) -> float:
    """Subject range less flare. [log10]"""
    _check_range("sensitometry.aim.log_range", log_range)
    if not (math.isfinite(flare_log) and flare_log >= 0.0):
        raise OutOfRangeError("sensitometry.aim.flare", value=flare_log)
    if log_range - flare_log <= 1e-6:
        raise OutOfRangeError("sensitometry.aim.flare_too_large", flare_log=flare_log, log_range=log_range)
    return log_range - flare_log
