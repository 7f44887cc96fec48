"""What runs teach of their vessel: how fast it fills and drains, and how it follows its jacket.

One run shows little, and one bad evening must move nothing: what several runs agree on is the median, offered with its
spread, and nothing is offered where they disagree or are too few. Nobody adopts it but a person.
"""

from __future__ import annotations

import statistics
from itertools import combinations
from math import log
from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.events import Where
from wetside.runs.schedule import How
from wetside.runs.script import bath_number, developing_baths
from wetside.runs.state import Status

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.state import State

ENOUGH_RUNS = 3
"""Fewer runs than this prove nothing (corrections 3.13). [1]"""
AGREEING_SHARE = 2.0 / 3.0
"""Our choice: so many of the runs must lie near their median. [1]"""
NEAR_SHARE = 0.25
"""Our choice: a run this near to the median agrees with it, as a share of it. [1]"""
NEAR_LEAST: Mapping[str, float] = {
    "pour_s": 3.0,
    "drain_s": 3.0,
    "dries_s": 120.0,
    "follows_s": 60.0,
    "jacket_off_c": 0.3,
}
"""Our choice: the same for small values: an answer by hand comes a second late, a thermometer shows tenths. [s, C]"""
SHORTEST_HANDLING_S, LONGEST_HANDLING_S = 2.0, 300.0
"""What is quicker or slower between two answers was no pouring and draining. Our choice. [s]"""
LEAST_GAP_C = 1.0
"""Our choice: a liquid nearer to its jacket than this shows no pace, for a thermometer shows tenths. [C]"""
LAST_GAP_C = 0.2
"""Our choice: nearer than this the last reading is all error of the thermometer. [C]"""
LEAST_APART_S = 60.0
"""Our choice: two readings nearer in time say nothing of the pace. [s]"""
SHORTEST_TAU_S, LONGEST_TAU_S = 30.0, 3600.0
"""No drum follows faster, and one that follows more slowly does not follow. Our choice. [s]"""


class Shown(NamedTuple):
    """What one run shows of its vessel; None where it shows nothing.

    ``pour_s`` from the pour to full and ``drain_s`` from the drain to the next pour [s]; ``follows_s`` the relaxation
    time towards the jacket [s]; ``jacket_off_c`` the jacket above the planned temperature, negative below it [C].
    """

    pour_s: float | None = None
    drain_s: float | None = None
    follows_s: float | None = None
    jacket_off_c: float | None = None


class Lesson(NamedTuple):
    """What runs say of one value together.

    ``values`` each run's own, the newest first; ``value`` their median, None where they are too ``few`` or do not
    agree; ``low`` and ``high`` bound the runs that agree with it. In the unit of the value.
    """

    values: tuple[float, ...]
    value: float | None
    low: float
    high: float
    few: bool


def shown_by_run(state: State, schedule: Schedule) -> Shown:
    """What a run shows of its vessel.

    Parameters
    ----------
    state : State
    schedule : Schedule
        At the end of the run.

    Notes
    -----
    Hands tell *full*, once a bath. From one bath's drain, told or begun at its word, to the next bath full lies
    draining and pouring together; where neither was told apart they share it as they do in the script. A rehearsal, a
    run that did not end, one whose clock is in doubt, and a vessel in which each sheet has its own time show nothing.
    """
    script = state.script
    if script is None or state.rehearsal or state.status is not Status.ENDED or state.doubtful:
        return Shown()
    pour_s, drain_s = _handling(schedule, script.pour_s, script.drain_s)
    jacket_c = _jacket_c(state)
    return Shown(
        pour_s=pour_s,
        drain_s=drain_s,
        follows_s=None if jacket_c is None else _tau_s(state, schedule, jacket_c),
        jacket_off_c=None if jacket_c is None else jacket_c - script.temp_c,
    )


def _handling(schedule: Schedule, stated_pour_s: float, stated_drain_s: float) -> tuple[float | None, float | None]:
    if any(due.act.does == "enter" for due in schedule.dues):
        return None, None
    dues = {due.act.key: due for due in schedule.dues}
    pours: list[float] = []
    drains: list[float] = []
    both: list[float] = []
    for due in schedule.dues:
        if due.act.does != "full":
            continue
        number = bath_number(due.act.key)
        pour, drain = dues.get(f"{number}.pour"), dues.get(f"{number - 1}.drain")
        pours += _between(pour, due)
        drains += _between(drain, pour)
        both += _between(drain, due) or _from_its_word(drain, due)
    pour_s = statistics.median(pours) if pours else None
    drain_s = statistics.median(drains) if drains else None
    if not both:
        return pour_s, drain_s
    whole_s = statistics.median(both)
    stated_s = stated_pour_s + stated_drain_s
    if pour_s is None and drain_s is None:
        return (
            (None, None) if stated_s <= 0 else (whole_s * stated_pour_s / stated_s, whole_s * stated_drain_s / stated_s)
        )
    if drain_s is None and pour_s is not None and whole_s > pour_s:
        return pour_s, whole_s - pour_s
    if pour_s is None and drain_s is not None and whole_s > drain_s:
        return whole_s - drain_s, drain_s
    return pour_s, drain_s


