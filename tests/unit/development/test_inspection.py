"""Inspection: who may be looked at, when, and what a look may do to the end."""

from __future__ import annotations

import pytest

from wetside.development import LookAct, Safelight, Verdict, end_after_looks_s, inspection_plan
from wetside.errors import WetsideError

USUAL = {"planned_s": 600, "safelight": Safelight.DEEP_RED, "distance_m": 1.2, "tested_light_s": 120}


def test_looks_stand_late_and_end_in_time() -> None:
    """Looks lie between the first share and the planned end."""
    plan = inspection_plan(**USUAL, looks=3)
    assert [look.at_s for look in plan.looks] == pytest.approx([420, 505, 590])
    assert plan.light_s == 30
    assert plan.looks[-1].at_s + plan.looks[-1].lasting_s == plan.planned_end_s


def test_one_look_stands_at_its_share() -> None:
    """A single look stands at the share that is asked for."""
    assert inspection_plan(**USUAL, looks=1, first_share=0.6).looks[0].at_s == pytest.approx(360)


def test_the_planned_end_stands() -> None:
    """Without an act the bath ends as planned; a later ending is not possible without extending."""
    plan = inspection_plan(**USUAL)
    assert end_after_looks_s(plan) == 600
    with pytest.raises(WetsideError) as caught:
        end_after_looks_s(plan, [Verdict(601, LookAct.END)])
    assert caught.value.code == "development.inspection.out_of_order"


def test_acts_move_the_end() -> None:
    """Ending ends now, extending adds, and a second look may end what the first one extended."""
    plan = inspection_plan(**USUAL)
    assert end_after_looks_s(plan, [Verdict(420, LookAct.END)]) == 420
    extended = [Verdict(590, LookAct.EXTEND, 60), Verdict(650, LookAct.EXTEND, 30)]
    assert end_after_looks_s(plan, extended) == 690
    assert end_after_looks_s(plan, [*extended, Verdict(680, LookAct.END)]) == 680


@pytest.mark.parametrize(
    ("verdicts", "code"),
    [
        ([Verdict(200, LookAct.END)], "too_early"),
        ([Verdict(500, LookAct.EXTEND, 60), Verdict(450, LookAct.END)], "out_of_order"),
        ([Verdict(500, LookAct.EXTEND, 0)], "nothing_added"),
        ([Verdict(500, LookAct.EXTEND, 301)], "too_long"),
        ([Verdict(float("nan"), LookAct.END)], "too_early"),
    ],
)
def test_verdicts_that_cannot_be(verdicts, code: str) -> None:
    """Too early, out of order, empty or endless decisions carry their code."""
    with pytest.raises(WetsideError) as caught:
        end_after_looks_s(inspection_plan(**USUAL), verdicts)
    assert caught.value.code == f"development.inspection.{code}"


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"safelight": Safelight.NONE}, "no_safelight"),
        ({"distance_m": 1.0}, "too_near"),
        ({"distance_m": 0}, "distance_not_positive"),
        ({"tested_light_s": None}, "untested"),
        ({"tested_light_s": 15}, "too_much_light"),
        ({"tested_light_s": -1}, "tested_negative"),
        ({"first_share": 0.4}, "share"),
        ({"first_share": 1.0}, "share"),
        ({"looks": 0}, "looks"),
        ({"looks": 30}, "no_room"),
        ({"planned_s": 0}, "time_not_positive"),
        ({"look_s": 0}, "look_not_positive"),
    ],
)
def test_looks_that_are_refused(change, code: str) -> None:
    """Panchromatic film, a near lamp, an untested lamp and too much light carry their code."""
    with pytest.raises(WetsideError) as caught:
        inspection_plan(**{**USUAL, **change})
    assert caught.value.code == f"development.inspection.{code}"
