"""Warmth of bottle, vessel and jacket: what pouring does, how long to wait, hot and cold water, ice for a bath."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.chemistry_data import load_materials, load_water, material_word
from wetside.chemistry import (
    Ice,
    LearnedConstant,
    TemperatureEffect,
    criss_cross_temperature_ml,
    heat_capacity_j_k,
    heater_time_s,
    hot_and_cold_ml,
    ice_needed,
    learned_time_constant,
    mean_temperature_c,
    poured_temperature_c,
    relaxed_temperature_c,
    start_for_mean_c,
    temperature_effect,
    time_within_s,
)
from wetside.errors import InputError, OutOfRangeError, Place, RefusedError, WetsideError
from wetside.planning.warmth import FURTHEST_POUR_C, STILL_S
from wetside.services.options import needs, typed
from wetside.services.temper_evening import with_evening
from wetside.units import parse_duration_s, parse_mass_g, parse_number, parse_temp_c, parse_volume_ml

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.development.coefficient import TemperatureCoefficient
    from wetside.services.temper_evening import OwnCoefficient, TemperAnswers


class Effect(NamedTuple):
    """What the bath's temperature does to a negative: paper grades and zones are negative where it comes out flatter.

    ``found`` holds density and share of time; ``per_c`` the coefficient behind them [1/C].
    """

    found: TemperatureEffect
    grades: float
    zones: float
    coefficient: TemperatureCoefficient


class Pouring(NamedTuple):
    """A liquid after it was poured [C], its heat and the vessel's [J/K], and what that does to a negative, if asked.

    ``start_c`` is what to pour instead, None where that would be too far off to pour; with a jacket it is the one that
    averages the wanted temperature, and ``mean_c`` the average of what was told.
    """

    poured_c: float
    off_c: float
    liquid_j_k: float
    vessel_j_k: float
    start_c: float | None
    mean_c: float | None
    effect: Effect | None
    source: str


class Waiting(NamedTuple):
    """How long a bottle stands in its jacket until it is near enough. [C, s]"""

    bottle_c: float
    jacket_c: float
    wait_s: float


class BathChange(NamedTuple):
    """Ice that cools a bath, or the time that a heater takes. [s]"""

    ice: Ice | None
    heater_s: float | None


class HotAndCold(NamedTuple):
    """Hot and cold water, each measured at its own temperature [ml].

    ``criss_cross_percent`` is by how much the criss-cross, which knows no expansion, would measure the hot water off.
    """

    hot_ml: float
    cold_ml: float
    criss_cross_percent: float


class Tempered(NamedTuple):
    """Answer: whichever parts were asked for."""

    pouring: Pouring | None
    waiting: Waiting | None
    learned: LearnedConstant | None
    water: HotAndCold | None
    bath: BathChange | None
    want_c: float


def temper(answers: TemperAnswers, *, rows: Path | None = None) -> Tempered:
    """Work out temperatures.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    own: OwnCoefficient | None = None
    if answers.evening is not None:
        answers, own = with_evening(answers, rows)
    want_c = typed("--want", parse_temp_c, answers.want or "20 C")
    pouring = _pouring(answers, want_c, rows, own) if answers.vessel is not None else None
    water = _water(answers, want_c) if answers.hot is not None else None
    learned = _learned(answers) if answers.reads is not None else None
    waiting = _waiting(answers, learned) if answers.bottle is not None and answers.jacket is not None else None
    bath = _bath(answers, want_c) if answers.bath is not None else None
    if pouring is None and water is None and learned is None and waiting is None and bath is None:
        raise InputError("services.temper_nothing")
    return Tempered(pouring, waiting, learned, water, bath, want_c)


class _Held(NamedTuple):
    """What surrounds a filled vessel while it develops. [C, s]"""

    jacket_c: float
    tau_s: float
    time_s: float


