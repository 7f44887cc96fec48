"""Two baths: free time, no window, and what is carried over."""

from __future__ import annotations

import math

import pytest

from wetside.development import carried_over_ml, share_of_a_in_b, two_bath_plan
from wetside.errors import OutOfRangeError

UNIT = 516.128
USUAL = {"soak_s": 240, "act_s": 240, "temp_a_c": 20.0, "temp_b_c": 20.0, "tested_temp_c": 20.0}


def codes(plan) -> list[str]:
    return [remark.code.rpartition(".")[2] for remark in plan.remarks]


def test_any_n_shares_a_load() -> None:
    """The plan has no window and says that the time is free."""
    plan = two_bath_plan(2 * UNIT, 500, 500, **USUAL)
    assert plan.free_time
    assert plan.window is None
    assert codes(plan) == ["time_free", "no_rinse"]


def test_a_is_used_up_by_what_is_carried() -> None:
    """A loses what film and walls take along, and B gains it."""
    plan = two_bath_plan(2 * UNIT, 500, 500, **USUAL)
    assert plan.a_left_ml == pytest.approx(500 - (2 * 4 + 10))
    assert plan.a_in_b == pytest.approx(18 / 518)


def test_temperature_is_what_is_watched() -> None:
    """A bath off its tested temperature, or never tested, is said; the larger of the two errors is named."""
    plan = two_bath_plan(UNIT, 500, 500, **{**USUAL, "temp_b_c": 17.5})
    assert codes(plan)[-1] == "temperature"
    assert plan.remarks[-1].params["off_c"] == -2.5
    assert "temperature_untested" in codes(two_bath_plan(UNIT, 500, 500, **{**USUAL, "tested_temp_c": None}))


def test_b_is_changed_when_it_holds_too_much_of_a() -> None:
    """After enough loads B begins to develop by itself."""
    assert "change_b" not in codes(two_bath_plan(2 * UNIT, 500, 500, **USUAL, loads_before=1))
    assert "change_b" in codes(two_bath_plan(2 * UNIT, 500, 500, **USUAL, loads_before=3))


def test_a_short_bath_is_said() -> None:
    """A bath under two minutes may not be done."""
    assert "short" in codes(two_bath_plan(UNIT, 500, 500, **{**USUAL, "soak_s": 60}))


@pytest.mark.parametrize(
    ("call", "code"),
    [
        (lambda: carried_over_ml(0.0), "area_not_positive"),
        (lambda: carried_over_ml(UNIT, -1.0), "volume_negative"),
        (lambda: carried_over_ml(math.nan), "area_not_positive"),
        (lambda: share_of_a_in_b(10, 0, 1), "volume_not_positive"),
        (lambda: share_of_a_in_b(10, 500, -1), "loads_negative"),
        (lambda: two_bath_plan(UNIT, 14, 500, **USUAL), "a_too_small"),
        (lambda: two_bath_plan(UNIT, 500, 500, **{**USUAL, "act_s": 0}), "time_not_positive"),
    ],
)
def test_what_cannot_be_is_refused(call, code: str) -> None:
    """Impossible areas, volumes and times carry their code."""
    with pytest.raises(OutOfRangeError) as caught:
        call()
    assert caught.value.code == f"development.two_bath.{code}"
