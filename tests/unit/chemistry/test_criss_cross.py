"""Parts of two strengths."""

from __future__ import annotations

import math

import pytest

from wetside import chemistry
from wetside.errors import InputError, OutOfRangeError


def test_the_order_of_the_two_does_not_matter():
    """Stronger or weaker first, each keeps its own parts."""
    assert chemistry.criss_cross_parts(28.0, 5.0, 12.0) == (7.0, 16.0)
    assert chemistry.criss_cross_parts(5.0, 28.0, 12.0) == (16.0, 7.0)


def test_an_end_takes_that_one_alone():
    """The strength of one of the two needs none of the other."""
    assert chemistry.criss_cross_volumes(28.0, 0.0, 28.0, 500.0) == (500.0, 0.0)
    assert chemistry.criss_cross_volumes(28.0, 0.0, 0.0, 500.0) == (0.0, 500.0)


@pytest.mark.parametrize("wanted", [-1.0, 4.9, 28.1, math.nan, math.inf])
def test_nothing_outside_the_two_is_mixed(wanted):
    """A strength above, below, or not a number is refused."""
    with pytest.raises(OutOfRangeError):
        chemistry.criss_cross_parts(28.0, 5.0, wanted)


def test_two_equal_ones_mix_to_nothing_else():
    """With equal strengths there are no parts to tell."""
    with pytest.raises(InputError) as caught:
        chemistry.criss_cross_parts(5.0, 5.0, 5.0)
    assert caught.value.code == "chemistry.criss_cross.equal"


@pytest.mark.parametrize("bad", [(101.0, 0.0), (-1.0, 5.0), (math.nan, 5.0)])
def test_a_percentage_is_one(bad):
    """Strengths lie between 0 and 100 %."""
    with pytest.raises(OutOfRangeError):
        chemistry.criss_cross_volumes(*bad, 3.0, 100.0)


def test_what_is_added_makes_the_wanted_strength():
    """500 ml of 28 % take 650 ml of 5 % to become 15 %, and nothing to stay as they are."""
    added = chemistry.added_ml(500.0, 28.0, 5.0, 15.0)
    assert chemistry.mixture_strength([(500.0, 28.0), (added, 5.0)]) == pytest.approx(15.0)
    assert chemistry.added_ml(500.0, 28.0, 5.0, 28.0) == 0.0


def test_no_amount_is_a_mix_of_nothing():
    """All amounts 0 is refused."""
    with pytest.raises(OutOfRangeError):
        chemistry.mixture_strength([(0.0, 28.0)])
