"""The evening file's reader."""
# ruff: noqa: E501 (one contradiction a line reads best)

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from wetside.adapters.evening_file import evening_of_text, read_evening
from wetside.adapters.evening_writer import write_evening
from wetside.adapters.kinds import name_value
from wetside.errors import ConflictError, InputError, ManyErrors, RefusedError, UnknownNameError, WetsideError
from wetside.planning.documents.evening import ANY_SIZE
from wetside.planning.documents.films import Film
from wetside.planning.documents.keys import declared_keys
from wetside.planning.documents.words import Mishap
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

SHEET = '[[sheets]]\nlabel = "7 left"\nfilm = "Tolland 100"\n'
FULL = """
format = 1
name = "first frost"
date = 2026-11-25
size = "9x12cm"
process = "Drum"
floor = "4:30"

[thermometer]
reads_high = "0.4 C"

[[films]]
name = "Tolland 100"
ei = "1,5"
reciprocity = { table = [["1 s", 1.5], ["10 s", 6]] }
[[films.times]]
developer = "brackwater"
dilution = "1+24"
time = "7:00-8:00"
temp = "68 F"
[[films.tests]]
developer = "Brackwater"
rows = [
  [6.0, -2.4, 0.12],
  [6.0, -2.1, 0.21],
]

[[films]]
name = "Morvane 320"

[[developers]]
name = "Brackwater"
pairs = [{ cold = "20 C", cold_time = "10:00", warm = "24 C", warm_time = "7:30" }]

[[processes]]
name = "drum"
developer = "Brackwater"
dilution = "1+24"
[[processes.baths]]
does = "presoak"
time = "2:00"
[[processes.baths]]
does = "develop"
bottle = "d"
share = 0.5
[[processes.baths]]
does = "develop"
share = 0.5
[[processes.baths]]
does = "wash_aid"
time = "1 min"

[[bottles]]
mark = "D"
holds = "Brackwater"
mixed = 2026-11-01
keeps_until = 2026-12-01

[[vessels]]
name = "drum"
kind = "drum"
places = { "9x12cm" = 6, "4x5" = 6 }
min = "300 ml"
max = "1 l"

[[vessels]]
name = "trays"
kind = "tray"
places = 8
min = "500 ml"
max = "1.5 l"

[[aims]]
name = "grade 2"
for = "graded-paper"
range = 1.05

[[sheets]]
label = "larch by  the weir"
film = "TOLLAND 100"
shadow = { ev = 8, zone = 3 }
highlight = { ev = 13, zone = 8 }
meant = { aperture = "f/22", time = "1/15 s" }
set = { aperture = 22, time = "1/2 s" }
mishaps = ["bellows-forgotten"]
twin = "7 right"
aim = "Grade 2"

[[sheets]]
holder = "7 right"
film = "Tolland 100"
n = "N-1"
"""


def refused(text: str) -> list[WetsideError]:
    with pytest.raises(WetsideError) as caught:
        evening_of_text(text)
    return list(caught.value.errors) if isinstance(caught.value, ManyErrors) else [caught.value]


def codes(errors: Iterable[WetsideError]) -> list[tuple[str, int | None, str | None]]:
    return [(e.code, e.place.line if e.place else None, e.place.field if e.place else None) for e in errors]


