"""Kept files: what is written reads back equal, and nothing, however broken, does worse than a refusal."""
# ruff: noqa: E501 (strategies are tables)

from __future__ import annotations

import datetime as dt
import math
import re
import tomllib
import unicodedata
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from wetside.adapters.evening_file import evening_of_text, read_evening
from wetside.adapters.evening_writer import plain_values, write_evening
from wetside.adapters.line_numbers import KeyLines
from wetside.adapters.printable import UNPRINTABLE
from wetside.adapters.readings_file import read_curve_readings
from wetside.adapters.sheet_list import read_sheet_list
from wetside.development import Way
from wetside.errors import ManyErrors, WetsideError
from wetside.planning.documents import evening as types
from wetside.planning.documents.evening import ANY_SIZE, Evening
from wetside.planning.documents.keys import Key, declared_keys
from wetside.planning.documents.words import AfterUse, BathKind, Material, Mishap
from wetside.services.schemas import evening_schema
from wetside.values.dilution import STOCK, dilution_of_parts
from wetside.values.sheet_size import SheetSize
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import Callable

SCHEMA = Draft202012Validator(evening_schema())
HOSTILE = sorted((Path(__file__).resolve().parent.parent / "fixtures/hostile").iterdir())
QUICK = settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])

letters = st.characters(codec="utf-8", exclude_categories=("C", "Z"))
words = (
    st.text(letters, min_size=1, max_size=12)
    .map(lambda text: " ".join(text.split()))
    .filter(lambda text: any(unicodedata.category(letter)[0] != "M" for letter in text))
)
names = words.filter(lambda text: text.casefold() == text)
# A name that holds a dilution is refused where it would be poured undiluted.
developer_names = names.filter(
    lambda text: not re.search(r"\d ?[+:/%\N{RATIO}\N{FULLWIDTH COLON}\N{FULLWIDTH PLUS SIGN}]", text)
)
sizes = st.sampled_from(
    [SheetSize("4x5in", 101.6, 127.0), SheetSize("9x12cm", 90.0, 120.0), SheetSize("13x18cm", 130.0, 180.0)]
)


def numbers(key: Key) -> st.SearchStrategy[float]:
    return st.floats(key.low, key.high, allow_subnormal=False).map(lambda value: value + 0.0)


def spans(key: Key) -> st.SearchStrategy[tuple[float, float]]:
    return st.tuples(numbers(key), numbers(key)).map(lambda pair: (min(pair), max(pair)))


def parts() -> st.SearchStrategy[Any]:
    mixed = st.builds(dilution_of_parts, st.tuples(st.floats(0.5, 20)), st.floats(0, 500))
    two = st.builds(dilution_of_parts, st.tuples(st.integers(1, 9), st.integers(1, 9)), st.integers(0, 200))
    return st.one_of(st.just(STOCK), mixed, two)


def reciprocity_points() -> st.SearchStrategy[tuple[tuple[float, float], ...]]:
    times = st.lists(st.floats(0.01, 3600), min_size=1, max_size=4, unique=True).map(sorted)
    return times.flatmap(lambda found: st.tuples(*(st.tuples(st.just(time_s), st.floats(1, 100)) for time_s in found)))


readings = st.tuples(st.floats(0.5, 60), st.floats(-5, 2), st.floats(0, 4))
KINDS: dict[str, Callable[[Key], st.SearchStrategy[Any]]] = {
    "text": lambda _: words,
    "name": lambda _: names,
    "number": numbers,
    "zones": numbers,
    "whole": lambda key: st.integers(int(key.low or 0), int(key.high or 9)),
    "flag": lambda _: st.booleans(),
    "date": lambda _: st.dates(dt.date(1900, 1, 1)),
    "duration": numbers,
    "clock_time": lambda _: st.integers(0, 24 * 60 - 1).map(lambda minutes: minutes * 60.0),
    "duration_span": spans,
    "temperature": numbers,
    "temperature_step": numbers,
    "volume": lambda key: st.floats(max(key.low or 0.0, 0.0), key.high or 1e6).map(lambda value: value + 0.0),
    "mass": lambda key: st.floats(key.low or 1.0, key.high or 1e5),
    "length": numbers,
    "size": lambda _: sizes,
    "places": lambda _: st.one_of(
        st.integers(1, 99).map(lambda count: ((ANY_SIZE, count),)),
        st.dictionaries(sizes.map(lambda size: size.name), st.integers(1, 99), min_size=1).map(
            lambda d: tuple(d.items())
        ),
    ),
    "dilution": lambda _: parts(),
    "agent_per_area": lambda _: st.floats(1e-4, 100),
    "aperture": lambda _: st.floats(0.5, 1024),
    "choice": lambda key: st.sampled_from(list(key.choices or ())),
    "choices": lambda key: st.lists(st.sampled_from(list(key.choices or ())), unique=True, max_size=3).map(tuple),
    "reciprocity_points": lambda _: reciprocity_points(),
    "curve_rows": lambda _: st.lists(readings, min_size=1, max_size=3).map(tuple),
}
"""A value of each kind that the reader takes."""


