"""The log of a run in a file: nothing that was told as taken is lost, whatever kills the program or tears the file."""

from __future__ import annotations

import json
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.fixtures.run_sample import FIRST, quick

from wetside.adapters.run_log import FileLog
from wetside.errors import ConflictError, InputError
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
from wetside.runs.events import Device, Done, Incident, Noted, Opened, Resumed, facts_of_events
from wetside.runs.fold import fold
from wetside.wording import speak_error

ROOT = Path(__file__).resolve().parents[2]
KILLS = 50
WRITER = """
import sys
from pathlib import Path
from tests.fixtures.run_sample import FIRST, quick
from wetside.adapters.run_log import FileLog
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
conduct = Conduct(FileLog(Path(sys.argv[1])), "run", "terminal")
if not conduct.facts and not conduct.state().script:
    conduct.do(c.Open(quick()), FIRST.at(0.0))
now_s = 10.0 * (len(conduct.facts) + 1)
while True:
    now_s += 10.0
    conduct.do(c.Incidence(text=str(len(conduct.facts))), FIRST.at(now_s))
    print(len(conduct.facts), flush=True)
"""


def opened(path: Path) -> list[object]:
    log = FileLog(path)
    try:
        return [one.fact for one in log.read("run")]
    finally:
        log.close()


@pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL")
def test_no_kill_loses_what_was_told_as_taken(tmp_path: Path) -> None:
    """Fifty kills at random moments: every fact that was told as taken is there, in order, without a gap."""
    path, chance = tmp_path / "run.log", random.Random(5)
    environment = {**os.environ, "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}"}
    told = 0
    for _ in range(KILLS):
        with subprocess.Popen(
            [sys.executable, "-c", WRITER, str(path)], stdout=subprocess.PIPE, env=environment, cwd=ROOT
        ) as writer:
            assert writer.stdout is not None
            first = writer.stdout.readline()
            time.sleep(chance.random() * 0.01)
            writer.send_signal(signal.SIGKILL)
            rest = writer.stdout.read()
        whole = (first + rest).split(b"\n")[:-1]
        told = max(told, *(int(line) for line in whole))
        facts = opened(path)
        assert len(facts) >= told
        assert [fact.device_number for fact in facts] == list(range(1, len(facts) + 1))
    assert not fold(opened(path)).contested
    assert told >= KILLS


def written(path: Path) -> bytes:
    log = FileLog(path)
    conduct = Conduct(log, "run", "terminal")
    conduct.do(c.Open(quick()), FIRST.at(0.0))
    conduct.do(c.Tell(), FIRST.at(10.0))
    conduct.do(c.Reading(20.1), FIRST.at(100.0))
    log.close()
    return path.read_bytes()


def test_a_log_torn_at_any_byte_of_its_last_line_is_recovered(tmp_path: Path) -> None:
    """The facts before the torn line stand; the rest is cut off, and the next fact is taken."""
    whole = written(tmp_path / "whole.log")
    begin = whole.rfind(b"\n", 0, len(whole) - 1) + 1
    torn = tmp_path / "torn.log"
    for end in range(begin, len(whole)):
        torn.write_bytes(whole[:end])
        log = FileLog(torn)
        assert log.torn_bytes == end - begin
        assert log.last("run") == 2
        conduct = Conduct(log, "run", "terminal")
        conduct.do(c.Reading(19.9), FIRST.at(200.0))
        log.close()
        assert len(opened(torn)) == 3


def test_a_log_torn_in_its_first_line_begins_anew(tmp_path: Path) -> None:
    """Before the first line was whole nothing was taken."""
    header = written(tmp_path / "whole.log").split(b"\n")[0]
    torn = tmp_path / "torn.log"
    for end in range(len(header)):
        torn.write_bytes(header[:end])
        assert opened(torn) == []


def test_damage_in_the_middle_is_told_with_its_line_and_the_file_is_left_alone(tmp_path: Path) -> None:
    """A gap would show wrong times: the program stops, and keeps the file."""
    path = tmp_path / "run.log"
    whole = written(path)
    lines = whole.split(b"\n")
    lines[2] = lines[2].replace(b"1.full", b"1.fool")
    path.write_bytes(b"\n".join(lines))
    with pytest.raises(InputError) as caught:
        FileLog(path)
    assert caught.value.place.line == 3
    assert "damaged" in speak_error(caught.value)
    assert path.read_bytes() == b"\n".join(lines)


@pytest.mark.parametrize("content", [b"dear diary\n", b"dear diary", b"{}\n", b"\xff\xfe\n\n"])
def test_another_file_is_never_overwritten(tmp_path: Path, content: bytes) -> None:
    """A name given by mistake costs nobody a file."""
    path = tmp_path / "diary.txt"
    path.write_bytes(content)
    with pytest.raises(InputError):
        FileLog(path)
    assert path.read_bytes() == content


def test_two_programs_never_write_to_one_log(tmp_path: Path) -> None:
    """The second is told so; when the first has closed, it may."""
    path = tmp_path / "run.log"
    first = FileLog(path)
    with pytest.raises(ConflictError) as caught:
        FileLog(path)
    assert caught.value.code == "files.runlog.in_use"
    first.close()
    FileLog(path).close()


@pytest.mark.skipif(os.name != "posix", reason="needs a limit on the size of files")
def test_a_full_disk_takes_nothing_and_says_so(tmp_path: Path) -> None:
    """What does not fit is not taken in part: the log stays whole, and goes on when there is room."""
    import resource

    path = tmp_path / "run.log"
    log = FileLog(path)
    facts = facts_of_events((Opened(quick()), Done("1.full"), Resumed(0.0)), FIRST.at(0.0), Device("t", 1))
    log.append("run", facts, expected=0)
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    try:
        resource.setrlimit(resource.RLIMIT_FSIZE, (path.stat().st_size + 20, before[1]))
        more = facts_of_events((Noted(Incident.LIGHT),), FIRST.at(5.0), Device("t", 4))
        with pytest.raises(InputError):
            log.append("run", more, expected=3)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
        signal.signal(signal.SIGXFSZ, handler)
    assert log.last("run") == 3
    assert log.append("run", more, expected=3).last == 4
    log.close()
    assert len(opened(path)) == 4
    assert json.loads(path.read_bytes().split(b"\n")[0].partition(b" ")[2])["format"] == 1
