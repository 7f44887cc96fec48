"""How a developing time moves with temperature: one coefficient for a developer, from pairs of times.

The law is ``time(T) = time(T0) * exp(-k * (T - T0))``: a constant share per degree. Q10 is the same law told as the
ratio of two times ten degrees apart, ``Q10 = exp(10 * k)``.
"""

from __future__ import annotations

from math import exp, isfinite, log, sqrt
from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_liquid, require_positive
from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence, Source, Sourced, weakest_evidence

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

HIGHEST_PER_C = 0.5
"""Our choice: a larger coefficient (Q10 of 148) is a slip of the pen; published pairs lie between 0.04 and 0.14.
[1/C]"""

_STRENGTH = {kind: rank for rank, kind in enumerate(Evidence)}


class TimePair(NamedTuple):
    """Two times that give the same contrast at two temperatures.

    ``cold_soft_s`` and ``warm_soft_s`` are half-widths: how far the true time may lie from the printed one, by rounding
    or because a range is printed. [s]
    """

    cold_c: float
    cold_s: float
    warm_c: float
    warm_s: float
    evidence: Evidence = Evidence.PUBLISHED
    source: Source | None = None
    cold_soft_s: float = 0.0
    warm_soft_s: float = 0.0


class TemperatureCoefficient(NamedTuple):
    """Share by which times fall with each degree, and how far that may be trusted.

    ``per_c`` [1/C]; ``span_c`` the temperatures between which its pairs lie [C], None where a person named it;
    ``spread`` half-width of ``per_c`` [1/C], None where unknown; ``by_source`` the mean of each source that says
    something about this developer, so that sources which disagree stay visible.
    """

    per_c: float
    span_c: tuple[float, float] | None
    evidence: Evidence
    source: Source | None = None
    spread: float | None = None
    by_source: tuple[tuple[str, float], ...] = ()


GENERAL_COEFFICIENT = TemperatureCoefficient(
    per_c=0.0965,
    span_c=(13.0, 25.0),
    evidence=Evidence.ASSUMED,
    source=Source("harman-hp5-2018", "time and temperature chart, p. 4, slope traced", "2018-11"),
    spread=0.03,
)
"""One maker's general chart: assumed for a developer of which nothing is known. The spread is that of the developers'
own pairs (Q10 of 1.7 to 2.9), which this chart does not match."""


def _checked_pair(pair: TimePair) -> None:
    require_liquid(pair.cold_c)
    require_liquid(pair.warm_c)
    require_positive(pair.cold_s, "development.pair.time_not_positive")
    require_positive(pair.warm_s, "development.pair.time_not_positive")
    if pair.warm_c <= pair.cold_c:
        raise InputError("development.pair.not_warmer", cold_c=pair.cold_c, warm_c=pair.warm_c)
    if pair.warm_s > pair.cold_s:
        raise InputError("development.pair.not_shorter", cold_s=pair.cold_s, warm_s=pair.warm_s)
    for time_s, soft_s in ((pair.cold_s, pair.cold_soft_s), (pair.warm_s, pair.warm_soft_s)):
        if not isfinite(soft_s) or not 0 <= soft_s < time_s:
            raise OutOfRangeError("development.pair.too_soft", value=soft_s, time_s=time_s)


def coefficient_of_pair(pair: TimePair) -> float:
    """Coefficient of temperature that two times imply.

    Parameters
    ----------
    pair : TimePair
        The warm time is shorter, or as long. [C], [s]

    Returns
    -------
    per_c : float
        [1/C]

    Raises
    ------
    InputError
        If the warm side is not warmer, or its time is longer.
    OutOfRangeError
        If a time is not positive, a temperature is no liquid's, or the coefficient is above any developer's.

    Notes
    -----
    ``ln(cold time / warm time) / (warm - cold)``.

    References
    ----------
    .. [1] wall-1910, p. 44: the same quotient in decimal logarithms, over ten degrees.

    Examples
    --------
    >>> round(coefficient_of_pair(TimePair(20, 570, 24, 480)), 4)
    0.043
    """
    _checked_pair(pair)
    # A difference of logarithms: the quotient of two legal times may be no legal number.
    return _checked_per_c((log(pair.cold_s) - log(pair.warm_s)) / (pair.warm_c - pair.cold_c))


def _checked_per_c(per_c: float) -> float:
    if not isfinite(per_c) or not 0 <= per_c <= HIGHEST_PER_C:
        raise OutOfRangeError("development.coefficient.out_of_range", value=per_c, low=0.0, high=HIGHEST_PER_C)
    return per_c


def q10_of_coefficient(per_c: float) -> float:
    """Ratio of two times ten degrees apart.

    Parameters
    ----------
    per_c : float
        Coefficient, from 0 to 0.5. [1/C]

    Returns
    -------
    q10 : float
        [1]

    Raises
    ------
    OutOfRangeError
        If the coefficient is negative, above 0.5 or not finite.

    Examples
    --------
    >>> round(q10_of_coefficient(0.0965), 3)
    2.625
    """
    return exp(10.0 * _checked_per_c(per_c))


