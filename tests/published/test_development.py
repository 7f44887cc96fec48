"""Developing times against figures that were published, or worked out without our code."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path
from typing import Any

import pytest

from wetside.adapters.starting_points import (
    load_agitation_advice,
    load_starting_points,
    pairs_for_developer,
    pick_starting_point,
)
from wetside.development import (
    FirstOrderLaw,
    TimePair,
    activation_energy_of_q10,
    agitation_factor,
    choose_cut,
    coefficient_of_pair,
    coefficient_of_pairs,
    coefficient_of_q10,
    coefficient_span_of_pair,
    convert_clock_s,
    density_range_change_assumed,
    effective_development_s,
    effective_relaxing_time_s,
    effective_temp_c,
    effective_time_s,
    elasticity_of_two_times,
    first_order_law,
    floor_check,
    gradient_first_order,
    named_coefficient,
    push_factor_rollei,
    q10_of_coefficient,
    q10_of_pair,
    relaxation_time_s,
    relaxed_temp_c,
    temperature_factor,
    time_factor_assumed,
    time_first_order_s,
)
from wetside.values.conditions import Agitation, ClockRule, StopKind

FOLDER = Path(__file__).parent / "development"


def table(name: str) -> dict[str, Any]:
    return tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))


def half(digits: int) -> float:
    """Half a unit of the last printed digit."""
    return 0.5 * 10.0**-digits


def cases(name: str, key: str = "case") -> list[Any]:
    """Cases of a file, each with the head of the file below it."""
    whole = table(name)
    head = {one: value for one, value in whole.items() if not isinstance(value, list | dict)}
    found = whole[key]
    rows = found["case"] if isinstance(found, dict) else found
    over = {one: value for one, value in found.items() if one != "case"} if isinstance(found, dict) else {}
    return [pytest.param({**head, **over, **row}, id=f"{name}-{number}") for number, row in enumerate(rows)]


def noted(case: dict[str, Any], name: str, **more: Any) -> dict[str, Any]:
    return {"topic": "development", "source": case["source"], "status": case["status"], "name": name, **more}


@pytest.mark.parametrize("case", [*cases("q10_of_pairs"), *cases("q10_of_foma_pairs")])
def test_q10_of_a_pair(case, agree) -> None:
    """Two printed times give the ratio that they were worked out to."""
    pair = TimePair(case["cold_c"], case["cold_min"] * 60, case["warm_c"], case["warm_min"] * 60)
    agree(**noted(case, case["name"]), computed=q10_of_pair(pair), expected=case["q10"], tolerance=half(2))


@pytest.mark.parametrize("case", cases("q10_of_developers"))
def test_mean_q10_of_a_developer(case, agree) -> None:
    """The pairs of a developer have the mean, the lowest and the highest Q10 that were worked out from the sheet."""
    pairs = pairs_for_developer(case["developer"], source=case["source"])
    q10s = [q10_of_pair(pair) for pair in pairs]
    assert len(q10s) == case["pairs"]
    assert min(q10s) == pytest.approx(case["low"], abs=half(2))
    assert max(q10s) == pytest.approx(case["high"], abs=half(2))
    mean = sum(q10s) / len(q10s)
    agree(**noted(case, case["developer"]), computed=mean, expected=case["mean"], tolerance=half(2))


@pytest.mark.parametrize("case", cases("q10_of_developers"))
def test_the_coefficient_of_a_developer_lies_at_its_mean(case) -> None:
    """The mean of the coefficients and the mean of the ratios are the same developer: within 3 % of Q10."""
    coefficient = coefficient_of_pairs(pairs_for_developer(case["developer"], source=case["source"]))
    assert q10_of_coefficient(coefficient.per_c) == pytest.approx(case["mean"], rel=0.03)
    assert coefficient.span_c == (20.0, 24.0)


@pytest.mark.parametrize("case", cases("temperature_chart"))
def test_temperature_chart(case, agree) -> None:
    """One printed worked line predicts the factors of the whole chart within its reading error."""
    pair = TimePair(case["cold_c"], case["cold_min"] * 60, case["warm_c"], case["warm_min"] * 60)
    factor = temperature_factor(named_coefficient(coefficient_of_pair(pair)), 20.0, case["temp_c"])
    tolerance = case["reading_error"] * case["factor"]
    agree(**noted(case, f"{case['temp_c']} C"), computed=factor, expected=case["factor"], tolerance=tolerance)


@pytest.mark.parametrize("case", cases("temperature_worked_lines"))
def test_worked_lines_of_the_chart(case, agree) -> None:
    """The traced slope gives the worked lines that are printed beside the chart."""
    time_min = case["at_20_min"] * temperature_factor(named_coefficient(case["per_c"]), 20.0, case["temp_c"])
    printed = case["printed_min"]
    name = f"{case['at_20_min']} min at {case['temp_c']} C"
    agree(**noted(case, name), computed=time_min, expected=printed, tolerance=case["reading_error"] * printed)


@pytest.mark.parametrize("case", cases("coefficients"))
def test_coefficient_of_a_pair(case, agree) -> None:
    """Single pairs of figures give the coefficients and ratios that are told of them."""
    soft_s = case.get("soft_s", 0.0)
    pair = TimePair(
        case["cold_c"], case["cold_s"], case["warm_c"], case["warm_s"], cold_soft_s=soft_s, warm_soft_s=soft_s
    )
    low, high = coefficient_span_of_pair(pair)
    computed = {
        "per_c": coefficient_of_pair(pair),
        "decimal_log_per_c": coefficient_of_pair(pair) / math.log(10.0),
        "q10": q10_of_pair(pair),
        "q10_low": q10_of_coefficient(low),
        "q10_high": q10_of_coefficient(high),
    }[case["wanted"]]
    agree(**noted(case, case["name"]), computed=computed, expected=case["value"], tolerance=half(case["digits"]))


@pytest.mark.parametrize("case", cases("time_at_other_temperature"))
def test_time_at_another_temperature(case, agree) -> None:
    """A warm bath, three coefficients, three answers."""
    per_c = case["per_c"] if "per_c" in case else coefficient_of_q10(case["q10"])
    time_s = case["time_s"] * temperature_factor(named_coefficient(per_c), case["from_c"], case["to_c"])
    agree(**noted(case, case["name"]), computed=time_s, expected=case["told_s"], tolerance=case["tolerance_s"])


@pytest.mark.parametrize("case", cases("xray_chart"))
def test_xray_chart(case, agree) -> None:
    """The two ends of a printed chart predict its rows within what rounding to half minutes leaves open."""
    cold_c, warm_c, temp_c = ((case[name] - 32.0) / 1.8 for name in ("cold_f", "warm_f", "temp_f"))

    def predicted_min(more: float) -> float:
        pair = TimePair(cold_c, (case["cold_min"] + more) * 60, warm_c, (case["warm_min"] + more) * 60)
        return pair.cold_s / 60 * temperature_factor(coefficient_of_pairs([pair]), cold_c, temp_c)

    computed, rounding = predicted_min(0.0), case["rounding_min"]
    tolerance = rounding + predicted_min(rounding) - computed
    agree(**noted(case, f"{case['temp_f']} F"), computed=computed, expected=case["printed_min"], tolerance=tolerance)


@pytest.mark.parametrize("case", cases("arrhenius"))
def test_activation_energy(case, agree) -> None:
    """A ratio over ten degrees means the activation energy that chemistry gives."""
    energy = activation_energy_of_q10(case["q10"]) / 1000.0
    agree(**noted(case, f"Q10 {case['q10']}"), computed=energy, expected=case["kj_per_mol"], tolerance=half(0))


@pytest.mark.parametrize("case", cases("changing_temperature"))
def test_changing_temperature(case, agree) -> None:
    """A bath that cools by 0.6 C develops as much too little as was worked out."""
    per_c = case["per_c"] if "per_c" in case else coefficient_of_q10(case["q10"])
    readings = [tuple(reading) for reading in case["readings"]]
    effective_s = effective_time_s(readings, named_coefficient(per_c), case["at_c"])
    under = (1.0 - effective_s / readings[-1][0]) * 100.0
    agree(**noted(case, case["name"]), computed=under, expected=case["under_percent"], tolerance=case["tolerance"])


@pytest.mark.parametrize("case", cases("relaxation"))
def test_relaxation(case, agree) -> None:
    """Liquid follows its surroundings as the lumped model says."""
    temp_c = relaxed_temp_c(case["elapsed_s"], case["start_c"], case["jacket_c"], case["tau_s"])
    agree(**noted(case, case["name"]), computed=temp_c, expected=case["temp_c"], tolerance=half(case["digits"]))


def test_mean_temperature_of_a_relaxing_bath(agree) -> None:
    """With a weak coefficient the effective temperature is the mean temperature."""
    head, mean = table("relaxation"), table("relaxation")["mean"]
    weak = named_coefficient(mean["per_c"])
    course = (mean["start_c"], mean["jacket_c"], mean["tau_s"], weak, mean["start_c"])
    effective_s = effective_relaxing_time_s(mean["duration_s"], *course)
    temp_c = effective_temp_c(effective_s, mean["duration_s"], weak, mean["start_c"])
    agree(**noted(head, "mean"), computed=temp_c, expected=mean["temp_c"], tolerance=half(mean["digits"]))


def test_time_constant_of_a_vessel(agree) -> None:
    """Two readings give the time constant that was worked out."""
    head, tau = table("relaxation"), table("relaxation")["tau"]
    minutes = relaxation_time_s(tau["elapsed_s"], tau["start_c"], tau["end_c"], tau["jacket_c"]) / 60.0
    agree(**noted(head, "tau"), computed=minutes, expected=tau["tau_min"], tolerance=half(tau["digits"]))


@pytest.mark.parametrize("case", cases("rotary"))
def test_rotary_time(case, agree) -> None:
    """A printed time with its own sheet's cut is the rotary time that was worked out."""
    names = (case["film"], case["developer"], case["dilution"], case["ei"])
    point = pick_starting_point(load_starting_points(), *names, source=case["source"])
    cut = choose_cut(load_agitation_advice().cuts, Agitation.ROTARY, source_key=point.source.key)
    factor = agitation_factor(point.agitation, Agitation.ROTARY, presoak_from=point.presoak, presoak_to=False, cut=cut)
    minutes = point.time_s * factor.value / 60.0
    name = " ".join(map(str, names))
    agree(**noted(case, name), computed=minutes, expected=case["rotary_min"], tolerance=half(case["digits"]))


