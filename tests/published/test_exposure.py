"""Exposure against published figures; each data file says where each figure stands."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import pytest

from wetside import exposure as ex

FOLDER = Path(__file__).parent / "exposure"


def cases(name):
    """Cases of a data file, as test parameters."""
    found = tomllib.loads((FOLDER / name).read_text("utf-8"))["case"]
    return [pytest.param(case, id=f"{case['formula']}-{case['source']}-{place}") for place, case in enumerate(found)]


def power(case):
    return ex.ReciprocityPower(case["p"], case.get("threshold_s", 1.0))


def table(case):
    return ex.ReciprocityTable(tuple((time_s, factor) for time_s, factor in case["points"]))


def exact(case):
    return ex.aperture_exact(case["aperture_n"]), ex.shutter_exact(case["time_s"])


def losses(case):
    """Arguments of the pipeline for what was meant."""
    meant = case["meant"]
    return {
        "filter_factors": (meant["filter_factor"],),
        "extension_mm": meant["extension_mm"],
        "focal_length_mm": meant["focal_mm"],
        "reciprocity": power(case),
    }


def audited(case):
    return ex.audit_exposure(
        ex.CameraSetting(**case["meant"]),
        ex.CameraSetting(**case["given"]),
        reciprocity=power(case) if "p" in case else ex.NO_RECIPROCITY,
        film_ei=case.get("film_ei"),
        actual_ei=case.get("actual_ei"),
        mishaps=case.get("mishaps", ()),
    )


def bellows(case):
    return ex.bellows_factor(case["extension_mm"], case["focal_length_mm"])


def placed_aperture(case):
    """F-number that the placed reading asks for at the time of the reading."""
    n, time_s = exact(case)
    placed = ex.placed_ev(ex.exposure_value(n, time_s), case["zone"])
    return math.sqrt(time_s * 2.0**placed)


COMPUTE = {
    "bellows_factor": bellows,
    "bellows_stops": lambda c: ex.factor_stops(bellows(c)),
    "bellows_factor_magnification": lambda c: ex.bellows_factor_magnification(c["magnification"]),
    "bellows_aperture": lambda c: ex.aperture_nominal(
        ex.opened_aperture(ex.aperture_exact(c["aperture_n"]), ex.bellows_factor_magnification(c["magnification"]))
    ),
    "bellows_time": lambda c: (
        ex.exposure_pipeline(
            c["metered_s"], extension_mm=c["extension_mm"], focal_length_mm=c["focal_length_mm"]
        ).corrected_s
    ),
    "nominal_thirds": lambda c: ex.nominal_stops(ex.factor_stops(c["factor"])) * 3,
    "stacked_factor": lambda c: ex.stacked_factor(*c["factors"]),
    "factor_stops": lambda c: ex.factor_stops(c["factor"]),
    "opened_nominal": lambda c: ex.aperture_nominal(
        ex.opened_aperture(ex.aperture_exact(c["aperture_n"]), c["factor"])
    ),
    "density_stops": lambda c: ex.factor_stops(ex.density_factor(c["density"])),
    "aperture_exact": lambda c: ex.aperture_exact(c["aperture_n"]),
    "engraved_error": lambda c: 2 * math.log2(c["aperture_n"] / ex.aperture_exact(c["aperture_n"])),
    "shutter_denominator": lambda c: 1 / ex.shutter_exact(c["time_s"]),
    "shutter_exact": lambda c: ex.shutter_exact(c["time_s"]),
    "shutter_error": lambda c: math.log2(c["time_s"] / ex.shutter_exact(c["time_s"])),
    "ev_engraved": lambda c: ex.exposure_value(*exact(c)),
    "ev_plain": lambda c: ex.exposure_value(c["aperture_n"], c["time_s"]),
    "metered_denominator": lambda c: (
        1 / ex.shutter_nominal(ex.metered_time_s(c["ev"], ex.aperture_exact(c["aperture_n"])))
    ),
    "luminance": lambda c: ex.luminance_cd_m2(c["ev"]),
    "illuminance": lambda c: ex.illuminance_lx(c["ev"]),
    "reflectance_percent": lambda c: (
        100 * math.pi * ex.luminance_cd_m2(10.0, k=c["k"]) / ex.illuminance_lx(10.0, c=c["c"])
    ),
    "power_corrected": lambda c: power(c).corrected_s(c["time_s"]),
    "power_effective": lambda c: power(c).effective_s(c["time_s"]),
    "power_stops": lambda c: math.log2(power(c).corrected_s(c["time_s"]) / c["time_s"]),
    "schwarzschild": lambda c: ex.schwarzschild_exponent(c["p"]),
    "table_corrected": lambda c: table(c).corrected_s(c["time_s"]),
    "table_effective": lambda c: table(c).effective_s(c["time_s"]),
    "gainer_corrected": lambda c: ex.ReciprocityGainer(c["a"]).corrected_s(c["time_s"]),
    "placed_change": lambda c: 10.0 - ex.placed_ev(10.0, c["zone"]),
    "placed_aperture": placed_aperture,
    "placed_ev": lambda c: ex.placed_ev(c["ev"], c["zone"]),
    "zone_fall": lambda c: ex.zone_fall(c["shadow_ev"], c["shadow_zone"], c["highlight_ev"]),
    "zones_n": lambda c: ex.zones_n(c["shadow_ev"], c["shadow_zone"], c["highlight_ev"], c["highlight_zone"]),
    "pipeline_product": lambda c: ex.exposure_pipeline(c["meant"]["time_s"], **losses(c)).product_s,
    "pipeline_corrected": lambda c: ex.exposure_pipeline(c["meant"]["time_s"], **losses(c)).corrected_s,
    "pipeline_wrong_order": lambda c: ex.pipeline_wrong_order_s(c["meant"]["time_s"], **losses(c)),
    "audit": lambda c: audited(c).stop_error,
    "audit_highlight": lambda c: audited(c).stop_error_highlight,
}
"""How the code under test computes what each formula's cases print."""


