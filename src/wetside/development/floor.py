"""Times too short to develop evenly, and why: the share that pour and drain take."""

from __future__ import annotations

from math import isfinite
from typing import NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.errors import OutOfRangeError
from wetside.values.evidence import Source  # noqa: TC001 (part of a public type)


class PublishedFloor(NamedTuple):
    """Shortest time that one maker advises. [s]"""

    maker: str
    floor_s: float
    source: Source
    note: str = ""


class FloorCheck(NamedTuple):
    """A time held against a floor.

    ``below`` True where the time is shorter than the floor; ``margin_s`` time less floor [s]; the shares are of the
    time [1].
    """

    below: bool
    margin_s: float
    pour_share: float
    drain_share: float
    handling_share: float


def floor_check(time_s: float, pour_s: float, drain_s: float, floor_s: float) -> FloorCheck:
    """Hold a developing time against the shortest that develops evenly.

    Parameters
    ----------
    time_s : float
        Developing time; positive. [s]
    pour_s, drain_s : float
        Of the vessel; zero or more. [s]
    floor_s : float
        The maker's floor, or the user's; zero or more. [s]

    Returns
    -------
    check : FloorCheck
        The real reason stands in ``handling_share``: what comes first and goes last sees that much more developer.

    Raises
    ------
    OutOfRangeError
        If the time is not positive or another value is negative.

    References
    ----------
    .. [1] ilford-processing-chart-2019: under 5 min may be uneven. rollei-retro-2021, p. 3: under 3 min to be avoided.

    Examples
    --------
    >>> check = floor_check(335, pour_s=10, drain_s=15, floor_s=300)
    >>> check.below, round(check.handling_share, 2)
    (False, 0.07)
    """
    require_positive(time_s, "development.floor.time_not_positive")
    for value_s in (pour_s, drain_s, floor_s):
        require_not_negative(value_s, "development.floor.negative")
    pour_share, drain_share = pour_s / time_s, drain_s / time_s
    if not isfinite(pour_share + drain_share):
        # A time next to nothing: no share of it can be told.
        raise OutOfRangeError("development.floor.time_not_positive", value=time_s)
    return FloorCheck(time_s < floor_s, time_s - floor_s, pour_share, drain_share, pour_share + drain_share)
