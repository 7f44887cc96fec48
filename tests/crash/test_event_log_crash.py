"""Processes that are killed, that write together, whose log is torn: what was acknowledged is there, without a gap.

Kills are real (SIGKILL); a power cut is simulated by copying database and log while the writer has them open, and by
cutting the copied log.
"""

from __future__ import annotations

import json
import random
import shutil
import signal
import subprocess
import time

from wetside.adapters.database_file import look_at

BEGIN = """
from wetside.web.serve import set_up; set_up()
from wetside.records.models import Run; from wetside.services.records.changes import make
print(make(Run, {"name": "load 1"}).pk)
"""
WRITE = """
import datetime as dt, sys
from wetside.web.serve import set_up; set_up()
from wetside.errors import ConflictError
from wetside.records.event_log import StoredLog
from wetside.runs.fact import Fact
run, device, most = sys.argv[1], sys.argv[2], int(sys.argv[3])
log, number, at = StoredLog(), 1, dt.datetime(2026, 11, 25, tzinfo=dt.UTC)
print("ready", flush=True)
while number <= most:
    one = Fact("tick", 1, at + dt.timedelta(seconds=number), float(number), "boot", device, number, {"n": number})
    try:
        taken = log.append(run, [one], expected=log.last(run))
    except ConflictError:
        continue
    print(taken.seqs[0], number, flush=True)
    number += 1
"""
WRITE_UNCOPIED = WRITE.replace(
    'print("ready"',
    'from django.db import connection; connection.cursor().execute("PRAGMA wal_autocheckpoint=0"); print("ready"',
)
"""The same, but nothing is carried over from the log into the database file: what was carried over is on the disk
before, so that a power cut can only tear what follows it."""
READ = """
import json, sys
from wetside.web.serve import set_up; set_up()
from wetside.records.event_log import StoredLog
print(json.dumps([[one.seq, one.fact.device, one.fact.device_number] for one in StoredLog().read(sys.argv[1])]))
"""


def begin_run(archive):
    ran = archive.run(python=BEGIN)
    assert ran.code == 0, ran.err
    return ran.out.strip()


def read(archive, run):
    ran = archive.run(run, python=READ)
    assert ran.code == 0, ran.err
    return json.loads(ran.out)


def acknowledged(out):
    """Whole lines of (place, number) that the writer printed after its transaction had ended."""
    lines = out.rpartition("\n")[0].splitlines()
    return [tuple(map(int, line.split())) for line in lines if line and line != "ready"]


def no_gap(events):
    assert [seq for seq, *_ in events] == list(range(1, len(events) + 1))
    assert len({tuple(name) for _, *name in events}) == len(events)


def test_a_killed_writer_loses_nothing_that_it_acknowledged(live) -> None:
    """Six kills at moments of chance in one run: every acknowledged fact is there, at its place."""
    run = begin_run(live)
    chance = random.Random(20261125)
    told = []
    for turn in range(6):
        writer = live.start(run, f"phone-{turn}", "100000", python=WRITE)
        assert writer.stdout.readline() == "ready\n"
        time.sleep(chance.uniform(0.02, 0.4))
        writer.send_signal(signal.SIGKILL)
        out, _ = writer.communicate(timeout=30)
        told += [(seq, f"phone-{turn}", number) for seq, number in acknowledged(out)]
    events = read(live, run)
    no_gap(events)
    assert len(told) > 10
    assert {tuple(event) for event in events} >= set(told)
    assert live.run("check").code == 0


def test_writers_together_leave_no_gap_and_lose_nothing(live) -> None:
    """Three processes at once: each is refused where another was first, reads on, and all facts are there once."""
    run = begin_run(live)
    each = 40
    writers = [live.start(run, device, str(each), python=WRITE) for device in ("phone", "tablet", "desk")]
    told = []
    for device, writer in zip(("phone", "tablet", "desk"), writers, strict=True):
        out, err = writer.communicate(timeout=120)
        assert writer.returncode == 0, err
        told += [(seq, device, number) for seq, number in acknowledged(out + "\n")]
    events = read(live, run)
    no_gap(events)
    assert len(events) == 3 * each
    assert {tuple(event) for event in events} == set(told)