def compare(agree, case):
    tolerance = case["tolerance"] if "tolerance" in case else 0.5 * 10.0 ** -case["digits"]
    agree(
        topic="exposure",
        source=case["source"],
        status=case["status"],
        name=case["where"],
        computed=COMPUTE[case["formula"]](case),
        expected=case["expected"],
        tolerance=tolerance,
        formula=case["formula"],
    )


@pytest.mark.parametrize("case", cases("bellows.toml"))
def test_bellows(agree, case):
    """Bellows factors, stops, times and apertures are those of the copying manuals."""
    compare(agree, case)


@pytest.mark.parametrize("case", cases("filters.toml"))
def test_filters(agree, case):
    """Filter factors turn into the stops that are printed."""
    compare(agree, case)


@pytest.mark.parametrize("case", cases("scales.toml"))
def test_scales(agree, case):
    """Engraved numbers stand for the exact powers of two."""
    compare(agree, case)


@pytest.mark.parametrize("case", cases("meters.toml"))
def test_meters(agree, case):
    """Exposure values, luminances and illuminances are the printed ones."""
    compare(agree, case)


@pytest.mark.parametrize("case", cases("reciprocity_power.toml"))
def test_reciprocity_power(agree, case):
    """A maker's exponent gives the maker's times, forwards and backwards."""
    compare(agree, case)


@pytest.mark.parametrize("case", cases("reciprocity_table.toml"))
def test_reciprocity_table(agree, case):
    """A maker's table is read between its points, forwards and backwards."""
    compare(agree, case)


@pytest.mark.parametrize("case", cases("zones.toml"))
def test_zones(agree, case):
    """Placement, fall and N follow the zone scale."""
    compare(agree, case)


@pytest.mark.parametrize("case", cases("audit.toml"))
def test_audit(agree, case):
    """The pipeline and the audit give what was worked out by hand."""
    compare(agree, case)
