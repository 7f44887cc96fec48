"""A characteristic curve: density against log exposure for one film, one process, one developing time."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Sequence

SPEED_POINT_NET = 0.10
"""Density of the speed point above base + fog (ISO 6:1993). [density]"""

_ROUNDING = 1e-9
"""Sums of log exposures may pass an end of the readings by this much and still mean the end. [log H]"""
_NARROWEST = 1e-6
"""Two readings nearer than this are one exposure; nothing that exposes film can tell them apart. [log H]"""
_FURTHEST = 20.0
"""Beyond this neither a log exposure nor a density exists; it also keeps slopes from overflowing."""


class CharacteristicCurve(NamedTuple):
    """Monotone curve through readings; build it with :func:`characteristic_curve`, which checks them.

    ``dev_s`` is the developing time [s]; ``log_h`` the log exposures, strictly rising [log10 lux-second, or
    relative where ``absolute`` is false]; ``density`` the readings with base + fog in them, never falling
    [density]; ``slope`` the slope at each reading [density per log H]; ``base_fog`` the density of film
    developed without exposure [density], ``base_fog_given`` false where it is only the lowest reading.
    """

    dev_s: float
    log_h: tuple[float, ...]
    density: tuple[float, ...]
    slope: tuple[float, ...]
    base_fog: float
    base_fog_given: bool
    absolute: bool

    def density_at(self, log_h: float) -> float:
        """Density at a log exposure; a tested exposure gives back its reading.

        Parameters
        ----------
        log_h : float
            Between the first and the last reading. [log10 lux-second]

        Returns
        -------
        density : float
            Base + fog included. [density]

        Raises
        ------
        OutOfRangeError
            Outside the readings: a curve is never drawn further than it was read.

        Examples
        --------
        >>> curve = characteristic_curve(360.0, (-3.0, -2.0, -1.0), (0.2, 0.5, 1.1))
        >>> curve.density_at(-2.0), round(curve.density_at(-1.5), 3)
        (0.5, 0.756)
        """
        at, share, width = self._segment(log_h)
        low, high = self.density[at], self.density[at + 1]
        rise = high - low
        start, end = self.slope[at] * width, self.slope[at + 1] * width
        # Hermite cubic; grouped so that both ends of a segment come out exactly.
        if share == 1.0:
            return high
        return low + share * (start + share * (3 * rise - 2 * start - end + share * (start + end - 2 * rise)))

    def slope_at(self, log_h: float) -> float:
        """Slope of the curve at a log exposure [log10 lux-second], in density per log H.

        Raises
        ------
        OutOfRangeError
            Outside the readings.
        """
        at, share, width = self._segment(log_h)
        rise = self.density[at + 1] - self.density[at]
        start, end = self.slope[at] * width, self.slope[at + 1] * width
        slope = start + share * (2 * (3 * rise - 2 * start - end) + 3 * share * (start + end - 2 * rise))
        return max(slope / width, 0.0)  # only rounding can bring a monotone cubic below 0

    def log_h_at(self, density: float) -> float:
        """Log exposure at which the curve first has a density: the inverse of :meth:`density_at`.

        Parameters
        ----------
        density : float
            Base + fog included; between the lowest and the highest reading. [density]

        Returns
        -------
        log_h : float
            Of a level part, its start. [log10 lux-second]

        Raises
        ------
        OutOfRangeError
            If no reading is so low or so high.

        Examples
        --------
        >>> curve = characteristic_curve(360.0, (-3.0, -2.0, -1.0), (0.2, 0.5, 1.1))
        >>> round(curve.log_h_at(curve.density_at(-1.37)), 9)
        -1.37
        """
        densities = self.density
        if not densities[0] - _ROUNDING <= density <= densities[-1] + _ROUNDING:
            raise OutOfRangeError("values.curve.beyond_density", density=density, low=densities[0], high=densities[-1])
        density = min(max(density, densities[0]), densities[-1])
        at = bisect_left(densities, density)
        if densities[at] == density:
            return self.log_h[at]
        return self._crossing(at - 1, density)

    def speed_log_h(self) -> float:
        """Log exposure of the speed point, density 0.10 above base + fog (ISO 6:1993). [log10 lux-second]

        Raises
        ------
        RefusedError
            If the readings do not hold that density.
        """
        wanted = self.base_fog + SPEED_POINT_NET
        if not self.density[0] <= wanted <= self.density[-1]:
            raise RefusedError(
                "values.curve.speed_point_not_read",
                dev_s=self.dev_s,
                density=wanted,
                low=self.density[0],
                high=self.density[-1],
            )
        return self.log_h_at(wanted)

    def _segment(self, log_h: float) -> tuple[int, float, float]:
        """Segment that holds a log exposure: its number, how far in (0 to 1), its width."""
        points = self.log_h
        if not points[0] - _ROUNDING <= log_h <= points[-1] + _ROUNDING:
            raise OutOfRangeError("values.curve.beyond_log_h", log_h=log_h, low=points[0], high=points[-1])
        at = min(max(bisect_right(points, log_h) - 1, 0), len(points) - 2)
        width = points[at + 1] - points[at]
        return at, min(max((log_h - points[at]) / width, 0.0), 1.0), width

    def _crossing(self, at: int, density: float) -> float:
        """Newton's method inside a bracket that halves when a step would leave it."""
        left, right = self.log_h[at], self.log_h[at + 1]
        width = right - left
        rise = self.density[at + 1] - self.density[at]
        start, end = self.slope[at] * width, self.slope[at + 1] * width
        square, cube = 3 * rise - 2 * start - end, start + end - 2 * rise
        wanted = density - self.density[at]
        low, high = 0.0, 1.0
        share = wanted / rise
        for _ in range(100):
            miss = share * (start + share * (square + share * cube)) - wanted
            if miss >= 0.0:
                high = share
            else:
                low = share
            slope = start + share * (2 * square + 3 * share * cube)
            following = share - miss / slope if slope > 0.0 else -1.0
            if not low < following < high:
                following = 0.5 * (low + high)
            if abs(following - share) < 1e-15 or miss == 0.0:
                break
            share = following
        return left + share * width


