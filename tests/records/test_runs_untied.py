"""What a log brought is taken back: untied from what it was tied to, removed, and both undone."""

from __future__ import annotations

import datetime as dt
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

import pytest
from django.db import connection
from django.utils import timezone
from tests.fixtures.run_logs import EVENING, facts_of, log_of, quick
from tests.fixtures.run_records import moment_of_run

from wetside.errors import WetsideError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.script import RunSheet
from wetside.services.records import demo, plans_frozen
from wetside.services.records.changes import change, history_of, written_by
from wetside.services.records.holders import make_holders
from wetside.services.records.removed import bring_back_removed, removed_page
from wetside.services.records.runs import command, find_run, open_planned, script_of_planned
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_booked import book_run, booking_of, unbook_run
from wetside.services.records.runs_compared import comparable_runs, compare_runs
from wetside.services.records.runs_hung import hang, hanging_of
from wetside.services.records.runs_learned import timed_in_runs
from wetside.services.records.runs_listed import count_runs, list_runs
from wetside.services.records.runs_log import FOLDS
from wetside.services.records.runs_removed import bring_run_back, remove_taken, why_not_removed
from wetside.services.records.runs_taken import look_at_log, take_log
from wetside.services.records.runs_tied import Ties
from wetside.services.records.runs_untied import is_tied, tie_again, untie, untying_of, was_tied_to
from wetside.services.records.sheets import add_sheet, end_sheet, remove_sheet, wait_again
from wetside.services.records.sheets_runs import runs_of_sheet

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _nothing_folded():
    """The same log is the same run in each test, with other facts."""
    FOLDS.forget()


@pytest.fixture
def plan(tmp_path, settings):
    settings.DATA_FOLDER = tmp_path
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def pair():
    """Two waiting sheets, one of them in its holder."""
    make_holders("7", size="4x5")
    return [
        add_sheet({"film": "Tolland 100", **one}, make_film=True) for one in ({"holder": "7 left"}, {"label": "larch"})
    ]


def data_of(*names: str, boot_id: str = "a", vessel: str = "") -> bytes:
    """Log of a run of these sheets."""
    sheets = tuple(RunSheet(name, "Tolland 100", 90.0) for name in names)
    return log_of(facts_of(quick()._replace(sheets=sheets, vessel=vessel or quick().vessel), boot_id=boot_id))


def tied(*sheets: models.Sheet, boot_id: str = "a") -> models.Run:
    """Run of a log that is tied to records."""
    names = [str(one) for one in sheets]
    ties = Ties(sheets={name: str(one.pk) for name, one in zip(names, sheets, strict=True)})
    return take_log(data_of(*names, boot_id=boot_id), "a.log", ties).run


def load_taken(plan: models.Plan, load: int = 1, boot_id: str = "a") -> tuple[models.Run, bytes]:
    """Log that was taken in as a load."""
    data = log_of(facts_of(script_of_planned(plan, load), boot_id=boot_id))
    (ready,) = look_at_log(data, "load.log").fits.loads
    return take_log(data, "load.log", Ties(load=str(ready.pk))).run, data


def states(sheets: list[models.Sheet]) -> list[str]:
    return [str(models.Sheet.objects.get(pk=one.pk).state) for one in sheets]


def refused(what, *args, **more) -> str:
    with pytest.raises(WetsideError) as caught:
        what(*args, **more)
    return caught.value.code.rpartition(".")[2]


def test_sheets_are_what_they_were_before_and_all_of_it_comes_back(pair) -> None:
    """State, holder side and number go back with the tie; tied again they stand as they stood."""
    run = tied(*pair)
    hang(run, ("larch", "7 left"), ("B 019", "B 020"), moment_of_run(run, 3000.0))
    shown = untying_of(run)
    assert [(one.name, one.state, one.number, one.side is not None) for one in shown.sheets] == [
        ("7 left", "waiting", "B 020", True),
        ("larch", "waiting", "B 019", False),
    ]
    assert states(pair) == ["developed", "developed"]  # nothing was written by looking
    with written_by("Ann"):
        untied = untie(run, find_run(run.pk).revision).run
    left = models.Sheet.objects.get(pk=pair[0].pk)
    assert (left.state, left.negative, left.developed_at) == ("waiting", "", None)
    assert (left.side.side, left.side.state) == ("left", "exposed")
    assert runs_of_sheet(left) == ()
    assert (is_tied(untied), was_tied_to(untied)) == (False, ("7 left", "larch"))
    assert (history_of(untied)[0].by, history_of(untied)[0].why) == ("Ann", "sheets not its own")
    assert hanging_of(untied).order == ("larch", "7 left")  # what was told of the run stays with it
    assert refused(untie, untied) == "none_tied"
    again = tie_again(untied)
    assert states(pair) == ["developed", "developed"]
    assert {str(one): one.negative for one in models.Sheet.kept.all()} == {"7 left": "B 020", "larch": "B 019"}
    assert models.Sheet.objects.get(pk=pair[0].pk).developed_at.date() == EVENING.date()
    assert models.HolderSide.objects.get(side="left").state == "unloaded"
    assert refused(tie_again, again) == "none_untied"


