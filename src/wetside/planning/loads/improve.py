"""Smaller deviations at the same number of loads and the same worst: the best found, not proved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.loads.model import best_time

if TYPE_CHECKING:
    from wetside.planning.loads.model import Draft, Model, Plain
    from wetside.planning.loads.points import PointTable

LOOKS = 3000
"""Pairs of loads that the exchange of sheets may look at."""
NEAR = 3
"""Loads on either side, in order of time, that are looked at."""


def merit(drafts: list[Draft]) -> list[float]:
    """Return the deviations of the loads, worst first: plans are compared by the first that differs."""
    return sorted((draft.worst for draft in drafts), reverse=True)


def improve(model: Model, drafts: list[Draft], loads: int) -> list[Draft]:
    """Use all loads, then make the next worst deviations smaller without touching the worst.

    Parameters
    ----------
    model : Model
    drafts : list of Draft
        A plan of at most that many loads.
    loads : int
        Wanted number; fewer only where there are fewer sheets.

    Returns
    -------
    improve : list of Draft
        Never worse than the plan that came in, compared load by load from the worst down.
    """
    if not drafts:
        return drafts
    best = drafts
    if model.hands is not None:
        return spread(model, best, loads)
    if model.plain is not None and model.apart is None and len({t.step for t in model.plain.tables}) == 1:
        rows = _rows(model, model.plain, max(draft.worst for draft in drafts))
        if rows is not None and len(rows) <= loads:
            other = spread(model, rows, loads)
            best = spread(model, best, loads)
            return min(best, other, key=lambda plan: (merit(plan), plan is other))
    return _exchange(model, spread(model, best, loads))


def _rows(model: Model, plain: Plain, most: float) -> list[Draft] | None:
    """Cut the sheets, in order of their own times, into loads: fewest first, then the smallest sum of high powers.

    Where windows end in the same order as they begin, some best plan is such a cut: two sheets that stand crosswise in
    two loads can be exchanged.
    """
    order = sorted(model.shared, key=lambda sheet: (plain.tables[sheet].target_s, sheet))
    tables = [plain.tables[sheet] for sheet in order]
    spans = [table.span(most) for table in tables]
    scale = most or 1.0
    unset = (len(order) + 1, 0.0)
    costs = [(0, 0.0)] + [unset] * len(order)
    cuts = [0] * (len(order) + 1)
    worsts: dict[tuple[PointTable, PointTable], float] = {}
    for end in range(1, len(order) + 1):
        first, last = 0, 1 << 60
        best, cut = unset, -1
        for begin in range(end - 1, max(-1, end - 1 - plain.capacity), -1):
            first, last = max(first, spans[begin][0]), min(last, spans[begin][1])
            if first > last:
                break
            before = costs[begin]
            if before[0] + 1 > best[0]:
                continue
            # The outermost two decide, where deviations have one shape; the true ones are taken at the end.
            outermost = (tables[begin], tables[end - 1])
            worst = worsts.get(outermost)
            if worst is None:
                worsts[outermost] = worst = best_time(dict.fromkeys(outermost), model.grid_s)[1]
            cost = (before[0] + 1, before[1] + (worst / scale) ** 8)
            if cost < best:
                best, cut = cost, begin
        if cut < 0:
            return None
        costs[end], cuts[end] = best, cut
    batches = []
    end = len(order)
    while end:
        batches.append(order[cuts[end] : end])
        end = cuts[end]
    drafts = [model.timed(plain.vessel, batch) for batch in reversed(batches)]
    return drafts if max(draft.worst for draft in drafts) <= most else None


def spread(model: Model, drafts: list[Draft], loads: int) -> list[Draft]:
    """Cut the worst load that has two sheets in two, until there are as many loads as wanted.

    Parameters
    ----------
    model : Model
    drafts : list of Draft
    loads : int
    """
    plan = list(drafts)
    while len(plan) < loads:
        places = [place for place, draft in enumerate(plan) if len(draft.members) > 1]
        if not places:
            break
        place = max(places, key=lambda index: (plan[index].worst, len(plan[index].members), -index))
        draft = plan.pop(place)
        order = sorted(draft.members, key=lambda sheet: (model.options[sheet][draft.vessel].table.target_s, sheet))
        halves: list[tuple[Draft, Draft]] = [
            (model.timed(draft.vessel, order[:cut]), model.timed(draft.vessel, order[cut:]))
            for cut in range(1, len(order))
        ]
        near, far = min(halves, key=_larger_first)
        plan.extend((near, far))
    return plan


def _larger_first(pair: tuple[Draft, Draft]) -> tuple[float, float]:
    worsts = pair[0].worst, pair[1].worst
    return max(worsts), min(worsts)


def _exchange(model: Model, drafts: list[Draft]) -> list[Draft]:
    """Move or exchange the sheets that make a load's deviation, wherever the two loads get better."""
    plan = sorted(drafts, key=lambda draft: (draft.time_s, draft.vessel, draft.members))
    looks = 0
    settled: set[Draft] = set()
    while looks < LOOKS:
        places = [place for place in range(len(plan)) if plan[place] not in settled]
        if not places:
            break
        place = max(places, key=lambda index: (plan[index].worst, -index))
        better, tried = _better_pair(model, plan, place)
        looks += tried
        if better is None:
            settled.add(plan[place])
            continue
        other, pair = better
        plan[place], plan[other] = pair
        plan.sort(key=lambda draft: (draft.time_s, draft.vessel, draft.members))
    return plan


def _better_pair(model: Model, plan: list[Draft], place: int) -> tuple[tuple[int, tuple[Draft, Draft]] | None, int]:
    here = plan[place]
    if len(here.members) < 2 or model.own_times(here.vessel):
        return None, 1
    low = min(here.members, key=lambda sheet: (model.options[sheet][here.vessel].table.target_s, sheet))
    high = max(here.members, key=lambda sheet: (model.options[sheet][here.vessel].table.target_s, sheet))
    best: tuple[int, tuple[Draft, Draft]] | None = None
    goal = (1e300, 1e300)
    tried = 0
    for other in range(max(0, place - NEAR), min(len(plan), place + NEAR + 1)):
        if other == place:
            continue
        there = plan[other]
        limit = _larger_first((here, there))
        for sheet in (low, high):
            mine = [member for member in here.members if member != sheet]
            for guest in (None, *there.members):
                tried += 1
                new_here = mine if guest is None else [*mine, guest]
                new_there = [*(member for member in there.members if member != guest), sheet]
                if not (allowed(model, here.vessel, new_here) and allowed(model, there.vessel, new_there)):
                    continue
                pair = (model.timed(here.vessel, new_here), model.timed(there.vessel, new_there))
                worsts = _larger_first(pair)
                if worsts < min(goal, limit) and limit[0] - worsts[0] + (limit[1] - worsts[1]) * 1e-3 > 1e-12:
                    best, goal = (other, pair), worsts
    return best, tried


def allowed(model: Model, vessel: int, members: list[int]) -> bool:
    """Whether a vessel may take the sheets together, twins considered, whatever the time."""
    if not members or not model.holds(vessel, members):
        return False
    return model.apart is None or not any(other in members for sheet in members for other in model.apart[sheet])
