"""Plans made by hand, for the tests of the cards."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

SAMPLE = Path(__file__).parents[2] / "fixtures" / "plan_sample.py"


@pytest.fixture(scope="session")
def plans():
    """The module of sample plans."""
    spec = importlib.util.spec_from_file_location("plan_sample", SAMPLE)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
