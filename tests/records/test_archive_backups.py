"""Backups, the way back, damage, migrations that fail: by the program itself, on archives of their own."""

from __future__ import annotations

import datetime as dt
import json
import shutil
import sqlite3
from contextlib import closing

import pytest

from wetside.adapters.backup_store import Backup
from wetside.services.archive.keeping import surplus

ADD_A_FILM = """
import sys
from wetside.web.serve import set_up; set_up()
from wetside.records.models import Film; from wetside.services.records.changes import make
make(Film, {"name": sys.argv[1]})
"""
FAILING = """
from django.db import migrations
def add(apps, editor):
    editor.execute("INSERT INTO records_failing (n) VALUES (1)")
    apps.get_model("records", "Film").objects.all().update(name="LOST")
def fail(apps, editor):
    raise ValueError("no such luck")
class Migration(migrations.Migration):
    dependencies = (("records", "{before}"),)
    operations = (migrations.RunSQL("CREATE TABLE records_failing (n integer)"), migrations.RunPython(add))
class Second(Migration):
    pass
"""


def start(archive, **environment):
    """Open the archive as the server does, and say what was done."""
    code = (
        "import sys\nfrom wetside.cli import main\n"
        "import uvicorn; uvicorn.Server.run = lambda self, sockets: None\n"
        "sys.exit(main(['serve', '--port', '0', '--json']))"
    )
    ran = archive.run(python=code, **environment)
    assert "Traceback" not in ran.err, ran.err
    return ran


def told(ran):
    return [one["code"].rpartition(".")[2] for one in json.loads(ran.out)["told"]]


def backups(archive):
    return json.loads(archive.run("backup", "--list", "--json").out)["backups"]


@pytest.fixture(scope="session")
def started_template(filled_template, tmp_path_factory):
    """The filled archive after its first start, which made a backup."""
    archive = filled_template.copy(tmp_path_factory.mktemp("started") / "darkroom")
    assert told(start(archive)) == ["backed_up"]
    return archive


@pytest.fixture
def started(started_template, tmp_path):
    return started_template.copy(tmp_path / "started")


def test_a_start_makes_a_backup_unless_nothing_changed(filled) -> None:
    """The first start makes one that is read back; the second finds the same bytes; a change makes another."""
    first = start(filled)
    assert (first.code, told(first)) == (0, ["backed_up"])
    assert told(start(filled)) == ["unchanged"]
    assert filled.run("Sandhythe", python=ADD_A_FILM).code == 0
    assert told(start(filled)) == ["backed_up"]
    newest, before = backups(filled)
    assert newest["rows"] == before["rows"] + 2  # the film and its history


def test_a_start_on_postgresql_makes_an_export_and_can_go_back_to_it(
    server_archive, archives, filled, tmp_path
) -> None:
    """The backup there is our own plain files, and fills an empty database again."""
    assert filled.run("export", tmp_path / "out").code == 0
    assert server_archive.run("import", tmp_path / "out").code == 0
    assert told(start(server_archive)) == ["backed_up"]
    assert told(start(server_archive)) == ["unchanged"]
    (newest, *_) = backups(server_archive)
    assert newest["name"].endswith("-start.zip")
    refused = server_archive.run("backup", "--restore", newest["name"])
    assert refused.code == 3
    assert "not empty" in refused.err
    emptied = archives.Archive(server_archive.folder, archives.new_server_database())
    ran = start(emptied)
    assert ran.code == 3
    back = emptied.run("backup", "--restore", newest["name"])
    assert back.code == 0, back.err
    assert archives.whole_state(tmp_path / "out") == _exported(emptied, archives, tmp_path / "again")


def _exported(archive, archives, target):
    ran = archive.run("export", target)
    assert ran.code == 0, ran.err
    return archives.whole_state(target)


def test_two_servers_never_share_a_folder(begun) -> None:
    """The second start names the first one's process; its end, however hard, frees the folder."""
    first = begun.start("serve", "--port", "0")
    assert "127.0.0.1" in first.stdout.readline()
    second = begun.run("serve", "--port", "0")
    assert second.code == 3
    assert str(first.pid) in second.err
    assert '"serve"' in second.err
    refused = begun.run("import", "whatever")
    assert refused.code == 3
    first.kill()
    first.communicate()
    assert start(begun).code == 0


def damage_header(database):
    database.write_bytes(b"not a database at all" + database.read_bytes()[21:])


def damage_middle(database):
    data = bytearray(database.read_bytes())
    for page in range(4096 * 6, len(data) - 4096, 4096):
        data[page : page + 200] = b"\xff" * 200
    database.write_bytes(data)


def cut_short(database):
    database.write_bytes(database.read_bytes()[:30_000])


def empty(database):
    database.write_bytes(b"")


def lose(database):
    database.unlink()


def replace_by_another(database):
    database.unlink()
    with closing(sqlite3.connect(database)) as other:
        other.execute("CREATE TABLE t (n)")


