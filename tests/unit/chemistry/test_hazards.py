"""Hazards of mixtures: never none."""

from __future__ import annotations

from functools import cache

import pytest

from wetside import chemistry
from wetside.adapters.bath_data import load_hazard_table
from wetside.errors import OutOfRangeError
from wetside.wording import sentence

table = cache(load_hazard_table)


def hazards(**percents):
    return chemistry.mixture_hazards({name.replace("_", " "): value for name, value in percents.items()}, table())


def codes(found):
    return [code for code, _ in found.notes]


def test_every_answer_begins_with_the_safety_sheet():
    """Known, unknown, weak or empty: the product's own sheet comes first."""
    for found in (hazards(metol=1.0), hazards(moon_dust=1.0), hazards(acetic_acid=1.0), hazards()):
        assert codes(found)[0] == "chemistry.hazard.sheet_first"


def test_an_unknown_product_is_never_harmless():
    """Its name is given back with the word to read its sheet, and nothing says that no class is reached."""
    found = hazards(moon_dust=50.0)
    assert found.unknown == ("moon dust",)
    assert codes(found) == ["chemistry.hazard.sheet_first", "chemistry.hazard.unknown"]


def test_no_entry_in_the_table_is_said_and_is_not_harmless():
    """Sulfite and thiosulfates have no harmonised class."""
    found = hazards(sodium_sulfite=10.0, hypo=24.0)
    assert found.unlisted == ("sodium sulfite", "sodium thiosulfate")
    assert "chemistry.hazard.unlisted" in codes(found)


def test_a_substance_is_found_by_any_of_its_names():
    """Name, other name, registry number."""
    assert {chemistry.find_substance(name, table()).cas for name in ("Bleach", "household-bleach", "7681-52-9")} == {
        "7681-52-9"
    }
    assert chemistry.find_substance("", table()) is None


def test_a_pure_substance_has_all_its_classes():
    """Fire, burns and what no mixture rule settles."""
    found = hazards(acetic_acid=100.0)
    assert found.classes == ("Flam. Liq. 3", "Skin Corr. 1A")
    assert found.h_codes == ("H226", "H314")
    assert found.not_reckoned == ()
    assert hazards(sodium_selenite=100.0).h_codes == ("H300", "H331", "H317", "H411")
    assert hazards(pyrogallol=100.0).h_codes == ("H341", "H332", "H312", "H302", "H412")


def test_what_is_not_settled_is_named():
    """Acute poisons from where they are considered; fire and chronic harm to water at any strength."""
    assert ("hydroquinone", "Acute Tox. 4") in hazards(hydroquinone=1.0).not_reckoned
    assert hazards(hydroquinone=0.5).not_reckoned == ()
    assert ("pyrocatechol", "Acute Tox. 3") in hazards(pyrocatechol=0.1).not_reckoned
    assert ("acetic acid", "Flam. Liq. 3") in hazards(acetic_acid=80.0).not_reckoned


def test_the_strongest_class_of_the_skin_stands_alone():
    """Burns stand for the eyes too; two half-strong corrosives make one."""
    assert hazards(sodium_hydroxide=5.0).classes == ("Skin Corr. 1A",)
    assert hazards(sodium_hydroxide=1.0, potassium_hydroxide=1.0).classes == ("Skin Corr. 1B",)
    assert hazards(sodium_hypochlorite=5.0).classes == ("Skin Corr. 1B", "Aquatic Acute 1")


def test_an_allergy_is_told_below_its_class_and_not_beside_it():
    """From 0.1 % a notice with the name, from 1 % the class."""
    assert hazards(metol=0.5).notices == (("EUH208", "metol"),)
    assert hazards(metol=1.0).notices == ()
    assert "chemistry.hazard.may_cause_allergy" in codes(hazards(metol=0.5))


def test_gas_with_acid_is_told_at_any_strength_without_a_printed_one():
    """Metabisulfite at any, bleach from 5 %."""
    assert ("EUH031", "sodium metabisulfite") in hazards(sodium_metabisulfite=0.2).notices


@pytest.mark.parametrize("percents", [{"metol": -1.0}, {"metol": 101.0}, {"metol": 60.0, "borax": 60.0}])
def test_concentrations_that_cannot_be_are_refused(percents):
    """Negative, above 100, together above 100."""
    with pytest.raises(OutOfRangeError):
        chemistry.mixture_hazards(percents, table())


def test_every_class_of_the_table_has_a_code_and_a_sentence():
    """No class of a shipped substance is left without words."""
    for substance in table().substances:
        for name in substance.classes:
            plain = name.rstrip("* ")
            assert plain in table().codes
            word = f"chemistry.hazard.{table().words[plain]}"
            assert sentence(word, {}, ()).endswith(".")


def test_every_limit_and_substance_names_its_source():
    """Nothing ships without the place where it can be read."""
    assert all(row.source.key and row.source.where for row in (*table().substances, *table().generic))


def test_no_sentence_says_that_something_is_harmless_or_permitted():
    """Words that would promise safety or a local rule do not occur, denials apart."""
    for percents in ({"acetic acid": 1.0}, {"hypo": 20.0}, {"x": 1.0}):
        for code, params in chemistry.mixture_hazards(percents, table()).notes:
            words = sentence(code, params, ()).casefold().replace("not mean harmless", "").split()
            assert not {"safe", "harmless", "none", "permitted", "allowed"} & set(words)
