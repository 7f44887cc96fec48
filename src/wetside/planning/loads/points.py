"""Deviations of one kind of sheet on the points that a load's time may take."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from typing import TYPE_CHECKING

from wetside.planning.loads.problem import EDGE_S

if TYPE_CHECKING:
    from collections.abc import Callable

ABOVE_ONE = 1.0 + 1e-9
"""Deviation of a point outside the window whose function says 1 or less (a window that ends where tests end)."""


def has_point(low_s: float, high_s: float, step: int) -> bool:
    """Whether a whole multiple of the step [s] lies in the closed interval."""
    return max(step, math.ceil((low_s - EDGE_S) / step) * step) <= high_s + EDGE_S


class PointTable:
    """Deviations of one kind of sheet, reckoned once a point, as far out as somebody asks.

    Both lists lead away from the target and never fall, so that the points within a deviation are found by bisection.

    Parameters
    ----------
    low_s, high_s, target_s : float
        Window and own time. [s]
    deviation : callable
        As in :class:`~wetside.planning.loads.problem.VesselOption`.
    grid_s : int
        Wanted step; 1 s is taken where the window has no such point. [s]
    """

    __slots__ = ("_deviation", "_high", "_left", "_low", "_middle", "_right", "step", "target_s")

    def __init__(
        self, low_s: float, high_s: float, target_s: float, deviation: Callable[[float], float], grid_s: int
    ) -> None:
        self.step = grid_s if has_point(low_s, high_s, grid_s) else 1
        self.target_s = target_s
        self._low = low_s - EDGE_S
        self._high = high_s + EDGE_S
        if not has_point(low_s, high_s, self.step):
            # Not even a whole second: the nearest to the target stands for the edge.
            nearest = max(1, math.floor(target_s + 0.5))
            self._low, self._high = min(self._low, nearest), max(self._high, nearest)
        self._deviation = deviation
        self._middle = math.floor(target_s / self.step)
        self._left: list[float] = []
        self._right: list[float] = []

    def _reckon(self, time_s: int, before: float) -> float:
        value = self._deviation(float(time_s))
        value = min(value, 1.0) if self._low <= time_s <= self._high else max(value, ABOVE_ONE)
        return max(before, value)

    def _reach_left(self, count: int) -> None:
        left = self._left
        while len(left) < count:
            left.append(self._reckon((self._middle - len(left)) * self.step, left[-1] if left else 0.0))

    def _reach_right(self, count: int) -> None:
        right = self._right
        while len(right) < count:
            right.append(self._reckon((self._middle + 1 + len(right)) * self.step, right[-1] if right else 0.0))

    def at(self, time_s: int) -> float:
        """Return the deviation at a point of this table's step. [1]"""
        away = self._middle - time_s // self.step
        if away >= 0:
            if away >= len(self._left):
                self._reach_left(away + 1)
            return self._left[away]
        if -away > len(self._right):
            self._reach_right(-away)
        return self._right[-away - 1]

    def reach(self, first_s: int, last_s: int, most: float) -> None:
        """Reckon the points from first to last [s] outwards until one deviates by more than ``most``.

        :meth:`span` and the others see reckoned points only.
        """
        left, right = self._left, self._right
        room = min(self._middle, self._middle + (-first_s // self.step) + 1)
        while len(left) < room and (not left or left[-1] <= most):
            self._reach_left(len(left) + 1)
        room = last_s // self.step - self._middle
        while len(right) < room and (not right or right[-1] <= most):
            self._reach_right(len(right) + 1)

    def span(self, most: float) -> tuple[int, int]:
        """Return first and last reckoned point [s] with at most this deviation; the first after the last if none."""
        first = self._middle - bisect_right(self._left, most) + 1
        return first * self.step, (self._middle + bisect_right(self._right, most)) * self.step

    def least(self) -> tuple[float, int]:
        """Return the smallest deviation of a reckoned point, and the earliest such point [s]."""
        if self._left and (not self._right or self._left[0] <= self._right[0]):
            return self._left[0], self.span(self._left[0])[0]
        return self._right[0], (self._middle + 1) * self.step

    def below(self, most: float) -> float:
        """Return the largest deviation of a reckoned point under this one; -1 if none."""
        best = -1.0
        for side in (self._left, self._right):
            index = bisect_left(side, most)
            if index and side[index - 1] > best:
                best = side[index - 1]
        return best

    def between(self, low: float, high: float) -> list[float]:
        """Return the deviations of reckoned points above ``low`` and under ``high``."""
        found: list[float] = []
        for side in (self._left, self._right):
            found.extend(side[bisect_right(side, low) : bisect_left(side, high)])
        return found
