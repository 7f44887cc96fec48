"""A sheet's predicted density range against developing time, from a tested family: straight between tested times.

Because density at a fixed exposure is straight in time between two tested times, so is a difference of two densities:
a sheet's whole behaviour is its predicted range at each tested time.
"""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError

if TYPE_CHECKING:
    from wetside.values.family import ContrastFamily

WIDENING = 0.10
"""How far beyond the tested times a plan may go, as a share of the end times; marked assumed. Our choice: on the
traced family of the published checks the straight line then errs by 0.03 to 0.05 of density range."""


class RangeLine(NamedTuple):
    """Predicted range [density] at each tested time [s], both rising."""

    times_s: tuple[float, ...]
    ranges: tuple[float, ...]

    def range_at(self, time_s: float) -> float:
        """Predicted range at a time; beyond the tested span the end pieces are drawn on. [density]

        Whoever uses a value from beyond the span says so; the planner plans no sheet further than :data:`WIDENING`
        outside it and uses the rest only to rank rungs of the ladder that break a window anyway.
        """
        index = min(max(bisect_right(self.times_s, time_s) - 1, 0), len(self.times_s) - 2)
        t0, t1 = self.times_s[index], self.times_s[index + 1]
        r0, r1 = self.ranges[index], self.ranges[index + 1]
        return r0 + (r1 - r0) * (time_s - t0) / (t1 - t0)

    def time_for(self, density_range: float) -> float:
        """Time whose predicted range is the wanted one, the end pieces drawn on. [s]"""
        index = min(max(bisect_right(self.ranges, density_range) - 1, 0), len(self.ranges) - 2)
        t0, t1 = self.times_s[index], self.times_s[index + 1]
        r0, r1 = self.ranges[index], self.ranges[index + 1]
        return t0 + (t1 - t0) * (density_range - r0) / (r1 - r0)

    def inside(self, time_s: float, share: float = 0.0) -> bool:
        """Whether a time lies in the tested span widened by a share of its ends."""
        return self.times_s[0] * (1.0 - share) <= time_s <= self.times_s[-1] * (1.0 + share)


def range_line(family: ContrastFamily, log_h_low: float, log_range: float) -> RangeLine:
    """Predicted range of a sheet at each tested time.

    Parameters
    ----------
    family : ContrastFamily
        Measured curves over times.
    log_h_low : float
        Exposure of the low end of the scene on the film. [log10 lux-second, or the readings' own relative scale]
    log_range : float
        Range on the film, flare already subtracted. [log10]

    Raises
    ------
    OutOfRangeError
        If the readings of a curve do not reach the low or the high end.
    RefusedError
        If more development would give less range anywhere: such a family cannot be planned on.
    """
    times = tuple(curve.dev_s for curve in family.curves)
    ranges = tuple(curve.density_at(log_h_low + log_range) - curve.density_at(log_h_low) for curve in family.curves)
    for earlier, later in pairwise(ranges):
        if later <= earlier:
            raise RefusedError("planning.family_not_rising", film=family.film)
    return RangeLine(times, ranges)


def normal_placing(family: ContrastFamily, density_range: float, log_range: float) -> float:
    """Exposure on which the low end of a rightly exposed scene lies: the speed point at normal development.

    The normal time is the one at which the range from the speed point of that time is the aim's. Where no tested span
    reaches the aim, the speed point of the nearest tested time is taken.

    Parameters
    ----------
    family : ContrastFamily
        Of the sheet's film and process.
    density_range : float
        The aim. [density]
    log_range : float
        Range of the scene on the film. [log10]

    Returns
    -------
    log_h_low : float
        [log10 lux-second, or relative]
    """

    def excess(time_s: float) -> float:
        low = family.speed_log_h_at(time_s)
        return family.predicted_range(time_s, low, log_range) - density_range

    low_s, high_s = family.span_s
    reachable = [
        curve.dev_s for curve in family.curves if family.speed_log_h_at(curve.dev_s) + log_range <= curve.log_h[-1]
    ]
    if not reachable:
        return family.speed_log_h_at(family.curves[len(family.curves) // 2].dev_s)
    low_s, high_s = reachable[0], reachable[-1]
    if excess(low_s) >= 0:
        return family.speed_log_h_at(low_s)
    if excess(high_s) <= 0:
        return family.speed_log_h_at(high_s)
    for _ in range(60):
        middle = 0.5 * (low_s + high_s)
        if excess(middle) < 0:
            low_s = middle
        else:
            high_s = middle
    return family.speed_log_h_at(0.5 * (low_s + high_s))