def test_what_a_person_or_another_run_has_ended_stays(pair) -> None:
    """Of such a sheet only the number goes that this run's hanging gave."""
    left, larch = pair
    end_sheet(left, "developed", at=timezone.now(), negative="A 7")
    run = tied(left, larch)
    second = tied(larch, boot_id="b")
    change(second, {"name": "another"})
    hang(run, ("7 left", "larch"), ("A 8", "A 9"), moment_of_run(run, 3000.0))
    found = untie(run)
    assert [(one.state, one.number, one.before, one.shared) for one in found.sheets] == [
        (None, "A 8", "A 7", False),
        (None, "A 9", "", True),
    ]
    assert {str(one): (one.state, one.negative) for one in models.Sheet.kept.all()} == {
        "7 left": ("developed", "A 7"),
        "larch": ("developed", ""),
    }
    assert tie_again(run).facts["sheets"]  # shared already when it was untied: no news
    untie(run)
    assert untie(second).sheets[0].state == "waiting"  # the last one that holds it


def test_tying_again_is_refused_where_the_archive_has_gone_on(pair) -> None:
    """A sheet that another run has by now, one that was removed, a number that names another: nothing is written."""
    left, larch = pair
    run = tied(left, larch)
    hang(run, ("7 left", "larch"), ("1", "2"), moment_of_run(run, 3000.0))
    revision = find_run(run.pk).revision
    untie(run, revision)
    assert refused(tie_again, run, revision) == "changed_meanwhile"  # another tab
    other = tied(larch, boot_id="b")
    assert refused(tie_again, run) == "sheet_elsewhere"
    untie(other)
    remove_sheet(models.Sheet.objects.get(pk=larch.pk), timezone.now())
    assert refused(tie_again, run) == "sheet_gone"
    change(models.Sheet.objects.get(pk=larch.pk), {"removed_at": None})
    third = add_sheet({"film": "Tolland 100", "label": "birch"})
    end_sheet(third, "developed", at=timezone.now(), negative="2")
    assert refused(tie_again, run) == "number_elsewhere"
    assert states(pair) == ["waiting", "waiting"]
    change(models.Sheet.objects.get(pk=third.pk), {"negative": "3"})
    tie_again(run)
    assert states(pair) == ["developed", "developed"]


def test_a_sheet_that_waits_again_by_its_own_page_stays_so(pair) -> None:
    """Untying asks what is now, not what was when it was tied; a removed record is put back too."""
    left, larch = pair
    run = tied(left, larch)
    wait_again(models.Sheet.objects.get(pk=left.pk))
    remove_sheet(models.Sheet.objects.get(pk=larch.pk), timezone.now())
    assert [one.state for one in untie(run).sheets] == [None, "waiting"]
    assert states(pair) == ["waiting", "waiting"]


def test_what_was_ended_by_hand_survives_a_log_that_goes_on(pair) -> None:
    """An unfinished log is tied to a negative: neither the tie nor an answer that is taken back makes it wait."""
    end_sheet(pair[0], "developed", at=timezone.now())
    sheets = tuple(RunSheet(str(one), "Tolland 100", 90.0) for one in pair)
    facts = facts_of(quick()._replace(sheets=sheets))
    ties = Ties(sheets={str(one): str(one.pk) for one in pair})
    run = take_log(log_of(facts[:6]), "a.log", ties).run
    assert (run.state, states(pair)) == ("running", ["developed", "waiting"])
    assert untying_of(run).sheets[0].stays
    take_log(log_of(facts), "a.log")
    assert states(pair) == ["developed", "developed"]
    command(find_run(run.pk), c.TakeBack(), moment_of_run(find_run(run.pk), 2000.0))
    assert find_run(run.pk).state == "running"
    assert states(pair) == ["developed", "waiting"]
    untie(run)
    tie_again(run)
    assert states(pair) == ["developed", "waiting"]


