"""Two pages at one run: each gets a clear answer, and nothing is booked, numbered, taken or settled twice."""

from __future__ import annotations

import datetime as dt
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from django.db import connection
from tests.records.test_runs_after import at, ended

from wetside.errors import ManyErrors, WetsideError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.fact import Fact
from wetside.services.records import demo, plans_frozen, runs, runs_booked, runs_hung, runs_mishap, runs_settled
from wetside.services.records.bottles import empty
from wetside.services.records.changes import make, remove
from wetside.services.records.ledger import NewLine, book, unlike_its_ledger
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_learned import Taught, adopt
from wetside.services.records.runs_log import conduct_of
from wetside.services.records.runs_sheets import sheets_of_run

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2031, 11, 5, 9, 0, tzinfo=dt.UTC)
B = "b" * 32


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    """Nothing is printed here."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


@pytest.fixture
def run():
    return ended(runs.open_planned(plans_frozen.freeze(demo.make_demo()).pk, 1))


def refused(act) -> list[tuple[str, str | None]]:
    with pytest.raises(WetsideError) as found:
        act()
    errors = found.value.errors if isinstance(found.value, ManyErrors) else (found.value,)
    return [(one.code.rpartition(".")[2], one.place.field if one.place else None) for one in errors]


def test_bottles_that_left_the_shelf_meanwhile_are_named_beside_their_fields(run) -> None:
    """One removed, one emptied, a waste vessel emptied: all told at once, and nothing is written."""
    vessel = make(models.Bottle, {"mark": "WD", "holds": "waste", "role": "waste-developer"})
    book(vessel.pk, NewLine("filled", 10.0), NOW)
    shown = runs_booked.booking_of(after_run(run))
    (developer, _), (stop, _), _ = shown.baths
    remove(models.Bottle.kept.get(mark="D"), NOW)
    empty(models.Bottle.kept.get(mark="S").pk, NOW)
    empty(vessel.pk, NOW)
    count = models.BottleLine.objects.count()
    assert refused(lambda: runs_booked.book_run(run, shown, NOW)) == [
        ("bottle_removed", f"{developer}.bottle"),
        ("bottle_emptied", f"{developer}.waste"),
        ("bottle_emptied", f"{stop}.bottle"),
    ]
    gone = replace(dict(shown.baths)[developer], bottle="00000000-0000-0000-0000-000000000001", waste=None)
    wanted = runs_booked.Booking(((developer, gone),), 0.0)
    assert refused(lambda: runs_booked.book_run(run, wanted, NOW)) == [("not_found", f"{developer}.bottle")]
    assert models.BottleLine.objects.count() == count


def test_a_run_that_was_taken_back_meanwhile_is_not_booked(run) -> None:
    """Hung was told by mistake: the run is on again. A page that shows baths which are no more books nothing either."""
    shown = runs_booked.booking_of(after_run(run))
    strange = shown._replace(baths=(*shown.baths, ("b99", runs_booked.BathBooked())))
    assert refused(lambda: runs_booked.book_run(run, strange, NOW)) == [("not_as_shown", None)]
    runs.command(run, c.TakeBack(), at(run, 3050.0))
    assert refused(lambda: runs_booked.book_run(run, shown, NOW)) == [("on", None)]
    assert not models.BottleLine.objects.filter(note=run.name).exists()


def test_what_stands_beside_the_booking_does_not_undo_it(run) -> None:
    """A page that was loaded before the booking says that the vessel is dry: the run stays booked."""
    stale = models.Run.objects.get(pk=run.pk)
    runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), NOW)
    runs_booked.mark_dry(stale, at(run, 4000.0))
    found = runs.find_run(run.pk)
    assert runs_booked.booked_of(found) is not None
    assert found.facts["dried_s"] > 0
    runs_booked.unbook_run(stale, NOW)
    assert refused(lambda: runs_booked.unbook_run(stale, NOW)) == [("not_booked", None)]
    assert unlike_its_ledger() == []


def test_a_sheet_that_was_removed_meanwhile_gets_no_number(run) -> None:
    """It hangs where it hangs; its number is refused beside its clip, and without one the others get theirs."""
    names = list(sheets_of_run(run))
    numbers = [f"N {clip}" for clip in range(1, len(names) + 1)]
    remove(sheets_of_run(run)[names[1]], NOW)
    asked = [("sheet_removed", "number.2")]
    assert refused(lambda: runs_hung.hang(run, names, numbers, at(run, 3100.0))) == asked
    assert runs.standing(run).state.identified is False
    runs_hung.hang(run, names, ["N 1", "", *numbers[2:]], at(run, 3100.0))
    assert sheets_of_run(run)[names[0]].negative == "N 1"
    assert sheets_of_run(run)[names[1]].negative == ""


def test_a_learned_value_is_taken_once_and_only_as_it_was_seen() -> None:
    """Twice, after the vessel was removed, and where another run has changed the offer."""
    values = {"name": "long drum", "kind": "drum", "min_ml": 300.0, "max_ml": 1000.0, "facts": {"places": {"any": 4}}}
    vessel = make(models.Vessel, values)
    taught = Taught("drain_s", 15.0, None, 22.0)
    asked = [("offer_changed", None)]
    assert refused(lambda: adopt(vessel, taught, vessel.revision, seen="25")) == asked
    adopt(vessel, taught, vessel.revision, seen="22")
    assert refused(lambda: adopt(vessel, taught, vessel.revision, seen="22")) == [("changed_meanwhile", None)]
    assert vessel.history.filter(history_change_reason="learned in runs").count() == 1


def contested(run) -> tuple[str, int]:
    """A second device told the stop for another moment."""
    when = at(run, 960.0)
    fact = Fact("done", 1, when.at_utc, when.boot_s, when.boot_id, B, 1, {"act": "3.full"})
    runs.hand_over(run, [fact])
    (one,) = runs_settled.questions_said(run)
    return one.device, one.number


def test_a_question_is_settled_once(run) -> None:
    """The second page is told so, whichever way it answers; one of the two facts counts."""
    device, number = contested(run)
    runs_settled.settle(run, device, number, at(run, 3100.0), counts=True)
    for counts in (True, False):
        asked = [("settled_already", None)]
        assert refused(lambda c=counts: runs_settled.settle(run, device, number, at(run, 3101.0), counts=c)) == asked
    assert "3.full" in runs.standing(run).state.stamps
    assert len(runs_settled.left_out_said(run)) == 1


def test_a_page_that_lost_the_race_is_asked_anew(run, monkeypatch) -> None:
    """Both read the question as open; the other writes first; this one then finds it settled, and writes nothing."""
    device, number = contested(run)
    before = runs_settled.open_questions
    ran = []

    def open_questions(facts, state):
        found = before(facts, state)
        if not ran:
            ran.append(True)
            runs_settled.settle(run, device, number, at(run, 3100.0), counts=False)
        return found

    monkeypatch.setattr(runs_settled, "open_questions", open_questions)
    asked = [("settled_already", None)]
    assert refused(lambda: runs_settled.settle(run, device, number, at(run, 3101.0), counts=True)) == asked
    assert len(conduct_of(run).state().taken_back) == 1
    assert "3.full" in runs.standing(run).state.stamps


def test_what_was_told_by_mistake_is_taken_back_once(run) -> None:
    """A sheet told lost from two pages is lost once, and found once."""
    name = next(iter(sheets_of_run(run)))
    given = {"what": "lost", "ago_s": "", "text": ""}
    runs_mishap.tell_mishap(run, given, [name], at(run, 3100.0))
    assert refused(lambda: runs_mishap.tell_mishap(run, given, [name], at(run, 3101.0))) == [("not_left", "sheets")]
    (told,) = runs_mishap.mishaps_of(run).told
    runs_mishap.take_mishap_back(run, told.device, told.number, at(run, 3102.0))
    again = [("nothing_told_so", None)]
    assert refused(lambda: runs_mishap.take_mishap_back(run, told.device, told.number, at(run, 3103.0))) == again
    assert run.events.filter(kind__in=("lost", "taken-back")).count() == 2


PAGES = Path(__file__).resolve().parents[1] / "fixtures/run_pages.py"


def test_two_programs_on_one_file_book_settle_and_undo_once(tmp_path) -> None:
    """SQLite, where each transaction begins as the only writer: of each act one does it, and the other is told so."""
    environment = {**os.environ, "WETSIDE_DATA": str(tmp_path / "darkroom")}
    environment.pop("WETSIDE_DATABASE", None)

    def started(*words: str) -> subprocess.Popen[str]:
        return subprocess.Popen(
            [sys.executable, str(PAGES), *words],
            env=environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )

    made = started("make")
    out, wrong = made.communicate(timeout=60)
    assert made.returncode == 0, wrong
    pages = [started(*out.split(), name) for name in "ab"]
    said = [page.communicate(timeout=60) for page in pages]
    told = [sorted(both) for both in zip(*(line.strip().split(",") for line, _ in said), strict=True)]
    assert told == [["booked", "was booked"], ["settled", "settled_already"], ["not_booked", "undone"]], said


def together(act, count: int = 4) -> list[str]:
    """What each of several pages is told that do the same at once: nothing, or the code of the refusal."""

    def page(number: int) -> str:
        try:
            act(number)
        except WetsideError as error:
            return error.code.rpartition(".")[2]
        finally:
            connection.close()
        return ""

    with ThreadPoolExecutor(count) as pages:
        return sorted(pages.map(page, range(count)))


def skip_in_memory() -> None:
    if connection.vendor == "sqlite":
        pytest.skip("tests run on SQLite in memory, which has one writer")


@pytest.mark.django_db(transaction=True)
def test_pages_in_threads_settle_undo_and_number_once() -> None:
    """Four pages at once, on a server that locks single rows: one does it, three are told why not."""
    skip_in_memory()
    plan = plans_frozen.freeze(demo.make_demo())
    run = ended(runs.open_planned(plan.pk, 1))
    device, number = contested(run)

    def settle(page: int) -> None:
        runs_settled.settle(run, device, number, at(run, 3100.0 + page), counts=page % 2 == 0)

    assert together(settle) == ["", "settled_already", "settled_already", "settled_already"]
    assert len(conduct_of(run).state().taken_back) == 1
    runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), NOW)
    undone = together(lambda _: runs_booked.unbook_run(run, NOW))
    assert undone == ["", "not_booked", "not_booked", "not_booked"]
    assert unlike_its_ledger() == []
    others = [run, ended(runs.open_planned(plan.pk, 2))]
    sheets = [list(sheets_of_run(one)) for one in others]

    def hang(page: int) -> None:
        names = sheets[page]
        runs_hung.hang(
            others[page], names, [f"N {clip}" for clip in range(1, len(names) + 1)], at(others[page], 3200.0)
        )

    assert together(hang, 2) == ["", "number_taken"]
    given = [one.negative for one in models.Sheet.kept.exclude(negative="")]
    assert len(given) == len(set(given)) > 0
