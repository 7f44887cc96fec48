"""Sensitometry against traced, read and independently worked figures; the source stands in each data file."""

from __future__ import annotations

import csv
import math
import tomllib
from collections import defaultdict
from functools import lru_cache
from pathlib import Path

import pytest

from wetside.sensitometry import (
    arc_gauge,
    average_gradient,
    chord_gradient,
    curve_measures,
    curve_of_readings,
    density_of_opacity,
    density_of_print_times,
    family_of_readings,
    log_exposure_range_iso6846,
    log_range_of_n,
    n_of_log_range,
    opacity_of_density,
    required_gradient,
    speed_arithmetic_iso6,
    speed_degrees_iso6,
    zones_of_range_change,
)
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence

HERE = Path(__file__).parent / "sensitometry"
TOPIC = "sensitometry"
STOP = math.log10(2.0)


def load(name):
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


def rows_of(name):
    with (HERE / name).open(encoding="utf-8") as lines:
        yield from csv.reader(line for line in lines if line[0] not in "#dsf")


def half_unit(digits):
    return 0.5 * 10.0**-digits


@lru_cache
def film_a():
    rows = [
        (60.0 * float(dev_min), float(log_h), float(density))
        for dev_min, log_h, density in rows_of("film_a_curves.csv")
    ]
    family, _ = family_of_readings(
        rows,
        film="film A",
        conditions=Conditions("as on the sheet", "stock", 20.0, Agitation.INTERMITTENT),
        channel="visual",
        evidence=Evidence.PUBLISHED,
    )
    return family


@lru_cache
def softplus(kind):
    if kind == "exact":
        log_h = [-1.0 + 0.01 * at for at in range(321)]
        density = [0.12 + 0.65 * math.log1p(math.exp(6.0 * place)) / 6.0 for place in log_h]
    else:
        read = list(rows_of("softplus_21_steps.csv"))
        log_h, density = [float(row[1]) for row in read], [float(row[2]) for row in read]
    return curve_of_readings(360.0, log_h, density, base_fog=0.12)[0]


def measure(curve, name):
    """Any figure of the data files by its name there."""
    if name == "gradient_200":
        return average_gradient(curve, 2.0)
    if name in ("centre_log_h", "low_log_h", "low_density", "high_log_h", "high_density"):
        gauge = arc_gauge(curve)
        end, _, what = name.partition("_")
        return gauge.centre_log_h if end == "centre" else getattr(gauge, end)[0 if what == "log_h" else 1]
    return getattr(curve_measures(curve), name)


METRICS = load("film_a_metrics.toml")


@pytest.mark.parametrize(
    ("dev_min", "name", "expected"),
    [(case["dev_min"], key, value) for case in METRICS["case"] for key, value in case.items() if key != "dev_min"],
)
def test_measures_of_traced_film(agree, dev_min, name, expected):
    """Speed point and slopes of five traced curves agree with straight-line reading of the same points."""
    curve = next(curve for curve in film_a().curves if curve.dev_s == 60.0 * dev_min)
    agree(
        topic=TOPIC,
        source=METRICS["source"],
        status=METRICS["status"],
        name=f"{name} at {dev_min} min",
        formula=name,
        computed=measure(curve, name),
        expected=expected,
        tolerance=METRICS["tolerance"],
    )


FAMILY = load("film_a_family.toml")


@pytest.mark.parametrize("case", FAMILY["case"], ids=lambda case: case["name"])
def test_family_of_traced_film(agree, case):
    """Speed, its change with time, and the growth of contrast of the traced family agree with worked figures."""
    family = film_a()
    times = [curve.dev_s / 60.0 for curve in family.curves]
    indexes = [measure(curve, "contrast_index") for curve in family.curves]
    mean_time, mean_index = sum(times) / 5, sum(indexes) / 5
    slope = sum((t - mean_time) * (ci - mean_index) for t, ci in zip(times, indexes, strict=True)) / sum(
        (t - mean_time) ** 2 for t in times
    )
    computed = {
        "speed at 6 min": speed_arithmetic_iso6(family.curves[2]),
        "speed point gained from 4 to 12 min": family.speed_log_h_at(240.0) - family.speed_log_h_at(720.0),
        "contrast index gained in a minute": slope,
        "contrast index at 0 min on the straight line": mean_index - slope * mean_time,
    }[case["name"]]
    agree(
        topic=TOPIC,
        source=FAMILY["source"],
        status=FAMILY["status"],
        name=case["name"],
        formula=case["name"],
        computed=computed,
        expected=case["value"],
        tolerance=case["tolerance"],
    )


SOFTPLUS = load("softplus_exact.toml")