def test_two_runs_of_one_name_keep_a_number_that_either_may_have_given(pair) -> None:
    """Nobody knows by the name alone whose it was."""
    _, larch = pair
    first, second = tied(larch), tied(larch, boot_id="b")
    assert first.name == second.name
    hang(first, ("larch",), ("7",), moment_of_run(first, 3000.0))
    assert untie(second).sheets[0].stays
    assert models.Sheet.objects.get(pk=larch.pk).negative == "7"
    assert untie(first).sheets[0].number == "7"


def test_a_label_that_was_used_again_keeps_the_tie(pair) -> None:
    """Two waiting sheets of one label cannot be: all or nothing, and the sheet is named."""
    run = tied(*pair)
    add_sheet({"film": "Tolland 100", "label": "larch"})
    with pytest.raises(WetsideError):
        untie(run)
    assert states(pair) == ["developed", "developed"]
    assert is_tied(find_run(run.pk))


def test_a_load_is_ready_again_and_the_run_one_of_its_own(plan) -> None:
    """The facts stay with the run; the load can be started, or taken from another log; tied again it is the load."""
    run, data = load_taken(plan)
    events = run.events.count()
    sheets = [place.sheet for place in plan.places.filter(load=1).select_related("sheet")]
    hanging = hanging_of(run)
    names = [one.name for one in hanging.sheets]
    hang(run, names, [f"N {rank}" for rank in range(len(names))], moment_of_run(run, 5000.0))
    shown = untying_of(run)
    assert (shown.load, {one.state for one in shown.sheets}) == (run.name, {"planned"})
    free = untie(run).run
    assert (free.pk, free.plan, free.load, free.demo, free.state) == (run.pk, None, 1, False, "ended")
    assert free.name != run.name
    assert free.events.count() == events + 1  # the order at hanging
    assert set(states(sheets)) == {"planned"}
    assert not models.Sheet.objects.filter(pk__in=[one.pk for one in sheets]).exclude(negative="").exists()
    ready = plan.runs.get(removed_at=None, load=1, rehearsal=False)
    assert (ready.state, ready.name, ready.demo, ready.events.exists()) == ("ready", run.name, True, False)
    assert look_at_log(data, "load.log").fits.loads == (ready,)
    again = tie_again(free)
    assert (again.plan_id, again.load, again.name) == (plan.pk, 1, run.name)
    assert set(states(sheets)) == {"developed"}
    assert [one.pk for one in plan.runs.filter(removed_at=None, load=1)] == [run.pk]
    assert min(models.Sheet.objects.get(pk=one.pk).negative for one in sheets) == "N 0"
    untie(again)
    assert plan.runs.get(removed_at=None, load=1).pk == ready.pk  # no second one is made
    assert plans_frozen.unfreeze(models.Plan.objects.get(pk=plan.pk)).frozen_at is None
    assert refused(tie_again, again) == "load_moved_on"
    plans_frozen.freeze_again(models.Plan.objects.get(pk=plan.pk))
    assert tie_again(again).plan_id == plan.pk


def test_a_load_that_was_begun_since_is_not_tied_again(plan) -> None:
    """Its own run stands."""
    run, data = load_taken(plan)
    untie(run)
    opened = open_planned(plan.pk, 1)
    assert opened.pk != run.pk
    assert refused(tie_again, run) == "load_moved_on"
    assert not look_at_log(data, "load.log").fits.loads


def test_a_log_that_is_a_run_of_its_own_is_tied_to_its_load_later(plan) -> None:
    """Taken in without a word first; then the same log with the load."""
    data = log_of(facts_of(script_of_planned(plan, 1)))
    run = take_log(data, "load.log").run
    (ready,) = look_at_log(data, "load.log").fits.loads
    taken = take_log(data, "load.log", Ties(load=str(ready.pk)))
    assert (taken.run.pk, taken.run.plan_id, taken.made, taken.new) == (run.pk, plan.pk, False, 0)
    assert taken.tied == plan.places.filter(load=1).count()
    assert {place.sheet.state for place in plan.places.filter(load=1).select_related("sheet")} == {"developed"}
    assert models.Run.objects.get(pk=ready.pk).removed_at is not None


