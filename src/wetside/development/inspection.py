"""Development by inspection: looks at film that a safelight does not touch, and what a look may do.

Only film with a safelight class is looked at. The planned end stands; an act may end the bath or extend it, and no
answer leaves it as it is.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.development.ways import Remark
from wetside.errors import ConflictError, OutOfRangeError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Iterable

LEAST_DISTANCE_M = 1.2
"""From lamp to film (common practice, ``assumed``; a test on the film itself decides). [m]"""
EARLIEST_SHARE = 0.5
"""Common practice, ``assumed``: before half the time there is little to judge, and film is most sensitive. [1]"""
FIRST_SHARE = 0.7
"""Our choice: the first look, as a share of the planned time. [1]"""
LOOK_S = 10.0
"""Common practice, ``assumed``. [s]"""
MOST_EXTENSION = 0.5
"""Our choice: looks extend a bath by half of its planned time at most; beyond it fog is judged, not picture. [1]"""


class Safelight(StrEnum):
    """Light that open film stands, after a test."""

    NONE = "none"
    DEEP_RED = "deep-red"


class LookAct(StrEnum):
    """What a look may do."""

    END = "end"
    EXTEND = "extend"


class Look(NamedTuple):
    """A moment to look: offset from the vessel full, and the longest that the light may be on. [s]"""

    at_s: float
    lasting_s: float


class Verdict(NamedTuple):
    """What was decided at a moment; ``added_s`` only where the bath is extended. [s]"""

    at_s: float
    act: LookAct
    added_s: float = 0.0


class InspectionPlan(NamedTuple):
    """Looks of a bath; ``planned_end_s`` stands unless a verdict moves it, ``latest_end_s`` bounds that [s]."""

    planned_end_s: float
    latest_end_s: float
    looks: tuple[Look, ...]
    remarks: tuple[Remark, ...]

    @property
    def light_s(self) -> float:
        """Safelight that the film sees in all. [s]"""
        return sum(look.lasting_s for look in self.looks)


def inspection_plan(
    planned_s: float,
    *,
    safelight: Safelight,
    distance_m: float,
    tested_light_s: float | None,
    looks: int = 2,
    first_share: float = FIRST_SHARE,
    look_s: float = LOOK_S,
) -> InspectionPlan:
    """Looks between a share of the time and the planned end.

    Parameters
    ----------
    planned_s : float
        Planned developing time; positive. [s]
    safelight : Safelight
        Class of the film. Panchromatic film has none.
    distance_m : float
        From lamp to film. [m]
    tested_light_s : float or None
        Longest safelight that left no fog in a test of this film and lamp; None where none was made. [s]
    looks : int
        1 or more. [1]
    first_share : float
        Share of the time at which the first look stands, from 0.5 to below 1. [1]
    look_s : float
        Longest that one look takes. [s]

    Returns
    -------
    plan : InspectionPlan
        The last look begins early enough to end before the planned end.

    Raises
    ------
    RefusedError
        If the film stands no light, the lamp is too near, no test was made, or the looks take more light than tested.
    OutOfRangeError
        If a value is not possible, or the looks do not fit.

    Examples
    --------
    >>> plan = inspection_plan(600, safelight=Safelight.DEEP_RED, distance_m=1.5, tested_light_s=240)
    >>> [look.at_s for look in plan.looks], plan.latest_end_s
    ([420.0, 590.0], 900.0)
    """
    require_positive(planned_s, "development.inspection.time_not_positive")
    require_positive(look_s, "development.inspection.look_not_positive")
    require_positive(distance_m, "development.inspection.distance_not_positive")
    if safelight is Safelight.NONE:
        raise RefusedError("development.inspection.no_safelight")
    if distance_m < LEAST_DISTANCE_M:
        raise RefusedError("development.inspection.too_near", distance_m=distance_m, least_m=LEAST_DISTANCE_M)
    if not EARLIEST_SHARE <= first_share < 1.0:
        raise OutOfRangeError("development.inspection.share", value=first_share, low=EARLIEST_SHARE)
    if looks < 1:
        raise OutOfRangeError("development.inspection.looks", value=looks)
    first_s, last_s = planned_s * first_share, planned_s - look_s
    apart_s = (last_s - first_s) / (looks - 1) if looks > 1 else 0.0
    if last_s < first_s or (looks > 1 and apart_s < look_s):
        raise OutOfRangeError("development.inspection.no_room", looks=looks, time_s=planned_s, first_s=first_s)
    if tested_light_s is None:
        raise RefusedError("development.inspection.untested")
    require_not_negative(tested_light_s, "development.inspection.tested_negative")
    light_s = looks * look_s
    if light_s > tested_light_s:
        raise RefusedError("development.inspection.too_much_light", light_s=light_s, tested_s=tested_light_s)
    found = tuple(Look(first_s + apart_s * number, look_s) for number in range(looks))
    remarks = (
        Remark("development.inspection.end_stands", {"end_s": planned_s}),
        Remark("development.inspection.looks_dark", {"first_s": first_s}),
    )
    return InspectionPlan(planned_s, planned_s * (1.0 + MOST_EXTENSION), found, remarks)


def end_after_looks_s(plan: InspectionPlan, verdicts: Iterable[Verdict] = ()) -> float:
    """End of the bath after what was decided so far.

    Parameters
    ----------
    plan : InspectionPlan
        Of :func:`inspection_plan`.
    verdicts : iterable of Verdict
        In order of time; empty leaves the planned end.

    Returns
    -------
    end_after_looks_s : float
        From the vessel full. [s]

    Raises
    ------
    ConflictError
        If a verdict stands after the end, or before one that came first.
    OutOfRangeError
        If one comes before half the time, adds nothing, or extends beyond the latest end.

    Examples
    --------
    >>> plan = inspection_plan(600, safelight=Safelight.DEEP_RED, distance_m=1.5, tested_light_s=240)
    >>> end_after_looks_s(plan), end_after_looks_s(plan, [Verdict(420, LookAct.EXTEND, 60)])
    (600.0, 660.0)
    >>> end_after_looks_s(plan, [Verdict(420, LookAct.EXTEND, 60), Verdict(500.0, LookAct.END)])
    500.0
    """
    end_s, before_s = float(plan.planned_end_s), 0.0
    for verdict in verdicts:
        if not verdict.at_s >= plan.planned_end_s * EARLIEST_SHARE:
            earliest_s = plan.planned_end_s * EARLIEST_SHARE
            raise OutOfRangeError("development.inspection.too_early", value=verdict.at_s, earliest_s=earliest_s)
        if verdict.at_s > end_s or verdict.at_s < before_s:
            raise ConflictError("development.inspection.out_of_order", at_s=verdict.at_s, end_s=end_s)
        before_s = verdict.at_s
        if verdict.act is LookAct.END:
            end_s = verdict.at_s
            continue
        require_positive(verdict.added_s, "development.inspection.nothing_added")
        end_s += verdict.added_s
        if end_s > plan.latest_end_s:
            raise OutOfRangeError("development.inspection.too_long", value=end_s, latest_s=plan.latest_end_s)
    return end_s
