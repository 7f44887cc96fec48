"""``wetside temper``, ``wash``, ``fixer`` and ``paper`` as processes: worked numbers, JSON, and what is refused."""

from __future__ import annotations

import math
import shlex

import pytest

B6 = ("fixer", "1l", "--film", "52:4x5in", "--tabular", "20:4x5in")
WORN = ("--fresh", "0:50", "--now", "1:50", "--second-bath", "--last", "20")


def test_b6_the_pink_sheets(wetside):
    """Handbook B6: 52/80 + 20/48 of the capacity, clearing past double: change, promote, refix for 2:30."""
    ran = wetside(*B6, *WORN, "--json")
    assert ran.code == 0
    answer = ran.document
    assert answer["action"] == "change"
    assert answer["area_share"] == pytest.approx(52 / 80 + 20 / 48)
    assert answer["clearing_share"] == pytest.approx(110 / 50 - 1)
    codes = [note["code"] for note in answer["notes"]]
    for wanted in ("retire", "promote", "refix", "wash_again", "not_development"):
        assert f"chemistry.fixer.{wanted}" in codes
    assert "2:30" in wetside(*B6, *WORN).out


def test_a_good_fixer_is_kept(wetside):
    """Twelve of eighty sheets have gone through: sixty-eight are left, and the clip says how long to fix."""
    answer = wetside("fixer", "1l", "--film", "12:4x5in", "--fresh", "0:50", "--now", "0:55", "--json").document
    assert (answer["action"], answer["sheets_left"]) == ("keep", 68)
    assert answer["fix_time_s"] == pytest.approx(110.0)


def test_a_makers_capacity_outranks_the_general_one(wetside):
    """ILFORD RAPID FIXER 1+4 takes 24 units to a litre (ilford-rapid-fixer-2002, p. 2)."""
    answer = wetside("fixer", "1l", "--product", "RAPID FIXER", "--film", "96:4x5in", "--json").document
    assert answer["units_per_litre"] == 24.0
    assert answer["area_share"] == pytest.approx(1.0)
    assert answer["action"] == "change"


def test_pouring_into_a_cold_vessel(wetside):
    """300 ml at 20 C into 300 g of polypropylene at 17 C: a mean weighted by heat; poured as told it is right."""
    words = ("temper", "--liquid", "300ml", "--vessel", "300g", "--vessel-at", "17C")
    found = wetside(*words, "--json").document["pouring"]
    of_liquid, of_vessel = 300 * 0.9982 * 4.184, 300 * 1.68
    assert found["poured_c"] == pytest.approx((20 * of_liquid + 17 * of_vessel) / (of_liquid + of_vessel), abs=0.01)
    again = wetside(*words, "--at", f"{found['start_c']:.6f}C", "--json").document["pouring"]
    assert again["poured_c"] == pytest.approx(20.0, abs=1e-4)


def test_a_cold_bath_acts_like_less_time(wetside):
    """Held at its own temperature, the bath's rate is exp(k times what it is off), and the range falls."""
    words = ("temper", "--liquid", "300ml", "--vessel", "300g", "--vessel-at", "17C", "--coefficient", "0.08")
    found = wetside(*words, "--time", "8:00", "--json").document["pouring"]
    assert found["effect"]["time_percent"] == pytest.approx(100 * (math.exp(0.08 * found["off_c"]) - 1), abs=1e-3)
    assert found["effect"]["density"] < 0


def test_a_vessel_of_the_evening(wetside):
    """The evening's drum, room, jacket, aim and pairs give what the same words typed give."""
    words = ("temper", "--evening", "examples/winter/evening.toml", "--vessel", "Drum", "--time", "12:45", "--json")
    found = wetside(*words).document
    typed = wetside(
        *("temper", "--liquid", "300ml", "--vessel", "260g", "--vessel-at", "12C", "--want", "17C", "--time", "12:45"),
        *("--coefficient", f"{found['pouring']['effect']['coefficient_per_c']:.12f}", "--json"),
    ).document
    for name in ("poured_c", "off_c", "start_c"):
        assert found["pouring"][name] == pytest.approx(typed["pouring"][name])
    assert found["pouring"]["effect"]["density"] == pytest.approx(typed["pouring"]["effect"]["density"])
    assert found["pouring"]["effect"]["coefficient_per_c"] == pytest.approx(math.log(985 / 520) / 8)
    planned = wetside("plan", "examples/winter/evening.toml", "--json").document["loads"][0]["warmth"]
    assert planned["pour_c"] == pytest.approx(found["pouring"]["start_c"])


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--vessel", "tub"), 'called "tub"'),
        ((), "--evening needs --vessel"),
        (("--vessel", "drum for six"), "not written down"),
    ],
)
def test_a_vessel_that_the_evening_does_not_know(wetside, words, said):
    """A wrong name, none, or one without its mass is told with what to do."""
    file = "examples/schedule/evening.toml" if "drum for six" in words else "examples/winter/evening.toml"
    ran = wetside("temper", "--evening", file, *words)
    assert ran.code != 0
    assert said in ran.err


