"""Vessels: places and times; what their runs teach is tried in test_runs_learned."""

from __future__ import annotations

import pytest

from wetside.errors import ConflictError, ManyErrors
from wetside.services.records.vessels import change_vessel, make_vessel, places_of, raw_of_vessel

pytestmark = pytest.mark.django_db
DRUM = {
    "name": "short drum",
    "kind": "drum",
    "places": {"9x12cm": 6, "13x18cm": 4},
    "min": "300 ml",
    "max": "1 l",
    "pour": "10 s",
}


def test_a_vessel_keeps_places_of_each_size() -> None:
    """What was typed comes back as it was, and unchanged it changes nothing."""
    made = make_vessel(DRUM)
    assert places_of(made) == (("9x12cm", 6), ("13x18cm", 4))
    assert (made.min_ml, made.max_ml, made.pour_s) == (300.0, 1000.0, 10.0)
    assert change_vessel(made, raw_of_vessel(made), 1).revision == 1
    with pytest.raises(ConflictError):
        make_vessel({**DRUM, "name": "SHORT  drum"})
    with pytest.raises(ManyErrors):
        make_vessel({"name": "x", "kind": "bucket", "places": 2, "min": "1 ml"})
