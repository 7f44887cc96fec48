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
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.loads.cover import Cover, cover_quickly
from wetside.planning.loads.kinds import choices_of, kinds_of
from wetside.planning.loads.packing import Packer

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wetside.planning.loads.cover import Batch
    from wetside.planning.loads.model import Model

TINY = 1e-6
"""Slack for what a solver of linear programmes calls equal."""
ROUNDS = 400
"""Rounds of new columns before the bound is taken as it stands."""


FEW_KINDS = 80
"""Kinds of sheet up to which exact decisions are tried; beyond, bound and gap are told."""


class Column(NamedTuple):
    """A load that could be: vessel, and a kind for each sheet, in order."""

    vessel: int
    kinds: tuple[int, ...]


class Relaxed(NamedTuple):
    """Solution of the linear relaxation: its value, the amount of each column, the price of a sheet of each kind."""

    value: float
    amounts: list[float]
    prices: list[float]


class Pool:
    """Columns found so far, with the deviation from which on each is allowed; kept from one deviation to the next."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.kinds = kinds_of(model)
        self.kind_of = {sheet: index for index, kind in enumerate(self.kinds) for sheet in kind.sheets}
        self.demand = [len(kind.sheets) for kind in self.kinds]
        self.few = len(self.kinds) <= FEW_KINDS
        self.columns: dict[Column, float] = {}
        self.covers: dict[float, Cover] = {}

    def add(self, column: Column) -> None:
        """Keep a column; its deviation is that of its best time."""
        if column not in self.columns:
            sheets = [self.kinds[index].sheets[0] for index in set(column.kinds)]
            self.columns[column] = self.model.timed(column.vessel, sheets).worst

    def add_batches(self, batches: Iterable[Batch]) -> None:
        """Keep the loads of a plan as columns."""
        for vessel, members in batches:
            self.add(Column(vessel, tuple(sorted(self.kind_of[sheet] for sheet in members))))

    def within(self, most_deviation: float) -> list[Column]:
        """Return the columns that a deviation allows, in the order in which they were found."""
        return [column for column, worst in self.columns.items() if worst <= most_deviation]

    def batches(self, columns: Iterable[Column]) -> list[Batch]:
        """Turn columns that serve every kind often enough into loads of sheets, each sheet once."""
        left = {index: list(kind.sheets) for index, kind in enumerate(self.kinds)}
        found: list[Batch] = []
        for column in columns:
            members = [left[index].pop(0) for index in column.kinds if left[index]]
            if members:
                found.append((column.vessel, members))
        return found


def pool_of(model: Model) -> Pool:
    """Return the model's pool of columns, made when first asked for."""
    if model.pool is None:
        model.pool = Pool(model)
    pool: Pool = model.pool
    return pool


def relax(columns: Sequence[Column], demand: Sequence[int]) -> Relaxed:
    """Solve the linear relaxation over some columns.

    Parameters
    ----------
    columns : sequence of Column
        Together they serve every kind.
    demand : sequence of int
        Sheets of each kind.

    Returns
    -------
    relax : Relaxed
    """
    from scipy.optimize import linprog  # type: ignore[import-untyped]

    result: Any = linprog(
        [1.0] * len(columns),
        A_ub=-matrix_of(columns, len(demand)),
        b_ub=[-float(count) for count in demand],
        method="highs-ds",
    )
    prices = [max(0.0, -float(price)) for price in result.ineqlin.marginals]
    return Relaxed(float(result.fun), [float(amount) for amount in result.x], prices)


def matrix_of(columns: Sequence[Column], kinds: int) -> Any:
    """Return how many sheets of each kind (row) a column serves, as a sparse array."""
    from scipy.sparse import csc_array  # type: ignore[import-untyped]

    rows: list[int] = []
    starts = [0]
    for column in columns:
        rows.extend(column.kinds)
        starts.append(len(rows))
    array = csc_array(([1.0] * len(rows), rows, starts), shape=(kinds, len(columns)))
    array.sum_duplicates()
    return array


