"""Fewest loads for equal sheets: windows stabbed by times, each of which serves a limited number of them."""

from __future__ import annotations

from heapq import heappop, heappush
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

Group = tuple[int, list[int]]
"""Time of a load [s] and the sheets in it, as indices."""


def stab(
    spans: Sequence[tuple[int, int]],
    capacity: int,
    apart: Sequence[Sequence[int]] | None = None,
    most: int | None = None,
) -> list[Group] | None:
    """Fewest loads of at most ``capacity`` sheets, each load at a time inside the windows of all its sheets.

    Parameters
    ----------
    spans : sequence of (int, int)
        First and last point of each sheet's window, none of them empty. [s]
    capacity : int
        Sheets in a load; at least 1.
    apart : sequence of sequences of int, optional
        For each sheet those that may not share its load. With it the answer is good, and the fewest only where it
        equals the answer without.
    most : int, optional
        Give up beyond this many loads.

    Returns
    -------
    stab : list of (int, list of int) or None
        Loads in order of time; None where ``most`` was passed.

    Notes
    -----
    Take the uncovered sheet whose window ends first. Some load must serve it, and moving that load to the window's end
    loses nothing: every uncovered window that held the earlier time ends no sooner, so it holds the end as well. Of the
    uncovered windows that hold this time, take those that end first. If a best plan takes ``y`` instead of an ``x``
    that ends sooner (or leaves a place free), exchange them: ``x`` began by now and ends no later than ``y``, so
    wherever ``y`` is served at a time from now on and ``x`` was served until its end, each can stand for the other.
    So a plan with the fewest loads begins with this load, and the rest follows by induction.

    Ties are broken by the order of the sheets.

    Examples
    --------
    >>> stab([(410, 495), (495, 590), (410, 495)], 8)
    [(495, [0, 2, 1])]
    >>> stab([(410, 495), (495, 590), (410, 495)], 2)
    [(495, [0, 2]), (590, [1])]
    """
    by_first = sorted(range(len(spans)), key=spans.__getitem__)
    by_last = sorted(range(len(spans)), key=lambda sheet: (spans[sheet][1], sheet))
    covered = [False] * len(spans)
    waiting: list[tuple[int, int]] = []
    groups: list[Group] = []
    opened = 0
    for leader in by_last:
        if covered[leader]:
            continue
        if most is not None and len(groups) >= most:
            return None
        time_s = spans[leader][1]
        while opened < len(by_first) and spans[by_first[opened]][0] <= time_s:
            sheet = by_first[opened]
            heappush(waiting, (spans[sheet][1], sheet))
            opened += 1
        members: list[int] = []
        later: list[tuple[int, int]] = []
        while waiting and len(members) < capacity:
            entry = heappop(waiting)
            if apart is not None and any(other in members for other in apart[entry[1]]):
                later.append(entry)
                continue
            covered[entry[1]] = True
            members.append(entry[1])
        for entry in later:
            heappush(waiting, entry)
        groups.append((time_s, members))
    return groups


def separate(
    groups: list[Group], spans: Sequence[tuple[int, int]], apart: Sequence[Sequence[int]], capacity: int
) -> bool:
    """Move and exchange sheets between loads until no load holds two that must be apart.

    Parameters
    ----------
    groups : list of (int, list of int)
        Changed in place.
    spans : sequence of (int, int)
        As in :func:`stab`.
    apart : sequence of sequences of int
        As in :func:`stab`.
    capacity : int
        As in :func:`stab`.

    Returns
    -------
    separate : bool
        Whether it succeeded; the number of loads is never changed.

    Examples
    --------
    >>> groups = [(495, [0, 1]), (500, [2, 3])]
    >>> separate(groups, [(410, 500)] * 4, [[1], [0], [], []], 2), groups
    (True, [(495, [2, 1]), (500, [0, 3])])
    """
    home = {sheet: index for index, (_, members) in enumerate(groups) for sheet in members}

    def fits(sheet: int, index: int, without: int) -> bool:
        first, last = spans[sheet]
        return first <= groups[index][0] <= last and all(
            home[other] != index or other == without for other in apart[sheet]
        )

    def rehouse(sheet: int) -> bool:
        here = home[sheet]
        for index, (_, members) in enumerate(groups):
            if index == here:
                continue
            if len(members) < capacity and fits(sheet, index, sheet):
                groups[here][1].remove(sheet)
                members.append(sheet)
                home[sheet] = index
                return True
            for other in members:
                if fits(sheet, index, other) and fits(other, here, sheet):
                    mine = groups[here][1]
                    mine[mine.index(sheet)] = other
                    members[members.index(other)] = sheet
                    home[sheet], home[other] = index, here
                    return True
        return False

    for sheet in range(len(spans)):
        for mate in apart[sheet]:
            if home[mate] == home[sheet] and not rehouse(sheet) and not rehouse(mate):
                return False
    return not any(home[other] == home[sheet] for sheet in range(len(spans)) for other in apart[sheet])
