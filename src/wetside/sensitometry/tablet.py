"""From the steps of a tablet to log exposures."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wetside.errors import OutOfRangeError

if TYPE_CHECKING:
    from collections.abc import Sequence

STEP_DENSITY = 0.15
"""Nominal difference between two steps: half a stop (handbook, S21). [density]"""
FIRST_STEP_DENSITY = 0.05
"""Density of the clear step; common practice, a default that measured densities replace. [density]"""


def nominal_tablet(count: int = 21) -> tuple[float, ...]:
    """Nominal densities of a tablet, the clear step first; a real one is off by up to a third of a stop: measure it.

    Parameters
    ----------
    count : int
        Steps, 2 to 60. [1]

    Returns
    -------
    densities : tuple of float
        [density]

    Raises
    ------
    OutOfRangeError
        If the count lies outside.

    References
    ----------
    .. [1] analogica-t5675, 0.15 a step and its tolerance.

    Examples
    --------
    >>> [round(density, 2) for density in nominal_tablet()[-2:]]
    [2.9, 3.05]
    """
    if not 2 <= count <= 60:
        raise OutOfRangeError("sensitometry.tablet.count", count=count)
    return tuple(FIRST_STEP_DENSITY + STEP_DENSITY * at for at in range(count))


def log_h_of_steps(
    steps: Sequence[int], tablet_densities: Sequence[float], exposure_log_h: float | None = None
) -> tuple[float, ...]:
    """Log exposure behind each step of a tablet.

    Parameters
    ----------
    steps : sequence of int
        Numbers of the steps that were read; 1 is the first of ``tablet_densities``.
    tablet_densities : sequence of float
        Measured densities of the tablet, or :func:`nominal_tablet`. [density]
    exposure_log_h : float, optional
        Exposure on the tablet; without it the answer is relative to that exposure. [log10 lux-second]

    Returns
    -------
    log_h : tuple of float
        [log10 lux-second; relative where the exposure is unknown]

    Raises
    ------
    OutOfRangeError
        If a step is not on the tablet, or a number is not finite.

    Examples
    --------
    >>> [round(log_h, 2) for log_h in log_h_of_steps((1, 21), nominal_tablet(), 0.5)]
    [0.45, -2.55]
    >>> log_h_of_steps((2,), (0.04, 0.21))
    (-0.21,)
    """
    if exposure_log_h is not None and not abs(exposure_log_h) <= 12.0:
        raise OutOfRangeError("sensitometry.tablet.exposure", value=exposure_log_h)
    for density in tablet_densities:
        if not (math.isfinite(density) and 0.0 <= density <= 6.0):
            raise OutOfRangeError("sensitometry.tablet.density", value=density)
    found = []
    for step in steps:
        if not 1 <= step <= len(tablet_densities) or step != int(step):
            raise OutOfRangeError("sensitometry.tablet.step", step=step, count=len(tablet_densities))
        found.append((exposure_log_h or 0.0) - tablet_densities[int(step) - 1])
    return tuple(found)