class Master:
    """The relaxation at one deviation, for the whole demand or what is left of it."""

    def __init__(self, pool: Pool, most_deviation: float) -> None:
        self.pool = pool
        self.most_deviation = most_deviation
        pool.model.reach(most_deviation)
        self.choices = choices_of(pool.model, pool.kinds, most_deviation)
        self._turn = 0

    def solve(
        self,
        demand: Sequence[int],
        enough: float | None = None,
        rounds: int = ROUNDS,
        to_end: bool = False,
        start: Sequence[Column] | None = None,
    ) -> tuple[Relaxed, list[Column], float]:
        """Solve the relaxation.

        Parameters
        ----------
        demand : sequence of int
            Sheets of each kind.
        enough : float, optional
            Stop as soon as the bound passes this number.
        rounds : int
            At most so many rounds of new columns.
        to_end : bool
            Go on until no load is worth more than 1, even if the rounded bound is certain.
        start : sequence of Column, optional
            Begin with these instead of all in the pool.

        Returns
        -------
        solve : Relaxed, list of Column, float
            The last relaxation, its columns, and the bound (not rounded).
        """
        pool = self.pool
        packers = [Packer(pool.model, pool.kinds, choice, demand) for choice in self.choices]
        begin = pool.within(self.most_deviation) if start is None else start
        columns = [column for column in begin if any(demand[index] for index in column.kinds)]
        served = {index for column in columns for index in column.kinds}
        for index, count in enumerate(demand):
            if count and index not in served:
                choice = next(choice for choice in self.choices if index in choice.kinds)
                columns.append(Column(choice.vessel, (index,)))
                pool.add(columns[-1])
        known = set(columns)
        bound = 0.0
        relaxed = relax(columns, demand)
        for _ in range(rounds):
            fresh, worth = self._price(packers, relaxed.prices, known)
            if worth is not None:
                bound = max(bound, relaxed.value / max(1.0, worth))
            if not fresh or (not to_end and math.ceil(bound - TINY) >= relaxed.value - TINY):
                break
            if enough is not None and math.ceil(bound - TINY) > enough:
                break
            columns.extend(fresh)
            relaxed = relax(columns, demand)
        return relaxed, columns, bound

    def _price(
        self, packers: list[Packer], prices: list[float], known: set[Column]
    ) -> tuple[list[Column], float | None]:
        """Make columns worth more than 1. The largest worth comes with them if every choice was looked at."""
        fresh: list[Column] = []
        worth = 0.0
        count = len(packers)
        for step in range(count):
            packer = packers[(self._turn + step) % count]
            value, kinds = packer.best(prices, 1 + TINY)
            worth = max(worth, value)
            if value > 1 + TINY:
                column = Column(packer.choice.vessel, kinds)
                if column not in known:
                    known.add(column)
                    fresh.append(column)
                    if packer.exact or self._keeps_apart(kinds):
                        self.pool.add(column)
                if len(fresh) >= PARTIAL and step + 1 < count:
                    self._turn = (self._turn + step + 1) % count
                    return fresh, None
        return fresh, worth

    def _keeps_apart(self, kinds: tuple[int, ...]) -> bool:
        inside = set(kinds)
        return not any(other in inside for index in kinds for other in self.pool.kinds[index].apart)


PARTIAL = 60
"""New columns after which a round of pricing may end."""


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
    from wetside.planning.loads.integers import decide, whole_plan

    pool = pool_of(model)
    if most_deviation in pool.covers:
        return pool.covers[most_deviation]
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
    answer = Cover(lower, best)
    pool.covers[most_deviation] = answer
    return answer


def cover_for(model: Model, most_deviation: float, most_loads: int) -> Cover:
    """Tell whether so many loads are enough within a deviation: by the quick way if that decides, else by columns.

    Parameters
    ----------
    model : Model
    most_deviation : float
        [1]
    most_loads : int

    Returns
    -------
    cover_for : Cover
        Its bound may stop at the first number above ``most_loads``, its plan at the first of at most as many.
    """
    from wetside.planning.loads.integers import DIVES, decide, whole_plan

    quick = cover_quickly(model, most_deviation)
    if quick.lower > most_loads or (quick.batches is not None and len(quick.batches) <= most_loads):
        return quick
    pool = pool_of(model)
    known = pool.covers.get(most_deviation)
    if known is not None and (known.closed or known.lower > most_loads or len(known.batches or ()) <= most_loads):
        return known
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
