"""Speed, paper, zones, rescue and what comes after the negative, against read and independently worked figures."""

from __future__ import annotations

import csv
import math
import tomllib
from collections import defaultdict
from functools import lru_cache
from pathlib import Path

import pytest

from wetside.adapters.printing_data import load_printing_ranges, load_speed_classes, rows_of_kind
from wetside.errors import RefusedError
from wetside.sensitometry import curve_of_readings, family_of_readings, log_exposure_range_iso6846
from wetside.sensitometry.after_negative import NegativeReading, decide_after_negative, print_time_s
from wetside.sensitometry.grades import PrintingAim, grade_of_range, iso_range_iso6846, printing_for_range
from wetside.sensitometry.paper_test import black_time_for_base_s, paper_range_of_steps
from wetside.sensitometry.preflash import step_after_flash, stops_gained_by_flash
from wetside.sensitometry.rescue import (
    DensityLimit,
    Misexposure,
    longest_time_under_limit,
    rescue_predictions,
    rescue_sheet,
)
from wetside.sensitometry.speed import (
    iso_condition_miss,
    metered_lux_s,
    speed_class_iso6,
    speed_iso6,
    speed_of_family_iso6,
    speed_point_lux_s,
)
from wetside.sensitometry.zones import highlight_zone_of_n, zone_densities, zone_of_log_h, zone_targets
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.values.family import contrast_family

HERE = Path(__file__).parent / "printing"
TRACES = Path(__file__).parent / "sensitometry"
CONDITIONS = Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY)
STOP = math.log10(2.0)
SPEEDS = load_speed_classes()
RANGES = load_printing_ranges()


def load(name):
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


def rows_of(name):
    with (TRACES / name).open(encoding="utf-8") as lines:
        yield from csv.reader(line for line in lines if line[0] not in "#dsf")


def half_unit(digits):
    return 0.5 * 10.0**-digits


def each_row(tables):
    return [(table, row) for table in tables for row in table["rows"]]


@lru_cache
def film_a():
    rows = [(60.0 * float(row[0]), float(row[1]), float(row[2])) for row in rows_of("film_a_curves.csv")]
    return family_of_readings(
        rows, film="film A", conditions=CONDITIONS, channel="visual", evidence=Evidence.PUBLISHED
    )[0]


@lru_cache
def straight_family(low_slope, high_slope):
    """Straight curves at 5 and 10 minutes: net density = slope (log H + 3)."""
    curves = [
        characteristic_curve(dev_s, (-3.0, 2.0), (0.1, 0.1 + 5.0 * slope))
        for dev_s, slope in ((300.0, low_slope), (600.0, high_slope))
    ]
    return contrast_family("by hand", curves, conditions=CONDITIONS, channel="visual", evidence=Evidence.TESTED)


def meeting_curve(log_hm):
    """Straight curve that meets the contrast condition, with its speed point at a log exposure."""
    slope = 0.80 / 1.30
    return characteristic_curve(300.0, (log_hm - 0.1 / slope, log_hm + 2.0), (0.2, 0.3 + 2.0 * slope))


SPEED = load("speed.toml")


@pytest.mark.parametrize(("table", "row"), each_row(SPEED["marked"]), ids=lambda value: str(value)[:14])
def test_third_stops_are_marked_as_printed(agree, table, row):
    """An exact third of a stop is rounded to the number that is printed for it."""
    thirds, expected = row
    found = speed_iso6(meeting_curve(math.log10(0.8 / (100.0 * 2.0 ** (thirds / 3.0)))), SPEEDS)
    agree(
        topic="speed",
        source=table["source"],
        status=table["status"],
        name=f"{thirds} thirds from 100",
        computed=found.marked.arithmetic,
        expected=expected,
        tolerance=0,
    )


@pytest.mark.parametrize(("table", "row"), each_row(SPEED["pair"]), ids=lambda value: str(value)[:14])
def test_degrees_of_marked_speeds(agree, table, row):
    """A film that needs the exposure of a printed speed is marked with the degrees printed beside it."""
    arithmetic, degrees = row
    agree(
        topic="speed",
        source=table["source"],
        status=table["status"],
        name=f"ISO {arithmetic}",
        computed=speed_class_iso6(math.log10(speed_point_lux_s(arithmetic)), SPEEDS).degrees,
        expected=degrees,
        tolerance=0,
    )


@pytest.mark.parametrize("case", SPEED["exposure"], ids=lambda case: case["where"])
def test_exposures_of_speeds(agree, case):
    """Exposures of speed point and meter point follow from the speed."""
    metered, point = metered_lux_s(case["speed"]), speed_point_lux_s(case["speed"])
    computed = {
        "metered": metered,
        "speed point": point,
        "log between": math.log10(metered) - math.log10(point),
        "log speed point": math.log10(point),
    }[case["what"]]
    agree(
        topic="speed",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        formula=case["what"],
        computed=computed,
        expected=case["value"],
        tolerance=half_unit(case["digits"]),
    )


