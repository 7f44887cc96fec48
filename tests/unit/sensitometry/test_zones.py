"""Zones: exposures, densities, targets."""

from __future__ import annotations

import pytest

from wetside.errors import OutOfRangeError
from wetside.sensitometry.speed import speed_point_lux_s
from wetside.sensitometry.zones import (
    highlight_zone_of_n,
    log_h_of_metered_zone,
    log_h_of_zone,
    zone_densities,
    zone_densities_at,
    zone_of_log_h,
    zone_targets,
)
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.values.family import contrast_family
from wetside.wording.sentence import known_codes, sentence

NAN = float("nan")
FAMILY = contrast_family(
    "Tolland 100",
    [characteristic_curve(s, (-3.0, -1.0), (0.1, 0.1 + 2 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    channel="visual",
    evidence=Evidence.TESTED,
)


def test_the_speed_point_lies_between_zones_one_and_two():
    """With the meter on the film's own speed it is 1.00 log below Zone V: Zone I 2/3."""
    log_hm = speed_point_lux_s(125.0)
    zone = zone_of_log_h(-2.1938, log_h_of_metered_zone(5.0, 125.0), 5.0)
    assert log_hm == pytest.approx(0.0064)
    assert zone == pytest.approx(1.68, abs=0.01)


def test_exposure_and_zone_are_inverse():
    """A zone's exposure is on that zone."""
    assert zone_of_log_h(log_h_of_zone(6.5, -2.0, 3.0), -2.0, 3.0) == pytest.approx(6.5)


def test_densities_beyond_the_readings_have_a_reason():
    """What is not read is None, with a code; the rest is told."""
    zones = zone_densities_at(FAMILY, 450.0, -2.8)
    assert [zone.net_density is None for zone in zones] == [True] + [False] * 6 + [True] * 4
    assert zones[0].code == "values.family.shadow_not_read"
    assert all(zone.code == "values.family.highlight_not_read" for zone in zones[7:])


def test_a_family_at_a_tested_time_is_its_curve():
    """No interpolation where there is a test."""
    by_family = zone_densities_at(FAMILY, 300.0, -2.8, zones=(1, 4))
    by_curve = zone_densities(FAMILY.curves[0], -2.8, zones=(1, 4))
    assert [zone.net_density for zone in by_family] == pytest.approx([zone.net_density for zone in by_curve])


def test_targets_end_on_the_zone_that_prints_as_eight():
    """From Zone I to VIII at N, to IX at N-1; below base + fog there is no target."""
    for n in (-1.0, 0.0, 1.0):
        first, last = zone_targets(1.15, zones=(1, highlight_zone_of_n(n)), n=n)
        assert (first.net_density, last.net_density) == (pytest.approx(0.10), pytest.approx(1.25))
    assert zone_targets(1.15, zones=(0,))[0].net_density is None


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: log_h_of_zone(NAN, -2.0), "sensitometry.zone.impossible"),
        (lambda: log_h_of_zone(1.0, NAN), "sensitometry.zone.anchor"),
        (lambda: zone_of_log_h(NAN, -2.0), "sensitometry.zone.anchor"),
        (lambda: log_h_of_metered_zone(5.0, 0.0), "sensitometry.speed.not_positive"),
        (lambda: highlight_zone_of_n(NAN), "sensitometry.aim.n"),
        (lambda: zone_targets(0.0), "sensitometry.aim.density_range"),
        (lambda: zone_targets(1.0, shadow_net=NAN), "sensitometry.density.impossible"),
        (lambda: zone_targets(1.0, zones=(NAN,)), "sensitometry.zone.impossible"),
    ],
)
def test_what_is_no_zone_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence."""
    with pytest.raises(OutOfRangeError) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())
