"""Readings to measured curves, with what was not reached."""

from __future__ import annotations

import pytest

from wetside.errors import ManyErrors, WetsideError
from wetside.services.curves import MEASURES, curves_of_file


def readings(path, *sets):
    """A file of 21 steps a set, straight from step 5 at a slope, up to a last step."""
    rows = [
        f"{minutes},{-3 + 0.15 * step:.2f},{0.10 + max(0, step - 4) * 0.15 * slope:.4f}"
        for minutes, slope, last in sets
        for step in range(last)
    ]
    path.write_text("dev_min,log_h,density\n" + "\n".join(rows) + "\n")
    return path


def test_what_the_readings_do_not_reach_is_absent_with_a_reason(tmp_path):
    """Readings that end below 1.50 above the speed point have no gradient over 1.50, and a note names it."""
    (curve,) = curves_of_file(readings(tmp_path / "r.csv", (7, 0.6, 14)))
    assert curve.measures["gradient_150"] is None
    assert curve.measures["speed_log_h"] is not None
    assert "gradient_150" in [note.get("measure") for note in curve.as_json()["notes"]]
    assert set(MEASURES) < set(curve.as_json())


def test_base_and_fog_given_or_told(tmp_path):
    """The given base + fog counts; the lowest reading stands in and is told."""
    path = readings(tmp_path / "r.csv", (7, 0.6, 21))
    (given,) = curves_of_file(path, base_fog="0,12")
    assert given.measures["base_fog"] == 0.12
    (taken,) = curves_of_file(path)
    assert taken.measures["base_fog"] == 0.10
    codes = [code for code, _ in taken.notes]
    assert "sensitometry.readings.base_fog_lowest" in codes


def test_all_bad_sets_at_once(tmp_path):
    """Each set that does not rise is refused with its line."""
    path = readings(tmp_path / "r.csv", (5, 0.0, 21), (7, 0.6, 21), (9, 0.0, 21))
    with pytest.raises(ManyErrors) as caught:
        curves_of_file(path)
    assert [error.place.line for error in caught.value.errors] == [2, 44]


def test_one_tablet_only(tmp_path):
    """A tablet of one's own and the nominal one exclude each other."""
    with pytest.raises(WetsideError) as caught:
        curves_of_file(tmp_path / "r.csv", tablet=tmp_path / "t.csv", nominal=True)
    assert caught.value.code == "services.tablet_twice"


def test_a_base_and_fog_that_is_no_number(tmp_path):
    """The option is named."""
    with pytest.raises(WetsideError) as caught:
        curves_of_file(readings(tmp_path / "r.csv", (7, 0.6, 21)), base_fog="thin")
    assert caught.value.place.field == "--base-fog"