@pytest.mark.parametrize("case", SPEED["triangle"], ids=lambda case: case["where"])
def test_slope_that_meets_the_condition(agree, case):
    """The time that meets the condition between two straight curves has the printed slope."""
    found = speed_of_family_iso6(straight_family(0.5, 0.7), SPEEDS, tolerance=0.0)
    agree(
        topic="speed",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=straight_family(0.5, 0.7).gradient_at(found.dev_s, -2.5, 1.30),
        expected=case["slope"],
        tolerance=half_unit(case["digits"]),
    )


@pytest.mark.parametrize(("table", "row"), each_row(SPEED["miss"]), ids=lambda value: str(value)[:14])
def test_miss_of_the_contrast_condition(agree, table, row):
    """How far the traced curves are from the contrast condition agrees with straight-line reading, and is told."""
    dev_min, miss = row
    curve = next(curve for curve in film_a().curves if curve.dev_s == 60.0 * dev_min)
    computed = iso_condition_miss(curve)
    if abs(miss) > 0.05:
        with pytest.raises(RefusedError) as caught:
            speed_iso6(curve, SPEEDS)
        computed = caught.value.params["miss"]
    agree(
        topic="speed",
        source=table["source"],
        status=table["status"],
        name=f"{dev_min} min",
        computed=computed,
        expected=miss,
        tolerance=table["tolerance"],
    )


def test_speed_of_the_traced_film(agree):
    """The time that meets the condition, the speed there and its mark agree with straight-line reading."""
    (case,) = SPEED["family"]
    found = speed_of_family_iso6(film_a(), SPEEDS)
    for name, computed, expected, tolerance in (
        ("time", found.dev_s / 60.0, case["dev_min"], case["dev_tolerance"]),
        ("speed", found.arithmetic, case["speed"], case["speed_tolerance"]),
        ("mark", found.marked.arithmetic, case["marked"], 0),
    ):
        agree(
            topic="speed",
            source=case["source"],
            status=case["status"],
            name=f"{name}, {case['where']}",
            formula=f"family, {name}",
            computed=computed,
            expected=expected,
            tolerance=tolerance,
        )


def test_speed_of_the_exact_curve(agree):
    """Speed, degrees, mark and miss of a curve with known answers."""
    (case,) = SPEED["exact"]
    log_h = [-1.0 + 0.01 * at for at in range(321)]
    density = [0.12 + 0.65 * math.log1p(math.exp(6.0 * place)) / 6.0 for place in log_h]
    curve, _ = curve_of_readings(360.0, [place - 2.5 for place in log_h], density, base_fog=0.12)
    found = speed_iso6(curve, SPEEDS)
    for name, computed, tolerance in (
        ("speed", found.arithmetic, 0.05),
        ("degrees", found.degrees, 0.005),
        ("marked", found.marked.arithmetic, 0),
        ("miss", found.miss, 0.000005),
    ):
        agree(
            topic="speed",
            source=case["source"],
            status=case["status"],
            name=f"{name}, {case['where']}",
            formula=f"exact, {name}",
            computed=computed,
            expected=case[name],
            tolerance=tolerance,
        )


PAPER = load("paper.toml")


@pytest.mark.parametrize("case", PAPER["grade"], ids=lambda case: case["where"])
def test_grade_of_a_range(agree, case):
    """The grade that holds a range is the printed one, at the ends that were read."""
    agree(
        topic="paper",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=float(grade_of_range(case["density_range"], rows_of_kind(RANGES, "grade")).name),
        expected=case["grade"],
        tolerance=0,
    )


@pytest.mark.parametrize(("table", "row"), each_row(PAPER["iso_range"]), ids=lambda value: str(value)[:14])
def test_range_number_of_the_traced_paper(agree, table, row):
    """Range numbers of the traced paper round to the ten that straight-line reading gives."""
    name, expected = row
    points = defaultdict(list)
    for filter_name, log_h, density in rows_of("paper_a_curves.csv"):
        points[filter_name].append((float(log_h), float(density)))
    curve, _ = curve_of_readings(120.0, *zip(*points[name], strict=True), absolute=False)
    agree(
        topic="paper",
        source=table["source"],
        status=table["status"],
        name=f"filter {name}",
        computed=iso_range_iso6846(log_exposure_range_iso6846(curve)),
        expected=expected,
        tolerance=0,
    )


