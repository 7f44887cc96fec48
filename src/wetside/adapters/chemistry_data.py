"""Tables of the chemistry that ship: atomic weights, salts, formulas, water, materials, keeping.

Each row names its source, a key of ``docs/references.bib``.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from wetside.chemistry.formulas import Formula, Ingredient
from wetside.chemistry.keeping import KeepingRow
from wetside.chemistry.mixing_temperature import WaterTable, check_water_table
from wetside.chemistry.salts import Salt, SaltRule, formula_mass_g_mol
from wetside.chemistry.tempering import VesselMaterial
from wetside.values.evidence import Source

if TYPE_CHECKING:
    from collections.abc import Mapping


def _text(name: str) -> str:
    from importlib.resources import files

    return (files("wetside") / "data" / "chemistry" / name).read_text("utf-8")


def _rows(name: str) -> list[dict[str, str]]:
    import csv

    return list(csv.DictReader(line for line in _text(name).splitlines() if not line.startswith("#")))


def _number(text: str) -> float | None:
    return float(text) if text else None


@cache
def load_atomic_weights() -> Mapping[str, float]:
    """Load standard atomic weights by symbol. [g/mol]"""
    return {row["element"]: float(row["weight"]) for row in _rows("atomic_weights.csv")}


@cache
def load_salts() -> Mapping[str, Salt]:
    """Load what can stand in for what, by name; masses are computed from the formulas."""
    weights = load_atomic_weights()
    return {
        row["name"]: Salt(
            row["name"],
            row["formula"],
            formula_mass_g_mol(row["formula"], weights),
            row["active"],
            float(row["actives"]),
            row["partner"],
        )
        for row in _rows("salts.csv")
    }


@cache
def load_salt_rules() -> tuple[SaltRule, ...]:
    """Load factors as books print them; none of those that are printed the wrong way round."""
    return tuple(
        SaltRule(row["asks"], row["have"], float(row["printed"]), Source(row["source"], row["page"]))
        for row in _rows("salt_rules.csv")
    )


@cache
def load_water() -> WaterTable:
    """Load density and enthalpy of water, 0 to 99 C. [C, g/ml, J/g]"""
    rows = _rows("water.csv")
    columns = (tuple(float(row[name]) for row in rows) for name in ("temp_c", "density_g_ml", "enthalpy_j_g"))
    return check_water_table(WaterTable(*columns))


@cache
def load_materials() -> Mapping[str, tuple[VesselMaterial, ...]]:
    """Load specific heats by material; where sources differ, the one to use stands first. [J/(g K)]"""
    found: dict[str, tuple[VesselMaterial, ...]] = {}
    for row in _rows("materials.csv"):
        one = VesselMaterial(
            row["material"],
            float(row["heat_j_gk"]),
            _number(row["density_g_ml"]),
            _number(row["temp_c"]),
            row["source"],
        )
        found[one.name] = (*found.get(one.name, ()), one)
    return found


def material_word(name: str) -> str:
    """Name of a material as the evening file writes it: small letters, with hyphens.

    Examples
    --------
    >>> material_word("rigid PVC")
    'rigid-pvc'
    """
    return "-".join(name.replace("-", " ").casefold().split())


@cache
def load_formulas() -> Mapping[str, Formula]:
    """Load formulas by weight, by key; each was read in the source that it names. [g, ml]"""
    import tomllib

    return {
        row["key"]: Formula(
            row["key"],
            row["kind"],
            tuple(
                Ingredient(
                    part["name"],
                    part["amount"],
                    part["unit"],
                    part["role"],
                    part.get("amount_high"),
                    part.get("unsaid", False),
                )
                for part in row["ingredients"]
            ),
            row["made_up_to_ml"],
            Source(row["source"], row.get("page", "")),
            row.get("use", ""),
            row.get("note", ""),
        )
        for row in tomllib.loads(_text("formulas.toml"))["formula"]
    }


@cache
def load_keeping() -> tuple[KeepingRow, ...]:
    """Load how long solutions keep, as printed."""
    return tuple(
        KeepingRow(
            row["kind"],
            row["product"],
            row["form"],
            row["fill"],
            row["lid"],
            _number(row["amount"]),
            row["unit"],
            _number(row["low_c"]),
            _number(row["high_c"]),
            Source(row["source"], row["page"]),
            row["note"],
        )
        for row in _rows("keeping.csv")
    )
