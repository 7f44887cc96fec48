"""Two vessels in turn: while one dries the other is loaded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.assemble import Placed, misses_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Vessel
    from wetside.planning.groups import Group

SAME_DEVIATION = 1e-9
"""Another vessel is taken only where no sheet comes out worse for it."""


def in_turn(placed: Sequence[Placed], groups: Sequence[Group], vessels: Sequence[Vessel], grid_s: int) -> list[Placed]:
    """Move a load out of the vessel that the load before it used, where another serves it as well.

    A vessel that must be rinsed and dried costs a quarter of an hour of waiting, the other a little more developer at
    most. The order and the times of the loads stay.

    Parameters
    ----------
    placed : sequence of Placed
        In the order of the evening.
    groups : sequence of Group
    vessels : sequence of Vessel
    grid_s : int
        [s]
    """
    done: list[Placed] = []
    for load in placed:
        choice = load
        if done and done[-1].vessel == load.vessel and vessels[load.vessel].dries_s > 0:
            others = [
                other
                for index in range(len(vessels))
                if index != load.vessel
                and (other := load._replace(vessel=index))
                and _serves(other, load, groups[load.group], vessels, grid_s)
            ]
            choice = min(others, key=lambda other: (vessels[other.vessel].min_ml, other.vessel), default=load)
        done.append(choice)
    return done


def _serves(other: Placed, load: Placed, group: Group, vessels: Sequence[Vessel], grid_s: int) -> bool:
    """Whether the other vessel takes the load's sheets at its time, none of them worse."""
    if vessels[other.vessel].kind is not vessels[load.vessel].kind:
        return False
    needs = {need.id: {option.vessel: option for option in need.options} for need in group.problem.sheets}
    options = [needs[one.resolved.sheet.id].get(other.vessel) for one in load.members]
    if any(option is None for option in options):
        return False
    limit = group.problem.vessels[other.vessel]
    if sum(option.share for option in options if option is not None) > limit.places:
        return False
    if limit.agent is not None and sum(option.agent for option in options if option is not None) > limit.agent:
        return False
    before = max(miss.deviation for miss in misses_of(load, vessels, grid_s))
    return max(miss.deviation for miss in misses_of(other, vessels, grid_s)) <= before + SAME_DEVIATION