@pytest.mark.parametrize("hurt", [damage_header, damage_middle, cut_short, empty, lose, replace_by_another])
def test_damage_stops_the_start_and_the_way_back_is_named(started, filled_export, archives, tmp_path, hurt) -> None:
    """Nothing begins empty: the file stays, the newest whole backup is named, and going back keeps the damaged file."""
    (backup,) = backups(started)
    database = started.folder / "darkroom.sqlite3"
    hurt(database)
    left = database.read_bytes() if database.exists() else None
    ran = start(started)
    assert ran.code == 3, ran.out
    assert f"wetside backup --restore {backup['name']}" in ran.out
    assert (database.read_bytes() if database.exists() else None) == left
    checked = started.run("check")
    assert checked.code == 5
    assert backup["name"] in checked.out.replace("\n", " ").replace("       ", "")
    assert started.run("export", tmp_path / "no").code == 3
    back = started.run("backup", "--restore", backup["name"])
    assert back.code == 0, back.err
    kept = list(started.folder.glob("darkroom-before-*.sqlite3"))
    assert [one.read_bytes() for one in kept] == ([left] if left is not None else [])
    assert start(started).code == 0
    assert _exported(started, archives, tmp_path / "after") == filled_export


def test_a_harmed_backup_is_passed_over(started) -> None:
    """A backup whose bytes changed is neither offered nor restored; the check names it."""
    started.run("Sandhythe", python=ADD_A_FILM)
    start(started)
    newest, older = backups(started)
    damage_middle(started.folder / "backups" / newest["name"])
    refused = started.run("backup", "--restore", newest["name"])
    assert refused.code == 3
    assert newest["name"] in started.run("check").out.replace("\n       ", " ")
    lose(started.folder / "darkroom.sqlite3")
    ran = start(started)
    assert older["name"] in ran.out
    assert newest["name"] not in ran.out


def test_without_any_backup_damage_is_told_too(filled) -> None:
    """No backup, no promise: the advice is to copy the folder first."""
    damage_header(filled.folder / "darkroom.sqlite3")
    ran = start(filled)
    assert ran.code == 3
    assert "no backup that is whole" in ran.out


def test_a_misspelt_backup_has_a_nearest(started) -> None:
    """A slip of the pen names what was meant."""
    (backup,) = backups(started)
    ran = started.run("backup", "--restore", backup["name"].replace("start", "stat"))
    assert ran.code == 2
    assert backup["name"] in ran.err


def failing_migrations(tmp_path, *, fails=True):
    """A package of migrations: ours, and two more, of which the first writes and the second fails."""
    from pathlib import Path

    import wetside.records.migrations as ours

    package = tmp_path / "more_migrations"
    shutil.copytree(Path(ours.__file__).parent, package, ignore=shutil.ignore_patterns("__pycache__"))
    last = max(path.stem for path in package.glob("0*.py"))
    text = FAILING.replace("{before}", last)
    (package / "9001_writes.py").write_text(text.partition("class Second")[0])
    failing = text.replace(f'"{last}"', '"9001_writes"').partition("class Second")[0]
    if fails:
        failing = failing.replace(
            'migrations.RunSQL("CREATE TABLE records_failing (n integer)"), migrations.RunPython(add)',
            "migrations.RunPython(fail),",
        )
        (package / "9002_fails.py").write_text(failing)
    (tmp_path / "more_settings.py").write_text(
        "from wetside.web.settings import *\nMIGRATION_MODULES = {'records': 'more_migrations'}\n"
    )
    return {"DJANGO_SETTINGS_MODULE": "more_settings"}


@pytest.mark.parametrize("keeper", ["sqlite", "postgresql"])
def test_a_migration_that_fails_leaves_the_old_archive(request, archives, tmp_path, filled, keeper) -> None:
    """Two steps, the second fails: neither is there afterwards, a backup of before is, and the old version opens."""
    import os
    import sys

    archive = filled
    if keeper == "postgresql":
        archive = request.getfixturevalue("server_archive")
        filled.run("export", tmp_path / "out")
        assert archive.run("import", tmp_path / "out").code == 0
    before = _exported(archive, archives, tmp_path / "before")
    changed = failing_migrations(tmp_path)
    path = os.pathsep.join([str(tmp_path), *sys.path])
    ran = start(archive, PYTHONPATH=path, **changed)
    assert ran.code == 3, ran.out
    assert "no such luck" in ran.out
    assert "migration" in backups(archive)[0]["name"]
    assert _exported(archive, archives, tmp_path / "after") == before
    assert start(archive).code == 0
    assert not list(archive.folder.glob(".*changing*"))


