"""From densitometer readings to curves and families: what does not rise is refused, a small dip smoothed and told."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import ManyErrors, OutOfRangeError, RefusedError, WetsideError
from wetside.sensitometry.rising import rising_fit
from wetside.values.curve import CharacteristicCurve, characteristic_curve
from wetside.values.family import ContrastFamily, contrast_family

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.values.conditions import Conditions
    from wetside.values.evidence import Evidence, Source

LEAST_READINGS = 4
"""Fewer draw no curve with toe and straight part. [1]"""
DEEPEST_DIP = 0.10
"""Fall from a higher reading before it that may still be an error of reading; our choice, five times what two readings
of one patch differ by. [density]"""
LEAST_RISE = 0.10
"""A set that rises by less has no speed point and is called flat; our choice. [density]"""
SAME_LOG_H = 1e-4
"""Readings nearer than this are one patch read twice. [log H]"""

_DENSITIES = (-0.1, 6.0)
_LOG_H = (-12.0, 12.0)
_LONGEST_S = 86400.0


class ReadingReport(NamedTuple):
    """What was done to readings, or taken for granted, as a code with parameters."""

    code: str
    params: Mapping[str, object]


def curve_of_readings(
    dev_s: float,
    log_h: Sequence[float],
    density: Sequence[float],
    *,
    base_fog: float | None = None,
    absolute: bool = True,
) -> tuple[CharacteristicCurve, tuple[ReadingReport, ...]]:
    """Draw the curve of one set of readings.

    Parameters
    ----------
    dev_s : float
        Developing time; positive. [s]
    log_h : sequence of float
        In any order. [log10 lux-second, or relative]
    density : sequence of float
        Base + fog included, one for each log exposure. [density]
    base_fog : float, optional
        Density of unexposed film from the same bath; the lowest reading if absent, and reported so. [density]
    absolute : bool
        Whether ``log_h`` is in lux-seconds.

    Returns
    -------
    curve : CharacteristicCurve
    reports : tuple of ReadingReport
        ``dip_smoothed`` for every dip, with place, depth and number of readings; ``base_fog_lowest``;
        ``base_fog_above`` where readings lie below the given base + fog.

    Raises
    ------
    OutOfRangeError
        If a number is not finite or impossible.
    RefusedError
        If there are fewer than four readings, one exposure with two densities, or the set does not rise.

    Examples
    --------
    >>> curve, reports = curve_of_readings(300.0, (-3.0, -2.5, -2.0, -1.5, -1.0), (0.1, 0.3, 0.28, 0.8, 1.1))
    >>> [round(value, 2) for value in curve.density]
    [0.1, 0.29, 0.29, 0.8, 1.1]
    >>> [report.code for report in reports]
    ['sensitometry.readings.dip_smoothed', 'sensitometry.readings.base_fog_lowest']
    """
    points = _checked_points(dev_s, log_h, density)
    places = tuple(place for place, _ in points)
    read = tuple(value for _, value in points)
    _check_rise(dev_s, places, read)
    fit = rising_fit(read)
    reports = _dips(dev_s, places, read, fit)
    if base_fog is None:
        reports.append(ReadingReport("sensitometry.readings.base_fog_lowest", {"dev_s": dev_s, "base_fog": fit[0]}))
    else:
        _check_number("sensitometry.readings.base_fog_impossible", dev_s, base_fog, (0.0, _DENSITIES[1]))
        if base_fog >= fit[-1]:
            raise RefusedError("sensitometry.readings.base_fog_over_all", dev_s=dev_s, base_fog=base_fog, high=fit[-1])
        if base_fog > fit[0] + 0.02:
            reports.append(
                ReadingReport(
                    "sensitometry.readings.base_fog_above", {"dev_s": dev_s, "base_fog": base_fog, "lowest": fit[0]}
                )
            )
    return characteristic_curve(dev_s, places, fit, base_fog=base_fog, absolute=absolute), tuple(reports)


def curves_of_readings(
    rows: Iterable[tuple[float, float, float]],
    *,
    base_fog: float | Mapping[float, float] | None = None,
    absolute: bool = True,
) -> tuple[tuple[CharacteristicCurve, ...], tuple[ReadingReport, ...]]:
    """Draw one curve for each developing time found in rows of readings.

    Parameters
    ----------
    rows : iterable of (dev_s, log_h, density)
        In any order. [s; log10 lux-second or relative; density]
    base_fog : float or mapping, optional
        One value for all times, or one by time [s]; the lowest reading of each curve where absent. [density]
    absolute : bool
        Whether ``log_h`` is in lux-seconds.

    Returns
    -------
    curves : tuple of CharacteristicCurve
        In order of their times.
    reports : tuple of ReadingReport

    Raises
    ------
    OutOfRangeError, RefusedError
        What is wrong with the only bad curve.
    ManyErrors
        If more than one curve is bad.

    Examples
    --------
    >>> rows = [(time, log_h, 0.1 + (log_h + 3) * time / 900) for time in (600.0, 300.0) for log_h in (-3, -2, -1, 0)]
    >>> [curve.dev_s for curve in curves_of_readings(rows)[0]]
    [300.0, 600.0]
    """
    sets: dict[float, tuple[list[float], list[float]]] = {}
    for dev_s, place, value in rows:
        _check_time(dev_s)
        places, values = sets.setdefault(float(dev_s), ([], []))
        places.append(place)
        values.append(value)
    if not sets:
        raise RefusedError("sensitometry.readings.none")
    curves: list[CharacteristicCurve] = []
    reports: list[ReadingReport] = []
    errors: list[WetsideError] = []
    for dev_s in sorted(sets):
        base = base_fog if base_fog is None or isinstance(base_fog, (int, float)) else base_fog.get(dev_s)
        try:
            curve, told = curve_of_readings(dev_s, *sets[dev_s], base_fog=base, absolute=absolute)
        except WetsideError as error:
            errors.append(error)
            continue
        curves.append(curve)
        reports += told
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return tuple(curves), tuple(reports)


def family_of_readings(
    rows: Iterable[tuple[float, float, float]],
    *,
    film: str,
    conditions: Conditions,
    channel: str,
    evidence: Evidence,
    source: Source | None = None,
    base_fog: float | Mapping[float, float] | None = None,
    absolute: bool = True,
) -> tuple[ContrastFamily, tuple[ReadingReport, ...]]:
    """Make a reading family of rows of readings at two developing times or more.

    Parameters
    ----------
    rows, base_fog, absolute
        See :func:`curves_of_readings`. [s; log10 lux-second or relative; density]
    film, conditions, channel, evidence, source
        See :func:`wetside.values.family.contrast_family`.

    Returns
    -------
    family : ContrastFamily
    reports : tuple of ReadingReport

    Raises
    ------
    OutOfRangeError, RefusedError, ManyErrors
        As :func:`curves_of_readings`; also if there is only one time.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.evidence import Evidence
    >>> rows = [(time, log_h, 0.1 + (log_h + 3) * time / 900) for time in (300.0, 600.0) for log_h in (-3, -2, -1, 0)]
    >>> family, reports = family_of_readings(
    ...     rows,
    ...     film="Morvane 320",
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.TRAY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> family.span_s, round(family.gradient_at(450.0, -2.5, 1.8), 3)
    ((300.0, 600.0), 0.5)
    """
    curves, reports = curves_of_readings(rows, base_fog=base_fog, absolute=absolute)
    family = contrast_family(film, curves, conditions=conditions, channel=channel, evidence=evidence, source=source)
    return family, reports


def _check_number(code: str, dev_s: float, value: float, span: tuple[float, float]) -> None:
    if not span[0] <= value <= span[1]:
        raise OutOfRangeError(code, dev_s=dev_s, value=value, low=span[0], high=span[1])


def _check_time(dev_s: float) -> None:
    if not (math.isfinite(dev_s) and 0.0 < dev_s <= _LONGEST_S):
        raise OutOfRangeError("sensitometry.readings.time_impossible", value=dev_s)


def _checked_points(dev_s: float, log_h: Sequence[float], density: Sequence[float]) -> list[tuple[float, float]]:
    """Check readings and put them in order of exposure; a patch read twice to the same density is kept once."""
    _check_time(dev_s)
    if len(log_h) != len(density):
        raise OutOfRangeError(
            "sensitometry.readings.uneven", dev_s=dev_s, log_h_count=len(log_h), density_count=len(density)
        )
    for place, value in zip(log_h, density, strict=True):
        _check_number("sensitometry.readings.log_h_impossible", dev_s, place, _LOG_H)
        _check_number("sensitometry.readings.density_impossible", dev_s, value, _DENSITIES)
    points: list[tuple[float, float]] = []
    for place, value in sorted((float(place), float(value)) for place, value in zip(log_h, density, strict=True)):
        if points and place - points[-1][0] < SAME_LOG_H:
            if value != points[-1][1]:
                raise RefusedError(
                    "sensitometry.readings.log_h_repeated", dev_s=dev_s, log_h=place, one=points[-1][1], other=value
                )
            continue
        points.append((place, value))
    if len(points) < LEAST_READINGS:
        raise RefusedError("sensitometry.readings.too_few", dev_s=dev_s, count=len(points), least=LEAST_READINGS)
    return points


def _check_rise(dev_s: float, places: tuple[float, ...], read: tuple[float, ...]) -> None:
    """Refuse a set that falls, lies flat, or dips by more than an error of reading."""
    if read[-1] - read[0] <= -LEAST_RISE:
        raise RefusedError("sensitometry.readings.falling", dev_s=dev_s, first=read[0], last=read[-1])
    deepest, where = _deepest(places, read)
    if max(read) - min(read) < LEAST_RISE or rising_fit(read)[-1] - rising_fit(read)[0] < LEAST_RISE:
        raise RefusedError("sensitometry.readings.flat", dev_s=dev_s, low=min(read), high=max(read), least=LEAST_RISE)
    if deepest > DEEPEST_DIP + 1e-9:
        raise RefusedError(
            "sensitometry.readings.dip_too_deep", dev_s=dev_s, log_h=where, depth=deepest, deepest=DEEPEST_DIP
        )


def _deepest(places: tuple[float, ...], read: tuple[float, ...]) -> tuple[float, float]:
    """Deepest fall below a fainter exposure, and where it stands."""
    highest, deepest, where = read[0], 0.0, places[0]
    for place, value in zip(places, read, strict=True):
        highest = max(highest, value)
        if highest - value > deepest:
            deepest, where = highest - value, place
    return deepest, where


def _dips(
    dev_s: float, places: tuple[float, ...], read: tuple[float, ...], fit: tuple[float, ...]
) -> list[ReadingReport]:
    """One report for each level stretch that smoothing made."""
    reports = []
    start = 0
    for end in range(1, len(fit) + 1):
        if end < len(fit) and fit[end] == fit[start]:
            continue
        part = read[start:end]
        if any(after < before for before, after in pairwise(part)):
            dip, log_h = _deepest(places[start:end], part)
            reports.append(
                ReadingReport(
                    "sensitometry.readings.dip_smoothed",
                    {
                        "dev_s": dev_s,
                        "dip": dip,
                        "log_h": log_h,
                        "low_log_h": places[start],
                        "high_log_h": places[end - 1],
                        "count": end - start,
                        "density": fit[start],
                    },
                )
            )
        start = end
    return reports
