"""The table of units."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import wetside.units
from wetside import units
from wetside.units.table import spelling_key, unit_table
from wetside.values.sheet_size import UNIT_AREA_CM2

SOURCE = Path(wetside.units.__file__).parent


def test_every_unit_states_its_source_and_its_exactness():
    """Nothing in the table comes from nowhere."""
    for spellings in unit_table().units.values():
        for unit in spellings.values():
            assert unit.source
            assert unit.exact is True
            assert unit.factor > 0
            assert unit.divisor > 0
    assert all(known.source for known in unit_table().formats)


def test_no_spelling_means_two_units_of_a_kind():
    """A spelling stands under one unit only, and a word with two meanings under none."""
    text = (SOURCE / "units.toml").read_text(encoding="utf-8")
    seen: dict[str, set[str]] = {}
    for kind, name, spellings in re.findall(
        r'\[\[unit\]\]\nkind = "(\w+)"\nname = "([^"]+)".*?spellings = \[(.*?)\]\nsource', text, re.DOTALL
    ):
        for spelling in re.findall(r'"((?:[^"\\]|\\.)+)"', spellings):
            key = spelling_key(spelling.replace('\\"', '"'))
            other = seen.setdefault(f"{kind} {key}", {name})
            assert other == {name}, spelling
    for kind, words in unit_table().two_meanings.items():
        assert not set(words) & set(unit_table().units[kind])


def test_every_name_shown_as_allowed_can_be_typed():
    """What an error offers is accepted."""
    table = unit_table()
    for kind, names in table.names.items():
        for name in names:
            assert table.units[kind][spelling_key(name)].name == name
        for choices in table.two_meanings[kind].values():
            assert set(choices) <= set(names)


@pytest.mark.parametrize("known", unit_table().formats, ids=lambda known: known.name)
def test_every_format_reads_back(known):
    """A format's name names it, and so do its bare numbers where the table says so."""
    expected = (known.name, known.width_mm, known.height_mm)
    assert units.parse_size(known.name) == expected
    if known.bare:
        assert units.parse_size(known.name.removesuffix(known.unit)) == expected


def test_no_bare_pair_names_two_formats():
    """A pair that is both inches and centimetres must not be taken bare."""
    bare = [(known.short, known.long) for known in unit_table().formats if known.bare]
    assert len(bare) == len(set(bare))


def test_the_unit_of_film_area_is_the_same_everywhere():
    """The table and the values agree on 80 square inches."""
    assert unit_table().units["area"]["unit"].factor == UNIT_AREA_CM2


def test_every_offered_name_loads():
    """The package's list of names and its lazy loading agree."""
    for name in wetside.units.__all__:
        assert callable(getattr(units, name))
    with pytest.raises(AttributeError):
        _ = units.no_such_name
