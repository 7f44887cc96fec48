"""Which evidence passes between ways of developing."""

from __future__ import annotations

import itertools

import pytest

from wetside.development import Way, require_same_way
from wetside.errors import RefusedError

LONELY = (Way.TWO_BATH, Way.STAND, Way.SEMI_STAND, Way.REPLENISHED)


@pytest.mark.parametrize("way", Way)
def test_a_way_agrees_with_itself(way: Way) -> None:
    """A time found in one way may be used in that way."""
    require_same_way(way, way)


@pytest.mark.parametrize(("lonely", "other"), list(itertools.product(LONELY, Way)))
def test_no_rule_leads_to_or_from_a_lonely_way(lonely: Way, other: Way) -> None:
    """Two-bath, stand and seasoned times are never converted, in either direction."""
    if lonely is other:
        return
    for pair in ((lonely, other), (other, lonely)):
        with pytest.raises(RefusedError) as caught:
            require_same_way(*pair)
        assert caught.value.code == "development.ways.not_converted"
