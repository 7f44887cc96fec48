"""Wetting and agent are two needs; the larger is poured, and what binds is named."""

from __future__ import annotations

import pytest

from wetside.planning.documents.evening import Vessel
from wetside.planning.documents.words import VesselKind
from wetside.planning.resolved import ANY_VESSEL
from wetside.planning.volumes import SheetAgent, pour_of_load
from wetside.values.dilution import STOCK, Dilution
from wetside.values.sheet_size import UNIT_AREA_CM2

DRUM = Vessel("drum", VesselKind.DRUM, (("any", 8),), 300.0, 1000.0)
QUARTER = SheetAgent(UNIT_AREA_CM2 / 4, 1.0, 62.5 / UNIT_AREA_CM2)
"""A quarter of a unit whose time was found with 62.5 ml a unit: it wants 15.6 ml."""


ONE_THREE = Dilution((1.0,), 3.0)


def pour(sheets, dilution=ONE_THREE, vessel=DRUM, reuse=None, smallest=10.0, marks=10.0):
    return pour_of_load(sheets, vessel, dilution, 1.05, smallest, marks, reuse)


def test_wetting_binds():
    """One sheet wants 62.5 ml of 1+3 and the drum 300: 300 are poured."""
    found = pour([QUARTER])
    assert (found.volume_ml, found.check.binds) == (300.0, "wetting")
    assert found.check.agent_need_ml == pytest.approx(62.5)
    assert found.check.agent_ratio == pytest.approx(75 / 15.625)
    assert (found.concentrate_ml, found.water_ml) == (75.0, 225.0)
    assert found.check.passes == ()


def test_agent_binds():
    """Seven sheets want 437.5 ml of 1+3, rounded up to 440."""
    found = pour([QUARTER] * 7)
    assert (found.volume_ml, found.check.binds) == (440.0, "agent")
    assert found.check.agent_need_ml == pytest.approx(437.5)
    assert found.check.agent_effect_density is None


def test_the_vessel_binds():
    """At 1+9 twelve sheets want 1875 ml: the drum's litre holds 53 %, flatter, and what would pass is told."""
    found = pour([QUARTER] * 12, Dilution((1.0,), 9.0))
    assert (found.volume_ml, found.check.binds) == (1000.0, "vessel")
    assert found.check.agent_ratio == pytest.approx(100 / 187.5)
    assert found.check.agent_effect_density < 0
    passes = {note.code: note.params for note in found.check.passes}
    assert passes["planning.pass_volume"]["volume_ml"] == 1880.0
    # 187.5 ml of agent in a litre is 1 + 4.33: 1+4 passes.
    assert passes["planning.pass_dilution"]["dilution"] == "1+4"
    assert passes["planning.pass_count"]["count"] == 6  # 100 ml over 15.625 ml


def test_a_dense_sheet_counts_more():
    """The weight of a sheet counts in the agent, not in the area."""
    found = pour([QUARTER._replace(weight=2.0), QUARTER])
    assert found.check.area_cm2 == pytest.approx(UNIT_AREA_CM2 / 2)
    assert found.check.weighted_area_cm2 == pytest.approx(UNIT_AREA_CM2 * 3 / 4)
    assert found.check.agent_need_ml == pytest.approx(187.5)


def test_without_any_reference_only_wetting_counts():
    """Where no time states its agent nothing is checked, and that is said."""
    found = pour([SheetAgent(129.0, 1.0, None)] * 3)
    assert (found.check.agent_need_ml, found.check.agent_ratio) == (None, None)
    assert found.volume_ml == 300.0
    assert [note.code for note in found.notes] == ["planning.no_reference"]


def test_an_unknown_reference_counts_like_the_most_demanding():
    """Among sheets that state their agent one that does not is taken like the hungriest, and that is said."""
    found = pour([QUARTER, QUARTER._replace(agent_ml_per_cm2=None)])
    assert found.check.agent_need_ml == pytest.approx(125.0)
    assert "planning.some_reference" in [note.code for note in found.notes]


def test_a_reuse_limit_only_warns():
    """A maker's reuse limit changes no volume; it is told where nothing better is known."""
    sheets = [SheetAgent(UNIT_AREA_CM2, 1.0, None)] * 2
    found = pour(sheets, reuse=100.0)
    assert found.volume_ml == 300.0
    (note,) = [note for note in found.notes if note.code == "planning.below_reuse"]
    assert note.params == {"given_ml": pytest.approx(37.5), "limit_ml": 100.0}
    assert "planning.below_reuse" not in [note.code for note in pour([QUARTER] * 2, reuse=100.0).notes]


def test_stock_has_no_water():
    """Undiluted developer is all concentrate."""
    found = pour([QUARTER], STOCK)
    assert (found.concentrate_ml, found.water_ml) == (300.0, 0.0)


def test_parts_are_told_apart():
    """A two-part developer's parts add up to the concentrate."""
    found = pour([QUARTER], Dilution((1.0, 2.0), 7.0))
    assert found.parts_ml == pytest.approx((30.0, 60.0))
    assert found.concentrate_ml == pytest.approx(90.0)


def test_what_cannot_be_measured_is_told():
    """Less concentrate than the measure reads is a warning of the load."""
    codes = [note.code for note in pour([QUARTER._replace(agent_ml_per_cm2=None)], Dilution((1.0,), 99.0)).notes]
    assert "chemistry.mix.small" in codes


def test_without_a_vessel_a_unit_has_its_volume():
    """Where no vessel is named 250 ml a unit are planned, and one unit at least."""
    assert pour([QUARTER._replace(agent_ml_per_cm2=None)], vessel=ANY_VESSEL).volume_ml == 250.0
    four = [SheetAgent(UNIT_AREA_CM2, 1.0, None)] * 4
    assert pour(four, vessel=ANY_VESSEL).volume_ml == pytest.approx(1000.0, abs=10.0)


def test_the_limit_is_not_rounded_away():
    """A vessel's limit that is no multiple of ten is used to its last millilitre and never passed."""
    vessel = Vessel("drum", VesselKind.DRUM, (("any", 8),), 301.0, 305.0)
    assert pour([QUARTER], vessel=vessel).volume_ml == 305.0
    assert pour([QUARTER] * 8, vessel=vessel).volume_ml == 305.0


def test_volumes_stand_at_a_mark_of_the_measure():
    """Six quarters want 375 ml: 380 in a measure with tens, 375 with 25s, 400 with fifties."""
    assert [pour([QUARTER] * 6, marks=marks).volume_ml for marks in (10.0, 25.0, 50.0)] == [380.0, 375.0, 400.0]
