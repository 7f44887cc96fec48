"""Warmth of bottle, vessel and jacket: what pouring does, how long to wait, hot and cold water for a temperature."""

from __future__ import annotations

from typing import NamedTuple

from wetside.adapters.chemistry_data import load_materials
from wetside.chemistry import (
    LearnedConstant,
    TemperatureEffect,
    TwoVolumes,
    criss_cross_temperature_ml,
    heat_capacity_j_k,
    learned_time_constant,
    poured_temperature_c,
    temperature_effect,
    time_within_s,
)
from wetside.errors import InputError
from wetside.services.options import needs, typed, typed_or_none
from wetside.units import parse_duration_s, parse_mass_g, parse_number, parse_temp_c, parse_volume_ml

STILL_S = 1e9
"""Time constant of a vessel that nothing around it changes within a bath. [s]"""


class TemperAnswers(NamedTuple):
    """What was typed; None where nothing was said."""

    liquid: str | None = None
    liquid_temp: str | None = None
    vessel: str | None = None
    vessel_temp: str | None = None
    material: str = "polypropylene"
    jacket: str | None = None
    tau: str | None = None
    time: str | None = None
    coefficient: str | None = None
    density_range: str = "1.05"
    bottle: str | None = None
    reads: str | None = None
    after: str | None = None
    hot: str | None = None
    cold: str | None = None
    want: str | None = None
    total: str | None = None


class Pouring(NamedTuple):
    """A liquid after it was poured [C], its heat and the vessel's [J/K], and what that does to a negative, if asked."""

    poured_c: float
    off_c: float
    liquid_j_k: float
    vessel_j_k: float
    start_c: float
    effect: TemperatureEffect | None
    source: str


class Waiting(NamedTuple):
    """How long a bottle stands in its jacket until it is near enough. [C, s]"""

    bottle_c: float
    jacket_c: float
    wait_s: float


class Tempered(NamedTuple):
    """Answer: whichever parts were asked for."""

    pouring: Pouring | None
    waiting: Waiting | None
    learned: LearnedConstant | None
    water: TwoVolumes | None
    want_c: float


def temper(answers: TemperAnswers) -> Tempered:
    """Work out temperatures.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    want_c = typed("--want", parse_temp_c, answers.want or "20 C")
    pouring = _pouring(answers, want_c) if answers.vessel is not None else None
    water = _water(answers, want_c) if answers.hot is not None else None
    learned = _learned(answers) if answers.reads is not None else None
    waiting = _waiting(answers, learned) if answers.bottle is not None and answers.jacket is not None else None
    if pouring is None and water is None and learned is None and waiting is None:
        raise InputError("services.temper_nothing")
    return Tempered(pouring, waiting, learned, water, want_c)


def _pouring(answers: TemperAnswers, want_c: float) -> Pouring:
    assert answers.vessel is not None  # noqa: S101 (the caller asks only then)
    materials = load_materials()
    named = {name.casefold(): rows[0] for name, rows in materials.items()}
    material = named.get(answers.material.strip().casefold())
    if material is None:
        raise InputError("services.material", value=answers.material, known=sorted(materials))
    liquid_ml = typed("--liquid", parse_volume_ml, needs("--liquid", answers.liquid, "--vessel"))
    liquid_c = typed("--at", parse_temp_c, answers.liquid_temp) if answers.liquid_temp else want_c
    vessel_c = typed("--vessel-at", parse_temp_c, needs("--vessel-at", answers.vessel_temp, "--vessel"))
    vessel_g = typed("--vessel", parse_mass_g, answers.vessel)
    poured_c = poured_temperature_c(liquid_ml, liquid_c, vessel_g, material.heat_j_gk, vessel_c)
    liquid_j_k = heat_capacity_j_k(liquid_ml)
    vessel_j_k = vessel_g * material.heat_j_gk
    # Pouring is a weighted mean: the liquid must start so much off on the other side of what is wanted.
    start_c = want_c + (want_c - vessel_c) * vessel_j_k / liquid_j_k
    effect = None
    if answers.coefficient is not None:
        time_s = typed("--time", parse_duration_s, needs("--time", answers.time, "--coefficient"))
        jacket_c = typed_or_none("--jacket", parse_temp_c, answers.jacket)
        tau_s = typed("--tau", parse_duration_s, needs("--tau", answers.tau, "--jacket")) if answers.jacket else STILL_S
        effect = temperature_effect(
            poured_c,
            poured_c if jacket_c is None else jacket_c,
            tau_s,
            time_s,
            want_c,
            typed("--coefficient", parse_number, answers.coefficient),
            typed("--range", parse_number, answers.density_range),
        )
    return Pouring(poured_c, poured_c - want_c, liquid_j_k, vessel_j_k, start_c, effect, material.source)


def _water(answers: TemperAnswers, want_c: float) -> TwoVolumes:
    assert answers.hot is not None  # noqa: S101 (the caller asks only then)
    return criss_cross_temperature_ml(
        typed("--hot", parse_temp_c, answers.hot),
        typed("--cold", parse_temp_c, needs("--cold", answers.cold, "--hot")),
        want_c,
        typed("--total", parse_volume_ml, needs("--total", answers.total, "--hot")),
    )


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
