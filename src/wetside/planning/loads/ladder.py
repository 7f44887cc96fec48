"""What each number of loads costs: the smallest worst deviation, rung by rung."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wetside.planning.loads.cover import cover_quickly
from wetside.planning.loads.improve import improve, spread
from wetside.planning.loads.model import Draft, Model
from wetside.planning.loads.plan import Ladder, LadderRung
from wetside.planning.loads.solve import WORK_BESIDE, WORK_MAIN, alone, closed_cover, shown, smallest_for
from wetside.planning.loads.threshold import Found, floor_of, timed, worst_of

if TYPE_CHECKING:
    from wetside.planning.loads.cover import Cover
    from wetside.planning.loads.problem import LoadProblem


def solve_ladder(problem: LoadProblem, rungs: int | None = None) -> Ladder:
    """Find for each number of loads the smallest worst deviation.

    Parameters
    ----------
    problem : LoadProblem
        One group of sheets that may share a developer.
    rungs : int, optional
        Keep to so many rungs below and above the fewest loads; without it from the least number that capacity and
        rules allow up to the one where every sheet stands at its own time (on the grid).

    Returns
    -------
    solve_ladder : Ladder
        The rung of the fewest loads is the plan of :func:`~wetside.planning.loads.solve.solve_fewest`.

    Raises
    ------
    WetsideError
        As :func:`~wetside.planning.loads.problem.check_problem`.

    Notes
    -----
    Below the fewest, deviations pass 1, and the sheets that break are named. What a rule (twins, suspects) costs is
    the difference to the ladder of the same problem without it.

    Examples
    --------
    >>> from wetside.planning.loads.problem import LoadProblem, SheetNeed, VesselLimit, option_by_time
    >>> sheets = tuple(
    ...     SheetNeed(f"{film}{n}", (option_by_time(0, time_s),))
    ...     for film, time_s in (("A", 450), ("B", 540))
    ...     for n in range(4)
    ... )
    >>> ladder = solve_ladder(LoadProblem(sheets, (VesselLimit("drum", 8),)))
    >>> [(rung.number, round(rung.worst, 3), [load.time_s for load in rung.loads]) for rung in ladder.rungs]
    [(1, 1.0, [495]), (2, 0.0, [450, 540])]
    """
    model = Model(problem)
    floor = floor_of(model)
    answer = closed_cover(model, 1.0)
    fewest = answer.batches or []
    least = _least(model, answer)
    first = least if rungs is None else max(least, len(fewest) - rungs)
    last = model.count if rungs is None else len(fewest) + rungs
    found: list[LadderRung] = []
    plan = timed(model, fewest)
    model.work_left = WORK_MAIN
    best = smallest_for(model, len(plan), plan)
    model.work_left = WORK_BESIDE
    found.append(_rung(model, best, len(plan), polished=True))
    upwards = best
    count = len(plan)
    while count < min(last, model.count) and upwards.worst > floor:
        count += 1
        upwards = smallest_for(model, count, spread(model, upwards.drafts, count))
        found.append(_rung(model, upwards, count))
    threshold = 1.0
    found_low = best.worst if best.proved else -1.0
    for count in range(len(plan) - 1, first - 1, -1):
        threshold, start = _start(model, threshold, count)
        if start is None:
            break
        lower = smallest_for(model, count, start, found_low)
        found_low = lower.worst if lower.proved else found_low
        found.append(_rung(model, lower, count))
    singles = len(model.alone)
    return Ladder(
        tuple(sorted(found, key=lambda rung: rung.number)),
        len(fewest) + singles,
        answer.lower + singles,
        least + singles,
    )


def _least(model: Model, answer: Cover) -> int:
    """Return the least number of loads when windows are ignored, as far as it can be proved."""
    if not model.count:
        return 0
    if model.plain is not None and model.apart is None:
        return math.ceil(model.count / model.plain.capacity)
    if model.hands is not None:
        return answer.lower
    everything = closed_cover(model, math.inf)
    return min(everything.lower, answer.lower)


def _start(model: Model, threshold: float, count: int) -> tuple[float, list[Draft] | None]:
    """Find a plan of so many loads, whatever the deviations, by doubling the deviation that is allowed."""
    while True:
        answer = cover_quickly(model, threshold, count)
        if answer.batches is not None and len(answer.batches) <= count:
            return threshold, timed(model, answer.batches)
        if math.isinf(threshold):
            break
        threshold = threshold * 2 if threshold < FAR else math.inf
    hard = closed_cover(model, math.inf)
    if hard.batches is not None and len(hard.batches) <= count:
        return 1.0, timed(model, hard.batches)
    return threshold, None


FEW_SHEETS = 60
"""Sheets up to which the next worst deviations are made smaller on every rung, not on the fewest loads' alone."""

FAR = 64.0
"""Deviation beyond which any time will do for a start."""


def _rung(model: Model, found: Found, count: int, *, polished: bool = False) -> LadderRung:
    drafts = (improve if polished or model.count <= FEW_SHEETS else spread)(model, found.drafts, count)
    single = alone(model)
    loads = shown(model, drafts + single)
    worst = max(worst_of(drafts), worst_of(single))
    worsts = sorted((load.worst for load in loads), reverse=True)
    broken = sorted(
        model.sheets[sheet].id
        for draft in drafts + single
        if not model.own_times(draft.vessel)
        for sheet in draft.members
        if model.options[sheet][draft.vessel].table.at(int(draft.time_s)) > 1.0
    )
    return LadderRung(
        count + len(single),
        worst,
        found.proved or worst_of(single) >= found.worst,
        worsts[1] if len(worsts) > 1 else None,
        tuple(broken),
        loads,
    )
