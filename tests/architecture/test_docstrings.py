"""The science explains itself where it is read: every parameter of a public function, with its unit."""

from __future__ import annotations

import ast
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

SCIENCES = {"sensitometry", "exposure", "development", "chemistry", "scans"}


def public_functions(trees: dict[Path, ast.Module], packages: set[str]) -> Iterator[tuple[str, ast.FunctionDef]]:
    for path, tree in trees.items():
        if path.parts[0] not in packages or any(part.startswith("_") and part != "__init__.py" for part in path.parts):
            continue
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield f"{path}:{node.lineno} {node.name}", node


def gives_a_value(node: ast.FunctionDef) -> bool:
    """Whether a function returns anything; one that only refuses needs no unit and no example."""
    return node.returns is None or ast.unparse(node.returns) not in ("None", "NoReturn")


def described(docstring: str) -> dict[str, str]:
    """Text below each name of a numpydoc docstring's Parameters section."""
    section = re.search(r"^Parameters\n-+\n(.*?)(?=^\w[\w ]*\n-{3,}\n|\Z)", docstring, re.DOTALL | re.MULTILINE)
    found: dict[str, str] = {}
    names: list[str] = []
    for line in section[1].splitlines() if section else []:
        if line and not line.startswith(" "):
            names = [name.strip().lstrip("*") for name in line.partition(" : ")[0].split(",")]
            found |= dict.fromkeys(names, line.partition(" : ")[2])
        else:
            for name in names:
                found[name] += f"\n{line}"
    return found


def is_quantity(argument: ast.arg) -> bool:
    """Whether an argument is a number that has a unit (a pure number's is [1])."""
    return argument.annotation is not None and re.search(r"\bfloat\b", ast.unparse(argument.annotation)) is not None


def test_every_public_function_is_described(package_trees: dict[Path, ast.Module]) -> None:
    """No public function of the package is without a docstring."""
    packages = {path.parts[0] for path in package_trees}
    assert not [name for name, node in public_functions(package_trees, packages) if not ast.get_docstring(node)]


def test_every_parameter_of_the_science_is_described_with_its_unit(package_trees: dict[Path, ast.Module]) -> None:
    """Each parameter of a public function of the sciences is described, each number with its unit in brackets."""
    wrong = []
    for name, node in public_functions(package_trees, SCIENCES):
        if not gives_a_value(node):
            continue
        said = described(ast.get_docstring(node) or "")
        for argument in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs):
            if argument.arg not in said:
                wrong.append(f"{name}: {argument.arg} is not described")
            elif is_quantity(argument) and not re.search(r"\[[^\]]+\]", said[argument.arg]):
                wrong.append(f"{name}: {argument.arg} has no unit in brackets")
    assert not wrong, "\n".join(wrong)


def test_every_function_of_the_science_has_an_example(package_trees: dict[Path, ast.Module]) -> None:
    """Each public function of the sciences shows an example, which the suite runs."""
    functions = [(name, node) for name, node in public_functions(package_trees, SCIENCES) if gives_a_value(node)]
    assert not [name for name, node in functions if ">>>" not in (ast.get_docstring(node) or "")]