def test_a_hanging_page_that_was_open_meanwhile_numbers_nothing(plan, pair) -> None:
    """It was shown before the untying: the order is kept with the run, and no sheet gets a number by it."""
    load, _ = load_taken(plan)
    for stale in (tied(*pair, boot_id="b"), models.Run.objects.select_related("plan").get(pk=load.pk)):
        names = [one.name for one in hanging_of(stale).sheets]
        untie(stale)
        hang(stale, names, [f"H {rank}" for rank in range(len(names))], moment_of_run(stale, 5000.0))
        assert hanging_of(find_run(stale.pk)).order == tuple(names)
    assert not models.Sheet.objects.filter(negative__startswith="H").exists()


def test_a_booked_load_is_unbooked_first(plan) -> None:
    """Bottles and top-up came from the load; the books of single sheets' run stay."""
    run, _ = load_taken(plan)
    book_run(run, booking_of(after_run(find_run(run.pk))), timezone.now())
    assert refused(untie, run) == "untie_booked"
    assert untying_of(find_run(run.pk)).blocked is not None
    unbook_run(run, timezone.now())
    assert untie(run).load
    change(plan, {"facts": lambda facts: {**facts, "replanned_to": "0" * 32}})
    tie_again(run)
    assert refused(untie, run) == "untie_replanned"


def test_a_removed_run_counts_nowhere_and_comes_back(plan) -> None:
    """Lists, comparison, learned values, the bin, the address; the same log brings it back, nothing is doubled."""
    data, other = data_of("x", vessel="long drum"), data_of("y", boot_id="b")
    run, second = take_log(data, "a.log").run, take_log(other, "b.log").run
    assert compare_runs(str(run.pk), str(second.pk)).one.pk == run.pk
    assert timed_in_runs(["long drum"]).values["pour_s"]
    ended = count_runs().ended
    with written_by("Ann"):
        remove_taken(run, run.revision)
    assert refused(remove_taken, run) == "removed_already"
    assert count_runs().ended == ended - 1
    assert run not in list_runs()[0]
    assert run not in comparable_runs()
    assert refused(compare_runs, str(run.pk), str(second.pk)) == "gone"
    assert refused(find_run, run.pk) == "gone"
    assert not timed_in_runs(["long drum"]).values
    assert refused(book_run, run, booking_of(after_run(second)), timezone.now()) == "gone"
    assert [(one.kind, one.key, one.label) for one in removed_page().records] == [("run", run.pk, run.name)]
    looked = look_at_log(data, "copy.log")
    assert (looked.run.pk, looked.new, looked.changes_nothing) == (run.pk, 0, False)
    taken = take_log(data, "copy.log")
    assert (taken.run.pk, taken.back, taken.new, taken.made) == (run.pk, True, 0, False)
    assert models.Run.objects.filter(plan=None).count() == 2
    assert timed_in_runs(["long drum"]).values["pour_s"]
    remove_taken(run)
    assert bring_back_removed("run", run.pk).label == run.name
    assert bring_run_back(run).removed_at is None  # back already
    assert find_run(run.pk).state == "ended"


def test_a_longer_log_brings_its_removed_run_back_with_what_is_new() -> None:
    """And may tie it at once."""
    facts = facts_of()
    run = take_log(log_of(facts[:5]), "a.log").run
    remove_taken(run)
    taken = take_log(log_of(facts), "a.log")
    assert (taken.run.pk, taken.back, taken.new, taken.run.state) == (run.pk, True, len(facts) - 5, "ended")


def test_what_keeps_a_run_from_being_removed_is_told(plan, pair) -> None:
    """Tied, booked, a load's, and a run that was told here: each with what to do first."""
    run = tied(*pair)
    assert refused(remove_taken, run) == "remove_tied"
    untie(run)
    run = find_run(run.pk)
    booked = book_run(run, booking_of(after_run(run)), timezone.now())
    assert booked.water_ml >= 0.0
    assert refused(remove_taken, run) == "remove_booked"
    unbook_run(run, timezone.now())
    assert why_not_removed(find_run(run.pk)) is None
    load, _ = load_taken(plan)
    assert refused(remove_taken, load) == "remove_load"
    assert refused(remove_taken, open_planned(plan.pk, 2)) == "no_log"


