"""``wetside expose`` with filters by name, models of long exposures and a flash; ``wetside curve --zones``."""

from __future__ import annotations

import math
import shlex

import pytest

READINGS = "examples/demo/tolland-100.csv"
HP5 = ("expose", "10s", "--film", "HP5 PLUS")


def test_the_maker_is_the_default_and_another_model_can_be_chosen(wetside):
    """10 s: 10^1.31 = 20.4 s by the maker, 10 + 0.101 times 10^1.62 = 14.2 s by added time (gainer-bond)."""
    maker = wetside(*HP5, "--json").document
    assert (maker["model"], maker["corrected_s"]) == ("maker-power", pytest.approx(10**1.31))
    added = wetside(*HP5, "--model", "added-time", "--json").document
    assert (added["model"], added["corrected_s"]) == ("added-time", pytest.approx(10 + 0.101 * 10**1.62))
    assert added["source"] == "gainer-bond"


def test_models_are_compared_at_the_time_that_light_filters_and_bellows_ask_for(wetside):
    """5 s with a factor of 2 is 10 s: the models differ there by log2(20.4 / 14.2); what is assumed does not count."""
    found = wetside("expose", "5s", "--filter", "2", "--film", "HP5 PLUS", "--json").document["models"]
    assert found["metered_s"] == pytest.approx(10.0)
    assert found["spread_stops"] == pytest.approx(math.log2(10**1.31 / (10 + 0.101 * 10**1.62)))
    assert [answer["model"] for answer in found["answers"] if answer["used"]] == ["maker-power"]
    assert {answer["model"]: answer["evidence"] for answer in found["answers"]}["schwarzschild"] == "assumed"


def test_differing_models_are_told_and_shown_when_asked(wetside):
    """Without --compare one sentence says that they differ; with it each stands in a line with its source."""
    plain, asked = wetside(*HP5).out, wetside(*HP5, "--compare").out
    assert "--compare" in plain
    assert "gainer-bond" not in plain
    assert "gainer-bond" in asked
    assert "maker-power (used)" in asked
    assert "--compare" not in wetside("expose", "1s", "--film", "HP5 PLUS").out


def test_an_exponent_of_no_film_is_used_only_when_it_is_chosen(wetside):
    """A film of which nothing is published is refused; Schwarzschild's 0.86 is taken where it is asked for."""
    assert wetside("expose", "10s", "--film", "Tolland 100").code == 2
    found = wetside("expose", "10s", "--film", "Tolland 100", "--model", "schwarzschild", "--json").document
    assert found["corrected_s"] == pytest.approx(10 ** (1 / 0.86))


def test_a_table_that_ends_is_not_carried_on_by_another_films_model(wetside):
    """Beyond the maker's last point the answer is a refusal, not an exponent of no film in particular."""
    ran = wetside("expose", "400s", "--film", "FOMAPAN 100")
    assert ran.code == 3
    assert "100 s" in ran.err


def test_a_filter_by_its_name_is_lent_and_told(wetside):
    """Yellow 1.5 in daylight (agfa-aviphot200-2009): the film's own is published, lent to another it is assumed."""
    own = wetside("expose", "1/8s", "--filter", "yellow", "--film", "Aviphot Pan 200", "--json").document
    assert (own["filters"][0]["factor"], own["filters"][0]["evidence"]) == (1.5, "published")
    words = ("expose", "1/8s", "--filter", "yellow", "--sensitivity", "panchromatic")
    lent = wetside(*words, "--json").document
    assert lent["filters"][0]["evidence"] == "assumed"
    assert lent["corrected_s"] == pytest.approx(0.1875)
    assert lent["steps"][1]["filter"] == "yellow"
    assert "lent by Aviphot Pan 200" in wetside(*words).out


def test_a_meter_set_for_another_light(wetside):
    """ORTHO PLUS is EI 80 in daylight and 40 in tungsten light (ilford-processing-chart-2019): a factor of 2."""
    words = ("expose", "1/4s", "--film", "ORTHO PLUS")
    lamp = wetside(*words, "--light", "tungsten", "--metered-for", "daylight", "--json").document
    sun = wetside(*words, "--light", "daylight", "--metered-for", "tungsten", "--json").document
    assert [lamp["corrected_s"], sun["corrected_s"]] == pytest.approx([0.5, 0.125])


