"""The planner's library, from the shipped data files and the user's own folder of rows."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from wetside.planning.library import Library

if TYPE_CHECKING:
    from pathlib import Path


def load_library(rows: Path | None = None) -> Library:
    """Library of all published figures; each kind is read when the planner first asks for it.

    Parameters
    ----------
    rows : Path, optional
        A user's folder, read after the shipped data. It is read whole at once, so that its errors are told before
        anything is planned.

    Raises
    ------
    WetsideError
        Naming file, line and field of every row of the folder that cannot be taken.
    """
    return _shipped() if rows is None else _with_own(rows)


@cache
def _shipped() -> Library:
    """Ours, read once in a process: it comes with the program and never changes while that runs."""
    return _library(None)


def _with_own(rows: Path) -> Library:
    library = _library(rows)
    _ = library.points, library.pairs, library.reciprocity
    return library


def _library(rows: Path | None) -> Library:
    return Library(
        {
            "points": lambda: _starting_points().load_starting_points(rows),
            "pairs": lambda: _by_key(_starting_points().load_time_pairs(rows)),
            "reciprocity": lambda: _by_key(_starting_points().load_reciprocity(rows)),
            "cuts": lambda: _starting_points().load_agitation_advice().cuts,
            "reuse_rules": _reuse_rules,
            "presoak_against": _presoak_against,
            "materials": _materials,
            "combinations": _combinations,
            "temperature_ranges": _temperature_ranges,
        }
    )


def _starting_points() -> Any:
    from wetside.adapters import starting_points

    return starting_points


def _by_key(named: dict[str, Any]) -> dict[str, Any]:
    from wetside.values.names import name_key

    return {name_key(name): value for name, value in named.items()}


def _reuse_rules() -> Any:
    from wetside.adapters.ways_data import load_reuse_rules

    return load_reuse_rules()


def _temperature_ranges() -> Any:
    from wetside.adapters.ways_data import load_temperature_ranges

    return load_temperature_ranges()


def _combinations() -> Any:
    from wetside.adapters.bath_data import load_combination_table

    return load_combination_table()


def _materials() -> Any:
    from wetside.adapters.chemistry_data import load_materials, material_word

    return {material_word(name): known[0] for name, known in load_materials().items()}


def _presoak_against() -> Any:
    from wetside.development import makers_against_presoak

    return makers_against_presoak(_starting_points().load_agitation_advice().presoak)