THREADS = """
import datetime as dt, sys, threading
from wetside.web.serve import set_up; set_up()
from django.db import connection
from wetside.errors import ConflictError
from wetside.records.event_log import StoredLog
from wetside.runs.fact import Fact
at, wrong = dt.datetime(2026, 11, 25, tzinfo=dt.UTC), []
def write(device):
    try:
        log, number = StoredLog(), 1
        while number <= 25:
            one = Fact("tick", 1, at, 1.0, "boot", device, number, {})
            try:
                log.append(sys.argv[1], [one], expected=log.last(sys.argv[1]))
            except ConflictError:
                continue
            number += 1
    except Exception as error:
        wrong.append(repr(error))
    finally:
        connection.close()
threads = [threading.Thread(target=write, args=(f"device {n}",)) for n in range(4)]
for thread in threads: thread.start()
for thread in threads: thread.join()
print(wrong)
"""


def test_threads_together_leave_no_gap(live) -> None:
    """Four threads of one server."""
    run = begin_run(live)
    ran = live.run(run, python=THREADS)
    assert ran.out.strip() == "[]", ran.out + ran.err
    events = read(live, run)
    no_gap(events)
    assert len(events) == 100


def test_a_torn_log_keeps_what_was_whole(begun, archives, tmp_path) -> None:
    """Database and log are copied while a writer has them open, and the log is cut at a byte of chance.

    The cut copy opens, is sound, and holds the first facts without a gap: never one from behind the cut alone.
    """
    run = begin_run(begun)
    writer = begun.start(run, "phone", "100000", python=WRITE_UNCOPIED)
    assert writer.stdout.readline() == "ready\n"
    time.sleep(0.8)
    writer.send_signal(signal.SIGSTOP)
    torn = tmp_path / "torn"
    shutil.copytree(begun.folder, torn, ignore=shutil.ignore_patterns("*-shm", ".lock"))
    writer.send_signal(signal.SIGKILL)
    writer.communicate(timeout=30)
    whole = (torn / "darkroom.sqlite3-wal").read_bytes()
    assert len(whole) > 20_000
    chance = random.Random(7)
    lengths = set()
    for turn in range(5):
        copy = archives.Archive(tmp_path / f"cut-{turn}")
        shutil.copytree(torn, copy.folder)
        (copy.folder / "darkroom.sqlite3-wal").write_bytes(whole[: chance.randrange(100, len(whole))])
        events = read(copy, run)
        no_gap(events)
        lengths.add(len(events))
        assert look_at(copy.folder / "darkroom.sqlite3").sound
    assert len(lengths) > 1


def test_a_server_killed_at_any_moment_of_its_start_opens_again(filled, archives) -> None:
    """Backups and tables are never half: the next start finds a whole archive and whole backups."""
    chance = random.Random(11)
    for _ in range(6):
        server = filled.start("serve", "--port", "0")
        time.sleep(chance.uniform(0.3, 1.6))
        server.kill()
        server.communicate(timeout=30)
    checked = filled.run("check", "--json")
    assert checked.code == 0, checked.out
    server = filled.start("serve", "--port", "0")
    assert "127.0.0.1" in server.stdout.readline()
    server.send_signal(signal.SIGINT)
    try:
        server.communicate(timeout=20)
    except subprocess.TimeoutExpired:
        server.kill()
        server.communicate()
    assert not list((filled.folder / "backups").glob(".*part*"))


def test_a_backup_while_others_write_is_one_moment(live, archives, tmp_path) -> None:
    """A writer goes on while backup and export run: both hold a run without a gap, and the backup counts."""
    run = begin_run(live)
    writer = live.start(run, "phone", "100000", python=WRITE)
    assert writer.stdout.readline() == "ready\n"
    try:
        time.sleep(0.3)
        made = live.run("backup", "--json")
        exported = live.run("export", tmp_path / "out")
    finally:
        writer.kill()
        writer.communicate(timeout=30)
    assert (made.code, exported.code) == (0, 0), made.err + exported.err
    other = archives.Archive(tmp_path / "other")
    assert other.run("import", tmp_path / "out").code == 0
    events = read(other, run)
    no_gap(events)
    assert len(events) > 5
    assert other.run("check").code == 0
