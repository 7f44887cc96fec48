"""A developer of two or three parts, or of two baths: each bottle is drawn from, or one question is asked."""

from __future__ import annotations

import datetime as dt

import pytest

from wetside.adapters.evening_file import evening_of_text
from wetside.errors import ManyErrors, WetsideError
from wetside.planning.evening_plan import plan_evening
from wetside.records import models
from wetside.runs.fact import Fact
from wetside.services.library import load_library
from wetside.services.records import plans_frozen, runs, runs_booked
from wetside.services.records.changes import make
from wetside.services.records.evenings_import import take
from wetside.services.records.ledger import NewLine, book, unlike_its_ledger
from wetside.services.records.runs_after import after_run

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2031, 11, 5, 9, 0, tzinfo=dt.UTC)
MIXED = """
format = 1
name = "two parts"
date = 2026-11-21
size = "4x5in"
process = "drum"
films = [{ name = "Tolland 100", times = [
  { developer = "Saltmere", dilution = "1+2+47", time = "8:00", agitation = "rotary", own = true, source = "own" }] }]
processes = [{ name = "drum", developer = "Saltmere", dilution = "1+2+47", baths = [
  { does = "develop", name = "Developer", bottle = "A"SECOND }, { does = "stop", time = "0:30" },
  { does = "fix", time = "5:00", after = "back" } ] }]
bottles = [{ mark = "A", holds = "Saltmere A", volume = "200 ml" },
  { mark = "B", holds = "Saltmere B", volume = "90 ml" }]
vessels = [{ name = "drum", kind = "drum", places = 6, min = "500 ml", max = "1 l" }]
sheets = [{ label = "a" }, { label = "b" }]
"""
TWO_BATHS = """
format = 1
name = "two baths"
date = 2026-11-21
size = "4x5in"
process = "two"
films = [{ name = "Tolland 100", times = [
  { developer = "Saltmere", time = "8:00", agitation = "rotary", way = "two-bath", own = true, source = "own" }] }]
processes = [{ name = "two", developer = "Saltmere", way = "two-bath", baths = [
  { does = "develop", name = "Bath A", bottle = "A", time = "4:00", after = "back" },
  { does = "develop", name = "Bath B"BOTTLE, time = "3:00" },
  { does = "stop", time = "0:30" }, { does = "fix", time = "5:00", after = "back" } ] }]
bottles = [{ mark = "A", holds = "Saltmere A", volume = "1 l" }, { mark = "B", holds = "Saltmere B", volume = "1 l" }]
vessels = [{ name = "drum", kind = "drum", places = 6, min = "500 ml", max = "1 l" }]
sheets = [{ label = "a" }, { label = "b" }]
"""


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    """Nothing is printed here."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


def mixed(second: str = ', second = "B"'):
    return evening_of_text(MIXED.replace("SECOND", second))


def ended(evening):
    run = runs.open_planned(plans_frozen.freeze(take(evening)).pk, 1)
    opened = run.events.get(seq=1)
    when = opened.at_utc + dt.timedelta(seconds=3000.0)
    fact = Fact("done", 1, when, opened.boot_s + 3000.0, opened.boot_id, "a" * 32, 1, {"act": "hang"})
    runs.hand_over(run, [fact])
    return runs.find_run(run.pk)


def left(mark: str) -> float:
    return models.Bottle.kept.get(mark=mark).left_ml


def planned(evening):
    return plan_evening(evening, load_library(), today=dt.date(2026, 11, 21), tool="test", inputs={})


def test_the_plan_draws_each_part_from_its_own_bottle() -> None:
    """500 ml of 1+2+47 are 10 ml of A, 20 ml of B and 470 ml of water; one part is not drawn from the other's."""
    course = planned(mixed()).course
    assert {draw.bottle: draw.volume_ml for draw in course.draws} == {"A": 10.0, "B": 20.0}
    assert not [note for note in course.notes if note.code == "planning.course.second_unknown"]
    alone = planned(mixed("")).course
    assert {draw.bottle: draw.volume_ml for draw in alone.draws} == {"A": 10.0}
    (note,) = (note for note in alone.notes if note.code == "planning.course.second_unknown")
    assert note.params == {"developer": "Saltmere", "part_ml": 20.0}


def test_both_bottles_are_booked_and_undone() -> None:
    """In one act with the rest."""
    run = ended(mixed())
    first, second = (row for row in after_run(run).rows if row.bath == "Developer")
    assert [(row.part, row.bottle.mark, row.drawn_ml) for row in (first, second)] == [(1, "A", 10.0), (2, "B", 20.0)]
    assert second.note == ""
    runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), NOW)
    assert (left("A"), left("B")) == (190.0, 70.0)
    runs_booked.unbook_run(run, NOW)
    assert (left("A"), left("B")) == (200.0, 90.0)
    assert unlike_its_ledger() == []


def of_three(third: str = ', third = "C"'):
    text = MIXED.replace("SECOND", f', second = "B"{third}').replace("1+2+47", "1+2+1+96")
    bottle = '{ mark = "B", holds = "Saltmere B", volume = "90 ml" }'
    assert bottle in text
    return evening_of_text(text.replace(bottle, f'{bottle}, {{ mark = "C", holds = "Saltmere C", volume = "50 ml" }}'))