@pytest.mark.parametrize(("table", "row"), each_row(PAPER["between"]), ids=lambda value: str(value)[:14])
def test_place_between_filters(agree, table, row):
    """A density range finds its place between two filters of the paper."""
    density_range, expected = row
    filters = [row for row in rows_of_kind(RANGES, "filter") if row.name != "00"]
    fit = printing_for_range(density_range, filters)
    agree(
        topic="paper",
        source=table["source"],
        status=table["status"],
        name=f"range {density_range}",
        computed=float(fit.softer.name) + fit.share,
        expected=expected,
        tolerance=0.005,
    )


@pytest.mark.parametrize("case", PAPER["steps"], ids=lambda case: case["where"])
def test_paper_test_by_eye(agree, case):
    """Range, uncertainty and what it is worth follow from the first and the last toned step."""
    found = paper_range_of_steps(case["first"], case["last"], case.get("tablet"))
    for name, computed, tolerance in (
        ("range", found.log_exposure_range, 0.0005),
        ("uncertainty", found.uncertainty, 0.0005),
        ("range_share", found.range_share, 0.0005),
        ("time_share", found.time_share, 0.005),
    ):
        if name in case:
            agree(
                topic="paper",
                source=case["source"],
                status=case["status"],
                name=f"{name}, {case['where']}",
                formula=f"by eye, {name}",
                computed=computed,
                expected=case[name],
                tolerance=tolerance,
            )


@pytest.mark.parametrize(("table", "row"), each_row(PAPER["black"]), ids=lambda value: str(value)[:14])
def test_black_time_through_a_denser_base(agree, table, row):
    """The time for black through a denser base is the print time printed beside that density."""
    density, expected, digits = row
    agree(
        topic="paper",
        source=table["source"],
        status=table["status"],
        name=f"base {density} denser",
        computed=black_time_for_base_s(10.0, 0.2, 0.2 + density),
        expected=expected,
        tolerance=half_unit(digits),
    )


@pytest.mark.parametrize(("table", "row"), each_row(PAPER["flash"]), ids=lambda value: str(value)[:14])
def test_gain_by_a_flash(agree, table, row):
    """A flash raises each zone by the worked number of stops."""
    zone, flash, expected = row
    agree(
        topic="paper",
        source=table["source"],
        status=table["status"],
        name=f"Zone {zone}, flash on {flash}",
        computed=stops_gained_by_flash(zone, flash),
        expected=expected,
        tolerance=half_unit(table["digits"]),
    )


@pytest.mark.parametrize(("table", "row"), each_row(PAPER["flash_step"]), ids=lambda value: str(value)[:14])
def test_step_left_by_a_flash(agree, table, row):
    """A flash leaves the worked number of stops between a zone and the one below it."""
    zone, flash, expected = row
    agree(
        topic="paper",
        source=table["source"],
        status=table["status"],
        name=f"step below Zone {zone}, flash on {flash}",
        computed=step_after_flash(zone, flash),
        expected=expected,
        tolerance=half_unit(table["digits"]),
    )


ZONES = load("zones.toml")


@pytest.mark.parametrize("zone", range(1, 10))
def test_zone_left_out(agree, zone):
    """A measured zone comes out of a curve through every other measured zone."""
    (table,) = ZONES["left_out"]
    known = [place for place in range(11) if (place - zone) % 2]
    curve, _ = curve_of_readings(
        360.0,
        [STOP * place for place in known],
        [table["densities"][place] for place in known],
        base_fog=0.0,
        absolute=False,
    )
    (found,) = zone_densities(curve, STOP, zones=(zone,))
    agree(
        topic="paper",
        source=table["source"],
        status=table["status"],
        name=f"Zone {zone} left out",
        computed=found.net_density,
        expected=table["densities"][zone],
        tolerance=table["tolerance"],
    )


@pytest.mark.parametrize(("table", "row"), each_row(ZONES["brought"]), ids=lambda value: str(value)[:14])
def test_zone_that_is_brought_to_eight(agree, table, row):
    """N-1 and N+1 bring the printed zones to the density of VIII."""
    agree(
        topic="paper",
        source=table["source"],
        status=table["status"],
        name=f"N {row[0]:+d}",
        computed=highlight_zone_of_n(row[0]),
        expected=row[1],
        tolerance=0,
    )


@pytest.mark.parametrize("case", ZONES["target"], ids=lambda case: case["where"])
def test_zone_targets(agree, case):
    """Targets lie on the straight line from Zone I to the zone that prints as VIII."""
    (found,) = zone_targets(case["density_range"], zones=(case["zone"],), n=case.get("n", 0))
    agree(
        topic="paper",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=found.net_density,
        expected=case["net_density"],
        tolerance=case["tolerance"],
    )


@pytest.mark.parametrize("case", ZONES["stops"], ids=lambda case: case["where"])
def test_log_range_as_zones(agree, case):
    """Log ranges come out as the zones or stops printed beside them."""
    agree(
        topic="paper",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=zone_of_log_h(case["log_range"], 0.0, 0.0),
        expected=case["zones"],
        tolerance=case["tolerance"],
    )