def test_a_full_file_is_read() -> None:
    """Every kind of value arrives in house units, names as declared, twins mutual."""
    evening = evening_of_text(FULL)
    film = evening.films[0]
    assert evening.date == dt.date(2026, 11, 25)
    assert evening.process == "drum"
    assert evening.floor_s == 270.0
    assert evening.thermometer.reads_high_c == 0.4
    assert film.ei == 1.5
    assert film.reciprocity is not None
    assert film.reciprocity.points == ((1.0, 1.5), (10.0, 6.0))
    assert film.times[0].span_s == (420.0, 480.0)
    assert film.times[0].temp_c == pytest.approx(20.0)
    assert film.tests[0].rows == ((6.0, -2.4, 0.12), (6.0, -2.1, 0.21))
    assert evening.vessels[0].places == (("9x12cm", 6), ("4x5in", 6))
    assert evening.vessels[1].places == ((ANY_SIZE, 8),)
    first, second = evening.sheets
    assert first.label == "larch by the weir"
    assert first.film == "Tolland 100"
    assert first.aim == "grade 2"
    assert first.mishaps == (Mishap.BELLOWS_FORGOTTEN,)
    assert first.meant is not None
    assert first.was_set is not None
    assert first.meant.aperture_n == first.was_set.aperture_n == 22.0
    assert first.meant.time_s == pytest.approx(1 / 15)
    assert (first.twin, second.twin) == ("7 right", "larch by the weir")
    assert second.n == -1.0


def test_a_label_and_a_film_are_enough() -> None:
    """Two lines make a sheet, without any declaration."""
    assert evening_of_text(f"format = 1\n{SHEET}").sheets[0].film == "Tolland 100"


def test_the_only_film_need_not_be_named() -> None:
    """Where one film is declared, a sheet takes it."""
    evening = evening_of_text('format = 1\n[[films]]\nname = "Tolland 100"\n[[sheets]]\nholder = "3"\n')
    assert evening.sheets[0].film == "Tolland 100"


def test_all_errors_are_told_at_once_in_their_order() -> None:
    """Each error has its line, its field as a person counts, and the sheet's label."""
    text = """format = 1
proces = "x"
[[films]]
name = "Tolland 100"
[[films.times]]
developer = "Brackwater"
time = 7
[[sheets]]
film = "Tolland 1O0"
label = "7 left"
size = "9x1"
shadow = {ev = 8, zoen = 3}
[[sheets]]
twin = "7 lfet"
mishaps = [
  "bellows-forgoten",
]
suspect = "yes"
"""
    assert codes(refused(text)) == [
        ("files.key.unknown_near", 2, "proces"),
        ("files.unit.missing", 7, "films[1].times[1].time (Tolland 100)"),
        ("files.name.unknown_near", 9, "sheets[1].film (7 left)"),
        ("units.size.bare", 11, "sheets[1].size (7 left)"),
        ("files.key.unknown_near", 12, "sheets[1].shadow.zoen (7 left)"),
        ("files.sheet.half_placed", 12, "sheets[1].shadow (7 left)"),
        ("files.sheet.no_label", 13, "sheets[2]"),
        ("files.name.unknown_near", 14, "sheets[2].twin"),
        ("files.choice.unknown_near", 15, "sheets[2].mishaps"),
        ("files.kind.flag", 18, "sheets[2].suspect"),
    ]


def test_a_bare_number_is_refused_with_what_to_write() -> None:
    """The sentence names file, line, field, value, and the way to write it."""
    (error,) = refused('format = 1\n[[films]]\nname = "Tolland 100"\ntimes = [{ developer = "B", time = 7 }]\n' + SHEET)
    assert speak_error(error, ()) == (
        'evening.toml, line 4, films[1].times[1].time (Tolland 100): "7" has no unit. Write it with its unit and in '
        'quotation marks: time = "7:30".'
    )


@pytest.mark.parametrize(
    ("text", "code"),
    [
        pytest.param("[[sheets]", "files.toml.unclosed", id="bracket"),
        pytest.param("format = 1\nformat = 1", "files.toml.twice", id="twice"),
        pytest.param("time = 7:30", "files.toml.rest", id="quantity-bare"),
        pytest.param("n = 0,5", "files.toml.rest", id="comma"),
        pytest.param("name = first", "files.toml.value", id="word-bare"),
        pytest.param('name = "first', "files.toml.quotes", id="quote"),
        pytest.param('name = "a\\w"', "files.toml.backslash", id="backslash"),
        pytest.param("date = 2026-02-30", "files.toml.date", id="day"),
        pytest.param("name", "files.toml.no_equals", id="no-equals"),
        pytest.param("= 3", "files.toml.statement", id="no-key"),
        pytest.param("a = [1, 2", "files.toml.unclosed", id="list"),
        pytest.param("a = '\x01'", "files.toml.character", id="control"),
        pytest.param("a." * 30 + "a = 1", "files.toml.too_deep", id="deep-key"),
        pytest.param("a = " + "[" * 5000, "files.toml.nested", id="nested"),
        pytest.param("format = " + "9" * 5000, "files.toml.digits", id="digits"),
    ],
)
def test_mistakes_of_form_are_said_in_our_words(text: str, code: str) -> None:
    """A text that is no TOML names its line and what to do."""
    (error,) = refused(text)
    assert error.code == code
    assert "Write" in (said := speak_error(error, ())) or len(said) > 30


