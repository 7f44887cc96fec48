"""Hardness and the last bath."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.chemistry import Hardness
from wetside.errors import OutOfRangeError


@pytest.mark.parametrize(
    ("mg_per_l", "kind"),
    [
        (0.0, Hardness.SOFT),
        (50.0, Hardness.MODERATE),
        (150.0, Hardness.MODERATE),
        (300.0, Hardness.HARD),
        (301.0, Hardness.VERY_HARD),
    ],
)
def test_the_edges_of_the_classes(mg_per_l, kind):
    """Moderate takes both of its ends, as it is printed."""
    assert chemistry.hardness_class(mg_per_l) is kind


def test_scales_of_water_companies():
    """A French degree is 10 mg/l; the plain scale changes nothing; an unknown one is refused with the known."""
    assert chemistry.hardness_mg_per_l(12.0, "french") == 120.0
    assert chemistry.hardness_mg_per_l(12.0, "mg/l") == 12.0
    with pytest.raises(OutOfRangeError) as caught:
        chemistry.hardness_mg_per_l(12.0, "cups")
    assert "german" in caught.value.params["known"]


def test_only_hard_water_asks_for_anything():
    """Lime in the developer and spots on the film."""
    assert chemistry.water_notes(Hardness.SOFT) == chemistry.water_notes(Hardness.MODERATE) == ()
    assert len(chemistry.water_notes(Hardness.VERY_HARD)) == 2
