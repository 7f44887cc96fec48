"""Published rows: ours, a user's own, and every error with its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wetside.adapters.starting_points import (
    find_starting_points,
    load_agitation_advice,
    load_reciprocity,
    load_starting_points,
    load_time_pairs,
    pairs_for_developer,
    pick_starting_point,
    reciprocity_for_film,
)
from wetside.development import coefficient_of_pairs, makers_against_presoak
from wetside.errors import AmbiguousError, InputError, ManyErrors, UnknownNameError
from wetside.values.conditions import Agitation, ClockRule
from wetside.values.evidence import Evidence
from wetside.wording import speak_error

if TYPE_CHECKING:
    from pathlib import Path

HEADER = "film,ei,developer,dilution,time_low_s,time_high_s,source"


@pytest.fixture(scope="module")
def points():
    return load_starting_points()


def write(folder: Path, text: str, name: str = "own.csv") -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, "utf-8")
    return folder


def errors_of(folder: Path):
    with pytest.raises(ManyErrors) as caught:
        load_starting_points(folder)
    return caught.value.errors


def test_only_films_sold_as_sheets_are_shipped(points) -> None:
    """No roll film has a starting point."""
    sheets = {"FP4 PLUS", "HP5 PLUS", "DELTA 100", "ORTHO PLUS", "ORTHO PLUS (high contrast)"}
    assert {row.film for row in points} == sheets | {"FOMAPAN 100", "FOMAPAN 200", "FOMAPAN 400"}
    assert all(row.source.key and row.source.date and row.agitation is Agitation.INTERMITTENT for row in points)


def test_sheets_that_agree_are_one_answer_with_all_conditions(points) -> None:
    """Chart and developer sheet print the same; the one that states gradient, volume and clock is taken."""
    row = pick_starting_point(points, "hp5+", "id-11", "1+3")
    assert (row.time_s, row.gradient, row.clock) == (1200.0, 0.62, ClockRule.FULL_TO_DRAINED)
    assert row.agent_ml_per_cm2 * 516.128 == pytest.approx(62.5, abs=0.001)
    assert row.agent_ml_per_cm2 * 516.128 <= 62.5
    assert row.conditions.dilution == "1+3"


def test_overlapping_rows_of_two_sheets_agree(points) -> None:
    """Every powder developer's row that the chart prints too has the same time there."""
    chart = {(r.film, r.ei, r.developer, r.dilution): r.time_s for r in points if r.source.key.startswith("ilford")}
    powder = [r for r in points if r.source.key == "harman-powder-developers-2010"]
    shared = [r for r in powder if (r.film, r.ei, r.developer, r.dilution) in chart]
    assert len(shared) > 60
    assert all(chart[r.film, r.ei, r.developer, r.dilution] == r.time_s for r in shared)


def test_a_contradiction_keeps_both_sides(points) -> None:
    """Two sheets, two times: both are listed, and either can be named."""
    with pytest.raises(AmbiguousError) as caught:
        pick_starting_point(points, "Delta 100", "DD-X", "1+4", ei=200)
    choices = caught.value.params["choices"]
    assert len(choices) == 2
    assert any("12:00" in choice for choice in choices)
    assert any("12:30" in choice for choice in choices)
    assert "12:30" in speak_error(caught.value, ("en",))
    assert pick_starting_point(points, "Delta 100", "DD-X", "1+4", 200, source="harman-ddx-2019").time_s == 720.0


def test_an_open_index_is_ambiguous(points) -> None:
    """Rows for several exposure indexes are not guessed among."""
    with pytest.raises(AmbiguousError) as caught:
        pick_starting_point(points, "HP5 PLUS", "ID-11", "1+1")
    assert len(caught.value.params["choices"]) == 2


def test_the_nearest_temperature_is_taken(points) -> None:
    """A printed 24 C row is better than a converted 20 C row."""
    assert pick_starting_point(points, "FP4 PLUS", "DD-X", "1+4", 125).time_s == 600.0
    assert pick_starting_point(points, "FP4 PLUS", "DD-X", "1+4", 125, temp_c=23.5).time_s == 480.0


def test_the_high_contrast_set_is_apart(points) -> None:
    """It has its own name and states no gradient, because none is printed for it."""
    assert pick_starting_point(points, "ORTHO PLUS", "ID-11", "stock").time_s == 480.0
    hard = pick_starting_point(points, "Ortho Plus (high contrast)", "ID-11", "stock")
    assert (hard.time_s, hard.gradient) == (600.0, None)


def test_ranges_stay_ranges(points) -> None:
    """A printed range has two ends; its middle is its time."""
    row = pick_starting_point(points, "Fomapan 400", "Fomadon LQN", "1+10")
    assert (row.time_low_s, row.time_s, row.time_high_s, row.spread_s) == (540.0, 570.0, 600.0, 30.0)


