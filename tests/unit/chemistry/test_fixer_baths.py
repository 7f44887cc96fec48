"""Two fixing baths in turn."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.chemistry import FixingBath, TwoBaths
from wetside.errors import OutOfRangeError, RefusedError


def two(first_units=0.0, promotions=0):
    return TwoBaths(FixingBath("A", 1000.0, first_units), FixingBath("B", 1000.0), promotions=promotions)


def test_a_load_that_fits_is_fixed_and_one_that_does_not_waits_for_a_new_bath():
    """The act is due before the load that would pass the first bath's capacity."""
    assert chemistry.due_bath_act(two(18.0), 2.0) == "none"
    assert chemistry.due_bath_act(two(18.0), 2.5) == "promote"
    assert chemistry.due_bath_act(two(20.0)) == "promote"
    assert chemistry.due_bath_act(two(20.0, promotions=3)) == "renew"


def test_a_load_larger_than_a_fresh_bath_does_not_ask_for_ever_newer_ones():
    """A fresh bath is not thrown out before it has fixed anything."""
    assert chemistry.due_bath_act(two(), 30.0) == "none"


def test_promotion_keeps_silver_and_strength_and_begins_the_count_anew():
    """The second bath moves up with what it has met; a new one stands behind it."""
    used = chemistry.fix_in_two_baths(two(), 10.0, carried_ml=20.0)
    moved = chemistry.promote_second(used, FixingBath("C", 1000.0))
    assert moved.first.label == "B"
    assert moved.first.silver_g == used.second.silver_g > 0
    assert moved.first.strength == used.second.strength < 1
    assert (moved.first.units, moved.promotions) == (0.0, 1)


def test_only_a_new_bath_can_be_put_behind():
    """A used one, or one that is there already, is refused."""
    with pytest.raises(RefusedError):
        chemistry.promote_second(two(), FixingBath("C", 1000.0, units=1.0))
    with pytest.raises(RefusedError):
        chemistry.promote_second(two(), FixingBath("B", 1000.0))
    with pytest.raises(RefusedError):
        chemistry.renew_both(two(), FixingBath("C", 1000.0), FixingBath("C", 1000.0))


def test_silver_is_neither_made_nor_lost_before_the_wash():
    """What a load leaves is in the first bath, in the second, or carried out of it."""
    start = two()
    after = chemistry.fix_in_two_baths(start, 5.0, carried_ml=20.0, silver_per_unit_g=0.2)
    out_g = after.second.silver_g / 1000.0 * 20.0
    assert after.first.silver_g + after.second.silver_g + out_g == pytest.approx(1.0)
    assert after.first.silver_g_per_l > 40 * after.second.silver_g_per_l


def test_the_last_bath_is_held_to_half_of_the_limit():
    """4 g/l in the last bath is its whole share."""
    assert chemistry.silver_share_of_last(FixingBath("B", 500.0, silver_g=2.0)) == pytest.approx(1.0)


@pytest.mark.parametrize("least", [1.0, 2.0, 0.0])
def test_a_strength_to_thin_to_lies_below_the_fresh_bath(least):
    """Nothing is thinned to its own strength or above."""
    with pytest.raises(OutOfRangeError):
        chemistry.loads_to_strength(500.0, 20.0, least)


def test_what_cannot_be_is_refused():
    """Gravity below water, more carried than there is."""
    for gravity, strength in ((0.9, 0.5), (1.075, 1.5)):
        with pytest.raises(OutOfRangeError):
            chemistry.gravity_at_strength(gravity, strength)
    with pytest.raises(OutOfRangeError):
        chemistry.fix_in_two_baths(two(), 1.0, carried_ml=2000.0)
