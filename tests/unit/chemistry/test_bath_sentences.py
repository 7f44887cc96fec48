"""Every code of stop, fixer, wash, water, hazards and combinations can be said in full."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import wetside.chemistry
from wetside import chemistry
from wetside.adapters.bath_data import load_combination_table, load_hazard_table
from wetside.chemistry import BathCapacity, Carried, ClearingTest, FilmFixed, FixingBath, TwoBaths
from wetside.errors import WetsideError
from wetside.values.conditions import StopKind
from wetside.values.evidence import Source
from wetside.wording import sentence, speak_error
from wetside.wording.catalog.chemistry_baths import SENTENCES

FOLDER = Path(wetside.chemistry.__file__).parent
MODULES = ("clearing", "fixer", "fixer_baths", "stop_bath", "wash", "water", "hazards", "combinations")
UNIT = Carried(2.0, 2.0, 6.0)
ROWS = [BathCapacity("Own", text, units, 1000.0, Source("own")) for text, units in (("1+4", 20.0), ("1+9", 10.0))]


def clip(clearing_s, temp_c=20.0, film="Tolland 100", dilution="1+4"):
    return ClearingTest(clearing_s, temp_c, film, dilution)


def baths(carried_ml):
    return chemistry.fix_in_two_baths(TwoBaths(FixingBath("A", 500.0), FixingBath("B", 500.0)), 1.0, carried_ml)


REFUSED = {
    "chemistry.fixer.several": lambda: chemistry.fixer_capacity("Own", ROWS),
    "chemistry.fixer.sides": lambda: chemistry.fixer_share([FilmFixed(1.0, coated_sides=3)], 500.0),
    "chemistry.fixer.share_above_one": lambda: chemistry.fixer_share([], 500.0, 20.0, 2.0),
    "chemistry.fixer.temperature": lambda: chemistry.clearing_at_temp_s(clip(50.0), 99.0),
    "chemistry.fixer.other_film": lambda: chemistry.judge_fixer(0.1, clip(50.0), clip(50.0, film="Morvane 320")),
    "chemistry.fixer.other_dilution": lambda: chemistry.judge_fixer(0.1, clip(50.0), clip(50.0, dilution="1+9")),
    "chemistry.baths.strength": lambda: chemistry.gravity_at_strength(1.075, 2.0),
    "chemistry.baths.gravity": lambda: chemistry.gravity_at_strength(0.9, 1.0),
    "chemistry.baths.carried": lambda: baths(900.0),
    "chemistry.baths.not_new": lambda: chemistry.promote_second(baths(10.0), FixingBath("C", 500.0, 3.0)),
    "chemistry.wash.too_many": lambda: chemistry.fills_to_limit(600.0, 0.1, 1000.0, 1.0),
    "chemistry.wash.sides": lambda: chemistry.residual_limit_mg(100.0, coated_sides=3),
    "chemistry.wash.never": lambda: chemistry.slowest_half_time_s(600.0, UNIT, 500.0, (60.0,), 0.7),
    "chemistry.wash.temperature": lambda: chemistry.wash_notes(99.0),
    "chemistry.water.scale": lambda: chemistry.hardness_mg_per_l(1.0, "cups"),
    "chemistry.hazard.percent": lambda: chemistry.mixture_hazards({"metol": 101.0}, load_hazard_table()),
    "chemistry.hazard.over_hundred": lambda: chemistry.mixture_hazards(
        {"metol": 60.0, "borax": 60.0}, load_hazard_table()
    ),
}


def hazard_notes(**percents):
    percents = {name.replace("_", " "): value for name, value in percents.items()}
    return chemistry.mixture_hazards(percents, load_hazard_table()).notes


def pair_notes(first, second):
    return chemistry.wrong_combinations(first, second, load_combination_table()).notes


TOLD = [
    chemistry.judge_fixer(1.1, clip(50.0), clip(120.0)).notes,
    chemistry.judge_fixer(0.1, clip(50.0), clip(60.0, 15.0)).notes,
    chemistry.judge_fixer(0.1, clip(170.0), clip(205.0), tabular=True).notes,
    chemistry.judge_fixer(0.1, clip(150.0), clip(165.0), tabular=True).notes,
    chemistry.judge_fixer(0.1, clip(250.0), clip(250.0), tabular=True).notes,
    chemistry.advice_for_used_fixer(chemistry.FixAgain(20, 50.0), second_bath=True),
    chemistry.advice_for_used_fixer(None, second_bath=False),
    chemistry.judge_stop(1.0, indicator_turned=True).notes,
    chemistry.judge_stop(0.3).notes,
    chemistry.stop_notes(StopKind.ACID, 5.0, 30.0, carbonate_developer=True),
    chemistry.stop_notes(StopKind.WATER, 5.0),
    chemistry.wash_notes(8.0, hardened=True, on_a_wall=True),
    chemistry.water_notes(chemistry.Hardness.HARD),
    *(hazard_notes(**{name.name.replace(" ", "_"): 100.0}) for name in load_hazard_table().substances),
    hazard_notes(moon_dust=1.0),
    hazard_notes(hypo=24.0),
    hazard_notes(metol=0.5, sodium_metabisulfite=2.0),
    hazard_notes(sodium_carbonate=1.0),
    hazard_notes(citric_acid=5.0),
    hazard_notes(sodium_hydroxide=0.6),
    pair_notes("moon dust", "bleach"),
    pair_notes("metol", "sodium carbonate"),
    [(f"chemistry.combination.{row.key}", {}) for row in load_combination_table().wrong],
]


@pytest.mark.parametrize("code", REFUSED)
def test_a_refusal_of_baths_is_said_in_full(code):
    """The sentence finds all its parameters."""
    with pytest.raises(WetsideError) as caught:
        REFUSED[code]()
    assert caught.value.code == code
    said = speak_error(caught.value, ())
    assert said.endswith(".")
    assert "{" not in said
    assert not said.startswith("chemistry.")


def test_every_sentence_of_baths_is_said_somewhere():
    """Notes and refusals of this file say the whole catalogue, each in full."""
    said = {code: sentence(code, params, ()) for notes in TOLD for code, params in notes}
    assert not [text for text in said.values() if "{" in text or "?" in text or not text.endswith(".")]
    assert set(said) | set(REFUSED) == set(SENTENCES)


def test_notes_are_codes_of_the_catalogue():
    """Every code written in these modules stands in their catalogue, or in that of values."""
    written = {
        node.value
        for name in MODULES
        for node in ast.walk(ast.parse((FOLDER / f"{name}.py").read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.startswith("chemistry.")
    }
    assert {code for code in written if not code.endswith(".")} - set(SENTENCES) <= {
        "chemistry.value.negative",
        "chemistry.value.not_finite",
    }
