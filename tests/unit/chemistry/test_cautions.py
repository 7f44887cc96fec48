"""Cautions stand where chemicals, heat and electricity near water matter."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.wording import sentence


def test_every_caution_can_be_said():
    """Each is a whole sentence without parameters."""
    for code in chemistry.caution_codes():
        said = sentence(code, {}, ())
        assert said.endswith(".")
        assert not said.startswith("chemistry.")


@pytest.mark.parametrize("bath", ["mix", "develop", "stop", "fix", "wash-aid", "wetting", "other"])
def test_every_bath_of_chemicals_begins_with_its_safety_sheet_and_gloves(bath):
    """The product's own sheet comes first."""
    codes = chemistry.cautions_of([bath])
    assert codes[0] == "chemistry.caution.safety_sheet"
    assert "chemistry.caution.gloves" in codes


def test_the_dangerous_neighbours_are_named_where_they_meet():
    """Acid with stop, bleach with stop and fixer, silver and the authority with fixer and waste."""
    assert "chemistry.caution.acid_into_water" in chemistry.cautions_of(["stop"])
    for occasion in ("stop", "fix", "waste"):
        assert "chemistry.caution.never_bleach" in chemistry.cautions_of([occasion])
    for occasion in ("fix", "waste"):
        assert "chemistry.caution.ask_authority" in chemistry.cautions_of([occasion])
        assert "chemistry.caution.silver_bottle" in chemistry.cautions_of([occasion])


def test_electricity_near_water_has_its_three_rules():
    """Residual-current switch, battery, plug out before the hand goes in."""
    assert chemistry.cautions_of(["electricity"]) == (
        "chemistry.caution.residual_current",
        "chemistry.caution.on_battery",
        "chemistry.caution.unplug",
    )


def test_cautions_come_once_and_plain_water_has_none():
    """A whole process repeats nothing."""
    codes = chemistry.cautions_of(["presoak", "develop", "stop", "fix", "wash", "wetting", "waste"])
    assert len(codes) == len(set(codes))
    assert chemistry.cautions_of(["presoak", "wash"]) == ()


def test_no_caution_says_that_something_is_permitted():
    """The word of the local authority is asked for, never given."""
    for code in chemistry.caution_codes():
        words = sentence(code, {}, ()).casefold().split()
        assert not {"may", "allowed", "permitted", "legal", "safe"} & set(words)
