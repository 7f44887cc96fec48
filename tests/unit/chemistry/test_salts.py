"""Masses of compounds, and one salt for another."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.adapters import chemistry_data as data
from wetside.errors import AmbiguousError, OutOfRangeError, RefusedError, UnreadableError

SALTS = data.load_salts()
WEIGHTS = data.load_atomic_weights()


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Na2SO3.7H2O", "Na2SO3H14O7"),
        ("(NH4)2S2O3", "N2H8S2O3"),
        ("K3Fe(CN)6", "K3FeC6N6"),
        ("((CH3)2)2", "C4H12"),
        ("2H2O", "H4O2"),
    ],
)
def test_the_same_atoms_have_the_same_mass(one, other):
    """Brackets, counts in front, and water after a point are multiplied out."""
    expected = chemistry.formula_mass_g_mol(other, WEIGHTS)
    assert chemistry.formula_mass_g_mol(one, WEIGHTS) == pytest.approx(expected)


def test_a_count_of_water_may_have_a_part():
    """Sesquihydrate has one and a half."""
    water, potash = (chemistry.formula_mass_g_mol(text, WEIGHTS) for text in ("H2O", "K2CO3"))
    assert chemistry.formula_mass_g_mol("K2CO3.1.5H2O", WEIGHTS) == pytest.approx(potash + 1.5 * water)


@pytest.mark.parametrize("text", ["", "na2", "Na2CO3.", ".H2O", "Na2(CO3", "Na2CO3)", "()", "Na-2", "2", "S2O3(2-)"])
def test_what_is_no_formula_is_refused(text):
    """Half brackets, empty parts, ions and small letters are not read."""
    with pytest.raises(UnreadableError):
        chemistry.formula_mass_g_mol(text, WEIGHTS)


def test_there_and_back_is_one():
    """A factor and that of the way back multiply to 1."""
    soda, crystals = SALTS["sodium carbonate anhydrous"], SALTS["sodium carbonate decahydrate"]
    assert chemistry.salt_factor(soda, crystals) * chemistry.salt_factor(crystals, soda) == pytest.approx(1.0)


def test_metabisulfite_counts_as_two_bisulfites():
    """190 g of metabisulfite become two moles of bisulfite in water."""
    factor = chemistry.salt_factor(SALTS["sodium metabisulfite"], SALTS["sodium bisulfite"])
    assert factor == pytest.approx(2 * 104.055 / 190.095, abs=1e-4)


def test_another_ion_beside_it_is_told():
    """Potash for soda is equal in moles, not in everything; a hydrate of the same salt needs no word."""
    soda, potash = SALTS["sodium carbonate monohydrate"], SALTS["potassium carbonate anhydrous"]
    ((code, _),) = chemistry.salt_substitute(10.0, soda, potash).notes
    assert code == "chemistry.salt_note.other_partner"
    assert chemistry.salt_substitute(10.0, soda, SALTS["sodium carbonate anhydrous"]).notes == ()


@pytest.mark.parametrize(
    ("asks", "have"),
    [
        ("sodium sulfite anhydrous", "sodium sulfate anhydrous"),
        ("borax decahydrate", "sodium metaborate tetrahydrate"),
        ("sodium thiosulfate pentahydrate", "ammonium thiosulfate"),
    ],
)
def test_what_works_otherwise_does_not_stand_in(asks, have):
    """Sulfate for sulfite, metaborate for borax, and rapid for plain hypo are refused."""
    with pytest.raises(RefusedError):
        chemistry.salt_factor(SALTS[asks], SALTS[have])


def test_rows_that_a_book_prints_the_wrong_way_round_are_not_imported():
    """No printed factor is off by more than 8 %, and the two inverted pairs are not there either way."""
    rules = data.load_salt_rules()
    assert rules
    for rule in rules:
        factor = chemistry.salt_factor(SALTS[rule.asks], SALTS[rule.have])
        (beside,) = (
            b for b in chemistry.rules_beside(factor, SALTS[rule.asks], SALTS[rule.have], rules) if b.rule is rule
        )
        assert abs(beside.more_percent) < 8
    pairs = {frozenset((rule.asks, rule.have)) for rule in rules}
    assert frozenset(("potassium hydroxide", "sodium hydroxide")) not in pairs
    assert frozenset(("sodium metabisulfite", "potassium metabisulfite")) not in pairs
    assert chemistry.salt_factor(SALTS["potassium hydroxide"], SALTS["sodium hydroxide"]) < 1
    assert chemistry.salt_factor(SALTS["sodium metabisulfite"], SALTS["potassium metabisulfite"]) > 1


def test_old_rules_on_soda_crystals_disagree():
    """2.5 is 7 % short and 2.8 is 4 % too much beside 2.70."""
    soda, crystals = SALTS["sodium carbonate anhydrous"], SALTS["sodium carbonate decahydrate"]
    found = chemistry.rules_beside(chemistry.salt_factor(soda, crystals), soda, crystals, data.load_salt_rules())
    assert [round(beside.more_percent, 1) for beside in found] == [-7.4, 3.7]


def test_a_bare_name_leaves_the_hydrate_open():
    """Several substances that fit are listed; one that is left is taken."""
    with pytest.raises(AmbiguousError) as caught:
        chemistry.find_salt(SALTS, "Sodium Carbonate")
    assert len(caught.value.params["choices"]) == 3
    assert chemistry.find_salt(SALTS, "  METOL ").name == "metol"
    assert chemistry.find_salt(SALTS, "sulfite heptahydrate").formula == "Na2SO3.7H2O"


def test_a_percentage_of_a_solid_is_at_most_a_hundred():
    """More than 100 g to 100 ml is refused."""
    with pytest.raises(OutOfRangeError):
        chemistry.percent_solution_g(101.0, 100.0)