def _pouring(answers: TemperAnswers, want_c: float, rows: Path | None, own: OwnCoefficient | None) -> Pouring:
    assert answers.vessel is not None  # noqa: S101 (the caller asks only then)
    materials = load_materials()
    named = {material_word(name): known[0] for name, known in materials.items()}
    material = named.get(material_word(answers.material or "polypropylene"))
    if material is None:
        place = Place(field="--material")
        raise InputError("services.material", place=place, value=answers.material, known=sorted(materials))
    liquid_ml = typed("--liquid", parse_volume_ml, needs("--liquid", answers.liquid, "--vessel"))
    liquid_c = typed("--at", parse_temp_c, answers.liquid_temp) if answers.liquid_temp else want_c
    vessel_c = typed("--vessel-at", parse_temp_c, needs("--vessel-at", answers.vessel_temp, "--vessel"))
    vessel_g = typed("--vessel", parse_mass_g, answers.vessel)
    poured_c = poured_temperature_c(liquid_ml, liquid_c, vessel_g, material.heat_j_gk, vessel_c)
    liquid_j_k = heat_capacity_j_k(liquid_ml)
    vessel_j_k = vessel_g * material.heat_j_gk
    held = _held(answers)
    begin_c: float | None = want_c
    if held is not None:
        try:
            begin_c = start_for_mean_c(want_c, *held)
        except RefusedError:
            begin_c = None
    # Pouring is a weighted mean: the liquid must start so much off on the other side of what is wanted.
    start_c = None if begin_c is None else begin_c + (begin_c - vessel_c) * vessel_j_k / liquid_j_k
    if start_c is not None and abs(start_c - want_c) > FURTHEST_POUR_C:
        start_c = None
    return Pouring(
        poured_c,
        poured_c - want_c,
        liquid_j_k,
        vessel_j_k,
        start_c,
        None if held is None else mean_temperature_c(poured_c, *held),
        _effect(answers, poured_c, want_c, held, rows, own),
        material.source,
    )


def _held(answers: TemperAnswers) -> _Held | None:
    """What surrounds the vessel; None where it keeps its temperature, or the jacket is a waiting bottle's alone."""
    if answers.jacket is None or (answers.bottle is not None and answers.time is None):
        return None
    return _Held(
        typed("--jacket", parse_temp_c, answers.jacket),
        typed("--tau", parse_duration_s, needs("--tau", answers.tau, "--jacket")),
        typed("--time", parse_duration_s, needs("--time", answers.time, "--jacket")),
    )


def _effect(
    answers: TemperAnswers,
    poured_c: float,
    want_c: float,
    held: _Held | None,
    rows: Path | None,
    own: OwnCoefficient | None,
) -> Effect | None:
    from wetside.sensitometry.aims import grade_change, zones_of_range_change

    if answers.coefficient is None and answers.developer is None and (own is None or answers.time is None):
        return None
    beside = "--developer" if answers.coefficient is None else "--coefficient"
    time_s = typed("--time", parse_duration_s, needs("--time", answers.time, beside))
    jacket_c, tau_s = (poured_c, STILL_S) if held is None else (held.jacket_c, held.tau_s)
    end_c = relaxed_temperature_c(poured_c, jacket_c, tau_s, time_s)
    temps_c = (poured_c, end_c, want_c)
    if answers.coefficient is None and answers.developer is None and own is not None:
        coefficient = _inside("--evening", own.developer, own.coefficient, temps_c)
    else:
        coefficient = _coefficient(answers, temps_c, rows)
    density_range = typed("--range", _density_range, answers.density_range or "1.05")
    found = temperature_effect(poured_c, jacket_c, tau_s, time_s, want_c, coefficient.per_c, density_range)
    return Effect(
        found,
        grade_change(found.density),
        zones_of_range_change(density_range + found.density, density_range),
        coefficient,
    )


def _density_range(text: str) -> float:
    value = parse_number(text)
    if not 0.2 <= value <= 3.5:
        raise OutOfRangeError("services.density_range", value=value, low=0.2, high=3.5)
    return value


def _coefficient(answers: TemperAnswers, temps_c: tuple[float, ...], rows: Path | None) -> TemperatureCoefficient:
    """Coefficient of temperature: the one named, or that of the developer's published pairs, inside their span only."""
    from wetside.adapters.starting_points import load_time_pairs
    from wetside.development.coefficient import coefficient_of_pairs, named_coefficient
    from wetside.values.evidence import Source
    from wetside.values.names import name_key

    if answers.coefficient is not None:
        if answers.developer is not None:
            raise InputError("services.coefficient_twice")
        own = Source("own", "your choice")
        return typed("--coefficient", lambda text: named_coefficient(parse_number(text), own), answers.coefficient)
    assert answers.developer is not None  # noqa: S101 (the caller asks only then)
    known = load_time_pairs(rows)
    pairs = {name_key(name): found for name, found in known.items()}.get(name_key(answers.developer))
    if not pairs:
        place = Place(field="--developer")
        raise InputError("services.no_pairs", place=place, developer=answers.developer, known=sorted(known))
    return _inside("--developer", answers.developer, coefficient_of_pairs(pairs), temps_c)