RESCUE = load("rescue.toml")


@pytest.mark.parametrize("case", RESCUE["hand"], ids=lambda case: case["name"])
def test_rescue_worked_by_hand(agree, case):
    """Advised time, densities and losses of a misexposed sheet agree with straight curves worked by hand."""
    limit = DensityLimit("stated", case["limit"], Evidence.ASSUMED) if "limit" in case else None
    found = rescue_sheet(
        straight_family(0.5, 0.7),
        Misexposure(-2.8, 1.8, case["stop_error"]),
        case["normal_s"],
        1.05,
        0.08,
        limit=limit,
    )
    assert found.act == case["act"]
    for name, computed, tolerance in (
        ("dev_s", found.dev_s, 0.05),
        ("shadow", found.advised.shadow_net, 0.0001),
        ("highlight", found.advised.highlight_net, 0.0001),
        ("density_range", found.advised.density_range, 0.0001),
        ("denser", found.denser, 0.0001),
        ("print_factor", found.print_factor, 0.001),
        ("lost_density", found.lost_density, 0.0001),
        ("lost_stops", found.lost_stops, 0.0002),
    ):
        if name in case:
            agree(
                topic="rescue",
                source="worked-printing",
                status="COMPUTED",
                name=f"{name}, {case['name']}",
                formula=f"rescue, {name}",
                computed=computed,
                expected=case[name],
                tolerance=tolerance,
            )


@pytest.mark.parametrize(("table", "row"), each_row(RESCUE["traced"]), ids=lambda value: str(value)[:18])
def test_rescue_of_the_traced_film(agree, table, row):
    """Shadow and highlight of a misexposed sheet of the traced film agree with straight-line reading."""
    dev_min, stops, shadow, highlight = row
    (found,) = rescue_predictions(film_a(), Misexposure(-2.40, 1.20, stops), (60.0 * dev_min,))
    for name, computed, expected in (
        ("shadow", found.shadow_net, shadow),
        ("highlight", found.highlight_net, highlight),
    ):
        agree(
            topic="rescue",
            source=table["source"],
            status=table["status"],
            name=f"{name} at {dev_min} min, {stops:+d} stops",
            formula=f"traced {name}",
            computed=computed,
            expected=expected,
            tolerance=table["tolerance"],
        )


@pytest.mark.parametrize("case", RESCUE["traced_limit"], ids=lambda case: case["where"])
def test_limit_on_the_traced_film(agree, case):
    """The longest time under a limit agrees with straight-line reading."""
    highlight = Misexposure(-2.40, 1.20, case["stop_error"]).film_log_h[1]
    found = longest_time_under_limit(film_a(), highlight, case["limit"], 60.0 * case["normal_min"])
    agree(
        topic="rescue",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=found / 60.0,
        expected=case["dev_min"],
        tolerance=case["tolerance"],
    )


AFTER = load("after_negative.toml")


@pytest.mark.parametrize("case", AFTER["print_time"], ids=lambda case: case["where"])
def test_print_time_under_another_density(agree, case):
    """Print times follow from a change of density."""
    agree(
        topic="rescue",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=print_time_s(case["time_s"], case["density"], case["new_density"]),
        expected=case["value"],
        tolerance=half_unit(case["digits"]),
    )


@pytest.mark.parametrize("case", AFTER["way"], ids=lambda case: case["name"])
def test_after_the_negative_worked_by_hand(agree, case):
    """Predicted range, loss and print exposure of each way on agree with figures worked by hand."""
    aim = PrintingAim(1.05, case.get("tolerance", 0.08), "variable-paper", ("blue",), Evidence.TESTED, None)
    found = decide_after_negative(
        NegativeReading(case["shadow"], case["highlight"], fixed_and_washed=True),
        aim,
        rows_of_kind(RANGES, "filter") if case.get("filters") else (),
        cut=case.get("cut"),
    )
    assert found.advised.act == case["advised"]
    way = next(option for option in found.options if option.act == case["act"])
    for name, computed, tolerance in (
        ("range_after", way.range_after, 0.0001),
        ("range_low", way.range_after_low, 0.0001),
        ("range_high", way.range_after_high, 0.0001),
        ("wanted", way.wanted, 0.0001),
        ("deviation", way.deviation, 0.001),
        ("grades", way.grades, 0.005),
        ("lost", way.lost, 0.0001),
        ("print_factor", way.print_factor, 0.0005),
    ):
        if name in case:
            agree(
                topic="rescue",
                source="worked-printing",
                status="COMPUTED",
                name=f"{name}, {case['name']}",
                formula=f"after, {name}",
                computed=computed,
                expected=case[name],
                tolerance=tolerance,
            )
