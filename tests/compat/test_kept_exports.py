"""What earlier programs wrote is still read: an export of format 1 as it lies here, and one that is broken.

No version was released yet, so that no data folder of one lies here; the first release adds its own.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import jsonschema
import pytest

DATA = Path(__file__).parent / "data"
KEPT = DATA / "export-format-1"


def test_an_export_of_format_1_is_read(archives, tmp_path) -> None:
    """All its rows are taken, whatever columns came since; the archive is whole, and every old line is found again."""
    archive = archives.Archive(tmp_path / "darkroom")
    ran = archive.run("import", KEPT)
    assert ran.code == 0, ran.err
    assert archive.run("check").code == 0
    assert archive.run("export", tmp_path / "again").code == 0
    for old in sorted((KEPT / "tables").iterdir()):
        rows = [json.loads(line) for line in old.read_bytes().splitlines()]
        new = [json.loads(line) for line in (tmp_path / "again" / "tables" / old.name).read_bytes().splitlines()]
        assert [row.items() <= other.items() for row, other in zip(rows, new, strict=True)] == [True] * len(rows), (
            old.name
        )


def test_an_export_to_postgresql_is_read(server_archive) -> None:
    """The same on the other database."""
    assert server_archive.run("import", KEPT).code == 0
    assert server_archive.run("check").code == 0


@pytest.mark.parametrize("name", ["index.json", "tables/sheet.jsonl", "tables/runevent.jsonl"])
def test_a_corrupt_one_is_refused_and_leaves_nothing(archives, tmp_path, name) -> None:
    """Cut in the middle of a file: named, and the archive stays empty."""
    broken = tmp_path / "broken"
    shutil.copytree(KEPT, broken)
    data = (broken / name).read_bytes()
    (broken / name).write_bytes(data[: len(data) // 2])
    archive = archives.Archive(tmp_path / "darkroom").begin()
    ran = archive.run("import", broken)
    assert ran.code == 2
    assert name.rpartition("/")[2] in ran.err
    document = json.loads(archive.run("check", "--json").out)
    assert set(document["rows"].values()) == {0}


def test_index_and_rows_follow_the_schema() -> None:
    """The kept export, line by line, against docs/formats/export.schema.json."""
    schema = json.loads((Path(__file__).parents[2] / "docs/formats/export.schema.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    index = json.loads((KEPT / "index.json").read_text("utf-8"))
    jsonschema.validate(index, schema)
    for name in index["tables"]:
        row_schema = schema["$defs"][name]
        for line in (KEPT / "tables" / f"{name}.jsonl").read_text("utf-8").split("\n")[:-1]:
            jsonschema.validate(json.loads(line), row_schema)


def test_the_schema_is_fresh() -> None:
    """docs/formats/export.schema.json is what the tables are (tools/make_schemas.py writes it)."""
    from wetside.services.archive.export_schema import export_schema

    path = Path(__file__).parents[2] / "docs/formats/export.schema.json"
    assert json.loads(path.read_text("utf-8")) == json.loads(json.dumps(export_schema()))
