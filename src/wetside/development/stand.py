"""Stand and semi-stand development: dilute, still and long, in a full vessel; agitation is a few moments."""

from __future__ import annotations

from typing import NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.development.ways import Remark, Way
from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.values.conditions import Agitation

SHORT_S = 1200.0
LONG_S = 3600.0
"""Stand development is worked between 20 and 60 min (common practice, ``assumed``). [s]"""
FULL_SHARE = 0.98
"""Our choice: a vessel counts as full from 98 % of what it holds. [1]"""
LEAST_AGENT_RATIO = 0.5
"""Below half of the reference volume no result is foretold (our choice). [1]"""


class AgitationMoment(NamedTuple):
    """Agitation as a cue of the run: offset from the vessel full, and how long. [s]"""

    at_s: float
    lasting_s: float


class StandPlan(NamedTuple):
    """A still development; ``agent_ratio`` against the reference volume, None where that is unknown [1]."""

    way: Way
    time_s: float
    moments: tuple[AgitationMoment, ...]
    agent_ratio: float | None
    remarks: tuple[Remark, ...]

    @property
    def still_s(self) -> float:
        """Longest time without any movement. [s]"""
        ends = [moment.at_s + moment.lasting_s for moment in self.moments]
        starts = [*(moment.at_s for moment in self.moments[1:]), self.time_s]
        return max(start - end for start, end in zip(starts, ends, strict=True))


def agitation_moments(
    time_s: float, *, first_s: float = 60.0, moments: int = 0, each_s: float = 10.0
) -> tuple[AgitationMoment, ...]:
    """Moments of agitation, evenly spread over the time.

    Parameters
    ----------
    time_s : float
        Developing time; positive. [s]
    first_s : float
        Agitation from the vessel full on; positive, for air and unevenness. [s]
    moments : int
        Later moments; 0 for stand, 1 or more for semi-stand. [1]
    each_s : float
        Length of each later moment; positive. [s]

    Returns
    -------
    moments : tuple of AgitationMoment
        The first at 0. One later moment stands at half the time, two at thirds.

    Raises
    ------
    OutOfRangeError
        If a value is not possible, or the moments leave no stillness.

    Examples
    --------
    >>> agitation_moments(3600, moments=1)
    (AgitationMoment(at_s=0.0, lasting_s=60.0), AgitationMoment(at_s=1800.0, lasting_s=10.0))
    """
    require_positive(time_s, "development.stand.time_not_positive")
    require_positive(first_s, "development.stand.moment_not_positive")
    require_positive(each_s, "development.stand.moment_not_positive")
    if moments < 0:
        raise OutOfRangeError("development.stand.moments_negative", value=moments)
    apart_s = time_s / (moments + 1)
    if apart_s <= (max(first_s, each_s) if moments else first_s):
        raise OutOfRangeError("development.stand.no_stillness", time_s=time_s, moments=moments)
    later = tuple(AgitationMoment(apart_s * number, each_s) for number in range(1, moments + 1))
    return (AgitationMoment(0.0, first_s), *later)


def stand_plan(
    time_s: float,
    *,
    agitation: Agitation,
    volume_ml: float,
    full_ml: float,
    area_cm2: float,
    agent_ml: float,
    reference_ml_per_cm2: float | None = None,
    first_s: float = 60.0,
    moments: int = 0,
    each_s: float = 10.0,
) -> StandPlan:
    """Plan a still development in a full vessel, with its own tested time.

    Parameters
    ----------
    time_s : float
        Tested for stand or semi-stand development; never converted from another. [s]
    agitation : Agitation
        Class that the time was found under; only ``stand`` is taken.
    volume_ml, full_ml : float
        Liquid, and what the vessel holds with the film in it. [ml]
    area_cm2 : float
        Film of the load. [cm2]
    agent_ml : float
        Stock or concentrate in the vessel. [ml]
    reference_ml_per_cm2 : float, optional
        Agent to an area under which the time was found. [ml/cm2]
    first_s, moments, each_s
        As for :func:`agitation_moments`. [s], [1], [s]

    Raises
    ------
    RefusedError
        If the time belongs to another agitation, or the agent is less than half of the reference.
    InputError
        If the vessel is not full.
    OutOfRangeError
        If a value is not possible.

    References
    ----------
    .. [1] rollei-retro-2021, p. 4: about a minute of water before stand development.

    Examples
    --------
    >>> plan = stand_plan(3600, agitation=Agitation.STAND, volume_ml=1000, full_ml=1000, area_cm2=516.128, agent_ml=10,
    ...                   reference_ml_per_cm2=10 / 516.128, moments=1)
    >>> plan.way.value, plan.still_s, plan.agent_ratio
    ('semi-stand', 1790.0, 1.0)
    """
    if agitation is not Agitation.STAND:
        raise RefusedError("development.stand.other_agitation", agitation=agitation.value)
    for value, code in ((volume_ml, "volume"), (full_ml, "volume"), (area_cm2, "area"), (agent_ml, "agent")):
        require_positive(value, _NOT_POSITIVE[code])
    require_not_negative(time_s, "development.stand.time_not_positive")
    found = agitation_moments(time_s, first_s=first_s, moments=moments, each_s=each_s)
    if volume_ml < full_ml * FULL_SHARE:
        raise InputError("development.stand.not_full", volume_ml=volume_ml, full_ml=full_ml)
    ratio: float | None = None
    remarks: list[Remark] = []
    if reference_ml_per_cm2 is None:
        remarks.append(Remark("development.stand.agent_unknown", {"agent_ml": agent_ml, "area_cm2": area_cm2}))
    else:
        require_positive(reference_ml_per_cm2, "development.stand.agent_not_positive")
        ratio = agent_ml / (reference_ml_per_cm2 * area_cm2)
        if ratio < LEAST_AGENT_RATIO:
            raise RefusedError("development.stand.too_little", ratio=ratio, least=LEAST_AGENT_RATIO)
        if ratio < 1.0:
            remarks.append(Remark("development.stand.agent_short", {"ratio": ratio}))
    if time_s < SHORT_S:
        remarks.append(Remark("development.stand.short", {"time_s": time_s, "low_s": SHORT_S}))
    if time_s > LONG_S:
        remarks.append(Remark("development.stand.long", {"time_s": time_s, "high_s": LONG_S}))
    remarks.append(Remark("development.stand.presoak", {"source": "rollei-retro-2021"}))
    return StandPlan(Way.SEMI_STAND if moments else Way.STAND, time_s, found, ratio, tuple(remarks))


_NOT_POSITIVE = {
    "volume": "development.stand.volume_not_positive",
    "area": "development.stand.area_not_positive",
    "agent": "development.stand.agent_not_positive",
}
