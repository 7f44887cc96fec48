"""Writing quantities, and showing them in other units."""

from __future__ import annotations

import math

import pytest

from wetside import units
from wetside.errors import OutOfRangeError


def test_texts_are_what_a_person_would_write():
    """Short where a number is round."""
    assert units.write_volume(600.0) == "600 ml"
    assert units.write_volume(62.5) == "62.5 ml"
    assert units.write_duration(450.0) == "7:30"
    assert units.write_duration(3720.0) == "62:00"
    assert units.write_duration(30.0) == "30 s"
    assert units.write_duration_span(420.0, 480.0) == "7:00-8:00"
    assert units.write_temp(20.0) == "20 C"
    assert units.write_aperture(5.6) == "f/5.6"
    assert units.write_agent_per_area(0.125) == "0.125 ml per cm2"


def test_a_number_with_three_decimals_is_written_so_that_it_reads_back():
    """1.125 alone would be refused as one thousand one hundred and twenty-five."""
    assert units.write_volume(1.125) == "1.1250 ml"
    assert units.parse_volume_ml("1.1250 ml") == 1.125


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("name", sorted(name for name in units.__all__ if name.startswith("write_")))
def test_what_is_not_finite_is_never_written(name, value):
    """No file of ours holds a NaN."""
    values = (value, value) if name == "write_duration_span" else (value,)
    with pytest.raises(OutOfRangeError):
        getattr(units, name)(*values)


def test_showing_in_us_units_is_the_inverse_of_reading_them():
    """What is shown in US units reads back as the metric value."""
    assert units.parse_volume_ml(f"{units.fl_oz_us_of_ml(600.0)!r} US fl oz") == pytest.approx(600.0)
    assert units.parse_volume_ml(f"{units.fl_oz_imperial_of_ml(600.0)!r} Imperial fl oz") == pytest.approx(600.0)
    assert units.f_of_c(20.0) == 68.0
    assert units.f_step_of_c_step(5.0) == 9.0
    assert units.in_of_mm(254.0) == pytest.approx(10.0)
    assert units.parse_mass_g(f"{units.oz_of_g(50.0)!r} oz") == pytest.approx(50.0)
