"""What the evening takes from the shelf: mixing, bottles oldest first, water, waste, cost."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.course.topping_up import replenisher_name
from wetside.planning.documents.course import Draw, Mixing, Waste
from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import AfterUse, BathKind
from wetside.planning.resolved import baths_of, bottle_of
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

    from wetside.planning.documents.course import Replenishing
    from wetside.planning.documents.evening import Bottle, Evening, Process
    from wetside.planning.documents.plan import Act, Load, Plan

WATER_KINDS = frozenset({BathKind.PRESOAK.value, BathKind.WASH.value})
"""Baths that are water and nothing else."""

WASTE_OF_KIND = {
    BathKind.DEVELOP.value: "planning.course.waste_developer",
    BathKind.STOP.value: "planning.course.waste_stop",
    BathKind.FIX.value: "planning.course.waste_fixer",
}
"""Waste vessel of a bath; the others go to the one for rinses and the rest."""

ORDER_OF_MIXING = (
    BathKind.DEVELOP.value,
    BathKind.STOP.value,
    BathKind.FIX.value,
    BathKind.WASH_AID.value,
    BathKind.WETTING.value,
    BathKind.OTHER.value,
)
"""Baths are mixed in the order of use, the developer first (US Navy handbook, S13 of the chemistry page)."""


PART_KEYS = {2: "second", 3: "third"}
"""Keys of a developing bath that name the bottles of its further parts."""


class Poured(NamedTuple):
    """One filling of one bath in one load."""

    load: Load
    act: Act


def fillings(plan: Plan) -> list[Poured]:
    """Every filling of the evening: acts that pour, and baths outside the vessel."""
    return [Poured(load, act) for load in plan.loads for act in load.schedule if act.does in ("pour", "move")]


def water_of_evening_ml(plan: Plan) -> float:
    """Water of pre-soaks, washes, and of what is mixed for single use. [ml]"""
    total = 0.0
    for load, act in fillings(plan):
        if act.kind in WATER_KINDS:
            total += act.volume_ml or 0.0
        elif act.kind == BathKind.DEVELOP.value:
            total += load.water_ml
    return total


def mixing_of_evening(plan: Plan, ready: Collection[int] = ()) -> tuple[Mixing, ...]:
    """Liquids to mix, in order: single-use baths for each load, those that go back to their bottle once.

    A bath that is used again is mixed in the largest volume that any load pours. ``ready`` are the loads whose
    developer stands in its bottle, as a replenished one does.
    """
    rows: dict[tuple[str, str, str | None, float], Mixing] = {}
    for load, act in fillings(plan):
        if act.kind in WATER_KINDS:
            continue
        developing = act.kind == BathKind.DEVELOP.value
        if developing and load.number in ready:
            continue
        name = load.developer if developing else act.bath or act.kind
        volume = act.volume_ml or 0.0
        back = act.after == AfterUse.BACK.value
        key = (act.kind, name, load.dilution if developing else None, 0.0 if back else volume)
        parts = load.parts_ml if developing else ()
        water = load.water_ml if developing else 0.0
        known = rows.get(key)
        if known is None:
            rows[key] = Mixing(0, act.kind, name, key[2], volume, tuple(parts), water, 1)
        elif back:
            rows[key] = known._replace(volume_ml=max(known.volume_ml, volume))
        else:
            rows[key] = known._replace(times=known.times + 1)
    ordered = sorted(rows.values(), key=lambda row: ORDER_OF_MIXING.index(row.kind))
    return tuple(row._replace(order=number) for number, row in enumerate(ordered, start=1))


def draws_of_evening(plan: Plan, evening: Evening, processes: dict[str, Process]) -> tuple[Draw, ...]:
    """What each bottle gives, the oldest of its kind first; single-use baths only.

    A bottle without a known volume gives whatever is left to give.
    """
    wanted: dict[str, float] = {}
    for load, act in fillings(plan):
        if act.kind in WATER_KINDS or act.after == AfterUse.BACK.value:
            continue
        developing = act.kind == BathKind.DEVELOP.value
        process = processes[load.process]
        holds = _holds(evening.bottles, process, act)
        if holds is None:
            continue
        if developing and len(load.parts_ml) > 1:
            # Each part comes from a bottle of its own; what no bottle is written down for is not drawn from another.
            parts = {holds: load.parts_ml[0]}
            for part, part_ml in enumerate(load.parts_ml[1:], 2):
                further = bottle_of(evening.bottles, part_bottle(process, act.bottle, part), "")
                if further is not None:
                    parts[further.holds] = parts.get(further.holds, 0.0) + part_ml
        else:
            parts = {holds: load.concentrate_ml if developing else act.volume_ml or 0.0}
        for name, volume_ml in parts.items():
            wanted[name] = wanted.get(name, 0.0) + volume_ml
    draws: list[Draw] = []
    for holds, volume_ml in wanted.items():
        draws.extend(_from_bottles(holds, volume_ml, evening.bottles))
    return tuple(draws)


def draws_of_replenisher(rows: Iterable[Replenishing], evening: Evening) -> tuple[Draw, ...]:
    """Replenisher of the whole evening from its bottles; nothing where no bottle holds it."""
    wanted: dict[str, float] = {}
    for row in rows:
        holds = replenisher_name(row.developer)
        wanted[holds] = wanted.get(holds, 0.0) + row.add_ml
    return tuple(
        draw for holds, volume_ml in wanted.items() for draw in _from_bottles(holds, volume_ml, evening.bottles)
    )


def _holds(bottles: Sequence[Bottle], process: Process, act: Act) -> str | None:
    """What the bottle of a bath holds; None where no bottle is written down."""
    name = process.developer if act.kind == BathKind.DEVELOP.value else act.bath or act.kind
    bottle = bottle_of(bottles, act.bottle, name)
    return None if bottle is None else bottle.holds


def part_bottle(process: Process, bottle: str | None, part: int) -> str | None:
    """Mark of the bottle with a further part of a developer, by the bottle of the first; None where none is named.

    Parameters
    ----------
    process : Process
    bottle : str or None
        Mark of the first part's bottle; None where the bath names none.
    part : int
        2 or 3; of a fourth no process tells.
    """
    for bath in baths_of(process):
        same = bottle is None or bath.bottle is None or plain_name(bath.bottle) == plain_name(bottle)
        mark: str | None = getattr(bath, PART_KEYS[part]) if part in PART_KEYS else None
        if bath.does is BathKind.DEVELOP and mark is not None and same:
            return mark
    return None


def parts_unknown(plan: Plan, evening: Evening, processes: dict[str, Process]) -> tuple[Note, ...]:
    """Developers of several parts of which the plan knows the first bottle and not those of the others."""
    found: dict[tuple[str, int], Note] = {}
    for load, act in fillings(plan):
        process = processes[load.process]
        if act.kind != BathKind.DEVELOP.value or act.after == AfterUse.BACK.value:
            continue
        if _holds(evening.bottles, process, act) is None:
            continue
        for part, part_ml in enumerate(load.parts_ml[1:], 2):
            if part in PART_KEYS and part_bottle(process, act.bottle, part) is None:
                code = f"planning.course.{PART_KEYS[part]}_unknown"
                found.setdefault((load.developer, part), Note(code, {"developer": load.developer, "part_ml": part_ml}))
    return tuple(found.values())


def _from_bottles(holds: str, volume_ml: float, bottles: Iterable[Bottle]) -> list[Draw]:
    same = [bottle for bottle in bottles if plain_name(bottle.holds) == plain_name(holds)]
    same.sort(key=lambda bottle: (bottle.mixed or dt.date.max, bottle.mark))
    left = volume_ml
    draws = []
    for bottle in same:
        take = left if bottle.volume_ml is None else min(left, bottle.volume_ml)
        if take <= 0:
            continue
        cost = None if bottle.price_per_l is None else take / 1000.0 * bottle.price_per_l
        rest = None if bottle.volume_ml is None else bottle.volume_ml - take
        draws.append(Draw(bottle.mark, bottle.holds, take, rest, cost))
        left -= take
    return draws


def waste_of_evening(plan: Plan, renewed_ml: float, set_aside_ml: float = 0.0) -> tuple[Waste, ...]:
    """What goes into which waste vessel; a fixer that is renewed goes to its own, because it holds silver. [ml]

    ``set_aside_ml`` is used developer that replenisher took the place of.
    """
    volumes: dict[str, float] = {}
    for _, act in fillings(plan):
        if act.kind in WATER_KINDS or act.after == AfterUse.BACK.value:
            continue
        vessel = WASTE_OF_KIND.get(act.kind, "planning.course.waste_other")
        volumes[vessel] = volumes.get(vessel, 0.0) + (act.volume_ml or 0.0)
    if set_aside_ml > 0:
        developer = WASTE_OF_KIND[BathKind.DEVELOP.value]
        volumes[developer] = volumes.get(developer, 0.0) + set_aside_ml
    if renewed_ml > 0:
        fixer = WASTE_OF_KIND[BathKind.FIX.value]
        volumes[fixer] = volumes.get(fixer, 0.0) + renewed_ml
    return tuple(Waste(vessel, volume) for vessel, volume in sorted(volumes.items()))


def fix_baths(process: Process) -> list[str | None]:
    """Bottle marks of the fixing baths of a process that go back to their bottles."""
    return [bath.bottle for bath in baths_of(process) if bath.does is BathKind.FIX and bath.after is AfterUse.BACK]
