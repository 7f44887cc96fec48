"""A negative judged by eye: nine answers, each with what it asks of the next."""

from __future__ import annotations

import pytest

from wetside.planning.judged import Verdict, judgement_of

LITTLE, RIGHT, MUCH = Verdict.TOO_LITTLE, Verdict.RIGHT, Verdict.TOO_MUCH


@pytest.mark.parametrize(
    ("shadow", "highlight", "percent", "code"),
    [
        (RIGHT, RIGHT, 0.0, "right"),
        (RIGHT, MUCH, -10.0, "hard"),
        (RIGHT, LITTLE, 10.0, "soft"),
        (LITTLE, MUCH, -20.0, "hard"),
        (MUCH, LITTLE, 20.0, "soft"),
        (LITTLE, LITTLE, 0.0, "under"),
        (MUCH, MUCH, 0.0, "over"),
        (LITTLE, RIGHT, 0.0, "shadow_thin"),
        (MUCH, RIGHT, 0.0, "shadow_dense"),
    ],
)
def test_nine_answers(shadow: Verdict, highlight: Verdict, percent: float, code: str) -> None:
    """The highlight tells development, the shadow exposure: what is exposure leaves the time alone."""
    judged = judgement_of(shadow, highlight)
    assert (judged.change_percent, judged.code) == (percent, f"planning.judged_{code}")
