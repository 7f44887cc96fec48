"""Typed washes: residue, limits, water, and the published ways that hold for this water and fixer."""

from __future__ import annotations

import pytest

from wetside.errors import WetsideError
from wetside.services.wash import WashAnswers, wash


def test_one_change_at_balance():
    """Four sheets of 4x5 in are one unit: 10 ml carried into 500 ml leave one part in 51."""
    found = wash(WashAnswers("500ml"))
    assert 1.0 / found.fraction == pytest.approx(51.0, rel=1e-4)
    assert found.left[1] / found.left[0] == pytest.approx(found.fraction)


def test_a_stricter_limit_asks_for_more():
    """Full balance thins by 51 a change: a limit that two changes miss wants a third."""
    second = wash(WashAnswers("500ml")).left[1]
    assert wash(WashAnswers("500ml", limit="1.4")).needed == 2
    found = wash(WashAnswers("500ml", thiosulfate="200", changes="1", limit="0.1"))
    assert (found.needed, found.limit_ug_per_cm2) == (3, 0.1)
    assert found.slowest_s is None
    assert second < 0.1


def test_running_water_beside_changes():
    """Six litres a minute for ten minutes are sixty (ribnar-2016); three fills of 600 ml are 1.8."""
    found = wash(WashAnswers("600ml", flow="6l", running="10:00"))
    assert (found.water_l, found.running_l) == (pytest.approx(1.8), pytest.approx(60.0))
    assert wash(WashAnswers("600ml")).running_l is None


@pytest.mark.parametrize(
    ("answers", "there", "gone"),
    [
        (WashAnswers("500ml", water="12C"), "running water, 15 C or colder", "running water, above 15 C"),
        (WashAnswers("500ml", water="20C"), "running water, above 15 C", "running water, 15 C or colder"),
        (WashAnswers("500ml", hardened=True), "running water, service", "fill and dump"),
        (WashAnswers("500ml"), "running water, above 15 C", "wash aid, fibre prints"),
    ],
)
def test_ways_that_hold(answers, there, gone):
    """A published way for other water, for fixer without hardener, or for prints is shown only where it holds."""
    names = [method.name for method in wash(answers).methods]
    assert there in names
    assert gone not in names


def test_cold_water_and_a_wall_are_told():
    """Cold water, a far temperature and film on a wall each bring their word."""
    codes = [code for code, _ in wash(WashAnswers("500ml", water="8C", on_a_wall=True)).notes]
    assert codes == ["chemistry.wash.far_from_process", "chemistry.wash.cold", "chemistry.wash.out_of_drum"]


@pytest.mark.parametrize(
    ("answers", "code"),
    [
        (WashAnswers("500ml", flow="6l"), "services.option_missing_with"),
        (WashAnswers("500ml", running="6:00"), "services.option_missing_with"),
        (WashAnswers("500ml", limit="0"), "services.residue_limit"),
        (WashAnswers("500ml", changes="0"), "services.not_whole"),
    ],
)
def test_half_said(answers, code):
    """What is missing or impossible is refused by name."""
    with pytest.raises(WetsideError) as caught:
        wash(answers)
    assert caught.value.code == code