def test_a_third_part_comes_from_its_own_bottle() -> None:
    """500 ml of 1+2+1+96 are 5 ml of A, 10 ml of B, 5 ml of C and 480 ml of water, in the plan as in the books."""
    course = planned(of_three()).course
    assert {draw.bottle: draw.volume_ml for draw in course.draws} == {"A": 5.0, "B": 10.0, "C": 5.0}
    run = ended(of_three())
    parts = [row for row in after_run(run).rows if row.bath == "Developer"]
    assert [(row.part, row.bottle.mark, row.drawn_ml, row.note) for row in parts[1:]] == [
        (2, "B", 10.0, ""),
        (3, "C", 5.0, ""),
    ]
    runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), NOW)
    assert (left("A"), left("B"), left("C")) == (195.0, 80.0, 45.0)
    runs_booked.unbook_run(run, NOW)
    assert (left("A"), left("B"), left("C")) == (200.0, 90.0, 50.0)


def test_a_third_part_without_its_mark_is_told_and_asked() -> None:
    """The plan says that it is not counted; the booking asks how much, and from which bottle."""
    (note,) = (note for note in planned(of_three("")).course.notes if note.code.endswith("_unknown"))
    assert (note.code, note.params["part_ml"]) == ("planning.course.third_unknown", 5.0)
    third = after_run(ended(of_three(""))).rows[2]
    assert (third.part, third.bottle, third.note) == (3, None, "services.run_after.further_part")
    assert third.told["part_ml"] == 5.0


def test_a_mix_that_stands_ready_is_drawn_from_once() -> None:
    """Both parts were mixed into W before the run: its 500 ml come from there, and no part is drawn again."""
    run = ended(mixed())
    when = run.events.get(seq=1).at_utc - dt.timedelta(minutes=10)
    ready = make(models.Bottle, {"mark": "W", "holds": "Saltmere 1+2+47", "role": "developer", "form": "working"})
    for mark, amount_ml in (("A", 12.0), ("B", 24.0)):
        source = models.Bottle.kept.get(mark=mark)
        book(source.pk, NewLine("drawn", amount_ml, note="mixed", drawn_for=ready.pk), when)
    book(ready.pk, NewLine("filled", 600.0, drawn_for=ready.pk), when)
    rows = [row for row in after_run(run).rows if row.bath == "Developer"]
    assert [(row.bottle.mark, row.drawn_ml) for row in rows] == [("W", 500.0)]
    runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), NOW)
    assert (left("W"), left("A"), left("B")) == (100.0, 188.0, 66.0)


def test_without_its_mark_one_question_is_asked() -> None:
    """How much it was, and from which bottle; nothing is drawn from a bottle that nobody named."""
    run = ended(mixed(""))
    first, second = (row for row in after_run(run).rows if row.bath == "Developer")
    assert (first.drawn_ml, second.bottle, second.drawn_ml) == (10.0, None, 0.0)
    assert (second.note, second.told["part_ml"]) == ("services.run_after.further_part", 20.0)
    runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), NOW)
    assert (left("A"), left("B")) == (190.0, 90.0)


def test_two_baths_are_drawn_from_two_bottles() -> None:
    """A goes back to its bottle with its film, B to waste; each from the bottle that its own bath names."""
    run = ended(evening_of_text(TWO_BATHS.replace("BOTTLE", ', bottle = "B"')))
    rows = {row.bath: row for row in after_run(run).rows}
    assert (rows["Bath A"].bottle.mark, rows["Bath A"].returned_ml) == ("A", rows["Bath A"].volume_ml)
    assert (rows["Bath B"].bottle.mark, rows["Bath B"].drawn_ml) == ("B", rows["Bath B"].volume_ml)
    runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), NOW)
    assert (left("A"), left("B")) == (1000.0, 1000.0 - rows["Bath B"].volume_ml)
    assert models.Bottle.kept.get(mark="A").seen_units == 0.5


def test_a_bath_whose_bottle_is_not_named_asks_for_it() -> None:
    """One question beside its field, and nothing is guessed."""
    run = ended(evening_of_text(TWO_BATHS.replace("BOTTLE", "")))
    rows = {row.bath: row for row in after_run(run).rows}
    assert (rows["Bath B"].bottle, rows["Bath B"].note) == (None, "services.run_after.no_mark")


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('dilution = "1+2+47", baths', 'dilution = "1+24", baths', "files.bath.second_part"),
        ('{ does = "stop", time', '{ does = "stop", second = "B", time', "files.bath.second_part"),
        ('second = "B" }', 'second = "B", third = "A" }', "files.bath.third_part"),
        (', second = "B" }', ', second = "C" }', "files.name.unknown_any"),
    ],
)
def test_a_second_bottle_must_make_sense(old: str, new: str, code: str) -> None:
    """Only where the developer has two parts, and only a bottle that the file knows; the error names the key."""
    text = MIXED.replace("SECOND", ', second = "B"')
    assert old in text
    with pytest.raises(WetsideError) as refused:
        evening_of_text(text.replace(old, new, 1))
    errors = refused.value.errors if isinstance(refused.value, ManyErrors) else (refused.value,)
    assert [one.code for one in errors if "second" in str(one.place) or "third" in str(one.place)] == [code]
