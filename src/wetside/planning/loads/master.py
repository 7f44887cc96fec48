"""The master programme's relaxation at one deviation, solved by making only the columns that are worth it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wetside.planning.loads.kinds import choices_of
from wetside.planning.loads.packing import Packer
from wetside.planning.loads.pool import TINY, Column, Relaxed, relax

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.loads.pool import Pool

ROUNDS = 400
"""Rounds of new columns before the bound is taken as it stands."""


def _cut(column: Column, demand: Sequence[int]) -> Column:
    """Leave out the sheets that nobody wants: a part of a sheet must not pass for a small part of a fuller load."""
    if all(column.kinds.count(index) <= demand[index] for index in column.kinds):
        return column
    left = {index: demand[index] for index in column.kinds}
    kept = []
    for index in column.kinds:
        if left[index]:
            left[index] -= 1
            kept.append(index)
    return Column(column.vessel, tuple(kept))


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
        columns = list(dict.fromkeys(cut for column in begin if (cut := _cut(column, demand)).kinds))
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
                    if packer.exact or self.keeps_apart(kinds):
                        self.pool.add(column)
                if len(fresh) >= PARTIAL and step + 1 < count:
                    self._turn = (self._turn + step + 1) % count
                    return fresh, None
        return fresh, worth

    def keeps_apart(self, kinds: tuple[int, ...]) -> bool:
        """Whether a column made by a relaxed packer holds no twins."""
        inside = set(kinds)
        return not any(other in inside for index in kinds for other in self.pool.kinds[index].apart)


PARTIAL = 60
"""New columns after which a round of pricing may end."""
