"""Other ways of developing, long exposures by several models, and seasons, against figures made without our code."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from wetside import exposure as ex
from wetside.adapters.starting_points import load_starting_points, pairs_for_developer, pick_starting_point
from wetside.adapters.ways_data import (
    load_filters,
    load_temperature_ranges,
    reciprocity_models_for,
    reuse_rule_for,
)
from wetside.development import (
    GENERAL_COEFFICIENT,
    SeasonalWay,
    TemperatureCoefficient,
    TimePair,
    UsedArea,
    carried_over_ml,
    coefficient_of_pairs,
    coefficient_span_of_pair,
    named_coefficient,
    published_rules_span,
    replaced_plan,
    replenisher_rate_ml_per_cm2,
    reused_time,
    share_of_a_in_b,
    temperature_factor,
    top_up,
    ways_out,
)
from wetside.values.evidence import Evidence, Sourced
from wetside.values.sheet_size import UNIT_AREA_CM2

FOLDER = Path(__file__).parent / "ways"
IN2_CM2 = 6.4516


def table(name: str) -> dict[str, Any]:
    return tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))


def cases(name: str, key: str | None = None) -> list[Any]:
    """Cases of a file or of one of its tables, each with the heads above it."""
    whole = table(name)
    part = whole if key is None else whole[key]
    heads = [{k: v for k, v in one.items() if not isinstance(v, list | dict)} for one in (whole, part)]
    return [pytest.param({**heads[0], **heads[1], **row}, id=f"{name}-{n}") for n, row in enumerate(part["case"])]


def compare(agree, case, computed: float, expected: float, tolerance: float, formula: str) -> None:
    agree(
        topic=case["topic"],
        source=case["source"],
        status=case["status"],
        name=case.get("name", case["where"]),
        computed=computed,
        expected=expected,
        tolerance=tolerance,
        formula=f"ways.{formula}",
    )


def model_of(case) -> ex.ReciprocityModel:
    spec = case["model"]
    if "film" in spec:
        return reciprocity_models_for(spec["film"])[0].model
    if "schwarzschild" in spec:
        return ex.power_of_schwarzschild(spec["schwarzschild"])
    if "free_s" in spec:
        return ex.ReciprocityDoubling(spec["free_s"], spec["stops"])
    return ex.ReciprocityPower(spec["power"], spec["threshold_s"])


def answer_of(case) -> ex.ReciprocityAnswer:
    """Answer of one model, by the way that the user takes."""
    named = ex.NamedReciprocity(ex.ReciprocityKind.MAKER_POWER, model_of(case), "sheet")
    return ex.compare_reciprocity(case["metered_s"], [named]).default


def comparison(case) -> ex.ReciprocityComparison:
    return ex.compare_reciprocity(case["metered_s"], reciprocity_models_for(case["film"]))


def contradiction(case) -> float:
    claims = [ex.ThresholdClaim("film", threshold_s, "sheet") for threshold_s in case["thresholds_s"]]
    (found,) = ex.threshold_contradictions(claims, case["p"])
    return found.most_stops


RECIPROCITY = {
    "no_loss": lambda c: answer_of(c).time_s,
    "corrected": lambda c: answer_of(c).time_s,
    "added_stops": lambda c: answer_of(c).stops,
    "exponent_of_pair": lambda c: ex.exponent_of_pair(c["metered_s"], c["given_s"]),
    "local_exponent": lambda c: ex.local_exponent(model_of(c), c["metered_s"], c["high_s"]),
    "spread": lambda c: comparison(c).spread_stops,
    "spread_film": lambda c: comparison(c).spread_film_stops,
    "threshold": contradiction,
}


@pytest.mark.parametrize("case", [*cases("reciprocity_printed"), *cases("reciprocity_worked")])
def test_reciprocity_by_several_models(agree, case) -> None:
    """Each published model gives what its source prints, and the distances between them are those worked by hand."""
    computed = RECIPROCITY[case["formula"]](case)
    compare(agree, case, computed, case["expected"], case["tolerance"], case["formula"])


@pytest.mark.parametrize("case", cases("filters"))
def test_filters_and_light(agree, case) -> None:
    """A factor belongs to a film and a light."""
    filters, indices = load_filters()
    if case["formula"] == "filter_of_film":
        found = ex.filter_factor(filters, case["filter"], ex.Sensitivity.PAN, ex.Light.DAYLIGHT, "Aviphot Pan 200")
        assert found.evidence is Evidence.PUBLISHED
        computed = found.stops
    else:
        computed = ex.light_factor(indices, "ORTHO PLUS", ex.Light.DAYLIGHT, ex.Light.TUNGSTEN)
    compare(agree, case, computed, case["expected"], case["tolerance"], case["formula"])


def factor_by_area(case) -> float:
    rule = reuse_rule_for("ID-11", "stock")
    return reused_time(480, [UsedArea(20 * IN2_CM2)] * case["sheets_4x5_before"], UNIT_AREA_CM2, rule).factor


def time_of_turn(case) -> float:
    point = pick_starting_point(
        load_starting_points(), case["film"], case["developer"], case["dilution"], case["ei"], source=case["source"]
    )
    rule = reuse_rule_for(case["developer"], case["dilution"])
    return reused_time(point.time_s, [UsedArea(UNIT_AREA_CM2)] * case["films_before"], UNIT_AREA_CM2, rule).time.value


def topped_up(case) -> float:
    rate = replenisher_rate_ml_per_cm2(case["volume_ml"], case["square_inches"] * IN2_CM2)
    return top_up([UsedArea(area * IN2_CM2) for area in case["film_square_inches"]], rate, 1000.0).add_ml


def original_share(case) -> float:
    done = top_up([], 0.05, case["bath_ml"], added_before_ml=case["added_ml"])
    return done.original_share


def replaced(case) -> float:
    area_cm2 = case["units"] * UNIT_AREA_CM2
    plan = replaced_plan(600, area_cm2, case["agents_ml"], case["reference_ml"] / UNIT_AREA_CM2)
    return getattr(plan, case["wanted"])


REUSE = {
    "factor_by_area": factor_by_area,
    "time_of_turn": time_of_turn,
    "top_up": topped_up,
    "original_share": original_share,
    "replaced": replaced,
}


@pytest.mark.parametrize("case", cases("reuse"))
def test_reuse(agree, case) -> None:
    """Developer used again, replenished, or replaced half-way, does what its sheet or the arithmetic says."""
    computed = REUSE[case["formula"]](case)
    compare(agree, case, computed, case["expected"], case.get("tolerance", 1e-9), case["formula"])


def carried(case) -> float:
    if case["formula"] == "share":
        return share_of_a_in_b(case["carry_ml"], case["volume_ml"], case["loads"])
    carry_ml = carried_over_ml(case["units"] * UNIT_AREA_CM2, case["walls_ml"]).total_ml
    if case["formula"] == "carry":
        return carry_ml
    # mg/ml is g/l
    return case["mass_mg"] / carry_ml * share_of_a_in_b(carry_ml, case["volume_ml"], 1)


@pytest.mark.parametrize("case", cases("carry_over"))
def test_carry_over(agree, case) -> None:
    """Film and vessel bring along what was measured, and dilute as was worked out."""
    compare(agree, case, carried(case), case["expected"], case["tolerance"], case["formula"])


def changed_s(time_s: float, from_c: float, to_c: float, coefficient: TemperatureCoefficient) -> float:
    """Developing time by the second of the three ways out."""
    found = ways_out(Sourced(time_s, Evidence.PUBLISHED), from_c, to_c, coefficient)[1]
    assert found.way is SeasonalWay.TIME
    assert found.time is not None, found.remarks
    return found.time.value


def celsius(temp_f: float) -> float:
    return (temp_f - 32.0) / 1.8


@pytest.mark.parametrize("case", cases("temperature", "chart"))
def test_rows_of_a_chart(agree, case) -> None:
    """The ends of a printed chart predict its rows within the rounding of all three."""

    def predicted_min(more: float) -> float:
        pair = TimePair(celsius(60), (9.5 + more) * 60, celsius(80), (2.0 + more) * 60)
        return changed_s(pair.cold_s, pair.cold_c, celsius(case["temp_f"]), coefficient_of_pairs([pair])) / 60

    computed, rounding = predicted_min(0.0), case["rounding_min"]
    tolerance = rounding + predicted_min(rounding) - computed
    case["name"] = f"{case['temp_f']} F"
    compare(agree, case, computed, case["printed_min"], tolerance, "chart")


@pytest.mark.parametrize("case", cases("temperature", "left_out"))
def test_left_out_pair(agree, case) -> None:
    """A developer's other pairs predict each pair's warm time within rounding and their own spread."""
    pairs = pairs_for_developer(case["developer"], source=case["source"])
    cold_s, warm_s = case["cold_min"] * 60, case["warm_min"] * 60
    rest = [pair for pair in pairs if (pair.cold_s, pair.warm_s) != (cold_s, warm_s)]
    assert len(rest) == len(pairs) - 1
    coefficient = coefficient_of_pairs(rest)
    computed = changed_s(cold_s, 20.0, 24.0, coefficient)
    tolerance = case["rounding_s"] * (1 + computed / cold_s) + computed * 4.0 * coefficient.spread
    case["name"] = f"{case['developer']}, {case['cold_min']} min at 20 C"
    compare(agree, case, computed, warm_s, tolerance, "left_out")


@pytest.mark.parametrize("case", cases("temperature", "other_film"))
def test_pair_of_another_film(agree, case) -> None:
    """One film's pair predicts another film's warm time within what their printed ranges leave open."""
    (pair,) = pairs_for_developer(case["developer"], source="foma-100-2022")
    low_s, high_s = case["cold_low_min"] * 60, case["cold_high_min"] * 60
    computed = changed_s((low_s + high_s) / 2, 20.0, 30.0, coefficient_of_pairs([pair]))
    least, most = coefficient_span_of_pair(pair)
    shortest, longest = (
        time_s * temperature_factor(named_coefficient(per_c), 20.0, 30.0)
        for time_s, per_c in ((low_s, most), (high_s, least))
    )
    tolerance = case["rounding_s"] + (longest - shortest) / 2
    case["name"] = case["developer"]
    compare(agree, case, computed, case["warm_min"] * 60, tolerance, "other_film")


def test_one_workers_times(agree) -> None:
    """One maker's traced chart, carried far beyond its span by name, gives one worker's time at 35 C."""
    whole = table("temperature")
    case = {"topic": whole["topic"], **whole["worker"]}
    named = named_coefficient(GENERAL_COEFFICIENT.per_c)
    computed = changed_s(case["cold_s"], celsius(case["cold_f"]), celsius(case["warm_f"]), named)
    compare(agree, case, computed, case["warm_s"], case["tolerance_s"], "worker")


@pytest.mark.parametrize("case", cases("temperature", "rules"))
def test_rules_beside_each_other(agree, case) -> None:
    """Chart and short rules give the times that were worked by hand, and do not agree."""
    span = published_rules_span(case["time_s"], 20.0, case["temp_c"])
    assert span.spread_share > 0.04
    (found,) = [one for one in span.times if one.rule == case["rule"]]
    case["name"] = f"{case['rule']} at {case['temp_c']} C"
    compare(agree, case, found.time_s / 60, case["told_min"], 0.5 * 10 ** -case["digits"], "rules")


@pytest.mark.parametrize("case", cases("temperature", "ranges"))
def test_ranges_in_two_scales(agree, case) -> None:
    """A range printed in Fahrenheit is the range printed in Celsius."""
    (found,) = [one for one in load_temperature_ranges() if one.name == case["name"]]
    case["name"] = case["where"]
    compare(agree, case, getattr(found, case["end"]), case["told_c"], 0.5, "ranges")
