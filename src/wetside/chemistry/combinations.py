"""What must never come together, looked up by the classes of two substances, in either order.

A pair that stands in no row is not thereby harmless: the answer then says that nothing is known here.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from wetside.values.names import name_key

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.chemistry.fixer import Notes


class WrongCombination(NamedTuple):
    """One row: two sides of substance classes, what it is about (``gas``, ``harm`` or ``quality``), and its source.

    ``status`` is READ or ``common practice``; a row of ``quality`` spoils work and hurts nobody.
    """

    key: str
    first: frozenset[str]
    second: frozenset[str]
    kind: str
    status: str
    source: str
    where: str


class CombinationTable(NamedTuple):
    """Classes of each substance, by its compared name, and the rows."""

    classes: Mapping[str, frozenset[str]]
    wrong: tuple[WrongCombination, ...]


class CombinationVerdict(NamedTuple):
    """Rows that a pair falls under, dangers first; names that the table does not know; codes with parameters."""

    found: tuple[WrongCombination, ...]
    unknown: tuple[str, ...]
    notes: Notes


_ORDER = {"gas": 0, "harm": 1, "quality": 2}


def wrong_combinations(first: str, second: str, table: CombinationTable) -> CombinationVerdict:
    """What is known against bringing two substances together.

    Parameters
    ----------
    first, second : str
        Substances or baths, in either order.
    table : CombinationTable
        From the shipped data.

    Examples
    --------
    >>> wrong_combinations("bleach", "moon dust", CombinationTable({}, ())).unknown
    ('bleach', 'moon dust')
    """
    names = (first, second)
    one, other = (table.classes.get(name_key(name), frozenset()) for name in names)
    unknown = tuple(dict.fromkeys(name for name in names if name_key(name) not in table.classes))
    same = name_key(first) == name_key(second)
    found = () if same else tuple(sorted((r for r in table.wrong if _meets(r, one, other)), key=_rank))
    notes: list[tuple[str, dict[str, object]]] = [(f"chemistry.combination.{row.key}", {}) for row in found]
    if unknown:
        notes.append(("chemistry.combination.unknown", {"names": list(unknown)}))
    elif not found:
        notes.append(("chemistry.combination.nothing_known", {"first": first, "second": second}))
    return CombinationVerdict(found, unknown, tuple(notes))


def _meets(row: WrongCombination, one: frozenset[str], other: frozenset[str]) -> bool:
    return bool((row.first & one and row.second & other) or (row.first & other and row.second & one))


def _rank(row: WrongCombination) -> tuple[int, str]:
    return _ORDER.get(row.kind, len(_ORDER)), row.key


def wrong_among(substances: Iterable[str], table: CombinationTable) -> tuple[tuple[str, str, WrongCombination], ...]:
    """Every wrong pair among what stands on one bench, each row once with the first pair that falls under it.

    Parameters
    ----------
    substances : iterable of str
        Substances or baths.
    table : CombinationTable
        From the shipped data.

    Examples
    --------
    >>> wrong_among(["bleach", "stop bath"], CombinationTable({}, ()))
    ()
    """
    seen: dict[str, tuple[str, str, WrongCombination]] = {}
    for first, second in combinations(dict.fromkeys(substances), 2):
        for row in wrong_combinations(first, second, table).found:
            seen.setdefault(row.key, (first, second, row))
    return tuple(sorted(seen.values(), key=lambda entry: _rank(entry[2])))
