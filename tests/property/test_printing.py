"""Properties of speed, paper tests, channels, zones, flash, rescue and treatments for any numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wetside.adapters.printing_data import load_printing_ranges, load_speed_classes, rows_of_kind
from wetside.errors import WetsideError
from wetside.sensitometry.after_negative import NegativeReading, decide_after_negative, print_time_s
from wetside.sensitometry.channels import CHANNELS, channels_of_printing, readings_for_printing
from wetside.sensitometry.grades import PrintingAim, grade_of_range, iso_range_iso6846, printing_for_range
from wetside.sensitometry.paper_test import paper_range_of_steps
from wetside.sensitometry.preflash import flash_zone_for_gain, stops_gained_by_flash
from wetside.sensitometry.rescue import DensityLimit, Misexposure, rescue_sheet
from wetside.sensitometry.speed import HALF_CLASS, metered_lux_s, speed_class_iso6, speed_point_lux_s
from wetside.sensitometry.zones import log_h_of_zone, zone_of_log_h, zone_targets
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.values.family import contrast_family
from wetside.wording.sentence import known_codes, sentence

TABLE = load_speed_classes()
ROWS = load_printing_ranges()
GRADES, FILTERS = rows_of_kind(ROWS, "grade"), rows_of_kind(ROWS, "filter")
PRINTINGS = ("graded-paper", "variable-paper", "alternative", "scanner")
ANY = st.floats(allow_nan=True, allow_infinity=True)
STRAIGHT = contrast_family(
    "Morvane 320",
    [characteristic_curve(s, (-4.0, 4.0), (0.1, 0.1 + 8 * g)) for s, g in ((300.0, 0.4), (450.0, 0.6), (600.0, 0.7))],
    conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    channel="visual",
    evidence=Evidence.TESTED,
)


def check_said(error):
    """Find the sentence of a refusal, filled in."""
    assert error.code in known_codes("sensitometry")
    assert "{" not in sentence(error.code, error.params, ())


@given(st.floats(-3.64, -0.851))
def test_every_exposure_inside_the_table_has_one_mark(log_hm):
    """The mark is within half a class, and no other is nearer."""
    found = speed_class_iso6(log_hm, TABLE)
    assert abs(found.log_hm - log_hm) <= HALF_CLASS + 1e-3
    assert all(abs(found.log_hm - log_hm) <= abs(other.log_hm - log_hm) + 1e-8 for other in TABLE)


@given(st.floats(1.0, 10000.0))
def test_the_meter_point_is_one_log_above_the_speed_point(speed):
    """For every speed."""
    assert math.log10(metered_lux_s(speed) / speed_point_lux_s(speed)) == pytest.approx(1.0)


@given(st.floats(0.35, 1.70))
def test_every_range_has_a_grade_that_holds_it(density_range):
    """And a range number within five of a hundred times it."""
    grade = grade_of_range(density_range, GRADES)
    assert grade.range_low - 1e-9 <= density_range <= grade.range_high + 1e-9
    assert abs(iso_range_iso6846(density_range) - 100.0 * density_range) <= 5.0 + 1e-6


@given(st.floats(0.05, 4.0))
def test_no_other_filter_is_nearer(density_range):
    """The filter chosen leaves the least over, and its place between two is from 0 to 1."""
    fit = printing_for_range(density_range, FILTERS)
    assert all(abs(fit.off) <= abs(density_range - row.range_mid) + 1e-8 for row in FILTERS)
    assert fit.share is None or 0.0 <= fit.share <= 1.0


@given(st.lists(st.floats(0.02, 0.19), min_size=5, max_size=30), st.data())
def test_a_paper_that_shows_these_tones_has_a_range_inside_the_uncertainty(steps, data):
    """More than between the toned steps, less than from the last black to the first white one."""
    tablet = [math.fsum(steps[:at]) for at in range(len(steps))]
    first = data.draw(st.integers(2, len(tablet) - 1))
    last = data.draw(st.integers(first, len(tablet) - 1))
    test = paper_range_of_steps(first, last, tablet)
    assert test.log_exposure_range - test.uncertainty == pytest.approx(tablet[last - 1] - tablet[first - 1])
    assert test.log_exposure_range + test.uncertainty == pytest.approx(tablet[last] - tablet[first - 2])


@given(st.sampled_from(PRINTINGS), st.sets(st.sampled_from(CHANNELS)), st.booleans(), st.sampled_from(list(Evidence)))
def test_a_stained_negative_is_only_served_by_its_own_channels(printing, read_in, stained, evidence):
    """With stain all channels must be there; a stand-in is never called tested."""
    try:
        use = readings_for_printing(printing, read_in, stained=stained, evidence=evidence)
    except WetsideError as error:
        check_said(error)
        assert not set(channels_of_printing(printing)) <= read_in
        return
    assert set(use.channels) <= read_in
    if stained or use.code is None:
        assert use.channels == channels_of_printing(printing)
        assert use.evidence is evidence
    else:
        assert use.evidence in (Evidence.CONVERTED, Evidence.ASSUMED)


@given(st.floats(-2.0, 12.0), st.floats(-2.0, 6.0), st.floats(0.01, 4.0))
def test_a_flash_gives_less_to_brighter_tones(zone, flash, more):
    """The gain falls with the zone, is never negative, and its inverse gives the flash back."""
    gain = stops_gained_by_flash(zone, flash)
    assert 0.0 <= stops_gained_by_flash(zone + more, flash) <= gain
    if 1e-3 <= gain <= 5.0:
        assert flash_zone_for_gain(zone, gain) == pytest.approx(flash, abs=1e-6)


@given(st.floats(-5.0, 15.0), st.floats(-6.0, 2.0), st.floats(-5.0, 15.0))
def test_zone_and_exposure_are_inverse(zone, anchor, anchor_zone):
    """For every anchor."""
    assert zone_of_log_h(log_h_of_zone(zone, anchor, anchor_zone), anchor, anchor_zone) == pytest.approx(zone, abs=1e-9)


@given(st.floats(0.2, 3.0), st.floats(-3.0, 3.0))
def test_targets_rise_by_equal_steps(density_range, n):
    """From Zone I to the one that prints as VIII the range is the one asked for."""
    first, middle, last = zone_targets(density_range, zones=(1.0, 4.5 - 0.5 * n, 8.0 - n), n=n)
    assert last.net_density - first.net_density == pytest.approx(density_range)
    assert middle.net_density == pytest.approx(0.5 * (first.net_density + last.net_density))


@given(
    st.floats(-2.0, 8.0),
    st.floats(300.0, 600.0),
    st.floats(0.6, 2.0),
    st.none() | st.floats(0.3, 3.0),
)
def test_rescue_never_lengthens_over_nor_shortens_under(stop_error, normal_s, aim_range, limit):
    """Over: never longer, and under the limit if a tested time can; under: never shorter, never past the aim."""
    sheet = Misexposure(-3.0, 1.6, stop_error)
    stated = None if limit is None else DensityLimit("stated", limit, Evidence.TESTED)
    advice = rescue_sheet(STRAIGHT, sheet, normal_s, aim_range, 0.08, limit=stated)
    assert 300.0 <= advice.dev_s <= 600.0
    if stop_error >= 0.05:
        assert advice.dev_s <= normal_s + 1e-9
        if limit is not None and advice.dev_s > 300.0 + 1e-6:
            assert advice.advised.highlight_net <= limit + 1e-9
    if stop_error <= -0.05:
        assert advice.dev_s >= normal_s - 1e-9
        assert advice.dev_s <= normal_s + 1e-9 or advice.advised.density_range <= aim_range + 1e-9
    assert all(note.code in known_codes("sensitometry") for note in advice.notes)


@given(ANY, ANY, st.floats(0.2, 3.5), st.booleans(), st.booleans(), st.none() | ANY)
def test_any_negative_is_decided_or_refused_with_a_sentence(shadow, highlight, aim_range, washed, repeatable, cut):
    """No number that a person can give ends in anything else; what is advised is possible."""
    aim = PrintingAim(aim_range, 0.08, "graded-paper", ("blue",), Evidence.TESTED, None)
    negative = NegativeReading(shadow, highlight, fixed_and_washed=washed, repeatable=repeatable)
    try:
        decision = decide_after_negative(negative, aim, cut=cut)
    except WetsideError as error:
        check_said(error)
        return
    assert decision.advised.possible
    assert washed or decision.advised.act not in ("intensify", "reduce", "cut")


@given(st.floats(0.0, 3.5), st.floats(0.1, 2.0), st.booleans())
def test_what_is_advised_is_never_further_off_than_keeping(shadow, density_range, washed):
    """No treatment is proposed that makes the negative worse."""
    aim = PrintingAim(1.05, 0.08, "graded-paper", ("blue",), Evidence.TESTED, None)
    negative = NegativeReading(shadow, shadow + density_range, fixed_and_washed=washed)
    decision = decide_after_negative(negative, aim, FILTERS)
    assert decision.advised.deviation <= decision.deviation + 1e-9


@given(st.floats(1.0, 100.0), st.floats(0.0, 3.0), st.floats(0.0, 3.0))
def test_print_time_there_and_back(time_s, density, new_density):
    """The way back gives the time that one started with."""
    assert print_time_s(print_time_s(time_s, density, new_density), new_density, density) == pytest.approx(time_s)
