"""The range of a scene, and predicted range against time."""

from __future__ import annotations

import math

import pytest

from wetside.errors import RefusedError, WetsideError
from wetside.planning.basis import family_of_test
from wetside.planning.contrast import RangeLine, normal_placing, range_line
from wetside.planning.documents.evening import Placed, Sheet
from wetside.planning.scene import scene_of_sheet
from wetside.values.evidence import Evidence

LINE = RangeLine((300.0, 600.0, 900.0), (0.80, 1.10, 1.25))
ZONE = math.log10(2.0)


def test_a_scene_of_which_nothing_is_said_is_normal():
    """Without any word the range is 2.20 in log, N is not known, and nothing is shown."""
    scene = scene_of_sheet(Sheet(film="f", label="a"))
    assert (scene.log_range, scene.n, scene.declared, scene.steps) == (2.20, None, False, ())


@pytest.mark.parametrize(
    ("sheet", "n"),
    [
        (Sheet(film="f", label="a", n=-1.0), -1.0),
        (Sheet(film="f", label="a", n=0.0), 0.0),
        # 2.20 in log is 7 1/3 stops to within 0.03.
        (Sheet(film="f", label="a", scene_stops=2.20 / ZONE), 0.0),
        (Sheet(film="f", label="a", scene_stops=2.20 / ZONE + 1), -1.0),
        # EV 9 on III: EV 14 falls on VIII; wanted on VII that is N-1, on IX N+1.
        (Sheet(film="f", label="a", shadow=Placed(9.0, 3.0), highlight=Placed(14.0, 8.0)), 0.0),
        (Sheet(film="f", label="a", shadow=Placed(9.0, 3.0), highlight=Placed(14.0, 7.0)), -1.0),
        (Sheet(film="f", label="a", shadow=Placed(9.0, 3.0), highlight=Placed(14.0, 9.0)), 1.0),
    ],
)
def test_n_from_each_way_to_say_it(sheet, n):
    """N itself, stops of the scene and placed readings lead to the same N, shown in one line."""
    scene = scene_of_sheet(sheet)
    assert scene.n == pytest.approx(n, abs=1e-9)
    assert scene.log_range == pytest.approx(2.20 - ZONE * n)
    assert scene.declared
    assert [step.unit for step in scene.steps] == ["zones"]


def test_readings_speak_before_stops_and_n():
    """Where several things are said of a scene the readings count."""
    sheet = Sheet(film="f", label="a", shadow=Placed(9.0, 3.0), highlight=Placed(14.0, 8.0), n=2.0, scene_stops=4.0)
    assert scene_of_sheet(sheet).n == 0.0


def test_range_lies_on_the_pieces():
    """Between tested times the range lies on the straight piece, beyond them on the end pieces drawn on."""
    assert LINE.range_at(450.0) == pytest.approx(0.95)
    assert LINE.range_at(600.0) == pytest.approx(1.10)
    assert LINE.range_at(960.0) == pytest.approx(1.28)
    assert LINE.range_at(200.0) == pytest.approx(0.70)


@pytest.mark.parametrize("time_s", [200.0, 300.0, 400.0, 600.0, 800.0, 900.0, 1000.0])
def test_time_and_range_are_inverse(time_s):
    """The time for a range is the time that has it."""
    assert LINE.time_for(LINE.range_at(time_s)) == pytest.approx(time_s)


def test_inside_widened():
    """The tested span is closed, and widens by a share of its ends."""
    assert LINE.inside(300.0)
    assert LINE.inside(900.0)
    assert not LINE.inside(299.9)
    assert LINE.inside(270.0, 0.10)
    assert not LINE.inside(991.0, 0.10)


@pytest.fixture
def family(library, evening):
    return family_of_test(evening.films[0], evening.films[0].tests[0]).family


def test_a_family_of_straight_films_gives_straight_ranges(family):
    """Predicted ranges of straight curves are slope times log range at each tested time."""
    low = family.curves[0].log_h[5]
    line = range_line(family, low, 1.5)
    assert line.times_s == (300.0, 480.0, 720.0)
    assert line.ranges == pytest.approx((0.48 * 1.5, 0.62 * 1.5, 0.80 * 1.5), abs=1e-6)


def test_normal_placing_is_the_speed_point_at_normal_time(family):
    """The shadow lies where, at the time that reaches the aim from there, the speed point is."""
    low = normal_placing(family, 1.05, 1.80)
    time_s = range_line(family, low, 1.80).time_for(1.05)
    assert family.speed_log_h_at(time_s) == pytest.approx(low, abs=1e-3)


def test_a_range_beyond_the_readings_is_an_error(family):
    """A scene that the readings do not reach is not guessed at."""
    with pytest.raises(WetsideError):
        range_line(family, family.curves[0].log_h[0], 9.0)


def test_a_family_that_falls_is_refused(family):
    """Where more development gives less range nothing can be planned."""
    pairs = zip(family.curves, reversed(family.curves), strict=True)
    turned = family._replace(curves=tuple(curve._replace(density=other.density) for curve, other in pairs))
    with pytest.raises(RefusedError) as caught:
        range_line(turned, family.curves[0].log_h[5], 1.5)
    assert caught.value.code == "planning.family_not_rising"


def test_a_tested_sheet_is_tested(plan_of, evening, changed):
    """A sheet on a family under the test's own conditions stands on tested evidence; in a warmer jacket not quite."""
    cool = changed(evening, "thermometer.jacket_reading_c", None)
    assert {sheet.id: sheet.evidence for sheet in plan_of(cool).sheets}["one"] is Evidence.TESTED
    assert {sheet.id: sheet.evidence for sheet in plan_of(evening).sheets}["one"] is Evidence.CONVERTED
