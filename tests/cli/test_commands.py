"""Help, JSON, exit codes and completion of every command."""

from __future__ import annotations

import subprocess

import pytest

from wetside.chemistry.water import SCALES
from wetside.cli.parser import build_parser

COMMANDS = (
    *("plan", "why", "schedule", "mix", "expose", "curve"),
    *("temper", "fixer", "wash", "paper", "negative", "schema", "complete"),
)
TABLET = "examples/demo/tolland-100.csv"
DEMO = "examples/demo/evening.toml"


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_an_example(wetside, command):
    """``--help`` ends well, names the JSON form and shows the command in use."""
    ran = wetside(command, "--help")
    assert (ran.code, ran.err) == (0, "")
    assert "--json" in ran.out
    assert f"wetside {command} " in ran.out.partition("example:")[2]
    assert all(len(line) <= 100 for line in ran.out.splitlines())


def test_help_names_all_commands(wetside):
    """The program's own help lists every command; without a command it is shown and the code is 2."""
    ran = wetside("--help")
    assert ran.code == 0
    assert all(f"\n    {command} " in ran.out for command in COMMANDS)
    bare = wetside()
    assert (bare.code, bare.out, bare.err) == (2, "", ran.out)


def test_the_version_is_one_line(wetside):
    """``--version`` says name and number."""
    ran = wetside("--version")
    assert ran.code == 0
    assert ran.out.startswith("wetside 0.")
    assert ran.out.count("\n") == 1


@pytest.mark.parametrize(
    ("words", "keys"),
    [
        (
            ("mix", "1+24", "600ml"),
            {"dilution", "concentrate_ml", "parts_ml", "water_ml", "total_ml", "warnings"},
        ),
        (("expose", "2s", "--power", "1.3"), {"corrected_s", "source", "steps"}),
        (("expose", "--shadow", "9@III", "--highlight", "14@8"), {"placing"}),
        (("curve", TABLET), {"curves"}),
        (("schema", "plan"), {"$schema", "title", "$defs", "properties", "required", "type"}),
        (("complete", "bash"), {"shell", "script"}),
        (("schema", "--check", "docs/formats"), {"stale"}),
    ],
)
def test_json_has_its_keys(wetside, words, keys):
    """Each command prints one JSON document with its stable keys."""
    ran = wetside(*words, "--json")
    assert (ran.code, ran.err) == (0, "")
    assert keys <= set(ran.document)


def test_mix(wetside):
    """1+24 to 600 ml is 24 ml and 576 ml of water, and nothing to warn of."""
    found = wetside("mix", "1+24", "600ml", "--json").document
    assert (found["concentrate_ml"], found["water_ml"], found["total_ml"]) == (24.0, 576.0, 600.0)
    assert found["warnings"] == []
    text = wetside("mix", "1+24", "600ml").out
    assert "24 ml" in text
    assert "safety sheet" in text


def test_mix_knows_hard_water(wetside):
    """15 German degrees are 267.7 mg/l of calcium carbonate: hard, so lime and the last bath are told; 2 are soft."""
    found = wetside("mix", "1+24", "600ml", "--hardness", "15", "--scale", "german", "--json").document
    assert (round(found["hardness_mg_per_l"], 1), found["hardness"]) == (267.7, "hard")
    assert [one["code"] for one in found["warnings"]] == ["chemistry.water.lime", "chemistry.water.last_bath"]
    soft = wetside("mix", "1+24", "600ml", "--hardness", "2", "--scale", "german", "--json").document
    assert (soft["hardness"], soft["warnings"]) == ("soft", [])
    refused = wetside("mix", "1+24", "600ml", "--hardness=-3")
    assert refused.code == 2
    assert "--hardness" in refused.err


def test_mix_tells_hazards_by_concentration(wetside):
    """60 % acetic acid burns the skin, from 25 % on (clp-annex-vi-2020); 1.5 % of it reaches no limit."""
    found = wetside("mix", "1+39", "1l", "--holds", "acetic acid:60%", "--json").document["hazards"]
    assert any(one.startswith("Skin Corr.") for one in found["concentrate"]["classes"])
    assert found["bath"]["classes"] == []
    text = wetside("mix", "1+39", "1l", "--holds", "acetic acid:60").out
    assert "The concentrate: " in text
    assert "The mixed bath: " in text
    assert "safety sheet" in text


@pytest.mark.parametrize(
    "words",
    [
        ("1+9", "1l", "--holds", "acetic acid"),
        ("1+9", "1l", "--holds", "acetic acid:lots"),
        ("1+9", "1l", "--holds", "acetic acid:120"),
        ("1+1+100", "1l", "--holds", "metol:1"),
    ],
)
def test_mix_refuses_ingredients_that_cannot_be(wetside, words):
    """The option is named, and nothing is printed."""
    ran = wetside("mix", *words)
    assert ran.code != 0
    assert ran.out == ""
    assert "--holds" in ran.err


