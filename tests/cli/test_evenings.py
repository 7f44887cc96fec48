"""The stories B1 and B3 and the demo evening, from the file to what is printed, through the real program."""

from __future__ import annotations

import json

import pytest
from jsonschema import Draft202012Validator

DEMO = "examples/demo/evening.toml"
OF_PLAN = {"loads", "lower_bound", "ladder", "sheets"}
OF_LOAD = {"sheets", "time_s", "volume_ml", "worst_deviation"}
OF_SHEET = {"id", "time_s", "window_s", "evidence", "stop_error", "reckoning"}
PLAIN_A3 = ('meant = { time = "1/15 s" }\nset = { time = "1/2 s" }\n', "")
"""Change of B1 that takes the misexposure away: eight equal areas, 3.5 units of 516 cm2."""


@pytest.fixture(scope="module")
def plan_schema(root):
    schema = json.loads((root / "docs/formats/plan.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.mark.parametrize(
    ("file", "code"),
    [(DEMO, 0), ("examples/b1/evening.toml", 0), ("examples/b3/evening.toml", 3), ("examples/b3/named.toml", 0)],
)
def test_plans_fit_their_schema(wetside, plan_schema, file, code):
    """The JSON of every example's plan is valid, and has the keys that scripts rely on."""
    ran = wetside("plan", file, "--json")
    assert ran.code == code
    plan = ran.document
    assert [error.message for error in plan_schema.iter_errors(plan)] == []
    assert set(plan) >= OF_PLAN
    assert all(set(load) >= OF_LOAD for load in plan["loads"])
    assert all(set(sheet) >= OF_SHEET for sheet in plan["sheets"])
    assert all({"loads", "worst_deviation"} <= set(rung) for rung in plan["ladder"])


def test_b1_one_load_or_two(wetside):
    """B1: one load at 8:15 leaves A +10.0 % and B -8.3 %; two loads leave nothing. [practice B1]"""
    plan = wetside("plan", "examples/b1/evening.toml", "--json").document
    (load,) = plan["loads"]
    assert (load["time_s"], plan["lower_bound"], plan["proved"]) == (495, 1, True)
    percents = {sheet["film"]: round(sheet["percent"], 1) for sheet in plan["sheets"]}
    assert percents == {"Film A": 10.0, "Film B": -8.3}
    one, two = plan["ladder"]
    assert (one["loads"], one["chosen"], two["loads"], two["worst_deviation"]) == (1, True, 2, 0.0)
    assert one["worst_deviation"] == pytest.approx(1.0)
    assert {sheet["evidence"] for sheet in plan["sheets"]} == {"assumed"}


def test_b1_the_dense_sheet_stays(wetside):
    """B1: the sheet three stops over stays in its load and prints longer."""
    plan = wetside("plan", "examples/b1/evening.toml", "--json").document
    errors = {sheet["id"]: sheet["stop_error"] for sheet in plan["sheets"]}
    assert errors.pop("A3") == pytest.approx(3.0, abs=0.01)
    assert set(errors.values()) == {0.0}
    text = wetside("plan", "examples/b1/evening.toml").out
    assert "stays in its load" in text


@pytest.mark.parametrize(
    ("dilution", "loads", "ratio"),
    [
        # Agent in a litre over 62.5 ml a unit for 3.5 units (218.75 ml), by hand from practice B1.
        ("1+1", 1, None),
        ("1+3", 1, None),
        ("1+5", 1, 1000 / 6 / 218.75),
        ("1+8", 1, 1000 / 9 / 218.75),
        ("1+9", 2, None),
    ],
)
def test_b1_at_other_dilutions(wetside, variant, dilution, loads, ratio):
    """B1: 1+1 and 1+3 pass, 1+5 is graded, 1+8 hardly, and 1+9 refuses eight sheets in one load. [practice B1]"""
    path = variant("b1", PLAIN_A3, ('dilution = "1+3"', f'dilution = "{dilution}"'))
    plan = wetside("plan", path, "--json").document
    assert plan["lower_bound"] == len(plan["loads"]) == loads
    check = plan["loads"][0]["check"]
    if loads == 1 and ratio is None:
        assert check["agent_ratio"] >= 1.0
        assert check["agent_effect_density"] is None
        assert check["binds"] == "agent"
    if ratio is not None:
        assert plan["loads"][0]["volume_ml"] == 1000.0
        assert check["agent_ratio"] == pytest.approx(ratio, rel=1e-9)
        assert check["agent_effect_density"] < 0
        assert check["binds"] == "vessel"
        assert [note["code"] for note in check["passes"]] == [
            "planning.pass_volume",
            "planning.pass_dilution",
            "planning.pass_count",
        ]
    if loads == 2:
        assert [rung["loads"] for rung in plan["ladder"]] == [2]


def test_b1_the_dense_sheet_asks_for_more(wetside, variant):
    """A sheet three stops over counts twice, so that 1+8 no longer carries all eight in one load. [decided 12]"""
    plan = wetside("plan", variant("b1", ('dilution = "1+3"', 'dilution = "1+8"')), "--json").document
    assert {sheet["id"]: sheet["weight"] for sheet in plan["sheets"]}["A3"] == pytest.approx(2.0, abs=0.01)
    assert plan["lower_bound"] == 2


def test_b3_is_refused_outside_the_pairs(wetside):
    """B3: 26 C lies outside the pairs of 20 and 24 C: no time, and a sentence that says what to do."""
    ran = wetside("plan", "examples/b3/evening.toml")
    assert (ran.code, ran.err) == (3, "")
    told = " ".join(ran.out.split())
    assert "26.0 °C lies outside" in told
    assert "20.0 °C to 24.0 °C" in told
    assert "name a coefficient yourself" in told
    why = wetside("why", "examples/b3/evening.toml", "1")
    assert why.code == 3
    assert "26.0 °C lies outside" in why.err


def test_b3_with_a_named_coefficient(wetside):
    """B3: 10:00 at 20 C with a coefficient of 0.097 is 5:35 at 26 C, assumed, and near the floor. [practice B3]"""
    plan = wetside("plan", "examples/b3/named.toml", "--json").document
    (sheet,) = plan["sheets"]
    assert sheet["evidence"] == "assumed"
    assert sheet["time_s"] == pytest.approx(335.3, abs=0.05)  # 600 exp(-0.097 x 6)
    assert plan["loads"][0]["time_s"] == 335
    text = wetside("plan", "examples/b3/named.toml").out
    assert "5:35" in text
    assert "assumed" in text


def test_b3_below_the_floor_is_told(wetside, variant):
    """B3: a time under the user's floor is planned and told, with the share that pour and drain take."""
    path = variant("b3", ('max = "1000 ml"', 'max = "1000 ml"'))
    path.write_text((path.parent / "named.toml").read_text("utf-8").replace("format = 1", 'format = 1\nfloor = "6:00"'))
    notes = wetside("plan", path, "--json").document["loads"][0]["notes"]
    (floor,) = (note["params"] for note in notes if note["code"] == "planning.below_floor")
    assert floor["share"] == pytest.approx(25 / 335, abs=1e-9)  # 7 % of it, practice B3


def test_the_demo_evening(wetside):
    """The demo evening: eleven sheets, the fewest loads proved, twins apart, the suspect alone."""
    plan = wetside("plan", DEMO, "--json").document
    assert len(plan["sheets"]) == 11
    assert plan["unplanned"] == []
    assert plan["proved"] is True
    assert plan["lower_bound"] == len(plan["loads"])
    load_of = {sheet["id"]: sheet["load"] for sheet in plan["sheets"]}
    assert load_of["1 left"] != load_of["1 right"]
    assert next(load for load in plan["loads"] if "8 left" in load["sheets"])["sheets"] == ["8 left"]
    text = wetside("plan", DEMO).out
    assert text.startswith("Eleven sheets, ")
    assert "Fewest possible." in text
    assert "safety sheet" in text


def test_why_leads_to_the_time(wetside):
    """The reckoning of a sheet ends at its time, with evidence marks and sources, however the label is spelled."""
    text = wetside("why", DEMO, "2 RIGHT").out
    assert text.splitlines()[0].startswith("2 right: why ")
    assert "own tablet, 3 October" in text
    sheet = wetside("why", DEMO, "6 left", "--json").document
    assert set(sheet) >= OF_SHEET
    value = None
    for step in sheet["reckoning"]:
        if step["unit"] == "s":
            value = step["value"] if step["factor"] is None else value * step["factor"]
    assert value == pytest.approx(sheet["time_s"], rel=1e-9)


FOUR = ("--film", "FP4 PLUS", "--developer", "ID-11", "--dilution", "1+1", "--count", "12")


def test_options_alone_make_a_plan(wetside):
    """Film, developer, dilution, index, count, size and vessel pick a cited row and plan two loads of six."""
    words = ("plan", *FOUR, "--ei", "125", "--size", "4x5in", "--vessel", "drum:6,300-1000ml")
    plan = wetside(*words, "--json").document
    assert [len(load["sheets"]) for load in plan["loads"]] == [6, 6]
    assert plan["loads"][0]["sheets"] == ["01", "02", "03", "04", "05", "06"]
    assert plan["lower_bound"] == 2
    assert any("harman" in source for source in plan["sources"])


def test_an_ambiguous_film_lists_its_indexes(wetside):
    """Without ``--ei`` a film with several published indexes is refused once, and they are listed."""
    ran = wetside("plan", *FOUR)
    assert (ran.code, ran.out) == (3, "")
    assert ran.err.count("\n") == 1
    assert "50, 125 and 200" in ran.err
    assert "--ei" in ran.err


def test_a_bare_time_is_enough(wetside):
    """A film of which nothing is known is planned for the time from its box, assumed."""
    words = ("--film", "Tolland 100", "--developer", "Brackwater", "--dilution", "1+14", "--time", "7:30")
    plan = wetside("plan", *words, "--count", "4", "--json").document
    (load,) = plan["loads"]
    assert load["time_s"] == 450
    assert {sheet["evidence"] for sheet in plan["sheets"]} == {"assumed"}


def test_an_unknown_film_asks_for_a_time(wetside):
    """A film with no published row and no time is refused with what to give."""
    ran = wetside("plan", "--film", "Tolland 100", "--developer", "Brackwater", "--count", "4")
    assert ran.code == 3
    assert "Tolland 100" in ran.err


@pytest.mark.parametrize(
    ("option", "value", "said"),
    [
        ("--vessel", "drum", "drum:6,300-1000ml"),
        ("--vessel", "bucket:6,300-1000ml", "tray"),
        ("--vessel", "drum:6,1000-300ml", "swap"),
        ("--vessel", "drum:0,300-1000ml", "whole number"),
        ("--count", "0", "whole number"),
        ("--count", "-3", "whole number"),
        ("--count", "1e9", "whole number"),
        ("--count", "999999999999999999999", "whole number"),
        ("--size", "big", "--size"),
        ("--time", "nan", "--time"),
        ("--temp", "68", "--temp"),
        ("--dilution", "1:3", "1+3"),
        ("--ei", "fast", "--ei"),
    ],
)
def test_options_that_cannot_be_taken(wetside, option, value, said):
    """A bad answer ends with code 2 and says which answer, and what would do."""
    words = {"--film": "Tolland 100", "--developer": "Brackwater", "--time": "7:30", "--count": "4", option: value}
    ran = wetside("plan", *(word for pair in words.items() for word in pair))
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err


def test_four_answers_reach_a_run_sheet(wetside, tmp_path):
    """Film, developer, time and count are enough for run sheets on paper. [decided 24]"""
    answers = ("--film", "Tolland 100", "--developer", "Brackwater", "--time", "7:30", "--count", "4")
    ran = wetside("plan", *answers, "--out", tmp_path / "sheets")
    assert ran.code == 0
    names = {path.name for path in (tmp_path / "sheets").iterdir()}
    assert {"plan.json", "windows.svg"} <= names
    for ending in ("pdf", "html", "png"):
        assert any(name.endswith(f".{ending}") for name in names), ending
    assert all(name in ran.out for name in names)


def test_out_twice_is_the_same(wetside, tmp_path):
    """Writing a plan again changes nothing, and leaves files alone that are not its own."""
    own = tmp_path / "notes.txt"
    own.write_text("mine")
    words = ("plan", "examples/b1/evening.toml", "--out", tmp_path)
    assert wetside(*words).code == 0
    first = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert wetside(*words).code == 0
    second = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert set(first) == set(second)
    assert second["notes.txt"] == b"mine"
    assert [name for name in first if first[name] != second[name]] == []


def test_a_plan_stands_by_itself(wetside, tmp_path):
    """The written plan is the printed document, and holds its input and the tool's version."""
    wetside("plan", "examples/b1/evening.toml", "--out", tmp_path)
    plan = json.loads((tmp_path / "plan.json").read_text("utf-8"))
    assert plan == wetside("plan", "examples/b1/evening.toml", "--json").document
    assert plan["tool"].startswith("wetside ")
    assert plan["evening"]["films"][0]["name"] == "Film A"
