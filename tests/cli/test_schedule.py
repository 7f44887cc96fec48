"""``wetside schedule``: a whole evening as a process, its order, its pages, and what a look does to what is left."""

from __future__ import annotations

import json
import shutil

import pytest
from jsonschema import Draft202012Validator

EVENING = "examples/schedule/evening.toml"


def test_the_evening_is_in_order(wetside):
    """Steps come in order of their beginning, and one pair of hands never does two at once."""
    ran = wetside("schedule", EVENING, "--json")
    assert (ran.code, ran.err) == (0, "")
    steps = ran.document["steps"]
    begins = [step["starts_s"] for step in steps]
    assert begins == sorted(begins)
    ends = [step["starts_s"] + step["lasts_s"] for step in steps]
    assert all(end <= begin + 1e-6 for end, begin in zip(ends, begins[1:], strict=False))
    assert ran.document["ends_s"] == pytest.approx(ends[-1])
    runs = [step["load"] for step in steps if step["does"] == "run"]
    assert sorted(runs) == [1, 2, 3]


def test_pages_are_written(wetside, tmp_path):
    """``--out`` leaves the three pages for the wall as PDF and HTML, and says so."""
    ran = wetside("schedule", EVENING, "--out", tmp_path)
    assert ran.code == 0
    names = {path.name for path in tmp_path.iterdir()}
    assert {f"{page}.{kind}" for page in ("evening", "safety", "house") for kind in ("pdf", "html")} <= names
    assert all((tmp_path / f"{page}.pdf").read_bytes().startswith(b"%PDF-") for page in ("evening", "safety", "house"))
    assert all(name in ran.out for name in names)


def test_a_refused_evening_has_its_code(wetside, tmp_path):
    """Sheets that got no time are told by the exit code too, as ``wetside plan`` tells them."""
    planned = wetside("plan", "examples/b3/evening.toml")
    assert wetside("schedule", "examples/b3/evening.toml").code == planned.code


def test_the_course_is_kept(wetside, tmp_path):
    """``course.json`` carries its format, fits its schema, and is what ``--json`` prints."""
    printed = wetside("schedule", EVENING, "--out", tmp_path, "--json").document
    kept = json.loads((tmp_path / "course.json").read_text("utf-8"))
    assert kept == printed
    assert (kept["format"], kept["name"]) == (1, "The kiln yard")
    Draft202012Validator(wetside("schema", "course").document).validate(kept)


@pytest.mark.parametrize("command", ["schedule"])
def test_help(wetside, command):
    """``--help`` names the JSON form and shows the command in use."""
    ran = wetside(command, "--help")
    assert ran.code == 0
    assert "--json" in ran.out
    assert f"wetside {command} " in ran.out.partition("example:")[2]


def test_a_fault_names_line_and_key(wetside, tmp_path):
    """A wrong hour is refused with its line; nothing is written."""
    folder = tmp_path / "schedule"
    shutil.copytree("examples/schedule", folder)
    path = folder / "evening.toml"
    text = path.read_text("utf-8")
    start = next(line for line in text.splitlines() if line.startswith("starts"))
    path.write_text(text.replace(start, 'starts = "25:70"'), "utf-8")
    ran = wetside("schedule", path, "--out", tmp_path / "pages")
    assert ran.code != 0
    assert "starts" in ran.err
    assert "25:70" in ran.err
    assert not (tmp_path / "pages").exists()
