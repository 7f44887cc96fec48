"""Published figures, own rows after them, and plans written to a folder."""

from __future__ import annotations

import datetime as dt
import json

import pytest

from wetside.errors import WetsideError
from wetside.planning.documents.evening import Evening, Film, FilmTime, Process, Sheet
from wetside.planning.evening_plan import plan_evening
from wetside.planning.library import Library
from wetside.services.library import load_library
from wetside.services.plan_evening import PlainAnswers, plan_answers
from wetside.services.write_plan import write_plan

ROW = "film,developer,dilution,time_low_s,source\nTolland 100,Brackwater,1+14,450,leaflet\n"


def test_own_rows_are_read_after_ours(tmp_path):
    """A folder of one's own adds rows, and a plan can stand on them."""
    (tmp_path / "own.csv").write_text(ROW)
    ours, both = load_library(), load_library(tmp_path)
    assert tuple(both.points)[: len(ours.points)] == tuple(ours.points)
    assert [point.film for point in tuple(both.points)[len(ours.points) :]] == ["Tolland 100"]
    answers = PlainAnswers(film="Tolland 100", developer="Brackwater", dilution="1+14", number="2")
    assert plan_answers(answers, tmp_path).loads[0].time_s > 0


def test_a_bad_row_names_its_file_and_line(tmp_path):
    """A row that cannot be taken is refused with its place."""
    (tmp_path / "own.csv").write_text(ROW.replace("450", "soon"))
    with pytest.raises(WetsideError) as caught:
        tuple(load_library(tmp_path).points)
    error = getattr(caught.value, "errors", [caught.value])[0]
    assert error.place.file.endswith("own.csv")
    assert error.place.line == 2


@pytest.fixture
def plan():
    evening = Evening(
        format=1,
        films=(Film("Tolland 100", times=(FilmTime("Brackwater", (450.0, 450.0)),)),),
        processes=(Process("p", "Brackwater"),),
        sheets=(Sheet(film="Tolland 100", label="a"),),
    )
    return plan_evening(evening, Library(), today=dt.date(2026, 11, 20), tool="test", inputs={})


def test_a_plan_is_written_whole(plan, tmp_path):
    """Everything that is named was written, into a folder that is made, and the plan reads back."""
    folder = tmp_path / "a" / "b"
    written = write_plan(plan, folder)
    assert all(path.is_file() for path in written)
    assert {path.name for path in folder.iterdir()} == {path.name for path in written}
    assert json.loads((folder / "plan.json").read_text("utf-8"))["loads"][0]["time_s"] == 450


def test_a_folder_that_cannot_be_made(plan, tmp_path):
    """Where a file stands in the way the folder is named, and nothing is lost."""
    (tmp_path / "a").write_text("mine")
    for folder in (tmp_path / "a", tmp_path / "a" / "b", tmp_path / "x\0y"):
        with pytest.raises(WetsideError) as caught:
            write_plan(plan, folder)
        assert caught.value.code == "files.file.unwritable"
    assert (tmp_path / "a").read_text() == "mine"
