"""Placing a tone on a zone, and how far development must bend the rest.

Zones are written as numbers: III is 3. A zone is one stop of subject brightness; what a meter reads is Zone V.
"""

from __future__ import annotations

from wetside.exposure import _limits as limits

METERED_ZONE = 5.0
"""Zone on which a metered tone falls if nothing is changed (camera-manual-25420, p. 73). [zone]"""


def placed_ev(reading_ev: float, zone: float) -> float:
    """Exposure value to set, so that a metered tone lands on a zone.

    Parameters
    ----------
    reading_ev : float
        Spot reading of the tone. [EV]
    zone : float
        Where it shall land, 0 to 12; fractions are allowed. [zone]

    Returns
    -------
    placed_ev : float
        ``reading + 5 - zone``: a shadow on III gets two stops less than the meter says. [EV]

    Raises
    ------
    OutOfRangeError
        If the zone is not from 0 to 12 or the reading is not possible.

    References
    ----------
    .. [1] camera-manual-25420, p. 73; bethstechniques-2018.

    Examples
    --------
    >>> placed_ev(9.0, 3.0)
    11.0
    """
    return limits.exposure_value_number(reading_ev) + METERED_ZONE - limits.zone(zone)


def zone_fall(shadow_ev: float, shadow_zone: float, highlight_ev: float) -> float:
    """Zone on which a second tone falls when the first is placed.

    Parameters
    ----------
    shadow_ev, highlight_ev : float
        Spot readings, both at the same meter setting. [EV]
    shadow_zone : float
        Placement of the first, 0 to 12. [zone]

    Returns
    -------
    zone_fall : float
        ``shadow zone + highlight - shadow``; may lie outside the scale, and is not cut there. [zone]

    Raises
    ------
    OutOfRangeError
        If a zone or a reading is not possible.

    Examples
    --------
    >>> zone_fall(9.0, 3.0, 14.0)
    8.0
    """
    gap = limits.exposure_value_number(highlight_ev) - limits.exposure_value_number(shadow_ev)
    return limits.zone(shadow_zone) + gap


def zones_n(shadow_ev: float, shadow_zone: float, highlight_ev: float, highlight_zone: float = 8.0) -> float:
    """N number of a scene: zones of expansion (positive) or contraction (negative) that development must bring.

    Parameters
    ----------
    shadow_ev, highlight_ev : float
        Spot readings. [EV]
    shadow_zone : float
        Placement of the shadow. [zone]
    highlight_zone : float
        Where the highlight shall print. [zone]

    Returns
    -------
    zones_n : float
        Target less fall; not rounded. [zone]

    Raises
    ------
    OutOfRangeError
        If a zone or a reading is not possible.

    Examples
    --------
    >>> zones_n(9.0, 3.0, 15.0, 8.0)
    -1.0
    """
    return limits.zone(highlight_zone) - zone_fall(shadow_ev, shadow_zone, highlight_ev)
