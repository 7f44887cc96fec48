"""A negative judged without a densitometer: what its shadow and its highlight say about the next sheets' time.

The highlight says how far the sheet was developed, the shadow how far it was exposed. A step is the change of time that
an eye may well be right about, and no more.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

STEP_PERCENT = 10.0
"""Our choice: one step of judgement, 0.07 density at a range of 1.05; an eye tells no less apart. [%]"""


class Verdict(StrEnum):
    """How much density a part of the negative has beside what it should have."""

    TOO_LITTLE = "too-little"
    RIGHT = "right"
    TOO_MUCH = "too-much"


_STEP = {Verdict.TOO_LITTLE: -1, Verdict.RIGHT: 0, Verdict.TOO_MUCH: 1}


class Judgement(NamedTuple):
    """Change of the time of the others, signed [%], and the code of what that says of this sheet."""

    change_percent: float
    code: str


def judgement_of(shadow: Verdict, highlight: Verdict) -> Judgement:
    """Change of time that a judged negative asks for.

    Parameters
    ----------
    shadow, highlight : Verdict
        Of the part that should just have detail, and of the brightest one that should.

    Returns
    -------
    judgement : Judgement
        Always ``assumed``. Both ends off the same way are exposure, and leave the time alone; so does a shadow that is
        off while the highlight is right. A highlight that is off asks for a step, for two where the shadow is off the
        other way.

    Examples
    --------
    >>> judgement_of(Verdict.RIGHT, Verdict.TOO_MUCH).change_percent
    -10.0
    >>> judgement_of(Verdict.TOO_LITTLE, Verdict.TOO_LITTLE)
    Judgement(change_percent=0.0, code='planning.judged_under')
    """
    low, high = _STEP[shadow], _STEP[highlight]
    if high == 0:
        code = ("planning.judged_shadow_thin", "planning.judged_right", "planning.judged_shadow_dense")[low + 1]
        return Judgement(0.0, code)
    if low == high:
        return Judgement(0.0, "planning.judged_over" if high > 0 else "planning.judged_under")
    steps = 2 if low == -high else 1
    return Judgement(-STEP_PERCENT * steps * high, "planning.judged_hard" if high > 0 else "planning.judged_soft")
