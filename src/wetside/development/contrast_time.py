"""Contrast against time where no measured family is at hand, and the law that is a guide only.

With a family of one's own curves the time is read from it. Without one, contrast goes with a power of time: over a
working span of one traced family the power is 0.60 to 0.75, and 0.65 at the usual time.
"""

from __future__ import annotations

from math import exp, expm1, isfinite, log
from typing import NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence, Source, Sourced

ELASTICITY = 0.65
"""Share by which contrast moves for a share of time; 0.645 at the usual time of one traced family, assumed for
all. [1]"""
ELASTICITY_SPAN = (0.60, 0.75)
"""Lowest and highest of the same family, from a short to a long time. [1]"""
WIDEN = 1.25
"""Our choice: how far beyond tested times the first-order law may be read before it is refused. [1]"""
LARGEST_FACTOR = 20.0
"""Our choice: no time is moved by more in one step. [1]"""
MOST_PUSH_STOPS = 2.0
"""The sheet prints the rule for one and for two stops. [stops]"""


def _checked_elasticity(elasticity: float) -> float:
    if not isfinite(elasticity) or not 0.1 <= elasticity <= 2.0:
        raise OutOfRangeError("development.contrast.elasticity", value=elasticity, low=0.1, high=2.0)
    return elasticity


def time_factor_assumed(gradient_wanted: float, gradient_of_time: float, elasticity: float = ELASTICITY) -> float:
    """Multiplier of a developing time for another contrast, where no family is known: always ``assumed``.

    Parameters
    ----------
    gradient_wanted : float
        Average gradient or contrast index that is wanted; positive. [1]
    gradient_of_time : float
        The same measure, of the negative that the time gives; positive. [1]
    elasticity : float, optional
        From 0.1 to 2. [1]

    Returns
    -------
    factor : float
        [1]

    Raises
    ------
    OutOfRangeError
        If a gradient is not positive or the elasticity outside its range.
    RefusedError
        If the time would have to change more than twentyfold.

    Notes
    -----
    ``(wanted / given) ** (1 / elasticity)``.

    Examples
    --------
    >>> round(time_factor_assumed(0.583, 0.62), 2)
    0.91
    """
    require_positive(gradient_wanted, "development.contrast.gradient_not_positive")
    require_positive(gradient_of_time, "development.contrast.gradient_not_positive")
    # The limit is asked of the logarithm: the power itself may be beyond what a number holds.
    power = (log(gradient_wanted) - log(gradient_of_time)) / _checked_elasticity(elasticity)
    if abs(power) > log(LARGEST_FACTOR):
        raise RefusedError(
            "development.contrast.too_far", wanted=gradient_wanted, given=gradient_of_time, most=LARGEST_FACTOR
        )
    return exp(power)


def sourced_time_factor_assumed(gradient_wanted: float, gradient_of_time: float) -> Sourced:
    """Multiplier of a developing time for another contrast, with its evidence and spread.

    Parameters
    ----------
    gradient_wanted, gradient_of_time : float
        As for :func:`time_factor_assumed`. [1]

    Returns
    -------
    factor : Sourced
        Always ``assumed``. The spread is half of what elasticities of 0.60 and of 0.75 make of it. [1]

    Examples
    --------
    >>> factor = sourced_time_factor_assumed(0.500, 0.583)
    >>> round(factor.value, 2), round(factor.spread, 2), factor.evidence.value
    (0.79, 0.02, 'assumed')
    """
    value = time_factor_assumed(gradient_wanted, gradient_of_time)
    low, high = (value ** (ELASTICITY / part) for part in ELASTICITY_SPAN)
    return Sourced(value, Evidence.ASSUMED, None, abs(high - low) / 2.0)


