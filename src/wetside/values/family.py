"""A reading family: measured curves of one film and one process over developing times."""

from __future__ import annotations

import math
from bisect import bisect_right
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.window import Window

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.values.conditions import Conditions
    from wetside.values.curve import CharacteristicCurve
    from wetside.values.evidence import Evidence, Source

WIDEN_SHARE = 0.1
"""How far beyond the first and the last tested time the last two curves may be drawn on, as a share of that time.
Our choice: a tenth of the time is what the trade's own spread of times leaves open; whoever uses it says so. [1]"""

_ROUNDING = 1e-9


class _Reached(NamedTuple):
    """Predicted ranges at the times whose readings hold both ends of a scene."""

    times_s: tuple[float, ...]
    ranges: tuple[float, ...]
    missed_before: CharacteristicCurve | None
    missed_after: CharacteristicCurve | None


class ContrastFamily(NamedTuple):
    """Curves over times; build it with :func:`contrast_family`, which checks and sorts them.

    ``curves`` stand in order of their times, two at least; ``channel`` is the light in which the densities were
    read (visual, blue, green, UV). Between two tested times density is taken as straight in time at each exposure:
    over a working span that errs less than any growth law (docs/explanation/sensitometry.md).
    """

    film: str
    curves: tuple[CharacteristicCurve, ...]
    conditions: Conditions
    channel: str
    evidence: Evidence
    source: Source | None = None

    @property
    def span_s(self) -> tuple[float, float]:
        """Shortest and longest tested time. [s]"""
        return self.curves[0].dev_s, self.curves[-1].dev_s

    @property
    def absolute(self) -> bool:
        """Whether log exposures are in lux-seconds."""
        return self.curves[0].absolute

    def extended_span_s(self, share: float = WIDEN_SHARE) -> tuple[float, float]:
        """Widen the tested span by a share of each end time. [s]

        Parameters
        ----------
        share : float
            From 0 up to, not including, 1. [1]

        Raises
        ------
        OutOfRangeError
            If the share is not in that span.
        """
        if not 0.0 <= share < 1.0:
            raise OutOfRangeError("values.family.share", share=share)
        low_s, high_s = self.span_s
        return low_s * (1.0 - share), high_s * (1.0 + share)

    def density_at(self, dev_s: float, log_h: float, *, widen: bool = False) -> float:
        """Density for a developing time and an exposure.

        Parameters
        ----------
        dev_s : float
            Inside the tested span. [s]
        log_h : float
            Inside the readings of the neighbouring tested times. [log10 lux-second, or the readings' own scale]
        widen : bool
            Also permit a tenth beyond the span, where the last two curves are drawn on; the answer is assumed.

        Returns
        -------
        density : float
            Base + fog included; at a tested time exactly the tested curve's. [density]

        Raises
        ------
        OutOfRangeError
            If the time lies outside the span.
        RefusedError
            If the readings do not reach the exposure.
        """
        early, late, share = self._neighbours(dev_s, widen=widen)
        if share == 0.0:
            return self._read(early, log_h)
        if share == 1.0:
            return self._read(late, log_h)
        low, high = self._read(early, log_h), self._read(late, log_h)
        return low + share * (high - low)

    def predicted_range(self, dev_s: float, log_h_low: float, log_range: float, *, widen: bool = False) -> float:
        """Density range of a scene after a developing time: D(low + range) - D(low).

        Parameters
        ----------
        dev_s : float
            [s]
        log_h_low : float
            Exposure of the placed shadow on the film. [log10 lux-second, or the readings' own scale]
        log_range : float
            From shadow to highlight on the film, flare subtracted; positive. [log10]
        widen : bool
            See :meth:`density_at`.

        Returns
        -------
        predicted_range : float
            [density]

        Raises
        ------
        OutOfRangeError
            If the time lies outside the span, or the range is not positive.
        RefusedError
            If the readings do not reach shadow or highlight.
        """
        check_log_range(log_range)
        high = self.density_at(dev_s, log_h_low + log_range, widen=widen)
        return high - self.density_at(dev_s, log_h_low, widen=widen)

    def gradient_at(self, dev_s: float, log_h_low: float, log_range: float, *, widen: bool = False) -> float:
        """Average gradient over a scene: predicted range over log range; errors as :meth:`predicted_range`. [1]"""
        return self.predicted_range(dev_s, log_h_low, log_range, widen=widen) / log_range

    def base_fog_at(self, dev_s: float, *, widen: bool = False) -> float:
        """Read base + fog at a time, straight between the tested times. [density]

        Raises
        ------
        OutOfRangeError
            If the time lies outside the span.
        """
        early, late, share = self._neighbours(dev_s, widen=widen)
        return early.base_fog + share * (late.base_fog - early.base_fog)

    def speed_log_h_at(self, dev_s: float, *, widen: bool = False) -> float:
        """Log exposure of the speed point at a time, straight between those of the tested times.

        Returns
        -------
        speed_log_h : float
            [log10 lux-second, or the readings' own scale]

        Raises
        ------
        OutOfRangeError
            If the time lies outside the span.
        RefusedError
            If a neighbouring curve has no speed point.
        """
        early, late, share = self._neighbours(dev_s, widen=widen)
        if share == 0.0:
            return early.speed_log_h()
        if share == 1.0:
            return late.speed_log_h()
        low, high = early.speed_log_h(), late.speed_log_h()
        return low + share * (high - low)

    def time_for_range(self, log_h_low: float, log_range: float, density_range: float, *, widen: bool = False) -> float:
        """Developing time whose predicted range is the wanted one.

        Parameters
        ----------
        log_h_low, log_range : float
            See :meth:`predicted_range`. [log10]
        density_range : float
            Wanted; positive. [density]
        widen : bool
            See :meth:`density_at`.

        Returns
        -------
        dev_s : float
            [s]

        Raises
        ------
        OutOfRangeError
            If no permitted time gives the range; ``nearest`` is the range that the nearest time gives.
        RefusedError
            If the readings do not reach that far, or more development does not always give more range.

        Notes
        -----
        Density being straight in time at each exposure, so is a difference of two: the answer is exact.
        """
        if not (math.isfinite(density_range) and density_range > 0.0):
            raise OutOfRangeError("values.family.density_range", density_range=density_range)
        reached = self._reached(log_h_low, log_range, widen=widen)
        times, ranges = reached.times_s, reached.ranges
        if density_range < ranges[0] - _ROUNDING:
            raise self._beyond(reached, log_h_low, log_range, density_range, low_side=True)
        if density_range > ranges[-1] + _ROUNDING:
            raise self._beyond(reached, log_h_low, log_range, density_range, low_side=False)
        return _straight_time(times, ranges, density_range)

    def window_for_range(
        self,
        log_h_low: float,
        log_range: float,
        density_range: float,
        tolerance: float,
        *,
        widen: bool = False,
    ) -> Window:
        """Find the times whose predicted range lies within a tolerance of the wanted one, inside the permitted span.

        Parameters
        ----------
        log_h_low, log_range, density_range : float
            See :meth:`time_for_range`.
        tolerance : float
            Either side; positive. [density]
        widen : bool
            See :meth:`density_at`.

        Returns
        -------
        window : Window
            [s]

        Raises
        ------
        OutOfRangeError
            If no permitted time comes within the tolerance, or a number is not positive.
        RefusedError
            As :meth:`time_for_range`.
        """
        if not (math.isfinite(tolerance) and tolerance > 0.0):
            raise OutOfRangeError("values.family.tolerance", tolerance=tolerance)
        if not (math.isfinite(density_range) and density_range > 0.0):
            raise OutOfRangeError("values.family.density_range", density_range=density_range)
        reached = self._reached(log_h_low, log_range, widen=widen)
        times, ranges = reached.times_s, reached.ranges
        if density_range + tolerance < ranges[0]:
            raise self._beyond(reached, log_h_low, log_range, density_range, low_side=True)
        if density_range - tolerance > ranges[-1]:
            raise self._beyond(reached, log_h_low, log_range, density_range, low_side=False)
        return Window(
            _straight_time(times, ranges, max(density_range - tolerance, ranges[0])),
            _straight_time(times, ranges, min(density_range + tolerance, ranges[-1])),
        )

    def _neighbours(self, dev_s: float, *, widen: bool) -> tuple[CharacteristicCurve, CharacteristicCurve, float]:
        """Find the tested curves on either side of a time, and how far it lies between them."""
        if not math.isfinite(dev_s):
            raise OutOfRangeError("values.family.time_not_finite", film=self.film, dev_s=dev_s)
        low_s, high_s = self.extended_span_s() if widen else self.span_s
        if not low_s <= dev_s <= high_s:
            raise OutOfRangeError("values.family.beyond_span", film=self.film, dev_s=dev_s, low_s=low_s, high_s=high_s)
        curves = self.curves
        at = min(max(bisect_right(curves, dev_s, key=_time_of), 1), len(curves) - 1)
        early, late = curves[at - 1], curves[at]
        return early, late, (dev_s - early.dev_s) / (late.dev_s - early.dev_s)

    def _read(self, curve: CharacteristicCurve, log_h: float) -> float:
        try:
            return curve.density_at(log_h)
        except OutOfRangeError:
            raise self._not_read(curve, log_h) from None

    def _not_read(self, curve: CharacteristicCurve, log_h: float) -> RefusedError:
        """Say how far the readings of a curve go, and which end of the scene they miss."""
        if log_h > curve.log_h[-1]:
            code, reach = "values.family.highlight_not_read", curve.log_h[-1]
        else:
            code, reach = "values.family.shadow_not_read", curve.log_h[0]
        return RefusedError(
            code, film=self.film, dev_s=curve.dev_s, log_h=log_h, reach_log_h=reach, missing=abs(log_h - reach)
        )

    def _reached(self, log_h_low: float, log_range: float, *, widen: bool) -> _Reached:
        """Ranges at the longest row of neighbouring tested times whose readings hold the scene."""
        check_log_range(log_range)
        found: list[float | None] = []
        for curve in self.curves:
            try:
                found.append(curve.density_at(log_h_low + log_range) - curve.density_at(log_h_low))
            except OutOfRangeError:
                found.append(None)
        start, end = _longest_row(found)
        if end - start < 2:
            missing = next(curve for curve, value in zip(self.curves, found, strict=True) if value is None)
            high = log_h_low + log_range
            off = high if high > missing.log_h[-1] + _ROUNDING else log_h_low
            raise self._not_read(missing, off)
        times = [curve.dev_s for curve in self.curves[start:end]]
        ranges = [value for value in found[start:end] if value is not None]
        for at in range(1, len(times)):
            if ranges[at] <= ranges[at - 1]:
                raise RefusedError(
                    "values.family.not_rising",
                    film=self.film,
                    early_s=times[at - 1],
                    late_s=times[at],
                    early_range=ranges[at - 1],
                    late_range=ranges[at],
                )
        if widen:
            low_s, high_s = self.extended_span_s()
            first = ranges[0] - (times[0] - low_s) * (ranges[1] - ranges[0]) / (times[1] - times[0])
            last = ranges[-1] + (high_s - times[-1]) * (ranges[-1] - ranges[-2]) / (times[-1] - times[-2])
            if start == 0:
                times.insert(0, low_s)
                ranges.insert(0, first)
            if end == len(self.curves):
                times.append(high_s)
                ranges.append(last)
        return _Reached(
            tuple(times),
            tuple(ranges),
            self.curves[start - 1] if start else None,
            self.curves[end] if end < len(self.curves) else None,
        )

    def _beyond(
        self, reached: _Reached, log_h_low: float, log_range: float, wanted: float, *, low_side: bool
    ) -> OutOfRangeError | RefusedError:
        missed = reached.missed_before if low_side else reached.missed_after
        if missed is not None:
            high = log_h_low + log_range
            return self._not_read(missed, high if high > missed.log_h[-1] + _ROUNDING else log_h_low)
        at = 0 if low_side else -1
        return OutOfRangeError(
            "values.family.range_too_small" if low_side else "values.family.range_too_large",
            film=self.film,
            wanted=wanted,
            nearest=reached.ranges[at],
            dev_s=reached.times_s[at],
        )


