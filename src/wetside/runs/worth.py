"""What a share of developing time is worth in density and zones, so that shares add and a swap turns every sign.

A share is the natural logarithm of a ratio of developing times: what two differences do together is their sum, and the
same two runs the other way round give the same figures with the other sign.
"""

from __future__ import annotations

from math import hypot, log
from typing import NamedTuple

from wetside.development.contrast_time import ELASTICITY, ELASTICITY_SPAN
from wetside.sensitometry.aims import log_range_of_n, required_gradient

MOST_SHARE = log(3.0)
"""Beyond a third or three times the time no rule of thumb holds. [1]"""
ELASTICITY_SPREAD = (ELASTICITY_SPAN[1] - ELASTICITY_SPAN[0]) / 2.0
"""Half of the span that one traced family shows. [1]"""
ZONE_SHARE = log(required_gradient(1.05, log_range_of_n(1.0)) / required_gradient(1.05, log_range_of_n(-1.0))) / 2.0
"""Logarithm of the contrast that is one zone: the mean of the step up and the step down, 0.169 with the usual scene and
flare, so that more and less are told alike. [1]"""


class Worth(NamedTuple):
    """Change of a negative's density range [density], the same in zones of development [zones], and both spreads."""

    density: float
    zones: float
    density_spread: float
    zones_spread: float


def worth_of_share(share: float, reference_range: float, spread: float = 0.0) -> Worth | None:
    """Tell what a share of developing time is worth.

    Parameters
    ----------
    share : float
        Natural logarithm of the ratio of two developing times. [1]
    reference_range : float
        Density range that both were meant to get. [density]
    spread : float
        Half-width of the share. [1]

    Returns
    -------
    worth : Worth or None
        None beyond a third or three times the time.

    Notes
    -----
    ``range * 0.65 * share``: the slope of ``range * (ratio ** 0.65 - 1)`` at a ratio of 1, within 2 % of the mean of
    its two directions up to a ratio of two. The elasticity is ``assumed``, 0.60 to 0.75.
    """
    if abs(share) > MOST_SHARE:
        return None
    contrast = ELASTICITY * share
    contrast_spread = hypot(ELASTICITY * spread, ELASTICITY_SPREAD * share)
    return Worth(
        reference_range * contrast,
        contrast / ZONE_SHARE,
        reference_range * contrast_spread,
        contrast_spread / ZONE_SHARE,
    )
