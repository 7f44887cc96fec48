"""The times that keep a sheet inside its aim."""

from __future__ import annotations

from typing import NamedTuple


class Window(NamedTuple):
    """Closed interval of developing times. [s]"""

    low_s: float
    high_s: float

    def holds(self, time_s: float) -> bool:
        """Whether a time [s] lies inside, the ends included."""
        return self.low_s <= time_s <= self.high_s
