"""Contrast index by two concentric arcs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError

if TYPE_CHECKING:
    from wetside.values.curve import CharacteristicCurve

INNER_RADIUS = 0.2
OUTER_RADIUS = 2.2
"""Of the arcs, both axes to one scale. [density, and log H]"""

_STEPS = 128
"""How finely the angles are searched for the last one at which the gauge fits."""


class ArcGauge(NamedTuple):
    """The gauge as it lies on a curve: its slope, its centre on the base + fog line, the two points it cuts."""

    contrast_index: float
    centre_log_h: float
    low: tuple[float, float]
    high: tuple[float, float]


def arc_gauge(curve: CharacteristicCurve) -> ArcGauge:
    """Lay the gauge on a curve: centre on base + fog, both points on the curve, all three on one straight line.

    Parameters
    ----------
    curve : CharacteristicCurve

    Returns
    -------
    gauge : ArcGauge
        Slope [density per log H]; centre [log H]; points as log H and density.

    Raises
    ------
    RefusedError
        If the readings begin above the inner arc or end before the outer one.

    Notes
    -----
    Let the line make the angle ``a`` with base + fog, and ``s = sin a``. Both points lie on it, 0.2 and 2.2 from the
    centre, so their net densities are ``0.2 s`` and ``2.2 s``, and they stand ``2 cos a`` apart along log H. With
    ``X(d)`` the log exposure at net density d, one equation in one unknown is left:
    ``X(2.2 s) - X(0.2 s) = 2 sqrt(1 - s²)``. A long toe can meet it a second time at a slope near 0; the steepest
    fit is the gauge's.

    References
    ----------
    .. [1] apug-81084, definition; apug-106414, solution by distances in both axes.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> gauge = arc_gauge(characteristic_curve(300.0, (-3.0, -0.0), (0.2, 2.0)))
    >>> round(gauge.contrast_index, 9), round(gauge.centre_log_h, 9)
    (0.6, -3.0)
    """
    base = curve.base_fog
    lowest, highest = curve.density[0] - base, curve.density[-1] - base
    first, last = max(lowest / INNER_RADIUS, 0.0), min(highest / OUTER_RADIUS, 1.0)

    def spare(sine: float) -> float:
        """Width of the curve between the two densities, less the width of the gauge."""
        inner = min(max(base + INNER_RADIUS * sine, curve.density[0]), curve.density[-1])
        outer = min(max(base + OUTER_RADIUS * sine, curve.density[0]), curve.density[-1])
        return curve.log_h_at(outer) - curve.log_h_at(inner) - 2.0 * math.sqrt(1.0 - sine * sine)

    if not first < last:
        raise RefusedError("sensitometry.contrast_index.no_fit", dev_s=curve.dev_s)
    if spare(last) < 0.0:
        raise RefusedError(
            "sensitometry.contrast_index.not_read",
            dev_s=curve.dev_s,
            high_log_h=curve.log_h[-1],
            high_density=curve.density[-1],
        )
    above = last
    for step in range(1, _STEPS + 1):
        below = last + (first - last) * step / _STEPS
        if spare(below) <= 0.0:
            break
        above = below
    else:
        raise RefusedError("sensitometry.contrast_index.no_fit", dev_s=curve.dev_s)
    for _ in range(100):
        middle = 0.5 * (below + above)
        if not below < middle < above:
            break
        if spare(middle) <= 0.0:
            below = middle
        else:
            above = middle
    sine = below
    cosine = math.sqrt(1.0 - sine * sine)
    low_log_h = curve.log_h_at(max(base + INNER_RADIUS * sine, curve.density[0]))
    centre = low_log_h - INNER_RADIUS * cosine
    return ArcGauge(
        contrast_index=sine / cosine,
        centre_log_h=centre,
        low=(low_log_h, base + INNER_RADIUS * sine),
        high=(centre + OUTER_RADIUS * cosine, base + OUTER_RADIUS * sine),
    )


def contrast_index(curve: CharacteristicCurve) -> float:
    """Contrast index: the slope of the arc gauge; errors and source as :func:`arc_gauge`. [density per log H]

    Parameters
    ----------
    curve : CharacteristicCurve

    Raises
    ------
    RefusedError
        If the readings end before the outer arc.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(contrast_index(characteristic_curve(300.0, (-3.0, -0.0), (0.2, 2.0))), 9)
    0.6
    """
    return arc_gauge(curve).contrast_index
