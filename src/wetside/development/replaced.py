"""Developer replaced by fresh developer on the way: for staining developers in rotation, or a vessel too small.

Each part's agent is counted for the share of the film's development that falls to it. How far that helps follows from
the loss of activity with use, whose figure is handed in.
"""

from __future__ import annotations

from math import log1p
from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.development.limits_warm import LONGEST_IN_ROTATION_S
from wetside.development.ways import Remark
from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from collections.abc import Sequence

LOSS_PER_UNIT = 0.1
"""Activity lost to each unit of film in a litre of stock: +10 % of time a film (harman-powder-developers-2010, p. 8).
[1]"""
LEAST_AGENT_RATIO = 0.5
"""Below half of the reference volume no result is foretold (our choice). [1]"""
LONGEST_CHANGE_S = 45.0
"""Our choice, ``assumed``: a change that takes longer leaves the film in spent developer. [s]"""


class DeveloperPart(NamedTuple):
    """One filling of developer.

    ``start_s`` and ``end_s`` on the clock of development, from the first full [s]; ``agent_ml`` stock or concentrate
    [ml]; ``agent_ratio`` against the reference volume for its share of the film [1]; ``mean_activity`` against
    unused developer [1].
    """

    start_s: float
    end_s: float
    agent_ml: float
    agent_ratio: float
    mean_activity: float


class ReplacedPlan(NamedTuple):
    """Development in several fillings.

    ``activity`` mean over the whole time against the same mean under the reference volume [1]; ``activity_unreplaced``
    the same with the first filling alone [1], None where that would be too little to foretell; ``gain`` their quotient
    less one [1].
    """

    parts: tuple[DeveloperPart, ...]
    activity: float
    activity_unreplaced: float | None
    gain: float | None
    remarks: tuple[Remark, ...]


def activity_of_part(units_per_litre: float, loss_per_unit: float = LOSS_PER_UNIT) -> float:
    """Mean activity of developer while film uses it up.

    Parameters
    ----------
    units_per_litre : float
        Film in units of 80 square inches for each litre of stock; 0 or more. [1/l]
    loss_per_unit : float
        Time added for each unit in a litre, as a share of the standard time. [1]

    Returns
    -------
    activity_of_part : float
        1 for unused developer. [1]

    Raises
    ------
    OutOfRangeError
        If a value is negative or not finite.

    Notes
    -----
    Activity ``1 / (1 + a x)`` after ``x`` units; its mean from 0 to ``x`` is ``ln(1 + a x) / (a x)``.

    References
    ----------
    .. [1] harman-powder-developers-2010, p. 8: the times that the activity is made from. The form is our choice.

    Examples
    --------
    >>> round(activity_of_part(10.0), 3)
    0.693
    """
    require_not_negative(units_per_litre, "development.replaced.use_negative")
    require_not_negative(loss_per_unit, "development.replaced.use_negative")
    used = units_per_litre * loss_per_unit
    return log1p(used) / used if used > 1e-12 else 1.0


