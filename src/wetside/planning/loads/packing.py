"""The best filling of one vessel: sheets of the largest total value within places, agent and hands (exact)."""

from __future__ import annotations

from itertools import combinations
from math import gcd
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.loads.kinds import Choice, Kind
    from wetside.planning.loads.model import Model

STEPS = 40
"""Steps a filling wanted in a list of fillings, before the list is given up."""
TANGLE = 8
"""Kinds that exclude each other in one knot, up to which all their allowed subsets are listed."""


class Pick(NamedTuple):
    """One way to take something from a knot of kinds: what it takes up (count, places, agent), and the kinds."""

    size: tuple[int, ...]
    kinds: tuple[int, ...]


class Packer:
    """Finds the filling of largest value for one choice of kinds, for any values.

    Parameters
    ----------
    model : Model
    kinds : list of Kind
    choice : Choice
    demand : sequence of int
        Sheets of each kind that are wanted at most.
    """

    def __init__(self, model: Model, kinds: list[Kind], choice: Choice, demand: Sequence[int]) -> None:
        self.choice = choice
        limit = model.vessels[choice.vessel]
        options = {index: model.options[kinds[index].sheets[0]][choice.vessel] for index in choice.kinds}
        share_unit = gcd(*(option.share for option in options.values()))
        limits = [limit.places // share_unit]
        sizes = {index: [option.share // share_unit] for index, option in options.items()}
        fullest = limits[0] // min(size[0] for size in sizes.values())
        heaviest = sorted(
            (option.agent for index, option in options.items() for _ in range(min(demand[index], fullest))),
            reverse=True,
        )
        if limit.agent is not None and sum(heaviest[:fullest]) > limit.agent:
            agent_unit = gcd(*(option.agent for option in options.values()))
            limits.append(limit.agent // agent_unit)
            for index, option in options.items():
                sizes[index].append(option.agent // agent_unit)
        if choice.most is not None and choice.most < fullest:
            limits.append(choice.most)
            for size in sizes.values():
                size.append(1)
        self.limits = tuple(limits)
        self._demand = demand
        self._apart = {index: kinds[index].apart for index in choice.kinds}
        self.exact = True
        self.sizes = {index: tuple(size) for index, size in sizes.items()}
        self.knots = self._knots(kinds, self.sizes, demand)

    def _knots(self, kinds: list[Kind], sizes: dict[int, tuple[int, ...]], demand: Sequence[int]) -> list[list[Pick]]:
        """Kinds without twins here give one pick a sheet; twins give one knot whose picks keep them apart."""
        knots: list[list[Pick]] = []
        done: set[int] = set()
        for index in self.choice.kinds:
            if index in done or not demand[index]:
                continue
            knot = [index]
            done.add(index)
            for member in knot:
                for other in kinds[member].apart:
                    if other in sizes and other not in done and demand[other]:
                        done.add(other)
                        knot.append(other)
            if len(knot) == 1:
                size = sizes[index]
                most = min(
                    [demand[index], *(room // part for room, part in zip(self.limits, size, strict=True) if part)]
                )
                knots.extend([[Pick(size, (index,))]] * most)
                continue
            if len(knot) > TANGLE:
                # Relaxed: values stay an upper bound, and such fillings are mended before they are used.
                self.exact = False
                knots.extend([[Pick(sizes[member], (member,))] for member in knot])
                continue
            picks: list[Pick] = []
            for count in range(1, len(knot) + 1):
                for subset in combinations(sorted(knot), count):
                    if any(other in kinds[member].apart for member, other in combinations(subset, 2)):
                        continue
                    size = tuple(sum(parts) for parts in zip(*(sizes[member] for member in subset), strict=True))
                    if all(part <= room for part, room in zip(size, self.limits, strict=True)):
                        picks.append(Pick(size, subset))
            knots.append(picks)
        return knots

    def best(self, values: Sequence[float], enough: float = 0.0) -> tuple[float, tuple[int, ...]]:
        """Return the largest total value of a filling, and its kinds (one entry a sheet).

        Parameters
        ----------
        values : sequence of float
            Of a sheet of each kind, not negative.
        enough : float
            Where the answer is at most this, an upper bound of it will do, with kinds that need not fit.
        """
        knots = []
        for knot in self.knots:
            picks = [(sum(values[index] for index in pick.kinds), pick) for pick in knot]
            picks = [(value, pick) for value, pick in picks if value > 1e-9]
            if picks:
                knots.append(picks)
        if not knots:
            return 0.0, ()
        # Places alone are quick, bound the answer, and often are the answer: then agent and hands hold anyway.
        value, kinds = _by_places(self.limits[0], knots)
        if len(self.limits) == 1 or value <= enough or self._holds(kinds):
            return value, kinds
        return _by_list(self.limits, knots, enough)

    def all_above(self, values: Sequence[float], least: float, most: int) -> set[tuple[int, ...]] | None:
        """Return every filling to which nothing can be added and whose value is at least so much.

        Parameters
        ----------
        values : sequence of float
            Of a sheet of each kind, not negative.
        least : float
            Wanted value.
        most : int
            Fillings and steps beyond which the search is given up.

        Returns
        -------
        all_above : set of tuple of int, or None
            Kinds of each filling, one entry a sheet; None if there are too many.
        """
        knots = [[(sum(values[index] for index in pick.kinds), pick) for pick in knot] for knot in self.knots]
        knots.sort(key=lambda knot: (-max(value / pick.size[0] for value, pick in knot), knot[0][1].kinds))
        rates = [max(value / pick.size[0] for value, pick in knot) for knot in knots]
        tails = [0.0] * (len(knots) + 1)
        for place in range(len(knots) - 1, -1, -1):
            tails[place] = tails[place + 1] + max(value for value, _ in knots[place])
        found: set[tuple[int, ...]] = set()
        steps = 0
        stack: list[tuple[int, tuple[int, ...], float, tuple[int, ...], bool]] = [(0, self.limits, 0.0, (), True)]
        while stack:
            place, room, value, kinds, may_repeat = stack.pop()
            steps += 1
            if steps > most * STEPS or len(found) > most:
                return None
            if place == len(knots):
                if value >= least and self._full(kinds, room):
                    found.add(tuple(sorted(kinds)))
                continue
            if value + min(tails[place], rates[place] * room[0]) < least:
                continue
            knot = knots[place]
            stack.append((place + 1, room, value, kinds, False))
            # Sheets of one kind are alike: the second is looked at only where the first was taken.
            if not may_repeat and place and knots[place - 1] == knot:
                continue
            for worth, pick in knot:
                rest = tuple(free - part for free, part in zip(room, pick.size, strict=True))
                if min(rest) >= 0:
                    stack.append((place + 1, rest, value + worth, kinds + pick.kinds, True))
        return found

    def _full(self, kinds: tuple[int, ...], room: tuple[int, ...]) -> bool:
        """Whether no sheet of the knots fits in beside the chosen ones."""
        for knot in self.knots:
            for pick in knot:
                if len(pick.kinds) > 1 or any(part > free for part, free in zip(pick.size, room, strict=True)):
                    continue
                index = pick.kinds[0]
                if kinds.count(index) < self._demand[index] and not any(other in kinds for other in self._apart[index]):
                    return False
        return True

    def _holds(self, kinds: tuple[int, ...]) -> bool:
        sizes = [self.sizes[index] for index in kinds]
        return all(sum(parts) <= room for parts, room in zip(zip(*sizes, strict=True), self.limits, strict=True))


def _by_places(places: int, knots: list[list[tuple[float, Pick]]]) -> tuple[float, tuple[int, ...]]:
    """Dynamic programme over free places only."""
    best = [0.0] * (places + 1)
    chains: list[Any] = [None] * (places + 1)
    for knot in knots:
        if len(knot) == 1:
            value, pick = knot[0]
            size = pick.size[0]
            for room in range(places, size - 1, -1):
                reached = best[room - size] + value
                if reached > best[room] + 1e-12:
                    best[room] = reached
                    chains[room] = (pick, chains[room - size])
            continue
        for room in range(places, 0, -1):
            for value, pick in knot:
                size = pick.size[0]
                # Smaller rooms are still without this knot.
                if size <= room and best[room - size] + value > best[room] + 1e-12 and size:
                    best[room] = best[room - size] + value
                    chains[room] = (pick, chains[room - size])
    chosen: list[int] = []
    chain = chains[places]
    while chain is not None:
        chosen.extend(chain[0].kinds)
        chain = chain[1]
    return best[places], tuple(sorted(chosen))


def _by_list(
    limits: tuple[int, ...], knots: list[list[tuple[float, Pick]]], enough: float
) -> tuple[float, tuple[int, ...]]:
    """Partial fillings, of which one that takes no less and is worth no more than another is dropped.

    So is one that cannot pass ``enough`` or the best so far, even if what is left of it were filled for places alone.
    """
    ordered = sorted(knots, key=lambda knot: (-max(value / pick.size[0] for value, pick in knot), knot[0][1].kinds))
    tails = _tails(limits[0], ordered)
    # A filling: what it takes, its value, and the chain of picks that led to it.
    fillings: dict[tuple[int, ...], tuple[float, Any]] = {(0,) * len(limits): (0.0, None)}
    best: tuple[float, Any] = (enough, None)
    for place, knot in enumerate(ordered):
        tail = tails[place + 1]
        grown: dict[tuple[int, ...], tuple[float, Any]] = {}
        for size, filling in fillings.items():
            value, chain = filling
            if value + tail[limits[0] - size[0]] > best[0] + 1e-12 and grown.get(size, filling)[0] <= value:
                grown[size] = filling
            for extra, pick in knot:
                into = tuple(have + part for have, part in zip(size, pick.size, strict=True))
                if any(have > room for have, room in zip(into, limits, strict=True)):
                    continue
                total = value + extra
                if total > best[0] + 1e-12:
                    best = (total, (pick, chain))
                if total + tail[limits[0] - into[0]] > best[0] + 1e-12:
                    known = grown.get(into)
                    if known is None or known[0] < total - 1e-12:
                        grown[into] = (total, (pick, chain))
        fillings = _undominated(grown) if len(grown) > 1 else grown
    chosen: list[int] = []
    chain = best[1]
    while chain is not None:
        chosen.extend(chain[0].kinds)
        chain = chain[1]
    return best[0], tuple(sorted(chosen))


def _tails(places: int, knots: list[list[tuple[float, Pick]]]) -> list[list[float]]:
    """For each knot and each number of free places, the value of the best filling from that knot on."""
    tails = [[0.0] * (places + 1)]
    for knot in reversed(knots):
        after = tails[-1]
        best = list(after)
        for value, pick in knot:
            size = pick.size[0]
            for room in range(size, places + 1):
                reached = after[room - size] + value
                best[room] = max(best[room], reached)
        tails.append(best)
    tails.reverse()
    return tails


def _undominated(fillings: dict[tuple[int, ...], tuple[float, Any]]) -> dict[tuple[int, ...], tuple[float, Any]]:
    """Drop fillings that take no less than another and are worth no more; exact for two limits, partial for three."""
    kept: dict[tuple[int, ...], tuple[float, Any]] = {}
    fronts: dict[tuple[int, ...], list[tuple[int, float]]] = {}
    for size, filling in sorted(fillings.items(), key=lambda item: (item[0][0], -item[1][0], item[0])):
        rest = size[2:]
        second = size[1] if len(size) > 1 else 0
        front = fronts.setdefault(rest, [])
        if any(other <= second and value >= filling[0] for other, value in front):
            continue
        front[:] = [(other, value) for other, value in front if not (second <= other and filling[0] >= value)]
        front.append((second, filling[0]))
        kept[size] = filling
    return kept
