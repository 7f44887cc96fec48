"""Fewest loads for sheets of several sizes, weights and vessels: column generation, bound and plan.

A column is one load that could be: a vessel and how many sheets of each kind are in it. The master programme chooses
the fewest columns that serve every sheet; its linear relaxation, rounded up, is the bound. Columns are made only as
they are needed: the prices of the sheets in the relaxation say what a load would be worth, and the best filling of each
vessel at each time (:mod:`wetside.planning.loads.packing`, exact) either is worth more than 1, and enters, or proves
that the relaxation is solved. Stopped early, the relaxation divided by the largest worth is still a bound, because
prices divided by it are worth at most 1 in every load.

The programmes are solved by HiGHS through scipy, which is loaded only here, when a problem needs it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wetside.planning.loads.cover import Cover
from wetside.planning.loads.integers import DIVES, decide, whole_plan
from wetside.planning.loads.master import Master
from wetside.planning.loads.pool import TINY, pool_of

if TYPE_CHECKING:
    from wetside.planning.loads.model import Model


def cover_by_columns(model: Model, most_deviation: float, quick: Cover) -> Cover:
    """Close, or narrow, the gap that the quick way left.

    Parameters
    ----------
    model : Model
    most_deviation : float
        [1]
    quick : Cover
        Bound and plan of the quick way.

    Returns
    -------
    cover_by_columns : Cover
    """
    pool = pool_of(model)
    best = quick.batches or []
    pool.add_batches(best)
    master = Master(pool, most_deviation)
    relaxed, columns, bound = master.solve(pool.demand)
    lower = max(quick.lower, math.ceil(bound - TINY))
    if len(best) > lower:
        best = whole_plan(master, relaxed, columns, lower, best)
    if len(best) > lower and pool.few:
        relaxed, _, _ = master.solve(pool.demand, to_end=True)
        while len(best) > lower:
            decided, best = decide(master, relaxed, lower, best)
            if decided <= lower:
                break
            lower = decided
    return Cover(lower, best)


def cover_for(model: Model, most_deviation: float, most_loads: int, quick: Cover) -> Cover:
    """Tell whether so many loads are enough within a deviation, where the other ways did not.

    Parameters
    ----------
    model : Model
    most_deviation : float
        [1]
    most_loads : int
    quick : Cover
        Bound and plan of the other ways.

    Returns
    -------
    cover_for : Cover
        Its bound may stop at the first number above ``most_loads``, its plan at the first of at most as many.
    """
    pool = pool_of(model)
    pool.add_batches(quick.batches or [])
    master = Master(pool, most_deviation)
    relaxed, columns, bound = master.solve(pool.demand, most_loads)
    lower = max(quick.lower, math.ceil(bound - TINY))
    best = quick.batches or []
    if lower <= most_loads:
        best = whole_plan(master, relaxed, columns, most_loads, best, DIVES if pool.few else 1)
        if len(best) > most_loads and pool.few:
            relaxed, _, _ = master.solve(pool.demand, to_end=True)
            decided, best = decide(master, relaxed, most_loads, best)
            lower = max(lower, decided)
    return Cover(lower, best)
