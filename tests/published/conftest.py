"""The fixture that published checks go through, so that the run can say how well and on how much we agree."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

STATUSES = {"READ", "COMPUTED", "DERIVED"}
ROUNDING = 1e-12
MOST_DIGITS = 15.0


def agreement_digits(computed: float, expected: float) -> float:
    """Decimal digits in which two numbers agree, at most 15; of their difference itself where 0 is expected."""
    off = abs(computed - expected)
    if off == 0:
        return MOST_DIGITS
    return min(MOST_DIGITS, max(0.0, -math.log10(off / (abs(expected) or 1.0))))


@pytest.fixture
def agree(request: pytest.FixtureRequest) -> Callable[..., None]:
    """Compare a computed value with a published one, and note it for the report by topic.

    ``status`` is READ (seen in the source) or COMPUTED (or DERIVED; worked out without our code, arithmetic beside it).
    ``formula`` names what is checked where one test function checks several; at most ten cases of a formula and source
    count.
    """

    def check(
        *,
        topic: str,
        source: str,
        status: str,
        name: str,
        computed: float,
        expected: float,
        tolerance: float,
        formula: str | None = None,
    ) -> None:
        assert status in STATUSES, f"{name}: {status} is no status of an expected value"
        assert tolerance >= 0, f"{name}: tolerance {tolerance}"
        off = abs(computed - expected)
        allowed = tolerance + ROUNDING
        said = f"{topic}, {name}: computed {computed!r}, {source} has {expected!r}"
        assert off <= allowed, f"{said}, off by {off:.3g}, allowed {tolerance:.3g}"
        noted = {
            "topic": topic,
            "source": source,
            "status": "READ" if status == "READ" else "COMPUTED",
            "name": str(name),
            "formula": formula or f"{request.node.path.stem}::{request.node.originalname}",
            "digits": agreement_digits(float(computed), float(expected)),
            "share": float(off / allowed),
        }
        request.node.user_properties.append(("published", noted))

    return check
