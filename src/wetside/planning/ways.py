"""What a process's way of developing asks of its sheets, its vessel and its clock."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeVar

from wetside.development import Way
from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import BathKind
from wetside.planning.resolved import AGITATION_OF_VESSEL, baths_of
from wetside.values.conditions import Agitation

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wetside.development.ways import Remark
    from wetside.planning.documents.evening import Film, FilmTest, FilmTime, Process, Vessel
    from wetside.values.dilution import Dilution

    Row = TypeVar("Row", FilmTest, FilmTime)

STILL = frozenset({Way.STAND, Way.SEMI_STAND})
"""Ways in which the liquid rests: the vessel is full and does not turn."""


class Moment(NamedTuple):
    """Something that hands do inside the developing time: ``agitate`` or ``inspect``, from the clock's start. [s]"""

    does: str
    at_s: float
    lasts_s: float


class LoadWay(NamedTuple):
    """What the way adds to a load."""

    moments: tuple[Moment, ...]
    notes: tuple[Note, ...]


def agitation_of(process: Process, vessel: Vessel) -> Agitation:
    """How the liquid moves: by the vessel, or not at all in a still development."""
    return Agitation.STAND if process.way in STILL else AGITATION_OF_VESSEL[vessel.kind]


def same_way_first(rows: list[Row], process: Process) -> list[Row]:
    """Rows of the process's own way where there are any, else all of them."""
    same = [row for row in rows if row.way is process.way]
    return same or rows


def fillings_of(process: Process) -> int:
    """How many fillings of developer share the film: more than one only where it is replaced on the way. [1]"""
    if process.way is not Way.REPLACED:
        return 1
    return sum(1 for bath in baths_of(process) if bath.does is BathKind.DEVELOP)


def free_time_s(process: Process) -> float | None:
    """Developing time that no sheet decides: that of two baths, each with its own; None elsewhere. [s]"""
    if process.way is not Way.TWO_BATH:
        return None
    times = [bath.time_s for bath in baths_of(process) if bath.does is BathKind.DEVELOP]
    known = [time_s for time_s in times if time_s is not None]
    return sum(known) if len(known) == len(times) and len(known) > 1 else None


def least_volume_ml(process: Process, vessel: Vessel) -> float:
    """Least liquid in a vessel: what wets it, or all that it holds in a still development. [ml]"""
    return vessel.max_ml if process.way in STILL else vessel.min_ml


def way_of_load(
    process: Process,
    films: Sequence[Film],
    area_cm2: float,
    time_s: float,
    volume_ml: float,
    vessel: Vessel,
    temp_c: float,
    dilution: Dilution,
) -> LoadWay:
    """Moments inside the developing time and remarks that belong to a load's way.

    Parameters
    ----------
    process : Process
        Of the load.
    films : sequence of Film
        Of its sheets.
    area_cm2 : float
        Film in the load. [cm2]
    time_s : float
        Developing time. [s]
    volume_ml : float
        Working solution. [ml]
    vessel : Vessel
        Where it is developed.
    temp_c : float
        Of the developer. [C]
    dilution : Dilution
        Of the developer.

    Raises
    ------
    WetsideError
        If the way does not suit the film, the vessel or the time.
    """
    if process.way in STILL:
        return _still(process, area_cm2, time_s, volume_ml, vessel, dilution)
    if process.way is Way.INSPECTION:
        return _inspection(process, films, time_s)
    if process.way is Way.TWO_BATH and area_cm2 > 0:
        return _two_bath(process, area_cm2, volume_ml, temp_c)
    return LoadWay((), ())


def _notes(remarks: Iterable[Remark]) -> tuple[Note, ...]:
    return tuple(Note(remark.code, dict(remark.params)) for remark in remarks)


def _still(
    process: Process, area_cm2: float, time_s: float, volume_ml: float, vessel: Vessel, dilution: Dilution
) -> LoadWay:
    from wetside.development import stand_plan

    plan = stand_plan(
        time_s,
        agitation=Agitation.STAND,
        volume_ml=volume_ml,
        full_ml=vessel.max_ml,
        area_cm2=area_cm2 or 1.0,
        agent_ml=volume_ml * dilution.agent_fraction,
        moments=process.moments if process.way is Way.SEMI_STAND else 0,
    )
    moments = tuple(Moment("agitate", moment.at_s, moment.lasting_s) for moment in plan.moments)
    return LoadWay(moments, _notes(plan.remarks))


def _inspection(process: Process, films: Sequence[Film], time_s: float) -> LoadWay:
    from wetside.development import Safelight, inspection_plan

    tested = [film.light_tested_s for film in films]
    known = [value for value in tested if value is not None]
    plan = inspection_plan(
        time_s,
        safelight=Safelight.NONE if any(film.safelight is Safelight.NONE for film in films) else Safelight.DEEP_RED,
        distance_m=process.lamp_mm / 1000.0,
        tested_light_s=min(known) if len(known) == len(tested) else None,
        looks=process.moments or 1,
    )
    return LoadWay(tuple(Moment("inspect", look.at_s, look.lasting_s) for look in plan.looks), _notes(plan.remarks))


def _two_bath(process: Process, area_cm2: float, volume_ml: float, temp_c: float) -> LoadWay:
    from wetside.development import two_bath_plan

    first, second = [bath for bath in baths_of(process) if bath.does is BathKind.DEVELOP][:2]
    plan = two_bath_plan(
        area_cm2,
        first.volume_ml or volume_ml,
        second.volume_ml or volume_ml,
        soak_s=first.time_s or 1.0,
        act_s=second.time_s or 1.0,
        temp_a_c=first.temp_c or temp_c,
        temp_b_c=second.temp_c or temp_c,
    )
    return LoadWay((), _notes(plan.remarks))