def test_a_migration_that_succeeds_is_told_and_an_older_program_refuses(filled, archives, tmp_path) -> None:
    """The new form is there, with a backup from before; the program that does not know it opens nothing."""
    import os
    import sys

    changed = failing_migrations(tmp_path, fails=False)
    path = os.pathsep.join([str(tmp_path), *sys.path])
    ran = start(filled, PYTHONPATH=path, **changed)
    assert (ran.code, told(ran)) == (0, ["migrated"]), ran.out
    refused = start(filled)
    assert refused.code == 3
    assert "9001_writes" in refused.out
    assert filled.run("check").code == 5
    (backup,) = backups(filled)
    assert filled.run("backup", "--restore", backup["name"]).code == 0
    assert start(filled).code == 0


def test_postgresql_knows_the_sizes_after_a_change_of_the_tables(server_archive, archives, tmp_path) -> None:
    """A migration may fill tables: the questions that follow are planned by what they hold then."""
    import os
    import sys

    server_archive.begin(filled=True)
    assert "records_sheet" in archives.of_unknown_size(server_archive)
    changed = failing_migrations(tmp_path, fails=False)
    ran = start(server_archive, PYTHONPATH=os.pathsep.join([str(tmp_path), *sys.path]), **changed)
    assert (ran.code, told(ran)) == (0, ["migrated"]), ran.out
    assert "records_sheet" not in archives.of_unknown_size(server_archive)


def test_records_in_one_database_are_not_begun_in_another(filled, server_archive) -> None:
    """A folder whose records are in SQLite does not open with PostgreSQL, and stays what it was."""
    ran = filled.run("serve", "--port", "0", WETSIDE_DATABASE=server_archive.database)
    assert ran.code == 3
    assert "wetside export" in ran.err
    assert start(filled).code == 0


def test_a_newer_folder_and_a_foreign_folder_are_refused(begun, archives, tmp_path) -> None:
    """A newer format is not opened; a folder with other things in it gets no file of ours."""
    about = begun.folder / "about.toml"
    about.write_text(about.read_text().replace("format = 1", "format = 2"))
    for words in (("serve", "--port", "0"), ("check",), ("backup",), ("export", tmp_path / "x")):
        ran = begun.run(*words)
        assert ran.code == 3, words
        assert "format 2" in ran.err
    foreign = archives.Archive(tmp_path / "letters")
    foreign.folder.mkdir()
    (foreign.folder / "letter.txt").write_text("mine")
    ran = foreign.run("serve", "--port", "0")
    assert ran.code == 3
    assert [one.name for one in foreign.folder.iterdir()] == ["letter.txt"]


LITTLE_ROOM = """
import resource, signal, sys
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
room = int(sys.argv.pop(1))
resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))
from wetside.cli import main
sys.exit(main(sys.argv[1:]))
"""


def test_a_full_disk_is_told_and_leaves_nothing_behind(filled, tmp_path) -> None:
    """Simulated by a limit of a file's size: no half backup, no half export, and the archive is whole."""
    for words in (
        (300_000, "backup"),
        (2_000, "export", tmp_path / "out.zip"),
        (2_000, "export", tmp_path / "out"),
        (300_000, "import", tmp_path / "none", "--data", tmp_path / "n"),
    ):
        ran = filled.run(*words, python=LITTLE_ROOM)
        assert ran.code in (2, 3, 4), (words, ran.out, ran.err)
        assert "Traceback" not in ran.err, ran.err
        assert len(ran.err.strip()) > 30
    assert not list((filled.folder / "backups").iterdir())
    assert not [*tmp_path.glob("out*"), *tmp_path.glob(".out*")]
    assert filled.run("check").code == 0


def made(*moments):
    return [Backup(f"{moment:%Y%m%d-%H%M%S}", moment, "start", "sqlite", 1, "", {}, "", "", "") for moment in moments]


def test_what_is_kept_of_a_year_of_daily_backups() -> None:
    """Three a day for a year: the last ten, one for each of thirty days, one for each month; never the newest lost."""
    now = dt.datetime(2026, 11, 25, 21, 0, tzinfo=dt.UTC)
    all_made = made(*(now - dt.timedelta(days=day, hours=hour) for day in range(365) for hour in (0, 2, 4)))
    gone = {one.name for one in surplus(all_made, now)}
    stays = sorted((one.made_at for one in all_made if one.name not in gone), reverse=True)
    assert stays[:10] == sorted((one.made_at for one in all_made), reverse=True)[:10]
    days = {moment.date() for moment in stays}
    assert all((now - dt.timedelta(days=day)).date() in days for day in range(31))
    months = {(moment.year, moment.month) for moment in stays}
    assert len(months) == 13
    assert len(stays) <= 10 + 31 + 13
    assert not surplus(all_made[:10], now)


def test_thinning_twice_is_thinning_once() -> None:
    """What is kept is kept again."""
    now = dt.datetime(2026, 11, 25, 21, 0, tzinfo=dt.UTC)
    all_made = made(*(now - dt.timedelta(hours=7 * step) for step in range(900)))
    names = {one.name for one in surplus(all_made, now)}
    kept = [one for one in all_made if one.name not in names]
    assert not surplus(kept, now)