def _inside(
    option: str, developer: str, coefficient: TemperatureCoefficient, temps_c: tuple[float, ...]
) -> TemperatureCoefficient:
    """The coefficient, once it is sure that its pairs span every temperature."""
    from wetside.development.coefficient import is_inside_span

    for temp_c in temps_c:
        if not is_inside_span(coefficient, temp_c):
            low_c, high_c = coefficient.span_c or (temp_c, temp_c)
            raise RefusedError(
                "services.outside_pairs",
                place=Place(field=option),
                developer=developer,
                temp_c=temp_c,
                low_c=low_c,
                high_c=high_c,
                per_c=coefficient.per_c,
            )
    return coefficient


def _water(answers: TemperAnswers, want_c: float) -> HotAndCold:
    """Both volumes by the heat and the density of water, and how far the criss-cross of temperatures is from them."""
    assert answers.hot is not None  # noqa: S101 (the caller asks only then)
    hot_c = typed("--hot", parse_temp_c, answers.hot)
    cold_c = typed("--cold", parse_temp_c, needs("--cold", answers.cold, "--hot"))
    total_ml = typed("--total", parse_volume_ml, needs("--total", answers.total, "--hot"))
    volumes = hot_and_cold_ml(hot_c, cold_c, want_c, total_ml, load_water())
    plain = criss_cross_temperature_ml(hot_c, cold_c, want_c, total_ml)
    percent = (plain.first_ml / volumes.first_ml - 1.0) * 100.0 if volumes.first_ml > 0 else 0.0
    return HotAndCold(volumes.first_ml, volumes.second_ml, percent)


def _bath(answers: TemperAnswers, want_c: float) -> BathChange:
    """Ice for a bath that is too warm, time of the heater for one that is too cold."""
    assert answers.bath is not None  # noqa: S101 (the caller asks only then)
    bath_ml = typed("--bath", parse_volume_ml, answers.bath)
    bath_c = typed("--bath-at", parse_temp_c, needs("--bath-at", answers.bath_temp, "--bath"))
    if bath_c >= want_c:
        return BathChange(ice_needed(bath_ml, bath_c, want_c), None)
    power_w = typed("--heater", parse_number, needs("--heater", answers.heater, "--bath"))
    try:
        return BathChange(None, heater_time_s(bath_ml, bath_c, want_c, power_w))
    except WetsideError as error:
        raise error.at(Place(field="--heater")) from None


def _learned(answers: TemperAnswers) -> LearnedConstant:
    assert answers.reads is not None  # noqa: S101 (the caller asks only then)
    return learned_time_constant(
        typed("--bottle", parse_temp_c, needs("--bottle", answers.bottle, "--reads")),
        typed("--reads", parse_temp_c, answers.reads),
        typed("--jacket", parse_temp_c, needs("--jacket", answers.jacket, "--reads")),
        typed("--after", parse_duration_s, needs("--after", answers.after, "--reads")),
    )


def _waiting(answers: TemperAnswers, learned: LearnedConstant | None) -> Waiting | None:
    assert answers.bottle is not None  # noqa: S101 (the caller asks only then)
    assert answers.jacket is not None  # noqa: S101
    if answers.tau is None and learned is None:
        raise InputError("services.option_missing_with", option="--tau", other="--bottle")
    tau_s = typed("--tau", parse_duration_s, answers.tau) if answers.tau else learned.tau_s if learned else 0.0
    jacket_c = typed("--jacket", parse_temp_c, answers.jacket)
    now = answers.reads or answers.bottle
    bottle_c = typed("--reads" if answers.reads else "--bottle", parse_temp_c, now)
    return Waiting(bottle_c, jacket_c, time_within_s(bottle_c, jacket_c, tau_s))
