"""Development at a temperature that changes: the integral of the rate.

The rate at a temperature, against the rate at a fixed one, is ``exp(k * (T - at))``. Its integral over the time in the
developer is the time that would have done the same at the fixed temperature.
"""

from __future__ import annotations

from itertools import pairwise
from math import exp, expm1, isfinite, log
from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_liquid, require_not_negative, require_positive
from wetside.development.coefficient import TemperatureCoefficient, require_inside_span
from wetside.errors import InputError, OutOfRangeError

if TYPE_CHECKING:
    from collections.abc import Iterable

LONGEST_S = 1e6
"""Our choice: eleven days; longer is a slip of the pen. [s]"""
_MOST_TERMS = 200


class TemperatureReading(NamedTuple):
    """What a thermometer in the developer shows, and when; counted from any common zero. [s], [C]"""

    elapsed_s: float
    temp_c: float


def _require_duration(value_s: float, code: str) -> None:
    require_not_negative(value_s, code)
    if value_s > LONGEST_S:
        raise OutOfRangeError(code, value=value_s)


def effective_time_s(
    segments: Iterable[TemperatureReading | tuple[float, float]],
    coefficient: TemperatureCoefficient,
    at_c: float,
    *,
    strict: bool = True,
) -> float:
    """Time at one temperature that develops as far as a course of temperatures did.

    Parameters
    ----------
    segments : iterable of TemperatureReading
        At least two, in order of time; straight lines are drawn between them. Two at one moment are a step. [s], [C]
    coefficient : TemperatureCoefficient
        Of the developer.
    at_c : float
        Temperature of the result. [C]
    strict : bool, optional
        Refuse temperatures outside the coefficient's span. A live run only warns, and passes False.

    Returns
    -------
    effective_time_s : float
        [s]

    Raises
    ------
    InputError
        If there are fewer than two readings, or time runs backwards.
    OutOfRangeError
        If a temperature is no liquid's, or the readings span more than a million seconds.
    RefusedError
        If ``strict`` and a temperature lies outside the span.

    Notes
    -----
    Exact over each straight line from T0 to T1 in the time d: ``d * exp(k (T0 - at)) * expm1(x) / x`` with
    ``x = k (T1 - T0)``.

    Examples
    --------
    >>> from wetside.development.coefficient import named_coefficient
    >>> fall = [(0, 20.0), (250, 20.0), (480, 19.4)]
    >>> round(effective_time_s(fall, named_coefficient(0.097), 20.0), 1)
    473.4
    """
    readings = [TemperatureReading(*reading) for reading in segments]
    if len(readings) < 2:
        raise InputError("development.integral.too_few_readings", count=len(readings))
    require_liquid(at_c)
    for reading in readings:
        require_liquid(reading.temp_c)
        if not isfinite(reading.elapsed_s):
            raise OutOfRangeError("development.integral.time_impossible", value=reading.elapsed_s)
    _require_duration(abs(readings[-1].elapsed_s - readings[0].elapsed_s), "development.integral.time_impossible")
    if strict:
        temps_c = {reading.temp_c for reading in readings}
        if temps_c != {at_c}:
            require_inside_span(coefficient, at_c, *(reading.temp_c for reading in readings))
    total_s = 0.0
    for before, after in pairwise(readings):
        duration_s = after.elapsed_s - before.elapsed_s
        if duration_s < 0:
            raise InputError("development.integral.time_backwards", before_s=before.elapsed_s, after_s=after.elapsed_s)
        rate = exp(coefficient.per_c * (before.temp_c - at_c))
        total_s += duration_s * rate * _mean_of_exp(coefficient.per_c * (after.temp_c - before.temp_c))
    return total_s


def _mean_of_exp(x: float) -> float:
    """Mean of exp from 0 to x."""
    return 1.0 + x / 2.0 if abs(x) < 1e-8 else expm1(x) / x


