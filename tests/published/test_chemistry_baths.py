"""Stop, fixer, wash, water and hazards against published figures; each data file says where each figure stands."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

import pytest

from wetside import chemistry, units
from wetside.adapters import bath_data
from wetside.values.sheet_size import UNIT_AREA_CM2, SheetSize

FOLDER = Path(__file__).parent / "chemistry_baths"
UNIT = chemistry.Carried(2.0, 2.0, 6.0)
SKIN = ("Skin Irrit. 2", "Skin Corr. 1B", "Skin Corr. 1A")
MINUTE_FILLS = (60.0, 60.0, 60.0)
hazard_table = cache(bath_data.load_hazard_table)


def cases(name):
    """Cases of a data file, as test parameters."""
    data = tomllib.loads((FOLDER / name).read_text("utf-8"))
    return [
        pytest.param({"topic": data["topic"], **case}, id=f"{case['formula']}-{place}")
        for place, case in enumerate(data["case"])
    ]


def area_cm2(case):
    return SheetSize(*units.parse_size(case["size"])).area_cm2


def agent_share(text):
    return chemistry.parse_dilution(text).agent_fraction


def published_per_litre(case):
    return chemistry.fixer_capacity(case["product"], bath_data.load_bath_capacities()).value


def share_of_films(case):
    sides = case.get("sides", 1)
    films = [
        chemistry.FilmFixed(area_cm2(case) * case["ordinary"], coated_sides=sides),
        chemistry.FilmFixed(area_cm2(case) * case["tabular"], tabular=True, coated_sides=sides),
    ]
    return chemistry.fixer_share(films, case["volume_ml"], case["per_litre"])


def decision(case):
    tests = (chemistry.ClearingTest(time_s, 20.0, "Tolland 100", "1+4") for time_s in (case["fresh_s"], case["now_s"]))
    return chemistry.judge_fixer(case["area"], *tests, tabular=case["tabular"])


def end_of_life_multiple(case):
    last_s = chemistry.clearing_limit_s(case["fresh_s"])
    return chemistry.fix_time_s(last_s, chemistry.fix_multiple()) / case["fresh_s"]


def promotions_to_renewal(case):
    """Promotions that happen before the machine asks for two new baths."""
    baths = chemistry.TwoBaths(chemistry.FixingBath("0", 1000.0), chemistry.FixingBath("1", 1000.0))
    for number in range(2, 100):
        while (act := chemistry.due_bath_act(baths)) == "none":
            baths = chemistry.fix_in_two_baths(baths, case["units"])
        if act == "renew":
            return baths.promotions
        baths = chemistry.promote_second(baths, chemistry.FixingBath(str(number), 1000.0))
    return None


def wash_method(case):
    return next(method for method in bath_data.load_wash_methods() if method.name == case["method"])


def sequential(case):
    left_mg = 600.0 * 2.0 / 10.0 * chemistry.wash_fraction(UNIT.total_ml, 500.0, case["fills"])
    return chemistry.residual_ug_per_cm2(left_mg, UNIT_AREA_CM2)


def by_half_time(case):
    steps = chemistry.wash_by_half_time(600.0, UNIT, 500.0, MINUTE_FILLS, case["half_time_s"])
    return chemistry.residual_ug_per_cm2(steps[-1].emulsion_mg, UNIT_AREA_CM2)


def hazards(case):
    if "mixture" in case:
        return chemistry.mixture_hazards(case["mixture"], hazard_table())
    percents = {name: chemistry.percent_of_grams(grams, case["volume_ml"]) for name, grams in case["grams"].items()}
    return chemistry.mixture_hazards(percents, hazard_table())


def skin_rank(case):
    return next((rank for rank, name in enumerate(SKIN, 1) if name in hazards(case).classes), 0)


def has_class(case):
    return case["wanted"] in hazards(case).classes


def has_notice(case):
    return case["wanted"] in dict(hazards(case).notices)


COMPUTED = {
    "bottle_units": lambda c: (
        chemistry.working_need_ml(c["concentrate_ml"], chemistry.parse_dilution(c["dilution"]))
        / 1000.0
        * c["per_litre"]
    ),
    "capacity_area": lambda c: chemistry.capacity_area_m2(c["per_litre"]),
    "sheets_fixed": lambda c: chemistry.sheets_fixed(
        area_cm2(c), c["volume_ml"], c["per_litre"], tabular=c["tabular"], tabular_share=c["share"]
    ),
    "pack_per_litre": published_per_litre,
    "sheets_by_other_pack": lambda c: chemistry.sheets_fixed(
        UNIT_AREA_CM2 * c["films"] / c["sheets"], 1000.0, c["other_films"]
    ),
    "fixer_share": share_of_films,
    "stop_share": lambda c: chemistry.stop_share(area_cm2(c) * c["count"], c["volume_ml"], c["per_litre"]),
    "replenisher": lambda c: chemistry.replenisher_ml(area_cm2(c)),
    "per_litre_of_gallon": lambda c: (
        chemistry.BathCapacity("paper", "stock", c["units"], c["volume_ml"], None).units_per_litre
    ),
    "end_of_life_multiple": end_of_life_multiple,
    "fix_time": lambda c: chemistry.fix_time_s(
        c["clearing_s"], chemistry.fix_multiple(tabular=c["tabular"], alkaline=c["alkaline"])
    ),
    "changed": lambda c: decision(c).action == "change",
    "clearing_share": lambda c: decision(c).clearing_share,
    "refix_time": lambda c: dict(
        chemistry.advice_for_used_fixer(chemistry.FixAgain(20, c["fresh_s"]), second_bath=True)
    )["chemistry.fixer.refix"]["time_s"],
    "promotions_to_renewal": promotions_to_renewal,
    "gravity": lambda c: chemistry.gravity_at_strength(c["gravity"], agent_share(c["want"]) / agent_share(c["have"])),
    "units_to_silver": lambda c: chemistry.units_to_silver(c["limit"], c["known_limit"] / c["known_units"]),
    "silver": lambda c: chemistry.silver_g(c["units"]),
    "half_time": by_half_time,
    "half_of_fix": lambda c: chemistry.half_times_s(c["time_s"])[0],
    "strength_lost_percent": lambda c: (
        100.0 * (1.0 - chemistry.strength_after_loads(c["volume_ml"], c["carried_ml"], c["loads"]))
    ),
    "loads_to_strength": lambda c: chemistry.loads_to_strength(c["volume_ml"], c["carried_ml"], c["least"]),
    "fraction": lambda c: chemistry.wash_fraction(c["carried_ml"], c["fill_ml"], c["fills"]),
    "one_in": lambda c: 1.0 / chemistry.wash_fraction(c["carried_ml"], c["fill_ml"], c["fills"]),
    "carried_total": lambda c: chemistry.Carried(*c["parts"]).total_ml,
    "fill_concentration": lambda c: chemistry.fill_concentration_g_per_l(c["mass_mg"], c["carried_ml"], c["fill_ml"]),
    "water_of_fills": lambda c: chemistry.water_of_fills_l(c["fills"], c["fill_ml"]),
    "water_of_running": lambda c: chemistry.water_of_running_wash_l(c["per_minute"], c["minutes"]),
    "changes": lambda c: chemistry.changes_of_tank(c["minutes"], c["each"]),
    "running_fraction": lambda c: chemistry.running_wash_fraction(c["minutes"], c["half_time_s"]),
    "minutes_saved": lambda c: wash_method(c).instead_of_minutes - chemistry.minutes_of_method(wash_method(c)),
    "method_minutes": lambda c: chemistry.minutes_of_method(wash_method(c)),
    "sea_water": lambda c: sum(chemistry.sea_water_minutes(c["minutes"])),
    "sequential": sequential,
    "grams_per_m2": lambda c: chemistry.grams_per_m2(c["value"]),
    "limit_mg": lambda c: chemistry.residual_limit_mg(area_cm2(c), coated_sides=c["sides"]),
    "slowest_half_time": lambda _: chemistry.slowest_half_time_s(
        600.0, UNIT, 500.0, MINUTE_FILLS, chemistry.residual_limit_mg(UNIT_AREA_CM2)
    ),
    "fills_to_limit": lambda c: chemistry.fills_to_limit(c["start_mg"], c["limit_mg"], c["carried_ml"], c["fill_ml"]),
    "hardness_rank": lambda c: list(chemistry.Hardness).index(chemistry.hardness_class(c["mg_per_l"])),
    "wetting_agent": lambda c: chemistry.wetting_agent_ml(c["volume_ml"]),
    "hexametaphosphate": lambda c: chemistry.hexametaphosphate_g(c["volume_ml"]),
    "hardness": lambda c: chemistry.hardness_mg_per_l(c["value"], c["scale"]),
    "skin_rank": skin_rank,
    "skin_rank_alkali": skin_rank,
    "class_by_itself": has_class,
    "class_by_sum_or_organ": has_class,
    "eye_class": has_class,
    "class_of_concentrate": has_class,
    "bath_class": has_class,
    "notice": has_notice,
    "bath_notice": has_notice,
}


def check(agree, case):
    agree(
        topic=case["topic"],
        source=case["source"],
        status=case["status"],
        name=case["where"],
        formula=f"baths::{case['formula']}",
        computed=float(COMPUTED[case["formula"]](case)),
        expected=case["expected"],
        tolerance=case["tolerance"] if "tolerance" in case else 0.5 * 10.0 ** -case["digits"],
    )


@pytest.mark.parametrize("case", cases("capacity.toml"))
def test_film_that_a_bath_takes(agree, case):
    """Capacities by area agree with makers' counts of films, sheets and square metres."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("clearing.toml"))
def test_clearing_times(agree, case):
    """Fixing times and the end of a bath follow from clearing times as makers and services print it."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("baths.toml"))
def test_two_baths_dilution_and_silver(agree, case):
    """Rotation, thinning by carried water, gravities after dilution, and silver in order of size."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("wash_changes.toml"))
def test_washing_by_changes(agree, case):
    """What changes of water leave, and the water they take, agree with printed figures and arithmetic by hand."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("wash_residue.toml"))
def test_what_a_wash_leaves_in_film(agree, case):
    """Residue to an area, at balance and with a lagging emulsion, against the published limit."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("water.toml"))
def test_water(agree, case):
    """Classes and scales of hardness, and doses of the last bath."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("hazard_limits.toml"))
def test_classes_at_the_printed_limits(agree, case):
    """A class is reached at its printed concentration and not just below it."""
    check(agree, case)


@pytest.mark.parametrize("case", cases("hazard_baths.toml"))
def test_classes_of_whole_baths(agree, case):
    """Developers, stops and fixers by their weights to a litre."""
    check(agree, case)
