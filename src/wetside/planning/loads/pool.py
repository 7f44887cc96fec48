"""Loads that could be: the columns of the master programme, its linear relaxation, and the pool that keeps them.

The programmes are solved by HiGHS through scipy, which is loaded only when a problem needs it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.loads.kinds import kinds_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wetside.planning.loads.cover import Batch
    from wetside.planning.loads.model import Model

TINY = 1e-6
"""Slack for what a solver of linear programmes calls equal."""
FEW_SHEETS = 60
"""Sheets up to which every decision is tried to the end; beyond, work is limited, and bound and gap are told."""


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
        self.few = model.count <= FEW_SHEETS
        self.columns: dict[Column, float] = {}

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
