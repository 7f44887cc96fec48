"""Fewest batches where each sheet has its own time, and hands put the sheets in and take them out one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


def share_hands(
    times_s: Sequence[float], capacity: int, spacing_s: float, apart: Sequence[Sequence[int]] | None = None
) -> list[list[int]]:
    """Fewest batches of equal sheets such that the count times the spacing never passes the shortest time in a batch.

    Parameters
    ----------
    times_s : sequence of float
        Own times, none shorter than the spacing. [s]
    capacity : int
        Sheets that the vessel holds; at least 1.
    spacing_s : float
        Between two sheets. [s]
    apart : sequence of sequences of int, optional
        For each sheet those that may not share its batch; with it the answer is good, and the fewest only where it
        equals the answer without.

    Returns
    -------
    share_hands : list of list of int
        Batches as indices, the one with the shortest time first.

    Notes
    -----
    The sheet with the shortest time limits its batch, whoever else is in it. If a best plan fills that batch with ``y``
    (or leaves a place free) where a shorter ``x`` stands elsewhere, exchange them: the batch that ``x`` leaves gets no
    shorter time. So the batch of the shortest takes the next shortest, and the rest follows by induction.

    Examples
    --------
    >>> share_hands([40.0, 100.0, 100.0, 100.0, 100.0], 8, 20.0)
    [[0, 1], [2, 3, 4]]
    """
    left = sorted(range(len(times_s)), key=lambda sheet: (times_s[sheet], sheet))
    batches: list[list[int]] = []
    while left:
        most = capacity
        if spacing_s > 0:
            most = min(most, int(times_s[left[0]] / spacing_s))
            # The quotient may be off by one in its last digit; the stated rule decides.
            while most < capacity and (most + 1) * spacing_s <= times_s[left[0]]:
                most += 1
            while most > 1 and most * spacing_s > times_s[left[0]]:
                most -= 1
        batch: list[int] = []
        later: list[int] = []
        for place, sheet in enumerate(left):
            if len(batch) >= most:
                later.extend(left[place:])
                break
            if apart is not None and any(other in batch for other in apart[sheet]):
                later.append(sheet)
            else:
                batch.append(sheet)
        batches.append(batch)
        left = later
    return batches
