"""Developer replaced on the way: each filling's agent, the running clock, age in rotation."""

from __future__ import annotations

import pytest

from wetside.development import activity_of_part, replaced_plan
from wetside.errors import WetsideError

UNIT = 516.128
REFERENCE = 62.5 / UNIT


def codes(plan) -> list[str]:
    return [remark.code.rpartition(".")[2] for remark in plan.remarks]


def test_the_clock_runs_through() -> None:
    """Parts follow each other without a gap and end with the time; uneven shares are kept."""
    plan = replaced_plan(600, UNIT, (100, 50), REFERENCE, shares=(0.75, 0.25), change_s=20)
    assert [(part.start_s, part.end_s) for part in plan.parts] == [(0.0, 450.0), (450.0, 600.0)]
    assert plan.remarks[0].params == {"at_s": 450.0}


def test_two_halves_are_worth_one_filling_of_double_volume() -> None:
    """By this model replacing half-way brings what twice the developer at once would have brought."""
    plan = replaced_plan(600, UNIT, (62.5, 62.5), REFERENCE)
    at_once = activity_of_part(1 / 0.125) / activity_of_part(1 / 0.0625)
    assert plan.activity == pytest.approx(at_once)


def test_a_half_that_is_short_is_said_or_refused() -> None:
    """Below its share of the reference a filling is said to be short; below half of it nothing is foretold."""
    assert "short_part" in codes(replaced_plan(600, UNIT, (62.5, 25), REFERENCE))
    with pytest.raises(WetsideError) as caught:
        replaced_plan(600, UNIT, (62.5, 15), REFERENCE)
    assert caught.value.code == "development.replaced.too_little"
    assert caught.value.params["number"] == 2


def test_what_the_first_filling_alone_would_do_may_be_unknown() -> None:
    """Where one filling alone is less than half of the reference, no gain is claimed."""
    plan = replaced_plan(600, UNIT, (20, 40), REFERENCE)
    assert plan.activity_unreplaced is None
    assert plan.gain is None


def test_each_filling_has_its_own_age() -> None:
    """Thirty minutes in two halves are no thirty minutes in one filling; a still vessel has no limit."""
    assert "part_oxidised" not in codes(replaced_plan(1800, UNIT, (62.5, 62.5), REFERENCE))
    assert "part_oxidised" in codes(replaced_plan(3000, UNIT, (62.5, 62.5), REFERENCE))
    assert "part_oxidised" not in codes(replaced_plan(3000, UNIT, (62.5, 62.5), REFERENCE, rotating=False))


def test_a_slow_change_is_said() -> None:
    """Film left in spent developer for a minute shows."""
    assert "slow_change" in codes(replaced_plan(600, UNIT, (62.5, 62.5), REFERENCE, change_s=60))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"time_s": 0}, "time_not_positive"),
        ({"area_cm2": -1}, "area_not_positive"),
        ({"agents_ml": (50,)}, "too_few"),
        ({"agents_ml": (50, 0)}, "agent_not_positive"),
        ({"reference_ml_per_cm2": 0}, "reference_not_positive"),
        ({"shares": (0.5, 0.6)}, "shares"),
        ({"shares": (1.0, 0.0)}, "shares"),
        ({"change_s": -1}, "change_negative"),
        ({"change_s": 300}, "change_too_long"),
        ({"loss_per_unit": -0.1}, "use_negative"),
    ],
)
def test_what_cannot_be_is_refused(change, code: str) -> None:
    """Impossible fillings, shares and times carry their code."""
    usual = {"time_s": 600, "area_cm2": UNIT, "agents_ml": (62.5, 62.5), "reference_ml_per_cm2": REFERENCE}
    with pytest.raises(WetsideError) as caught:
        replaced_plan(**{**usual, **change})
    assert caught.value.code == f"development.replaced.{code}"
