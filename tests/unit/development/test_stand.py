"""Stand and semi-stand: moments of agitation, a full vessel, its own evidence, the agent."""

from __future__ import annotations

import pytest

from wetside.development import Way, agitation_moments, stand_plan
from wetside.errors import WetsideError
from wetside.values.conditions import Agitation

UNIT = 516.128
USUAL = {
    "time_s": 3600,
    "agitation": Agitation.STAND,
    "volume_ml": 1000,
    "full_ml": 1000,
    "area_cm2": UNIT,
    "agent_ml": 10,
    "reference_ml_per_cm2": 10 / UNIT,
}


def codes(plan) -> list[str]:
    return [remark.code.rpartition(".")[2] for remark in plan.remarks]


def test_stand_moves_once() -> None:
    """Stand is agitated at the beginning only; semi-stand at even moments too."""
    assert stand_plan(**USUAL).way is Way.STAND
    assert len(stand_plan(**USUAL).moments) == 1
    assert [moment.at_s for moment in stand_plan(**USUAL, moments=2).moments] == [0.0, 1200.0, 2400.0]
    assert stand_plan(**USUAL, moments=2).still_s == 1190.0


@pytest.mark.parametrize("agitation", [one for one in Agitation if one is not Agitation.STAND])
def test_no_other_agitation_is_converted(agitation: Agitation) -> None:
    """A rotary, tray or tank time is refused."""
    with pytest.raises(WetsideError) as caught:
        stand_plan(**{**USUAL, "agitation": agitation})
    assert caught.value.code == "development.stand.other_agitation"


def test_the_agent_is_checked_first_of_all() -> None:
    """Unknown is said, short is said, below half is refused."""
    assert codes(stand_plan(**{**USUAL, "reference_ml_per_cm2": None}))[0] == "agent_unknown"
    assert codes(stand_plan(**{**USUAL, "agent_ml": 8}))[0] == "agent_short"
    with pytest.raises(WetsideError) as caught:
        stand_plan(**{**USUAL, "agent_ml": 4.9})
    assert caught.value.code == "development.stand.too_little"


@pytest.mark.parametrize(("time_s", "code"), [(900, "short"), (5400, "long")])
def test_times_outside_the_usual_are_said(time_s: float, code: str) -> None:
    """Under 20 and over 60 minutes a remark follows; nothing is refused."""
    assert code in codes(stand_plan(**{**USUAL, "time_s": time_s}))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"volume_ml": 900}, "not_full"),
        ({"volume_ml": 0}, "volume_not_positive"),
        ({"area_cm2": 0}, "area_not_positive"),
        ({"agent_ml": 0}, "agent_not_positive"),
        ({"reference_ml_per_cm2": 0}, "agent_not_positive"),
        ({"time_s": 0}, "time_not_positive"),
        ({"first_s": 0}, "moment_not_positive"),
        ({"moments": -1}, "moments_negative"),
        ({"moments": 400}, "no_stillness"),
    ],
)
def test_what_cannot_be_is_refused(change, code: str) -> None:
    """A half-empty vessel and impossible values carry their code."""
    with pytest.raises(WetsideError) as caught:
        stand_plan(**{**USUAL, **change})
    assert caught.value.code == f"development.stand.{code}"


def test_agitation_without_stillness_is_no_stand_development() -> None:
    """A first agitation as long as the time is refused."""
    with pytest.raises(WetsideError):
        agitation_moments(60, first_s=60)
