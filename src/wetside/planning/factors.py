"""Moving a time from the conditions that it was made under to tonight's: each factor once, each shown."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.development import (
    TemperatureCoefficient,
    TimePair,
    agitation_factor,
    choose_cut,
    coefficient_of_pairs,
    convert_clock_s,
    named_coefficient,
    require_warm_enough,
    temperature_factor,
)
from wetside.errors import RefusedError
from wetside.planning.documents.plan import Note, ReckoningStep
from wetside.planning.resolved import has_presoak, stop_of
from wetside.planning.reuse import reuse_step
from wetside.planning.ways import agitation_of
from wetside.values.conditions import Agitation
from wetside.values.evidence import Evidence, Source
from wetside.values.names import name_key

if TYPE_CHECKING:
    from wetside.development import ContinuousCut
    from wetside.planning.documents.evening import Developer, Evening, Process, Vessel
    from wetside.planning.library import Library
    from wetside.values.conditions import Conditions

SAME_TEMP_C = 0.05
"""Two temperatures nearer than this are one: a thermometer resolves no more. [C]"""


class Moved(NamedTuple):
    """The factor from a row's conditions to tonight's, the lines that lead there, and what to know of it."""

    factor: float
    steps: tuple[ReckoningStep, ...]
    notes: tuple[Note, ...]


class Factor(NamedTuple):
    """One factor with its evidence, before the running value is known."""

    code: str
    params: dict[str, object]
    factor: float
    evidence: Evidence
    source: Source | None = None
    spread: float | None = None


def temp_tonight_c(evening: Evening, process: Process) -> float:
    """True temperature of the developer tonight: the process's, or a jacket's that cannot be brought there. [C]"""
    reading = evening.thermometer.jacket_reading_c
    if reading is None:
        return process.temp_c
    return reading - evening.thermometer.reads_high_c


def coefficient_of(name: str, developer: Developer | None, library: Library) -> TemperatureCoefficient | None:
    """Temperature coefficient of a developer: named by the user, else from own pairs, else from published ones."""
    if developer is not None and developer.coefficient_per_c is not None:
        return named_coefficient(developer.coefficient_per_c, Source("own", "your choice"))
    if developer is not None and developer.pairs:
        return coefficient_of_pairs(
            tuple(
                TimePair(
                    pair.cold_c,
                    pair.cold_s,
                    pair.warm_c,
                    pair.warm_s,
                    Evidence.TESTED if pair.own else Evidence.PUBLISHED,
                    Source("own", pair.source or "your pair"),
                )
                for pair in developer.pairs
            )
        )
    published = name_key((developer.published if developer else None) or name)
    pairs = library.pairs.get(published)
    return coefficient_of_pairs(pairs) if pairs else None


def _temperature(
    basis: Conditions, process: Process, evening: Evening, developer: Developer | None, library: Library
) -> Factor | None:
    tonight_c = temp_tonight_c(evening, process)
    if abs(tonight_c - basis.temp_c) < SAME_TEMP_C:
        return None
    if developer is not None and developer.hydroquinone:
        require_warm_enough(tonight_c, hydroquinone=True)
    coefficient = coefficient_of(process.developer, developer, library)
    if coefficient is None:
        raise RefusedError("planning.no_coefficient", developer=process.developer, from_c=basis.temp_c, to_c=tonight_c)
    return Factor(
        "planning.temperature",
        {"from_c": basis.temp_c, "to_c": tonight_c, "per_c": coefficient.per_c},
        temperature_factor(coefficient, basis.temp_c, tonight_c),
        coefficient.evidence,
        coefficient.source,
        None if coefficient.spread is None else coefficient.spread * abs(tonight_c - basis.temp_c),
    )


def _agitation(basis: Conditions, source: Source, process: Process, vessel: Vessel, library: Library) -> Factor | None:
    wanted, presoak = agitation_of(process, vessel), has_presoak(process)
    if wanted is basis.agitation and basis.presoak in (None, presoak):
        return None

    def cut(agitation: Agitation) -> ContinuousCut | None:
        return choose_cut(library.cuts, agitation, source.key)

    found = agitation_factor(
        basis.agitation,
        wanted,
        presoak_from=basis.presoak,
        presoak_to=presoak,
        cut=cut(Agitation.ROTARY),
        tray_cut=cut(Agitation.TRAY),
    )
    if found.value == 1.0 and found.spread == 0.0:
        return None
    return Factor(
        "planning.agitation_presoak" if presoak else "planning.agitation",
        {"from_class": basis.agitation.value, "to_class": wanted.value},
        found.value,
        found.evidence,
        found.source,
        found.spread,
    )


def _clock(basis: Conditions, process: Process, vessel: Vessel, time_s: float) -> tuple[Factor | None, Note | None]:
    """A changed clock rule counts from 2 % of the time on; below that it is mentioned only."""
    if basis.clock is None and basis.stop is None:
        return None, None
    wanted_stop = stop_of(process)
    from_clock, from_stop = basis.clock or process.clock, basis.stop or wanted_stop
    if from_clock is process.clock and from_stop is wanted_stop:
        return None, None
    converted = convert_clock_s(
        time_s,
        basis.clock,
        process.clock,
        basis.stop,
        wanted_stop,
        pour_s=vessel.pour_s,
        drain_s=vessel.drain_s,
        stop_pour_s=vessel.pour_s,
    )
    params: dict[str, object] = {
        "from_rule": from_clock.value,
        "to_rule": process.clock.value,
        "from_stop": from_stop.value,
        "to_stop": wanted_stop.value,
        "difference_s": converted.time_s - time_s,
    }
    if not converted.is_same:
        return Factor(
            "planning.clock",
            params,
            converted.factor,
            Evidence.CONVERTED,
            Source("corrections", "effective time from pour to stop"),
        ), None
    return None, Note("planning.clock_same", params)


def move_time(
    time_s: float,
    basis: Conditions,
    source: Source,
    process: Process,
    vessel: Vessel,
    evening: Evening,
    developer: Developer | None,
    library: Library,
) -> Moved:
    """Factor that moves a time to tonight's temperature, agitation, clock and stop.

    Parameters
    ----------
    time_s : float
        The time under the conditions of its source. [s]
    basis : Conditions
        Those conditions.
    source : Source
        Where the time comes from; a cut for agitation that the same sheet prints is preferred.

    Raises
    ------
    RefusedError
        Outside the span of the developer's pairs, for an agitation that cannot be converted, or without a coefficient.
    """
    steps: list[ReckoningStep] = []
    notes: list[Note] = []
    value, total = time_s, 1.0
    for found in (
        _temperature(basis, process, evening, developer, library),
        _agitation(basis, source, process, vessel, library),
    ):
        if found is None:
            continue
        value *= found.factor
        total *= found.factor
        steps.append(_step(found, value))
        if found.code == "planning.agitation_presoak":
            notes.extend(
                Note("planning.presoak_advice", {"maker": advice.maker, "source": advice.source.key})
                for advice in library.presoak_against
            )
    clock, said = _clock(basis, process, vessel, value)
    if clock is not None:
        value *= clock.factor
        total *= clock.factor
        steps.append(_step(clock, value))
    if said is not None:
        notes.append(said)
    reused, remarks = reuse_step(value, process, evening, developer, library)
    notes.extend(remarks)
    if reused is not None and reused.factor is not None:
        value *= reused.factor
        total *= reused.factor
        steps.append(reused)
    if not math.isfinite(value) or value <= 0:
        raise RefusedError("planning.time_lost", time_s=time_s)
    return Moved(total, tuple(steps), tuple(notes))


def _step(found: Factor, value: float) -> ReckoningStep:
    return ReckoningStep(
        found.code, dict(found.params), value, "s", found.factor, found.evidence, found.source, found.spread
    )
