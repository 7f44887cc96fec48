"""Replenished developer: top-up by area, level, state."""

from __future__ import annotations

import pytest

from wetside.development import BathState, UsedArea, bath_state, replenisher_rate_ml_per_cm2, require_same_state, top_up
from wetside.errors import WetsideError

UNIT = 516.128
RATE = 25.0 / UNIT


def codes(done) -> list[str]:
    return [remark.code.rpartition(".")[2] for remark in done.remarks]


def test_top_up_follows_the_ledger() -> None:
    """Area times weight times rate is added; what the film carried out need not be taken out."""
    done = top_up([UsedArea(UNIT), UsedArea(UNIT, 2.0)], RATE, 1000, carried_out_ml=12)
    assert done.add_ml == pytest.approx(75)
    assert done.discard_ml == pytest.approx(63)
    assert done.take_out_ml == done.discard_ml


def test_the_level_falls_when_more_is_carried_out() -> None:
    """Carry-out above the top-up leaves the bath below its mark."""
    done = top_up([UsedArea(UNIT)], RATE, 1000, carried_out_ml=40)
    assert done.discard_ml == 0
    assert "below_mark" in codes(done)


def test_large_and_old_baths_are_said() -> None:
    """More than a tenth at once, and more than three months, are said."""
    assert "large" in codes(top_up([UsedArea(UNIT)] * 5, RATE, 1000))
    assert "renew" in codes(top_up([UsedArea(UNIT)], RATE, 1000, age_days=100))
    assert "renew" not in codes(top_up([UsedArea(UNIT)], RATE, 1000, age_days=91))


def test_a_bath_settles() -> None:
    """One volume of replenisher seasons a bath; a time belongs to one state."""
    assert [bath_state(added, 1000) for added in (0, 1, 1000)] == list(BathState)
    assert codes(top_up([UsedArea(UNIT)], RATE, 1000, added_before_ml=1000)) == []
    with pytest.raises(WetsideError) as caught:
        require_same_state(BathState.SEASONED, BathState.FRESH)
    assert caught.value.code == "development.replenish.other_state"


@pytest.mark.parametrize(
    ("call", "code"),
    [
        (lambda: top_up([], 0, 1000), "volume_not_positive"),
        (lambda: top_up([UsedArea(0)], RATE, 1000), "area_not_positive"),
        (lambda: top_up([UsedArea(UNIT, -1)], RATE, 1000), "weight_not_positive"),
        (lambda: top_up([], RATE, 1000, added_before_ml=-1), "negative"),
        (lambda: top_up([], RATE, 1000, age_days=-1), "negative"),
        (lambda: top_up([UsedArea(UNIT)] * 40, RATE, 1000), "whole_bath"),
        (lambda: top_up([], RATE, 1000, carried_out_ml=1001), "carried_out"),
        (lambda: replenisher_rate_ml_per_cm2(1000, 0), "area_not_positive"),
        (lambda: bath_state(-1, 1000), "negative"),
    ],
)
def test_what_cannot_be_is_refused(call, code: str) -> None:
    """Impossible volumes, areas and ages carry their code."""
    with pytest.raises(WetsideError) as caught:
        call()
    assert caught.value.code == f"development.replenish.{code}"