def test_a_run_of_a_removed_plan_is_not_brought_back_by_itself(plan) -> None:
    """It stands in no bin, and its address says what it always said."""
    run = plan.runs.get(load=2)
    change(run, {"removed_at": timezone.now()})
    assert removed_page().total == 0
    assert refused(find_run, run.pk) == "not_found"
    assert refused(bring_back_removed, "run", run.pk) == "not_found"


def test_the_terminal_unties_and_removes_what_it_took(begun, tmp_path: Path) -> None:
    """Shown first; --yes does it; the same log brings it back; each refusal is a sentence."""
    log = tmp_path / "a.log"
    log.write_bytes(log_of(facts_of()))
    assert "not in the archive" in plain(begun.run("take", log, "--remove").err)
    begun.run("take", log, "--yes")
    assert "nothing is to be taken back" in plain(begun.run("take", log, "--untie").err)
    assert "Nothing was written" in plain(begun.run("take", log, "--remove").out)
    assert "is removed" in plain(begun.run("take", log, "--remove", "--yes").out)
    assert "was removed" in plain(begun.run("take", log, "--remove", "--yes").err)
    assert "brings it back" in plain(begun.run("take", log).out)
    assert "is back" in plain(begun.run("take", log, "--yes").out)
    assert begun.run("check").code == 0
    assert begun.run("take", log, "--remove", "--sheets").code == 2


def plain(text: str) -> str:
    """Text of a terminal as one line: where it breaks depends on how long a folder's name is."""
    return " ".join(text.split())


def test_a_removed_run_survives_an_export(filled, archives, tmp_path: Path) -> None:
    """Whole archive out and in: the removed run is removed there, and the same log brings it back."""
    log = tmp_path / "a.log"
    log.write_bytes(log_of(facts_of()))
    filled.run("take", log, "--yes")
    filled.run("take", log, "--remove", "--yes")
    out = tmp_path / "out"
    assert filled.run("export", out).code == 0
    fresh = archives.Archive(tmp_path / "fresh")
    done = fresh.run("import", out)
    assert done.code == 0, done.err
    assert "and removed; taking it in brings it back" in plain(fresh.run("take", log).out)
    assert fresh.run("check").code == 0


def test_a_run_from_days_ago_learns_no_time_from_being_untied(pair) -> None:
    """The sheets wait with the day of their exposure; the run's own time stands."""
    run = tied(*pair)
    before = run.events.count()
    untie(run)
    tie_again(run)
    assert run.events.count() == before
    left = models.Sheet.objects.get(pk=pair[0].pk)
    assert left.developed_at - EVENING < dt.timedelta(hours=2)


@pytest.mark.django_db(transaction=True)
def test_hanging_and_untying_at_once_never_lock_each_other_out() -> None:
    """Both want the run and the numbers of negatives: one waits, and who comes too late is told so."""
    if connection.vendor == "sqlite":
        pytest.skip("tests run on SQLite in memory, which has one writer")
    make_holders("7", size="4x5")
    sheets = [add_sheet({"film": "Tolland 100", "label": label}, make_film=True) for label in ("larch", "alder")]
    run = tied(*sheets)
    names = [str(one) for one in sheets]

    def page(number: int) -> str:
        try:
            if number % 2:
                hang(find_run(run.pk), names, (f"A{number}", f"B{number}"), moment_of_run(run, 3000.0 + number))
            elif is_tied(find_run(run.pk)):
                untie(find_run(run.pk))
            else:
                tie_again(find_run(run.pk))
        except WetsideError as error:
            return error.code
        finally:
            connection.close()
        return ""

    with ThreadPoolExecutor(4) as pages:
        told = list(pages.map(page, range(24)))
    assert "" in told
    if not is_tied(find_run(run.pk)):
        tie_again(find_run(run.pk))
    numbers = [models.Sheet.objects.get(pk=one.pk).negative for one in sheets]
    assert numbers[0][1:] == numbers[1][1:], "both of one hanging, or none"
