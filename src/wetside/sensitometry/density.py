"""Density, opacity and print times: one and the same thing in three ways of reading it."""

from __future__ import annotations

import math

from wetside.errors import OutOfRangeError

_DENSEST = 20.0
"""Nothing is so dense; it keeps the power from overflowing. [density]"""


def density_of_opacity(opacity: float) -> float:
    """Density of a patch that lets one part in ``opacity`` of the light through.

    Parameters
    ----------
    opacity : float
        Light falling on over light passing, at least 1. [1]

    Returns
    -------
    density : float
        ``log10(opacity)``. [density]

    Raises
    ------
    OutOfRangeError
        If the opacity is not a number from 1.

    References
    ----------
    .. [1] wilshaw-sensitometry, opacity table.

    Examples
    --------
    >>> round(density_of_opacity(2.0), 2)
    0.3
    """
    if not (math.isfinite(opacity) and opacity >= 1.0):
        raise OutOfRangeError("sensitometry.density.opacity", value=opacity)
    return math.log10(opacity)


def opacity_of_density(density: float) -> float:
    """Light falling on over light passing; also the factor on a print time for a difference of density. [1]

    Parameters
    ----------
    density : float
        Or a difference of two; may be negative. [density]

    Raises
    ------
    OutOfRangeError
        If no film is so dense.

    Examples
    --------
    >>> round(12.0 * opacity_of_density(1.9 - 1.5))
    30
    """
    if not abs(density) <= _DENSEST:
        raise OutOfRangeError("sensitometry.density.impossible", value=density)
    return float(10.0**density)


def density_of_print_times(time_s: float, clear_time_s: float) -> float:
    """Density of a patch above another, from the times under the enlarger that print both to one grey.

    Parameters
    ----------
    time_s : float
        Under the patch; positive. [s]
    clear_time_s : float
        Under the clear rebate or the other patch; positive. [s]

    Returns
    -------
    density : float
        ``log10(time / clear time)``: the density in the light of that enlarger, on that paper. [density]

    Raises
    ------
    OutOfRangeError
        If a time is not a positive number.

    References
    ----------
    .. [1] zone2tone-density, negative density by printing times.

    Examples
    --------
    >>> round(density_of_print_times(13.0, 10.0), 3)
    0.114
    """
    for value in (time_s, clear_time_s):
        if not (math.isfinite(value) and value > 0.0):
            raise OutOfRangeError("sensitometry.density.print_time", value=value)
    return math.log10(time_s) - math.log10(clear_time_s)