def contrast_family(
    film: str,
    curves: Iterable[CharacteristicCurve],
    *,
    conditions: Conditions,
    channel: str,
    evidence: Evidence,
    source: Source | None = None,
) -> ContrastFamily:
    """Check curves of different times and put them in order.

    Parameters
    ----------
    film : str
        Its name.
    curves : iterable of CharacteristicCurve
        At least two, each of its own time, all on one exposure scale.
    conditions : Conditions
        What they were developed under.
    channel : str
        Light in which the densities were read: visual, blue, green, UV.
    evidence : Evidence
        Where they come from.
    source : Source, optional
        Where they can be read.

    Returns
    -------
    family : ContrastFamily

    Raises
    ------
    RefusedError
        If there are fewer than two times, two curves of one time, or relative and absolute exposures together.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.evidence import Evidence
    >>> scale = (-3.0, -2.0, -1.0)
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(600.0, scale, (0.2, 0.7, 1.4)), characteristic_curve(300.0, scale, (0.1, 0.5, 1.0))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> family.span_s, round(family.predicted_range(450.0, -3.0, 2.0), 3)
    ((300.0, 600.0), 1.05)
    >>> round(family.time_for_range(-3.0, 2.0, 1.1), 3)
    500.0
    """
    ordered = tuple(sorted(curves, key=_time_of))
    if len(ordered) < 2:
        raise RefusedError("values.family.too_few", film=film, count=len(ordered))
    for early, late in pairwise(ordered):
        if late.dev_s - early.dev_s < 1e-3:
            raise RefusedError("values.family.same_time", film=film, dev_s=late.dev_s)
        if early.absolute != late.absolute:
            raise RefusedError("values.family.mixed_scales", film=film)
    return ContrastFamily(film, ordered, conditions, channel, evidence, source)


def check_log_range(log_range: float) -> None:
    """Refuse a log exposure range [log10] that is not a positive number.

    Raises
    ------
    OutOfRangeError
        If it is not.
    """
    if not (math.isfinite(log_range) and log_range > 0.0):
        raise OutOfRangeError("values.family.log_range", log_range=log_range)


def _time_of(curve: CharacteristicCurve) -> float:
    return curve.dev_s


def _longest_row(values: list[float | None]) -> tuple[int, int]:
    """Start and end of the longest row without a gap; of equal ones the first."""
    best = (0, 0)
    start = 0
    for at, value in enumerate([*values, None]):
        if value is None:
            if at - start > best[1] - best[0]:
                best = (start, at)
            start = at + 1
    return best


def _straight_time(times: tuple[float, ...], ranges: tuple[float, ...], wanted: float) -> float:
    """Time of a range on the pieces between ranges that rise; the ends hold what rounding puts beyond them."""
    wanted = min(max(wanted, ranges[0]), ranges[-1])
    at = min(max(bisect_right(ranges, wanted) - 1, 0), len(ranges) - 2)
    share = (wanted - ranges[at]) / (ranges[at + 1] - ranges[at])
    return times[at] + share * (times[at + 1] - times[at])
