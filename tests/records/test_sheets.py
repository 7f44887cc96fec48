"""Keeping sheets: entry, correction, what stood before, removal, and what became of them."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest

from wetside.errors import ConflictError, ManyErrors, RefusedError, UnknownNameError, WetsideError
from wetside.records.models import Aim, Film, FilmLot, Holder, HolderSide, Process, ProcessVersion, Sheet
from wetside.services.records.changes import find, history_of, make, written_by
from wetside.services.records.documents import document_of
from wetside.services.records.holders import make_holders
from wetside.services.records.holders_moves import load
from wetside.services.records.sheets import (
    add_sheet,
    bring_sheet_back,
    correct_sheet,
    end_sheet,
    raw_of_sheet,
    remove_sheet,
    tap,
    undo_last,
    wait_again,
)
from wetside.services.records.sheets_names import holder_and_side
from wetside.services.records.sheets_next import next_label
from wetside.services.records.sheets_reckoned import reckoned
from wetside.services.records.sheets_story import story_of

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)
TODAY = dt.date(2026, 11, 25)
CASES = json.loads((Path(__file__).parents[1] / "fixtures/next_labels.json").read_text("utf-8"))


@pytest.fixture
def tolland() -> Film:
    return make(Film, {"name": "Tolland 100", "ei": 80.0})


def refused(act) -> list[WetsideError]:
    with pytest.raises(WetsideError) as caught:
        act()
    return list(caught.value.errors) if isinstance(caught.value, ManyErrors) else [caught.value]


def test_two_facts_are_enough(tolland) -> None:
    """A holder side or a label, and a film; everything else later."""
    side = add_sheet({"holder": "3 left", "film": "tolland  100"})
    label = add_sheet({"label": "larch by the weir", "film": "Tolland 100"})
    assert (str(side), str(label), side.state) == ("3 left", "larch by the weir", "waiting")
    assert raw_of_sheet(side) == {"film": "Tolland 100", "holder": "3 left"}


@pytest.mark.parametrize(
    ("raw", "wrong"),
    [
        ({"film": "Tolland 100"}, {"holder": "services.sheets.no_label"}),
        ({"holder": "3 left"}, {"film": "services.sheets.no_film"}),
        ({"holder": "3 left", "film": "Tollnd 100"}, {"film": "services.sheets.film_unknown_near"}),
        ({"holder": "3 left", "film": "Quern"}, {"film": "services.sheets.film_unknown"}),
        (
            {"film": "Tolland 100", "process": "drum", "aim": "grade 2", "twin": "3 left", "holder": "4 left"},
            {
                "process": "services.sheets.name_unknown",
                "aim": "services.sheets.name_unknown",
                "twin": "services.sheets.twin_unknown",
            },
        ),
    ],
)
def test_what_is_wrong_is_named_by_its_field(tolland, raw, wrong) -> None:
    """All mistakes at once, and nothing is written."""
    assert {error.place.field: error.code for error in refused(lambda: add_sheet(raw))} == wrong
    assert not Sheet.objects.exists()


def test_an_unknown_film_is_made_with_its_name_where_that_is_wanted() -> None:
    """In the same transaction: a sheet that is refused leaves no film."""
    sheet = add_sheet({"holder": "3 left", "film": "Quern"}, make_film=True)
    assert sheet.film.name == "Quern"
    with pytest.raises(ConflictError):
        add_sheet({"holder": "3 LEFT", "film": "Morvane 320"}, make_film=True)
    assert not Film.objects.filter(name="Morvane 320").exists()


def test_a_correction_can_be_taken_back_and_names_who_wrote(tolland) -> None:
    """The story tells each value before and after; taking back is itself a correction."""
    aim = make(Aim, {"name": "grade 2", "printing": "graded-paper", "density_range": 1.05})
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100", "n": "N-1"})
    with written_by("Ines"):
        sheet = correct_sheet(
            sheet,
            {"holder": "3 left", "film": "Tolland 100", "n": "N+1", "aim": "grade 2", "meant": {"time": "1/15 s"}},
        )
    assert sheet.aim == aim
    newest = story_of(sheet)[0]
    assert newest.by == "Ines"
    assert {(told.what, told.before, told.after) for told in newest.changes} == {
        ("development", "N\N{MINUS SIGN}1", "N+1"),
        ("aim", "", "grade 2"),
        ("meant", "", "time 1/15 s"),
    }
    back = undo_last(sheet)
    assert (back.n, back.aim, back.facts) == (-1.0, None, {})
    again = undo_last(back)
    assert (again.n, again.aim) == (1.0, aim)
    assert len(history_of(again)) == 4


def test_what_was_never_corrected_cannot_be_taken_back(tolland) -> None:
    """Nor can a removal or an end: they have their own way back."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    assert refused(lambda: undo_last(sheet))[0].code == "services.sheets.nothing_before"
    lost = end_sheet(sheet, "lost")
    assert refused(lambda: undo_last(lost))[0].code == "services.sheets.no_correction"
    assert wait_again(lost).state == "waiting"
    assert refused(lambda: wait_again(find(Sheet, sheet.pk)))[0].code == "services.sheets.waits_already"


