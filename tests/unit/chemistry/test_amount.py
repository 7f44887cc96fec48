"""Agent and liquid of a load, on the story of the eight 5x7 sheets."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.dilution import STOCK, Dilution
from wetside.values.sheet_size import UNIT_AREA_CM2

UNITS = 3.5
REFERENCE_ML = 62.5
"""Stock to a unit under which the published time was found: 1+3 at 250 ml a film."""


def given_per_unit(water: float) -> float:
    """Stock to a unit when a litre of 1+water develops the eight sheets."""
    return chemistry.agent_in_ml(1000.0, Dilution((1.0,), water)) / UNITS


@pytest.mark.parametrize("water", [1.0, 3.0])
def test_at_or_above_the_reference_nothing_changes(water):
    """1+1 and 1+3 hold at least the stock under which the time was found."""
    assert chemistry.activity_ratio(given_per_unit(water), REFERENCE_ML) == 1.0
    chemistry.check_agent(given_per_unit(water), REFERENCE_ML)


@pytest.mark.parametrize("water", [5.0, 8.0])
def test_below_the_reference_the_effect_is_graded(water):
    """1+5 is told in density; 1+8 holds hardly more than half and is still told."""
    chemistry.check_agent(given_per_unit(water), REFERENCE_ML)
    ratio = chemistry.activity_ratio(given_per_unit(water), REFERENCE_ML)
    assert 0 < ratio < 1
    assert chemistry.density_effect(1.05, ratio) < 0


def test_less_agent_is_flatter():
    """The effect grows with dilution."""
    ratios = [chemistry.activity_ratio(given_per_unit(water), REFERENCE_ML) for water in (3, 4, 5, 6, 7, 8)]
    assert ratios == sorted(ratios, reverse=True)


def test_below_half_of_the_reference_it_is_refused():
    """1+9 holds 28.6 ml a unit, less than half of 62.5."""
    with pytest.raises(RefusedError) as caught:
        chemistry.check_agent(given_per_unit(9.0), REFERENCE_ML)
    assert caught.value.params["given_ml"] == pytest.approx(28.571, abs=1e-3)


def test_half_of_the_reference_itself_is_not_refused():
    """The limit belongs to what is allowed."""
    chemistry.check_agent(REFERENCE_ML / 2, REFERENCE_ML)


def test_what_would_pass_is_named():
    """For 1+5 in a litre: 1320 ml, 1+3, or six of the eight sheets."""
    need_ml = chemistry.agent_need_ml(UNITS * UNIT_AREA_CM2, REFERENCE_ML / UNIT_AREA_CM2)
    dilution = Dilution((1.0,), 5.0)
    assert chemistry.passing_volume_ml(need_ml, dilution) == 1320.0
    assert chemistry.passing_dilution(need_ml, 1000.0) == Dilution((1.0,), 3.0)
    assert chemistry.passing_sheet_count(chemistry.agent_in_ml(1000.0, dilution), [need_ml / 8] * 8) == 6


def test_stock_is_the_strongest_that_can_pass():
    """Exactly enough stock passes as stock; less passes with nothing."""
    assert chemistry.passing_dilution(300.0, 300.0) == STOCK
    assert chemistry.passing_dilution(300.1, 300.0) is None


def test_the_larger_need_binds_and_is_rounded_up():
    """Wetting and agent are compared, never added; the vessel's limit is never passed."""
    assert chemistry.volume_needed(300.0, None, 1000.0) == (300.0, "wetting")
    assert chemistry.volume_needed(300.0, 200.0, 1000.0) == (300.0, "wetting")
    assert chemistry.volume_needed(301.0, 200.0, 1000.0) == (310.0, "wetting")
    assert chemistry.volume_needed(300.0, 438.0, 1000.0) == (440.0, "agent")
    assert chemistry.volume_needed(300.0, 998.0, 995.0) == (995.0, "vessel")
    assert chemistry.volume_needed(300.0, 994.0, 995.0) == (995.0, "agent")


def test_a_vessel_that_cannot_be_wetted_is_refused():
    """More to wet it than it holds is a slip of the pen."""
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.volume_needed(300.0, None, 250.0)
    assert caught.value.code == "chemistry.volume.limit_below_wetting"


def test_dense_sheets_weigh_more_and_thin_ones_never_less():
    """One third for each stop over, at most double; thin sheets count in full."""
    assert [chemistry.developer_weight(stops) for stops in (-3.0, 0.0, 1.0, 3.0, 9.0)] == pytest.approx(
        [1.0, 1.0, 4 / 3, 2.0, 2.0]
    )


def test_density_effect_takes_a_share_only():
    """A ratio above 1 would say that more developer makes more contrast."""
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.density_effect(1.05, 1.1)
    assert caught.value.code == "chemistry.activity.above_one"
