"""What a developing time counts, and what the film sees.

The film's average point is in developer from the middle of the pour. Development ends in the middle of the stop's pour
with an acid stop; the drain in between counts half, because little liquid is left on the film. A stop of plain water
lets it go on for about 15 s more.
"""

from __future__ import annotations

from math import isfinite
from typing import NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.errors import OutOfRangeError
from wetside.values.conditions import ClockRule, StopKind

WATER_STOP_EXTRA_S = 15.0
"""An acid stop halts development in about 15 s, water slows it in about 30 s (anchell-2008, p. 104). [s]"""
SAME_BELOW = 0.02
"""Our choice: a changed rule counts as a change above 2 % of the time; a thermometer resolves no less. [1]"""


class ClockConversion(NamedTuple):
    """A time told by another clock rule.

    ``time_s`` the time by the new rule [s]; ``factor`` new over old [1]; ``is_same`` True where the change is below
    2 % and the old time may stand; ``unknown`` names what the source is silent on (``rule``, ``stop``), left alone.
    """

    time_s: float
    factor: float
    is_same: bool
    unknown: tuple[str, ...] = ()


def _beyond_clock_s(rule: ClockRule, stop: StopKind, pour_s: float, drain_s: float, stop_pour_s: float) -> float:
    """Effective development less what the clock shows; may be negative. [s]"""
    beyond_s = (pour_s + drain_s + stop_pour_s) / 2.0
    if rule in (ClockRule.POUR_TO_DRAIN, ClockRule.POUR_TO_DRAINED):
        beyond_s -= pour_s
    if rule in (ClockRule.FULL_TO_DRAINED, ClockRule.POUR_TO_DRAINED):
        beyond_s -= drain_s
    return beyond_s + (WATER_STOP_EXTRA_S if stop is StopKind.WATER else 0.0)


def _require_handling(pour_s: float, drain_s: float, stop_pour_s: float) -> None:
    for value_s in (pour_s, drain_s, stop_pour_s):
        require_not_negative(value_s, "development.clock.handling_negative")


def effective_development_s(
    clock_s: float, rule: ClockRule, stop: StopKind, pour_s: float, drain_s: float, stop_pour_s: float
) -> float:
    """How long the film's average point really develops.

    Parameters
    ----------
    clock_s : float
        Time by the rule; positive. [s]
    rule : ClockRule
        Which two moments the time lies between. ``FULL_TO_DRAINED`` means that the drain lies inside the time.
    stop : StopKind
        What ends development.
    pour_s, drain_s, stop_pour_s : float
        Pouring developer in, draining it, pouring the stop in; zero or more. [s]

    Returns
    -------
    effective_development_s : float
        [s]

    Raises
    ------
    OutOfRangeError
        If the time is not positive, a handling time is negative, or pour and drain eat up the time.

    Notes
    -----
    For ``FULL_TO_DRAIN``: ``pour/2 + clock + drain/2 + stop pour/2``; the other rules take the pour or the drain that
    they include out of the clock first. Plain water adds 15 s.

    References
    ----------
    .. [1] anchell-2008, p. 104: acid halts in about 15 s, running water slows in about 30 s.

    Examples
    --------
    >>> effective_development_s(360, ClockRule.FULL_TO_DRAIN, StopKind.ACID, pour_s=10, drain_s=15, stop_pour_s=10)
    377.5
    """
    require_positive(clock_s, "development.clock.time_not_positive")
    _require_handling(pour_s, drain_s, stop_pour_s)
    inside_s = clock_s
    if rule in (ClockRule.POUR_TO_DRAIN, ClockRule.POUR_TO_DRAINED):
        inside_s -= pour_s
    if rule in (ClockRule.FULL_TO_DRAINED, ClockRule.POUR_TO_DRAINED):
        inside_s -= drain_s
    if not isfinite(inside_s) or inside_s <= 0:
        raise OutOfRangeError("development.clock.nothing_left", time_s=clock_s, pour_s=pour_s, drain_s=drain_s)
    return clock_s + _beyond_clock_s(rule, stop, pour_s, drain_s, stop_pour_s)


def convert_clock_s(
    time_s: float,
    from_rule: ClockRule | None,
    to_rule: ClockRule,
    from_stop: StopKind | None,
    to_stop: StopKind,
    pour_s: float,
    drain_s: float,
    stop_pour_s: float,
) -> ClockConversion:
    """Time by another clock rule or another stop that develops the film as far.

    Parameters
    ----------
    time_s : float
        Time by the source's rule; positive. [s]
    from_rule, from_stop : ClockRule or None, StopKind or None
        What the source says; None where it is silent, and then that part is not converted.
    to_rule, to_stop : ClockRule, StopKind
        What will be done.
    pour_s, drain_s, stop_pour_s : float
        Handling times of the vessel in use; zero or more. [s]

    Returns
    -------
    conversion : ClockConversion
        Equal effective development before and after.

    Raises
    ------
    OutOfRangeError
        As for :func:`effective_development_s`, for the old time and for the new one.

    Examples
    --------
    >>> moved = convert_clock_s(360, ClockRule.POUR_TO_DRAIN, ClockRule.FULL_TO_DRAIN, StopKind.ACID, StopKind.ACID,
    ...                         pour_s=10, drain_s=15, stop_pour_s=10)
    >>> moved.time_s, round(moved.factor, 3), moved.is_same
    (350.0, 0.972, False)
    """
    unknown = tuple(name for name, said in (("rule", from_rule), ("stop", from_stop)) if said is None)
    old_rule, old_stop = from_rule or to_rule, from_stop or to_stop
    # Both ends are checked, so that neither the old nor the new time is all pour and drain.
    effective_s = effective_development_s(time_s, old_rule, old_stop, pour_s, drain_s, stop_pour_s)
    new_s = effective_s - _beyond_clock_s(to_rule, to_stop, pour_s, drain_s, stop_pour_s)
    if new_s <= 0:
        raise OutOfRangeError("development.clock.nothing_left", time_s=new_s, pour_s=pour_s, drain_s=drain_s)
    effective_development_s(new_s, to_rule, to_stop, pour_s, drain_s, stop_pour_s)
    factor = new_s / time_s
    return ClockConversion(new_s, factor, abs(factor - 1.0) < SAME_BELOW, unknown)
