"""Chemistry and units against published figures; each data file says where each figure stands."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from wetside import chemistry, units
from wetside.values.sheet_size import UNIT_AREA_CM2, SheetSize

FOLDER = Path(__file__).parent / "chemistry"


def cases(name):
    """Cases of a data file, as test parameters."""
    data = tomllib.loads((FOLDER / name).read_text("utf-8"))
    return [
        pytest.param({"topic": data["topic"], **case}, id=f"{case['formula']}-{place}")
        for place, case in enumerate(data["case"])
    ]


def dilution(case, key="dilution"):
    return chemistry.parse_dilution(case[key])


def mix(case):
    return chemistry.mix_volumes(dilution(case), case["total_ml"])


def sheet(case, key="size"):
    return SheetSize(*units.parse_size(case[key]))


def measurable_total(case):
    """Total that the warning about a small concentrate names."""
    ((_, params),) = chemistry.warnings_of_mix(mix(case))
    return params["total_ml"]


COMPUTED = {
    "mix_concentrate": lambda c: mix(c).concentrates_ml[0],
    "mix_water": lambda c: mix(c).water_ml,
    "mix_two_part": lambda c: mix(c).concentrates_ml[c["part"]],
    "percent_strong": lambda c: chemistry.percent_dilution_ml(c["strong_percent"], c["wanted_percent"], c["total"]),
    "strength_ratio": lambda c: chemistry.strength_ratio(dilution(c), dilution(c, "reference")),
    "redilution_water": lambda c: chemistry.redilution_water_ml(c["volume_ml"], dilution(c), dilution(c, "reference")),
    "measurable_total": measurable_total,
    "use_per_sheet": lambda c: chemistry.use_per_sheet_ml(c["volume_ml"], c["capacity_units"], sheet(c).area_cm2),
    "use_per_unit": lambda c: chemistry.use_per_unit_ml(c["volume_ml"], c["capacity_units"]),
    "films_of_bottle": lambda c: (
        chemistry.working_need_ml(c["concentrate_ml"], dilution(c))
        / chemistry.use_per_unit_ml(1000.0, c["capacity_units"])
    ),
    "reuse_factor": lambda c: chemistry.reuse_factor(
        c["film_number"], capacity_per_litre=c["capacity"], litres=c["litres"]
    ),
    "reuse_factor_larger": lambda c: chemistry.reuse_factor(
        c["film_number"], capacity_per_litre=c["capacity"], litres=c["litres"]
    ),
    "mean_activity": lambda c: chemistry.mean_activity(c["units_per_litre"]),
    "activity_ratio": lambda c: chemistry.activity_ratio(c["given_ml"], c["reference_ml"]),
    "flatter_percent": lambda c: chemistry.density_effect(1.0, c["activity"]) * 100.0,
    "agent_need": lambda c: chemistry.agent_need_ml(c["units"] * UNIT_AREA_CM2, c["reference_ml"] / UNIT_AREA_CM2),
    "agent_in": lambda c: chemistry.agent_in_ml(c["volume_ml"], dilution(c)),
    "agent_per_unit": lambda c: chemistry.agent_in_ml(c["volume_ml"], dilution(c)) / (c["count"] * sheet(c).area_units),
    "working_need": lambda c: chemistry.working_need_ml(c["agent_ml"], dilution(c)),
    "passing_water": lambda c: chemistry.passing_dilution(c["agent_ml"], c["volume_ml"]).water,
    "passing_count": lambda c: chemistry.passing_sheet_count(
        chemistry.agent_in_ml(c["volume_ml"], dilution(c)), [c["need_ml"]] * c["count"]
    ),
    "sheet_area": lambda c: sheet(c, "text").area_cm2,
    "sheet_units": lambda c: sheet(c, "text").area_units,
    "fahrenheit": lambda c: units.parse_temp_c(c["text"]),
    "fahrenheit_step": lambda c: units.parse_temp_step_c(c["text"]),
    "volume": lambda c: units.parse_volume_ml(c["text"]),
    "length": lambda c: units.parse_length_mm(c["text"]),
    "area": lambda c: units.parse_area_cm2(c["text"]),
    "mass": lambda c: units.parse_mass_g(c["text"]),
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
        tolerance=0.5 * 10.0 ** -case["digits"],
    )


@pytest.mark.parametrize("case", cases("mixing.toml"))
def test_volumes_to_measure(agree, case):
    """Concentrates and water of a dilution agree with the maker's table and with arithmetic by hand."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("percent.toml"))
def test_strong_solution_for_a_weaker_one(agree, case):
    """Acid of one strength made up to another agrees with the service handbook and with arithmetic by hand."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("strength.toml"))
def test_strengths_beside_each_other(agree, case):
    """The two readings of a colon, dilution of a dilution, and the smallest measurable total."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("per_sheet.toml"))
def test_what_a_sheet_takes_of_a_bath(agree, case):
    """Makers' capacities by area, and the films that a maker counts to a bottle."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("reuse.toml"))
def test_times_in_used_developer(agree, case):
    """The makers' printed percentages: they add and do not compound."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("agent.toml"))
def test_agent_for_an_area_of_film(agree, case):
    """Needs, activity below the reference, and what would pass, worked by hand."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("sheet_sizes.toml"))
def test_areas_of_sheets(agree, case):
    """Nominal areas in square centimetres and in units of 80 square inches."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("units.toml"))
def test_conversions_of_units(agree, case):
    """Conversions printed in handbooks and those fixed by definition."""
    check(agree, case)