def density_range_change_assumed(density_range: float, time_factor: float, elasticity: float = ELASTICITY) -> float:
    """Change of a negative's density range when its time is changed, where no family is known.

    Parameters
    ----------
    density_range : float
        Of the negative at the old time; zero or more. [density]
    time_factor : float
        New time over old; positive. [1]
    elasticity : float, optional
        From 0.1 to 2. [1]

    Returns
    -------
    density_range_change : float
        Negative for a shorter time. [density]

    Raises
    ------
    OutOfRangeError
        If the range is negative, the factor is not positive or above 20, or the elasticity is outside its range.

    Notes
    -----
    ``range * (factor ** elasticity - 1)``.

    Examples
    --------
    >>> round(density_range_change_assumed(1.05, 1.10), 3)
    0.067
    """
    require_not_negative(density_range, "development.contrast.range_negative")
    require_positive(time_factor, "development.contrast.factor_not_positive")
    if time_factor > LARGEST_FACTOR:
        raise OutOfRangeError("development.contrast.factor_not_positive", value=time_factor)
    return density_range * expm1(_checked_elasticity(elasticity) * log(time_factor))


def elasticity_of_two_times(first_s: float, first_gradient: float, second_s: float, second_gradient: float) -> float:
    """Elasticity of contrast against time between two measured times.

    Parameters
    ----------
    first_s, second_s : float
        Different and positive. [s]
    first_gradient, second_gradient : float
        The same measure of contrast at both; positive. [1]

    Returns
    -------
    elasticity : float
        [1]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.
    InputError
        If the times are equal.

    Notes
    -----
    ``ln(g2 / g1) / ln(t2 / t1)``.

    Examples
    --------
    >>> round(elasticity_of_two_times(300, 0.5355, 360, 0.600), 2)
    0.62
    """
    for time_s in (first_s, second_s):
        require_positive(time_s, "development.contrast.time_not_positive")
    for gradient in (first_gradient, second_gradient):
        require_positive(gradient, "development.contrast.gradient_not_positive")
    apart = log(second_s) - log(first_s)
    if apart == 0:
        raise InputError("development.contrast.same_time", time_s=first_s)
    return (log(second_gradient) - log(first_gradient)) / apart


class FirstOrderLaw(NamedTuple):
    """Contrast that climbs to a limit. A guide only: real families are nearly straight, and leave the limit open.

    ``limit`` the contrast after endless time [1]; ``per_s`` rate [1/s]; ``induction_s`` time before anything shows [s];
    ``tested_s`` shortest and longest tested time [s], None where the law was named and not measured.
    """

    limit: float
    per_s: float
    induction_s: float = 0.0
    tested_s: tuple[float, float] | None = None


def first_order_law(short_s: float, short_gradient: float, double_gradient: float) -> FirstOrderLaw:
    """Fit the first-order law through contrasts at a time and at twice that time.

    Parameters
    ----------
    short_s : float
        The shorter time; the other is exactly twice as long. [s]
    short_gradient, double_gradient : float
        Contrast at the two times. [1]

    Returns
    -------
    law : FirstOrderLaw
        Without induction time.

    Raises
    ------
    OutOfRangeError
        If a value is not positive.
    RefusedError
        If the second contrast is not above the first, or at least twice the first: no such law goes through them.

    Notes
    -----
    ``limit = g1**2 / (2 g1 - g2)``, ``rate = ln(g1 / (g2 - g1)) / t1``.

    References
    ----------
    .. [1] worked-example: the closed form for doubled times, derived from the law of Sheppard and Mees.

    Examples
    --------
    >>> law = first_order_law(360, 0.55, 0.80)
    >>> round(law.limit, 5), round(law.per_s * 60, 5)
    (1.00833, 0.13141)
    """
    require_positive(short_s, "development.contrast.time_not_positive")
    require_positive(short_gradient, "development.contrast.gradient_not_positive")
    require_positive(double_gradient, "development.contrast.gradient_not_positive")
    # Told in the quotient, so that no square or difference of legal numbers leaves the range of numbers.
    growth = double_gradient / short_gradient
    if not 1.0 < growth < 2.0:
        raise RefusedError("development.contrast.not_first_order", short=short_gradient, double=double_gradient)
    return FirstOrderLaw(
        short_gradient / (2.0 - growth), -log(growth - 1.0) / short_s, tested_s=(short_s, 2.0 * short_s)
    )