@pytest.mark.parametrize(
    ("line", "code"),
    [
        pytest.param("n = nan", "files.number.not_finite", id="nan"),
        pytest.param("n = inf", "files.number.not_finite", id="inf"),
        pytest.param("n = true", "files.kind.number", id="bool"),
        pytest.param("n = 9", "files.number.out_of_range", id="range"),
        pytest.param("n = 0x" + "f" * 4000, "files.number.out_of_range", id="huge"),
        pytest.param('n = "N-x"', "units.number.unreadable", id="n-word"),
        pytest.param("exposed = 2026-11-25T10:00:00", "files.kind.date", id="time-of-day"),
        pytest.param('exposed = "25.11.2026"', "files.kind.date", id="day-first"),
        pytest.param('holder = ""', "files.text.empty", id="empty"),
        pytest.param("holder = 7", "files.kind.text", id="number-for-text"),
        pytest.param('holder = "a\\u001b[2J"', "files.text.control", id="control"),
        pytest.param(f'holder = "{"a" * 400}"', "files.text.too_long", id="long"),
        pytest.param("mishaps = 'bellows-forgotten'", "files.kind.list", id="no-list"),
        pytest.param("mishaps = ['wrong-rating', 'Wrong rating']", "files.list.twice", id="word-twice"),
        pytest.param("importance = 'dear'", "files.choice.unknown", id="word"),
        pytest.param("size = '9 cm'", "units.size.unreadable", id="size"),
        pytest.param("meant = 3", "files.kind.table", id="no-table"),
        pytest.param("meant = { time = '8' }", "units.duration.bare", id="time-bare"),
        pytest.param("twin = '7 LEFT'", "files.twin.itself", id="own-twin"),
        pytest.param("n = 0\nscene = 5", "files.sheet.two_ranges", id="two-ranges"),
        pytest.param(
            "shadow = { ev = 9, zone = 3 }\nhighlight = { ev = 8, zone = 7 }", "files.sheet.ev_order", id="ev"
        ),
        pytest.param(
            "shadow = { ev = 8, zone = 7 }\nhighlight = { ev = 9, zone = 3 }", "files.sheet.zone_order", id="zone"
        ),
        pytest.param("mishaps = ['wrong-film']", "files.sheet.wrong_film", id="wrong-film"),
        pytest.param("set = { extension = '10 cm', focal = '150 mm' }", "files.exposure.extension", id="extension"),
    ],
)
def test_a_wrong_value_of_a_sheet_is_refused(line: str, code: str) -> None:
    """One wrong value gives one error, on its own line."""
    errors = refused(f"format = 1\n{SHEET}{line}\n")
    assert [error.code for error in errors] == [code]
    assert all(error.place and error.place.line and error.place.line >= 5 for error in errors)


