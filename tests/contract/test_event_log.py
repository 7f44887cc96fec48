"""One promise, three forms: the log in memory, on SQLite, on PostgreSQL (tools/postgres.sh runs this again there)."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wetside.errors import ConflictError, InputError, UnknownNameError
from wetside.runs.event_log import EventLog, MemoryLog, Numbered, places_for
from wetside.runs.fact import Fact

NOW = dt.datetime(2026, 11, 25, 20, 0, 0, 123456, tzinfo=dt.UTC)


def fact(number=1, device="phone", kind="poured", **data):
    return Fact(kind, 1, NOW + dt.timedelta(seconds=number), 100.25 + number, "boot-1", device, number, data)


def facts(*numbers, device="phone"):
    return [fact(number, device, n=number) for number in numbers]


@pytest.fixture(params=["memory", "stored"])
def log(request) -> EventLog:
    """A log of either form; the stored one on whichever database the tests run."""
    if request.param == "memory":
        return MemoryLog()
    request.getfixturevalue("db")
    from wetside.records.event_log import StoredLog

    return StoredLog()


@pytest.fixture
def new_run(log):
    """Make a run and give its key."""

    def make_run() -> str:
        if isinstance(log, MemoryLog):
            return str(uuid.uuid4())
        from wetside.records.models import Run
        from wetside.services.records.changes import make

        return str(make(Run, {"name": "load 1"}).pk)

    return make_run


@pytest.fixture
def run(new_run) -> str:
    return new_run()


def test_an_empty_log_has_no_last_fact(log, run) -> None:
    """Nothing was taken: nothing is read."""
    assert (log.last(run), list(log.read(run))) == (0, [])


def test_facts_come_back_as_they_were_given_in_order(log, run) -> None:
    """Places count from 1; every value comes back as it was, times to the microsecond, letters of every script."""
    given_facts = [
        fact(1, text="Entwickler ein “7:30” \U0001f39e", temp_c=20.1, small=1e-7, whole=3, large=2**53, negative=-0.5),
        fact(2, nested={"list": [1, 2.5, None, True, "x"], "empty": {}}),
        fact(3),
    ]
    taken = log.append(run, given_facts, expected=0)
    assert (taken.seqs, taken.new, taken.last) == ((1, 2, 3), 3, 3)
    assert list(log.read(run)) == [Numbered(n, one) for n, one in enumerate(given_facts, 1)]


def test_reading_goes_on_after_a_place(log, run) -> None:
    """Who knows two facts reads from the third on."""
    log.append(run, facts(1, 2, 3, 4), expected=0)
    assert [one.seq for one in log.read(run, after=2)] == [3, 4]
    assert list(log.read(run, after=4)) == []
    assert list(log.read(run, after=99)) == []


def test_a_writer_that_missed_something_is_refused(log, run) -> None:
    """Another device wrote first: nothing is taken, and the place of the last fact is told."""
    log.append(run, facts(1, 2), expected=0)
    with pytest.raises(ConflictError) as refused:
        log.append(run, facts(1, device="tablet"), expected=1)
    assert refused.value.code == "runs.log.moved_on"
    assert refused.value.params == {"expected": 1, "last": 2}
    assert log.last(run) == 2
    assert log.append(run, facts(1, device="tablet"), expected=2).seqs == (3,)


def test_a_writer_ahead_of_the_log_is_refused(log, run) -> None:
    """Facts that are not there cannot be known: a log that lost some is not written on."""
    with pytest.raises(ConflictError):
        log.append(run, facts(1), expected=3)
    with pytest.raises(InputError):
        log.append(run, facts(1), expected=-1)
    assert log.last(run) == 0


def test_handing_over_twice_takes_once(log, run) -> None:
    """The answer was lost and all is sent again: same places, nothing new, whatever the writer expects."""
    log.append(run, facts(1, 2), expected=0)
    again = log.append(run, facts(1, 2), expected=0)
    assert (again.seqs, again.new, again.last) == ((1, 2), 0, 2)


def test_what_is_new_follows_what_is_known(log, run) -> None:
    """An outbox that grew meanwhile: the known ones keep their places, the new ones come after."""
    log.append(run, facts(1, 2), expected=0)
    grown = log.append(run, facts(1, 2, 3, 4), expected=2)
    assert (grown.seqs, grown.new) == ((1, 2, 3, 4), 2)
    with pytest.raises(ConflictError):
        log.append(run, facts(4, 5), expected=2)


def test_the_same_fact_twice_in_one_hand_takes_once(log, run) -> None:
    """A doubled entry of an outbox has one place."""
    assert log.append(run, [*facts(1), *facts(1)], expected=0).seqs == (1, 1)
    assert log.last(run) == 1


def test_a_known_name_with_another_content_is_refused(log, run) -> None:
    """The first word stands; a device that counts anew is told."""
    log.append(run, [fact(1, n=1)], expected=0)
    with pytest.raises(ConflictError) as refused:
        log.append(run, [fact(1, n=2)], expected=1)
    assert refused.value.code == "runs.log.other_fact"
    assert [one.fact.data for one in log.read(run)] == [{"n": 1}]


def test_all_or_nothing(log, run) -> None:
    """One bad fact among good ones: none is taken."""
    log.append(run, [fact(1, n=1)], expected=0)
    with pytest.raises(ConflictError):
        log.append(run, [fact(2), fact(1, n=2), fact(3)], expected=1)
    assert log.last(run) == 1


def test_runs_do_not_know_of_each_other(log, new_run) -> None:
    """A device's number names a fact within its run; places are counted in each run."""
    one, other = new_run(), new_run()
    log.append(one, facts(1, 2), expected=0)
    assert log.append(other, facts(1), expected=0).seqs == (1,)
    assert (log.last(one), log.last(other)) == (2, 1)