def coefficient_of_q10(q10: float) -> float:
    """Coefficient of temperature from the ratio of two times ten degrees apart.

    Parameters
    ----------
    q10 : float
        1 or more. [1]

    Returns
    -------
    per_c : float
        [1/C]

    Raises
    ------
    OutOfRangeError
        If the ratio is below 1, not finite, or above any developer's.

    Examples
    --------
    >>> round(coefficient_of_q10(1.76), 4)
    0.0565
    """
    require_positive(q10, "development.coefficient.q10_not_positive")
    return _checked_per_c(log(q10) / 10.0)


def q10_of_pair(pair: TimePair) -> float:
    """Ratio of two times ten degrees apart that a pair implies.

    Parameters
    ----------
    pair : TimePair
        As for :func:`coefficient_of_pair`.

    Returns
    -------
    q10 : float
        [1]

    Examples
    --------
    >>> round(q10_of_pair(TimePair(20, 840, 24, 690)), 2)
    1.64
    """
    return q10_of_coefficient(coefficient_of_pair(pair))


def coefficient_span_of_pair(pair: TimePair) -> tuple[float, float]:
    """Lowest and highest coefficient that the softness of a pair's times allows.

    Parameters
    ----------
    pair : TimePair
        With ``cold_soft_s`` and ``warm_soft_s``: 15 s where times are printed to the half minute. [C], [s]

    Returns
    -------
    low, high : float
        [1/C]; ``low`` is never below zero, because no developer works slower when it is warmer.

    Raises
    ------
    OutOfRangeError
        If a time or a temperature is not finite or not possible, or the softness reaches a time.
    InputError
        If the second is not the warmer one, or takes longer.

    Examples
    --------
    >>> low, high = coefficient_span_of_pair(TimePair(20, 570, 24, 480, cold_soft_s=15, warm_soft_s=15))
    >>> round(q10_of_coefficient(low), 2), round(q10_of_coefficient(high), 2)
    (1.33, 1.78)
    """
    _checked_pair(pair)
    apart_c = pair.warm_c - pair.cold_c
    low = (log(pair.cold_s - pair.cold_soft_s) - log(pair.warm_s + pair.warm_soft_s)) / apart_c
    high = (log(pair.cold_s + pair.cold_soft_s) - log(pair.warm_s - pair.warm_soft_s)) / apart_c
    return max(0.0, low), high


def named_coefficient(per_c: float, source: Source | None = None) -> TemperatureCoefficient:
    """Coefficient that a person names: good at any temperature, and ``assumed`` at all of them.

    Parameters
    ----------
    per_c : float
        From 0 to 0.5. [1/C]
    source : Source, optional
        The person's own words.

    Raises
    ------
    OutOfRangeError
        If it is negative, above 0.5 or not finite.

    Examples
    --------
    >>> named_coefficient(0.075).evidence.value
    'assumed'
    """
    return TemperatureCoefficient(_checked_per_c(per_c), None, Evidence.ASSUMED, source)


def coefficient_of_pairs(pairs: Iterable[TimePair], source_key: str | None = None) -> TemperatureCoefficient:
    """Coefficient of a developer from all its pairs.

    Parameters
    ----------
    pairs : iterable of TimePair
        At least one; any film's, of one developer.
    source_key : str, optional
        Source that gives the value. If absent: the best evidence, then the most pairs, then the first in order.

    Returns
    -------
    coefficient : TemperatureCoefficient
        Value and span of the chosen source alone; what the others say widens the spread and stands in ``by_source``.

    Raises
    ------
    InputError
        If there is no pair (of that source).
    OutOfRangeError
        If a pair cannot be.

    Notes
    -----
    The value is the mean of the pairs' coefficients. The spread (half-width) is the largest of: the standard deviation
    of the pairs; the half-width by rounding of the mean, ``mean(half-width of a pair) / sqrt(pairs)``; the distance to
    the farthest mean of another source. Our choice: see ``docs/explanation/development.md``.

    Examples
    --------
    >>> two = [TimePair(20, 480, 24, 330), TimePair(20, 360, 24, 270)]
    >>> mean = coefficient_of_pairs(two)
    >>> round(mean.per_c, 4), mean.span_c
    (0.0828, (20, 24))
    """
    groups: dict[str, list[TimePair]] = {}
    for pair in pairs:
        groups.setdefault(pair.source.key if pair.source else "", []).append(pair)
    if not groups or (source_key is not None and source_key not in groups):
        raise InputError("development.coefficient.no_pairs", source=source_key, known=tuple(groups))
    means = {key: sum(map(coefficient_of_pair, group)) / len(group) for key, group in groups.items()}
    chosen = min(groups, key=lambda key: _rank(groups[key])) if source_key is None else source_key
    group, mean = groups[chosen], means[chosen]
    return TemperatureCoefficient(
        per_c=mean,
        span_c=(min(pair.cold_c for pair in group), max(pair.warm_c for pair in group)),
        evidence=weakest_evidence(*(pair.evidence for pair in group)),
        source=_source_of_group(group),
        spread=max(_own_spread(group, mean), *(abs(other - mean) for other in means.values())),
        by_source=tuple(means.items()),
    )