def gradient_first_order(law: FirstOrderLaw, time_s: float) -> float:
    """Contrast at a time by the first-order law.

    Parameters
    ----------
    law : FirstOrderLaw
        Fitted or named.
    time_s : float
        Zero or more. [s]

    Returns
    -------
    gradient : float
        Zero until the induction time is over. [1]

    Raises
    ------
    OutOfRangeError
        If the time is negative or the law's constants are not positive.
    RefusedError
        If the time lies more than a quarter beyond the tested ones.

    Notes
    -----
    ``limit * (1 - exp(-rate * (t - induction)))``.

    Examples
    --------
    >>> round(gradient_first_order(FirstOrderLaw(1.0, 0.12 / 60), 480), 4)
    0.6171
    """
    _check_law(law)
    require_not_negative(time_s, "development.contrast.time_not_positive")
    _require_tested(law, time_s)
    return law.limit * (1.0 - exp(-law.per_s * max(0.0, time_s - law.induction_s)))


def time_first_order_s(law: FirstOrderLaw, gradient: float) -> float:
    """Time that gives a contrast by the first-order law.

    Parameters
    ----------
    law : FirstOrderLaw
        Fitted or named.
    gradient : float
        Positive, below the law's limit. [1]

    Returns
    -------
    time_s : float
        [s]

    Raises
    ------
    OutOfRangeError
        If the contrast is not positive.
    RefusedError
        If the contrast is at or above the limit, or the time lies more than a quarter beyond the tested ones.

    Examples
    --------
    >>> round(time_first_order_s(first_order_law(360, 0.55, 0.80), 0.62) / 60, 3)
    7.261
    """
    _check_law(law)
    require_positive(gradient, "development.contrast.gradient_not_positive")
    if gradient >= law.limit:
        raise RefusedError("development.contrast.above_limit", value=gradient, limit=law.limit)
    time_s = law.induction_s - log(1.0 - gradient / law.limit) / law.per_s
    _require_tested(law, time_s)
    return time_s


def _check_law(law: FirstOrderLaw) -> None:
    require_positive(law.limit, "development.contrast.gradient_not_positive")
    require_positive(law.per_s, "development.contrast.rate_not_positive")
    require_not_negative(law.induction_s, "development.contrast.time_not_positive")


def _require_tested(law: FirstOrderLaw, time_s: float) -> None:
    if law.tested_s is None:
        return
    low_s, high_s = law.tested_s[0] / WIDEN, law.tested_s[1] * WIDEN
    if not low_s <= time_s <= high_s:
        raise RefusedError("development.contrast.outside_tested", time_s=time_s, low_s=low_s, high_s=high_s)


def push_factor_rollei(stops: float) -> Sourced:
    """Multiplier of a developing time for a push, by one maker's rule.

    Parameters
    ----------
    stops : float
        Stops of push; negative for a pull; at most 2 either way. [stops]

    Returns
    -------
    factor : Sourced
        [1]

    Raises
    ------
    OutOfRangeError
        If it is not finite.
    RefusedError
        If it is beyond two stops: the sheet prints no more.

    Notes
    -----
    ``1.33 ** stops``. Other makers' rows give uneven steps (1.11 to 1.54), and the rule says nothing of shadows: a push
    raises the high values and leaves the shadows where they are.

    References
    ----------
    .. [1] rollei-retro-2021, p. 4.

    Examples
    --------
    >>> round(push_factor_rollei(2.0).value, 2)
    1.77
    """
    if not isfinite(stops):
        raise OutOfRangeError("development.push.not_finite", value=stops)
    if abs(stops) > MOST_PUSH_STOPS:
        raise RefusedError("development.push.beyond_printed", stops=stops, most=MOST_PUSH_STOPS)
    return Sourced(1.33**stops, Evidence.PUBLISHED, Source("rollei-retro-2021", "p. 4", "2021"))
