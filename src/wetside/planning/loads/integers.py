"""From the relaxation to whole loads: the integer master over the columns found, then dives that make new ones."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from wetside.planning.loads.packing import Packer
from wetside.planning.loads.pool import Column, matrix_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.loads.cover import Batch
    from wetside.planning.loads.master import Master
    from wetside.planning.loads.pool import Relaxed

NODES = 3000
"""Branches that the integer master may look at."""
MOST_COLUMNS = 4000
"""Columns that are listed for an exact decision."""
DIVE_ROUNDS = 5
"""Rounds of new columns after each fixing."""
ROUNDING = (0.3, 0.05, 0.4, 0.2)
"""By attempt: amounts nearer than this to the next whole number are taken as whole."""
KEPT = 0.3
"""A column worth less than 1 by more than this is forgotten in a dive."""
AT_ONCE = 16
"""One column is fixed at a time for so many loads that are left."""
DIVES = 4
"""Dives, each of which starts from another column, before the best plan is taken as it stands."""


def whole_plan(
    master: Master, relaxed: Relaxed, columns: Sequence[Column], wanted: int, best: list[Batch], dives: int = DIVES
) -> list[Batch]:
    """Search a plan of at most ``wanted`` loads.

    Parameters
    ----------
    master : Master
    relaxed : Relaxed
        The solved relaxation.
    columns : sequence of Column
        Those of the relaxation.
    wanted : int
        Loads at which the search ends.
    best : list of (int, list of int)
        The best plan so far.
    dives : int
        At most so many.

    Returns
    -------
    whole_plan : list of (int, list of int)
        ``best`` if nothing better was found.
    """
    for attempt in range(dives):
        found = dive(master, relaxed, columns, attempt)
        if found is not None and len(found) < len(best):
            best = found
        if len(best) <= wanted:
            return best
    return best


def decide(master: Master, relaxed: Relaxed, wanted: int, best: list[Batch]) -> tuple[int, list[Batch]]:
    """Decide whether ``wanted`` loads are enough, where few enough columns could take part.

    Parameters
    ----------
    master : Master
    relaxed : Relaxed
        Solved to the end, so that its prices are worth at most 1 in every load.
    wanted : int
        At least the bound.
    best : list of (int, list of int)
        The best plan so far, of more than ``wanted`` loads.

    Returns
    -------
    decide : int, list of (int, list of int)
        A bound (``wanted`` plus 1 where proved) and the best plan.

    Notes
    -----
    The loads of a plan cost 1 each; at the relaxation's prices all sheets together are worth the relaxation's value. A
    plan of ``wanted`` loads can therefore hold no load that is worth less than 1 by more than ``wanted`` less that
    value. All other loads to which nothing can be added are listed, and the integer master over them is exact.
    """
    pool = master.pool
    worth = sum(price * count for price, count in zip(relaxed.prices, pool.demand, strict=True))
    columns: list[Column] = []
    for choice in master.choices:
        packer = Packer(pool.model, pool.kinds, choice, pool.demand)
        if not packer.exact or packer.best(relaxed.prices, 1 + 1e-6)[0] > 1 + 1e-6:
            return 0, best
        listed = packer.all_above(relaxed.prices, 1 - (wanted - worth) - 1e-6, MOST_COLUMNS - len(columns))
        if listed is None:
            return 0, best
        columns.extend(Column(choice.vessel, kinds) for kinds in sorted(listed))
    columns = list(dict.fromkeys(columns))
    if {index for column in columns for index in column.kinds} != set(range(len(pool.kinds))):
        return wanted + 1, best
    chosen, bound = choose(columns, pool.demand)
    if chosen is not None and len(chosen) < len(best):
        best = pool.batches(chosen)
        for column in chosen:
            pool.add(column)
    return min(bound, wanted + 1), best


def choose(columns: Sequence[Column], demand: Sequence[int]) -> tuple[list[Column] | None, int]:
    """Choose the fewest of some columns that serve every kind.

    Parameters
    ----------
    columns : sequence of Column
    demand : sequence of int
        Sheets of each kind.

    Returns
    -------
    choose : list of Column or None, int
        A column as often as it is used, None where the solver gave up without a plan; and the bound for these columns.
        The limit is one of branches, not of time, so that plans repeat.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp  # type: ignore[import-untyped]

    result: Any = milp(
        [1.0] * len(columns),
        integrality=[1] * len(columns),
        bounds=Bounds(0, max(demand)),
        constraints=LinearConstraint(matrix_of(columns, len(demand)), lb=list(demand)),
        options={"node_limit": NODES},
    )
    bound = 0 if result.mip_dual_bound is None else math.ceil(result.mip_dual_bound - 1e-6)
    if result.x is None:
        return None, bound
    return [column for column, amount in zip(columns, result.x, strict=True) for _ in range(round(amount))], bound


def dive(master: Master, relaxed: Relaxed, columns: Sequence[Column], attempt: int) -> list[Batch] | None:
    """Fix the column nearest to a whole load, make new columns for what is left, and so on to the end.

    Parameters
    ----------
    master : Master
    relaxed : Relaxed
    columns : sequence of Column
    attempt : int
        Varies what counts as a whole load, and which column is fixed first: 0 is the one with the largest amount.

    Returns
    -------
    dive : list of (int, list of int) or None
        A plan; None where the columns left cannot be used (twins in a knot that was relaxed).
    """
    pool = master.pool
    left = list(pool.demand)
    fixed: list[Column] = []
    rounding = ROUNDING[attempt % len(ROUNDING)]
    while any(left):
        ranked = sorted(
            (-amount, place)
            for place, amount in enumerate(relaxed.amounts)
            if amount > 1e-6 and master.keeps_apart(columns[place].kinds)
        )
        if not ranked:
            return None
        whole = [columns[place] for amount, place in ranked for _ in range(int(-amount + rounding))]
        begin = min(attempt, len(ranked) - 1) if not fixed else 0
        taken = whole or [columns[place] for _, place in ranked[begin : begin + max(1, round(relaxed.value / AT_ONCE))]]
        for column in taken:
            # Of several, only those are taken that are still wanted whole.
            if column is taken[0] or all(left[index] >= column.kinds.count(index) for index in column.kinds):
                fixed.append(column)
                for index in column.kinds:
                    left[index] = max(0, left[index] - 1)
        if any(left):
            start = [
                column
                for column in columns
                if sum(relaxed.prices[index] for index in column.kinds if left[index]) > 1 - KEPT
            ]
            relaxed, columns, _ = master.solve(left, rounds=DIVE_ROUNDS, start=start)
    return pool.batches(fixed)