@pytest.mark.parametrize(
    ("table", "code"),
    [
        pytest.param("[[vessels]]\nname='v'\nkind='drum'\nplaces={}\nmin='1 l'\nmax='2 l'", "files.places.empty", id="no-place"),
        pytest.param("[[vessels]]\nname='v'\nkind='drum'\nplaces=0\nmin='1 l'\nmax='2 l'", "files.number.out_of_range", id="zero"),
        pytest.param("[[vessels]]\nname='v'\nkind='drum'\nplaces=2.5\nmin='1 l'\nmax='2 l'", "files.kind.places", id="half"),
        pytest.param("[[vessels]]\nname='v'\nkind='drum'\nplaces={'9x12'=1,'9x12cm'=2}\nmin='1 l'\nmax='2 l'", "files.places.twice", id="size-twice"),
        pytest.param("[[vessels]]\nname='v'\nkind='drum'\nplaces=1\nmin='2 l'\nmax='1 l'", "files.vessel.limits", id="min-max"),
        pytest.param("[[films]]\nname='Tolland 100'\n[[films]]\nname='tolland  100'", "files.name.twice", id="name-twice"),
        pytest.param("[films]\nname='Tolland 100'", "files.kind.tables", id="one-bracket"),
        pytest.param("[[films]]\nname='Tolland 100'\nreciprocity={power=1.3, table=[['1 s', 2]]}", "files.reciprocity.two", id="two-laws"),
        pytest.param("[[films]]\nname='Tolland 100'\nreciprocity={}", "files.reciprocity.none", id="no-law"),
        pytest.param("[[films]]\nname='Tolland 100'\nreciprocity={table=[['2 s', 2],['1 s', 3]]}", "files.points.not_rising", id="not-rising"),
        pytest.param("[[films]]\nname='Tolland 100'\ntests=[{developer='B'}]", "files.test.none", id="no-readings"),
        pytest.param("[[films]]\nname='Tolland 100'\ntests=[{developer='B', readings='r.csv', rows=[[1,2,3]]}]", "files.test.two", id="two-readings"),
        pytest.param("[[films]]\nname='Tolland 100'\ntests=[{developer='B', readings='../r.csv'}]", "files.beside.elsewhere", id="climbs"),
        pytest.param("[[films]]\nname='Tolland 100'\ntimes=[{developer='B', time='8:00-7:00'}]", "units.duration.span_reversed", id="span"),
        pytest.param("[[films]]\nname='Tolland 100'\ntimes=[{developer='B', time='7:00', dilution='1:9'}]", "chemistry.dilution.colon", id="colon"),
        pytest.param("[[developers]]\nname='B'\npairs=[{cold='24 C', cold_time='9:00', warm='20 C', warm_time='7:00'}]", "files.pair.temperatures", id="cold"),
        pytest.param("[[developers]]\nname='B'\npairs=[{cold='20 C', cold_time='7:00', warm='24 C', warm_time='9:00'}]", "files.pair.times", id="times"),
        pytest.param("[[bottles]]\nmark='D'\nholds='B'\nmixed=2026-01-02\nkeeps_until=2026-01-01", "files.bottle.dates", id="dates"),
        pytest.param("[[processes]]\nname='p'\ndeveloper='B'\nbaths=[{does='fix', time='5:00'}]", "files.bath.no_developer", id="no-developer"),
        pytest.param("[[processes]]\nname='p'\ndeveloper='B'\nbaths=[{does='develop'},{does='fix'}]", "files.bath.no_time", id="no-time"),
        pytest.param("[[processes]]\nname='p'\ndeveloper='B'\nbaths=[{does='develop', share=0.4},{does='develop', share=0.4}]", "files.bath.shares", id="shares"),
        pytest.param("[[processes]]\nname='p'\ndeveloper='B'\nbaths=[{does='develop', share=1},{does='develop'}]", "files.bath.shares_leave_nothing", id="nothing-left"),
        pytest.param("[[processes]]\nname='p'\ndeveloper='Bracwater'\n[[developers]]\nname='Brackwater'", "files.name.unknown_near", id="developer"),
        pytest.param("[[processes]]\nname='p'\ndeveloper='B'\nbaths=[{does='develop', bottle='x'}]\n[[bottles]]\nmark='D'\nholds='B'", "files.name.unknown_any", id="bottle"),
        pytest.param("[[aims]]\nname='a'\nfor='graded-paper'", "files.key.missing", id="missing"),
        pytest.param("[[sheets]]\nlabel='7 LEFT'\nfilm='Tolland 100'", "files.sheet.twice", id="label-twice"),
        pytest.param("[[sheets]]\nlabel='x'", "files.sheet.no_film", id="no-film"),
        pytest.param("[[sheets]]\nlabel='x'\nfilm='f'\nprocess='p'", "files.name.unknown_none", id="no-process"),
    ],
)  # fmt: skip
def test_tables_that_cannot_be_true_are_refused(table: str, code: str) -> None:
    """One contradiction gives one error."""
    assert [error.code for error in refused(f"format = 1\n{SHEET}{table}\n")] == [code]


