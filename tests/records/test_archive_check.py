"""The examination: each rule finds what breaks it, and nothing where nothing is broken."""

from __future__ import annotations

import datetime as dt
import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from wetside.adapters.attachments import attachment_path, keep_attachment
from wetside.records import models
from wetside.records.event_log import StoredLog
from wetside.runs.fact import Fact
from wetside.services.archive import rules
from wetside.services.archive.rules import RULES
from wetside.services.records.changes import change, make, remove
from wetside.wording import known_codes, sentence

NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


def codes(rule, folder=Path("nowhere")):
    """Codes that a rule finds, each sayable with its parameters."""
    found = list(rule(folder))
    for code, params in found:
        assert code in known_codes("services")
        assert "{" not in sentence(code, params)
    return [code.rpartition(".")[2] for code, _ in found]


@pytest.mark.django_db
@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_nothing_is_found_in_an_empty_archive(rule, tmp_path) -> None:
    """No record breaks no rule."""
    assert codes(rule, tmp_path) == []


@pytest.mark.django_db
def test_a_bottle_that_disagrees_with_its_lines() -> None:
    """Both sums are compared; a bottle of unknown contents is not."""
    good = make(models.Bottle, {"mark": "A", "holds": "stock", "left_ml": 0.3})
    for number, change_ml in enumerate((0.1, 0.2), 1):
        models.BottleLine.objects.create(bottle=good, number=number, at=NOW, kind="filled", change_ml=change_ml)
    make(models.Bottle, {"mark": "B", "holds": "stock"})
    assert codes(rules.bottles_agree_with_their_ledgers) == []
    change(good, {"left_ml": 0.35, "seen_units": 2.0})
    assert codes(rules.bottles_agree_with_their_ledgers) == ["bottle_ml", "bottle_units"]


@pytest.mark.django_db
def test_a_process_without_its_newest_version() -> None:
    """The count of versions, and the newest itself."""
    process = make(models.Process, {"name": "drum", "newest": 2})
    assert codes(rules.processes_have_their_newest_version) == ["process_newest"]
    models.ProcessVersion.objects.create(process=process, version=2, developer="B", temp_c=20, clock="full-to-drain")
    assert codes(rules.processes_have_their_newest_version) == ["process_gap"]
    models.ProcessVersion.objects.create(process=process, version=1, developer="B", temp_c=20, clock="full-to-drain")
    assert codes(rules.processes_have_their_newest_version) == []


@pytest.mark.django_db
def test_a_run_with_a_gap() -> None:
    """A fact that is missing inside or at the front is missed."""
    run = make(models.Run, {"name": "load 1"})
    StoredLog().append(str(run.pk), [Fact("a", 1, NOW, 1.0, "boot", "phone", 1, {})], expected=0)
    assert codes(rules.runs_have_no_gap) == []
    models.RunEvent.objects.create(
        run=run, seq=3, kind="a", version=1, at_utc=NOW, boot_s=1, boot_id="b", device="phone", device_number=3
    )
    assert codes(rules.runs_have_no_gap) == ["run_gap"]


@pytest.mark.django_db
def test_files_that_are_gone_changed_or_stray(tmp_path) -> None:
    """Each kept file is read; one that nobody points to is only minded."""
    plan = make(models.Plan, {"name": "Wednesday"})
    sha256, size = keep_attachment(tmp_path, b"run sheet")
    models.Attachment.objects.create(plan=plan, name="a.pdf", kind="run-sheet", sha256=sha256, size_bytes=size)
    assert codes(rules.files_are_what_they_were, tmp_path) == []
    keep_attachment(tmp_path, b"stray")
    assert codes(rules.files_are_what_they_were, tmp_path) == ["stray_file"]
    attachment_path(tmp_path, sha256).write_bytes(b"run shirt")
    assert "file_differs" in codes(rules.files_are_what_they_were, tmp_path)
    attachment_path(tmp_path, sha256).unlink()
    assert "file_missing" in codes(rules.files_are_what_they_were, tmp_path)


@pytest.mark.django_db
def test_a_record_that_was_changed_from_outside() -> None:
    """Its history says last what it is; a removed one can be brought back as it was; its name is found."""
    film = make(models.Film, {"name": "Tolland 100"})
    remove(film, NOW)
    for rule in (rules.every_record_has_its_history, rules.names_are_found_as_they_are_typed):
        assert codes(rule) == []
    models.Film.objects.filter(pk=film.pk).update(removed_at=None, name="Ravensmoor")
    assert codes(rules.every_record_has_its_history) == ["other_history"]
    assert codes(rules.names_are_found_as_they_are_typed) == ["name_key"]
    film.history.all().delete()
    assert codes(rules.every_record_has_its_history) == ["no_history"]


@pytest.mark.django_db
def test_a_planned_sheet_without_a_plan() -> None:
    """A sheet that hangs from nothing would never be planned again."""
    film = make(models.Film, {"name": "Tolland 100"})
    sheet = make(models.Sheet, {"label": "7 left", "film": film, "state": "planned"})
    assert codes(rules.planned_sheets_have_their_plan) == ["planned_nowhere"]
    plan = make(models.Plan, {"name": "W", "frozen_at": NOW, "evening": "x", "document": {}})
    models.PlanSheet.objects.create(plan=plan, sheet=sheet, rank=1, load=1)
    assert codes(rules.planned_sheets_have_their_plan) == []
    remove(plan, NOW)
    assert codes(rules.planned_sheets_have_their_plan) == ["planned_nowhere"]


def test_the_check_says_what_it_looked_at(filled) -> None:
    """A whole archive: exit code 0, rows and backups counted, as text and as JSON; the archive is left as it was."""
    before = {path: path.read_bytes() for path in filled.folder.rglob("*") if path.is_file()}
    ran = filled.run("check", "--json")
    document = json.loads(ran.out)
    assert (ran.code, document["sound"], document["rows"]["sheet"]) == (0, True, 2)
    assert [one["weight"] for one in document["findings"]] == ["mind"]  # no backup yet
    said = filled.run("check")
    assert "is whole" in said.out
    assert {path: path.read_bytes() for path in filled.folder.rglob("*") if path.is_file()} == before


def test_the_check_tells_rows_that_point_to_nothing(filled) -> None:
    """A relation that leads nowhere is found by the database's own look, and a start tells it but does not stop."""
    with closing(sqlite3.connect(filled.folder / "darkroom.sqlite3")) as opened, opened:
        opened.execute("UPDATE records_filmlot SET film_id = 'ffffffffffffffffffffffffffffffff'")
    ran = filled.run("check", "--json")
    assert ran.code == 5
    assert "services.check.strays" in {one["code"] for one in json.loads(ran.out)["findings"]}


def test_the_check_of_nothing_is_refused(archives, tmp_path) -> None:
    """No archive, no answer; nothing is made there."""
    ran = archives.Archive(tmp_path / "none").run("check")
    assert ran.code == 3
    assert not (tmp_path / "none").exists()
