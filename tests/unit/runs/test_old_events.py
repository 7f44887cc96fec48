"""Facts of older versions are read anew in each later form; those of newer ones are kept and do not count."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.fixtures.run_sample import FIRST, planned, quick

from wetside.runs.events import (
    VERSIONS,
    Device,
    Done,
    Identified,
    Incident,
    Noted,
    Opened,
    Read,
    Unreadable,
    Where,
    event_of_fact,
    facts_of_events,
)
from wetside.runs.fact import Fact
from wetside.runs.fold import fold
from wetside.runs.upcast import LIFTS

STORED = Path(__file__).resolve().parents[2] / "fixtures/run_events"


def stored(name: str, **changed: object) -> Fact:
    values = json.loads((STORED / f"{name}.json").read_text("utf-8")) | changed
    return Fact(**{**values, "at_utc": dt.datetime.fromisoformat(values["at_utc"])})


def test_every_old_version_has_its_lift_and_a_stored_event() -> None:
    """No version may be written that later programs cannot read."""
    old = {(kind, version) for kind, now in VERSIONS.items() for version in range(1, now)}
    assert set(LIFTS) == old
    assert {path.stem for path in STORED.glob("*.json")} == {f"{kind}-{version}" for kind, version in old}


def test_an_opening_of_version_1_is_no_rehearsal() -> None:
    """The first form knew no rehearsal and no retired pauses."""
    assert event_of_fact(stored("opened-1")) == Opened(quick(), rehearsal=False, retired=())


def test_a_reading_of_version_1_was_of_the_developer() -> None:
    """The first form kept the true temperature alone."""
    assert event_of_fact(stored("read-1")) == Read(19.6, Where.DEVELOPER, 0.0, "")
    state = fold([stored("opened-1"), stored("read-1")])
    assert [(one.at_s, one.temp_c) for one in state.readings] == [(200.0, 19.6)]


def test_what_went_wrong_in_version_1_was_of_no_sheet_by_name() -> None:
    """So that it still touches those that it could harm by when it was."""
    assert event_of_fact(stored("noted-1")) == Noted(Incident.LIGHT, 60.0, "the door", ())
    state = fold([stored("opened-1"), stored("noted-1")])
    assert [(one.what, one.began_s, one.sheets) for one in state.incidents] == [(Incident.LIGHT, 240.0, ())]


def test_of_orders_told_in_version_1_the_last_counts() -> None:
    """The first form did not say what its teller had seen: nobody is asked about a correction of long ago."""
    assert event_of_fact(stored("identified-1")) == Identified(("1 left", "1 right"), None)
    opening = facts_of_events([Opened(planned()), Done("2.full")], FIRST.at(0.0), Device("terminal", 1))
    told = {"at_utc": FIRST.at(3500.0).at_utc.isoformat(), "boot_s": 4500.0, "device_number": 5}
    first = stored("identified-1", data={"order": ["1 left"]})
    last = stored("identified-1", data={"order": None}, **told)
    for facts in ([*opening, first, last], [*opening, last, first]):
        state = fold(facts)
        assert (state.identified, state.order, state.contested) == (True, None, ())
    assert fold([*opening, first]).order == ("1 left",)


@pytest.mark.parametrize(
    ("changed", "code"),
    [
        ({"kind": "danced"}, "runs.event.kind"),
        ({"version": 99}, "runs.event.version"),
        ({"version": 2}, "runs.event.data"),
        ({"data": {"temp_c": 19.6, "where": "moon"}, "version": 2}, "runs.event.data"),
        ({"data": {"shown_c": "warm", "where": "developer"}, "version": 2}, "runs.event.data"),
        ({"data": {}}, "runs.event.data"),
    ],
)
def test_what_cannot_be_read_is_kept_as_contested(changed, code: str) -> None:
    """A newer program's fact, or a damaged one, is named and changes nothing."""
    fact = stored("read-1", **changed)
    assert isinstance(event_of_fact(fact), Unreadable)
    state = fold([stored("opened-1"), fact])
    assert [one.code for one in state.contested] == [code]
    assert state.readings == ()
