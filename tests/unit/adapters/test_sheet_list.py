"""Sheets from tables: CSV and XLSX."""

from __future__ import annotations

import datetime as dt
import io
import zipfile
from typing import TYPE_CHECKING, Any

import pytest

from wetside.adapters.evening_file import read_evening
from wetside.adapters.sheet_list import read_sheet_list, sheet_columns
from wetside.errors import ManyErrors, WetsideError
from wetside.planning.documents.evening import Placed
from wetside.planning.documents.words import Importance, Mishap

if TYPE_CHECKING:
    from pathlib import Path


def refused(path: Path) -> list[WetsideError]:
    with pytest.raises(WetsideError) as caught:
        read_sheet_list(path)
    return list(caught.value.errors) if isinstance(caught.value, ManyErrors) else [caught.value]


def csv_file(folder: Path, text: str, encoding: str = "utf-8") -> Path:
    path = folder / "sheets.csv"
    path.write_bytes(text.encode(encoding))
    return path


def book_file(folder: Path, rows: list[list[Any]], first_row: int = 1) -> Path:
    import openpyxl

    book = openpyxl.Workbook()
    page = book.active
    for number, row in enumerate(rows, first_row):
        for column, value in enumerate(row, 1):
            page.cell(number, column, value)
    path = folder / "sheets.xlsx"
    book.save(path)
    return path


COMMA = (
    "Label,FILM,Shadow EV,shadow_zone,highlight ev,highlight zone,mishaps,set time,suspect\n"
    '7 left,Tolland 100,8,3,"12,5",8,wrong-rating bellows-forgotten,1/15 s,yes\n\n'
    "7 right,Tolland 100,,,,,,,\n"
)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(COMMA, id="comma"),
        pytest.param("\ufeff" + COMMA.replace("\n", "\r\n"), id="bom-crlf"),
        pytest.param(COMMA.replace(",", ";").replace('"12;5"', "12,5"), id="semicolon"),
        pytest.param("sep=;\n" + COMMA.replace(",", ";").replace('"12;5"', "12,5"), id="sep-line"),
        pytest.param(COMMA.replace('"12,5"', "12.5").replace(",", "\t"), id="tab"),
    ],
)
def test_columns_stand_in_any_order_and_dress(tmp_path: Path, text: str) -> None:
    """Names of columns are compared without case; the dividing mark is found; empty cells are left out."""
    first, second = read_sheet_list(csv_file(tmp_path, text))
    assert first.label == "7 left"
    assert first.highlight == Placed(12.5, 8.0)
    assert first.mishaps == (Mishap.WRONG_RATING, Mishap.BELLOWS_FORGOTTEN)
    assert first.was_set is not None
    assert first.was_set.time_s == pytest.approx(1 / 15)
    assert first.suspect
    assert (second.shadow, second.suspect) == (None, False)


def test_errors_name_row_and_column(tmp_path: Path) -> None:
    """All errors of a table at once, each with its line, its column and the sheet's label."""
    path = csv_file(
        tmp_path, 'label,film,imprtance,set time,suspect,n\na,f,,7,perhaps,N-9\n\nb,f,,1 s,no,0\n"c\nd",f,,x,,\n'
    )
    found = [(e.code, e.place and e.place.line, e.place and e.place.field) for e in refused(path)]
    assert found == [
        ("files.column.unknown_near", 1, None),
        ("files.cell.flag", 2, 'column "suspect"'),
        ("units.duration.bare", 2, 'column "set time" (a)'),
        ("files.number.out_of_range", 2, 'column "n" (a)'),
        ("units.number.unreadable", 5, 'column "set time" (c d)'),
    ]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        pytest.param("", "files.table.empty", id="empty"),
        pytest.param("label,label\na,b\n", "files.column.twice", id="twice"),
        pytest.param("label,film\na,f,3\n", "files.row.cells", id="cells"),
        pytest.param('label,film\n"a,f\n', "files.csv.quotes", id="quote"),
        pytest.param("label,film\n" + "a" * 200_000 + ",f\n", "files.csv.quotes", id="endless-cell"),
        pytest.param("label,film,wholly else\na,f,\n", "files.column.unknown", id="unknown"),
    ],
)
def test_tables_out_of_form_are_refused(tmp_path: Path, text: str, code: str) -> None:
    """One mistake of form gives one error."""
    assert [error.code for error in refused(csv_file(tmp_path, text))] == [code]


def test_a_workbook_is_read(tmp_path: Path) -> None:
    """Numbers, dates and yes arrive as a person meant them."""
    path = book_file(
        tmp_path,
        [
            ["exposed", "label", "film", "n", "set aperture", "suspect", "importance", None],
            [dt.date(2026, 11, 3), 7, "Tolland 100", -1, 22, "x", "Irreplaceable", None],
            [None, None, None, None, None, None, None, None],
            ["2026-11-04", "b", "Tolland 100", "N+1", "f/5.6", True, None, None],
        ],
        first_row=3,
    )
    first, second = read_sheet_list(path)
    assert (first.exposed, first.label, first.n) == (dt.date(2026, 11, 3), "7", -1.0)
    assert first.was_set is not None
    assert first.was_set.aperture_n == 22.0
    assert first.importance is Importance.IRREPLACEABLE
    assert first.suspect
    assert second.suspect
    assert (second.exposed, second.n) == (dt.date(2026, 11, 4), 1.0)


