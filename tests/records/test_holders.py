"""Holders: sides loaded, exposed, in doubt, unloaded and dusted by legal moves only; lots and notches."""

from __future__ import annotations

import datetime as dt

import pytest

from wetside.errors import WetsideError
from wetside.records.models import Film, Holder, HolderSide, Sheet
from wetside.services.records.changes import find, make
from wetside.services.records.holders import (
    bring_holder_back,
    change_holder,
    holder_page,
    holders_of_span,
    keep_lot,
    lot_says,
    lots,
    make_holders,
    remove_holder,
    sides_named,
)
from wetside.services.records.holders_moves import (
    MOVES,
    doubt,
    dust,
    expose,
    load,
    sheet_in,
    side_text,
    take_back,
    trust,
    unload,
)
from wetside.services.records.sheets import add_sheet, end_sheet

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)
TODAY = dt.date(2026, 11, 25)
STATES = ("empty", "loaded", "exposed", "suspect", "unloaded")


@pytest.fixture
def side() -> HolderSide:
    make(Film, {"name": "Tolland 100"})
    make_holders("3", size="9x12cm")
    return HolderSide.kept.select_related("holder").get(side="left")


def now(side: HolderSide) -> HolderSide:
    return find(HolderSide, side.pk)


def brought(side: HolderSide, state: str) -> HolderSide:
    """Side in a state, by legal moves."""
    if state == "empty":
        return side
    load([side], "Tolland 100", today=TODAY)
    if state == "exposed":
        expose(now(side), TODAY)
    elif state == "suspect":
        doubt(now(side))
    elif state == "unloaded":
        unload(now(side))
    assert now(side).state == state
    return now(side)


def act(move: str, side: HolderSide):
    acts = {
        "load": lambda: load([side], "Tolland 100", today=TODAY),
        "expose": lambda: expose(side, TODAY),
        "suspect": lambda: doubt(side),
        "trust": lambda: trust(side),
        "unload": lambda: unload(side),
        "dust": lambda: dust(side),
    }
    return acts[move]()


def code(act) -> str:
    with pytest.raises(WetsideError) as refused:
        act()
    return refused.value.code


@pytest.mark.parametrize(
    ("move", "state"), [(move, state) for move in MOVES for state in STATES if state not in MOVES[move].start]
)
def test_an_illegal_move_is_refused(side, move, state) -> None:
    """It says what the side is, and changes nothing."""
    there = brought(side, state)
    sheets = Sheet.kept.count()
    assert code(lambda: act(move, there)) == f"services.holders.move_{move}"
    assert (now(side).state, Sheet.kept.count()) == (state, sheets)


@pytest.mark.parametrize(
    ("move", "state", "after"),
    [
        ("load", "empty", "loaded"),
        ("load", "unloaded", "loaded"),
        ("expose", "loaded", "exposed"),
        ("expose", "suspect", "suspect"),
        ("suspect", "empty", "suspect"),
        ("suspect", "loaded", "suspect"),
        ("suspect", "exposed", "suspect"),
        ("trust", "suspect", "loaded"),
        ("unload", "loaded", "unloaded"),
        ("unload", "exposed", "unloaded"),
        ("unload", "suspect", "unloaded"),
        ("dust", "unloaded", "empty"),
    ],
)
def test_a_legal_move_and_its_way_back(side, move, state, after) -> None:
    """Every move can be taken back, with what it did to the sheet."""
    there = brought(side, state)
    before = (there.state, there.film_id, there.loaded_on, [str(s) for s in Sheet.kept.filter(side=side)])
    act(move, there)
    assert now(side).state == after
    take_back(now(side), NOW)
    there = now(side)
    assert (there.state, there.film_id, there.loaded_on, [str(s) for s in Sheet.kept.filter(side=side)]) == before
    assert code(lambda: take_back(now(side), NOW)) == "services.holders.nothing_before"


def test_exposing_makes_the_sheet(side) -> None:
    """With film, lot, size and day; a second sheet of the side gets the day into its label."""
    keep_lot("Tolland 100", "4711", expires="2028-01-01")
    load([side], "Tolland 100", lot="4711", day=TODAY, today=TODAY)
    sheet = expose(now(side), TODAY)
    assert (str(sheet), sheet.film.name, sheet.lot.number, sheet.size, sheet.exposed, sheet.side) == (
        "3 left",
        "Tolland 100",
        "4711",
        "9x12cm",
        TODAY,
        side,
    )
    unload(now(side))
    assert find(Sheet, sheet.pk).side is None
    load([now(side)], "Tolland 100", today=TODAY)
    second = expose(now(side), TODAY)
    assert (str(second), second.holder) == ("3 left, 2026-11-25", "3 left")


def test_doubt_reaches_the_sheet(side) -> None:
    """A sheet in a side in doubt is suspect, and certain again with it."""
    sheet = expose(brought(side, "loaded"), TODAY)
    doubt(now(side))
    assert find(Sheet, sheet.pk).suspect
    trust(now(side))
    assert not find(Sheet, sheet.pk).suspect
    assert now(side).state == "exposed"


