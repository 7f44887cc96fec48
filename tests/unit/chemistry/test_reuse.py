"""Used developer."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.errors import OutOfRangeError, RefusedError


def test_the_rule_adds_and_does_not_compound():
    """Film 10 takes 1.9 times the standard time, not 1.1 to the ninth."""
    assert chemistry.reuse_factor(10, capacity_per_litre=10) == pytest.approx(1.9)


def test_the_makers_count_is_the_end():
    """A film beyond it is refused, in a litre and in five."""
    with pytest.raises(RefusedError) as caught:
        chemistry.reuse_factor(5, capacity_per_litre=4)
    assert caught.value.code == "chemistry.reuse.used_up"
    assert chemistry.reuse_factor(20, capacity_per_litre=4, litres=5.0) == pytest.approx(1.3)
    with pytest.raises(RefusedError):
        chemistry.reuse_factor(21, capacity_per_litre=4, litres=5.0)


@pytest.mark.parametrize(
    ("number", "litres", "code"),
    [
        (0, 1.0, "chemistry.value.not_positive"),
        (1.5, 1.0, "chemistry.reuse.not_whole"),
        (1, 0.5, "chemistry.reuse.under_a_litre"),
    ],
)
def test_what_the_rule_does_not_cover_is_refused(number, litres, code):
    """Films are counted whole, from one, in a litre or more."""
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.reuse_factor(number, capacity_per_litre=10, litres=litres)
    assert caught.value.code == code
