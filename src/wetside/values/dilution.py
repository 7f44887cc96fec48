"""How strong a working solution is, as parts."""

from __future__ import annotations

import math
from typing import NamedTuple

from wetside.errors import OutOfRangeError


class Dilution(NamedTuple):
    """Parts of one or more concentrates and of water.

    ``Dilution((1,), 24)`` is 1+24; ``Dilution((1, 2), 100)`` is the two-part 1+2+100; ``STOCK`` is the
    liquid as it stands in its bottle. Build it with :func:`dilution_of_parts`, which checks the parts.
    """

    agents: tuple[float, ...]
    water: float

    @property
    def total_parts(self) -> float:
        """Sum of all parts. [parts]"""
        return sum(self.agents) + self.water

    @property
    def agent_fraction(self) -> float:
        """Volume of the concentrates (or stock) over the volume of the working solution. [1]"""
        return sum(self.agents) / self.total_parts

    @property
    def text(self) -> str:
        """The way it is written: ``1+24``, ``1+2+100``, ``stock``."""
        if self.water == 0 and len(self.agents) == 1:
            return "stock"
        return "+".join(f"{part:g}" for part in (*self.agents, self.water))


STOCK = Dilution((1.0,), 0.0)


def dilution_of_parts(agents: tuple[float, ...], water: float) -> Dilution:
    """Check the parts of a dilution and return it.

    Parameters
    ----------
    agents : tuple of float
        Parts of each concentrate; every one positive. [parts]
    water : float
        Parts of water; zero or more. [parts]

    Raises
    ------
    OutOfRangeError
        If a part is not finite, an agent is not positive, or the water is negative.
    """
    for part in (*agents, water):
        if not math.isfinite(part):
            raise OutOfRangeError("values.dilution.not_finite", value=part)
    if not agents or min(agents) <= 0:
        raise OutOfRangeError("values.dilution.no_agent", value="+".join(f"{p:g}" for p in (*agents, water)))
    if water < 0:
        raise OutOfRangeError("values.dilution.negative_water", value=water)
    return Dilution(tuple(float(part) for part in agents), float(water))