@pytest.mark.parametrize(
    ("asked", "code", "nearest"),
    [
        (("HP5 PLUSS",), "starting_points.film.unknown", "HP5 PLUS"),
        (("HP5 PLUS", "ID-12"), "starting_points.developer.unknown", "ID-11"),
        (("HP5 PLUS", "ID-11", "1+2"), "starting_points.dilution.unknown", None),
        (("HP5 PLUS", "ID-11", "1+1", 100), "starting_points.index.unknown", None),
    ],
)
def test_unknown_names_tell_what_there_is(points, asked, code: str, nearest: str | None) -> None:
    """The first name that nothing answers to, the known ones, and the nearest."""
    with pytest.raises(UnknownNameError) as caught:
        find_starting_points(points, *asked)
    assert caught.value.code == code
    assert nearest is None or caught.value.params["nearest"] == nearest
    assert caught.value.params["known"]


def test_own_rows_come_after_ours(tmp_path: Path) -> None:
    """A folder of one's own adds rows; times may be written as on a clock, numbers with a comma."""
    text = f'# my notes\n\n{HEADER},temp_c,evidence\nTolland 100,80,Brackwater,1 + 4,7:30,,own notes,"20,5",tested\n'
    rows = load_starting_points(write(tmp_path, text))
    assert rows[-1].film == "Tolland 100"
    assert (rows[-1].time_s, rows[-1].temp_c, rows[-1].dilution.text) == (450.0, 20.5, "1+4")
    assert rows[-1].evidence is Evidence.TESTED
    assert len(rows) == len(load_starting_points()) + 1


def test_a_tested_row_outranks_printed_ones(tmp_path: Path) -> None:
    """One's own test of a film is taken before the sheets."""
    text = f"{HEADER},evidence\nHP5 PLUS,400,ID-11,1+1,700,,own notes,tested\n"
    rows = load_starting_points(write(tmp_path, text))
    assert pick_starting_point(rows, "HP5 PLUS", "ID-11", "1+1", 400).time_s == 700.0


def test_semicolons_are_read(tmp_path: Path) -> None:
    """A spreadsheet of another country writes semicolons and commas, and a mark at the head of the file."""
    text = "\ufeff" + HEADER.replace(",", ";") + "\nTolland 100;80;Brackwater;1+4;450;480,5;own notes\n"
    assert load_starting_points(write(tmp_path / "starting_points", text).parent)[-1].time_high_s == 480.5


def test_all_errors_are_told_with_file_line_and_column(tmp_path: Path) -> None:
    """Nothing is hidden behind the first mistake."""
    text = (
        f"{HEADER},agitation,presoak\n"
        "Tolland 100,80,Brackwater,1:4,450,,own,rotary,no\n"
        "\n"
        "# a remark\n"
        "Tolland 100,many,Brackwater,1+4,7:75,,own,rotery,perhaps\n"
        "Tolland 100,80,,1+4,450,400,,rotary,no\n"
        "Tolland 100,80,Brackwater,1+4,450,,own,rotary,no,more\n"
        "Tolland 100,80,Brackwater,1+0+x,1e9,,own,rotary,\n"
        "Tolland 100,80,Brackwater,0+4,nan,,own,rotary,\n"
    )
    errors = errors_of(write(tmp_path, text))
    found = [(e.place.line, (e.place.field or ""), e.code.partition("starting_points.")[2] or e.code) for e in errors]
    assert found == [
        (2, "dilution", "dilution.unreadable"),
        (5, "ei", "number.unreadable"),
        (5, "time_low_s", "time.unreadable"),
        (5, "agitation", "choice.unknown"),
        (5, "presoak", "choice.unknown"),
        (6, "developer", "cell.empty"),
        (6, "time_high_s", "time.reversed"),
        (6, "source", "cell.empty"),
        (7, "", "row.too_long"),
        (8, "dilution", "dilution.unreadable"),
        (8, "time_low_s", "number.out_of_range"),
        (9, "dilution", "values.dilution.no_agent"),
        (9, "time_low_s", "number.out_of_range"),
    ]
    assert all(error.place.file.endswith("own.csv") for error in errors)
    said = [speak_error(error, ("en",)) for error in errors]
    assert any("intermittent, rotary, stand and tray" in sentence for sentence in said)


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "starting_points.file.empty"),
        (b"# only a remark\n", "starting_points.file.empty"),
        (b"\xff\xfe\x00", "starting_points.file.not_text"),
        (b"film,film,developer,dilution,time_low_s,source\n", "starting_points.column.twice"),
        (b"film,developer,dilution,time_low_s,source,tiem\n", "starting_points.column.unknown"),
        (b"film,developer,dilution,source\n", "starting_points.column.missing"),
        (b"film,developer,dilution,time_low_s,source\n" + b'"' + b"x" * 200_000, "starting_points.file.broken"),
        (b"#" * 5_000_001, "starting_points.file.too_large"),
    ],
)
def test_broken_files(tmp_path: Path, content: bytes, code: str) -> None:
    """A file that is no table of rows is told as such, and can be said."""
    (tmp_path / "own.csv").write_bytes(content)
    errors = errors_of(tmp_path)
    assert code in [error.code for error in errors]
    assert all("{" not in speak_error(error, ("en",)) for error in errors)


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    """It is named."""
    for load in (load_starting_points, load_time_pairs, load_reciprocity):
        with pytest.raises(InputError, match=r"folder\.missing"):
            load(tmp_path / "absent")


