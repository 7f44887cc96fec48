"""The order of a real evening as lists to tick: first in the light, then each load, last in the light again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.acts import bath_names
from wetside.cards.blocks import Listing
from wetside.cards.hours import clock_time
from wetside.cards.names import clean, short
from wetside.chemistry import fix_multiple
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.planning.documents.course import Course
    from wetside.planning.documents.plan import Load, Plan

OPEN_VESSELS = frozenset({"tray", "hangers"})
"""Vessels without a lid: the light stays out until the film has fixed."""

MOST_VESSELS = 4


def first_list(plan: Plan, course: Course) -> Listing:
    """From jacket and bottles to a dry vessel; what is not needed is left out.

    Parameters
    ----------
    plan : Plan
        With one load at least.
    course : Course
    """
    kinds = {act.kind for load in plan.loads for act in load.schedule}
    closed = [load for load in plan.loads if load.vessel_kind not in OPEN_VESSELS]
    opened = [load for load in plan.loads if load.vessel_kind in OPEN_VESSELS]
    items = [sentence("cards.course.warm" if closed else "cards.course.warm_open", {"temps": _temperatures(plan)})]
    if course.mixing:
        items.append(sentence("cards.course.mix", {}))
    items.append(sentence("cards.course.thermometer", {}))
    if "fix" in kinds:
        items.append(sentence("cards.course.clip_fixer", {"planned": _planned_fix(plan, course)}))
    items.append(sentence("cards.course.clip_developer", {}))
    items.append(_order(plan))
    if closed:
        items.append(sentence("cards.course.dry", {"vessels": _vessels(closed)}))
    if opened:
        items.append(sentence("cards.course.dry_open", {"vessels": _vessels(opened)}))
    items.append(sentence("cards.course.safety", {}))
    if course.starts_s is None:
        title = sentence("cards.course.first", {})
    else:
        title = sentence("cards.course.first_at", {"start": clock_time(0.0, course.starts_s)})
    return Listing(title, tuple(items), ticks=True)


def each_load(plan: Plan, *, looks: bool) -> Listing:
    """What every load asks for.

    Parameters
    ----------
    plan : Plan
    looks : bool
        Whether the evening has looks.
    """
    kinds = {load.vessel_kind for load in plan.loads}
    items = [sentence("cards.course.learn", {})]
    if kinds - OPEN_VESSELS:
        items.append(sentence("cards.course.close", {}))
    if kinds & OPEN_VESSELS:
        items.append(sentence("cards.course.stay_dark", {}))
    items.extend((sentence("cards.course.run", {}), sentence("cards.course.hang", {})))
    if looks:
        items.append(sentence("cards.course.look", {}))
    if len(plan.loads) > 1 and kinds - OPEN_VESSELS:
        items.append(sentence("cards.course.again", {}))
    return Listing(sentence("cards.course.each", {}), tuple(items))


def last_list(at: str | None, *, clocked: bool) -> Listing:
    """Cleaning and waste.

    Parameters
    ----------
    at : str, optional
        Time of day at which it begins, as it is shown.
    clocked : bool
        Whether that is a time of day.
    """
    if at is None or not clocked:
        title = sentence("cards.course.last", {})
    else:
        title = sentence("cards.course.last_at", {"start": at})
    items = (
        sentence("cards.course.unplug", {}),
        sentence("cards.course.rinse", {}),
        sentence("cards.course.bottles_back", {}),
        sentence("cards.course.waste_done", {}),
        sentence("cards.course.written", {}),
    )
    return Listing(title, items, ticks=True)


def _temperatures(plan: Plan) -> list[str]:
    """Temperatures of the loads, with what the thermometer shows where it is off."""
    told = []
    for load in plan.loads:
        code = "cards.course.warm_shown" if abs(load.shown_temp_c - load.temp_c) >= 0.05 else "cards.course.warm_temp"
        told.append(sentence(code, {"temp_c": load.temp_c, "shown_c": load.shown_temp_c}))
    return list(dict.fromkeys(told))


def _planned_fix(plan: Plan, course: Course) -> str:
    """The fix that stands on the run sheets, and the clearing time up to which it is long enough."""
    times = {
        act.duration_s for load in plan.loads for act in load.schedule if act.kind == "fix" and act.does != "drain"
    }
    times |= {state.fix_s for state in course.fixers}
    known = [time for time in times if time]
    if not known:
        return sentence("cards.course.clip_unplanned", {})
    shortest_s = min(known)
    enough = {
        "fix_s": shortest_s,
        "clearing_s": shortest_s / fix_multiple(),
        "tabular_s": shortest_s / fix_multiple(tabular=True),
    }
    return f"{sentence('cards.course.clip_planned', enough)} {sentence('cards.course.clip_unplanned', {})}"


def _order(plan: Plan) -> str:
    """Baths by their bottles, in the order of use, where all loads have the same ones."""
    orders = {_baths(load) for load in plan.loads}
    if len(orders) > 1:
        return sentence("cards.course.order_sheets", {})
    return sentence("cards.course.order", {"baths": ", ".join(orders.pop())})


def _baths(load: Load) -> tuple[str, ...]:
    names = bath_names(load)
    told = []
    for act in load.schedule:
        name = names.get(act.key)
        if name is None:
            continue
        base = short(act.bath, 40) if clean(act.bath) else sentence(f"cards.bath.{act.kind}", {})
        if act.bottle:
            base = sentence("cards.course.bath_bottle", {"bottle": short(act.bottle, 20), "bath": base})
        told.append(base)
    return tuple(dict.fromkeys(told))


def _vessels(loads: list[Load]) -> list[str]:
    names = list(dict.fromkeys(short(load.vessel, 30) for load in loads))
    return names if len(names) <= MOST_VESSELS else [*names[: MOST_VESSELS - 1], "…"]