def test_a_move_is_not_taken_back_past_a_sheet_that_went_on(side) -> None:
    """Developed since, or entered since by hand: correct by hand."""
    sheet = expose(brought(side, "loaded"), TODAY)
    end_sheet(sheet, "developed", at=NOW)
    assert code(lambda: take_back(now(side), NOW)) == "services.holders.sheet_gone"
    load([now(side)], "Tolland 100", today=TODAY)
    add_sheet({"holder": "3 left", "film": "Tolland 100"})
    assert code(lambda: take_back(now(side), NOW)) == "services.holders.sheet_gone"
    assert str(sheet_in(now(side))) == "3 left"


def test_a_span_is_loaded_whole_or_not_at_all(side) -> None:
    """3 to 6, both sides; one that is full stops all."""
    make_holders("4 to 6")
    loaded = load(sides_named("3 to 6, both sides"), "Tolland 100", today=TODAY)
    assert len(loaded.sides) == 8
    make_holders("7")
    assert code(lambda: load(sides_named("6 to 7"), "Tolland 100", today=TODAY)) == "services.holders.move_load"
    assert set(HolderSide.kept.filter(holder__name="7").values_list("state", flat=True)) == {"empty"}
    assert [side_text(one) for one in sides_named("7 left, 4R")] == ["7 left", "4 right"]
    assert code(lambda: sides_named("12")) == "services.holders.no_such"
    assert code(lambda: sides_named("7 top")) == "services.holders.no_such"


@pytest.mark.parametrize(
    ("text", "refusal"),
    [
        ("", "services.holders.none_named"),
        (" , ;", "services.holders.none_named"),
        ("9 to 3", "services.holders.backwards"),
        ("1 to 5000", "services.holders.span_too_long"),
        ("x" * 41, "services.holders.name_too_long"),
    ],
)
def test_a_span_that_cannot_be_is_refused(text, refusal) -> None:
    """By its own sentence."""
    assert code(lambda: holders_of_span(text)) == refusal


def test_spans_are_read_as_people_write_them() -> None:
    """Words, dashes, lists, leading zeros and names."""
    assert holders_of_span("3 to 5") == holders_of_span("3-5") == holders_of_span("3\N{EN DASH}5") == ["3", "4", "5"]
    assert holders_of_span("08 to 10") == ["08", "09", "10"]
    assert holders_of_span("Tall 1 to Tall 2; old\n7") == ["Tall 1", "Tall 2", "old", "7"]


def test_lots_warn_by_their_date(side) -> None:
    """Past: expired; within two months: soon."""
    for number, expires in (
        ("1", "2026-11-24"),
        ("2", "2026-11-25"),
        ("3", "2027-01-24"),
        ("4", "2027-01-25"),
        ("5", ""),
    ):
        keep_lot("Tolland 100", number, expires=expires)
    assert [says for _, says, _ in sorted(lots(TODAY), key=lambda row: row[0].number)] == [
        "expired",
        "soon",
        "soon",
        "",
        "",
    ]
    assert lot_says(None, TODAY) == ""
    assert load([side], "Tolland 100", lot="1", today=TODAY).lot_says == "expired"
    assert code(lambda: keep_lot("Tolland 100", "1")) == "records.rule.lot_number_once"
    assert code(lambda: keep_lot("Tolland 100", "6", expires="soon")) == "files.kind.date"
    assert code(lambda: keep_lot("Tolland 100", "6", bought="few")) == "services.holders.count"
    assert code(lambda: keep_lot("Quern", "6")) == "services.sheets.film_unknown"
    assert code(lambda: keep_lot("Tolland 100", " ")) == "services.holders.lot_number"


def test_a_notch_leads_to_its_holder(side) -> None:
    """The mark seen on a negative; several holders never get one notch at once."""
    make_holders("8", notch="V  U")
    assert [one.holder.name for one in holder_page(TODAY, notch="v u").holders] == ["8"]
    assert code(lambda: make_holders("9 to 10", notch="V")) == "services.holders.one_notch"
    assert code(lambda: make_holders("9", sides=("left", "L"))) == "services.holders.sides"
    assert code(lambda: make_holders("8")) == "records.rule.holder_name_once"
    assert code(lambda: make_holders("9", size="wide")) == "units.size.unreadable"


def test_a_holder_is_corrected_removed_and_brought_back(side) -> None:
    """Never with film in it."""
    holder = change_holder(side.holder, name="3b", size="4x5in", notch="", note="leaks", revision=1)
    assert (holder.name, holder.size, holder.note) == ("3b", "4x5in", "leaks")
    assert code(lambda: change_holder(holder, name=" ", size="", notch="", note="", revision=None)).endswith(
        "none_named"
    )
    load([now(side)], "Tolland 100", today=TODAY)
    assert code(lambda: remove_holder(holder, NOW)) == "services.holders.not_empty"
    unload(now(side))
    removed = remove_holder(find(Holder, holder.pk), NOW)
    assert not HolderSide.kept.exists()
    bring_holder_back(removed)
    assert HolderSide.kept.count() == 2


def test_the_page_of_holders_counts_as_people_do(side, django_assert_max_num_queries) -> None:
    """2 before 10; few queries however many holders there are."""
    make_holders("4 to 60")
    with django_assert_max_num_queries(8):
        page = holder_page(TODAY)
    assert [one.holder.name for one in page.holders][:9] == [str(number) for number in range(3, 12)]
    assert (page.total, page.pages, page.states) == (58, 2, {"empty": 116})
    load([side], "Tolland 100", today=TODAY)
    assert [one.holder.name for one in holder_page(TODAY, state="loaded").holders] == ["3"]
