"""What a paper can hold, from its own curve."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import RefusedError

if TYPE_CHECKING:
    from wetside.values.curve import CharacteristicCurve

LEAST_NET = 0.04
"""Net density of the lightest tone that counts (ISO 6846). [density]"""
SHARE_OF_BLACK = 0.90
"""Share of the net maximum density at which the darkest tone is taken. [1]"""


def log_exposure_range_iso6846(curve: CharacteristicCurve) -> float:
    """Find the log exposure range of a paper: the density range of the negative that fills it.

    Parameters
    ----------
    curve : CharacteristicCurve
        Reflection densities of the paper up to its black. [density]

    Returns
    -------
    log_exposure_range : float
        A hundred times this is the paper's range number. [log10]

    Raises
    ------
    RefusedError
        If the curve holds less than the lightest tone.

    Notes
    -----
    From net density 0.04 to 90 % of the net maximum. The second is a measuring point, not the end of the usable scale.

    References
    ----------
    .. [1] focal-encyclopedia, p. 679.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(log_exposure_range_iso6846(characteristic_curve(120.0, (0.0, 1.0), (0.0, 2.0))), 2)
    0.88
    """
    net_black = curve.density[-1] - curve.base_fog
    low, high = curve.base_fog + LEAST_NET, curve.base_fog + SHARE_OF_BLACK * net_black
    if not curve.density[0] <= low < high:
        raise RefusedError(
            "sensitometry.paper.not_read", lowest=curve.density[0], highest=curve.density[-1], wanted=low
        )
    return curve.log_h_at(high) - curve.log_h_at(low)
