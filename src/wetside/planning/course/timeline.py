"""When each load can begin: one pair of hands, vessels that must dry, and places to hang."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.course import CourseStep

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.planning.documents.evening import Evening, Vessel
    from wetside.planning.documents.plan import Load, Plan

LOOK_S = 300.0
"""Light on, read shadow and highlight, decide; common practice. [s]"""

NEW_FIXER_S = 300.0
"""Mixing and tempering a new fixer from what stands ready; common practice. [s]"""

TIDY_S = 1200.0
"""Rinsing, wiping, labelling, waste; common practice. [s]"""


class Span(NamedTuple):
    """How long a load takes the hands, from the first pour to the last sheet on its clip. [s]"""

    run_s: float
    out_s: float
    """From the first pour until the sheets have left the vessel."""


def span_of_load(load: Load) -> Span:
    """Length of a load's acts. [s]"""
    first = load.schedule[0].clock_s
    out = next((act.clock_s for act in load.schedule if act.out_of_vessel or act.does == "hang"), first)
    return Span(load.schedule[-1].clock_s - first, out - first)


def looks_after(plan: Plan) -> dict[int, str]:
    """After which loads a look pays, by load number, with the reason as a code.

    A twin still undeveloped is the strongest reason; else the first load of a film whose time is not tested, while more
    of it is to come.
    """
    load_of = {sheet.id: sheet.load for sheet in plan.sheets}
    found: dict[int, str] = {}
    for sheet in plan.sheets:
        twin_load = load_of.get(sheet.twin or "")
        if twin_load is not None and sheet.load < twin_load:
            found[sheet.load] = "planning.course.look_twin"
    loads_of_kind: dict[tuple[str, str], set[int]] = {}
    for sheet in plan.sheets:
        if sheet.evidence.value != "tested":
            loads_of_kind.setdefault((sheet.film, sheet.process), set()).add(sheet.load)
    for numbers in loads_of_kind.values():
        if len(numbers) > 1:
            found.setdefault(min(numbers), "planning.course.look_untested")
    return found


def timeline(
    plan: Plan, evening: Evening, new_fixer: Mapping[int, str], vessels: Sequence[Vessel]
) -> tuple[tuple[CourseStep, ...], int]:
    """Lay the loads one after the other.

    Parameters
    ----------
    plan : Plan
        Loads in their order.
    evening : Evening
    new_fixer : mapping of int to str
        Bottle that is renewed before a load, by the load's number.
    vessels : sequence of Vessel

    Returns
    -------
    steps : tuple of CourseStep
    places : int
        Most sheets that hang at one moment.

    Notes
    -----
    One pair of hands: a load is loaded, run and hung before the next is loaded. A vessel is free again when its sheets
    have left it and it has dried; a place when its sheet has hung long enough.
    """
    by_name = {vessel.name: vessel for vessel in vessels}
    line = _Line()
    line.add("set-up", evening.setting_up_s, None, None, "planning.course.set_up", {})
    free_at: dict[str, float] = {}
    hung: list[tuple[float, int]] = []
    looks = looks_after(plan)
    most = 0
    for load in plan.loads:
        vessel = by_name.get(load.vessel)
        span = span_of_load(load)
        count = len(load.sheets)
        loading_s = evening.loading_s * count
        line.wait_until(free_at.get(load.vessel, 0.0), "wait-vessel", load, "planning.course.wait_vessel")
        if evening.hang_places is not None:
            ready = _places_free(hung, evening, count, loading_s + span.run_s, line.now_s)
            line.wait_until(ready, "wait-places", load, "planning.course.wait_places")
        if load.number in new_fixer:
            line.add(
                "new-fixer", NEW_FIXER_S, load, None, "planning.course.new_fixer", {"bottle": new_fixer[load.number]}
            )
        line.add("load", loading_s, load, load.vessel, "planning.course.load", {"load": load.number, "count": count})
        began_s = line.now_s
        line.add(
            "run", span.run_s, load, load.vessel, "planning.course.run", {"load": load.number, "time_s": load.time_s}
        )
        free_at[load.vessel] = began_s + span.out_s + (vessel.dries_s if vessel is not None else 0.0)
        hung.append((line.now_s, count))
        most = max(most, sum(n for at, n in hung if at + evening.film_dries_s > line.now_s))
        if load.number in looks:
            line.add("look", LOOK_S, load, None, looks[load.number], {})
    line.add("tidy", TIDY_S, None, None, "planning.course.tidy", {})
    return tuple(line.steps), most


def _places_free(hung: Sequence[tuple[float, int]], evening: Evening, count: int, took_s: float, now_s: float) -> float:
    """Earliest start from which, ``took_s`` later, enough places are free for ``count`` sheets. [s]

    A load that alone wants more places than there are begins at once; the notes say so.
    """
    free_s = [at + evening.film_dries_s for at, _ in hung]
    for start_s in sorted({now_s, *(max(now_s, at - took_s) for at in free_s)}):
        taken = sum(n for (_, n), at in zip(hung, free_s, strict=True) if at > start_s + took_s + 1e-6)
        if taken + count <= (evening.hang_places or 0):
            return start_s
    return now_s


class _Line:
    """Steps one after the other."""

    def __init__(self) -> None:
        self.steps: list[CourseStep] = []
        self.now_s = 0.0

    def add(
        self, does: str, lasts_s: float, load: Load | None, vessel: str | None, code: str, params: dict[str, object]
    ) -> None:
        """Put a step at the end; one that takes no time is left out."""
        if lasts_s <= 0:
            return
        number = load.number if load is not None else None
        self.steps.append(CourseStep(does, self.now_s, lasts_s, number, vessel, code, {"load": number, **params}))
        self.now_s += lasts_s

    def wait_until(self, at_s: float, does: str, load: Load, code: str) -> None:
        """Wait if that moment is still to come."""
        self.add(does, at_s - self.now_s, load, load.vessel, code, {"vessel": load.vessel})
