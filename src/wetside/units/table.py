"""The table of units, read once from the file that lies beside this module."""

from __future__ import annotations

import os.path
from functools import lru_cache
from typing import NamedTuple


class Unit(NamedTuple):
    """What one unit is worth: house value = (number - zero) * factor / divisor."""

    name: str
    kind: str
    factor: float
    divisor: float
    zero: float
    exact: bool
    source: str


class Kind(NamedTuple):
    """A kind of quantity: the house's own unit for it, its limits in that unit, and how it is written.

    ``thousandths`` tells that a comma or point before three digits is always a decimal mark.
    """

    name: str
    house: str
    low: float
    high: float
    example: str
    thousandths: bool


class Format(NamedTuple):
    """A format of sheet film. ``bare`` tells that its two numbers alone name it."""

    name: str
    short: float
    long: float
    unit: str
    width_mm: float
    height_mm: float
    bare: bool
    source: str


class UnitTable(NamedTuple):
    """All units by kind and spelling, the words with two meanings, and the formats."""

    kinds: dict[str, Kind]
    units: dict[str, dict[str, Unit]]
    names: dict[str, tuple[str, ...]]
    two_meanings: dict[str, dict[str, tuple[str, ...]]]
    formats: tuple[Format, ...]


_SILENT = str.maketrans("", "", " .()-\N{DEGREE SIGN}")


def spelling_key(text: str) -> str:
    """Spelling as it is compared: without case, blanks, points, hyphens, brackets and degree signs."""
    return text.casefold().translate(_SILENT)


def plain(value: float) -> str:
    """Shortest text that reads back as the same number, without a needless ``.0``.

    Parameters
    ----------
    value : float
        A pure number, or in the unit that the text goes on with. [any]
    """
    text = repr(float(value))
    return text.removesuffix(".0")


@lru_cache(maxsize=1)
def unit_table() -> UnitTable:
    """Read the table; every later call returns the same one.

    Examples
    --------
    >>> unit_table().units["length"]["inch"].factor
    25.4
    """
    import tomllib

    # Plain open and os.path: pathlib would cost a tenth of the whole start-up budget.
    with open(os.path.join(os.path.dirname(__file__), "units.toml"), "rb") as file:  # noqa: PTH118, PTH120, PTH123
        data = tomllib.load(file)
    kinds = {
        name: Kind(name, row["house"], row["low"], row["high"], row["example"], row.get("thousandths", False))
        for name, row in data["kind"].items()
    }
    units: dict[str, dict[str, Unit]] = {kind: {} for kind in kinds}
    names: dict[str, list[str]] = {kind: [] for kind in kinds}
    for row in data["unit"]:
        unit = Unit(
            row["name"],
            row["kind"],
            row["factor"],
            row.get("divisor", 1.0),
            row.get("zero", 0.0),
            row["exact"],
            row["source"],
        )
        names[unit.kind].append(unit.name)
        for spelling in row["spellings"]:
            units[unit.kind][spelling_key(spelling)] = unit
    for spelling, unit in units["temperature"].items():
        units["temperature_step"][spelling] = unit._replace(kind="temperature_step", zero=0.0)
    names["temperature_step"] = names["temperature"]
    two_meanings: dict[str, dict[str, tuple[str, ...]]] = {kind: {} for kind in kinds}
    for row in data["two_meanings"]:
        for spelling in row["spellings"]:
            two_meanings[row["kind"]][spelling_key(spelling)] = tuple(row["units"])
    formats = []
    for row in data["size"]:
        short, long = row["sides"]
        factor = units["length"][row["unit"]].factor
        formats.append(
            Format(
                f"{plain(short)}x{plain(long)}{row['unit']}",
                float(short),
                float(long),
                row["unit"],
                short * factor,
                long * factor,
                row.get("bare", False),
                row["source"],
            )
        )
    return UnitTable(kinds, units, {kind: tuple(known) for kind, known in names.items()}, two_meanings, tuple(formats))


def unit_named(kind: str, name: str) -> Unit:
    """Return the unit of a kind that a spelling means.

    Raises
    ------
    KeyError
        If no unit has the spelling; for text that a person typed use the parsers.
    """
    return unit_table().units[kind][spelling_key(name)]