def effective_temp_c(effective_s: float, duration_s: float, coefficient: TemperatureCoefficient, at_c: float) -> float:
    """Steady temperature that would have developed as far in the same time.

    Parameters
    ----------
    effective_s : float
        Time that does the same at ``at_c``; positive. [s]
    duration_s : float
        Time in the developer; positive. [s]
    coefficient : TemperatureCoefficient
        More than zero.
    at_c : float
        [C]

    Returns
    -------
    effective_temp_c : float
        [C]

    Raises
    ------
    OutOfRangeError
        If a time or the coefficient is not positive.

    Notes
    -----
    ``at + ln(effective / duration) / k``.

    Examples
    --------
    >>> from wetside.development.coefficient import named_coefficient
    >>> round(effective_temp_c(473.4, 480, named_coefficient(0.097), 20.0), 2)
    19.86
    """
    require_positive(effective_s, "development.integral.time_not_positive")
    require_positive(duration_s, "development.integral.time_not_positive")
    require_positive(coefficient.per_c, "development.integral.no_coefficient")
    require_liquid(at_c)
    return at_c + (log(effective_s) - log(duration_s)) / coefficient.per_c


def relaxed_temp_c(elapsed_s: float, start_c: float, jacket_c: float, tau_s: float) -> float:
    """Temperature of the liquid in a closed vessel that stands in a water jacket.

    Parameters
    ----------
    elapsed_s : float
        Since it was poured in; zero or more. [s]
    start_c, jacket_c : float
        Of the liquid when poured in, and of the jacket. [C]
    tau_s : float
        Time after which 37 % of the difference is left; positive. [s]

    Returns
    -------
    relaxed_temp_c : float
        [C]

    Raises
    ------
    OutOfRangeError
        If a time is negative, tau is not positive, or a temperature is no liquid's.

    Notes
    -----
    ``jacket + (start - jacket) * exp(-t / tau)``.

    Examples
    --------
    >>> round(relaxed_temp_c(600, 20.0, 16.0, 2011), 2)
    18.97
    """
    _require_duration(elapsed_s, "development.integral.time_impossible")
    require_liquid(start_c)
    require_liquid(jacket_c)
    require_positive(tau_s, "development.integral.tau_not_positive")
    return jacket_c + (start_c - jacket_c) * exp(-elapsed_s / tau_s)


def relaxation_time_s(elapsed_s: float, start_c: float, end_c: float, jacket_c: float) -> float:
    """Time constant of a vessel from what was poured in and what was drained.

    Parameters
    ----------
    elapsed_s : float
        Between the two readings; positive. [s]
    start_c, end_c, jacket_c : float
        The end lies between the start and the jacket. [C]

    Returns
    -------
    tau_s : float
        [s]

    Raises
    ------
    OutOfRangeError
        If the time is not positive or a temperature is no liquid's.
    InputError
        If the liquid did not move towards the jacket, or went past it.

    Notes
    -----
    ``t / ln((start - jacket) / (end - jacket))``.

    Examples
    --------
    >>> round(relaxation_time_s(600, 20.0, 19.2, 16.0) / 60, 1)
    44.8
    """
    require_positive(elapsed_s, "development.integral.time_not_positive")
    for temp_c in (start_c, end_c, jacket_c):
        require_liquid(temp_c)
    started_c, left_c = start_c - jacket_c, end_c - jacket_c
    if started_c * left_c <= 0 or abs(left_c) >= abs(started_c):
        raise InputError("development.integral.no_relaxation", start_c=start_c, end_c=end_c, jacket_c=jacket_c)
    return elapsed_s / (log(abs(started_c)) - log(abs(left_c)))