def test_a_removed_sheet_comes_back_until_its_label_is_taken(tolland) -> None:
    """And only then is told why not."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    removed = remove_sheet(sheet, NOW)
    assert not Sheet.kept.exists()
    assert bring_sheet_back(removed).removed_at is None
    removed = remove_sheet(find(Sheet, sheet.pk), NOW)
    add_sheet({"holder": "3 left", "film": "Tolland 100"})
    assert refused(lambda: bring_sheet_back(removed))[0].code == "records.rule.sheet_label_once_while_waiting"


def test_a_label_is_free_again_when_its_sheet_is_developed(tolland) -> None:
    """A holder side is used again and again."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    done = end_sheet(sheet, "developed", at=NOW, negative="sleeve 12")
    assert (done.state, done.negative, done.developed_at) == ("developed", "sleeve 12", NOW)
    add_sheet({"holder": "3 left", "film": "Tolland 100"})
    assert refused(lambda: end_sheet(done, "lost"))[0].code == "services.sheets.not_waiting"
    with pytest.raises(ConflictError):
        wait_again(done)


def test_a_planned_sheet_is_not_removed(tolland) -> None:
    """A frozen plan keeps its sheets."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    Sheet.objects.filter(pk=sheet.pk).update(state="planned")
    with pytest.raises(RefusedError):
        remove_sheet(find(Sheet, sheet.pk), NOW)


def test_twins_name_each_other(tolland) -> None:
    """Who is named as a twin is one."""
    first = add_sheet({"holder": "7 left", "film": "Tolland 100"})
    second = add_sheet({"holder": "7 right", "film": "Tolland 100", "twin": "7 left"})
    assert find(Sheet, first.pk).twin == second
    assert refused(lambda: correct_sheet(second, {**raw_of_sheet(second), "twin": "7 right"}))[0].place.field == "twin"


def test_a_lot_belongs_to_its_film(tolland) -> None:
    """A lot of another film is not taken; a change of film drops the lot."""
    morvane = make(Film, {"name": "Morvane 320"})
    make(FilmLot, {"film": tolland, "number": "4711"})
    sheet = add_sheet({"holder": "7 left", "film": "Tolland 100"}, lot="4711")
    assert sheet.lot.number == "4711"
    changed = correct_sheet(sheet, {"holder": "7 left", "film": "Morvane 320"})
    assert (changed.film, changed.lot) == (morvane, None)
    assert isinstance(refused(lambda: correct_sheet(changed, raw_of_sheet(changed), lot="4711"))[0], UnknownNameError)


def test_a_sheet_and_its_holder_side_change_together(tolland) -> None:
    """Entered: exposed. Removed: loaded again. Back: exposed. Developed: unloaded."""
    make_holders("3")
    side = HolderSide.kept.get(side="left")
    load([side], "Tolland 100", today=TODAY)
    sheet = add_sheet({"holder": "3L", "film": "Tolland 100"})

    def state() -> str:
        return find(HolderSide, side.pk).state

    assert (sheet.side, state()) == (side, "exposed")
    removed = remove_sheet(sheet, NOW)
    assert state() == "loaded"
    sheet = bring_sheet_back(removed)
    assert state() == "exposed"
    sheet = correct_sheet(sheet, {"holder": "3 right", "film": "Tolland 100"})
    other = HolderSide.kept.get(side="right")
    assert (state(), sheet.side, other.state) == ("loaded", other, "exposed")
    sheet = undo_last(sheet)
    assert (state(), sheet.side.side, HolderSide.kept.get(side="right").state) == ("exposed", "left", "loaded")
    sheet = correct_sheet(sheet, {"holder": "3 left", "film": "Tolland 100", "suspect": True})
    assert state() == "suspect"
    end_sheet(sheet, "developed", at=NOW)
    assert state() == "unloaded"
    assert Holder.kept.count() == 1


def test_a_mishap_is_one_tap_and_goes_with_the_next(tolland) -> None:
    """Tapped once it is told, tapped again it is not."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    raw = tap(sheet, raw_of_sheet(sheet), "wrong-film")
    assert raw["mishaps"] == ["wrong-film"]
    assert "mishaps" not in tap(sheet, raw, "wrong-film")
    assert refused(lambda: tap(sheet, raw, "dropped"))[0].code == "services.sheets.no_mishap"


