"""Replenished developer: what to add for the film that went through, and whether the bath has settled.

A time in seasoned developer is a time of its own: no rule leads to it from a fresh one.
"""

from __future__ import annotations

from enum import StrEnum
from math import exp
from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.development.ways import Remark
from wetside.errors import OutOfRangeError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.development.reuse_time import UsedArea

SEASONED_TURNOVER = 1.0
"""Our choice, ``assumed``: a bath counts as settled once as much replenisher as its own volume has gone in. [1]"""
RENEW_AFTER_DAYS = 91.0
"""A code for other film asks for new baths at least every 3 months (new-mexico-20-3-6-612); taken as a reminder. [d]"""
MOST_AT_ONCE = 0.1
"""Our choice, ``assumed``: a top-up of more than a tenth of the bath jolts it; top up sooner. [1]"""


class BathState(StrEnum):
    """Condition of a replenished bath; a condition of every time found in it."""

    FRESH = "fresh"
    SETTLING = "settling"
    SEASONED = "seasoned"


class TopUp(NamedTuple):
    """What to do after a load.

    ``add_ml`` replenisher; ``take_out_ml`` used developer to set aside first, at least as much; ``discard_ml`` what is
    over when the bath is filled to its mark again [ml]; ``turnover`` all replenisher so far over the bath's volume [1];
    ``original_share`` what is left of the first filling [1].
    """

    add_ml: float
    take_out_ml: float
    discard_ml: float
    turnover: float
    original_share: float
    state: BathState
    remarks: tuple[Remark, ...]


def replenisher_rate_ml_per_cm2(volume_ml: float, area_cm2: float) -> float:
    """Replenisher to an area, from a printed volume for a printed area.

    Parameters
    ----------
    volume_ml : float
        Positive. [ml]
    area_cm2 : float
        Positive. [cm2]

    Returns
    -------
    replenisher_rate_ml_per_cm2 : float
        [ml/cm2]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Examples
    --------
    >>> round(replenisher_rate_ml_per_cm2(1000.0, 3100 * 6.4516) * 516.128, 1)
    25.8
    """
    require_positive(volume_ml, "development.replenish.volume_not_positive")
    require_positive(area_cm2, "development.replenish.area_not_positive")
    return volume_ml / area_cm2


def top_up(
    ledger: Iterable[UsedArea],
    rate_ml_per_cm2: float,
    bath_ml: float,
    *,
    added_before_ml: float = 0.0,
    carried_out_ml: float = 0.0,
    age_days: float | None = None,
) -> TopUp:
    """Replenisher for the film since the last top-up, and what state the bath is in.

    Parameters
    ----------
    ledger : iterable of UsedArea
        Film since the last top-up, with its weights.
    rate_ml_per_cm2 : float
        Replenisher to an area; positive. [ml/cm2]
    bath_ml : float
        Volume at the mark; positive. [ml]
    added_before_ml : float
        Replenisher that has gone in since the bath was mixed. [ml]
    carried_out_ml : float
        Developer that the film has taken along since the last top-up. [ml]
    age_days : float, optional
        Since the bath was mixed. [d]

    Returns
    -------
    top_up : TopUp
        Set used developer aside, add the replenisher, fill up to the mark with the used, discard the rest.

    Raises
    ------
    OutOfRangeError
        If a value is not possible.
    RefusedError
        If the top-up would replace the whole bath.

    Notes
    -----
    What is left of the first filling: ``exp(-added / volume)``, many small top-ups of a mixed bath.

    References
    ----------
    .. [1] us-army-ss0514, topping off; new-mexico-20-3-6-612, renewal.

    Examples
    --------
    >>> from wetside.development.reuse_time import UsedArea
    >>> done = top_up([UsedArea(516.128)] * 2, 25.8 / 516.128, 1000.0, carried_out_ml=8.0)
    >>> round(done.add_ml, 1), round(done.discard_ml, 1), done.state.value
    (51.6, 43.6, 'settling')
    """
    require_positive(rate_ml_per_cm2, "development.replenish.volume_not_positive")
    require_positive(bath_ml, "development.replenish.volume_not_positive")
    require_not_negative(added_before_ml, "development.replenish.negative")
    require_not_negative(carried_out_ml, "development.replenish.negative")
    add_ml = 0.0
    for entry in ledger:
        require_positive(entry.area_cm2, "development.replenish.area_not_positive")
        require_positive(entry.weight, "development.replenish.weight_not_positive")
        add_ml += rate_ml_per_cm2 * entry.area_cm2 * entry.weight
    if add_ml >= bath_ml:
        raise RefusedError("development.replenish.whole_bath", add_ml=add_ml, bath_ml=bath_ml)
    if carried_out_ml > bath_ml:
        raise OutOfRangeError("development.replenish.carried_out", value=carried_out_ml, bath_ml=bath_ml)
    turnover = (added_before_ml + add_ml) / bath_ml
    state = bath_state(added_before_ml + add_ml, bath_ml)
    remarks: list[Remark] = []
    if add_ml > bath_ml * MOST_AT_ONCE:
        remarks.append(Remark("development.replenish.large", {"add_ml": add_ml, "share": add_ml / bath_ml}))
    if carried_out_ml > add_ml:
        remarks.append(Remark("development.replenish.below_mark", {"short_ml": carried_out_ml - add_ml}))
    if state is not BathState.SEASONED:
        remarks.append(Remark("development.replenish.not_seasoned", {"turnover": turnover}))
    if age_days is not None:
        require_not_negative(age_days, "development.replenish.negative")
        if age_days > RENEW_AFTER_DAYS:
            remarks.append(Remark("development.replenish.renew", {"days": age_days, "after_days": RENEW_AFTER_DAYS}))
    discard_ml = max(0.0, add_ml - carried_out_ml)
    return TopUp(add_ml, discard_ml, discard_ml, turnover, exp(-turnover), state, tuple(remarks))


def bath_state(added_ml: float, bath_ml: float) -> BathState:
    """State of a bath by how much replenisher has gone in.

    Parameters
    ----------
    added_ml : float
        All replenisher since the bath was mixed. [ml]
    bath_ml : float
        Volume at the mark; positive. [ml]

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    Examples
    --------
    >>> [bath_state(added, 1000.0).value for added in (0.0, 300.0, 1000.0)]
    ['fresh', 'settling', 'seasoned']
    """
    require_not_negative(added_ml, "development.replenish.negative")
    require_positive(bath_ml, "development.replenish.volume_not_positive")
    if added_ml == 0:
        return BathState.FRESH
    return BathState.SEASONED if added_ml >= bath_ml * SEASONED_TURNOVER * (1.0 - 1e-9) else BathState.SETTLING


def require_same_state(tested: BathState, now: BathState) -> None:
    """Refuse a time that was found in another state of the bath.

    Parameters
    ----------
    tested : BathState
        State that the time belongs to.
    now : BathState
        State of the bath.

    Raises
    ------
    RefusedError
        ``development.replenish.other_state`` unless both are the same.

    Examples
    --------
    >>> require_same_state(BathState.SEASONED, BathState.SEASONED)
    """
    if tested is not now:
        raise RefusedError("development.replenish.other_state", tested=tested.value, now=now.value)
