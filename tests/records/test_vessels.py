"""Vessels: places and times, and what runs teach, offered and never adopted silently."""

from __future__ import annotations

import datetime as dt

import pytest

from wetside.errors import ConflictError, ManyErrors
from wetside.records.models import Run, RunEvent, Vessel
from wetside.services.records.changes import find, history_of, make
from wetside.services.records.vessels import (
    change_vessel,
    make_vessel,
    offers_of,
    places_of,
    raw_of_vessel,
    take_offer,
    timed_in_runs,
)

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


def test_a_learned_time_is_offered_and_holds_only_when_taken() -> None:
    """From three runs on, by their middle, where it differs by more than hands do."""
    made = make_vessel(DRUM)
    assert offers_of(made, {"pour_s": [14.0, 15.0]}) == ()
    assert offers_of(made, {"pour_s": [11.0, 11.0, 10.0]}) == ()
    (offer,) = offers_of(made, {"pour_s": [14.0, 30.0, 15.0], "drain_s": [15.0, 15.0, 15.0]})
    assert (offer.column, offer.stated_s, offer.learned_s, offer.low_s, offer.high_s) == (
        "pour_s",
        10.0,
        15.0,
        14.0,
        30.0,
    )
    assert find(Vessel, made.pk).pour_s == 10.0
    take_offer(made, offer, 1)
    assert find(Vessel, made.pk).pour_s == 15.0
    assert history_of(made)[0].why == "learned in runs"


def test_rehearsals_teach_nothing() -> None:
    """Water in the light pours no slower than developer, but hands do; only real runs count."""
    made, other = make_vessel(DRUM), make_vessel({**DRUM, "name": "long drum"})
    real = make(Run, {"name": "load 1"})
    dry = make(Run, {"name": "load 1", "rehearsal": True})
    for run, vessel, seconds in ((real, made, 14.0), (real, other, 20.0), (dry, made, 99.0)):
        RunEvent.objects.create(
            run=run,
            seq=run.events.count() + 1,
            kind="vessel-timed",
            version=1,
            at_utc=dt.datetime(2026, 11, 25, tzinfo=dt.UTC),
            boot_s=1.0,
            boot_id="b",
            device="d",
            device_number=RunEvent.objects.count(),
            data={"vessel": str(vessel.pk), "column": "pour_s", "seconds": seconds},
        )
    assert timed_in_runs(made) == {"pour_s": [14.0]}
