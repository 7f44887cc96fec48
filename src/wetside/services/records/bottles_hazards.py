"""What a bottle can do to a person, by what is known to be in it, and what it must not meet on this shelf.

A product whose contents nobody has said is told to have its safety sheet read; nothing is ever called harmless.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.bath_data import load_combination_table, load_hazard_table
from wetside.chemistry.combinations import WrongCombination, wrong_combinations
from wetside.chemistry.hazards import HazardTable, find_substance, mixture_hazards, percent_of_grams
from wetside.values.names import name_key

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.chemistry.combinations import CombinationTable
    from wetside.chemistry.formulas import Formula
    from wetside.records.models import Bottle

Notes = tuple[tuple[str, dict[str, Any]], ...]

_CRYSTALS = re.compile(
    r"\b(anhydrous|monohydrate|trihydrate|pentahydrate|heptahydrate|decahydrate|glacial|solution|cryst(?:als|alline)?)\b"
)
_STRENGTH = re.compile(r"([0-9]+(?:\.[0-9]+)?)(?:\s*-\s*([0-9]+(?:\.[0-9]+)?))?\s*%")
_OF_ROLE = {
    "developer": "developer",
    "stop": "stop bath",
    "fixer": "fixer",
    "wash-aid": "wash aid",
    "waste-developer": "developer",
    "waste-fixer": "fixer",
}
"""Name under which the table of combinations knows a bath of a role."""


class Hazards(NamedTuple):
    """Hazards of a bottle: whether anything was reckoned, label codes, and sentences as codes with parameters."""

    known: bool
    h_codes: tuple[str, ...]
    notes: Notes
    contents: tuple[tuple[str, float], ...]


class WrongPair(NamedTuple):
    """A bottle that this one must not meet: its mark, what it holds, and the row of the table."""

    mark: str
    holds: str
    row: WrongCombination

    @property
    def code(self) -> str:
        """Code of the sentence."""
        return f"chemistry.combination.{self.row.key}"


@cache
def hazard_table() -> HazardTable:
    """Shipped table of hazards."""
    return load_hazard_table()


@cache
def combination_table() -> CombinationTable:
    """Shipped table of what must not come together."""
    return load_combination_table()


def plain_substance(name: str) -> str:
    """Name of an ingredient as the table of hazards lists it: without its water of crystallisation and its strength.

    Examples
    --------
    >>> plain_substance("acetic acid 28 %"), plain_substance("sodium thiosulfate pentahydrate")
    ('acetic acid', 'sodium thiosulfate')
    >>> plain_substance("sodium bisulfite or metabisulfite")
    'sodium metabisulfite'
    """
    name = " ".join(_CRYSTALS.sub(" ", _STRENGTH.sub(" ", name)).split())
    first, either, other = name.partition(" or ")
    if either:
        for candidate in (first, f"{first.split()[0]} {other}", other):
            if find_substance(candidate, hazard_table()) is not None:
                return candidate
    return name


def contents_of_formula(formula: Formula) -> dict[str, float]:
    """Concentration of each ingredient of a formula, the more cautious where it has a range. [%]

    Parameters
    ----------
    formula : Formula

    Notes
    -----
    Grams to the volume of solution, with the water of crystallisation counted as substance; of an ingredient that is a
    solution itself the upper end of its strength.
    """
    found: dict[str, float] = {}
    for part in formula.ingredients:
        amount = part.amount if part.amount_high is None else part.amount_high
        percent = percent_of_grams(amount, formula.made_up_to_ml)
        strength = _STRENGTH.search(part.name)
        if strength:
            percent *= float(strength[2] or strength[1]) / 100.0
        name = plain_substance(part.name)
        found[name] = min(100.0, round(found.get(name, 0.0) + percent, 4))
    return found


def thinned(contents: Mapping[str, float], share: float) -> dict[str, float]:
    """Contents of a solution that holds a share of another. [%]"""
    return {name: round(percent * share, 4) for name, percent in contents.items()}


def hazards_of(bottle: Bottle) -> Hazards:
    """Hazards of what a bottle holds.

    Parameters
    ----------
    bottle : Bottle
    """
    table = hazard_table()
    contents: Mapping[str, float] = bottle.contents
    if not contents and not bottle.role.startswith("waste-"):
        # A bottle of a plain substance is called by its name; at full strength, for nobody said another.
        pure = next((name for name in (bottle.product, bottle.holds) if name and find_substance(name, table)), None)
        if pure is not None and bottle.form in ("", "powder"):
            contents = {pure: 100.0}
    if not contents:
        name = bottle.product or bottle.holds
        return Hazards(False, (), (("chemistry.hazard.unknown", {"names": [name]}),), ())
    found = mixture_hazards(contents, table)
    return Hazards(True, found.h_codes, found.notes, tuple(sorted(contents.items(), key=lambda one: -one[1])))


def combination_names(bottle: Bottle) -> tuple[str, ...]:
    """Names under which the table of combinations may know a bottle.

    A waste vessel of toner, or a bath that nobody named, has none: then it is told that nothing is known.
    """
    known = combination_table().classes
    names = [bottle.holds, bottle.product, *(plain_substance(name) for name in bottle.contents)]
    words = name_key(f"{bottle.holds} {bottle.product}")
    names += [name for name in _TOLD_BY_WORDS if name_key(name) in words]
    if bottle.role in _OF_ROLE:
        names.append(_OF_ROLE[bottle.role])
    return tuple(dict.fromkeys(name for name in names if name and name_key(name) in known))


_TOLD_BY_WORDS = ("rapid fixer", "alkaline fixer", "selenium toner", "sulfide toner", "ferricyanide bleach", "hardener")


def wrong_with(bottle: Bottle, others: Iterable[Bottle]) -> tuple[WrongPair, ...]:
    """What a bottle must not meet of what else stands on the shelf, dangers first, each row once a kind of content.

    Parameters
    ----------
    bottle : Bottle
    others : iterable of Bottle
    """
    table = combination_table()
    own = combination_names(bottle)
    found: dict[tuple[str, str], WrongPair] = {}
    known: dict[tuple[str, ...], tuple[WrongCombination, ...]] = {}
    for other in others:
        names = combination_names(other)
        if other.pk == bottle.pk or not names:
            continue
        if names not in known:
            rows = {row.key: row for mine in own for its in names for row in wrong_combinations(mine, its, table).found}
            known[names] = tuple(rows.values())
        for row in known[names]:
            found.setdefault((other.mark, row.key), WrongPair(other.mark, other.holds, row))
    return tuple(sorted(found.values(), key=lambda pair: (_KINDS.index(pair.row.kind), pair.row.key, pair.mark)))


_KINDS = ("gas", "harm", "quality")


def is_known_to_combinations(bottle: Bottle) -> bool:
    """Whether the table of combinations can say anything of a bottle."""
    return bool(combination_names(bottle))
