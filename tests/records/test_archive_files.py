"""The archive as plain files, out and in, between the databases; by the program itself, on archives of their own."""

from __future__ import annotations

import json
import sqlite3
import zipfile
from contextlib import closing

import pytest

SECRETS = {f"records_{name}" for name in ("signedin", "telephonecode", "signinattempts", "token")}


def exported(archive, archives, target):
    ran = archive.run("export", target)
    assert ran.code == 0, ran.err
    return archives.whole_state(target)


def rows_of(archive):
    """Every row of every table, as the file holds them."""
    with closing(sqlite3.connect(archive.folder / "darkroom.sqlite3")) as database:
        names = [name for (name,) in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: database.execute(f'SELECT * FROM "{name}"').fetchall() for name in names}  # noqa: S608


def test_out_and_in_again_gives_the_same_bytes(filled, archives, tmp_path) -> None:
    """SQLite to plain files to SQLite: every row, every history, every kept file; the check finds nothing wrong."""
    first = exported(filled, archives, tmp_path / "first")
    index = json.loads(first["index.json"])
    assert all(entry["rows"] for entry in index["tables"].values()), [
        n for n, e in index["tables"].items() if not e["rows"]
    ]
    other = archives.Archive(tmp_path / "other")
    ran = other.run("import", tmp_path / "first")
    assert ran.code == 0, ran.err
    assert exported(other, archives, tmp_path / "second") == first
    checked = other.run("check")
    assert checked.code == 0, checked.out


def test_sqlite_to_postgresql_and_back_gives_the_same_bytes(filled, server_archive, archives, tmp_path) -> None:
    """Neither database leaves its mark on the rows; PostgreSQL counts on after the numbers that it was given."""
    first = exported(filled, archives, tmp_path / "first.zip".removesuffix(".zip"))
    assert server_archive.run("import", tmp_path / "first").code == 0
    # By these it plans its questions; secrets are no part of an export.
    assert set(archives.of_unknown_size(server_archive)) <= SECRETS
    assert exported(server_archive, archives, tmp_path / "second") == first
    back = archives.Archive(tmp_path / "back")
    assert back.run("import", tmp_path / "second").code == 0
    assert exported(back, archives, tmp_path / "third") == first
    added = server_archive.run(
        python="from wetside.web.serve import set_up; set_up()\n"
        "from wetside.records.models import Film; from wetside.services.records.changes import make\n"
        "make(Film, {'name': 'Sandhythe'})"
    )
    assert added.code == 0, added.err
    assert server_archive.run("check").code == 0


def test_a_zip_holds_the_same_as_a_folder(filled, archives, tmp_path) -> None:
    """A zip is the folder, to the byte twice over, and is read in the same way."""
    folder = exported(filled, archives, tmp_path / "folder")
    for name in ("one.zip", "two.zip"):
        assert filled.run("export", tmp_path / name).code == 0
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as archive:
        assert {name: archive.read(name) for name in archive.namelist()} == folder
    other = archives.Archive(tmp_path / "other")
    assert other.run("import", tmp_path / "one.zip").code == 0


def test_nothing_is_written_over(filled, tmp_path) -> None:
    """An export goes to a new place only."""
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / "letter.txt").write_text("mine")
    ran = filled.run("export", tmp_path / "there")
    assert (ran.code, (tmp_path / "there" / "letter.txt").read_text()) == (2, "mine")


def test_an_import_is_never_mixed_into_records(filled, begun, tmp_path) -> None:
    """An archive with one record refuses."""
    assert filled.run("export", tmp_path / "out").code == 0
    ran = filled.run("import", tmp_path / "out")
    assert ran.code == 3
    assert "not empty" in ran.err


HURTS = {
    "a row less": lambda files: files | {"tables/film.jsonl": files["tables/film.jsonl"].split(b"\n", 1)[1]},
    "a changed letter": lambda files: (
        files | {"tables/film.jsonl": files["tables/film.jsonl"].replace(b"Tolland", b"Tallond")}
    ),
    "a missing file": lambda files: {name: data for name, data in files.items() if name != "tables/sheet.jsonl"},
    "a kept file changed": lambda files: {
        name: b"%PDF-1.7 rum sheet\n" if name.startswith("attachments") else data for name, data in files.items()
    },
    "a kept file that grows": lambda files: {
        name: b"x" * 5_000_000 if name.startswith("attachments") else data for name, data in files.items()
    },
    "no index": lambda files: {name: data for name, data in files.items() if name != "index.json"},
    "an index of nothing": lambda files: files | {"index.json": b"[]"},
    "a newer format": lambda files: files | {"index.json": files["index.json"].replace(b'"format": 1', b'"format": 2')},
    "an unknown table": lambda files: files | {"index.json": files["index.json"].replace(b'"film":', b'"fillm":')},
    "a way out of the folder": lambda files: (
        files | {"index.json": files["index.json"].replace(b"tables/film.jsonl", b"../../../etc/passwd")}
    ),
}


@pytest.mark.parametrize("hurt", list(HURTS))
def test_a_changed_export_is_refused_whole(filled_export, begun, archives, tmp_path, hurt) -> None:
    """Whatever differs from the index is named, and nothing is taken."""
    files = filled_export
    changed = HURTS[hurt](files)
    assert changed != files
    for name, data in changed.items():
        path = tmp_path / "changed" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    before = rows_of(begun)
    ran = begun.run("import", tmp_path / "changed")
    assert ran.code in (2, 3), ran.out + ran.err
    assert len(ran.err.strip()) > 40
    assert rows_of(begun) == before
    assert not [one for one in (begun.folder / "attachments").rglob("*") if one.is_file()]


ROWS = {
    "not json": (b"{", "no row"),
    "a number for a name": (b'"name":7', "name"),
    "no such day": (b'"expires":"2028-02-30"', "expires"),
    "a relation to nothing": (b'"film_id":"00000000-0000-4000-8000-000000000000"', "refuses"),
    "a rule of the table": (b'"ei":-3.0', "refuses"),
    "not a number": (b'"ei":NaN', "no row"),
    "a name too long": (b'"name":"' + b"x" * 200 + b'"', "name"),
}


@pytest.mark.parametrize("what", list(ROWS))
def test_a_row_that_cannot_be_taken_is_named(filled_export, begun, tmp_path, what) -> None:
    """Even where hash and count fit, each value is checked and the rules hold: file, line, all or nothing."""
    import hashlib
    import re

    text, told = ROWS[what]
    files = filled_export
    name = "tables/film_lot.jsonl" if b"expires" in text or b"film_id" in text else "tables/film.jsonl"
    name = name.replace("film_lot", "filmlot")
    lines = files[name].splitlines(keepends=True)
    if text == b"{":
        lines[0] = b"{\n"
    else:
        key = re.match(rb'"\w+":', text).group()
        lines[0] = re.sub(re.escape(key) + rb'("[^"]*"|[^,}]*)', text, lines[0])
    data = b"".join(lines)
    index = json.loads(files["index.json"])
    for entry in index["tables"].values():
        if entry["file"] == name:
            entry["sha256"] = hashlib.sha256(data).hexdigest()
    for other, content in (files | {name: data, "index.json": json.dumps(index).encode()}).items():
        path = tmp_path / "changed" / other
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    ran = begun.run("import", tmp_path / "changed")
    assert ran.code == 2, ran.out + ran.err
    assert told in ran.err, ran.err
    assert not any(rows_of(begun)["records_film"])
