"""Where a film's shoulder begins, from its own curve."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wetside.values.curve import CharacteristicCurve
    from wetside.values.family import ContrastFamily

CHORD_LOG = 0.30
"""Slope is taken over chords of a stop, so that no single reading makes a shoulder. Our choice. [log10]"""
SHARE_OF_STEEPEST = 0.5
"""Share of the steepest chord at which tones are no longer told apart well. Our choice. [1]"""
_STEP_LOG = 0.02


def shoulder_log_h(curve: CharacteristicCurve) -> float | None:
    """Exposure at which a curve's shoulder begins: beyond its steepest part, a chord of one stop has half the slope.

    Parameters
    ----------
    curve : CharacteristicCurve

    Returns
    -------
    log_h : float or None
        Middle of the first such chord; None where the readings show no shoulder. [log10 lux-second, or the readings'
        own scale]

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> bent = characteristic_curve(300.0, (-3.0, -2.0, -1.0, 0.0, 1.0), (0.1, 0.7, 1.3, 1.5, 1.55))
    >>> -1.1 < shoulder_log_h(bent) < -0.7
    True
    >>> shoulder_log_h(characteristic_curve(300.0, (-3.0, -1.0), (0.1, 1.3))) is None
    True
    """
    first, last = curve.log_h[0], curve.log_h[-1] - CHORD_LOG
    count = int((last - first) / _STEP_LOG) + 1 if last >= first else 0
    starts = [first + _STEP_LOG * at for at in range(count)]
    rises = [curve.density_at(start + CHORD_LOG) - curve.density_at(start) for start in starts]
    if not rises:
        return None
    steepest = max(range(count), key=rises.__getitem__)
    for start, rise in zip(starts[steepest:], rises[steepest:], strict=True):
        if rise <= SHARE_OF_STEEPEST * rises[steepest]:
            return start + 0.5 * CHORD_LOG
    return None


def shoulder_log_h_at(family: ContrastFamily, dev_s: float) -> float | None:
    """Exposure at which the shoulder begins after a developing time, straight between those of the tested times.

    Parameters
    ----------
    family : ContrastFamily
    dev_s : float
        Inside the tested span. [s]

    Returns
    -------
    log_h : float or None
        None where a neighbouring curve shows no shoulder. [log10 lux-second, or the readings' own scale]

    Raises
    ------
    OutOfRangeError
        If the time lies outside the span.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.evidence import Evidence
    >>> from wetside.values.family import contrast_family
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(s, (-3.0, 1.0), (0.1, 0.1 + 4 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> shoulder_log_h_at(family, 450.0) is None
    True
    """
    family.base_fog_at(dev_s)  # refuses a time outside the span
    for early, late in pairwise(family.curves):
        if early.dev_s <= dev_s <= late.dev_s:
            low, high = shoulder_log_h(early), shoulder_log_h(late)
            if low is None or high is None:
                return high if dev_s == late.dev_s else low if dev_s == early.dev_s else None
            return low + (high - low) * (dev_s - early.dev_s) / (late.dev_s - early.dev_s)
    return None


def longest_time_before_shoulder(family: ContrastFamily, highlight_log_h: float, normal_s: float) -> float | None:
    """Longest time, up to the normal one, whose shoulder begins beyond a highlight.

    Parameters
    ----------
    family : ContrastFamily
    highlight_log_h : float
        Exposure of the highlight on the film. [log10 lux-second, or the readings' own scale]
    normal_s : float
        Inside the tested span. [s]

    Returns
    -------
    dev_s : float or None
        None where the highlight lies on the shoulder at every tested time up to the normal one: then less development
        gives no separation back. [s]

    Raises
    ------
    OutOfRangeError
        If the time lies outside the span.

    Notes
    -----
    The beginning of the shoulder is taken as straight in time between tested times that show one. A curve without a
    shoulder holds whatever its readings hold.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.evidence import Evidence
    >>> from wetside.values.family import contrast_family
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(s, (-3.0, 1.0), (0.1, 0.1 + 4 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> longest_time_before_shoulder(family, 0.2, 450.0)
    450.0
    """
    times = sorted({normal_s, *(curve.dev_s for curve in family.curves if curve.dev_s < normal_s)}, reverse=True)
    starts = [shoulder_log_h_at(family, dev_s) for dev_s in times]
    late_s, late = times[0], starts[0]
    if late is None or highlight_log_h <= late:
        return late_s
    for early_s, early in zip(times[1:], starts[1:], strict=True):
        if early is None:
            return early_s
        if highlight_log_h <= early:
            return early_s + (late_s - early_s) * (early - highlight_log_h) / (early - late)
        late_s, late = early_s, early
    return None
