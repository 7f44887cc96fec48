"""What the planner of loads answers."""

from __future__ import annotations

from typing import NamedTuple


class PlannedLoad(NamedTuple):
    """Sheets planned for one development together.

    ``time_s`` is the load's time on the grid; in a vessel with own times it is the longest of them, and ``members``
    stand in the order in which they go in (longest first). Elsewhere members stand in the order of their ids.
    ``worst`` is the largest deviation in the load. [1]
    """

    vessel: int
    time_s: float
    members: tuple[str, ...]
    worst: float


class Solution(NamedTuple):
    """The fewest loads, and the smallest worst deviation for that number.

    ``proved`` says that no plan has fewer loads than this one; ``worst_proved`` that none with as many has a smaller
    worst deviation. ``next_worst`` is the worst of the second worst load: best found, never proved; None for one load.
    """

    loads: tuple[PlannedLoad, ...]
    lower_bound: int
    proved: bool
    worst: float
    worst_proved: bool
    next_worst: float | None = None

    @property
    def gap(self) -> int:
        """Loads above the bound; 0 where the number is proved."""
        return len(self.loads) - self.lower_bound


class LadderRung(NamedTuple):
    """The smallest worst deviation for a number of loads; ``broken`` names the sheets outside their window."""

    number: int
    worst: float
    worst_proved: bool
    next_worst: float | None
    broken: tuple[str, ...]
    loads: tuple[PlannedLoad, ...]


class Ladder(NamedTuple):
    """What each number of loads costs, from few to many.

    ``fewest`` is the number of loads of the best plan inside all windows, ``lower_bound`` the least that is not
    excluded, ``least`` the least number that capacity and rules allow when windows are ignored (as far as proved).
    """

    rungs: tuple[LadderRung, ...]
    fewest: int
    lower_bound: int
    least: int

    def rung(self, number: int) -> LadderRung | None:
        """Return the rung of a number of loads, None where the ladder has none."""
        for rung in self.rungs:
            if rung.number == number:
                return rung
        return None


class CombinedRung(NamedTuple):
    """The best split of a total number of loads over groups: ``split[g]`` loads for group ``g``."""

    number: int
    worst: float
    worst_proved: bool
    split: tuple[int, ...]
