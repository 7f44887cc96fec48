"""Strengths, salts, formulas and warmth against published figures; each data file says where each figure stands."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from wetside import chemistry
from wetside.adapters import chemistry_data as data

FOLDER = Path(__file__).parent / "chemistry_mixing"


def cases(name):
    """Cases of a data file, as test parameters."""
    table = tomllib.loads((FOLDER / name).read_text("utf-8"))
    return [
        pytest.param({"topic": table["topic"], **case}, id=f"{case['formula']}-{place}")
        for place, case in enumerate(table["case"])
    ]


def parts(case):
    return chemistry.criss_cross_parts(case["first"], case["second"], case["wanted"])


def volumes(case):
    return chemistry.criss_cross_volumes(case["first"], case["second"], case["wanted"], case["total"])


def strength(case):
    return chemistry.mixture_strength(list(zip(case["amounts"], case["strengths"], strict=True)))


def factor(case):
    salts = data.load_salts()
    return chemistry.salt_factor(salts[case["asks"]], salts[case["have"]])


def scaled(case):
    formula = chemistry.find_formula(data.load_formulas(), case["formula_key"])
    found = chemistry.scale_formula(formula, case["total_ml"]).ingredients
    return next(part.amount for part in found if part.name == case["name"])


def hot_and_cold(case, water=None):
    return chemistry.hot_and_cold_ml(case["hot_c"], case["cold_c"], case["wanted_c"], 1000.0, water)


def water_for(case, water=None):
    return chemistry.water_temperature_c(
        case["concentrate_ml"], case["concentrate_c"], case["water_ml"], case["wanted_c"], water
    )


def capacity(case):
    heat = data.load_materials()[case["material"]][0].heat_j_gk
    return chemistry.heat_capacity_j_k(case["liquid_ml"], case["vessel_g"], heat)


def relaxed(case):
    return chemistry.relaxed_temperature_c(case["start_c"], case["around_c"], case["tau_s"], case["time_s"])


def bottle_tau(case):
    return chemistry.time_constant_s(chemistry.heat_capacity_j_k(1000.0), case["exchange"])


def effect(case):
    return chemistry.temperature_effect(
        case["start_c"], case["around_c"], 600.0, 480.0, 20.0, case["coefficient"], 1.05
    )


COMPUTED = {
    "criss_cross_first": lambda c: volumes(c).first_ml,
    "criss_cross_second": lambda c: volumes(c).second_ml,
    "criss_cross_first_parts": lambda c: parts(c).first_parts,
    "criss_cross_second_parts": lambda c: parts(c).second_parts,
    "added": lambda c: chemistry.added_ml(c["have_ml"], c["have"], c["added"], c["wanted"]),
    "mixture_strength": strength,
    "gravity": strength,
    "three_and_eight": lambda c: chemistry.three_and_eight_percent(c["glacial_percent"]),
    "acid": lambda c: chemistry.acid_bath_ml(c["strong"], c["wanted"], 1000.0).acid_ml,
    "salt_factor": factor,
    "percent_solution": lambda c: chemistry.percent_solution_g(c["percent"], c["total_ml"]),
    "mass": lambda c: chemistry.formula_mass_g_mol(c["text"], data.load_atomic_weights()),
    "scaled": scaled,
    "hot_simple": lambda c: hot_and_cold(c).first_ml,
    "hot_table": lambda c: hot_and_cold(c, data.load_water()).first_ml,
    "cold_table": lambda c: hot_and_cold(c, data.load_water()).second_ml,
    "mixed_table": lambda c: chemistry.mixed_temperature_c(
        list(zip(c["volumes"], c["temps"], strict=True)), data.load_water()
    ),
    "water_simple": water_for,
    "water_table": lambda c: water_for(c, data.load_water()),
    "density": lambda c: chemistry.water_density_g_ml(c["temp_c"], data.load_water()),
    "enthalpy": lambda c: chemistry.water_enthalpy_j_g(c["temp_c"], data.load_water()),
    "ice_kg": lambda c: (
        chemistry.ice_needed(c["volume_ml"], c["from_c"], c["to_c"], meltwater_warms=c["warms"]).ice_g / 1000.0
    ),
    "capacity": capacity,
    "tau": lambda c: chemistry.time_constant_s(capacity(c), c["exchange"]),
    "tau_min": lambda c: bottle_tau(c) / 60.0,
    "poured": lambda c: chemistry.poured_temperature_c(
        c["liquid_ml"], c["liquid_c"], c["vessel_g"], c["heat"], c["vessel_c"]
    ),
    "relaxed": relaxed,
    "left": lambda c: abs(relaxed(c) - c["around_c"]),
    "mean": lambda c: chemistry.mean_temperature_c(c["start_c"], c["around_c"], c["tau_s"], c["time_s"]),
    "start_for_mean": lambda c: chemistry.start_for_mean_c(c["mean_c"], c["around_c"], c["tau_s"], c["time_s"]),
    "until_min": lambda c: (
        chemistry.time_to_temperature_s(c["start_c"], c["around_c"], bottle_tau(c), c["wanted_c"]) / 60.0
    ),
    "within_min": lambda c: chemistry.time_within_s(c["start_c"], c["around_c"], c["tau_s"]) / 60.0,
    "learned_min": lambda c: (
        chemistry.learned_time_constant(c["start_c"], c["end_c"], c["around_c"], c["time_s"]).tau_s / 60.0
    ),
    "heater": lambda c: chemistry.heater_time_s(c["volume_ml"], c["from_c"], c["to_c"], c["power_w"], c["loss"]),
    "off_percent": lambda c: effect(c).time_percent,
    "off_density": lambda c: effect(c).density,
}


def check(agree, case):
    agree(
        topic=case["topic"],
        source=case["source"],
        status=case["status"],
        name=case["where"],
        formula=case["formula"],
        computed=float(COMPUTED[case["formula"]](case)),
        expected=case["expected"],
        tolerance=case.get("tolerance", 0.5 * 10.0 ** -case["digits"]),
    )


@pytest.mark.parametrize("case", cases("criss_cross.toml"))
def test_parts_and_volumes_between_two_strengths(agree, case):
    """The service handbook's ounces, and parts worked by hand."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("strength.toml"))
def test_strength_of_a_mix(agree, case):
    """A handbook's parts by weight, an old rule's true strength, and makers' specific gravities."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("acid.toml"))
def test_acid_for_a_litre_of_bath(agree, case):
    """Acid of four strengths for stop baths, divided by hand."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("salts.toml"))
def test_weight_of_the_salt_at_hand(agree, case):
    """A book's factors in two decimals from atomic weights, and those divided by hand."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("mass.toml"))
def test_mass_of_a_mole(agree, case):
    """Printed masses, and a table that another program made."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("scaled.toml"))
def test_a_formula_for_another_volume(agree, case):
    """Weights go with the volume."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("temperature.toml"))
def test_water_mixed_to_a_temperature(agree, case):
    """Volumes and temperatures from the formulation of water, and by the criss-cross alone."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("ice.toml"))
def test_ice_that_cools_a_bath(agree, case):
    """The old count in kilocalories and that in kilojoules agree."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("tempering.toml"))
def test_warmth_of_bottle_vessel_and_jacket(agree, case):
    """Examples of the lumped model, worked by hand."""
    check(agree, case)