def test_many_facts_at_once(log, run) -> None:
    """An evening's outbox after hours without the server."""
    taken = log.append(run, facts(*range(1, 1501)), expected=0)
    assert taken.last == 1500
    assert [one.seq for one in log.read(run)] == list(range(1, 1501))
    assert log.append(run, facts(*range(1, 1502)), expected=1500).new == 1


def test_no_facts_change_nothing(log, run) -> None:
    """An empty hand is taken for what it is."""
    assert log.append(run, [], expected=0) == ((), 0, 0)


def test_whoever_holds_the_data_cannot_change_the_log(log, run) -> None:
    """A fact keeps a copy of its own."""
    data = {"list": [1]}
    one = Fact("poured", 1, NOW, 1.0, "boot", "phone", 1, data)
    log.append(run, [one], expected=0)
    data["list"].append(2)
    assert [stored.fact.data for stored in log.read(run)] == [{"list": [1]}]


def test_the_database_refuses_to_change_or_remove_a_fact(db) -> None:
    """Not even by hand in the table."""
    from django.db import DatabaseError, transaction

    from wetside.records.event_log import StoredLog
    from wetside.records.models import Run, RunEvent
    from wetside.services.records.changes import make

    run = str(make(Run, {"name": "load 1"}).pk)
    StoredLog().append(run, facts(1), expected=0)
    for act in (lambda rows: rows.update(kind="other"), lambda rows: rows.delete()):
        with pytest.raises(DatabaseError), transaction.atomic():
            act(RunEvent.objects.filter(run_id=run))
    assert StoredLog().last(run) == 1


def test_a_run_that_is_not_there_is_refused(db) -> None:
    """No log without its run; a key that is none is no fault."""
    from wetside.records.event_log import StoredLog

    for key in (str(uuid.uuid4()), "not-a-key"):
        with pytest.raises(UnknownNameError):
            StoredLog().append(key, facts(1), expected=0)


BAD = {
    "no kind": {"kind": ""},
    "a kind too long": {"kind": "x" * 61},
    "a device with a zero byte": {"device": "a\0b"},
    "number zero": {"device_number": 0},
    "a number that is a flag": {"device_number": True},
    "no time zone": {"at_utc": dt.datetime(2026, 11, 25, 20)},  # noqa: DTZ001 (that is what is refused)
    "an endless time": {"boot_s": float("inf")},
    "not a number": {"data": {"temp_c": float("nan")}},
    "a number too large": {"data": {"n": 2**53 + 1}},
    "a zero byte": {"data": {"n": "a\0b"}},
    "half a letter": {"data": {"n": "\ud800"}},
    "no table": {"data": [1]},
    "a key that is no text": {"data": {1: 2}},
    "a value that is no JSON": {"data": {"n": {1, 2}}},
}


@pytest.mark.parametrize("what", list(BAD))
def test_a_fact_that_no_form_could_keep_is_refused_at_once(what) -> None:
    """What one database would take and the other not, or change, is no fact."""
    good = {
        "kind": "poured",
        "version": 1,
        "at_utc": NOW,
        "boot_s": 1.0,
        "boot_id": "boot",
        "device": "phone",
        "device_number": 1,
        "data": {},
    }
    with pytest.raises(InputError) as refused:
        Fact(**(good | BAD[what]))
    assert refused.value.code.startswith("runs.fact.")


plain = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53), 2**53)
    | st.text(st.characters(exclude_characters="\0", codec="utf-8"), max_size=8)
    | st.floats(-1e15, 1e15, allow_nan=False),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("abc ä", max_size=4), inner, max_size=3),
    max_leaves=8,
)  # fmt: skip


@settings(max_examples=40)
@given(data=st.dictionaries(st.text("abcü", max_size=4), plain, max_size=4))
def test_any_plain_data_comes_back_equal(data, django_db_blocker, django_db_setup) -> None:
    """What a fact takes, the stored form gives back, whichever database it is."""
    from django.db import transaction

    from wetside.records.event_log import _numbered
    from wetside.records.models import Run, RunEvent

    one = Fact("poured", 1, NOW, 1.5, "boot", "phone", 1, data)
    with django_db_blocker.unblock(), transaction.atomic():
        row = RunEvent(run=Run.objects.create(name="x"), seq=1, kind="poured", version=1, at_utc=NOW, boot_s=1.5)
        row.boot_id, row.device, row.device_number, row.data = "boot", "phone", 1, one.data
        row.save()
        assert _numbered(RunEvent.objects.get(pk=row.pk)).fact == one
        transaction.set_rollback(True)


@given(hands=st.lists(st.tuples(st.sampled_from(["a", "b"]), st.lists(st.integers(1, 6), max_size=4)), max_size=8))
def test_the_rule_leaves_no_gap_and_takes_each_once(hands) -> None:
    """Any hands in any order, each sent twice: places run without a gap, and no name has two."""
    log = MemoryLog()
    for device, numbers in hands * 2:
        log.append("run", facts(*numbers, device=device), expected=log.last("run"))
    read = list(log.read("run"))
    assert [one.seq for one in read] == list(range(1, len(read) + 1))
    assert len({one.fact.name for one in read}) == len(read)


def test_the_rule_alone_decides() -> None:
    """Known and new in one hand, by the pure rule."""
    known = {("phone", 1): Numbered(7, facts(1)[0])}
    seqs, new = places_for(facts(1, 2), known, 9, 9)
    assert seqs == (7, 10)
    assert [one.seq for one in new] == [10]
