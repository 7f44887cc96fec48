"""The fewest loads inside all windows, and the smallest worst deviation for that number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.loads.cover import Cover, cover_quickly, with_known
from wetside.planning.loads.improve import improve
from wetside.planning.loads.model import Draft, Model
from wetside.planning.loads.plan import PlannedLoad, Solution
from wetside.planning.loads.small import cover_small
from wetside.planning.loads.threshold import Found, smallest_worst, timed, worst_of

if TYPE_CHECKING:
    from wetside.planning.loads.problem import LoadProblem


WORK_MAIN, WORK_BESIDE = 600_000, 150_000
"""Work of the solvers with many sheets: for the rung of the fewest loads, and for all others together."""
WORK_OF_COLUMNS = 300_000
"""Counted for one decision by columns."""


def solve_fewest(problem: LoadProblem) -> Solution:
    """Plan as few loads as the windows allow, then make the worst deviation smallest, then the next worst.

    Parameters
    ----------
    problem : LoadProblem
        One group of sheets that may share a developer.

    Returns
    -------
    solve_fewest : Solution
        The same for the same sheets in any order.

    Raises
    ------
    WetsideError
        As :func:`~wetside.planning.loads.problem.check_problem`.

    Notes
    -----
    Equal sheets: proved by the exchange argument of :func:`~wetside.planning.loads.stabbing.stab`. Else the bound is
    that of the linear relaxation over all loads that could be (:mod:`wetside.planning.loads.columns`). The worst
    deviation is proved by showing that the next smaller one of all points asks for more loads.

    Examples
    --------
    >>> from wetside.planning.loads.problem import LoadProblem, SheetNeed, VesselLimit, option_by_time
    >>> sheets = tuple(
    ...     SheetNeed(f"{film}{n}", (option_by_time(0, time_s),))
    ...     for film, time_s in (("A", 450), ("B", 540))
    ...     for n in range(4)
    ... )
    >>> solution = solve_fewest(LoadProblem(sheets, (VesselLimit("drum", 8),)))
    >>> [(load.time_s, len(load.members)) for load in solution.loads], solution.lower_bound, solution.proved
    ([(495, 8)], 1, True)
    """
    model = Model(problem)
    answer = closed_cover(model, 1.0)
    drafts = timed(model, answer.batches or [])
    model.work_left = WORK_MAIN
    found = smallest_for(model, len(drafts), drafts)
    final = improve(model, found.drafts, len(drafts))
    loads = shown(model, final + alone(model))
    shared, single = worst_of(final), worst_of(alone(model))
    worsts = sorted((load.worst for load in loads), reverse=True)
    return Solution(
        loads,
        answer.lower + len(model.alone),
        answer.closed,
        max(shared, single),
        found.proved or single >= shared,
        worsts[1] if len(worsts) > 1 else None,
    )


def count_fewest(problem: LoadProblem) -> tuple[int, int]:
    """Count the fewest loads inside all windows, without asking for the best times: what a rule or a limit costs.

    Parameters
    ----------
    problem : LoadProblem

    Returns
    -------
    number, lower_bound : int
        Those of :func:`solve_fewest`, at a fraction of its work.

    Raises
    ------
    WetsideError
        As :func:`~wetside.planning.loads.problem.check_problem`.

    Examples
    --------
    >>> from wetside.planning.loads.problem import LoadProblem, SheetNeed, VesselLimit, option_by_time
    >>> sheets = tuple(SheetNeed(name, (option_by_time(0, 450.0),), twin="A") for name in "AB")
    >>> problem = LoadProblem(sheets, (VesselLimit("drum", 8),))
    >>> count_fewest(problem), count_fewest(problem._replace(twins_apart=False))
    ((2, 2), (1, 1))
    """
    model = Model(problem)
    answer = closed_cover(model, 1.0)
    return len(answer.batches or ()) + len(model.alone), answer.lower + len(model.alone)


def closed_cover(model: Model, most_deviation: float) -> Cover:
    """Return bound and plan for a deviation, by the quick way, and by the exact ways where that leaves a gap.

    Parameters
    ----------
    model : Model
        The sheets of a group.
    most_deviation : float
        Largest deviation that a sheet may have; 1 is the edge of its window. [1]
    """
    answer = cover_quickly(model, most_deviation)
    if answer.closed:
        return answer
    answer = cover_small(model, most_deviation, answer) or with_known(model, most_deviation, answer)
    if not answer.closed:
        from wetside.planning.loads.patterns import cover_by_patterns

        answer = cover_by_patterns(model, most_deviation, answer) or answer
    if not answer.closed:
        from wetside.planning.loads.columns import cover_by_columns

        answer = cover_by_columns(model, most_deviation, answer)
    model.known[most_deviation] = answer
    return answer


def smallest_for(model: Model, loads: int, start: list[Draft], above: float = -1.0) -> Found:
    """Return the smallest worst deviation for a number of loads, by the quick way, then the exact way if needed.

    Parameters
    ----------
    model : Model
    loads : int
    start : list of Draft
        A plan of at most that many loads.
    above : float
        A deviation that is proved to be the least for more loads. [1]

    Returns
    -------
    smallest_for : Found
    """

    def quickly(most_deviation: float, most_loads: int) -> Cover:
        return cover_quickly(model, most_deviation, most_loads)

    found = smallest_worst(model, loads, start, quickly, above)
    if found.proved:
        return found
    looked = _by_looking(model, loads, found, above)
    if looked is not None:
        return looked
    from wetside.planning.loads.columns import cover_for
    from wetside.planning.loads.patterns import cover_by_patterns
    from wetside.planning.loads.pool import pool_of

    few = pool_of(model).few

    def exactly(most_deviation: float, most_loads: int) -> Cover:
        answer = with_known(model, most_deviation, quickly(most_deviation, most_loads))
        if answer.decides(most_loads) or not (few or model.work_left > 0):
            return answer
        better = cover_by_patterns(model, most_deviation, answer, most_loads)
        if better is None or (few and not better.decides(most_loads)):
            better = cover_for(model, most_deviation, most_loads, better or answer)
            model.work_left -= WORK_OF_COLUMNS
        model.known[most_deviation] = better
        return better

    return smallest_worst(model, loads, found.drafts, exactly, above) if few or model.work_left > 0 else found


def _by_looking(model: Model, loads: int, found: Found, above: float) -> Found | None:
    """Return the exact answer for few sheets; None where they are too many to look at."""
    gave_up = False

    def look(most_deviation: float, most_loads: int) -> Cover:
        nonlocal gave_up
        answer = cover_quickly(model, most_deviation, most_loads)
        if gave_up or answer.decides(most_loads):
            return answer
        small = cover_small(model, most_deviation, answer, most_loads)
        gave_up = small is None
        return answer if small is None else small

    exact = smallest_worst(model, loads, found.drafts, look, above)
    return None if gave_up else exact


def alone(model: Model) -> list[Draft]:
    """Return a load for each suspect, at its own time rounded to the best point."""
    drafts = []
    for sheet in model.alone:
        choices = [model.timed(vessel, (sheet,)) for vessel in model.options[sheet]]
        drafts.append(min(choices, key=lambda draft: (draft.worst, draft.vessel)))
    return drafts


def shown(model: Model, drafts: list[Draft]) -> tuple[PlannedLoad, ...]:
    """Return loads in order of time, vessel and first sheet, in the vessels that are liked, with ids."""
    loads = []
    for draft in map(model.settled, drafts):
        members = draft.members
        if model.own_times(draft.vessel):
            members = tuple(
                sorted(members, key=lambda sheet: (-model.options[sheet][draft.vessel].table.target_s, sheet))
            )
        ids = tuple(model.sheets[sheet].id for sheet in members)
        loads.append(PlannedLoad(draft.vessel, draft.time_s, ids, draft.worst))
    return tuple(sorted(loads, key=lambda load: (load.time_s, load.vessel, load.members)))