def test_what_a_spreadsheet_spoils_is_named(tmp_path: Path) -> None:
    """A date where a time was typed, and a number without its unit, are told in terms of cells."""
    path = book_file(
        tmp_path,
        [
            ["label", "film", "set time", "set extension"],
            ["a", "f", dt.time(7, 30), 210],
            ["b", "f", dt.date(2026, 1, 15), "210 mm"],
        ],
    )
    assert [(e.code, e.place and e.place.line) for e in refused(path)] == [
        ("files.cell.made_date", 2),
        ("files.cell.unit", 2),
        ("files.cell.made_date", 3),
    ]


@pytest.mark.parametrize(
    ("data", "code"),
    [
        pytest.param(b"PK\x03\x04rubbish", "files.workbook.unreadable", id="torn"),
        pytest.param(b"\xd0\xcf\x11\xe0" * 200, "files.workbook.old_or_locked", id="old"),
        pytest.param(b"", "files.workbook.unreadable", id="empty"),
    ],
)
def test_no_workbook_is_refused(tmp_path: Path, data: bytes, code: str) -> None:
    """What is not a whole XLSX file says so."""
    path = tmp_path / "sheets.xlsx"
    path.write_bytes(data)
    assert [error.code for error in refused(path)] == [code]


def packed(path: Path, name: str, content: bytes) -> Path:
    """A copy of a workbook with one part exchanged."""
    out = io.BytesIO()
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.namelist():
            new.writestr(entry, content if entry == name else old.read(entry))
    path.write_bytes(out.getvalue())
    return path


def test_workbooks_that_would_fill_the_memory_are_refused(tmp_path: Path) -> None:
    """A cell in the last corner and a part that unpacks without end are refused unread."""
    page = "xl/worksheets/sheet1.xml"
    frame = '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>{}</sheetData></worksheet>'
    far = frame.format('<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>')
    path = packed(book_file(tmp_path, [["label"]]), page, far.encode())
    assert [error.code for error in refused(path)] == ["files.workbook.too_wide"]
    wide = frame.format("<row>" + "<c/>" * 16_000 + "</row>" + "<row/>" * 5_000)
    path = packed(book_file(tmp_path, [["label"]]), page, wide.encode())
    assert [error.code for error in refused(path)] == ["files.workbook.too_wide"]
    path = packed(book_file(tmp_path, [["label"]]), page, b" " * 70_000_000)
    assert [error.code for error in refused(path)] == ["files.workbook.too_large"]


def test_a_list_is_joined_to_its_evening(tmp_path: Path) -> None:
    """Twins are found across file and list; the list's errors name its own lines."""
    (tmp_path / "more").mkdir()
    (tmp_path / "more/sheets.csv").write_text("label,twin,aim\nb,A,\nc,,grade 2\n")
    evening = tmp_path / "evening.toml"
    text = (
        'format = 1\nsheet_list = "more/sheets.csv"\n[[films]]\nname = "f"\n'
        '[[aims]]\nname="Grade 2"\nfor="scanner"\nrange=1.2\n[[sheets]]\nlabel = "a"\n'
    )
    evening.write_text(text)
    sheets = read_evening(evening).sheets
    assert [(sheet.label, sheet.twin, sheet.aim, sheet.film) for sheet in sheets] == [
        ("a", "b", None, "f"),
        ("b", "a", None, "f"),
        ("c", None, "Grade 2", "f"),
    ]
    assert read_evening(evening).sheet_list is None
    (tmp_path / "more/sheets.csv").write_text("label,twin,aim\nA,,\nc,x,grade 3\n")
    with pytest.raises(ManyErrors) as caught:
        read_evening(evening)
    assert [(e.code, e.place and (e.place.line, e.place.field)) for e in caught.value.errors] == [
        ("files.sheet.twice", (2, 'column "label" (A)')),
        ("files.name.unknown_near", (3, 'column "aim" (c)')),
        ("files.name.unknown_any", (3, 'column "twin" (c)')),
    ]


@pytest.mark.parametrize(
    "name", ["/etc/passwd", "../sheets.csv", "more/../../x.csv", "C:\\x.csv", "~/x.csv", "link/x.csv"]
)
def test_a_list_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    """Only the file's folder and what is below it are read."""
    home = tmp_path / "home"
    home.mkdir()
    (home / "link").symlink_to(tmp_path)
    (tmp_path / "x.csv").write_text("label,film\na,f\n")
    (home / "evening.toml").write_text(f"format = 1\nsheet_list = '{name}'\n")
    with pytest.raises(WetsideError) as caught:
        read_evening(home / "evening.toml")
    assert caught.value.code == "files.beside.elsewhere"
    assert caught.value.place == (str(home / "evening.toml"), 2, "sheet_list")


def test_every_key_of_a_sheet_has_a_column() -> None:
    """Inner tables are written as two words."""
    assert {"label", "in holder", "shadow ev", "set aperture", "meant time", "second filter", "exposed"} <= set(
        sheet_columns()
    )