def test_the_scales_of_the_option_are_those_of_the_chemistry():
    """No scale is forgotten on the command line."""
    mix = build_parser("mix").parse_args(["mix", "1+24", "600ml", "--scale", "clark"])
    assert mix.scale == "clark"
    for scale in SCALES:
        assert build_parser("mix").parse_args(["mix", "1+24", "600ml", "--scale", scale]).scale == scale


def test_mix_warns_of_what_cannot_be_measured(wetside):
    """An amount below the measure's smallest is a warning, with the amount that can be measured."""
    found = wetside("mix", "1+100", "250ml", "--json").document
    assert [warning["code"] for warning in found["warnings"]] == ["chemistry.mix.small"]
    assert "1010 ml" in found["warnings"][0]["message"]


def test_parts_are_named_as_in_the_warnings(wetside):
    """A two-part developer's concentrates have one name in the table and in the sentences."""
    text = wetside("mix", "1+2+100", "1l").out
    assert "concentrate 1 " in text
    assert "concentrate 2 " in text


@pytest.mark.parametrize("text", ["1:24", "B", "0+0", "-1+3", "nan+3", "1+24+", "1e999+1", ""])
def test_mix_refuses_what_has_no_one_meaning(wetside, text):
    """A colon, a letter code and what is no dilution end with code 2 and say what to write."""
    ran = wetside("mix", "--", text, "600ml")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("wetside: ")


def test_expose_in_the_right_order(wetside):
    """2 s, filter 4, bellows 270 over 180 mm, exponent 1.31: 18 s, and 44.1 s after reciprocity."""
    words = ("expose", "2s", "--filter", "4", "--extension", "270mm", "--focal", "180mm", "--power", "1.31")
    found = wetside(*words, "--json").document
    assert found["corrected_s"] == pytest.approx(18.0**1.31, rel=1e-12)
    assert f"{found['corrected_s']:.1f}" == "44.1"
    assert [step["factor"] for step in found["steps"][1:3]] == [4.0, 2.25]
    text = wetside(*words).out
    assert text.splitlines()[-1].split() == ["set", "44.1", "s"]
    assert "+1⅓ stops" in text


def test_expose_shows_settings_as_engraved(wetside):
    """1/15 s at f/8 for f/22 reads like the shutter and the lens, not like the powers of two behind them."""
    text = wetside("expose", "1/15s", "--metered-at", "f/8", "--set-to", "f/22").out
    assert "1/15 s" in text
    assert "f/22:" in text
    assert "1/16" not in text
    assert text.splitlines()[-1].split() == ["set", "0.5", "s"]


def test_expose_says_that_reciprocity_is_left_out(wetside):
    """A long time without film and exponent is not called corrected."""
    assert "--power" in wetside("expose", "8s").out
    assert "--power" not in wetside("expose", "1/15s").out


def test_expose_places_a_reading(wetside):
    """EV 9 on zone III sets EV 11; EV 14 then falls on zone VIII, which is N."""
    found = wetside("expose", "--shadow", "9@III", "--highlight", "14@8", "--json").document["placing"]
    assert (found["set_ev"], found["highlight_falls"], found["n"]) == (11.0, 8.0, 0.0)


def synthetic(path, slopes=((6, 0.5), (9, 0.65))):
    """21 steps of 0.15: straight from step 5 on, base + fog 0.10."""
    rows = [
        f"{minutes},{-3 + 0.15 * step:.2f},{0.10 + max(0, step - 4) * 0.15 * slope:.4f}"
        for minutes, slope in slopes
        for step in range(21)
    ]
    path.write_text("dev_min,log_h,density\n" + "\n".join(rows) + "\n")
    return path


def test_curve_measures_a_straight_film(wetside, tmp_path):
    """Of 21 synthetic steps all straight measures are the slope, and the speed point lies where the slope says."""
    found = wetside("curve", synthetic(tmp_path / "r.csv"), "--base-fog", "0.10", "--json").document["curves"]
    assert [curve["dev_min"] for curve in found] == [6.0, 9.0]
    for curve, slope in zip(found, (0.5, 0.65), strict=True):
        assert set(curve) >= {
            *("dev_min", "base_fog", "speed_log_h", "iso_delta", "gradient_150", "contrast_index", "gamma"),
        }
        assert curve["base_fog"] == 0.10
        # The first step after the toe is 0.15 slope above base: the point of 0.10 lies on the straight part from there.
        assert curve["speed_log_h"] == pytest.approx(-3 + 0.15 * 4 + 0.10 / slope, abs=0.02)
        for measure in ("gradient_150", "contrast_index", "gamma"):
            assert curve[measure] == pytest.approx(slope, rel=0.01)


