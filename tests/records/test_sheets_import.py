"""Lists of sheets: looked through whole, then all kept or none; hostile files cost nothing."""

from __future__ import annotations

import io
import json
import zipfile
from typing import Any

import pytest

from wetside.errors import WetsideError
from wetside.records.models import Film, Sheet
from wetside.services.records import sheet_import
from wetside.services.records.changes import make
from wetside.services.records.sheet_import import keep_list, preview
from wetside.services.records.sheets import add_sheet

pytestmark = pytest.mark.django_db
PASTED = "holder\tfilm\tn\texposed\n3 left\tTolland 100\tN-1\t2026-11-07\n3 right\tTolland 100\t\t2026-11-07\n"


@pytest.fixture(autouse=True)
def tolland() -> Film:
    return make(Film, {"name": "Tolland 100"})


def book(rows: list[list[Any]]) -> bytes:
    import openpyxl

    made = openpyxl.Workbook()
    for row in rows:
        made.active.append(row)
    kept = io.BytesIO()
    made.save(kept)
    return kept.getvalue()


def code(act) -> str:
    with pytest.raises(WetsideError) as refused:
        act()
    return refused.value.code


def test_pasted_rows_are_shown_first_and_kept_whole() -> None:
    """Nothing is written by looking; then all of it is."""
    shown = preview("pasted rows", PASTED)
    assert (shown.good, shown.columns, len(shown.rows)) == (True, ("film", "holder", "n", "exposed"), 2)
    assert not Sheet.objects.exists()
    answer = keep_list("pasted rows", shown.packed).answer
    assert len(answer["ids"]) == 2
    assert [(str(sheet), sheet.n) for sheet in Sheet.objects.order_by("label_key")] == [
        ("3 left", -1.0),
        ("3 right", None),
    ]


def test_the_same_list_is_recognised_in_whatever_file_it_comes() -> None:
    """Kept once: the second time it says so, and the answer is the first."""
    first = keep_list("a.csv", preview("a.csv", PASTED.encode()).packed)
    again = preview("b.csv", PASTED.replace("\t", ",").encode())
    assert again.taken is not None
    assert not again.good
    rows = [["film", "holder", "exposed", "n"], ["Tolland 100", "3 left", "2026-11-07", "N-1"]]
    assert preview("c.xlsx", book([*rows, ["Tolland 100", "3 right", "2026-11-07", None]])).taken is not None
    second = keep_list("b.csv", again.packed)
    assert (second.again, dict(second.answer)) == (True, dict(first.answer))
    assert Sheet.objects.count() == 2


def test_every_row_and_every_error_is_shown() -> None:
    """Row, column, value and what is allowed; one wrong row stops all."""
    add_sheet({"holder": "9 left", "film": "Tolland 100"})
    text = (
        "label,holder,film,n,importance,twin,process,suspect\n"
        "a,,Tolland 100,N-9,,,,\n"
        "b,,Tolland 100,,precious,,drum,maybe\n"
        ",,Tolland 100,,,,,\n"
        ",9 left,Tolland 100,,,,,\n"
        "a,,,,,zz,,\n"
        "c,,Tolland 100,,,b,,\n"
    )
    shown = preview("list.csv", text)
    errors = {row.line: [(one.column, one.value) for one in row.errors] for row in shown.rows}
    assert errors == {
        2: [("n", "N-9")],
        3: [("suspect", "maybe"), ("importance", "precious"), ("process", "drum")],
        4: [("label", "")],
        5: [("label", "9 left")],
        6: [("film", ""), ("label", "a"), ("twin", "zz")],
        7: [],
    }
    assert (shown.wrong, shown.good) == (5, False)
    assert all(one.said for row in shown.rows for one in row.errors)
    assert code(lambda: keep_list("list.csv", shown.packed)) == "services.sheets.list_wrong"
    assert Sheet.objects.count() == 1


def test_new_films_are_told_and_made_with_their_names() -> None:
    """Or refused where the person does not want that."""
    text = "holder,film\n1 left,Quern\n1 right,quern\n2 left,Tolland 100\n"
    shown = preview("list.csv", text)
    assert (shown.new_films, shown.good) == (("Quern",), True)
    assert preview("list.csv", text, make_films=False).wrong == 2
    keep_list("list.csv", shown.packed)
    assert sorted(Film.objects.values_list("name", flat=True)) == ["Quern", "Tolland 100"]


def test_twins_of_one_list_find_each_other() -> None:
    """Wherever they stand in it."""
    keep_list("l", preview("l", "holder,film,twin\n1 left,Tolland 100,1 right\n1 right,Tolland 100,\n").packed)
    left, right = Sheet.objects.order_by("label_key")
    assert (left.twin, right.twin) == (right, left)