def test_a_learned_pace_gives_the_wait(wetside):
    """Two readings teach the time constant; the wait starts from the last of them."""
    words = ("temper", "--bottle", "16C", "--reads", "18C", "--after", "6:00", "--jacket", "24C", "--json")
    answer = wetside(*words).document
    tau_s = 360 / math.log(8 / 6)
    assert answer["learned"]["tau_s"] == pytest.approx(tau_s)
    assert answer["waiting"]["wait_s"] == pytest.approx(tau_s * math.log(6 / 0.3))


def test_water_of_a_temperature(wetside):
    """12 parts of 50 C and 26 of 12 C make 24 C by the criss-cross; by water's heat and density 0.9 % more are hot."""
    answer = wetside("temper", "--hot", "50C", "--cold", "12C", "--want", "24C", "--total", "3.8l", "--json").document
    hot_ml, cold_ml = answer["water"]["hot_ml"], answer["water"]["cold_ml"]
    # By hand from the table of water: 0.98804, 0.99950, 0.99730 g/ml and 209.42, 50.51, 100.74 J/g.
    mass_g = 3800 * 0.99730
    share = (100.74 - 50.51) / (209.42 - 50.51)
    assert hot_ml == pytest.approx(mass_g * share / 0.98804, rel=2e-4)
    assert cold_ml == pytest.approx(mass_g * (1 - share) / 0.99950, rel=2e-4)
    assert answer["water"]["criss_cross_percent"] == pytest.approx(100 * (1200 / hot_ml - 1))
    assert "cli.temper.criss_cross" in [note["code"] for note in answer["notes"]]


def test_a_criss_cross_that_is_near_enough_is_not_mentioned(wetside):
    """At 26 and 18 C the two ways differ by less than half a percent: nothing is said."""
    words = ("temper", "--hot", "26C", "--cold", "18C", "--want", "20C", "--total", "1l", "--json")
    answer = wetside(*words).document
    assert abs(answer["water"]["criss_cross_percent"]) < 0.5
    assert "cli.temper.criss_cross" not in [note["code"] for note in answer["notes"]]
    assert wetside("temper", "--hot", "26C", "--cold", "26C", "--want", "26C", "--total", "1l").code != 0


def test_a_wash_at_balance(wetside):
    """One unit of film carries 10 ml at 60 g/l; each fill of 500 ml leaves 10/510 of it (torzynski-2004)."""
    answer = wetside("wash", "500ml", "--changes", "3", "--json").document
    first = 60.0 * 2.0 * (10 / 510) * 1000 / 516.128
    assert answer["left_ug_per_cm2"] == pytest.approx([first, first / 51, first / 51**2], rel=1e-4)
    assert (answer["changes_needed"], answer["water_l"]) == (2, 1.5)


def test_a_slow_emulsion_is_told(wetside):
    """With a half-time past what the changes allow, the wash is said not to be enough."""
    enough = wetside("wash", "500ml", "--json").document["slowest_half_time_s"]
    codes = {
        factor: [
            note["code"]
            for note in wetside("wash", "500ml", "--half-time", f"{enough * factor:.0f}s", "--json").document["notes"]
        ]
        for factor in (0.9, 1.1)
    }
    assert "cli.wash.too_slow" not in codes[0.9]
    assert "cli.wash.too_slow" in codes[1.1]


def test_a_paper_by_eye(wetside):
    """Seven toned steps of 0.15 are a range of 1.05, true to a step."""
    answer = wetside("paper", "5-11", "--json").document
    assert answer["range"] == pytest.approx(1.05)
    assert answer["uncertainty"] == pytest.approx(0.15)
    assert (answer["iso_range"], answer["grade"]["name"]) == (110, "2")


def test_a_proof_time(wetside):
    """The first strip that equals the next is the proof time."""
    strips = [word for time in ("8s", "10s", "12.7s", "16s") for word in ("--strip", time)]
    assert wetside("paper", *strips, "--same-from", "3", "--json").document["black_s"] == 12.7


def test_density_grade_and_zones_come_before_percent(wetside):
    """What a cold bath does is told in density, then in grades and zones, then as a percentage of time."""
    words = ("temper", "--liquid", "300ml", "--vessel", "300g", "--vessel-at", "17C", "--coefficient", "0.08")
    told = wetside(*words, "--time", "8:00").out
    assert 0 < told.index("density range") < told.index("grade flatter") < told.index("acts like time")


