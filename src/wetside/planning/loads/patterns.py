"""Fewest loads where there are few sizes and weights of sheet: loads told apart by what they hold of each, not by whom.

Sheets that take up the same places and agent stand for each other in a vessel, so a load is a *pattern*: how many of
each class it holds. The programme counts the loads of each pattern at each time, and the sheets of each kind that go
there. It is far smaller than one over all sets of sheets, and as tight. (With the loads fixed, sending the sheets is a
transport problem, whose corners are whole by themselves; they are asked to be whole all the same, because the solver
then proves more in the same work, and prints no complaint of its own about near-whole answers.)

Solved by HiGHS through scipy, which is loaded only here, when a problem needs it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.loads.cover import Cover
from wetside.planning.loads.kinds import choices_of, kinds_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wetside.planning.loads.cover import Batch
    from wetside.planning.loads.kinds import Choice, Kind
    from wetside.planning.loads.model import Model

MOST_PATTERNS = 3000
"""Patterns, over all times, beyond which the other way is taken."""
MOST_WORK = 150_000
"""Unknowns times branches that one programme may take: a limit of work and not of time, so that plans repeat."""
MOST_NODES = 3000
ROOT = 20
"""Branches that the start of a programme counts for."""
TINY = 1e-6

Class = tuple[int, int]
"""Places and agent that a sheet takes up in one vessel."""


class Slots(NamedTuple):
    """Loads of one pattern at one choice: how many sheets of each class one of them holds."""

    choice: int
    holds: tuple[tuple[Class, int], ...]


class Programme:
    """The programme at one deviation.

    Parameters
    ----------
    model : Model
    most_deviation : float
        [1]
    twins : bool
        Whether twins are told apart: larger, and needed only where they fell into one load without.
    """

    def __init__(self, model: Model, most_deviation: float, *, twins: bool = False) -> None:
        model.reach(most_deviation)
        self.model = model
        self.kinds: list[Kind] = kinds_of(model, twins=twins)
        self.choices: list[Choice] = choices_of(model, self.kinds, most_deviation)
        self.places: list[tuple[int, int]] = [
            (kind, place) for place, choice in enumerate(self.choices) for kind in choice.kinds
        ]
        self.patterns: list[Slots] | None = self._patterns()

    def class_of(self, kind: int, vessel: int) -> Class:
        """Return what a sheet of a kind takes up in a vessel."""
        option = self.model.options[self.kinds[kind].sheets[0]][vessel]
        return option.share, option.agent

    def _patterns(self) -> list[Slots] | None:
        found: list[Slots] = []
        for place, choice in enumerate(self.choices):
            there: dict[Class, int] = {}
            for kind in choice.kinds:
                size = self.class_of(kind, choice.vessel)
                there[size] = there.get(size, 0) + len(self.kinds[kind].sheets)
            limit = self.model.vessels[choice.vessel]
            for holds in fullest(sorted(there.items(), reverse=True), limit.places, limit.agent, choice.most):
                found.append(Slots(place, holds))
                if len(found) > MOST_PATTERNS:
                    return None
        return found

    def solve(self, most_loads: int | None = None) -> tuple[int, list[Batch] | None]:
        """Return a bound, and a plan if one was found (and no twins fell together).

        Parameters
        ----------
        most_loads : int, optional
            A plan of more loads is not wanted: a bound above this is the end.
        """
        from scipy.optimize import Bounds, LinearConstraint, linprog, milp  # type: ignore[import-untyped]
        from scipy.sparse import csc_array  # type: ignore[import-untyped]

        patterns = self.patterns or []
        loads, moves = len(patterns), len(self.places)
        rows: dict[tuple[int, Class], int] = {}
        terms: list[tuple[int, int, float]] = []
        for column, (kind, place) in enumerate(self.places, start=loads):
            terms.append((kind, column, 1.0))
            size = self.class_of(kind, self.choices[place].vessel)
            row = rows.setdefault((place, size), len(self.kinds) + len(rows))
            terms.append((row, column, -1.0))
        for column, pattern in enumerate(patterns):
            terms.extend((rows[pattern.choice, size], column, float(count)) for size, count in pattern.holds)
        least = [float(len(kind.sheets)) for kind in self.kinds] + [0.0] * len(rows)
        for together in self._twins_together():
            by_place: dict[int, list[int]] = {}
            for column, (kind, place) in enumerate(self.places, start=loads):
                if kind in together:
                    by_place.setdefault(place, []).append(column)
            for place, both in by_place.items():
                if len(both) < len(together):
                    continue
                terms.extend((len(least), column, -1.0) for column in both)
                terms.extend((len(least), column, 1.0) for column, one in enumerate(patterns) if one.choice == place)
                least.append(0.0)
        at, columns, values = zip(*terms, strict=True)
        matrix = csc_array((values, (at, columns)), shape=(len(least), loads + moves))
        costs = [1.0] * loads + [0.0] * moves
        if most_loads is not None:
            relaxed: Any = linprog(costs, A_ub=-matrix, b_ub=[-value for value in least], method="highs-ds")
            self.model.work_left -= (loads + moves) * ROOT // 4
            if relaxed.x is not None and math.ceil(relaxed.fun - TINY) > most_loads:
                return math.ceil(relaxed.fun - TINY), None
        result: Any = milp(
            costs,
            integrality=[1] * (loads + moves),
            bounds=Bounds(0, [float(self.model.count)] * (loads + moves)),
            constraints=LinearConstraint(matrix, lb=least),
            options={"node_limit": max(ROOT, min(MOST_NODES, MOST_WORK // (loads + moves)))},
        )
        self.model.work_left -= (loads + moves) * (ROOT + int(result.mip_node_count or 0))
        bound = 0
        if result.mip_dual_bound is not None and math.isfinite(result.mip_dual_bound):
            bound = math.ceil(result.mip_dual_bound - TINY)
        if result.x is None:
            return bound, None
        amounts = [round(amount) for amount in result.x]
        return bound, self._dealt(amounts[:loads], amounts[loads:])

    def _twins_together(self) -> list[set[int]]:
        """Kinds that are nothing but a pair of twins: where both go, there must be two loads.

        Twins among others of their kind are left to the dealing: there any of the kind may stand for either.
        """
        if not self.model.apart:
            return []
        kind_of = {sheet: number for number, kind in enumerate(self.kinds) for sheet in kind.sheets}
        pairs = [(one, other) for one in kind_of for other in self.model.apart[one] if one < other and other in kind_of]
        together = []
        for pair in pairs:
            kinds = {kind_of[sheet] for sheet in pair}
            if sum(len(self.kinds[kind].sheets) for kind in kinds) == len(pair):
                together.append(kinds)
        return together

    def _dealt(self, counts: Sequence[int], moved: Sequence[int]) -> list[Batch] | None:
        """Put sheets into the loads, those of near times together, or twins first; None where twins stay together."""
        near = self._dealt_in_order(counts, moved, twins_first=False)
        return self._dealt_in_order(counts, moved, twins_first=True) if near is None and self.model.apart else near

    def _dealt_in_order(self, counts: Sequence[int], moved: Sequence[int], *, twins_first: bool) -> list[Batch] | None:
        loads: list[tuple[int, dict[Class, int], list[int]]] = []
        for pattern, count in zip(self.patterns or [], counts, strict=True):
            loads.extend((pattern.choice, dict(pattern.holds), []) for _ in range(count))
        left = [list(kind.sheets) for kind in self.kinds]
        going: dict[int, list[tuple[float, int, Class]]] = {}
        for (kind, place), count in zip(self.places, moved, strict=True):
            vessel = self.choices[place].vessel
            size = self.class_of(kind, vessel)
            for sheet in left[kind][:count]:
                target_s = self.model.options[sheet][vessel].table.target_s
                going.setdefault(place, []).append((target_s, sheet, size))
            del left[kind][:count]
        if any(left):
            return None
        apart = self.model.apart
        for place, sheets in sorted(going.items()):
            here = [load for load in loads if load[0] == place]
            for _, sheet, size in sorted(
                sheets, key=lambda one: (bool(twins_first and apart and not apart[one[1]]), one)
            ):
                for _, slots, members in here:
                    if slots.get(size) and not (apart and any(other in members for other in apart[sheet])):
                        slots[size] -= 1
                        members.append(sheet)
                        break
                else:
                    return None
        return [(self.choices[place].vessel, members) for place, _, members in loads if members]


def fullest(
    there: Sequence[tuple[Class, int]], places: int, agent: int | None, most: int | None
) -> Iterator[tuple[tuple[Class, int], ...]]:
    """List the patterns of a vessel to which nothing can be added.

    Parameters
    ----------
    there : sequence of (Class, int)
        Classes, and how many sheets of each there are.
    places : int
    agent, most : int or None
        Limits of agent and of the number of sheets.

    Yields
    ------
    fullest : tuple of (Class, int)
        Classes that the load holds, and how many of each.

    Examples
    --------
    >>> list(fullest([((3, 0), 9), ((2, 0), 9)], 6, None, None))
    [(((3, 0), 2),), (((3, 0), 1), ((2, 0), 1)), (((2, 0), 3),)]
    """
    counts = [0] * len(there)

    def room_for(index: int, share: int, units: int, number: int) -> int:
        (size, weight), available = there[index]
        fit = min(available - counts[index], (places - share) // size)
        if agent is not None and weight:
            fit = min(fit, (agent - units) // weight)
        return fit if most is None else min(fit, most - number)

    def grow(index: int, share: int, units: int, number: int) -> Iterator[tuple[tuple[Class, int], ...]]:
        if index == len(there):
            if all(room_for(other, share, units, number) <= 0 for other in range(len(there))):
                yield tuple((size, count) for (size, _), count in zip(there, counts, strict=True) if count)
            return
        size, weight = there[index][0]
        for count in range(max(0, room_for(index, share, units, number)), -1, -1):
            counts[index] = count
            yield from grow(index + 1, share + count * size, units + count * weight, number + count)
        counts[index] = 0

    yield from grow(0, 0, 0, 0)


def cover_by_patterns(model: Model, most_deviation: float, quick: Cover, most_loads: int | None = None) -> Cover | None:
    """Return bound and plan within a deviation; None where there are too many patterns.

    Parameters
    ----------
    model : Model
    most_deviation : float
        [1]
    quick : Cover
        Bound and plan of the quick way.
    most_loads : int, optional
        Only whether so many are enough is asked.

    Returns
    -------
    cover_by_patterns : Cover or None
    """
    programme = Programme(model, most_deviation)
    if programme.patterns is None:
        return None
    bound, batches = programme.solve(most_loads)
    if batches is None and _twins_may_be_why(model, quick, bound, most_loads):
        apart = Programme(model, most_deviation, twins=True)
        if apart.patterns is not None:
            apart_bound, batches = apart.solve(most_loads)
            bound = max(bound, apart_bound)
    if batches is None or (quick.batches is not None and len(quick.batches) <= len(batches)):
        batches = quick.batches
    return Cover(max(bound, quick.lower), batches)


def _twins_may_be_why(model: Model, quick: Cover, bound: int, most_loads: int | None) -> bool:
    """Whether there is no plan perhaps because twins fell into one load, and another look is wanted and allowed."""
    if not model.apart or not any(model.apart):
        return False
    if most_loads is not None and (bound > most_loads or model.work_left <= 0):
        return False
    return quick.batches is None or len(quick.batches) > max(bound, quick.lower)