@pytest.mark.parametrize("case", [pytest.param(row, id=str(n)) for n, row in enumerate(table("clock")["case"])])
def test_effective_development(case, agree) -> None:
    """Each clock rule and each stop gives the effective time that was worked out."""
    head = table("clock")
    handling = {name: head[name] for name in ("pour_s", "drain_s", "stop_pour_s")}
    rule, stop = ClockRule(case["rule"]), StopKind(case["stop"])
    computed = effective_development_s(case["clock_s"], rule, stop, **handling)
    row = {**case, "status": head["status"]}
    agree(**noted(row, f"{rule} {stop}"), computed=computed, expected=case["effective_s"], tolerance=0.05)


def test_difference_of_two_clock_rules(agree) -> None:
    """The same time by two rules differs by the pour, 2.8 % of six minutes."""
    head, row = table("clock"), table("clock")["difference"]
    handling = {name: head[name] for name in ("pour_s", "drain_s", "stop_pour_s")}
    rules = ClockRule(row["from_rule"]), ClockRule(row["to_rule"])
    moved = convert_clock_s(row["time_s"], *rules, StopKind.ACID, StopKind.ACID, **handling)
    assert not moved.is_same
    assert row["time_s"] - moved.time_s == pytest.approx(row["shorter_s"])
    row["status"] = head["status"]
    percent = (1.0 - moved.factor) * 100.0
    agree(**noted(row, "pour"), computed=percent, expected=row["shorter_percent"], tolerance=half(row["digits"]))