def test_a_workbook_is_read_from_memory() -> None:
    """Formulas count as what the spreadsheet last made of them: nothing, where it never did."""
    shown = preview(
        "list.xlsx", book([["holder", "film", "n"], ["1 left", "Tolland 100", "=1-2"], [2, "Tolland 100", -1]])
    )
    assert [row.cells for row in shown.rows] == [("Tolland 100", "1 left", ""), ("Tolland 100", "2", "-1")]
    assert shown.good


@pytest.mark.parametrize(
    ("name", "data", "refusal"),
    [
        ("a.xlsx", b"PK\x03\x04 nothing", "files.workbook.unreadable"),
        ("a.csv", b"holder,film\n\xff\xfe\xfa,x\n", "files.text.not_utf8"),
        ("a.csv", b"holder,film\n1 left,To\0lland\n", "files.text.nul"),
        ("a.csv", b"", "files.table.empty"),
        ("a.csv", b'holder,film\n"1 left,Tolland 100\n', "files.csv.quotes"),
        ("a.csv", b"holder,film\n" + b"1,Tolland 100\n" * 2001, "files.table.too_long"),
        ("pasted", "holder\0,film\n", "files.text.nul"),
        ("pasted", "\ud800,film\n", None),
    ],
)
def test_what_is_no_list_is_refused(name, data, refusal) -> None:
    """By a sentence, never by a failure."""
    if refusal is None:
        assert preview(name, data).mistakes
    else:
        assert code(lambda: preview(name, data)) == refusal


def test_a_bomb_is_refused_before_it_fills_the_memory() -> None:
    """Unpacked too large, or a rectangle of a million cells."""
    kept = io.BytesIO()
    with zipfile.ZipFile(kept, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/worksheets/sheet1.xml", b"0" * 70_000_000)
    assert code(lambda: preview("a.xlsx", kept.getvalue())) == "files.workbook.too_large"
    wide = book([["holder", "film"]])
    rows = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(wide)) as old, zipfile.ZipFile(rows, "w") as new:
        for entry in old.infolist():
            content = old.read(entry)
            if entry.filename.endswith("sheet1.xml"):
                content = content.replace(b'r="B1"', b'r="ZZ1500"')
            new.writestr(entry, content)
    assert code(lambda: preview("a.xlsx", rows.getvalue())) == "files.workbook.too_wide"


@pytest.mark.parametrize("packed", ["", "x", "[1]", "[[1, 2]]", "{}", "[" * 100_000, json.dumps([[1, {"film": 3}]])])
def test_rows_that_were_changed_on_the_way_are_refused(packed) -> None:
    """What comes back is checked as if it had never been shown."""
    assert code(lambda: keep_list("l", packed)) in ("services.sheets.list_changed", "services.sheets.list_wrong")
    assert not Sheet.objects.exists()


def test_a_list_that_fails_half_way_leaves_nothing(monkeypatch) -> None:
    """All or nothing."""
    shown = preview("l", PASTED)
    real, calls = sheet_import.add_sheet, []

    def failing(*given, **named):
        calls.append(given)
        if len(calls) == 2:
            return real({"film": "Tolland 100"})
        return real(*given, **named)

    monkeypatch.setattr(sheet_import, "add_sheet", failing)
    assert code(lambda: keep_list("l", shown.packed)) == "services.sheets.no_label"
    assert not Sheet.objects.exists()


def test_rows_that_are_done_are_developed_sheets() -> None:
    """They wait for nothing, and the label of one that waits now is free for one of long ago."""
    waits = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    pasted = "holder\tfilm\tdone\n3 left\tTolland 100\ttrue\n3 right\tTolland 100\t\n"
    shown = preview("pasted rows", pasted)
    assert shown.good, shown.rows
    keep_list("pasted rows", shown.packed)
    made = {(str(sheet), sheet.state) for sheet in Sheet.objects.exclude(pk=waits.pk)}
    assert made == {("3 left", "developed"), ("3 right", "waiting")}


@pytest.mark.parametrize("day", ["1800-03-13", "2400-03-13"])
def test_a_day_that_cannot_be_is_told_in_its_column(day) -> None:
    """A slip in the year, in a list and in a row of its own."""
    (row,) = preview("pasted rows", f"holder\tfilm\texposed\n3 left\tTolland 100\t{day}\n").rows
    assert [(error.column, day in error.said) for error in row.errors] == [("exposed", True)]
    with pytest.raises(WetsideError) as refused:
        add_sheet({"holder": "3 left", "film": "Tolland 100", "exposed": day})
    assert refused.value.place.field == "exposed"