def test_a_filter_that_was_metered_through_is_not_added(wetside):
    """Nothing is multiplied, and for red the meter's own fault is told (harman-hp5-2018)."""
    words = ("expose", "1/2s", "--filter", "deep red", "--metered-through")
    answer = wetside(*words, "--json").document
    assert answer["corrected_s"] == pytest.approx(0.5)
    assert [note["code"] for note in answer["filters"][0]["notes"]] == [
        "exposure.filter.once",
        "exposure.filter.meter_through",
    ]


def test_a_flash_in_stops_and_what_it_costs(wetside):
    """I.5: III gains log2(1 + 2^-1.5) and keeps 0.665 stop to II; a flash is metered 3.5 stops down."""
    answer = wetside("expose", "--flash", "I.5", "--json").document["flash"]
    third = answer["zones"][3]
    assert third["gain_stops"] == pytest.approx(math.log2(1 + 2**-1.5))
    assert third["step_stops"] == pytest.approx(0.665, abs=5e-4)
    assert answer["stops_from_meter"] == -3.5
    assert "separation" in wetside("expose", "--flash", "I.5").out


def test_zones_on_the_demo_curves(wetside):
    """Zone I has net 0.10 on every curve, the target of VIII is a range of 1.05 above it, and no patch is drawn."""
    words = ("curve", READINGS, "--zones", "--aim", "1.05", "--flash", "I.5")
    answer = wetside(*words, "--json").document["zones"]
    for curve in answer["curves"]:
        assert curve["zones"][1]["net_density"] == pytest.approx(0.10, abs=1e-6)
        assert curve["range"] == pytest.approx(curve["zones"][8]["net_density"] - 0.10, abs=1e-6)
        third = curve["flashed"][3]
        assert third["net_before"] == pytest.approx(curve["zones"][3]["net_density"])
        assert third["net_after"] > third["net_before"]
    assert answer["targets"][8]["net_density"] == pytest.approx(1.15)
    plain = wetside(*words, COLUMNS="100").out
    assert "VIII" in plain
    assert not set(plain) & set("\u2588\u2593\u2592\u2591\x1b")


@pytest.mark.parametrize("command", ["expose"])
def test_examples_of_the_help_run(wetside, command):
    """Every example under --help is a command that answers, in a plain alphabet too."""
    help_text = wetside(command, "--help", COLUMNS="100").out
    examples = [line.strip() for line in help_text.partition("example:")[2].splitlines() if line.strip()]
    assert len(examples) > 2
    for example in examples:
        words = shlex.split(example)[1:]
        assert wetside(*words, "--json").code == 0
        assert "\\" not in wetside(*words, PYTHONIOENCODING="ascii").out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("expose", "8s", "--model", "added-time"), "--film"),
        (("expose", "8s", "--film", "FOMAPAN 100", "--model", "added-time"), "--model"),
        (("expose", "8s", "--compare"), "--film"),
        (("expose", "8s", "--power", "1.3", "--film", "HP5 PLUS"), "--power"),
        (("expose", "8s", "--filter", "yellow"), "--sensitivity"),
        (("expose", "8s", "--filter", "mauve", "--sensitivity", "panchromatic"), "--filter"),
        (("expose", "8s", "--filter", "red", "--sensitivity", "orthochromatic"), "Take the filter off"),
        (
            ("expose", "8s", "--filter", "yellow", "--sensitivity", "panchromatic", "--light", "tungsten"),
            "panchromatic in daylight",
        ),
        (("expose", "8s", "--light", "tungsten"), "--light"),
        (("expose", "8s", "--metered-through"), "--filter"),
        (("expose", "8s", "--metered-for", "daylight", "--light", "tungsten"), "--film"),
        (
            ("expose", "8s", "--metered-for", "daylight", "--light", "tungsten", "--film", "HP5 PLUS"),
            "--metered-for",
        ),
        (("expose", "--shadow", "9@3", "--model", "added-time"), "TIME"),
        (("expose", "--flash", "V"), "--flash"),
        (("expose", "--flash", "I", "--flash-gain", "1@3"), "--flash-gain"),
        (("expose", "--flash-gain", "1"), "0.5@III"),
        (("curve", READINGS, "--aim", "1.05"), "--zones"),
        (("curve", READINGS, "--zones", "--n", "-1"), "--aim"),
        (("curve", READINGS, "--zones", "--ei", "0"), "--ei"),
    ],
)
def test_refusals_name_what_is_wrong(wetside, words, said):
    """One line that names the option; nothing is printed as an answer."""
    ran = wetside(*words)
    assert ran.code != 0
    assert ran.out == ""
    assert said in ran.err