@pytest.mark.parametrize("case", cases("contrast", "time"))
def test_time_for_another_contrast(case, agree) -> None:
    """The assumed elasticity moves a time as far as was worked out, and as a traced family does within its spread."""
    factor = time_factor_assumed(case["wanted"], case["given"])
    agree(**noted(case, case["name"]), computed=factor, expected=case["factor"], tolerance=case["tolerance"])


@pytest.mark.parametrize("case", cases("contrast", "range"))
def test_range_for_another_time(case, agree) -> None:
    """A change of time changes the density range as far as was worked out."""
    change = density_range_change_assumed(case["density_range"], case["time_factor"], case["elasticity"])
    name = f"{case['time_factor']} of the time"
    agree(**noted(case, name), computed=change, expected=case["change"], tolerance=case["tolerance"])


@pytest.mark.parametrize("case", cases("contrast", "elasticity"))
def test_elasticity_of_a_straight_family(case, agree) -> None:
    """Two near times of a straight family have the elasticity that its line has there."""
    times = [case["minutes"] * part for part in (0.99, 1.01)]
    first, second = [(t * 60.0, case["slope_per_min"] * t + case["intercept"]) for t in times]
    computed = elasticity_of_two_times(*first, *second)
    name = f"{case['minutes']} min"
    agree(**noted(case, name), computed=computed, expected=case["elasticity"], tolerance=half(case["digits"]))


