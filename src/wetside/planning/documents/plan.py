"""The plan's types: a self-contained document from which a load can be run without anything else.

Sentences are not written here: notes and steps are codes with parameters, and ``wetside.wording`` says them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.documents.note import Note

if TYPE_CHECKING:
    from wetside.planning.documents.course import Course
    from wetside.values.evidence import Evidence, Source

__all__ = [
    "PLAN_FORMAT",
    "Act",
    "Load",
    "Note",
    "Plan",
    "PlannedSheet",
    "ReckoningStep",
    "Rung",
    "Unplanned",
    "VesselWarmth",
    "VolumeCheck",
]

PLAN_FORMAT = 1


class ReckoningStep(NamedTuple):
    """One line of the way to a number.

    ``value`` is the running value after the step in ``unit``; ``factor`` what the step multiplied it by (None for the
    first line and for lines that only inform); ``effect_density`` the change of density range it stands for, where
    that can be told.
    """

    code: str
    params: dict[str, Any]
    value: float
    unit: str
    factor: float | None
    evidence: Evidence
    source: Source | None = None
    spread: float | None = None
    effect_density: float | None = None


class PlannedSheet(NamedTuple):
    """What a sheet needs, and where it went.

    ``time_s`` is the sheet's own time; ``window_s`` the closed interval that keeps it inside its aim; ``load`` the
    number of its load; ``deviation`` (1 is the edge of its window), ``density`` (predicted range less aim, None
    without a family) and ``percent`` (of time, signed) are those of the load's time.
    """

    id: str
    film: str
    size: str
    area_cm2: float
    process: str
    vessel: str
    aim: str | None
    aim_range: float
    aim_tolerance: float
    group: int
    importance: str
    suspect: bool
    twin: str | None
    n: float | None
    required_gradient: float | None
    time_s: float
    window_s: tuple[float, float]
    evidence: Evidence
    stop_error: float
    stop_error_highlight: float
    weight: float
    load: int
    load_time_s: float
    deviation: float
    density: float | None
    density_guess: float | None
    percent: float
    reckoning: tuple[ReckoningStep, ...]
    notes: tuple[Note, ...] = ()


class Act(NamedTuple):
    """One thing that hands do, anchored to an earlier act.

    ``offset_s`` counts from the moment named by ``anchor`` (``start`` or the key of an earlier act); ``clock_s`` is
    the same moment on a clock that shows 0:00 when the first developing time begins, negative before it.
    """

    key: str
    does: str
    anchor: str
    offset_s: float
    clock_s: float
    bath: str
    kind: str
    bottle: str | None = None
    volume_ml: float | None = None
    concentrate_ml: float | None = None
    water_ml: float | None = None
    duration_s: float | None = None
    temp_c: float | None = None
    shown_temp_c: float | None = None
    after: str | None = None
    changes: int = 1
    out_of_vessel: bool = False
    sheet: str | None = None
    waits: bool = True


class VolumeCheck(NamedTuple):
    """The two needs of a load, never merged: liquid to wet the vessel, agent for the film.

    ``binds`` is ``wetting``, ``agent`` or ``vessel`` (the agent would want more than the vessel holds).
    ``agent_ratio`` is the agent given over the agent under which the time was found; None where no reference is known.
    ``passes`` lists what would meet the reference: volume, dilution or sheet count.
    """

    wetting_ml: float
    agent_need_ml: float | None
    area_cm2: float
    weighted_area_cm2: float
    binds: str
    agent_ratio: float | None
    agent_effect_density: float | None
    passes: tuple[Note, ...] = ()


class VesselWarmth(NamedTuple):
    """What a vessel of another temperature does to the developer poured into it. [C]

    ``vessel_c`` the vessel's, after a pre-soak; ``stands_c`` where a developer poured at the load's temperature comes
    to stand; ``pour_c`` what to pour so that it stands there, None where that is too far to pour. ``time_percent`` and
    ``density`` say what standing off does; None where the developer's coefficient is not known.
    """

    vessel_c: float
    stands_c: float
    pour_c: float | None
    time_percent: float | None
    density: float | None


class Load(NamedTuple):
    """Sheets planned for one development together."""

    number: int
    group: int
    process: str
    process_version: int
    developer: str
    dilution: str
    vessel: str
    vessel_kind: str
    temp_c: float
    shown_temp_c: float
    thermometer: str
    clock: str
    sheets: tuple[str, ...]
    time_s: float
    own_times_s: tuple[float, ...] | None
    volume_ml: float
    concentrate_ml: float
    water_ml: float
    parts_ml: tuple[float, ...]
    check: VolumeCheck
    worst_deviation: float
    worst_density: float | None
    worst_density_guess: float | None
    worst_percent: float
    worst_sheet: str
    window_s: tuple[float, float]
    schedule: tuple[Act, ...]
    notes: tuple[Note, ...] = ()
    warmth: VesselWarmth | None = None


class Rung(NamedTuple):
    """What a number of loads costs.

    ``proved`` says whether ``worst_deviation`` is proved smallest for that number; ``broken`` names the sheets whose
    window breaks; ``alike`` is True where the rung differs from the chosen one by less than a thermometer resolves.
    """

    loads: int
    worst_deviation: float
    worst_density: float | None
    worst_density_guess: float | None
    worst_percent: float
    worst_sheet: str
    next_deviation: float | None
    broken: tuple[str, ...]
    proved: bool
    chosen: bool
    alike: bool = False
    without: str | None = None
    """``twins`` or ``suspects`` where the rung drops that rule, to show what it costs."""


class Unplanned(NamedTuple):
    """A sheet for which no time can be given, and why."""

    id: str
    code: str
    params: dict[str, Any]


class Plan(NamedTuple):
    """The evening's plan."""

    format: int
    tool: str
    name: str
    date: str
    lower_bound: int
    proved: bool
    loads: tuple[Load, ...]
    ladder: tuple[Rung, ...]
    sheets: tuple[PlannedSheet, ...]
    unplanned: tuple[Unplanned, ...]
    notes: tuple[Note, ...]
    cautions: tuple[Note, ...]
    sources: tuple[str, ...]
    evening: dict[str, Any]
    course: Course | None = None
    """What happens around the loads; None where nothing could be planned."""
