"""Where the labels of the window chart stand, so that none covers another."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


def tiers(wanted: Sequence[float], label: float, left: float, right: float) -> list[tuple[float, int]]:
    """Place of every label so that none overlaps: pushed aside on one line where that is enough, else on more lines.

    Parameters
    ----------
    wanted : sequence of float
        Where the middle of each label would stand, rising. [px]
    label : float
        Width of the widest label. [px]
    left, right : float
        Edges of the plot; a label may reach over them by half of itself. [px]

    Returns
    -------
    tiers : list of (float, int)
        Middle of the label, and the line that it stands on, 0 on top.
    """
    if not wanted:
        return []
    room = right - left + label
    rows = max(1, math.ceil(len(wanted) / max(1, math.floor(room / label))))
    edges = (left, right)
    crowded = any(
        _shift(_spread(list(wanted[row::rows]), label, edges), wanted[row::rows]) > label for row in range(rows)
    )
    if crowded:
        rows += 1
    placed: list[tuple[float, int]] = [(0.0, 0)] * len(wanted)
    for row in range(rows):
        places = _spread(list(wanted[row::rows]), label, edges)
        for index, x in zip(range(row, len(wanted), rows), places, strict=True):
            placed[index] = (x, row)
    return placed


def _shift(placed: Sequence[float], wanted: Sequence[float]) -> float:
    return max((abs(a - b) for a, b in zip(placed, wanted, strict=True)), default=0.0)


def _spread(wanted: list[float], label: float, edges: tuple[float, float]) -> list[float]:
    """Sorted places moved apart to ``label``, as little as can be: blocks that touch share their mean shift."""

    def kept(middle: float, count: int) -> float:
        """Middle of a block, moved so that the block stays on the drawing."""
        half = label * count / 2
        return min(max(middle, edges[0] - label / 2 + half), edges[1] + label / 2 - half)

    blocks: list[tuple[float, int]] = []
    for x in wanted:
        blocks.append((x, 1))
        while len(blocks) > 1 and kept(*blocks[-1]) - kept(*blocks[-2]) < label * (blocks[-1][1] + blocks[-2][1]) / 2:
            (right, count_right), (left, count_left) = blocks.pop(), blocks.pop()
            # The middle of a block is the mean of what its members want.
            count = count_left + count_right
            blocks.append(((left * count_left + right * count_right) / count, count))
    places: list[float] = []
    for middle, count in blocks:
        first = kept(middle, count) - label * count / 2
        places.extend(first + label * (i + 0.5) for i in range(count))
    return places
