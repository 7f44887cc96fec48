"""How far off its aim a sheet is, in words."""

from __future__ import annotations

from wetside.cards.off_aim import off_aim, said_off_aim


def test_more_than_one_is_said_in_the_plural() -> None:
    """Grades and zones: three quarters and one are one, one and a quarter is many."""
    assert "grade harder" in said_off_aim(off_aim(0.08, None, 10.0))
    many = said_off_aim(off_aim(-0.48, None, -44.0))
    assert "grades softer" in many
    assert "zones" in many
    few = said_off_aim(off_aim(0.03, None, 6.0))
    assert "zone," in few
    assert "zones" not in few
