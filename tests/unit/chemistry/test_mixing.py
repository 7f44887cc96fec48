"""Measuring mixes, and what is said about them."""

from __future__ import annotations

import math

import pytest

from wetside import chemistry
from wetside.errors import OutOfRangeError
from wetside.values.dilution import STOCK, Dilution


def test_a_mix_has_its_parts_and_its_total():
    """1+24 to 600 ml is 24 and 576 ml."""
    mix = chemistry.mix_volumes(Dilution((1.0,), 24.0), 600.0)
    assert mix == chemistry.Mix((24.0,), 576.0, 600.0)


@pytest.mark.parametrize("total_ml", [0.0, -1.0, 0.09, 1_000_001.0, math.nan, math.inf])
def test_a_total_that_nobody_can_mean_is_refused(total_ml):
    """Amounts are 0.1 ml to 1000 l."""
    with pytest.raises(OutOfRangeError):
        chemistry.mix_volumes(STOCK, total_ml)


def test_a_measurable_mix_has_no_warnings():
    """24 ml fall on a mark of a usual cylinder and are more than 10 ml."""
    assert chemistry.warnings_of_mix(chemistry.mix_volumes(Dilution((1.0,), 24.0), 600.0)) == ()


def test_stock_has_no_warnings():
    """Nothing is measured against water."""
    assert chemistry.warnings_of_mix(chemistry.mix_volumes(STOCK, 5.0)) == ()


def test_a_small_concentrate_is_told_with_the_total_that_would_be_measurable():
    """6 ml are less than the 10 ml of a cylinder; 500 ml of 1+49 hold 10 ml."""
    mix = chemistry.mix_volumes(Dilution((1.0,), 49.0), 300.0)
    ((code, params),) = chemistry.warnings_of_mix(mix)
    assert code == "chemistry.mix.small"
    assert params == {"concentrate_ml": pytest.approx(6.0), "smallest_ml": 10.0, "total_ml": 500.0}
    assert chemistry.warnings_of_mix(mix, smallest_ml=1.0) == ()


def test_rounding_to_a_mark_is_told_where_it_changes_the_strength():
    """Where a cylinder has 10 ml marks, 31.25 ml becomes 30 ml: 4 % weaker."""
    mix = chemistry.mix_volumes(Dilution((1.0,), 31.0), 1000.0)
    assert chemistry.warnings_of_mix(mix) == ()
    ((code, params),) = chemistry.warnings_of_mix(mix, mark_ml=10.0)
    assert code == "chemistry.mix.rounded"
    assert params["rounded_ml"] == 30.0
    assert params["strength_percent"] == pytest.approx(-4.0)


def test_each_concentrate_of_a_two_part_developer_is_judged():
    """Of 1+2+100 to 600 ml the first is too small, the second falls between marks; that there are two is said too."""
    warnings = chemistry.warnings_of_mix(chemistry.mix_volumes(Dilution((1.0, 2.0), 100.0), 600.0))
    assert [code for code, _ in warnings] == [
        "chemistry.mix.small_part",
        "chemistry.mix.rounded_part",
        "chemistry.mix.two_part",
    ]
    assert warnings[0][1]["part"] == 1
    assert warnings[0][1]["total_ml"] == 1030.0
    assert warnings[1][1]["part"] == 2
    assert warnings[1][1]["rounded_ml"] == 11.5


def test_water_makes_nothing_stronger():
    """A stronger solution, or other proportions of concentrates, do not come from water."""
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.redilution_water_ml(500.0, Dilution((1.0,), 3.0), Dilution((1.0,), 1.0))
    assert caught.value.code == "chemistry.redilution.stronger"
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.redilution_water_ml(500.0, Dilution((1.0, 2.0), 50.0), Dilution((1.0, 1.0), 100.0))
    assert caught.value.code == "chemistry.redilution.other_parts"
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.percent_dilution_ml(5.0, 28.0, 100.0)
    assert caught.value.code == "chemistry.percent.stronger"
    assert chemistry.redilution_water_ml(500.0, Dilution((2.0, 2.0), 50.0), Dilution((1.0, 1.0), 52.0)) > 0


def test_a_percentage_is_at_most_a_hundred():
    """101 % of anything is a slip of the pen."""
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.percent_dilution_ml(101.0, 28.0, 100.0)
    assert caught.value.code == "chemistry.percent.over_hundred"