@pytest.mark.parametrize(("name", "expected"), SOFTPLUS["exact"].items())
def test_exact_curve(agree, name, expected):
    """Every measure of a curve with known answers comes out to five decimals, the arc gauge's points too."""
    agree(
        topic=TOPIC,
        source=SOFTPLUS["source"],
        status=SOFTPLUS["status"],
        name=f"exact {name}",
        formula=name,
        computed=measure(softplus("exact"), name),
        expected=expected,
        tolerance=half_unit(SOFTPLUS["digits"]),
    )


@pytest.mark.parametrize(("name", "expected"), SOFTPLUS["tablet"].items())
def test_exact_curve_through_a_tablet(agree, name, expected):
    """A tablet's 21 steps are enough for three decimals of every measure."""
    agree(
        topic=TOPIC,
        source=SOFTPLUS["source"],
        status=SOFTPLUS["status"],
        name=f"21 steps, {name}",
        formula=f"{name} through 21 steps",
        computed=measure(softplus("tablet"), name),
        expected=expected,
        tolerance=0.0005,
    )


N_TABLE = load("gradient_of_n.toml")


@pytest.mark.parametrize("case", N_TABLE["case"], ids=lambda case: f"n={case['n']}")
def test_gradient_of_n(agree, case):
    """Log ranges and required gradients of N-3 to N+3 agree under all three models."""
    n = case["n"]
    found = {
        "zone_range": ("range of zones", log_range_of_n(n, 7 * STOP)),
        "gradient_flare": ("gradient with flare", required_gradient(1.05, log_range_of_n(n), 0.40)),
        "gradient_120": ("gradient without flare", required_gradient(1.20, log_range_of_n(n, 7 * STOP), 0.0)),
        "gradient_115": ("gradient without flare", required_gradient(1.15, log_range_of_n(n, 7 * STOP), 0.0)),
    }
    assert n_of_log_range(log_range_of_n(n)) == pytest.approx(n)
    short = abs(n) * abs(STOP - N_TABLE["zone"])  # log range by which the table's rounded stop is off
    rounded = {"gradient_flare": found["gradient_flare"][1] * short / (log_range_of_n(n) - 0.40)}
    for key, (formula, computed) in found.items():
        if key in case:
            agree(
                topic=TOPIC,
                source=N_TABLE["source"],
                status=N_TABLE["status"],
                name=f"N {n:+d}, {key}",
                formula=formula,
                computed=computed,
                expected=case[key],
                tolerance=half_unit(N_TABLE["digits"]) + rounded.get(key, 0.0),
            )


GRADIENT = load("gradient_read.toml")


@pytest.mark.parametrize("case", GRADIENT["case"], ids=lambda case: case["source"])
def test_printed_gradients(agree, case):
    """Gradients printed beside their ranges come out of the ranges."""
    agree(
        topic=TOPIC,
        source=case["source"],
        status=GRADIENT["status"],
        name=case["where"],
        computed=required_gradient(case["density_range"], case["log_range"], 0.0),
        expected=case["gradient"],
        tolerance=half_unit(GRADIENT["digits"]),
    )


SPEED = load("speed.toml")


def straight_curve(speed_point):
    """Straight curve of slope 0.6 with its speed point at a log exposure; its lowest reading is base + fog."""
    first, last = speed_point - 0.1 / 0.6, speed_point + 2.0
    return characteristic_curve(300.0, (first, last), (0.2, 0.2 + 0.6 * (last - first)))


@pytest.mark.parametrize("case", SPEED["speed"], ids=lambda case: case["source"])
def test_speed_of_printed_exposure(agree, case):
    """The arithmetic speed follows from the printed exposure of the speed point."""
    curve = straight_curve(math.log10(case["hm_lux_s"]))
    agree(
        topic=TOPIC,
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=speed_arithmetic_iso6(curve),
        expected=case["speed"],
        tolerance=case["tolerance"],
    )


@pytest.mark.parametrize("case", SPEED["degrees"], ids=lambda case: str(case["speed"]))
def test_degrees_of_printed_speeds(agree, case):
    """Logarithmic speeds agree with printed pairs when rounded to whole degrees."""
    agree(
        topic=TOPIC,
        source=case["source"],
        status=case["status"],
        name=f"ISO {case['speed']}",
        computed=speed_degrees_iso6(case["speed"]),
        expected=case["degrees"],
        tolerance=0.5,
    )


@pytest.mark.parametrize(("degrees", "log_hm"), SPEED["nominal"][0]["rows"])
def test_degrees_of_nominal_exposures(agree, degrees, log_hm):
    """A curve with its speed point at a nominal exposure has that speed in degrees."""
    table = SPEED["nominal"][0]
    agree(
        topic=TOPIC,
        source=table["source"],
        status=table["status"],
        name=f"{degrees} degrees",
        computed=speed_degrees_iso6(speed_arithmetic_iso6(straight_curve(log_hm))),
        expected=degrees,
        tolerance=0.005,  # half a unit in the third decimal of log Hm
    )


