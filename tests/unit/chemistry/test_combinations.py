"""What must not come together."""

from __future__ import annotations

from functools import cache

import pytest

from wetside import chemistry
from wetside.adapters.bath_data import load_combination_table
from wetside.wording import sentence

table = cache(load_combination_table)


def keys(first, second):
    return [row.key for row in chemistry.wrong_combinations(first, second, table()).found]


@pytest.mark.parametrize(
    ("first", "second", "key"),
    [
        ("household bleach", "stop bath", "bleach_acid"),
        ("bleach", "rapid fixer", "bleach_fixer"),
        ("bleach", "sodium sulfite", "bleach_sulfite"),
        ("bleach", "ammonia", "bleach_ammonia"),
        ("acetic acid", "sodium sulfite", "acid_sulfite"),
        ("citric acid", "sodium metabisulfite", "acid_sulfite"),
        ("stop bath", "hypo", "acid_thiosulfate"),
        ("potassium ferricyanide", "sulfuric acid", "ferricyanide_strong_acid"),
        ("sodium sulfide", "stop bath", "sulfide_acid"),
        ("sulfide toner", "rapid fixer", "sulfide_acid"),
        ("selenium toner", "acetic acid", "selenium_acid"),
        ("ammonium thiosulfate", "sodium hydroxide", "ammonium_alkali"),
        ("acetic acid", "sodium hydroxide", "acid_caustic"),
        ("stop bath", "carbonate developer", "acid_carbonate"),
        ("rapid fixer", "hardener", "hardener_rapid"),
        ("fixer", "developer", "fixer_developer"),
    ],
)
def test_every_wrong_pair_is_found_in_either_order(first, second, key):
    """The table has no first and second."""
    assert key in keys(first, second)
    assert keys(first, second) == keys(second, first)


def test_every_row_is_tried_above_and_is_sourced_or_marked():
    """READ with a source, else common practice; each has a sentence."""
    for row in table().wrong:
        assert (row.status == "READ") == bool(row.source and row.where)
        assert row.status in {"READ", "common practice"}
        assert row.kind in {"gas", "harm", "quality"}
        assert sentence(f"chemistry.combination.{row.key}", {}, ()).endswith(".")
    named = {kind for kinds in table().classes.values() for kind in kinds}
    assert all(row.first <= named and row.second <= named for row in table().wrong)


def test_weak_acid_does_not_set_ferricyanide_off_in_the_table():
    """Only strong acids stand against it."""
    assert keys("potassium ferricyanide", "acetic acid") == []


def test_what_is_unknown_or_unlisted_is_never_called_good():
    """An unknown name sends to the safety sheet, a pair without a row is called unknown."""
    unknown = chemistry.wrong_combinations("moon dust", "bleach", table())
    assert unknown.unknown == ("moon dust",)
    assert [code for code, _ in unknown.notes] == ["chemistry.combination.unknown"]
    silent = chemistry.wrong_combinations("metol", "borax", table())
    assert [code for code, _ in silent.notes] == ["chemistry.combination.unknown"]
    known = chemistry.wrong_combinations("metol", "sodium carbonate", table())
    assert [code for code, _ in known.notes] == ["chemistry.combination.nothing_known"]


def test_a_bath_is_not_wrong_with_itself():
    """Fixer holds acid and thiosulfate by its making."""
    assert keys("rapid fixer", "Rapid-Fixer") == []


def test_dangers_come_before_spoiled_work():
    """A whole bench: gas first, then quality; each row once."""
    found = chemistry.wrong_among(["developer", "stop bath", "rapid fixer", "bleach", "acid fixer"], table())
    kinds = [row.kind for _, _, row in found]
    assert kinds == sorted(kinds, key=["gas", "harm", "quality"].index)
    assert len({row.key for _, _, row in found}) == len(found)