def replaced_plan(
    time_s: float,
    area_cm2: float,
    agents_ml: Sequence[float],
    reference_ml_per_cm2: float,
    *,
    shares: Sequence[float] | None = None,
    change_s: float = 0.0,
    rotating: bool = True,
    loss_per_unit: float = LOSS_PER_UNIT,
) -> ReplacedPlan:
    """Split a developing time over several fillings and count each one's agent.

    Parameters
    ----------
    time_s : float
        Whole developing time; positive. [s]
    area_cm2 : float
        Film of the load, weighted where sheets are dense; positive. [cm2]
    agents_ml : sequence of float
        Stock or concentrate of each filling, two or more. [ml]
    reference_ml_per_cm2 : float
        Reference volume under which the time was found. [ml/cm2]
    shares : sequence of float, optional
        Share of the time that each filling takes; equal parts if absent. They sum to 1. [1]
    change_s : float
        From one filling's drain begun to the next one's full; development goes on in it. [s]
    rotating : bool
        Whether the developer is churned with air, so that its age in the vessel counts.
    loss_per_unit : float
        As for :func:`activity_of_part`. [1]

    Returns
    -------
    plan : ReplacedPlan
        The clock runs through: the change lies inside the time.

    Raises
    ------
    InputError
        If fewer than two fillings are named, or shares do not fit.
    OutOfRangeError
        If a value is not possible.
    RefusedError
        If a filling has less than half of the agent that its share of the film asks for.

    Examples
    --------
    >>> plan = replaced_plan(600, 516.128, (62.5, 62.5), 62.5 / 516.128)
    >>> [(part.start_s, part.end_s, part.agent_ratio) for part in plan.parts]
    [(0.0, 300.0, 2.0), (300.0, 600.0, 2.0)]
    >>> round(plan.gain, 3)
    0.23
    """
    require_positive(time_s, "development.replaced.time_not_positive")
    require_positive(area_cm2, "development.replaced.area_not_positive")
    require_positive(reference_ml_per_cm2, "development.replaced.reference_not_positive")
    require_not_negative(change_s, "development.replaced.change_negative")
    if len(agents_ml) < 2:
        raise InputError("development.replaced.too_few", count=len(agents_ml))
    parts_share = _checked_shares(len(agents_ml), shares)
    if change_s >= time_s * min(parts_share):
        raise OutOfRangeError("development.replaced.change_too_long", value=change_s, time_s=time_s * min(parts_share))
    units = area_cm2 / UNIT_AREA_CM2
    parts: list[DeveloperPart] = []
    start_s = 0.0
    for agent_ml, share in zip(agents_ml, parts_share, strict=True):
        require_positive(agent_ml, "development.replaced.agent_not_positive")
        ratio = agent_ml / (reference_ml_per_cm2 * area_cm2 * share)
        if ratio < LEAST_AGENT_RATIO:
            raise RefusedError(
                "development.replaced.too_little", number=len(parts) + 1, ratio=ratio, least=LEAST_AGENT_RATIO
            )
        end_s = min(start_s + time_s * share, time_s)
        activity = activity_of_part(units * share / (agent_ml / 1000.0), loss_per_unit)
        parts.append(DeveloperPart(start_s, end_s, agent_ml, ratio, activity))
        start_s = end_s
    under_reference = activity_of_part(1000.0 / (reference_ml_per_cm2 * UNIT_AREA_CM2), loss_per_unit)
    whole = sum(part.mean_activity * share for part, share in zip(parts, parts_share, strict=True)) / under_reference
    alone: float | None = None
    if agents_ml[0] / (reference_ml_per_cm2 * area_cm2) >= LEAST_AGENT_RATIO:
        alone = activity_of_part(units / (agents_ml[0] / 1000.0), loss_per_unit) / under_reference
    remarks = _remarks(parts, change_s, rotating=rotating)
    return ReplacedPlan(tuple(parts), whole, alone, None if alone is None else whole / alone - 1.0, remarks)


def _checked_shares(count: int, shares: Sequence[float] | None) -> tuple[float, ...]:
    if shares is None:
        return (1.0 / count,) * count
    if len(shares) != count or any(not 0 < share < 1 for share in shares) or abs(sum(shares) - 1.0) > 1e-9:
        raise InputError("development.replaced.shares", count=count, total=sum(shares))
    return tuple(shares)


def _remarks(parts: Sequence[DeveloperPart], change_s: float, *, rotating: bool) -> tuple[Remark, ...]:
    remarks = [Remark("development.replaced.nothing_waits", {"at_s": part.end_s}) for part in parts[:-1]]
    if change_s > LONGEST_CHANGE_S:
        remarks.append(Remark("development.replaced.slow_change", {"change_s": change_s, "most_s": LONGEST_CHANGE_S}))
    for number, part in enumerate(parts, start=1):
        if part.agent_ratio < 1.0:
            remarks.append(Remark("development.replaced.short_part", {"number": number, "ratio": part.agent_ratio}))
        # Each filling has its own age: fresh developer starts again at nothing.
        if rotating and part.end_s - part.start_s > LONGEST_IN_ROTATION_S:
            remarks.append(
                Remark(
                    "development.replaced.part_oxidised",
                    {"number": number, "time_s": part.end_s - part.start_s, "most_s": LONGEST_IN_ROTATION_S},
                )
            )
    return tuple(remarks)
