"""Scripts: from a load of a plan, and from four words."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.planning.documents.evening import Process, Vessel
from wetside.planning.documents.plan import Act
from wetside.planning.documents.words import BathKind, VesselKind
from wetside.planning.resolved import ACID_WORDS
from wetside.planning.schedule import FROM_FULL, TO_DRAINED, PourParts, schedule_of_load
from wetside.runs.script import (
    DRAIN_S,
    FLOOR_S,
    HANG,
    LIGHTS_ON,
    LIGHTS_OUT,
    POUR_S,
    START,
    RunSheet,
    Script,
    bath_number,
)
from wetside.values.conditions import ClockRule, StopKind
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wetside.development.coefficient import TemperatureCoefficient
    from wetside.planning.documents.plan import Load, PlannedSheet

SHORTEST_S, LONGEST_S = 30.0, 86_400.0


class Handling(NamedTuple):
    """How long this vessel takes to fill and to drain, as its runs have shown. [s]"""

    pour_s: float
    drain_s: float


class KeptVessel(NamedTuple):
    """A vessel of the archive, for a run without a plan: what it is called, what it is, and what is known of it.

    ``learned`` says whether pour and drain were learned in runs, not only stated; ``tau_s`` how fast it follows its
    jacket [s], ``jacket_off_c`` by how much that stands above what is meant [C]; None where nobody learned it.
    """

    name: str
    kind: str
    handling: Handling
    learned: bool = False
    tau_s: float | None = None
    jacket_off_c: float | None = None


POURED_KINDS = (VesselKind.DRUM, VesselKind.TUBES)
"""Vessels that a run without a plan can be in: liquids are poured into them, and all sheets have one time."""


def script_of_load(
    load: Load,
    sheets: Iterable[PlannedSheet],
    *,
    coefficient: TemperatureCoefficient | None = None,
    handling: Handling | None = None,
    floor_s: float = FLOOR_S,
    reads_high_c: float | None = None,
    tau_s: float | None = None,
    jacket_c: float | None = None,
    guided_loading: bool = False,
    in_the_dark: bool = True,
) -> Script:
    """Script of a planned load.

    Parameters
    ----------
    load : Load
        With its schedule.
    sheets : iterable of PlannedSheet
        Of the plan; those of other loads are passed over.
    coefficient : TemperatureCoefficient, optional
        Of the developer; without it temperatures are kept and nothing is reckoned from them.
    handling : Handling, optional
        Learned times of the vessel; else those of the plan.
    floor_s : float
        Shortest developing time that is trusted. [s]
    reads_high_c : float, optional
        Offset of the instrument; else the plan's. [C]
    tau_s, jacket_c : float, optional
        How fast the vessel follows its jacket [s], and the jacket's temperature [C].
    guided_loading : bool
        Tell each sheet's place one by one, where the device stays in the room.
    in_the_dark : bool
        Ask what must be right before lights out and before lights on.

    Raises
    ------
    RefusedError
        If the load has no schedule.
    """
    if not load.schedule:
        raise RefusedError("runs.script.no_schedule", load=load.number)
    known = {sheet.id: sheet for sheet in sheets}
    own = tuple(
        RunSheet(name, found.film, found.area_cm2, found.weight, found.aim_range)
        if (found := known.get(name)) is not None
        else RunSheet(name)
        for name in load.sheets
    )
    clock = ClockRule(load.clock)
    developing = [act for act in load.schedule if act.kind == BathKind.DEVELOP.value and act.does == "pour"]
    full = next((act for act in load.schedule if act.does == "full"), None)
    drain = next((act for act in load.schedule if act.does == "drain"), None)
    pour_s = full.offset_s if full is not None else POUR_S
    drain_s = drain.duration_s if drain is not None and drain.duration_s is not None else DRAIN_S
    acts = acts_of_run(load.schedule)
    if handling is not None:
        acts = acts_with_handling(acts, clock, handling)
        pour_s, drain_s = handling
    if in_the_dark:
        acts = (*holds(own, guided_loading=guided_loading), *acts)
    return Script(
        name=", ".join(dict.fromkeys(sheet.film for sheet in own if sheet.film)) or load.process,
        developer=load.developer,
        dilution=load.dilution,
        vessel=load.vessel,
        vessel_kind=load.vessel_kind,
        clock=clock,
        stop=stop_of_acts(load.schedule, bath_number(developing[-1].key)),
        time_s=load.time_s,
        temp_c=load.temp_c,
        acts=acts,
        sheets=own,
        reads_high_c=load.shown_temp_c - load.temp_c if reads_high_c is None else reads_high_c,
        thermometer=load.thermometer,
        per_c=None if coefficient is None else coefficient.per_c,
        span_c=None if coefficient is None else coefficient.span_c,
        tau_s=tau_s,
        jacket_c=jacket_c,
        floor_s=floor_s,
        pour_s=pour_s,
        drain_s=drain_s,
        learned=handling is not None,
        volume_ml=load.volume_ml,
        concentrate_ml=load.concentrate_ml,
        wetting_ml=load.check.wetting_ml,
        agent_ratio=load.check.agent_ratio,
    )


def quick_script(
    film: str,
    developer: str,
    time_s: float,
    *,
    temp_c: float = 20.0,
    handling: Handling | None = None,
    coefficient: TemperatureCoefficient | None = None,
    reads_high_c: float = 0.0,
    floor_s: float = FLOOR_S,
    kept: KeptVessel | None = None,
) -> Script:
    """Script without a plan: film, developer, minutes; the other baths are the usual ones.

    Parameters
    ----------
    film, developer : str
    time_s : float
        Developing time, from full to the drain begun. [s]
    temp_c : float
        True temperature. [C]
    handling : Handling, optional
        Learned times of the vessel; else a typical drum's.
    coefficient : TemperatureCoefficient, optional
        As for :func:`script_of_load`.
    reads_high_c : float
        What the thermometer shows too much. [C]
    floor_s : float
        Shortest developing time that is trusted. [s]
    kept : KeptVessel, optional
        The vessel, where it is one of the archive: its pour, drain and jacket hold, and its runs teach it.

    Raises
    ------
    OutOfRangeError
        If the time is under half a minute or over a day.
    """
    if kept is not None:
        handling = kept.handling
    if not SHORTEST_S <= time_s <= LONGEST_S:
        raise OutOfRangeError("runs.script.time", value=time_s, low_s=SHORTEST_S, high_s=LONGEST_S)
    pour_s, drain_s = handling or Handling(POUR_S, DRAIN_S)
    vessel = Vessel(
        name="drum", kind=VesselKind.DRUM, places=(("any", 1),), min_ml=1.0, max_ml=1.0, pour_s=pour_s, drain_s=drain_s
    )
    process = Process(name=developer, developer=developer, temp_c=temp_c)
    acts = schedule_of_load(process, vessel, time_s, PourParts(0.0, 0.0, 0.0), temp_c, reads_high_c)
    # Nothing is known of volumes here, and nothing is said of them.
    acts = tuple(act._replace(volume_ml=None, concentrate_ml=None, water_ml=None) for act in acts)
    return Script(
        name=film,
        developer=developer,
        dilution="",
        vessel="" if kept is None else kept.name,
        vessel_kind=VesselKind.DRUM.value if kept is None else kept.kind,
        clock=process.clock,
        stop=stop_of_acts(acts, 1),
        time_s=time_s,
        temp_c=temp_c,
        acts=acts_of_run(acts),
        reads_high_c=reads_high_c,
        per_c=None if coefficient is None else coefficient.per_c,
        span_c=None if coefficient is None else coefficient.span_c,
        tau_s=None if kept is None else kept.tau_s,
        jacket_c=None if kept is None or kept.jacket_off_c is None else temp_c + kept.jacket_off_c,
        floor_s=floor_s,
        pour_s=pour_s,
        drain_s=drain_s,
        learned=handling is not None if kept is None else kept.learned,
    )


def holds(sheets: Sequence[RunSheet], *, guided_loading: bool) -> tuple[Act, ...]:
    """Acts before the first liquid: one merged question before lights out, one before lights on."""

    def act(key: str, does: str, sheet: str | None = None) -> Act:
        return Act(
            key=key, does=does, anchor=START, offset_s=0.0, clock_s=0.0, bath="", kind=BathKind.OTHER.value, sheet=sheet
        )

    loading = tuple(act(f"dark.load.{place}", "load", one.id) for place, one in enumerate(sheets, 1))
    return (act(LIGHTS_OUT, "hold"), *(loading if guided_loading else ()), act(LIGHTS_ON, "hold"))


def acts_of_run(acts: Sequence[Act]) -> tuple[Act, ...]:
    """Acts of a plan with "full" for every bath in the vessel, because that is what hands tell.

    The plan gives it for developers only; for the others it lies where the plan's own drain leaves it.
    """
    given = {act.key for act in acts}
    found: list[Act] = []
    for act in acts:
        number = act.key.partition(".")[0]
        full = f"{number}.full"
        if act.does == "drain" and full not in given:
            before = found[-1]
            if before.does == "full":
                act = act._replace(anchor=full, offset_s=before.duration_s or 0.0)  # noqa: PLW2901 (the act as run)
        found.append(act)
        if act.does == "pour" and full not in given and f"{number}.drain" in given:
            drain = next(one for one in acts if one.key == f"{number}.drain")
            pour_s = max(0.0, drain.offset_s - (act.duration_s or 0.0))
            found.append(
                act._replace(
                    key=full, does="full", anchor=act.key, offset_s=pour_s, clock_s=act.clock_s + pour_s, waits=False
                )
            )
    return tuple(found)


def acts_with_handling(acts: Sequence[Act], clock: ClockRule, handling: Handling) -> tuple[Act, ...]:
    """Acts with a vessel's own pour and drain in place of the planned ones; the developing time stays what it is."""
    drains = {act.key: act for act in acts if act.does == "drain"}
    found: list[Act] = []
    for act in acts:
        changed = act
        if act.does == "full":
            changed = act._replace(offset_s=handling.pour_s)
        elif act.does == "drain":
            changed = act._replace(duration_s=handling.drain_s)
            if act.kind == BathKind.DEVELOP.value and clock in TO_DRAINED:
                changed = changed._replace(offset_s=act.offset_s + (act.duration_s or 0.0) - handling.drain_s)
        elif act.anchor in drains:
            changed = act._replace(offset_s=handling.drain_s)
        found.append(changed)
    return tuple(found)


def stop_of_acts(acts: Iterable[Act], last_developing: int) -> StopKind:
    """What ends development: the bath after the last developing one, acid only if it is a stop and not called water."""
    for act in acts:
        if act.key != HANG and bath_number(act.key) == last_developing + 1:
            acid = act.kind == BathKind.STOP.value and not any(word in plain_name(act.bath) for word in ACID_WORDS)
            return StopKind.ACID if acid else StopKind.WATER
    return StopKind.WATER


def clock_anchor(clock: ClockRule) -> str:
    """Which act starts the developing clock: ``full`` or ``pour``."""
    return "full" if clock in FROM_FULL else "pour"
