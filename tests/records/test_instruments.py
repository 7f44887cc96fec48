"""Instruments: offsets, checks that propose one, and the thermometer of plans."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.records.models import Instrument
from wetside.services.records.changes import find
from wetside.services.records.instruments import (
    change_instrument,
    check_instrument,
    checked,
    instruments,
    make_instrument,
    put_back,
    raw_of_instrument,
    take_proposed,
    thermometer_of_plans,
)

pytestmark = pytest.mark.django_db
TODAY = dt.date(2026, 11, 25)
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)
YEAR = dt.timedelta(days=366)


def put(name: str = "long glass one", kind: str = "thermometer", units: str = "metric", **raw: Any) -> Instrument:
    return make_instrument({"name": name, "kind": kind, **raw}, units)


def check(one: Instrument, reference: str, read: str, at: dt.datetime = NOW, units: str = "metric") -> None:
    check_instrument(one, {"against": "ice water", "reference": reference, "read": read}, at, units)


def test_the_newest_check_proposes_and_one_tap_takes() -> None:
    """The offset in use stays until somebody takes the new one; then the old can be put back."""
    one = put(reads_high="0.1 C")
    check(one, "0", "0,6", NOW - YEAR)
    check(one, "0 C", "0.4 C")
    found = checked(one, TODAY)
    assert (found.proposed, found.differs, found.old, found.days) == (0.4, True, False, 0)
    assert find(Instrument, one.pk).reads_high == 0.1
    taken = take_proposed(one, TODAY)
    assert (taken.reads_high, taken.checked) == (0.4, TODAY)
    assert not checked(taken, TODAY).differs
    assert put_back(taken, "0.1").reads_high == 0.1


def test_an_old_check_is_told_and_so_is_none() -> None:
    """A thermometer wants a check a year."""
    one = put()
    assert checked(one, TODAY).old
    check(one, "0", "0", NOW - YEAR)
    assert (checked(one, TODAY).old, checked(one, TODAY).days) == (True, 366)
    with pytest.raises(RefusedError):
        take_proposed(put("never checked"), TODAY)


@pytest.mark.parametrize(
    ("kind", "units", "reference", "read", "offset"),
    [
        ("thermometer", "us", "68", "69", 5 / 9),
        ("thermometer", "metric", "68 F", "20.5 C", 0.5),
        ("measure", "metric", "250", "252,5", 2.5),
        ("densitometer", "metric", "1,05", "1.02", -0.03),
        ("meter", "us", "12", "12.33", 0.33),
    ],
)
def test_readings_are_taken_in_both_units_with_both_signs(
    kind: str, units: str, reference: str, read: str, offset: float
) -> None:
    """A bare number has the darkroom's unit; a unit that is written counts."""
    one = put(kind=kind)
    check(one, reference, read, units=units)
    assert checked(one, TODAY).proposed == pytest.approx(offset, abs=6e-4)


def test_an_offset_of_a_measure_may_be_short() -> None:
    """A volume is not negative, its error may be; it comes back into the form as it was."""
    one = put(kind="measure", reads_high="-2.5 ml")
    assert one.reads_high == -2.5
    even = put("even", kind="measure")
    for each in (one, even):
        assert change_instrument(each, raw_of_instrument(each), 1).revision == 1


def test_a_slip_of_the_pen_is_refused_at_its_field() -> None:
    """A thermometer is not 40 degrees off, a kind with checks not changed, nonsense not read."""
    one = put()
    for reference, read in (("20 C", "60 C"), ("20 C", "warm")):
        with pytest.raises(InputError) as refused:
            check(one, reference, read)
        assert refused.value.place is not None
        assert refused.value.place.field == "read"
    with pytest.raises(OutOfRangeError):
        put("other", reads_high="30 C")
    check(one, "0", "0")
    with pytest.raises(RefusedError):
        change_instrument(one, {"name": "long glass one", "kind": "measure"}, None)


def test_plans_use_the_thermometer_that_was_checked_last() -> None:
    """Its offset goes into the evening as the evening file has it; a named one outranks it."""
    from wetside.adapters.binder import Binder
    from wetside.adapters.findings import Findings
    from wetside.planning.documents.evening import Thermometer

    assert thermometer_of_plans() is None
    put("a first", reads_high="1 C")
    assert thermometer_of_plans() == {"name": "a first", "reads_high": "1 C"}
    one = put("long glass one")
    check(one, "0", "0.4")
    take_proposed(one, TODAY)
    raw = thermometer_of_plans()
    assert raw is not None
    found = Binder(Findings()).table(Thermometer, raw, ())
    assert (found.name, found.reads_high_c) == ("long glass one", 0.4)
    assert thermometer_of_plans("A First") == {"name": "a first", "reads_high": "1 C"}


def test_many_instruments_ask_as_few_queries(django_assert_max_num_queries: Any) -> None:
    """Instruments and all their checks come in two."""
    for number in range(12):
        one = put(f"thermometer {number}")
        check(one, "0", "0.1")
    with django_assert_max_num_queries(2):
        assert len(instruments(TODAY)) == 12
