"""Formulas for another volume, and their order."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.adapters import chemistry_data as data
from wetside.errors import OutOfRangeError, UnknownNameError

FORMULAS = data.load_formulas()


def names(order):
    return [step.ingredient.name for step in order.steps]


def place(order, name):
    return names(order).index(name)


@pytest.mark.parametrize("key", FORMULAS)
def test_every_formula_names_its_source_and_has_an_order(key):
    """Each is read somewhere, keeps all its ingredients, and begins with half to three quarters of the water."""
    formula = FORMULAS[key]
    assert formula.source.key
    order = chemistry.mixing_order(formula, 2000.0)
    assert sorted(names(order)) == sorted(part.name for part in formula.ingredients)
    assert (order.start_low_ml, order.start_high_ml) == (1000.0, 1500.0)


def test_formulas_known_only_from_an_unsigned_note_do_not_ship():
    """No bath of metol and sulfite alone, in one part or divided, and none without a source that was read."""
    for formula in FORMULAS.values():
        assert {part.role for part in formula.ingredients} != {"metol", "sulfite"}
    assert {formula.source.key for formula in FORMULAS.values()} == {
        "anchell-2008",
        "apug-1141512",
        "bw-technik-formulae",
        "fixer-24",
        "lost-labours-fixer",
        "wellington-handbook",
    }


def test_metol_goes_in_before_sulfite_and_other_agents_after_it():
    """Metol, sulfite, hydroquinone, borax: and the metol says why."""
    order = chemistry.mixing_order(FORMULAS["mq-borax"])
    assert names(order) == ["metol", "sodium sulfite anhydrous", "hydroquinone", "borax decahydrate"]
    assert [code for code, _ in order.steps[0].reasons] == ["chemistry.order.metol_first", "chemistry.order.pinch"]
    assert (order.water_low_c, order.water_high_c) == (32.0, 52.0)


@pytest.mark.parametrize("key", ["plain-acid-fixer", "alum-hardening-fixer"])
def test_acid_never_meets_plain_hypo(key):
    """Sulfite stands between hypo and acid, alum behind both; the whole is told about acid and water."""
    order = chemistry.mixing_order(FORMULAS[key])
    roles = [step.ingredient.role for step in order.steps]
    assert roles.index("hypo") < roles.index("sulfite") < roles.index("acid")
    if "hardener" in roles:
        assert roles[-1] == "hardener"
    assert ("chemistry.caution.acid_into_water", {}) in order.reasons
    assert order.water_low_c == 32.0


def test_a_liquid_fixer_is_not_warmed():
    """Without crystals there is no chill to make up for: not above 27 C."""
    order = chemistry.mixing_order(FORMULAS["alkaline-rapid-fixer"])
    assert (order.water_low_c, order.water_high_c) == (None, 27.0)


def test_what_cannot_be_weighed_is_told_with_the_volume_that_can():
    """2 g of metol to a litre are 0.6 g to 300 ml: half a litre has the gram; a finer scale needs no word."""
    notes = [note for note in chemistry.scale_formula(FORMULAS["mq-borax"], 300.0).notes if note[1]["name"] == "metol"]
    ((code, params),) = notes
    assert code == "chemistry.formula_note.small_weight"
    assert params["total_ml"] == pytest.approx(500.0)
    assert not chemistry.scale_formula(FORMULAS["mq-borax"], 300.0, smallest_g=0.5).notes


def test_a_volume_is_judged_by_the_measure():
    """32 ml of acid to a litre are 6.4 ml to 200 ml, too little for a cylinder."""
    notes = chemistry.scale_formula(FORMULAS["non-swelling-stop"], 200.0).notes
    assert [code for code, _ in notes] == ["chemistry.formula_note.small_volume"]


def test_a_range_is_scaled_at_both_ends():
    """30 to 50 g to a litre are 15 to 25 g to half of it."""
    scaled = chemistry.scale_formula(FORMULAS["bisulfite-stop"], 500.0)
    assert (scaled.ingredients[0].amount, scaled.ingredients[0].amount_high) == (15.0, 25.0)


def test_a_form_that_the_source_leaves_open_is_told():
    """The buffered developer's source says borax, and not which."""
    codes = [code for code, _ in chemistry.scale_formula(FORMULAS["mq-borax-buffered"], 1000.0).notes]
    assert codes == ["chemistry.formula_note.unsaid"] * 2


@pytest.mark.parametrize("total_ml", [0.0, -1.0, 2e6])
def test_a_volume_that_nobody_mixes_is_refused(total_ml):
    """Amounts are 0.1 ml to 1000 l."""
    with pytest.raises(OutOfRangeError):
        chemistry.scale_formula(FORMULAS["mq-borax"], total_ml)


def test_an_unknown_formula_is_answered_with_those_there_are():
    """The refusal lists the keys."""
    with pytest.raises(UnknownNameError) as caught:
        chemistry.find_formula(FORMULAS, "wonder-soup")
    assert caught.value.params["known"] == sorted(FORMULAS)
