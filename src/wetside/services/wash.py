"""Washing by changes of water: what is left after each, whether that is enough, water used."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.bath_data import load_wash_methods
from wetside.chemistry import (
    Carried,
    fills_to_limit,
    residual_limit_mg,
    residual_ug_per_cm2,
    slowest_half_time_s,
    wash_by_half_time,
    wash_fraction,
    wash_notes,
    water_of_fills_l,
    water_of_running_wash_l,
)
from wetside.chemistry.wash import CARRIED_BY_A_UNIT, RESIDUAL_LIMIT_UG_PER_CM2
from wetside.errors import OutOfRangeError, RefusedError
from wetside.services.options import needs, typed, typed_or_none, whole
from wetside.units import parse_duration_s, parse_number, parse_size, parse_temp_c, parse_volume_ml
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from wetside.chemistry import WashMethod


class WashAnswers(NamedTuple):
    """What was typed."""

    fill: str
    changes: str = "3"
    each: str = "2:00"
    sheets: str = "4"
    size: str = "4x5in"
    walls: str | None = None
    thiosulfate: str = "60"
    half_time: str | None = None
    water: str | None = None
    process: str = "20 C"
    limit: str | None = None
    flow: str | None = None
    running: str | None = None
    on_a_wall: bool = False
    hardened: bool = False


class Washed(NamedTuple):
    """Answer. ``left`` is for each change the residue at full balance [ug/cm2], and the same with the half-time.

    ``fraction`` is the share that one change leaves of all that is carried [1]; ``running_l`` what running water would
    have taken [l], None if it was not asked; ``methods`` those that hold for this water and fixer.
    """

    fraction: float
    left: tuple[float, ...]
    lagging: tuple[float, ...]
    limit_ug_per_cm2: float
    needed: int
    slowest_s: float | None
    water_l: float
    running_l: float | None
    time_s: float
    notes: tuple[tuple[str, dict[str, object]], ...]
    methods: tuple[WashMethod, ...]


def wash(answers: WashAnswers) -> Washed:
    """Work out a wash by changes.

    Raises
    ------
    WetsideError
        Naming the option that cannot be taken.
    """
    fill_ml = typed("VOLUME", parse_volume_ml, answers.fill)
    changes = typed("--changes", whole, answers.changes)
    each_s = typed("--each", parse_duration_s, answers.each)
    _, width_mm, height_mm = typed("--size", parse_size, answers.size)
    area_cm2 = typed("--count", whole, answers.sheets) * width_mm * height_mm / 100.0
    units = area_cm2 / UNIT_AREA_CM2
    walls_ml = typed_or_none("--walls", parse_volume_ml, answers.walls)
    carried = Carried(
        CARRIED_BY_A_UNIT.emulsion_ml * units,
        CARRIED_BY_A_UNIT.surface_ml * units,
        CARRIED_BY_A_UNIT.walls_ml if walls_ml is None else walls_ml,
    )
    start_mg = typed("--thiosulfate", parse_number, answers.thiosulfate) * carried.total_ml
    limit = RESIDUAL_LIMIT_UG_PER_CM2 if answers.limit is None else typed("--limit", _limit, answers.limit)
    limit_mg = residual_limit_mg(area_cm2, limit)
    water_c = typed_or_none("--water", parse_temp_c, answers.water)
    share = carried.emulsion_ml / carried.total_ml
    left = tuple(
        residual_ug_per_cm2(start_mg * share * wash_fraction(carried.total_ml, fill_ml, change), area_cm2)
        for change in range(1, changes + 1)
    )
    half_time_s = typed_or_none("--half-time", parse_duration_s, answers.half_time)
    times = (each_s,) * changes
    lagging: tuple[float, ...] = ()
    if half_time_s is not None:
        steps = wash_by_half_time(start_mg, carried, fill_ml, times, half_time_s)
        lagging = tuple(residual_ug_per_cm2(step.emulsion_mg, area_cm2) for step in steps)
    try:
        slowest_s = slowest_half_time_s(start_mg, carried, fill_ml, times, limit_mg)
    except RefusedError:
        slowest_s = None
    return Washed(
        wash_fraction(carried.total_ml, fill_ml, 1),
        left,
        lagging,
        limit,
        fills_to_limit(start_mg, limit_mg / share, carried.total_ml, fill_ml),
        slowest_s,
        water_of_fills_l(changes, fill_ml),
        _running_l(answers),
        changes * each_s,
        wash_notes(
            water_c,
            typed("--process", parse_temp_c, answers.process),
            hardened=answers.hardened,
            on_a_wall=answers.on_a_wall,
        ),
        tuple(method for method in load_wash_methods() if _holds(method, water_c, hardened=answers.hardened)),
    )


def _limit(text: str) -> float:
    """Residue that is allowed, 0.1 to 100: standards for film lie between. [ug/cm2]"""
    value = parse_number(text)
    if not 0.1 <= value <= 100.0:
        raise OutOfRangeError("services.residue_limit", value=value, low=0.1, high=100.0)
    return value


def _running_l(answers: WashAnswers) -> float | None:
    if answers.flow is None and answers.running is None:
        return None
    flow_ml = typed("--flow", parse_volume_ml, needs("--flow", answers.flow, "--running"))
    running_s = typed("--running", parse_duration_s, needs("--running", answers.running, "--flow"))
    return water_of_running_wash_l(flow_ml / 1000.0, running_s / 60.0)


def _holds(method: WashMethod, water_c: float | None, *, hardened: bool) -> bool:
    """Whether a published way is for film, for water of this temperature and for this fixer."""
    if not method.film or (hardened and method.non_hardened):
        return False
    return water_c is None or method.coldest_c <= water_c <= method.warmest_c
