"""Serving while the backup of the start is made; one data folder for each PostgreSQL database."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing

BACKUP_WAITS = """
import sys, threading
from wetside.web.serve import set_up; set_up()
from wetside.services.archive import start_backup
gate, honest = threading.Event(), start_backup.make_backup
def slow(*given, **more):
    gate.wait(30)
    return honest(*given, **more)
start_backup.make_backup = slow
import uvicorn
def answer(self, sockets):
    print("serving", flush=True)
    gate.set()
uvicorn.Server.run = answer
from wetside.cli import main
sys.exit(main(["serve", "--port", "0"]))
"""
BACKUP_FAILS = """
import sys
from wetside.adapters import backup_store
def full(*given):
    raise OSError(28, "No space left on device")
backup_store.write_note = full
import uvicorn; uvicorn.Server.run = lambda self, sockets: None
from wetside.cli import main
sys.exit(main(["serve", "--port", "0"]))
"""
HOLDS = """
import time
from wetside.web.serve import open_darkroom
opened = open_darkroom()
print("open", flush=True)
time.sleep(60)
"""


def backups(archive) -> list[dict[str, object]]:
    return json.loads(archive.run("backup", "--list", "--json").out)["backups"]


def test_pages_are_served_while_the_backup_of_the_start_is_made(filled) -> None:
    """The address is told and pages answer first; the program ends only once the backup counts."""
    ran = filled.run(python=BACKUP_WAITS)
    assert ran.code == 0, ran.err
    assert ran.out.index("is open at") < ran.out.index("serving") < ran.out.index("Backup made and read back")
    (made,) = backups(filled)
    with closing(sqlite3.connect(filled.folder / "backups" / str(made["name"]))) as copy:
        assert copy.execute("SELECT count(*) FROM records_film").fetchone()[0] == 2


def test_a_backup_that_fails_meanwhile_is_told_and_does_not_count(filled) -> None:
    """A full disk: the records are open, the failure is said, no half backup is left."""
    ran = filled.run(python=BACKUP_FAILS)
    assert ran.code == 0, ran.err
    assert "Traceback" not in ran.err
    assert "NO BACKUP was made" in " ".join(ran.out.split())
    assert backups(filled) == []


def test_two_servers_do_not_share_a_postgresql_database(server_archive, archives, tmp_path) -> None:
    """While one works, another folder's is refused; afterwards too, for the records belong to the first."""
    server_archive.begin()
    other = archives.Archive(tmp_path / "other", server_archive.database)
    code = "import sys; from wetside.cli import main; sys.exit(main(['import', sys.argv[1]]))"
    first = server_archive.start(python=HOLDS)
    try:
        assert first.stdout.readline() == "open\n"
        refused = other.run(tmp_path, python=code)
        assert refused.code == 3
        assert "Another program works on this PostgreSQL database" in " ".join(refused.err.split())
    finally:
        first.terminate()
        first.communicate(timeout=20)
    refused = other.run(tmp_path, python=code)
    assert refused.code == 3
    assert "belongs to another data folder" in " ".join(refused.err.split())
    assert server_archive.begin()


def test_a_killed_server_leaves_no_lock_and_a_lost_folder_has_a_way_on(server_archive, archives, tmp_path) -> None:
    """The lock ends with its process; a folder that says whose records it keeps opens them."""
    server_archive.begin()
    first = server_archive.start(python=HOLDS)
    assert first.stdout.readline() == "open\n"
    first.kill()
    first.communicate(timeout=20)
    server_archive.begin()
    other = archives.Archive(tmp_path / "other", server_archive.database)
    other.folder.mkdir()
    (other.folder / "about.toml").write_bytes((server_archive.folder / "about.toml").read_bytes())
    other.begin()


ASKED_TWICE = """
import asyncio, os
from wetside.web.serve import open_darkroom
opened = open_darkroom()
import psycopg
from asgiref.testing import ApplicationCommunicator
from wetside.web.asgi import application

async def status():
    scope = {"type": "http", "method": "GET", "path": "/films/", "raw_path": b"/films/", "query_string": b"",
             "headers": [(b"host", b"127.0.0.1")], "http_version": "1.1", "scheme": "http"}
    one = ApplicationCommunicator(application, scope)
    await one.send_input({"type": "http.request", "body": b"", "more_body": False})
    told = await one.receive_output(20)
    while (await one.receive_output(20)).get("more_body"):
        pass
    return told["status"]

async def main():
    before = await status()
    with psycopg.connect(os.environ["WETSIDE_DATABASE"], autocommit=True) as other:
        ended = other.execute(
            "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity "
            "WHERE pid <> pg_backend_pid() AND datname = current_database() AND state = 'idle'"
        ).fetchone()[0]
    print(before, ended > 0, await status())

asyncio.run(main())
"""


def test_a_connection_that_the_database_closed_is_opened_anew(server_archive) -> None:
    """Threads keep their connections; one that ended between two requests is no fault of the second."""
    ran = server_archive.run(python=ASKED_TWICE)
    assert ran.out.split() == ["200", "True", "200"], ran.err