def test_the_pipeline_reciprocity_last(tolland) -> None:
    """2 s through a factor of 4 and bellows of 2.25 are 18 s, and 44.1 s at a power of 1.31."""
    make(Film, {"name": "Quern", "ei": 100.0, "facts": {"reciprocity": {"power": 1.31}}})
    meant = {"time": "2 s", "filter": 4.0, "extension": "450 mm", "focal": "300 mm", "ei": 100.0}
    found = reckoned(document_of("sheet", {"holder": "3 left", "film": "Quern", "meant": meant}))
    assert [step.code.rpartition(".")[2] for step in found.pipeline.steps] == [
        "metered",
        "filter",
        "bellows",
        "reciprocity",
    ]
    assert [round(step.time_s, 1) for step in found.pipeline.steps] == [2.0, 8.0, 18.0, 44.1]
    assert found.pipeline.rated[0] == "services.sheets.index_as_rated"


def test_readings_give_n(tolland) -> None:
    """Shadow 9 on III, highlight 15 wanted on VIII: it falls on IX, N-1; set EV 11."""
    raw = {
        "holder": "3 left",
        "film": "Tolland 100",
        "shadow": {"ev": 9.0, "zone": 3.0},
        "highlight": {"ev": 15.0, "zone": 8.0},
    }
    found = reckoned(document_of("sheet", raw)).readings
    assert (found.set_ev, found.falls, found.n) == (11.0, 9.0, -1.0)


def test_each_mishap_says_the_stop_error_that_it_would_be(tolland) -> None:
    """Bellows of 2.25 and a filter of 4 forgotten; a film at EI 320 in place of EI 80 is two stops over."""
    make(Film, {"name": "Morvane 320", "ei": 320.0})
    raw = {
        "holder": "3 left",
        "film": "Tolland 100",
        "meant": {"time": "1/15 s", "filter": 4.0, "extension": "450 mm", "focal": "300 mm"},
        "in_holder": "Morvane 320",
        "mishaps": ["filter-forgotten"],
    }
    found = reckoned(document_of("sheet", raw))
    told = {one.word: one for one in found.mishaps}
    assert told["bellows-forgotten"].stops == pytest.approx(-1.17, abs=0.01)
    assert told["filter-forgotten"].stops == pytest.approx(-2.0)
    assert told["wrong-film"].stops == pytest.approx(2.0)
    assert told["filter-forgotten"].told
    assert not told["wrong-film"].told
    assert told["wrong-rating"].lacks.code == "exposure.audit.rating_missing"
    assert found.stop_error == pytest.approx(0.0)