def test_used_fixer_is_told_to_hold_silver_and_the_authority_is_asked(wetside):
    """Whatever becomes of the fixer, silver and the local authority are named; nothing is said to be permitted."""
    for words in ((*B6, *WORN), ("fixer", "1l", "--film", "12:4x5in")):
        told = " ".join(wetside(*words).out.split())
        assert "Used fixer holds silver" in told
        assert "ask your local authority" in told


def test_warmth_brings_its_cautions_and_ice_no_heater(wetside):
    """Hot water, heater and electricity near water are told where they matter."""
    hot = " ".join(wetside("temper", "--hot", "50C", "--cold", "12C", "--total", "1l").out.split())
    assert "Hot water scalds" in hot
    assert "residual-current switch" in hot
    ice = " ".join(wetside("temper", "--bath", "20l", "--bath-at", "26C").out.split())
    assert "residual-current switch" in ice
    assert "scalds" not in ice


def test_an_aim_is_printed_to_be_pasted(wetside, variant):
    """The lines that a paper test prints make the demo evening's file no poorer: it is planned as before."""
    told = wetside("paper", "5-11", "--name", "by eye", "--json").document["evening_file"]
    assert told.splitlines()[0] == "[[aims]]"
    path = variant("demo")
    path.write_text(f"{path.read_text('utf-8')}\n{told}\n", "utf-8")
    assert wetside("plan", path).code == 0
    shown = wetside("paper", "5-11", "--name", "by eye").out
    assert all(f"    {line}" in shown.splitlines() for line in told.splitlines())


@pytest.mark.parametrize("command", ["temper", "fixer", "wash", "paper", "negative"])
def test_examples_of_the_help_run(wetside, command):
    """Every example under --help is a command that answers, as text and as JSON, in any width and alphabet."""
    help_text = wetside(command, "--help", COLUMNS="100").out
    examples = [line.strip() for line in help_text.partition("example:")[2].splitlines() if line.strip()]
    assert examples
    for example in examples:
        words = shlex.split(example)[1:]
        assert wetside(*words, "--json").code == 0
        plain = wetside(*words, PYTHONIOENCODING="ascii")
        assert plain.code == 0
        assert "\\" not in plain.out
        assert max(map(len, wetside(*words, COLUMNS="60").out.splitlines())) <= 60


def test_the_list_fits_a_narrow_terminal(wetside):
    """Processes with their evidence: one line each where there is room, two where there is not."""
    wide, narrow = (wetside("paper", "--list", COLUMNS=columns).out for columns in ("100", "60"))
    assert "published (altphotolist-1996)" in wide
    assert "assumed (common-practice)" in narrow
    assert max(map(len, narrow.splitlines())) <= 60


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("temper",), "--vessel"),
        (("temper", "--vessel", "300g"), "--liquid"),
        (
            ("temper", "--liquid", "1l", "--vessel", "1kg", "--vessel-at", "17C", "--material", "cheese"),
            "polypropylene",
        ),
        (("temper", "--hot", "50C"), "--cold"),
        (("temper", "--bottle", "16C", "--jacket", "24C"), "--tau"),
        (("wash", "500ml", "--changes", "nan"), "--changes"),
        (("wash", "0ml"), "VOLUME"),
        (("wash", "500ml", "--size", "huge"), "--size"),
        (("fixer", "1l", "--film", "52"), "52:4x5in"),
        (("fixer", "1l", "--fresh", "0:50"), "--now"),
        ((*B6, "--last", "20"), "--fresh"),
        (("fixer", "1l", "--promoted", "3"), "--second-bath"),
        (("wash", "500ml", "--flow", "6l"), "--running"),
        (("wash", "500ml", "--limit", "0"), "--limit"),
        (("temper", "--bath", "2l", "--bath-at", "16C"), "--heater"),
        (("paper", "--grade", "12"), "--grade"),
        (("paper", "--process", "printing"), "--process"),
        (("paper", "5-11", "--grade", "2"), "--grade"),
        (("paper",), "5-11"),
        (("paper", "11"), "5-11"),
        (("paper", "11-5"), "11"),
        (("paper", "--strip", "8s"), "--same-from"),
        (("paper", "5-11", "--tablet", "no/such.csv"), "no/such.csv"),
    ],
)
def test_refusals_name_the_option(wetside, words, said):
    """Bad or missing options are refused in one line that names them; nothing is printed as an answer."""
    ran = wetside(*words)
    assert ran.code != 0
    assert ran.out == ""
    assert said in ran.err