def test_two_films_must_be_told_apart() -> None:
    """A sheet without a film is refused where there are two."""
    (error,) = refused("format=1\n[[films]]\nname='a'\n[[films]]\nname='b'\n[[sheets]]\nlabel='x'\n")
    assert error.code == "files.sheet.which_film"


def test_a_chain_of_three_twins_is_refused() -> None:
    """Twins come in pairs."""
    text = "format = 1\n" + "".join(
        f"[[sheets]]\nfilm='f'\nlabel='{own}'\ntwin='{other}'\n" for own, other in (("a", "b"), ("b", "c"), ("c", "b"))
    )
    (error, *_) = refused(text)
    assert isinstance(error, ConflictError)
    assert error.code == "files.twin.third"


def test_no_sheet_is_an_error() -> None:
    """A file without sheets is told what to add."""
    assert codes(refused("format = 1\n")) == [("files.evening.no_sheets", None, None)]


def test_a_newer_format_is_refused_before_its_keys() -> None:
    """Unknown keys of a newer format are not called mistakes."""
    (error,) = refused("format = 2\nnew = 1\n")
    assert isinstance(error, RefusedError)


def test_endless_errors_are_cut_short() -> None:
    """After a thousand errors the reader stops and says so."""
    errors = refused("format = 1\n" + "".join(f"k{index} = 1\n" for index in range(3000)))
    assert len(errors) == 1001
    assert errors[-1].code == "files.too_many"


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(b"\xef\xbb\xbfformat = 1\r\n" + SHEET.replace("\n", "\r\n").encode(), id="bom-crlf"),
        pytest.param(b"\xff\xfe" + f"format = 1\n{SHEET}".encode("utf-16-le"), id="utf-16-le"),
        pytest.param(b"\xfe\xff" + f"format = 1\n{SHEET}".encode("utf-16-be"), id="utf-16-be"),
        pytest.param(f"format = 1\n{SHEET}".replace("\n", "\r").encode(), id="old-line-ends"),
    ],
)
def test_other_ways_of_saving_text_are_read(tmp_path: Path, data: bytes) -> None:
    """Marks in front, line ends of other systems and UTF-16 with its mark do no harm."""
    path = tmp_path / "evening.toml"
    path.write_bytes(data)
    assert read_evening(path).sheets[0].label == "7 left"


@pytest.mark.parametrize(
    ("data", "code", "line"),
    [
        pytest.param(b"format = 1\nname = '\xe5'\n", "files.text.not_utf8", 2, id="latin"),
        pytest.param(b"format = 1\n\n\0", "files.text.nul", 3, id="nul"),
        pytest.param("format = 1".encode("utf-16-le"), "files.text.nul", 1, id="utf-16-without-mark"),
        pytest.param(b"#" * 5_000_001, "files.file.too_large", None, id="large"),
    ],
)
def test_what_is_no_text_is_refused(tmp_path: Path, data: bytes, code: str, line: int | None) -> None:
    """The first wrong byte's line is named."""
    path = tmp_path / "evening.toml"
    path.write_bytes(data)
    with pytest.raises(WetsideError) as caught:
        read_evening(path)
    assert caught.value.code == code
    assert caught.value.place is not None
    assert caught.value.place.line == line


