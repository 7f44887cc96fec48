"""Published figures of other ways of developing and of long exposures: reuse, temperatures, filters, models.

Filters may also stand in a user's own folder, in CSV files in ``filters/``.
"""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING, Any

from wetside.adapters.published_rows import PublishedRow, load_rows
from wetside.development.limits_warm import PublishedRange
from wetside.development.reuse_time import ReuseRule
from wetside.errors import InputError
from wetside.exposure.filters import Light, PublishedFilter, PublishedIndex, Sensitivity
from wetside.exposure.reciprocity import ReciprocityGainer, ReciprocityTable
from wetside.exposure.reciprocity_choice import (
    NamedReciprocity,
    ReciprocityDoubling,
    ReciprocityKind,
    ThresholdClaim,
    power_of_schwarzschild,
)
from wetside.values.evidence import Evidence, Source
from wetside.values.names import name_key

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

FILTER_COLUMNS = (*("film", "sensitivity", "light", "filter", "factor", "ei", "source", "sheet_date", "page", "note"),)


def _table(name: str) -> dict[str, Any]:
    from importlib.resources import files

    return tomllib.loads((files("wetside") / "data" / "ways" / f"{name}.toml").read_text("utf-8"))


def _source(row: Mapping[str, Any]) -> Source:
    return Source(row["source"], row.get("page", ""), row.get("date", ""))


def load_reuse_rules() -> tuple[ReuseRule, ...]:
    """Load what makers print of developer used again, in the order of the file."""
    return tuple(
        ReuseRule(
            row["developer"],
            row["dilution"],
            row.get("capacity_units"),
            row.get("added_per_unit", 0.0),
            row.get("one_session", False),
            _source(row),
            row.get("note", ""),
        )
        for row in _table("reuse")["rule"]
    )


def reuse_rule_for(developer: str, dilution: str) -> ReuseRule | None:
    """Find what is printed of one developer used again; None where nothing is known.

    Parameters
    ----------
    developer : str
        Compared by :func:`wetside.values.names.name_key`.
    dilution : str
        As ``stock`` or ``1+4``.

    Examples
    --------
    >>> reuse_rule_for("ID-11", "stock").capacity_units
    10.0
    """
    key, parts = name_key(developer), "".join(dilution.split()).casefold()
    return next(
        (rule for rule in load_reuse_rules() if name_key(rule.developer) == key and rule.dilution == parts), None
    )


def load_temperature_ranges() -> tuple[PublishedRange, ...]:
    """Load the temperatures that sources name for developing; Fahrenheit is converted here. [C]

    Raises
    ------
    KeyError
        If a row of the shipped file lacks an end: a fault of the file, not of a person.
    """
    from wetside.units import parse_temp_c

    def degrees(row: Mapping[str, Any], name: str) -> float | None:
        if f"{name}_f" in row:
            return parse_temp_c(f"{row[f'{name}_f']} F")
        return row.get(f"{name}_c")

    found = []
    for row in _table("temperature_ranges")["range"]:
        low_c, high_c = degrees(row, "low"), degrees(row, "high")
        if low_c is None or high_c is None:
            raise KeyError(row["name"])
        found.append(
            PublishedRange(
                row["name"],
                low_c,
                high_c,
                _source(row),
                degrees(row, "careful"),
                row.get("purpose", "developing"),
                row.get("note", ""),
            )
        )
    return tuple(found)


def load_threshold_claims() -> tuple[ThresholdClaim, ...]:
    """Load the longest times without correction that sources print for the same films."""
    return tuple(
        ThresholdClaim(row["film"], row["threshold_s"], row["source"]) for row in _table("reciprocity")["threshold"]
    )


def reciprocity_models_for(film: str, folder: Path | None = None) -> tuple[NamedReciprocity, ...]:
    """Find every published model of a film's long exposures: its maker's, then those of the literature.

    Parameters
    ----------
    film : str
        Compared by :func:`wetside.values.names.name_key`.
    folder : Path, optional
        A user's folder; a film in its ``reciprocity/`` replaces the maker's figures and counts as an own test.

    Returns
    -------
    models : tuple of NamedReciprocity
        Never empty: Schwarzschild's own exponent, of no film in particular, stands last as ``assumed``.

    Raises
    ------
    ManyErrors
        If a user's file cannot be read.

    Examples
    --------
    >>> [named.kind.value for named in reciprocity_models_for("DELTA 100")]
    ['maker-power', 'added-time', 'per-doubling', 'schwarzschild']
    """
    from wetside.adapters.starting_points import reciprocity_for_film

    key, table = name_key(film), _table("reciprocity")
    models: list[NamedReciprocity] = []
    ours = reciprocity_for_film(film)
    maker = ours if folder is None else reciprocity_for_film(film, folder)
    if maker is not None:
        kind = ReciprocityKind.MAKER_TABLE if isinstance(maker.model, ReciprocityTable) else ReciprocityKind.MAKER_POWER
        own = maker != ours
        models.append(
            NamedReciprocity(
                ReciprocityKind.OWN_TEST if own else kind,
                maker.model,
                maker.source,
                Evidence.TESTED if own else Evidence.PUBLISHED,
                maker.film,
            )
        )
    for row in table["added"]:
        if name_key(row["film"]) == key:
            added = ReciprocityGainer(row["a"], row["b"])
            models.append(NamedReciprocity(ReciprocityKind.ADDED_TIME, added, row["source"], film=row["film"]))
    for row in table["doubling"]:
        if name_key(row["film"]) == key:
            doubling = ReciprocityDoubling(row["free_s"], row["stops_per_doubling"])
            models.append(NamedReciprocity(ReciprocityKind.PER_DOUBLING, doubling, row["source"], film=row["film"]))
    for row in table["schwarzschild"]:
        power = power_of_schwarzschild(row["p"])
        models.append(NamedReciprocity(ReciprocityKind.SCHWARZSCHILD, power, row["source"], Evidence.ASSUMED))
    return tuple(models)


def _filter_of_row(row: PublishedRow) -> PublishedFilter | PublishedIndex | None:
    film, source, note = row.text("film", required=True), row.source(), row.text("note")
    sensitivity, light = row.choice("sensitivity", Sensitivity), row.choice("light", Light)
    name = row.text("filter")
    factor = row.number("factor", 1.0, 100000.0, required=bool(name))
    ei = row.number("ei", 0.01, 1000000.0, required=not name)
    for column, value in (("sensitivity", sensitivity), ("light", light)):
        if value is None and not row.text(column):
            row.wrong(column, InputError("starting_points.cell.empty", column=column))
    if sensitivity is None or light is None:
        return None
    if name:
        return None if factor is None else PublishedFilter(film, sensitivity, light, name, factor, source, note)
    return None if ei is None else PublishedIndex(film, sensitivity, light, ei, source, note)


def load_filters(folder: Path | None = None) -> tuple[tuple[PublishedFilter, ...], tuple[PublishedIndex, ...]]:
    """Load filter factors, and exposure indices by light: ours, then a user's own.

    Parameters
    ----------
    folder : Path, optional
        A user's folder, with CSV files in ``filters/``. A row names a filter with its factor, or no filter and an EI.

    Raises
    ------
    InputError
        If there is no such folder.
    ManyErrors
        All errors of all files.
    """
    required = ("film", "sensitivity", "light", "source")
    rows = load_rows("filters", folder, FILTER_COLUMNS, required, _filter_of_row)
    return (
        tuple(row for row in rows if isinstance(row, PublishedFilter)),
        tuple(row for row in rows if isinstance(row, PublishedIndex)),
    )