def test_a_folder_where_a_file_should_be(tmp_path: Path) -> None:
    """A folder called like a file cannot be opened, and the rest is still read."""
    (tmp_path / "own.csv").mkdir()
    assert [error.code for error in errors_of(tmp_path)] == ["starting_points.file.unreadable"]


def test_pairs_of_a_developer_keep_their_sources_apart() -> None:
    """Two makers' sheets disagree on one developer: the larger gives the value, the other widens the spread."""
    pairs = pairs_for_developer("id-11")
    assert {pair.source.key for pair in pairs} == {"harman-delta400-2018", "foma-100-2022", "foma-400-2023"}
    both, alone = (
        coefficient_of_pairs(pairs),
        coefficient_of_pairs(pairs_for_developer("ID-11", "harman-delta400-2018")),
    )
    assert both.per_c == alone.per_c
    assert both.span_c == (20.0, 24.0)
    assert both.spread > alone.spread
    assert len(both.by_source) == 3


def test_pairs_of_nobody_s_developer() -> None:
    """Where nothing is known nothing is given."""
    assert pairs_for_developer("Brackwater") == ()


def test_own_pairs(tmp_path: Path) -> None:
    """A user's pairs join ours, and a pair that cannot be is told with its line."""
    head = "developer,cold_c,cold_low_s,cold_high_s,warm_c,warm_s,source,evidence\n"
    write(tmp_path / "coefficients", head + "Brackwater,20,7:00,8:00,24,330,own,tested\n")
    (pair,) = load_time_pairs(tmp_path)["Brackwater"]
    assert (pair.cold_s, pair.cold_soft_s, pair.evidence) == (450.0, 30.0, Evidence.TESTED)
    write(tmp_path / "coefficients", head + "Brackwater,24,420,,20,330,own,\nBrackwater,20,420,400,24,x,own,\n")
    with pytest.raises(ManyErrors) as caught:
        load_time_pairs(tmp_path)
    assert [(e.place.line, e.code) for e in caught.value.errors] == [
        (2, "development.pair.not_warmer"),
        (3, "starting_points.number.unreadable"),
    ]


def test_reciprocity_of_sheet_films() -> None:
    """A power and a table, each with its source; what was not read is not shipped."""
    assert reciprocity_for_film("hp5+").model.corrected_s(10.0) == pytest.approx(20.4, abs=0.05)
    assert reciprocity_for_film("FOMAPAN 100").model.corrected_s(10.0) == pytest.approx(80.0)
    assert reciprocity_for_film("FOMAPAN 200") is None


def test_own_reciprocity_replaces_ours(tmp_path: Path) -> None:
    """A film that a user has tested is theirs."""
    write(tmp_path / "reciprocity", "film,power,source\nHP5 PLUS,1.2,own\n")
    assert reciprocity_for_film("HP5 PLUS", tmp_path).model.p == 1.2
    write(tmp_path / "reciprocity", "film,power,metered_s,factor,source\nHP5 PLUS,1.2,10,2,own\nHP5 PLUS,,10,,own\n")
    with pytest.raises(ManyErrors) as caught:
        load_reciprocity(tmp_path)
    assert [error.code for error in caught.value.errors] == ["starting_points.reciprocity.neither"] * 2


def test_advice_has_both_sides() -> None:
    """Who advises against a pre-soak, who for it, and both floors."""
    advice = load_agitation_advice()
    assert [entry.maker for entry in makers_against_presoak(advice.presoak)] == ["ILFORD", "AgfaPhoto"]
    assert any(entry.advises for entry in advice.presoak)
    assert {floor.floor_s for floor in advice.floors} == {180, 300}
    assert all(0.8 <= cut.factor <= 0.9 for cut in advice.cuts)
