"""Plans made by hand, for the tests of paper and screen."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

FIXTURES = Path(__file__).parents[2] / "fixtures"


def module_of(name):
    spec = importlib.util.spec_from_file_location(name, FIXTURES / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def plans():
    """The module of sample plans."""
    return module_of("plan_sample")


@pytest.fixture(scope="session")
def courses():
    """The module of sample courses."""
    return module_of("course_sample")
