"""Fewest loads when no sheet may deviate by more than a given amount: the quick ways, exact for equal sheets."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.loads.filling import fill_greedily
from wetside.planning.loads.hands import share_hands
from wetside.planning.loads.stabbing import separate, stab

if TYPE_CHECKING:
    from wetside.planning.loads.model import Model, Plain
    from wetside.planning.loads.points import PointTable
    from wetside.planning.loads.stabbing import Group

Batch = tuple[int, list[int]]
"""A vessel, and the sheets that it may take together within the deviation in question."""


class Cover(NamedTuple):
    """Bound and answer: no plan has fewer than ``lower`` loads; ``batches`` is a plan, None where none was found."""

    lower: int
    batches: list[Batch] | None

    @property
    def closed(self) -> bool:
        """Whether the plan is proved the fewest."""
        return self.batches is not None and len(self.batches) == self.lower

    def decides(self, loads: int) -> bool:
        """Whether it tells if so many loads are enough."""
        return self.lower > loads or (self.batches is not None and len(self.batches) <= loads)


def cover_quickly(model: Model, most_deviation: float, most_loads: int | None = None) -> Cover:
    """Bound and plan for the shared sheets (suspects apart) without any solver.

    Parameters
    ----------
    model : Model
    most_deviation : float
        For every sheet; at least its smallest possible one. [1]
    most_loads : int, optional
        No plan is wanted beyond this many.

    Returns
    -------
    cover_quickly : Cover
        Closed for equal sheets without twins, and mostly with them.
    """
    if not model.count:
        return Cover(0, [])
    if model.hands is not None:
        return _cover_by_hands(model)
    model.reach(most_deviation)
    if model.plain is not None:
        return _cover_plain(model, model.plain, most_deviation, most_loads)
    batches = fill_greedily(model, most_deviation)
    return Cover(_room_bound(model), batches)


def _cover_by_hands(model: Model) -> Cover:
    assert model.hands is not None  # noqa: S101 - the caller looked
    vessel, capacity = model.hands
    times_s = [model.options[sheet][vessel].table.target_s for sheet in model.shared]
    spacing_s = model.vessels[vessel].spacing_s
    free = share_hands(times_s, capacity, spacing_s)
    if model.apart is None:
        return Cover(len(free), [(vessel, batch) for batch in free])
    return Cover(len(free), [(vessel, batch) for batch in share_hands(times_s, capacity, spacing_s, model.apart)])


def _room_bound(model: Model) -> int:
    """Loads that places alone ask for, each sheet counted where it takes the smallest part of a vessel."""
    need = math.fsum(
        min(option.share / model.vessels[vessel].places for vessel, option in model.options[sheet].items())
        for sheet in model.shared
    )
    return max(1, math.ceil(need - 1e-9))


def _cover_plain(model: Model, plain: Plain, most_deviation: float, most_loads: int | None) -> Cover:
    spans = [table.span(most_deviation) for table in plain.tables]
    everyone = list(model.shared)
    parts = _parts_by_step(plain.tables, spans, model.grid_s)
    bound = 0
    groups: list[Group] = []
    if parts is None:
        whole = stab(spans, plain.capacity, None, most_loads)
        if whole is None:
            return Cover((most_loads or 0) + 1, None)
        bound, groups = len(whole), whole
        parts = [(everyone, spans)]
    else:
        # Points of both steps: sheets of the coarse step may share none of the fine points. Taking them all as fine
        # gives a bound; serving each step by itself gives a plan, which proves itself where no fine sheet has a coarse
        # point.
        mixed = any(table.step == 1 for table in (plain.tables[sheet] for sheet in parts[0][0]))
        free = stab(spans, plain.capacity)
        for sheets, their in parts:
            groups.extend(_named(stab(their, plain.capacity) or [], sheets))
        bound = len(free or []) if mixed else len(groups)
    if model.apart is not None and any(_clash(members, model.apart) for _, members in groups):
        groups = _kept_apart(model.apart, plain.capacity, parts, spans, groups, bound)
    return Cover(bound, [(plain.vessel, members) for _, members in groups])


def _parts_by_step(
    tables: tuple[PointTable, ...], spans: list[tuple[int, int]], grid_s: int
) -> list[tuple[list[int], list[tuple[int, int]]]] | None:
    """Split sheets by the step of their points, the coarse step first; None if all have one step."""
    steps = {table.step for table in tables}
    if len(steps) == 1:
        return None
    coarse: list[int] = []
    coarse_spans: list[tuple[int, int]] = []
    fine: list[int] = []
    for sheet, (first, last) in enumerate(spans):
        first_coarse, last_coarse = -(-first // grid_s) * grid_s, last // grid_s * grid_s
        if first_coarse <= last_coarse:
            coarse.append(sheet)
            coarse_spans.append((first_coarse, last_coarse))
        else:
            fine.append(sheet)
    return [(coarse, coarse_spans), (fine, [spans[sheet] for sheet in fine])]


def _named(groups: list[Group], sheets: list[int]) -> list[Group]:
    return [(time_s, [sheets[member] for member in members]) for time_s, members in groups]


def _clash(members: list[int], apart: list[tuple[int, ...]]) -> bool:
    inside = set(members)
    return any(other in inside for sheet in members for other in apart[sheet])


def _kept_apart(
    apart: list[tuple[int, ...]],
    capacity: int,
    parts: list[tuple[list[int], list[tuple[int, int]]]],
    spans: list[tuple[int, int]],
    groups: list[Group],
    bound: int,
) -> list[Group]:
    """Keep twins apart: skip a sheet whose twin is in the load; else mend the plan that ignored them."""
    skipping: list[Group] = []
    for sheets, their in parts:
        place = {sheet: index for index, sheet in enumerate(sheets)}
        near = [[place[other] for other in apart[sheet] if other in place] for sheet in sheets]
        skipping.extend(_named(stab(their, capacity, near) or [], sheets))
    if len(skipping) > bound:
        mended = [(time_s, list(members)) for time_s, members in groups]
        # Only on points of one step does a time inside the window suffice.
        if len(parts) == 1 and separate(mended, spans, apart, capacity):
            return mended
    return skipping


def with_known(model: Model, most_deviation: float, answer: Cover) -> Cover:
    """Better a cover by those of other deviations: windows grow with the deviation, so the fewest loads fall.

    Parameters
    ----------
    model : Model
        Its ``known`` covers are read.
    most_deviation : float
        [1]
    answer : Cover

    Returns
    -------
    with_known : Cover
    """
    lower, batches = answer.lower, answer.batches
    for deviation, other in model.known.items():
        if deviation >= most_deviation:
            lower = max(lower, other.lower)
        if deviation <= most_deviation and other.batches and (batches is None or len(other.batches) < len(batches)):
            batches = other.batches
    return Cover(lower, batches)
