"""Which vessel each load takes, so that nobody waits for one to dry while another stands empty."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.assemble import Placed, misses_of
from wetside.planning.resolved import baths_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Evening, Process, Vessel
    from wetside.planning.groups import Group

SAME_DEVIATION = 1e-9
"""Another vessel is taken only where no sheet comes out worse for it."""

WIDTH = 48
"""Unfinished choices that are followed at a time; more never helped on two and three vessels. Our choice."""


class _Choice(NamedTuple):
    """Vessels chosen so far, when hands and vessels are free [s], and the least liquid of them all [ml]."""

    now_s: float
    liquid_ml: float
    vessels: tuple[int, ...]
    free_s: tuple[float, ...]


def in_turn(
    placed: Sequence[Placed], groups: Sequence[Group], vessels: Sequence[Vessel], evening: Evening, grid_s: int
) -> list[Placed]:
    """Choose the vessels anew so that the evening ends earliest, then takes the least liquid.

    The order, the times and the sheets of the loads stay, and no sheet comes out worse.

    Parameters
    ----------
    placed : sequence of Placed
        In the order of the evening.
    groups : sequence of Group
    vessels : sequence of Vessel
    evening : Evening
        How long loading takes.
    grid_s : int
        [s]
    """
    if len(vessels) < 2 or len(placed) < 2:
        return list(placed)
    options = [_options(load, groups[load.group], vessels, grid_s) for load in placed]
    choices = [_Choice(0.0, 0.0, (), (0.0,) * len(vessels))]
    for load, allowed in zip(placed, options, strict=True):
        span_s = _span_s(groups[load.group].process, load.time_s) + evening.loading_s * len(load.members)
        grown = [_with(choice, vessel, span_s, vessels) for choice in choices for vessel in allowed]
        choices = sorted(grown, key=lambda choice: (choice.now_s, choice.liquid_ml, choice.vessels))[:WIDTH]
    return [load._replace(vessel=vessel) for load, vessel in zip(placed, choices[0].vessels, strict=True)]


def _with(choice: _Choice, vessel: int, span_s: float, vessels: Sequence[Vessel]) -> _Choice:
    ends_s = max(choice.now_s, choice.free_s[vessel]) + span_s
    free = list(choice.free_s)
    free[vessel] = ends_s + vessels[vessel].dries_s
    return _Choice(ends_s, choice.liquid_ml + vessels[vessel].min_ml, (*choice.vessels, vessel), tuple(free))


def _span_s(process: Process, time_s: float) -> float:
    """Length of a load: its developing time and its other baths; pours and drains are alike in all vessels. [s]"""
    return time_s + sum((bath.time_s or 0.0) * bath.changes for bath in baths_of(process))


def _options(load: Placed, group: Group, vessels: Sequence[Vessel], grid_s: int) -> list[int]:
    """Vessels that serve a load, its own first."""
    others = [
        index
        for index in range(len(vessels))
        if index != load.vessel and _serves(load._replace(vessel=index), load, group, vessels, grid_s)
    ]
    return [load.vessel, *others]


def _serves(other: Placed, load: Placed, group: Group, vessels: Sequence[Vessel], grid_s: int) -> bool:
    """Whether the other vessel takes the load's sheets at its time, none of them worse."""
    if vessels[other.vessel].kind is not vessels[load.vessel].kind:
        return False
    inside = {one.resolved.sheet.id for one in load.members}
    options = [
        option
        for need in group.problem.sheets
        if need.id in inside
        for option in need.options
        if option.vessel == other.vessel
    ]
    limit = group.problem.vessels[other.vessel]
    if len(options) < len(inside) or sum(option.share for option in options) > limit.places:
        return False
    if limit.agent is not None and sum(option.agent for option in options) > limit.agent:
        return False
    before = max(miss.deviation for miss in misses_of(load, vessels, grid_s))
    return max(miss.deviation for miss in misses_of(other, vessels, grid_s)) <= before + SAME_DEVIATION