DENSITY = load("density.toml")


@pytest.mark.parametrize("case", DENSITY["print_times"], ids=lambda case: case["where"])
def test_density_of_print_times(agree, case):
    """Densities follow from the print times that match them."""
    agree(
        topic=TOPIC,
        source=case["source"],
        status=DENSITY["status"],
        name=case["where"],
        computed=density_of_print_times(case["time_s"], case["clear_time_s"]),
        expected=case["density"],
        tolerance=half_unit(case["digits"]),
    )


@pytest.mark.parametrize("case", DENSITY["factor"], ids=lambda case: case["where"])
def test_factor_of_density(agree, case):
    """Factors on light and on print time follow from differences of density."""
    agree(
        topic=TOPIC,
        source=case["source"],
        status=DENSITY["status"],
        name=case["where"],
        computed=case.get("times", 1) * opacity_of_density(case["difference"]),
        expected=case["factor"],
        tolerance=half_unit(case["digits"]),
    )


@pytest.mark.parametrize("case", DENSITY["opacity"], ids=lambda case: case["where"])
def test_density_of_opacity(agree, case):
    """The density of a printed opacity agrees with the one printed beside it."""
    agree(
        topic=TOPIC,
        source=case["source"],
        status=DENSITY["status"],
        name=case["where"],
        computed=density_of_opacity(case["opacity"]),
        expected=case["density"],
        tolerance=half_unit(case["digits"]),
    )


ZONES = load("zone_densities.toml")


@pytest.mark.parametrize("case", ZONES["case"], ids=lambda case: f"{case['low']} to {case['high']}")
def test_slope_of_measured_zones(agree, case):
    """Slopes between zones follow from a published set of measured densities."""
    places = [STOP * zone for zone in range(11)]
    curve, _ = curve_of_readings(360.0, places, ZONES["densities"], base_fog=0.0, absolute=False)
    agree(
        topic=TOPIC,
        source=ZONES["source"],
        status=ZONES["status"],
        name=f"zones {case['low']} to {case['high']}",
        computed=chord_gradient(curve, STOP * case["low"], STOP * case["high"]),
        expected=case["slope"],
        tolerance=half_unit(ZONES["digits"]),
    )


PAPER = load("paper_a_ranges.toml")


@pytest.mark.parametrize(("grade", "expected"), PAPER["range"].items())
def test_range_of_traced_paper(agree, grade, expected):
    """Range numbers of a paper under each filter agree with straight-line reading of its traced curves."""
    points = defaultdict(list)
    for name, log_h, density in rows_of("paper_a_curves.csv"):
        points[name].append((float(log_h), float(density)))
    curve, _ = curve_of_readings(120.0, *zip(*points[grade], strict=True), absolute=False)
    agree(
        topic=TOPIC,
        source=PAPER["source"],
        status=PAPER["status"],
        name=f"filter {grade}",
        computed=100.0 * log_exposure_range_iso6846(curve),
        expected=expected,
        tolerance=PAPER["tolerance"],
    )


CORRECTIONS = load("corrections.toml")


@pytest.mark.parametrize("case", CORRECTIONS["zones"], ids=lambda case: f"flare {case['flare_log']}")
def test_zones_of_a_tenth_of_time(agree, case):
    """A tenth of time in zones agrees with the figures worked with and without flare."""
    agree(
        topic=TOPIC,
        source=CORRECTIONS["source"],
        status=CORRECTIONS["status"],
        name=f"zones, flare {case['flare_log']}",
        computed=zones_of_range_change(
            case["contrast"] * case["aim"],
            case["aim"],
            normal_log_range=case["normal_log_range"],
            flare_log=case["flare_log"],
        ),
        expected=case["zones"],
        tolerance=half_unit(CORRECTIONS["digits"]),
    )


@pytest.mark.parametrize("case", CORRECTIONS["overexposure"], ids=lambda case: f"{case['stops']} stops")
def test_overexposure_on_a_straight_curve(agree, case):
    """Overexposure moves a tone along the straight part by gradient times log exposure."""
    slope = case["gradient"]
    curve = characteristic_curve(360.0, (-3.0, 0.0), (0.2, 0.2 + 3.0 * slope))
    agree(
        topic=TOPIC,
        source=CORRECTIONS["source"],
        status=CORRECTIONS["status"],
        name=f"{case['stops']} stops over",
        computed=curve.density_at(-2.0 + case["stops"] * STOP) - curve.density_at(-2.0),
        expected=case["density"],
        tolerance=half_unit(CORRECTIONS["digits"]),
    )