def test_an_error_that_nobody_can_know_is_not_called_none() -> None:
    """Of a film without figures for long exposures; a short one needs none."""
    make(Film, {"name": "Morvane 320"})

    def told(time: str):
        document = document_of("sheet", {"holder": "3 left", "film": "Morvane 320", "meant": {"time": time}})
        return {one.word: one for one in reckoned(document).mishaps}["reciprocity-forgotten"]

    assert told("4 s").stops is None
    assert told("4 s").lacks.code == "services.sheets.reciprocity_unknown"
    assert told("1/15 s").stops == 0.0


@pytest.mark.parametrize(("label", "after"), CASES)
def test_the_next_label_is_counted_up(label, after) -> None:
    """The other side, then the next holder; numbers go up; what has no number gives none."""
    assert next_label(label) == after


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("3 left", ("3", "left")),
        ("3L", ("3", "left")),
        ("Tall 2 R", ("Tall 2", "right")),
        ("7a", ("7", "A")),
        ("box b", ("box", "B")),
        ("club", None),
        ("larch", None),
        ("3", None),
    ],
)
def test_holder_and_side_of_a_text(text, named) -> None:
    """Words of sides, short or long; a word that merely ends so is no side."""
    assert holder_and_side(text) == named


def test_processes_of_one_recipe_share_a_load(tolland) -> None:
    """Two names of the same baths are one group; another temperature is another."""
    from wetside.services.records.sheets_waiting import waiting

    for name, temp in (("drum", 20.0), ("drum again", 20.0), ("warm", 24.0)):
        process = make(Process, {"name": name})
        ProcessVersion.objects.create(
            process=process, version=1, developer="Brackwater", dilution="1+24", temp_c=temp, clock="full-to-drain"
        )
    make(Film, {"name": "Morvane 320"})
    rows = [
        ("1 left", "Tolland 100", "drum", "2026-11-20"),
        ("1 right", "Morvane 320", "drum again", "2026-11-07"),
        ("2 left", "Tolland 100", "warm", "2026-10-01"),
        ("2 right", "Tolland 100", None, "2026-11-24"),
        ("3 left", "Morvane 320", None, "2026-11-23"),
    ]
    for holder, film, process, day in rows:
        add_sheet({"holder": holder, "film": film, "exposed": day} | ({"process": process} if process else {}))
    found = waiting(TODAY)
    assert [[one.label for one in group.sheets] for group in found.groups] == [
        ["2 left"],
        ["1 right", "1 left"],
        ["3 left"],
        ["2 right"],
    ]
    assert (found.total, found.oldest) == (5, dt.date(2026, 10, 1))
    first = found.groups[0].sheets[0]
    assert (first.days, first.long) == (55, True)
    assert not found.groups[1].sheets[0].long


def test_twenty_thousand_sheets_cost_as_few_queries(tolland, django_assert_max_num_queries) -> None:
    """Any page of the list, and the pages together show each sheet once."""
    from wetside.services.records import sheets_waiting

    films = [make(Film, {"name": f"film {number}"}) for number in range(40)]
    Sheet.objects.bulk_create(
        Sheet(
            label=f"{number}",
            label_key=f"{number}",
            film=films[number % 40],
            exposed=TODAY - dt.timedelta(days=number % 400),
        )
        for number in range(20_000)
    )
    with django_assert_max_num_queries(8):
        found = sheets_waiting.waiting(TODAY, 200)
    assert (found.total, found.pages) == (20_000, 400)
    assert sum(len(group.sheets) for group in found.groups) == sheets_waiting.PAGE
    seen = [
        one.label
        for page in range(9, 13)
        for group in sheets_waiting.waiting(TODAY, page).groups
        for one in group.sheets
    ]
    assert len(seen) == len(set(seen)) == 4 * sheets_waiting.PAGE