def tables(table: type, **fixed: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Random tables of a type: every key may be given or left out."""
    given_keys = {}
    for key in declared_keys(table).values():
        if key.attribute in fixed:
            given_keys[key.attribute] = fixed[key.attribute]
        elif key.kind == "table":
            given_keys[key.attribute] = st.one_of(st.just(key.default), tables(key.table or table))
        elif key.kind == "tables":
            given_keys[key.attribute] = st.just(())
        else:
            value = KINDS[key.kind](key)
            given_keys[key.attribute] = value if key.required else st.one_of(st.just(key.default), value)
    return st.builds(table, **given_keys)


def some(values: list[str]) -> st.SearchStrategy[str | None]:
    return st.sampled_from([None, *values])


@st.composite
def evenings(draw: st.DrawFn) -> Evening:
    """A whole evening that passes the checks between its tables."""
    several = st.lists(names, min_size=1, max_size=2, unique=True)
    film_names, process_names, aim_names = (draw(several) for _ in range(3))
    developers = draw(st.lists(developer_names, min_size=1, max_size=2, unique=True))
    developer = st.sampled_from(developers)
    law = st.one_of(
        tables(types.Reciprocity, points=st.just(()), power=st.floats(1, 2)),
        tables(types.Reciprocity, points=reciprocity_points(), power=st.none()),
    )
    tests = tables(types.FilmTest, developer=developer, readings=st.none(), rows=KINDS["curve_rows"](None))  # type: ignore[arg-type]
    films = tuple(
        draw(
            tables(
                types.Film,
                name=st.just(name),
                reciprocity=st.one_of(st.none(), law),
                times=st.lists(tables(types.FilmTime, developer=developer), max_size=2).map(tuple),
                tests=st.lists(tests, max_size=1).map(tuple),
            )
        )
        for name in film_names
    )
    cold, warm = st.floats(6, 15), st.floats(16, 30)
    pair = tables(types.TimePair, cold_c=cold, warm_c=warm, cold_s=st.floats(500, 900), warm_s=st.floats(100, 499))
    back = draw(st.booleans())  # only what goes back to its bottle can be replenished
    barred = {Way.TWO_BATH} if back else {Way.TWO_BATH, Way.REPLENISHED}
    one_bath_ways = st.sampled_from([way for way in Way if way not in barred])
    bath = tables(types.Bath, does=st.sampled_from([k for k in BathKind if k is not BathKind.DEVELOP]),
                  time_s=st.floats(1, 900), share=st.none(), bottle=st.none(), second=st.none(), third=st.none())  # fmt: skip
    develop = tables(types.Bath, does=st.just(BathKind.DEVELOP), share=st.none(), time_s=st.none(), bottle=st.none(), second=st.none(), third=st.none(),
                     after=st.just(AfterUse.BACK if back else AfterUse.WASTE))  # fmt: skip
    baths = st.one_of(*(() if back else (st.just(()),)), st.tuples(bath, develop, bath))
    labels = draw(st.lists(names, min_size=1, max_size=4, unique=True))
    placed = draw(st.booleans())
    sheets = [
        draw(
            tables(
                types.Sheet,
                film=st.sampled_from(film_names),
                label=st.just(label),
                process=some(process_names),
                aim=some(aim_names),
                scene_stops=st.none(),
                n=st.none() if placed else st.one_of(st.none(), st.floats(-4, 4)),
                shadow=st.just(types.Placed(3.5, 3.0) if placed else None),
                highlight=st.just(types.Placed(8.25, 8.0) if placed else None),
                mishaps=st.lists(st.sampled_from([m for m in Mishap if m is not Mishap.WRONG_FILM]), unique=True).map(tuple),
                in_holder=some(film_names),
                twin=st.none(),
                **{name: st.one_of(st.none(), tables(types.Exposure, focal_mm=st.none()))
                   for name in ("meant", "was_set", "second")},
            )
        )
        for label in labels
    ]  # fmt: skip
    limits = {"min_ml": st.floats(1, 500), "max_ml": st.floats(501, 2000)}
    if draw(st.booleans()):
        limits |= {"mass_g": st.floats(1, 9000), "material": st.sampled_from(Material)}
    else:
        limits |= {"mass_g": st.none(), "material": st.none()}
    return draw(
        tables(
            Evening,
            process=some(process_names),
            aim=some(aim_names),
            sheet_list=st.none(),
            films=st.just(films),
            developers=st.tuples(*(tables(types.Developer, name=st.just(name), pairs=st.lists(pair, max_size=1).map(tuple))
                                   for name in developers)),
            processes=st.tuples(*(tables(types.Process, name=st.just(name), developer=developer, way=one_bath_ways, baths=baths)
                                  for name in process_names)),
            bottles=st.lists(tables(types.Bottle, keeps_until=st.none()), max_size=1).map(tuple),
            vessels=st.lists(tables(types.Vessel, **limits), max_size=1).map(tuple),
            aims=st.tuples(*(tables(types.Aim, name=st.just(name)) for name in aim_names)),
            sheets=st.just(tuple(sheets)),
        )
    )  # fmt: skip


@settings(max_examples=40)
@given(evenings())
def test_what_is_written_reads_back_equal(evening: Evening) -> None:
    """Round trip of every value, and the written values fit the schema."""
    text = write_evening(evening)
    assert evening_of_text(text) == evening
    SCHEMA.validate(plain_values(evening))


def told(reading: Callable[[], object]) -> list[WetsideError]:
    """Errors of a reading; anything but ours passes through and fails the test."""
    try:
        reading()
    except ManyErrors as error:
        errors = list(error.errors)
    except WetsideError as error:
        errors = [error]
    else:
        return []
    for error in errors:
        said = speak_error(error, ())
        assert said
        assert not UNPRINTABLE.search(said), ascii(said)
        assert error.code not in said, "the code has no sentence"
        assert error.place is not None
        assert error.place.file
    return errors


def whole_numbers(document: Any) -> bool:
    """Whether no NaN and no infinity stands anywhere."""
    if isinstance(document, float):
        return math.isfinite(document)
    if isinstance(document, dict):
        return all(whole_numbers(value) for value in document.values())
    return all(whole_numbers(value) for value in document) if isinstance(document, list) else True


def never_worse_than_refused(text: str) -> None:
    read: list[Evening] = []
    told(lambda: read.append(evening_of_text(text)))
    for evening in read:
        assert whole_numbers(plain_values(evening))
        assert evening.sheets


VALID = write_evening(evening_of_text(
    """format = 1
size = "9x12cm"
films = [{ name = "Tolland 100", times = [{ developer = "Brackwater", time = "7:00-8:00", dilution = "1+24" }] }]
vessels = [{ name = "drum", kind = "drum", places = { "9x12cm" = 6 }, min = "300 ml", max = "1 l" }]
aims = [{ name = "a", for = "scanner", range = 1.2 }]
processes = [{ name = "p", developer = "Brackwater", baths = [{ does = "develop" }, { does = "stop", time = "0:30" }] }]
sheets = [
  { label = "1", n = "N-1", twin = "2" },
  { label = "2", shadow = { ev = 8, zone = 3 }, highlight = { ev = 13, zone = 8 }, mishaps = ["wrong-rating"] },
  { holder = "3", set = { aperture = "f/22", time = "1/2 s" }, meant = { time = "1/15 s" }, exposed = 2026-11-01 },
]
"""
))  # fmt: skip
LINES = VALID.split("\n")
SNIPPETS = [
    "[[sheets]]",
    "[sheets]",
    "nan",
    "inf",
    '""',
    "'''",
    "{",
    "]",
    "= 1e999",
    "\\u0000",
    "0x" + "f" * 400,
    "-0.0",
    "é",
    "\x07",
    "\x7f",
    "1:1",
]


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A valid file with a few lines or characters deleted, doubled, swapped or exchanged."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        act = draw(st.sampled_from(["delete", "double", "flip", "insert", "swap", "value"]))
        line = lines[at]
        if act == "delete":
            lines[at] = ""
        elif act == "double":
            lines.insert(at, line)
        elif act == "swap":
            other = draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], line
        elif act == "value":
            lines[at] = f"{line.partition('=')[0]}= {draw(st.sampled_from(SNIPPETS))}"
        else:
            place = draw(st.integers(0, len(line)))
            new = draw(st.sampled_from(SNIPPETS) if act == "insert" else st.characters(codec="utf-8").map(str))
            lines[at] = line[:place] + new + line[place + (act == "flip") :]
    return "\n".join(lines)


@settings(max_examples=150)
@given(mutated())
def test_a_broken_file_is_refused_in_words(text: str) -> None:
    """Slips of the pen in a valid file give our errors only, each of which can be said."""
    never_worse_than_refused(text)


keys_of_all = sorted({name for table in vars(types).values() if isinstance(table, type) and hasattr(table, "__dataclass_fields__")
                      for name in declared_keys(table)})  # fmt: skip
leaves = st.one_of(
    st.booleans(),
    st.integers(-(2**70), 2**70),
    st.floats(),
    st.dates(),
    st.datetimes(),
    st.text(max_size=8),
    st.sampled_from(["7:30", "9x12cm", "600 ml", "20 C", "1+24", "f/22", "N-1", "drum", "develop", "1/15 s", "20"]),
)
trees = st.dictionaries(
    st.one_of(st.sampled_from(keys_of_all), st.text(max_size=5)),
    st.recursive(
        leaves,
        lambda inner: st.one_of(
            st.lists(inner, max_size=3), st.dictionaries(st.sampled_from(keys_of_all), inner, max_size=4)
        ),
        max_leaves=12,
    ),
    max_size=8,
)


@settings(max_examples=150)
@given(trees)
def test_any_tree_is_refused_in_words(tree: dict[str, Any]) -> None:
    """Right keys with wrong values, and wrong keys, in any nesting."""
    from wetside.adapters.evening_file import _Reader

    tree["format"] = 1
    told(lambda: _Reader("e.toml", "", tree).evening())


@QUICK
@given(st.binary(max_size=400))
@example(b"\xff\xfe\xd8")
@example(b"\xef\xbb\xbf")
def test_random_bytes_are_refused_in_words(tmp_path: Path, data: bytes) -> None:
    """Whatever lies on the disk under the names of our files."""
    for name, reader in (
        ("e.toml", read_evening), ("s.csv", read_sheet_list), ("s.xlsx", read_sheet_list), ("r.csv", read_curve_readings),
    ):  # fmt: skip
        path = tmp_path / name
        path.write_bytes(data)
        told(lambda reader=reader, path=path: reader(path))


rows = st.lists(st.lists(st.sampled_from(["a", "7", "label", "film", "", '"', "#", "1,5", "nan", "6", "-2.1", "x\ny", "\x1b[2J", "n", "set time", "1/2 s"]),
                         max_size=5), max_size=6)  # fmt: skip


@QUICK
@given(
    rows,
    st.sampled_from([",", ";", "\t"]),
    st.sampled_from(["", "label,film,n\n", "dev_min,log_h,density\n", "sep=;\n"]),
)
def test_broken_tables_are_refused_in_words(tmp_path: Path, cells: list[list[str]], mark: str, front: str) -> None:
    """Cells that are too many, too few, open, or of the wrong kind."""
    path = tmp_path / "t.csv"
    path.write_text(front + "\n".join(mark.join(row) for row in cells), "utf-8")
    told(lambda: read_sheet_list(path))
    told(lambda: read_curve_readings(path, nominal_step_log_h=0.15))


@pytest.fixture(scope="module")
def workbook() -> bytes:
    import io

    import openpyxl

    book = openpyxl.Workbook()
    book.active.append(["label", "film", "n"])
    book.active.append(["a", "f", 0])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


@settings(QUICK, max_examples=40)
@given(
    st.lists(st.tuples(st.floats(0, 1, exclude_max=True), st.integers(0, 255)), min_size=1, max_size=6),
    st.floats(0.1, 1),
)
def test_a_torn_workbook_is_refused_in_words(
    tmp_path: Path, workbook: bytes, flips: list[tuple[float, int]], kept: float
) -> None:
    """Bytes exchanged and the end cut off."""
    data = bytearray(workbook)
    for share, value in flips:
        data[int(share * len(data))] = value
    path = tmp_path / "t.xlsx"
    path.write_bytes(data[: int(kept * len(data)) + 1])
    told(lambda: read_sheet_list(path))


@pytest.mark.parametrize("path", HOSTILE, ids=lambda path: path.name)
def test_hostile_files_are_refused_in_words(path: Path) -> None:
    """Files written to do harm."""
    assert told(lambda: read_evening(path))


@given(mutated())
def test_lines_are_those_of_the_file(text: str) -> None:
    """Every key that the standard library reads from a file has a line, and on it stands the key."""
    try:
        raw = tomllib.loads(text)
    except ValueError:
        return
    found = KeyLines(text)
    lines = text.split("\n")
    for index, sheet in enumerate(raw.get("sheets", []) if isinstance(raw.get("sheets"), list) else []):
        for key in sheet if isinstance(sheet, dict) else ():
            line = found.line_of(("sheets", index, key))
            assert line is not None
            assert key in lines[line - 1] or not key.isalnum()
