"""Acid baths and what is said about them."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.errors import OutOfRangeError


def codes(mix):
    return [code for code, _ in mix.notes]


@pytest.mark.parametrize(("strong", "wanted"), [(99.6, 28.0), (28.0, 1.5), (5.0, 1.0), (28.0, 28.0)])
def test_the_order_of_pouring_is_always_told_first(strong, wanted):
    """Acid into water comes before any other note, even for vinegar."""
    assert codes(chemistry.acid_bath_ml(strong, wanted, 1000.0))[0] == "chemistry.caution.acid_into_water"


def test_acid_and_water_make_the_total():
    """400 ml of 5 % vinegar and 600 ml of water are a litre of 2 %."""
    mix = chemistry.acid_bath_ml(5.0, 2.0, 1000.0)
    assert (mix.acid_ml, mix.water_ml) == (400.0, 600.0)
    assert codes(mix) == ["chemistry.caution.acid_into_water"]


def test_a_bath_outside_the_usual_strength_is_told():
    """Below 1 % and above 2 % a stop bath is told to be weak or strong."""
    assert codes(chemistry.acid_bath_ml(28.0, 0.9, 500.0))[1:] == ["chemistry.acid_note.weak"]
    assert codes(chemistry.acid_bath_ml(28.0, 2.1, 500.0))[1:] == ["chemistry.acid_note.strong"]


def test_glacial_acid_is_told_to_freeze():
    """Only acid of 98 % or more turns solid in a cool room."""
    assert "chemistry.acid_note.freezes" in codes(chemistry.acid_bath_ml(99.6, 1.5, 500.0))
    assert "chemistry.acid_note.freezes" not in codes(chemistry.acid_bath_ml(80.0, 1.5, 500.0))


def test_no_acid_gets_stronger_from_water():
    """28 % does not come from 5 %."""
    with pytest.raises(OutOfRangeError):
        chemistry.acid_bath_ml(5.0, 28.0, 500.0)


def test_the_old_rule_is_three_percent_short():
    """Three parts of glacial acid and eight of water make 27.1 %, not 28."""
    assert chemistry.three_and_eight_percent() / 28.0 - 1.0 == pytest.approx(-0.031, abs=0.001)
