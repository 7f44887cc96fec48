"""Smallest worst deviation for a number of loads: a search over the finite set of deviations of points."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.planning.loads.cover import Batch, Cover
    from wetside.planning.loads.model import Draft, Model

    Coverer = Callable[[float, int], Cover]

MANY = 500
"""Kinds of sheet beyond which the interval of deviations is halved by value first, to have fewer points to sort."""
HALVINGS = 6


class Found(NamedTuple):
    """A plan of at most the wanted number of loads, and whether its worst deviation is proved the smallest."""

    drafts: list[Draft]
    worst: float
    proved: bool


def timed(model: Model, batches: list[Batch]) -> list[Draft]:
    """Give each batch its best time."""
    return [model.timed(vessel, members) for vessel, members in batches]


def worst_of(drafts: list[Draft]) -> float:
    """Return the largest deviation of a plan; 0 for none. [1]"""
    return max((draft.worst for draft in drafts), default=0.0)


def floor_of(model: Model) -> float:
    """Return the worst deviation when every sheet has a load of its own. [1]"""
    return max((model.least_deviation(sheet) for sheet in model.shared), default=0.0)


def smallest_worst(model: Model, loads: int, start: list[Draft], cover: Coverer, above: float = -1.0) -> Found:
    """Search the smallest worst deviation of a plan of at most so many loads.

    Parameters
    ----------
    model : Model
    loads : int
    start : list of Draft
        A plan of at most that many loads.
    cover : callable
        Of a deviation and a number of loads: bound and plan; how hard it tries is the caller's choice.
    above : float
        No smaller deviation needs to be tried: proved for more loads. [1]

    Returns
    -------
    smallest_worst : Found
        Proved if the largest deviation of any point below the plan's worst needs more loads, or if no plan can do
        better because of a single sheet.

    Notes
    -----
    The windows of a threshold ``d`` are the points that deviate by at most ``d``; they grow with ``d``, so the
    fewest loads ``N(d)`` falls, and the answer is the smallest deviation of any point with ``N(d) <= loads``.
    """
    floor = max(floor_of(model), above)
    best, high = start, worst_of(start)
    if high <= floor:
        return Found(best, high, True)
    model.reach(high)
    answer = cover(floor, loads)
    if answer.batches is not None and len(answer.batches) <= loads:
        drafts = timed(model, answer.batches)
        return Found(drafts, worst_of(drafts), True)
    low, excluded = floor, answer.lower > loads
    halvings = HALVINGS if len(model.tables) > MANY else 0
    candidates: list[float] | None = None
    while True:
        if halvings:
            halvings -= 1
            middle = max(table.below((low + high) / 2) for table in model.tables)
            if middle <= low:
                halvings = 0
                continue
        else:
            candidates = _between(model, low, high) if candidates is None else candidates
            candidates = [value for value in candidates if low < value < high]
            if not candidates:
                return Found(best, high, excluded)
            middle = candidates[len(candidates) // 2]
        answer = cover(middle, loads)
        if answer.batches is None or len(answer.batches) > loads:
            low, excluded = middle, answer.lower > loads
            continue
        best = timed(model, answer.batches)
        high = worst_of(best)
        if high <= low:  # an answer that was not proved impossible turns out possible
            low, excluded, candidates = floor, False, None


def _between(model: Model, low: float, high: float) -> list[float]:
    found: set[float] = set()
    for table in model.tables:
        found.update(table.between(low, high))
    return sorted(found)