def test_a_missing_file_names_the_nearest(tmp_path: Path) -> None:
    """A slip in the file's name is answered with the file that is there."""
    (tmp_path / "evening.toml").write_text("")
    with pytest.raises(UnknownNameError) as caught:
        read_evening(tmp_path / "evning.toml")
    assert caught.value.params["nearest"] == "evening.toml"


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("", "files.file.folder"),
        ("nowhere/evening.toml", "files.file.no_folder"),
        ("quite-else", "files.file.missing"),
        ("nul\0byte", "files.file.unreadable"),
        ("x" * 5000, "files.file.unreadable"),
    ],
)
def test_paths_that_lead_to_no_file_are_refused(tmp_path: Path, name: str, code: str) -> None:
    """Folders, missing folders and impossible names are told apart."""
    with pytest.raises(WetsideError) as caught:
        read_evening(f"{tmp_path}/{name}")
    assert caught.value.code == code


def test_a_device_is_not_waited_for() -> None:
    """What is no ordinary file is refused without being opened."""
    with pytest.raises(WetsideError) as caught:
        read_evening("/dev/zero")
    assert caught.value.code == "files.file.not_plain"


def test_readings_beside_the_file_are_read_in(tmp_path: Path) -> None:
    """An evening is complete in itself: the rows stand in it, and the source names the file."""
    (tmp_path / "r.csv").write_text("dev_min,log_h,density\n6,-2.1,0.2\n6,-2.4,0.1\n")
    (tmp_path / "e.toml").write_text(
        "format=1\n[[films]]\nname='f'\ntests=[{developer='B', readings='r.csv'}]\n[[sheets]]\nlabel='x'\n"
    )
    test = read_evening(tmp_path / "e.toml").films[0].tests[0]
    assert test.rows == ((6.0, -2.4, 0.1), (6.0, -2.1, 0.2))
    assert (test.readings, test.source) == (None, "r.csv")


def test_errors_of_a_named_file_keep_their_own_lines(tmp_path: Path) -> None:
    """The readings' errors stand after the evening's own, with the readings' lines."""
    (tmp_path / "r.csv").write_text("dev_min,log_h,density\n6,-2.1,x\n")
    (tmp_path / "e.toml").write_text(
        "format=1\nnmae='x'\n[[films]]\nname='f'\ntests=[{developer='B', readings='r.csv'},"
        " {developer='B', readings='no.csv'}]\n[[sheets]]\nlabel='x'\n"
    )
    with pytest.raises(ManyErrors) as caught:
        read_evening(tmp_path / "e.toml")
    assert [(e.code, e.place and (e.place.file or "")[-6:], e.place and e.place.line) for e in caught.value.errors] == [
        ("files.key.unknown_near", "e.toml"[-6:], 2),
        ("files.file.missing", "e.toml"[-6:], 5),
        ("units.number.unreadable", "/r.csv", 2),
    ]


def test_a_full_file_is_written_as_a_person_would() -> None:
    """What the writer writes reads back equal, twins and all, and is stable."""
    evening = evening_of_text(FULL)
    text = write_evening(evening)
    assert evening_of_text(text) == evening
    assert write_evening(evening_of_text(text)) == text
    assert '[[films.times]]\ndeveloper = "brackwater"\ntime = "7:00-8:00"\ndilution = "1+24"\n' in text
    assert "shadow = { ev = 8, zone = 3 }\n" in text


@pytest.mark.parametrize(
    "name", ["\N{ZERO WIDTH SPACE}", "\N{COMBINING ACUTE ACCENT}", "\N{SOFT HYPHEN} \N{WORD JOINER}"]
)
def test_a_name_that_nobody_sees_is_none(name: str) -> None:
    """Letters without ink are refused like an empty name; marks on a letter are kept."""
    key = declared_keys(Film)["name"]
    with pytest.raises(InputError) as refused:
        name_value(name, key)
    assert refused.value.code == "files.text.empty"
    assert name_value(f"e{name}", key) == " ".join(f"e{name}".split())