def _rank(group: Sequence[TimePair]) -> tuple[int, int]:
    return max(_STRENGTH[pair.evidence] for pair in group), -len(group)


def _source_of_group(group: Sequence[TimePair]) -> Source | None:
    first = group[0].source
    if first is None or all(pair.source == first for pair in group):
        return first
    return Source(first.key, f"{len(group)} pairs", first.date)


def _own_spread(group: Sequence[TimePair], mean: float) -> float:
    spans = [coefficient_span_of_pair(pair) for pair in group]
    rounding = sum(high - low for low, high in spans) / 2.0 / len(group) / sqrt(len(group))
    if len(group) == 1:
        return rounding
    scatter = sum((coefficient_of_pair(pair) - mean) ** 2 for pair in group) / (len(group) - 1)
    return max(sqrt(scatter), rounding)


def is_inside_span(coefficient: TemperatureCoefficient, temp_c: float) -> bool:
    """Tell whether a coefficient may be used at a temperature.

    Parameters
    ----------
    coefficient : TemperatureCoefficient
        With or without a span.
    temp_c : float
        [C]

    Raises
    ------
    OutOfRangeError
        If the temperature is no liquid's.

    Examples
    --------
    >>> is_inside_span(GENERAL_COEFFICIENT, 26.0), is_inside_span(named_coefficient(0.06), 26.0)
    (False, True)
    """
    require_liquid(temp_c)
    return coefficient.span_c is None or coefficient.span_c[0] <= temp_c <= coefficient.span_c[1]


def require_inside_span(coefficient: TemperatureCoefficient, *temps_c: float) -> None:
    """Refuse temperatures at which a coefficient was never seen to hold.

    Parameters
    ----------
    coefficient : TemperatureCoefficient
        With or without a span.
    *temps_c : float
        [C]

    Raises
    ------
    RefusedError
        ``development.temperature.outside_span`` for the first temperature outside.

    Examples
    --------
    >>> require_inside_span(GENERAL_COEFFICIENT, 20.0, 24.0)
    """
    for temp_c in temps_c:
        if not is_inside_span(coefficient, temp_c):
            low_c, high_c = coefficient.span_c or (temp_c, temp_c)
            key = coefficient.source.key if coefficient.source else None
            raise RefusedError(
                "development.temperature.outside_span", temp_c=temp_c, low_c=low_c, high_c=high_c, source=key
            )


def temperature_factor(coefficient: TemperatureCoefficient, from_c: float, to_c: float) -> float:
    """Multiplier of a developing time for another temperature.

    Parameters
    ----------
    coefficient : TemperatureCoefficient
        Of the developer.
    from_c : float
        Temperature of the time. [C]
    to_c : float
        Temperature that will be used. [C]

    Returns
    -------
    temperature_factor : float
        [1]; exactly 1 for the same temperature, whatever the span.

    Raises
    ------
    RefusedError
        If either temperature lies outside the span of the coefficient's pairs.
    OutOfRangeError
        If a temperature is no liquid's.

    Notes
    -----
    ``exp(-k * (to - from))``.

    References
    ----------
    .. [1] harman-hp5-2018, chart p. 4: straight parallel lines of ln(time) against Celsius.

    Examples
    --------
    >>> round(temperature_factor(GENERAL_COEFFICIENT, 20.0, 23.0), 3)
    0.749
    """
    require_liquid(from_c)
    require_liquid(to_c)
    if from_c == to_c:
        return 1.0
    require_inside_span(coefficient, from_c, to_c)
    return exp(-_checked_per_c(coefficient.per_c) * (to_c - from_c))


def sourced_temperature_factor(coefficient: TemperatureCoefficient, from_c: float, to_c: float) -> Sourced:
    """Multiplier of a developing time for another temperature, with its evidence, source and spread.

    Parameters
    ----------
    coefficient : TemperatureCoefficient
        Of the developer.
    from_c, to_c : float
        As for :func:`temperature_factor`. [C]

    Returns
    -------
    factor : Sourced
        The spread is ``factor * |to - from| * spread of the coefficient``. [1]

    Examples
    --------
    >>> factor = sourced_temperature_factor(GENERAL_COEFFICIENT, 20.0, 22.0)
    >>> round(factor.value, 3), round(factor.spread, 3), factor.evidence.value
    (0.824, 0.049, 'assumed')
    """
    value = temperature_factor(coefficient, from_c, to_c)
    spread = None if coefficient.spread is None else value * abs(to_c - from_c) * coefficient.spread
    return Sourced(value, coefficient.evidence, coefficient.source, spread)