def test_curve_draws(wetside, tmp_path):
    """``--svg`` writes one drawing beside the printed table."""
    readings = synthetic(tmp_path / "r.csv")
    ran = wetside("curve", readings, "--svg", tmp_path / "c.svg")
    assert ran.code == 0
    assert "gradient 1.50" in ran.out
    assert (tmp_path / "c.svg").read_text("utf-8").lstrip().startswith("<")
    assert all(len(line) <= 110 for line in ran.out.splitlines())


def test_curve_by_step(wetside, tmp_path):
    """Readings by step need the tablet, its own or the nominal one; without either the answer says so."""
    path = tmp_path / "s.csv"
    rows = "".join(f"7,{step},{0.1 + 0.08 * max(0, 21 - step):.2f}\n" for step in range(1, 22))
    path.write_text("dev_min,step,density\n" + rows)
    assert wetside("curve", path, "--nominal", "--json").document["curves"][0]["gamma"] is not None
    refused = wetside("curve", path)
    assert refused.code == 2
    assert "--nominal" in refused.err or "tablet" in refused.err


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_knows_every_command_and_option(wetside, shell):
    """The script for each shell names all commands and the options of ``plan``."""
    script = wetside("complete", shell).out
    assert all(command in script for command in COMMANDS)
    assert all(option in script for option in ("vessel", "developer", "json", "out"))


@pytest.mark.needs_program("bash")
def test_completion_for_bash_works(program, wetside):
    """The script is good bash, and completes commands and options."""
    script = wetside("complete", "bash").out
    subprocess.run(["bash", "-n"], input=script, text=True, check=True)
    asked = f'{script}\nCOMP_WORDS=(wetside plan --ves); COMP_CWORD=2; _wetside; echo "${{COMPREPLY[@]}}"'
    told = subprocess.run(["bash", "-c", asked], capture_output=True, text=True, check=True)
    assert told.stdout.split() == ["--vessel"]
    first = f'{script}\nCOMP_WORDS=(wetside wh); COMP_CWORD=1; _wetside; echo "${{COMPREPLY[@]}}"'
    assert subprocess.run(["bash", "-c", first], capture_output=True, text=True, check=True).stdout.split() == ["why"]


def test_schemas_are_fresh_and_can_be_written(wetside, tmp_path):
    """The schemas in the docs fit the types; a folder of one's own is filled and then fresh."""
    assert wetside("schema", "--check", "docs/formats").code == 0
    assert wetside("schema", "--check", tmp_path).code == 2
    assert wetside("schema", "--write", tmp_path).code == 0
    assert wetside("schema", "--check", tmp_path, "--json").document == {"stale": []}
    assert wetside("schema").code == 2


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("plan", DEMO, "--json"), 0),
        (("pln",), 2),
        (("plan", "--bogus"), 2),
        (("plan",), 2),
        (("plan", DEMO, "--film", "FP4 PLUS"), 2),
        (("plan", "examples/b3/evening.toml"), 3),
        (("why", "examples/b3/evening.toml", "1"), 3),
        (("why", DEMO, "nobody"), 2),
        (("plan", "missing.toml"), 4),
        (("plan", "examples"), 4),
        (("curve", "missing.csv"), 4),
        (("curve", TABLET, "--svg", "no/such/folder/c.svg"), 4),
        (("plan", DEMO, "--out", "/dev/null/sheets"), 4),
        (("plan", DEMO, "--out", "README.md"), 4),
        (("plan", DEMO, "--rows", "no/such/rows"), 2),
    ],
)
def test_exit_codes(wetside, words, code):
    """0 done, 2 not to be taken as it stands, 3 refused, 4 a file that cannot be read or written."""
    ran = wetside(*words)
    assert ran.code == code, ran.err
    assert bool(ran.err) == (code in (2, 4) or words[0] == "why")


def test_errors_as_json(wetside):
    """With ``--json`` an error is a document too: code, file, line, field and sentence."""
    ran = wetside("plan", "missing.toml", "--json")
    assert ran.code == 4
    (error,) = ran.document["errors"]
    assert set(error) == {"code", "file", "line", "field", "message"}
    assert error["file"] == "missing.toml"


def test_all_errors_of_a_file_at_once(wetside, tmp_path):
    """Three mistakes of a file are three errors with their lines, and the nearest known key."""
    path = tmp_path / "e.toml"
    path.write_text('format = 1\nflaer = 0.4\n[[sheets]]\nlabel = "a"\nfilm = "X"\nn = "N+99"\nsize = "9 by"\n')
    found = wetside("plan", path, "--json")
    assert found.code == 2
    assert [error["line"] for error in found.document["errors"]] == [2, 6, 7]
    assert "flare" in found.document["errors"][0]["message"]
