"""The ladders of independent groups taken together: how a total number of loads is best split."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.loads.plan import CombinedRung

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.loads.plan import Ladder


def combine_ladders(ladders: Sequence[Ladder]) -> tuple[CombinedRung, ...]:
    """For each total number of loads find the split over groups with the smallest largest deviation.

    Parameters
    ----------
    ladders : sequence of Ladder
        One for each group, each with at least one rung.

    Returns
    -------
    combine_ladders : tuple of CombinedRung
        From the sum of the lowest rungs to the sum of the highest. Only numbers that the ladders have are split.

    Notes
    -----
    A group keeps a deviation ``d`` from its first rung of at most ``d`` on; the sum of these numbers is what ``d``
    costs in all, and the smallest ``d`` that the total pays for is the answer. What is left over goes to the group
    with the worst deviation that can still use it.

    Examples
    --------
    >>> from wetside.planning.loads.plan import Ladder, LadderRung
    >>> rungs = [LadderRung(n, worst, True, None, (), ()) for n, worst in ((1, 1.5), (2, 0.5), (3, 0.1))]
    >>> ladder = Ladder(tuple(rungs), 2, 2, 1)
    >>> [(rung.number, rung.worst, rung.split) for rung in combine_ladders([ladder, ladder])]
    [(2, 1.5, (1, 1)), (3, 1.5, (2, 1)), (4, 0.5, (2, 2)), (5, 0.5, (3, 2)), (6, 0.1, (3, 3))]
    """
    if not ladders:
        return ()
    worsts = [_falling(ladder) for ladder in ladders]
    firsts = [ladder.rungs[0].number for ladder in ladders]
    steps = sorted({worst for group in worsts for worst in group}, reverse=True)
    # For each deviation that any group can keep: the place of the rung on which each group first keeps it.
    prices: list[list[int]] = []
    for step in steps:
        places = [next((place for place, worst in enumerate(group) if worst <= step), -1) for group in worsts]
        if min(places) < 0:
            break
        prices.append(places)
    lowest = sum(firsts)
    highest = sum(ladder.rungs[-1].number for ladder in ladders)
    rungs: list[CombinedRung] = []
    paid = 0
    for total in range(lowest, highest + 1):
        while paid + 1 < len(prices) and lowest + sum(prices[paid + 1]) <= total:
            paid += 1
        places = list(prices[paid])
        _spend(worsts, places, total - lowest - sum(places))
        worst = max(group[place] for group, place in zip(worsts, places, strict=True))
        proved = all(rung.worst_proved for ladder in ladders for rung in ladder.rungs if rung.worst >= worst)
        rungs.append(
            CombinedRung(total, worst, proved, tuple(ladders[g].rungs[place].number for g, place in enumerate(places)))
        )
    return tuple(rungs)


def _falling(ladder: Ladder) -> list[float]:
    """Deviations by rung, each at most the one before (a rung that was only searched may look worse)."""
    worsts: list[float] = []
    for rung in ladder.rungs:
        worsts.append(min(rung.worst, worsts[-1]) if worsts else rung.worst)
    return worsts


def _spend(worsts: list[list[float]], places: list[int], spare: int) -> None:
    """Give the loads left over to the groups where they lower the worst deviation, the worst group first."""
    while spare:
        order = sorted(range(len(places)), key=lambda group: (-worsts[group][places[group]], group))
        for group in order:
            here = worsts[group]
            better = next((p for p in range(places[group] + 1, len(here)) if here[p] < here[places[group]]), None)
            if better is not None and better - places[group] <= spare:
                spare -= better - places[group]
                places[group] = better
                break
        else:
            group = next(group for group in order if places[group] + 1 < len(worsts[group]))
            places[group] += 1
            spare -= 1
