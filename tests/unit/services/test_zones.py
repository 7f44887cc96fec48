"""Zones as typed, flashes, and zones on measured curves."""

from __future__ import annotations

import math

import pytest

from wetside.errors import WetsideError
from wetside.services.curves import curves_of_file
from wetside.services.flash import flash
from wetside.services.zone_words import parse_zone, zone_name
from wetside.services.zones import ZoneAnswers, zone_table

STOP = math.log10(2.0)


@pytest.fixture
def curves(tmp_path):
    """A film whose density is 0.10 and then rises straight with a slope of 0.60, speed point at log H -2.40."""
    rows = [f"7,{-3 + 0.15 * step:.2f},{0.10 + max(0.0, 0.6 * (0.15 * step - 0.45)):.4f}" for step in range(19)]
    path = tmp_path / "r.csv"
    path.write_text("dev_min,log_h,density\n" + "\n".join(rows) + "\n")
    return curves_of_file(path, base_fog="0.10")


@pytest.mark.parametrize(
    ("text", "zone"), [("3", 3.0), ("III", 3.0), ("viii", 8.0), ("I.5", 1.5), ("i,5", 1.5), ("0", 0.0), ("0.5", 0.5)]
)
def test_zones_are_read_as_people_write_them(text, zone):
    """Figures, Roman figures, and halves of both."""
    assert parse_zone(text) == zone
    assert parse_zone(zone_name(zone)) == zone


@pytest.mark.parametrize("text", ["", "I.x", "IIII", "I.", "nan"])
def test_what_is_no_zone_is_refused(text):
    """Neither a number nor a Roman figure."""
    with pytest.raises(WetsideError):
        parse_zone(text)


def test_a_flash_is_named_or_found_from_its_gain():
    """A flash found for half a stop on III gives that, and is 5 less its zone under the meter's reading."""
    found = flash(None, "0.5@III")
    assert found.zones[3].gain_stops == pytest.approx(0.5)
    assert found.stops_from_meter == pytest.approx(found.flash_zone - 5.0)
    assert flash("I.5", None).steps[3] == pytest.approx(math.log2((8 + 2**1.5) / (4 + 2**1.5)))


@pytest.mark.parametrize(
    ("zone", "gain", "field"),
    [("5", None, "--flash"), ("x", None, "--flash"), (None, "3@VIII", "--flash-gain"), (None, "0@3", "--flash-gain")],
)
def test_flashes_that_are_none(zone, gain, field):
    """A flash that fogs the sheet, and a gain of nothing, are refused with their option."""
    with pytest.raises(WetsideError) as caught:
        flash(zone, gain)
    assert caught.value.place.field == field


def test_zones_step_along_a_straight_curve(curves):
    """Zone I on the speed point has net 0.10, and each stop above it 0.6 times 0.301 more."""
    (curve,) = zone_table(curves, ZoneAnswers()).curves
    for tone in curve.densities[1:7]:
        assert tone.net_density == pytest.approx(0.10 + 0.6 * STOP * (tone.zone - 1.0), abs=0.005)
    # Zone X lies at -2.38 + 2.71 = 0.33, past the last reading at -0.30.
    assert curve.densities[10].net_density is None
    assert curve.densities[10].code


def test_an_index_places_the_zones(curves):
    """With EI 100 Zone V gets 8/100 lux-second: log H -1.10, 0.6 times 1.45 above the foot."""
    (curve,) = zone_table(curves, ZoneAnswers(ei="100")).curves
    assert curve.densities[5].log_h == pytest.approx(math.log10(0.08))
    assert curve.densities[5].net_density == pytest.approx(0.6 * (math.log10(0.08) + 2.55), abs=0.005)


def test_the_speed_point_can_hold_another_zone(curves):
    """A film rated a stop too fast has Zone II on its speed point: each zone moves a stop down the curve."""
    plain, moved = (zone_table(curves, ZoneAnswers(speed_zone=zone)).curves[0] for zone in ("I", "II"))
    assert moved.densities[5].net_density == pytest.approx(plain.densities[4].net_density)


def test_targets_and_range_go_to_the_zone_that_prints_as_viii(curves):
    """At N+1 VII prints as VIII: six stops of 0.181 are 1.08 on the curve, and the target of VII is 0.10 more."""
    table = zone_table(curves, ZoneAnswers(aim="1.05", n="1"))
    assert table.highlight_zone == 7.0
    assert table.targets[7].net_density == pytest.approx(1.15)
    assert table.curves[0].density_range == pytest.approx(6 * 0.6 * STOP, abs=0.005)


def test_a_flash_moves_a_zone_along_its_own_curve(curves):
    """On the straight part the gain in density is the slope times the gain in log exposure."""
    table = zone_table(curves, ZoneAnswers(flash="II"))
    tone = table.curves[0].flashed[4]
    assert tone.net_after - tone.net_before == pytest.approx(0.6 * STOP * math.log2(20 / 16), abs=0.003)


@pytest.mark.parametrize(
    ("answers", "code"),
    [
        (ZoneAnswers(ei="100", speed_zone="I"), "services.zones_twice"),
        (ZoneAnswers(n="-1"), "services.option_missing_with"),
        (ZoneAnswers(aim="0"), "sensitometry.aim.density_range"),
        (ZoneAnswers(aim="1", n="9"), "sensitometry.aim.n"),
        (ZoneAnswers(speed_zone="IX"), "services.speed_zone"),
        (ZoneAnswers(ei="0"), None),
    ],
)
def test_what_cannot_be_placed_is_refused(curves, answers, code):
    """Half answers and impossible ones name what is wrong."""
    with pytest.raises(WetsideError) as caught:
        zone_table(curves, answers)
    assert code in (None, caught.value.code)


def test_relative_readings_take_no_index(tmp_path):
    """A tablet's steps carry no lux-seconds: an exposure index cannot place them."""
    path = tmp_path / "r.csv"
    path.write_text(
        "dev_min,step,density\n" + "\n".join(f"7,{step},{2.0 - 0.09 * step:.3f}" for step in range(1, 22)) + "\n"
    )
    with pytest.raises(WetsideError) as caught:
        zone_table(curves_of_file(path, nominal=True), ZoneAnswers(ei="100"))
    assert caught.value.code == "services.zones_relative"