def effective_relaxing_time_s(
    duration_s: float,
    start_c: float,
    jacket_c: float,
    tau_s: float,
    coefficient: TemperatureCoefficient,
    at_c: float,
    *,
    strict: bool = True,
) -> float:
    """Time at one temperature that develops as far as a liquid on its way to its jacket's temperature.

    Parameters
    ----------
    duration_s : float
        In the developer; zero or more. [s]
    start_c, jacket_c : float
        As for :func:`relaxed_temp_c`. [C]
    tau_s : float
        As for :func:`relaxed_temp_c`. [s]
    coefficient : TemperatureCoefficient
        Of the developer.
    at_c : float
        Temperature of the result. [C]
    strict : bool, optional
        Refuse temperatures outside the coefficient's span.

    Returns
    -------
    effective_time_s : float
        [s]

    Raises
    ------
    OutOfRangeError
        As for :func:`relaxed_temp_c`.
    RefusedError
        If ``strict`` and the start, the end or ``at_c`` lies outside the span.

    Notes
    -----
    With ``u(t) = k (start - jacket) exp(-t / tau)`` the integral is exactly
    ``exp(k (jacket - at)) * (t + tau * sum((u(0)**n - u(t)**n) / (n * n!)))``, n from 1: the series of the exponential
    integral.

    Examples
    --------
    >>> from wetside.development.coefficient import named_coefficient
    >>> round(effective_relaxing_time_s(480, 20.0, 18.0, 480, named_coefficient(0.097), 20.0), 1)
    447.2
    """
    end_c = relaxed_temp_c(duration_s, start_c, jacket_c, tau_s)
    require_liquid(at_c)
    if strict and not start_c == jacket_c == at_c:
        require_inside_span(coefficient, at_c, start_c, end_c)
    first = coefficient.per_c * (start_c - jacket_c)
    last = coefficient.per_c * (end_c - jacket_c)
    total, first_term, last_term = 0.0, 1.0, 1.0
    for n in range(1, _MOST_TERMS):
        first_term *= first / n
        last_term *= last / n
        total += (first_term - last_term) / n
        if abs(first_term) <= 1e-17 * abs(total):
            break
    return exp(coefficient.per_c * (jacket_c - at_c)) * (duration_s + tau_s * total)


def duration_for_effective_s(
    effective_s: float,
    start_c: float,
    jacket_c: float,
    tau_s: float,
    coefficient: TemperatureCoefficient,
    at_c: float,
    *,
    strict: bool = True,
) -> float:
    """Time in a drifting developer that develops as far as a given time at one temperature.

    Parameters
    ----------
    effective_s : float
        Wanted time at ``at_c``; positive. [s]
    start_c, jacket_c, at_c : float
        As for :func:`effective_relaxing_time_s`. [C]
    tau_s : float
        As for :func:`relaxed_temp_c`. [s]
    coefficient : TemperatureCoefficient
        Of the developer.
    strict : bool, optional
        Refuse temperatures outside the coefficient's span.

    Returns
    -------
    duration_s : float
        [s]

    Raises
    ------
    OutOfRangeError
        If the wanted time is not positive, or the answer is beyond a million seconds.
    RefusedError
        If ``strict`` and the liquid leaves the span.

    Notes
    -----
    Newton's method; the slope is the rate at the end, ``exp(k (T(t) - at))``.

    Examples
    --------
    >>> from wetside.development.coefficient import named_coefficient
    >>> own = named_coefficient(0.097)
    >>> round(duration_for_effective_s(447.2, 20.0, 18.0, 480, own, 20.0))
    480
    """
    require_positive(effective_s, "development.integral.time_not_positive")
    duration_s = effective_s
    for _ in range(_MOST_TERMS):
        reached_s = effective_relaxing_time_s(duration_s, start_c, jacket_c, tau_s, coefficient, at_c, strict=False)
        rate = exp(coefficient.per_c * (relaxed_temp_c(duration_s, start_c, jacket_c, tau_s) - at_c))
        step_s = (effective_s - reached_s) / rate
        # A step never takes more than the whole time away, so the search stays above zero.
        duration_s = max(duration_s + step_s, duration_s / 4.0)
        if abs(step_s) <= 1e-10 * duration_s:
            break
    effective_relaxing_time_s(duration_s, start_c, jacket_c, tau_s, coefficient, at_c, strict=strict)
    return duration_s
