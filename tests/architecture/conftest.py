"""What the architecture tests look at: the files of the project and their syntax trees."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def root() -> Path:
    """Folder of the project."""
    return ROOT


@pytest.fixture(scope="session")
def package_trees() -> dict[Path, ast.Module]:
    """Syntax tree of every module of the package, by its path below src/wetside."""
    source = ROOT / "src" / "wetside"
    return {
        path.relative_to(source): ast.parse(path.read_text("utf-8"), str(path)) for path in sorted(source.rglob("*.py"))
    }


@pytest.fixture(scope="session")
def python_files() -> list[Path]:
    """Every Python file that people write here."""
    folders = ("src", "tests", "tools", "benchmarks")
    return [path for folder in folders for path in sorted((ROOT / folder).rglob("*.py"))]
