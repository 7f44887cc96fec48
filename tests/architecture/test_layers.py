"""The layers contract keeps step with the packages; the contracts themselves are run by ``make lint``."""

from __future__ import annotations

import ast
import tomllib
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from pathlib import Path

CORE = {
    "cards", "runs", "planning", "sensitometry", "exposure", "development", "chemistry", "scans", "wording", "values",
    "units", "errors",
}  # fmt: skip
MAY_READ_ITS_TABLE = {"units"}
SPEAKERS = {"cards", "services", "web", "cli"}


@pytest.fixture(scope="module")
def contracts(root: Path) -> dict[str, dict[str, Any]]:
    linter = tomllib.loads((root / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]
    return {contract["name"]: contract for contract in linter["contracts"]}


@pytest.fixture(scope="module")
def layers(contracts: dict[str, dict[str, Any]]) -> set[str]:
    """Names in the layers contract, parentheses and all."""
    contract = contracts["One direction, top to bottom"]
    assert contract["exhaustive"]
    return {name.strip() for layer in contract["layers"] for name in layer.split("|")}


@pytest.fixture(scope="module")
def packages(root: Path) -> set[str]:
    return {path.parent.name for path in (root / "src/wetside").glob("*/__init__.py")}


def test_a_layer_stands_in_parentheses_only_while_it_has_no_code(layers: set[str], packages: set[str]) -> None:
    """Parentheses make a layer optional: they go when its package comes."""
    optional = {name.strip("()") for name in layers if name.startswith("(")}
    assert not optional & packages
    assert {name for name in layers if not name.startswith("(")} == packages


def test_every_core_package_is_under_the_contracts_of_the_core(
    contracts: dict[str, dict[str, Any]], packages: set[str]
) -> None:
    """A new core package joins the list of those that know no clock, file or framework, and of the plain science."""
    whole = contracts["The core knows no framework, database, network, file, clock or chance"]
    plain = contracts["The science is plain Python"]
    core = {f"wetside.{name}" for name in CORE & packages}
    assert set(whole["source_modules"]) == core
    assert set(plain["source_modules"]) == core - {"wetside.planning", "wetside.runs"}


def test_only_those_who_speak_to_a_person_may_import_wording(
    contracts: dict[str, dict[str, Any]], packages: set[str]
) -> None:
    """The list of allowed importers is cards, services, web and cli, as far as they exist."""
    contract = contracts["Only those who speak to a person know sentences"]
    assert set(contract["allowed_importers"]) == {f"wetside.{name}" for name in SPEAKERS & packages}


def test_the_core_opens_no_file(package_trees: dict[Path, ast.Module]) -> None:
    """No core module opens a file or asks for a packaged one, but units its table and wording its translations."""
    found = []
    for path, tree in package_trees.items():
        package = path.parts[0]
        if package not in CORE or package in MAY_READ_ITS_TABLE:
            continue
        for node in ast.walk(tree):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id in ("open", "print", "input")
            ):
                found.append(f"{path}:{node.lineno} {node.func.id}")
            if isinstance(node, ast.ImportFrom) and node.module == "importlib.resources" and package != "wording":
                found.append(f"{path}:{node.lineno} {node.module}")
    assert not found