def monotone_slopes(log_h: Sequence[float], density: Sequence[float]) -> tuple[float, ...]:
    """Slopes at the readings that keep a cubic through them from overshooting.

    Parameters
    ----------
    log_h : sequence of float
        Strictly rising, at least two. [log10 lux-second]
    density : sequence of float
        Never falling, as many. [density]

    Returns
    -------
    slopes : tuple of float
        Weighted harmonic mean of the chords on either side, 0 beside a level chord; three-point formula at
        the ends. [density per log H]

    References
    ----------
    .. [1] fritsch-carlson-1980, conditions for a monotone piecewise cubic; fritsch-butland-1984, the mean.

    Examples
    --------
    >>> monotone_slopes((0.0, 1.0, 2.0), (0.0, 0.5, 1.0))
    (0.5, 0.5, 0.5)
    """
    widths = [right - left for left, right in pairwise(log_h)]
    chords = [(high - low) / width for low, high, width in zip(density, density[1:], widths, strict=False)]
    if len(chords) == 1:
        return (chords[0], chords[0])
    inner = []
    for before, after, left, right in zip(chords, chords[1:], widths, widths[1:], strict=False):
        if before <= 0.0 or after <= 0.0:
            inner.append(0.0)
            continue
        one, two = 2 * right + left, right + 2 * left
        inner.append((one + two) / (one / before + two / after))
    first = _end_slope(chords[0], chords[1], widths[0], widths[1])
    last = _end_slope(chords[-1], chords[-2], widths[-1], widths[-2])
    return (first, *inner, last)


def _end_slope(chord: float, following: float, width: float, next_width: float) -> float:
    """Slope at an end from the first two chords. The set rises, so it stays between 0 and three chords."""
    slope = chord + width * (chord - following) / (width + next_width)
    return min(max(slope, 0.0), 3 * chord)


def characteristic_curve(
    dev_s: float,
    log_h: Sequence[float],
    density: Sequence[float],
    *,
    base_fog: float | None = None,
    absolute: bool = True,
) -> CharacteristicCurve:
    """Check readings that rise and draw the monotone curve through them.

    Parameters
    ----------
    dev_s : float
        Developing time; positive. [s]
    log_h : sequence of float
        Strictly rising, at least two. [log10 lux-second, or relative]
    density : sequence of float
        Never falling, as many. [density]
    base_fog : float, optional
        Density of unexposed developed film; the lowest reading if absent. [density]
    absolute : bool
        Whether ``log_h`` is in lux-seconds.

    Returns
    -------
    curve : CharacteristicCurve

    Raises
    ------
    OutOfRangeError
        If a value is not finite or impossible, the time is not positive, or the readings do not rise.

    Examples
    --------
    >>> characteristic_curve(360.0, (-3.0, -2.0, -1.0), (0.2, 0.5, 1.1)).base_fog
    0.2
    """
    if not (math.isfinite(dev_s) and dev_s > 0):
        raise OutOfRangeError("values.curve.dev_not_positive", dev_s=dev_s)
    if len(log_h) != len(density):
        raise OutOfRangeError("values.curve.uneven", log_h_count=len(log_h), density_count=len(density))
    if len(log_h) < 2:
        raise OutOfRangeError("values.curve.too_few", count=len(log_h), least=2)
    for value in (*log_h, *density, *(() if base_fog is None else (base_fog,))):
        if not abs(value) <= _FURTHEST:  # holds for what is not a number too
            raise OutOfRangeError("values.curve.impossible", value=value, furthest=_FURTHEST, dev_s=dev_s)
    for before, after in pairwise(log_h):
        if after - before < _NARROWEST:
            raise OutOfRangeError("values.curve.log_h_not_rising", before=before, after=after, dev_s=dev_s)
    for place, before, after in zip(log_h[1:], density, density[1:], strict=False):
        if after < before:
            raise OutOfRangeError("values.curve.density_falls", log_h=place, before=before, after=after, dev_s=dev_s)
    points = tuple(float(value) for value in log_h)
    readings = tuple(float(value) for value in density)
    return CharacteristicCurve(
        dev_s=float(dev_s),
        log_h=points,
        density=readings,
        slope=monotone_slopes(points, readings),
        base_fog=readings[0] if base_fog is None else float(base_fog),
        base_fog_given=base_fog is not None,
        absolute=absolute,
    )
