"""Few sheets: the fewest loads by looking at every filling that could matter, without any solver.

An evening of a dozen sheets with a twin, a dense sheet or two drums is decided here in milliseconds; loading a solver
of linear programmes would take a hundred times as long.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wetside.planning.loads.cover import Cover
from wetside.planning.loads.kinds import choices_of, kinds_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wetside.planning.loads.cover import Batch
    from wetside.planning.loads.kinds import Choice, Kind
    from wetside.planning.loads.model import Model

MOST_SHEETS = 24
"""Beyond this the search is not begun. Our choice: up to here it nearly always ends."""

MOST_FILLINGS = 6000
"""Fillings that one search may look at before it gives up."""

Rest = tuple[int, ...]
"""Sheets of each kind that are still to be served."""


class _GaveUpError(Exception):
    """More fillings than the search may look at."""


def cover_small(model: Model, most_deviation: float, quick: Cover, most_loads: int | None = None) -> Cover | None:
    """Return the fewest loads within a deviation, exact; None where there are too many sheets or fillings.

    Parameters
    ----------
    model : Model
    most_deviation : float
        [1]
    quick : Cover
        Bound and plan of the quick way.
    most_loads : int, optional
        No plan beyond this many is wanted; the bound may then stop at the next number.

    Returns
    -------
    cover_small : Cover or None

    Notes
    -----
    Depth first from the bound upwards. The kind of sheet that the fewest sets of kinds hold is served next, by every
    filling that no further sheet fits into: a load with room left is never better than the same load filled. What was
    found impossible is remembered.
    """
    if model.count > MOST_SHEETS:
        return None
    known = len(quick.batches) if quick.batches is not None else model.count + 1
    last = known - 1 if most_loads is None else min(known - 1, most_loads)
    search = _Search(model, most_deviation)
    try:
        for loads in range(quick.lower, last + 1):
            found = search.serve(search.demand, loads)
            if found is not None:
                return Cover(loads, found)
    except _GaveUpError:
        return None
    return Cover(max(quick.lower, last + 1), quick.batches)


class _Search:
    """One deviation's search, with what it has proved impossible."""

    def __init__(self, model: Model, most_deviation: float) -> None:
        model.reach(most_deviation)
        self.model = model
        self.kinds: list[Kind] = kinds_of(model)
        self.choices: list[Choice] = choices_of(model, self.kinds, most_deviation)
        self.demand: Rest = tuple(len(kind.sheets) for kind in self.kinds)
        self.holding = [
            [choice for choice in self.choices if index in choice.kinds] for index in range(len(self.kinds))
        ]
        self.least = [
            min(option.share / model.vessels[vessel].places for vessel, option in model.options[kind.sheets[0]].items())
            for kind in self.kinds
        ]
        self.hopeless: set[tuple[Rest, int]] = set()
        self.looked = 0

    def serve(self, rest: Rest, loads: int) -> list[Batch] | None:
        """Serve what is left with so many loads; None where that cannot be."""
        if not any(rest):
            return []
        room = math.fsum(count * least for count, least in zip(rest, self.least, strict=True))
        if loads <= 0 or room > loads + 1e-9 or (rest, loads) in self.hopeless:
            return None
        first = min(
            (index for index, count in enumerate(rest) if count), key=lambda index: (len(self.holding[index]), index)
        )
        for choice in self.holding[first]:
            for taken in self._fillings(choice, rest, first):
                left = tuple(count - out for count, out in zip(rest, taken, strict=True))
                after = self.serve(left, loads - 1)
                if after is not None:
                    return [(choice.vessel, self._sheets(rest, taken)), *after]
        self.hopeless.add((rest, loads))
        return None

    def _sheets(self, rest: Rest, taken: Rest) -> list[int]:
        """The sheets themselves: of each kind the first that are still to be served."""
        sheets: list[int] = []
        for kind, count, out in zip(self.kinds, rest, taken, strict=True):
            begin = len(kind.sheets) - count
            sheets.extend(kind.sheets[begin : begin + out])
        return sheets

    def _fillings(self, choice: Choice, rest: Rest, first: int) -> Iterator[Rest]:
        """Fillings with at least one sheet of the first kind, to which nothing can be added."""
        order = [first, *(index for index in choice.kinds if index != first and rest[index])]
        taken = [0] * len(rest)
        yield from self._fill(choice, rest, order, 0, taken)

    def _fill(self, choice: Choice, rest: Rest, order: list[int], place: int, taken: list[int]) -> Iterator[Rest]:
        if place == len(order):
            self.looked += 1
            if self.looked > MOST_FILLINGS:
                raise _GaveUpError
            if not any(taken[index] < rest[index] and self._fits(choice, taken, index) for index in order):
                yield tuple(taken)
            return
        index = order[place]
        most = 0
        while most < rest[index] and self._fits(choice, taken, index):
            taken[index] += 1
            most += 1
        for count in range(most, -1 if place else 0, -1):
            taken[index] = count
            yield from self._fill(choice, rest, order, place + 1, taken)
        taken[index] = 0

    def _fits(self, choice: Choice, taken: list[int], index: int) -> bool:
        """Whether one more sheet of a kind goes into the filling."""
        if any(taken[other] for other in self.kinds[index].apart):
            return False
        if index in self.kinds[index].apart and taken[index]:
            return False
        limit = self.model.vessels[choice.vessel]
        share = agent = number = 0
        for kind, count in enumerate(taken):
            more = count + (kind == index)
            if more:
                option = self.model.options[self.kinds[kind].sheets[0]][choice.vessel]
                share += more * option.share
                agent += more * option.agent
                number += more
        if choice.most is not None and number > choice.most:
            return False
        return share <= limit.places and (limit.agent is None or agent <= limit.agent)
