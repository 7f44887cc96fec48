"""What a second exposure adds to a tone of the first.

Model: light adds up; the second exposure's middle tone (Zone V) lies over the tone that is asked for. It fills shadows
and hardly touches highlights, so one number cannot say it.
"""

from __future__ import annotations

import math

from wetside.exposure import _limits as limits
from wetside.exposure.zones import METERED_ZONE

SHADOW_ZONE = 3.0
"""Zone of the shadow whose error is told. [zone]"""
HIGHLIGHT_ZONE = 8.0
"""Zone of the highlight whose error is told. [zone]"""

_STOPS = (-300.0, 300.0)


def double_exposure_stops(
    first_stops: float, second_stops: float, zone: float, second_zone: float = METERED_ZONE
) -> float:
    """Add a second exposure to a tone of the first, and tell the stops it brings.

    Parameters
    ----------
    first_stops, second_stops : float
        Each exposure's own error against what was meant for it. [stops]
    zone : float
        Where the first exposure's tone was meant to lie. [zone]
    second_zone : float
        Tone of the second exposure that lies over it. [zone]

    Returns
    -------
    double_exposure_stops : float
        ``log2(1 + 2 ** ((second zone + second stops) - (zone + first stops)))``. [stops]

    Raises
    ------
    OutOfRangeError
        If a zone is not from 0 to 12 or a number of stops is not possible.

    Notes
    -----
    Takes each exposure at what it is worth on the film alone; that two dim ones are worth a little less than their sum
    is not modelled.

    Examples
    --------
    >>> round(double_exposure_stops(0.0, 0.0, 3.0), 2), round(double_exposure_stops(0.0, 0.0, 8.0), 2)
    (2.32, 0.17)
    """
    first = limits.within("exposure.stops.out_of_range", first_stops, _STOPS) + limits.zone(zone)
    over = limits.within("exposure.stops.out_of_range", second_stops, _STOPS) + limits.zone(second_zone)
    return math.log1p(2.0 ** (over - first)) / math.log(2.0)
