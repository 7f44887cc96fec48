"""Shipped figures of stop, fixer, wash and hazards, as values for the core."""

from __future__ import annotations

import csv
import tomllib
from importlib.resources import files
from math import inf
from typing import TYPE_CHECKING

from wetside.chemistry.combinations import CombinationTable, WrongCombination
from wetside.chemistry.fixer import BathCapacity
from wetside.chemistry.hazards import GenericLimit, HazardousSubstance, HazardTable, SpecificLimit
from wetside.chemistry.wash import WashMethod
from wetside.values.evidence import Source
from wetside.values.names import name_key

if TYPE_CHECKING:
    from typing import Any

_FOLDER = "chemistry_baths"


def _text(name: str) -> str:
    return (files("wetside") / "data" / _FOLDER / name).read_text("utf-8")


def _rows(name: str) -> list[dict[str, str]]:
    lines = (line for line in _text(name).splitlines() if line and not line.startswith("#"))
    return [{key: value.strip() for key, value in row.items()} for row in csv.DictReader(lines)]


def _parts(text: str, mark: str = ";") -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(mark) if part.strip())


def load_bath_capacities() -> tuple[BathCapacity, ...]:
    """Load what makers and handbooks say that a litre of stop bath or fixer treats."""
    return tuple(
        BathCapacity(
            row["product"],
            row["dilution"],
            float(row["units"]),
            float(row["volume_ml"]),
            Source(row["source"], f"p. {row['page']}" if row["page"] else ""),
            row["bath"],
            row["note"],
        )
        for row in _rows("capacities.csv")
    )


def load_wash_methods() -> tuple[WashMethod, ...]:
    """Load the ways to wash, each with its source."""
    return tuple(_method(row) for row in tomllib.loads(_text("wash_methods.toml"))["method"])


def _method(row: dict[str, Any]) -> WashMethod:
    return WashMethod(
        row["name"],
        row["film"],
        tuple(float(minutes) for minutes in row.get("minutes", ())),
        row.get("changes", 0),
        float(row.get("change_minutes", 0.0)),
        float(row.get("instead_of_minutes", 0.0)),
        float(row.get("coldest_c", -inf)),
        float(row.get("warmest_c", inf)),
        row.get("non_hardened", False),
        row.get("source", ""),
        row["where"],
        row["status"],
        tuple(row.get("movements", ())),
    )


def load_hazard_table() -> HazardTable:
    """Load hazard classes of substances, generic limits of mixtures and label codes."""
    return HazardTable(
        tuple(_substance(row) for row in _rows("hazard_substances.csv")),
        tuple(
            GenericLimit(
                row["ingredient"],
                row["result"],
                float(row["limit_percent"]),
                Source(row["source"], f"table {row['table']}"),
            )
            for row in _rows("hazard_limits.csv")
        ),
        {row["class"]: row["h_code"] for row in _rows("hazard_classes.csv")},
        {row["class"]: row["word"] for row in _rows("hazard_classes.csv")},
    )


def _substance(row: dict[str, str]) -> HazardousSubstance:
    limits = (part.rpartition(" ") for part in _parts(row["specific_limits"]))
    return HazardousSubstance(
        row["substance"],
        _parts(row["aliases"]),
        row["cas"],
        _parts(row["classes"]),
        _parts(row["h_codes"]),
        _parts(row["euh"]),
        tuple(SpecificLimit(result, float(low)) for result, _, low in limits),
        float(row["m_factor"]),
        row["group"],
        row["listed"] == "yes",
        Source(row["source"], row["where"]),
    )


def load_combination_table() -> CombinationTable:
    """Load what must not come together."""
    table = tomllib.loads(_text("combinations.toml"))
    classes: dict[str, set[str]] = {}
    for kind, substances in table["classes"].items():
        for substance in substances:
            classes.setdefault(name_key(substance), set()).add(kind)
    return CombinationTable(
        {name: frozenset(kinds) for name, kinds in classes.items()},
        tuple(
            WrongCombination(
                row["key"],
                frozenset(row["first"]),
                frozenset(row["second"]),
                row["kind"],
                row["status"],
                row.get("source", ""),
                row.get("where", ""),
            )
            for row in table["wrong"]
        ),
    )
