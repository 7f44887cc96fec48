"""A good plan, quickly, for sheets of several sizes and weights in several vessels: where the exact way starts."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from wetside.planning.loads.model import Model

MANY = 600
"""Sheets beyond which one order of filling must do."""


class _Reach:
    """Where each sheet may stand within one deviation."""

    def __init__(self, model: Model, most_deviation: float) -> None:
        self.model = model
        self.spans: list[dict[int, tuple[int, int, int]]] = []
        self.ends: list[float] = []
        self.size: list[float] = []
        for sheet in model.shared:
            spans: dict[int, tuple[int, int, int]] = {}
            end = 0.0
            size = math.inf
            for vessel, option in model.options[sheet].items():
                limit = model.vessels[vessel]
                part = option.share / limit.places
                size = min(size, max(part, option.agent / limit.agent) if limit.agent else part)
                if limit.own_times:
                    spans[vessel] = (0, 0, 1)
                    end = math.inf
                    continue
                first, last = option.table.span(most_deviation)
                if first <= last:
                    spans[vessel] = (first, last, option.table.step)
                    end = max(end, last)
            self.spans.append(spans)
            self.ends.append(end)
            self.size.append(size)

    def times(self, sheet: int, vessel: int) -> tuple[int, ...]:
        """Latest point of the sheet in the vessel, and the latest that sheets of the coarse step share."""
        first, last, _ = self.spans[sheet][vessel]
        coarse = last // self.model.grid_s * self.model.grid_s
        return (last, coarse) if first <= coarse < last else (last,)

    def holds(self, sheet: int, vessel: int, time_s: int) -> bool:
        """Whether the sheet may have this time in this vessel."""
        span = self.spans[sheet].get(vessel)
        if span is None:
            return False
        return self.model.own_times(vessel) or (span[0] <= time_s <= span[1] and time_s % span[2] == 0)


def pack(model: Model, vessel: int, leader: int, others: Iterable[int]) -> list[int]:
    """Put the leader and then each other sheet that still fits into a vessel, limits and twins kept.

    Parameters
    ----------
    model : Model
    vessel, leader : int
        The leader fits alone.
    others : iterable of int
        In the order in which they are tried; the windows were looked at by the caller.

    Returns
    -------
    pack : list of int
    """
    limit = model.vessels[vessel]
    first = model.options[leader][vessel]
    members = [leader]
    share, agent, shortest = first.share, first.agent, first.table.target_s
    apart = model.apart
    for sheet in others:
        option = model.options[sheet][vessel]
        if share + option.share > limit.places or (limit.agent is not None and agent + option.agent > limit.agent):
            continue
        if limit.own_times and (len(members) + 1) * limit.spacing_s > min(shortest, option.table.target_s):
            continue
        if apart is not None and any(other in members for other in apart[sheet]):
            continue
        members.append(sheet)
        share += option.share
        agent += option.agent
        shortest = min(shortest, option.table.target_s)
        if share == limit.places:
            break
    return members


def fill_greedily(model: Model, most_deviation: float) -> list[tuple[int, list[int]]]:
    """Plan the shared sheets within a deviation, first fit by end of window, by size, or by what fills best.

    Parameters
    ----------
    model : Model
        Reckoned up to the deviation.
    most_deviation : float
        [1]

    Returns
    -------
    fill_greedily : list of (int, list of int)
        Vessel and sheets of each load; the shortest of the plans that were tried, the earliest tried of equals.
    """
    reach = _Reach(model, most_deviation)

    def by_end(sheet: int) -> tuple[float, float, int]:
        return reach.ends[sheet], -reach.size[sheet], sheet

    def by_size(sheet: int) -> tuple[float, float, int]:
        return -reach.size[sheet], reach.ends[sheet], sheet

    ways = ((by_end, by_size),) if model.count > MANY else ((by_end, by_size), (by_end,), (by_size,))
    best: list[tuple[int, list[int]]] | None = None
    for orders in ways:
        batches = _fill(model, reach, orders)
        if best is None or len(batches) < len(best):
            best = batches
    return best or []


def _fill(
    model: Model, reach: _Reach, orders: tuple[Callable[[int], tuple[float, float, int]], ...]
) -> list[tuple[int, list[int]]]:
    left = sorted(model.shared, key=lambda sheet: (reach.ends[sheet], -reach.size[sheet], sheet))
    batches: list[tuple[int, list[int]]] = []
    sizes = reach.size
    while left:
        leader = left[0]
        best: tuple[float, int, list[int]] | None = None
        for vessel in sorted(reach.spans[leader]):
            for time_s in reach.times(leader, vessel):
                near = [sheet for sheet in left[1:] if reach.holds(sheet, vessel, time_s)]
                for order in orders:
                    members = pack(model, vessel, leader, sorted(near, key=order))
                    filled = math.fsum(sizes[sheet] for sheet in members)
                    if best is None or filled > best[0] + 1e-12:
                        best = (filled, vessel, members)
        if best is None:
            break
        batches.append((best[1], best[2]))
        taken = set(best[2])
        left = [sheet for sheet in left if sheet not in taken]
    return batches
