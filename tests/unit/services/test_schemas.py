"""Schemas of the kept files."""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from wetside.adapters.evening_file import evening_of_text
from wetside.adapters.evening_writer import plain_values
from wetside.adapters.kinds import EXAMPLES, READERS
from wetside.planning.documents.evening import Evening
from wetside.planning.documents.keys import KINDS, declared_keys
from wetside.services.schemas import check_schemas, evening_schema, format_files, plan_schema, tables_of, write_schemas

ROOT = Path(__file__).resolve().parents[3]
EVENING = Draft202012Validator(evening_schema())
EXAMPLE_FILES = sorted((ROOT / "examples").rglob("*.toml"))


def plain(value: Any) -> Any:
    """TOML's values as JSON has them."""
    if isinstance(value, dict):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, dt.date) else value


def test_both_schemas_are_schemas() -> None:
    """They follow the dialect that they name."""
    Draft202012Validator.check_schema(evening_schema())
    Draft202012Validator.check_schema(plan_schema())


def test_the_files_in_docs_are_fresh() -> None:
    """Schemas and page of keys are those of the types."""
    assert check_schemas(ROOT / "docs/formats") == ()


@pytest.mark.parametrize("path", [p for p in EXAMPLE_FILES if p.name.startswith("evening")], ids=str)
def test_examples_fit_the_schema(path: Path) -> None:
    """Every example evening is valid."""
    EVENING.validate(plain(tomllib.loads(path.read_text("utf-8"))))


def test_the_schema_refuses_what_the_reader_refuses() -> None:
    """Unknown keys, bare numbers for quantities, unknown words and files without sheets."""
    sheet = {"label": "a", "film": "f"}
    assert EVENING.is_valid({"format": 1, "sheets": [sheet]})
    for wrong in (
        {"format": 1},
        {"format": 1, "sheets": []},
        {"format": 2, "sheets": [sheet]},
        {"format": 1, "sheets": [{"film": "f"}]},
        {"format": 1, "sheets": [sheet | {"lable": "b"}]},
        {"format": 1, "sheets": [sheet | {"importance": "dear"}]},
        {"format": 1, "sheets": [sheet], "floor": 5},
        {"format": 1, "sheets": [sheet], "floor": "5"},
        {"format": 1, "sheets": [sheet | {"shadow": {"ev": 8, "zone": 3}}]},
    ):
        assert not EVENING.is_valid(wrong), wrong


@pytest.mark.parametrize("table", list(tables_of(Evening)), ids=lambda table: table.__name__)
def test_every_example_of_a_key_is_read_and_fits(table: type) -> None:
    """The example in each declaration is a value that the reader takes and the schema allows."""
    schema = evening_schema()
    own = schema if table is Evening else schema["$defs"][table.__name__]
    for name, key in declared_keys(table).items():
        if key.table is None:
            (example,) = own["properties"][name]["examples"]
            value = dt.date.fromisoformat(example) if key.kind == "date" else example
            READERS[key.kind](value, key)
            Draft202012Validator(own["properties"][name]).validate(example)


def test_every_kind_has_a_reader_and_an_example() -> None:
    """No kind can be declared that cannot be read."""
    assert set(READERS) == set(KINDS) - {"table", "tables"}
    assert set(EXAMPLES) >= set(READERS) - {"choice", "choices"}


def test_limits_come_in_pairs() -> None:
    """A key with one limit has both, so that a refusal can name them."""
    for table in tables_of(Evening):
        for key in declared_keys(table).values():
            assert (key.low is None) == (key.high is None), key.name


def test_what_is_written_fits_the_schema() -> None:
    """Plain values of an evening are valid."""
    text = 'format = 1\nfloor = "4:30"\n[[sheets]]\nlabel = "a"\nfilm = "f"\nn = "N-1"\nexposed = 2026-11-01\n'
    EVENING.validate(plain_values(evening_of_text(text)))


def test_stale_files_are_found_and_mended(tmp_path: Path) -> None:
    """Checking names what is stale; writing mends it and keeps the introduction."""
    page = tmp_path / "evening.md"
    page.write_text("# By hand\n")
    assert set(check_schemas(tmp_path)) == set(format_files(tmp_path))
    write_schemas(tmp_path)
    assert check_schemas(tmp_path) == ()
    assert page.read_text("utf-8").startswith("# By hand\n")


def test_the_plan_schema_has_the_stable_keys() -> None:
    """Keys that scripts rely on are required."""
    schema = plan_schema()
    assert {"loads", "lower_bound", "ladder", "sheets"} <= set(schema["required"])
    kinds = schema["$defs"]
    assert {"sheets", "time_s", "volume_ml", "worst_deviation"} <= set(kinds["Load"]["required"])
    assert {"loads", "worst_deviation"} <= set(kinds["Rung"]["required"])
    assert {"id", "time_s", "window_s", "evidence", "stop_error", "reckoning"} <= set(kinds["PlannedSheet"]["required"])