def _between(first: Due | None, second: Due | None) -> list[float]:
    """Seconds between two acts that were both told; empty where one was not, or where that was no handling."""
    if first is None or second is None or first.how is not How.TOLD or second.how is not How.TOLD:
        return []
    return _sensible((second.at_s or 0.0) - (first.at_s or 0.0))


def _from_its_word(drain: Due | None, full: Due) -> list[float]:
    """Seconds from when a drain was due, which nobody told, to the next bath full; empty where a pause held it back."""
    if drain is None or drain.how is How.TOLD or drain.due_s is None or drain.ready_s is not None:
        return []
    return _sensible((full.at_s or 0.0) - drain.due_s) if full.how is How.TOLD else []


def _sensible(seconds: float) -> list[float]:
    return [seconds] if SHORTEST_HANDLING_S <= seconds <= LONGEST_HANDLING_S else []


def _jacket_c(state: State) -> float | None:
    """Middle of what was read in the jacket. [C]"""
    read = [one.temp_c for one in state.readings if one.where is Where.JACKET]
    return statistics.median(read) if read else None


def _tau_s(state: State, schedule: Schedule, jacket_c: float) -> float | None:
    """Relaxation time of the liquid towards its jacket, from readings in one developing bath. [s]"""
    if state.script is None:
        return None
    dues = {due.act.key: due for due in schedule.dues}
    found = []
    for number in developing_baths(state.script):
        full, drain = dues.get(f"{number}.full"), dues.get(f"{number}.drain")
        if full is None or drain is None or full.at_s is None or drain.at_s is None:
            continue
        points = []
        for one in state.readings:
            if one.where is Where.DEVELOPER and full.at_s <= one.at_s <= drain.at_s:
                points.append((one.at_s, one.temp_c - jacket_c))
            elif (
                one.where is Where.POURED_OUT
                and one.at_s >= drain.at_s
                and number == developing_baths(state.script)[-1]
            ):
                points.append((drain.at_s, one.temp_c - jacket_c))
        tau_s = tau_of_gaps(points)
        if tau_s is not None:
            found.append(tau_s)
    return statistics.median(found) if found else None


def tau_of_gaps(gaps: Iterable[tuple[float, float]]) -> float | None:
    """Relaxation time of a liquid whose gap to its jacket was read several times. [s]

    Parameters
    ----------
    gaps : iterable of (float, float)
        When [s], and the liquid's temperature less the jacket's. [C]

    Returns
    -------
    tau_s : float or None
        None where the readings cannot tell: fewer than two, a gap under 1 C at first, one that changes its sign, or
        that does not shrink.

    Notes
    -----
    ``gap(t) = gap(0) * exp(-t / tau)``, so that the logarithm of the gap falls by ``1 / tau`` a second: the median of
    the slopes between all pairs of readings a minute apart, which one wrong reading in four does not move far.

    Examples
    --------
    >>> round(tau_of_gaps([(0.0, 2.0), (240.0, 1.2131), (480.0, 0.7358)]))
    480
    """
    points = sorted(gaps)
    if len(points) < 2 or abs(points[0][1]) < LEAST_GAP_C:
        return None
    sign = 1.0 if points[0][1] > 0 else -1.0
    usable = [(at_s, log(sign * gap)) for at_s, gap in points if sign * gap >= LAST_GAP_C]
    if len(usable) < len(points):  # it came to its jacket, or went through it: no pace can be read from there on
        usable = usable[: next(place for place, (_, gap) in enumerate(points) if sign * gap < LAST_GAP_C)]
    slopes = [
        (second[1] - first[1]) / (second[0] - first[0])
        for first, second in combinations(usable, 2)
        if second[0] - first[0] >= LEAST_APART_S
    ]
    if not slopes:
        return None
    slope = statistics.median(slopes)
    if slope >= 0.0:
        return None
    tau_s = -1.0 / slope
    return tau_s if SHORTEST_TAU_S <= tau_s <= LONGEST_TAU_S else None


def lesson_of(name: str, values: Sequence[float]) -> Lesson:
    """What runs say together.

    Parameters
    ----------
    name : str
        Of the value, a field of :class:`Shown`, or ``dries_s``.
    values : sequence of float
        Each run's own, the newest first. [s, C]

    Returns
    -------
    lesson : Lesson
        ``value`` is None where there are fewer than three, or where fewer than two in three lie near the median.

    Examples
    --------
    >>> lesson_of("drain_s", [14.0, 15.0, 15.0])
    Lesson(values=(14.0, 15.0, 15.0), value=15.0, low=14.0, high=15.0, few=False)
    >>> lesson_of("drain_s", [8.0, 15.0, 31.0]).value is None
    True
    """
    known = tuple(values)
    if len(known) < ENOUGH_RUNS:
        return Lesson(known, None, min(known, default=0.0), max(known, default=0.0), few=True)
    middle = statistics.median(known)
    near = max(NEAR_LEAST[name], NEAR_SHARE * abs(middle))
    agreeing = [value for value in known if abs(value - middle) <= near]
    if len(agreeing) < AGREEING_SHARE * len(known) - 1e-9:
        return Lesson(known, None, min(known), max(known), few=False)
    return Lesson(known, middle, min(agreeing), max(agreeing), few=False)