def test_two_factors_together(agree) -> None:
    """The rotary cut and the way to a softer negative together are 0.77 of the tank's time."""
    row = table("contrast")["both"]
    factor = agitation_factor(Agitation.INTERMITTENT, Agitation.ROTARY).value * time_factor_assumed(0.583, 0.62)
    agree(**noted(row, "both"), computed=factor, expected=row["factor"], tolerance=half(row["digits"]))


@pytest.mark.parametrize("case", cases("first_order", "fit"))
def test_two_time_method(case, agree) -> None:
    """Contrasts at a time and its double give limit, rate and time of the worked cases."""
    law = first_order_law(case["short_min"] * 60, case["g1"], case["g2"])
    name = f"{case['g1']} and {case['g2']}"
    limit, rate, minutes = law.limit, law.per_s * 60, time_first_order_s(law, 0.62) / 60
    agree(**noted(case, name, formula="limit"), computed=limit, expected=case["limit"], tolerance=half(5))
    agree(**noted(case, name, formula="rate"), computed=rate, expected=case["rate_per_min"], tolerance=half(5))
    agree(**noted(case, name, formula="time"), computed=minutes, expected=case["time_of_062_min"], tolerance=half(3))


@pytest.mark.parametrize("case", cases("first_order", "named"))
def test_first_order_law(case, agree) -> None:
    """A law with named constants gives the contrasts and the time of the worked cases."""
    law = FirstOrderLaw(case["limit"], case["rate_per_min"] / 60, case["induction_min"] * 60)
    for minutes, gradient in case["gradients"]:
        name = f"{minutes} min, limit {case['limit']}"
        computed = gradient_first_order(law, minutes * 60)
        agree(**noted(case, name, formula="gradient"), computed=computed, expected=gradient, tolerance=half(4))
    minutes = time_first_order_s(law, 0.62) / 60
    name = f"0.62, limit {case['limit']}"
    agree(**noted(case, name, formula="time"), computed=minutes, expected=case["time_of_062_min"], tolerance=half(3))


@pytest.mark.parametrize("case", cases("push"))
def test_push_rule(case, agree) -> None:
    """Two stops are the square of the printed factor, and a pull divides by it."""
    factor = push_factor_rollei(case["stops"]).value
    name = f"{case['stops']} stops"
    agree(**noted(case, name), computed=factor, expected=case["factor"], tolerance=half(case["digits"]))


@pytest.mark.parametrize("case", cases("floor"))
def test_floor(case, agree) -> None:
    """A short time is held against the floors that makers print; pour and drain have their share."""
    check = floor_check(case["time_s"], 10.0, 15.0, case["floor_s"])
    assert check.below is case["below"]
    percent = check.handling_share * 100.0
    agree(**noted(case, f"{case['time_s']} s"), computed=percent, expected=case["handling_percent"], tolerance=half(0))
