"""What an evening file answers of ``wetside temper``: vessel, room, temperature, aim, coefficient."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.evening_file import read_evening
from wetside.errors import InputError, Place
from wetside.services.library import load_library
from wetside.services.options import needs
from wetside.units import write_mass, write_temp, write_volume
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from wetside.development.coefficient import TemperatureCoefficient
    from wetside.planning.documents.evening import Evening, Process


class TemperAnswers(NamedTuple):
    """What was typed; None where nothing was said. With an evening ``vessel`` is a name, without one a mass."""

    liquid: str | None = None
    liquid_temp: str | None = None
    vessel: str | None = None
    vessel_temp: str | None = None
    material: str | None = None
    jacket: str | None = None
    tau: str | None = None
    time: str | None = None
    coefficient: str | None = None
    developer: str | None = None
    density_range: str | None = None
    bottle: str | None = None
    reads: str | None = None
    after: str | None = None
    hot: str | None = None
    cold: str | None = None
    want: str | None = None
    total: str | None = None
    bath: str | None = None
    bath_temp: str | None = None
    heater: str | None = None
    evening: str | None = None


class OwnCoefficient(NamedTuple):
    """Coefficient of temperature of the evening's developer, and the developer's name."""

    developer: str
    coefficient: TemperatureCoefficient


def with_evening(answers: TemperAnswers, rows: Path | None) -> tuple[TemperAnswers, OwnCoefficient | None]:
    """Fill in what the evening file knows; what was typed stands.

    Parameters
    ----------
    answers : TemperAnswers
        With an evening, and the name of one of its vessels.
    rows : Path, optional
        Folder of published rows of one's own.

    Returns
    -------
    answers : TemperAnswers
        With mass, material, room, wanted temperature and range.
    own : OwnCoefficient or None
        Of the evening's developer; None where it is not known, or the evening has several processes.

    Raises
    ------
    WetsideError
        If the file cannot be taken, the vessel is not in it, or its mass is not written down.
    """
    from wetside.planning.factors import coefficient_of, temp_tonight_c

    path = Path(answers.evening or "")
    evening = read_evening(path)
    name = needs("--vessel", answers.vessel, "--evening")
    vessel = next((one for one in evening.vessels if plain_name(one.name) == plain_name(name)), None)
    place = Place(file=str(path), field="--vessel")
    if vessel is None:
        raise InputError(
            "services.no_such_vessel", place=place, value=name, known=[one.name for one in evening.vessels]
        )
    if vessel.mass_g is None or vessel.material is None:
        raise InputError("services.vessel_without_mass", place=place, vessel=vessel.name)
    process = _process(evening)
    own = None
    if process is not None:
        developer = next(
            (one for one in evening.developers if plain_name(one.name) == plain_name(process.developer)), None
        )
        found = coefficient_of(process.developer, developer, load_library(rows))
        own = None if found is None else OwnCoefficient(process.developer, found)
    aims = [one for one in evening.aims if evening.aim is None or plain_name(one.name) == plain_name(evening.aim)]
    filled = answers._replace(
        vessel=write_mass(vessel.mass_g),
        material=answers.material or str(vessel.material),
        vessel_temp=answers.vessel_temp or (None if evening.room_c is None else write_temp(evening.room_c)),
        liquid=answers.liquid or write_volume(vessel.min_ml),
        want=answers.want or (None if process is None else write_temp(temp_tonight_c(evening, process))),
        density_range=answers.density_range or (f"{aims[0].density_range:g}" if len(aims) == 1 else None),
    )
    return filled, own


def _process(evening: Evening) -> Process | None:
    """The evening's process, or its only one."""
    named = evening.process
    if named is None:
        return evening.processes[0] if len(evening.processes) == 1 else None
    return next((one for one in evening.processes if plain_name(one.name) == plain_name(named)), None)
