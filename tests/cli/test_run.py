"""``wetside run``: simulated, from a plan, killed and taken up again, and at a real terminal."""

from __future__ import annotations

import json
import os
import re
import select
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.fixtures.moved_clock import MovedClock
from tests.fixtures.terminal_run import TerminalRun

ROOT = Path(__file__).resolve().parents[2]
QUICK = ("--film", "Tolland 100", "--developer", "Brackwater", "--time", "7:30")


def test_a_simulated_run_comes_to_its_end(wetside) -> None:
    """The simulated photographer goes through the same engine, and the same seed gives the same run."""
    first = wetside("run", *QUICK, "--simulate", 3)
    assert first.code == 0, first.err
    assert "Drain developer soon. Next: stop, in your hand?" in first.out
    assert "The run is over" in first.out
    assert wetside("run", *QUICK, "--simulate", 3).out == first.out
    assert wetside("run", *QUICK, "--simulate", 4).out != first.out


def test_an_evening_of_the_demo_plan(wetside, tmp_path: Path) -> None:
    """Every load of the demo plan, each to hanging, with a log that holds the run."""
    assert wetside("plan", "examples/demo/evening.toml", "--out", tmp_path).code == 0
    loads = json.loads((tmp_path / "plan.json").read_text("utf-8"))["loads"]
    for load in loads:
        number, log = load["number"], tmp_path / f"{load['number']}.log"
        done = wetside(
            "run", "--plan", tmp_path / "plan.json", "--load", number, "--simulate", number, "--log", log, "--json"
        )
        assert done.code == 0, done.err
        assert done.document["status"] == "ended"
        assert done.document["lasted_s"] > load["time_s"]
        stands = wetside("run", "--log", log, "--json").document
        assert (stands["status"], stands["next"]["in_s"]) == ("ended", None)


def test_a_killed_run_is_where_it_was(wetside, tmp_path: Path) -> None:
    """Started, killed, and looked at again: the time ran on, by the clock that counts from the machine's start."""
    log = tmp_path / "run.log"
    words = [sys.executable, "-m", "wetside.cli", "run", *QUICK, "--log", str(log)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    with subprocess.Popen(words, stdout=subprocess.PIPE, stdin=subprocess.DEVNULL, env=environment) as running:
        assert running.stdout is not None
        assert b"Developer" in running.stdout.readline()
        begun = time.monotonic()
        running.kill()
    stands = wetside("run", "--log", log, "--json").document
    assert stands["status"] == "ready"
    assert stands["next"]["act"] in ("1.full", "1.drain")
    assert abs(stands["run_s"] - (time.monotonic() - begun)) < 3.0
    assert stands["facts"] == 1


def test_without_a_terminal_each_cue_is_a_line(wetside) -> None:
    """A run of half a minute at high speed, nobody answering: lines, no screen, and an end."""
    done = wetside("run", *QUICK[:4], "--time", "0:40", "--no-pauses", "--speed", 2000)
    assert done.code == 0, done.err
    assert "Drain developer now." in done.out
    assert "Hang now." in done.out
    assert "\x1b" not in done.out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "Say what to run"),
        (("--film", "Tolland 100"), "--developer"),
        ((*QUICK[:4], "--time", "soon"), "--time"),
        ((*QUICK[:4], "--time", "0:01"), "0:30"),
        (("--plan", "nowhere.json"), "nowhere.json"),
        (("--plan", "examples/demo/evening.toml"), "no JSON"),
        (("--plan", "x.json", "--film", "y"), "--film"),
        ((*QUICK, "--speed", "0"), "speed"),
        ((*QUICK, "--speed", "nan"), "speed"),
        ((*QUICK, "--temp", "500 C"), "--temp"),
        ((*QUICK, "--log", "/nowhere/at/all.log"), "all.log"),
        ((*QUICK, "--log", "README.md"), "no log of a run"),
    ],
)
def test_a_mistake_is_told_in_a_sentence(wetside, words, told: str) -> None:
    """Never a traceback; the option or the file is named."""
    done = wetside("run", *words)
    assert done.code != 0
    assert told in done.err


def test_a_damaged_plan_names_its_field(wetside, tmp_path: Path) -> None:
    """What is missing is told with the load that lacks it."""
    wetside("plan", "examples/demo/evening.toml", "--out", tmp_path)
    document = json.loads((tmp_path / "plan.json").read_text("utf-8"))
    del document["loads"][1]["schedule"]
    (tmp_path / "plan.json").write_text(json.dumps(document), "utf-8")
    done = wetside("run", "--plan", tmp_path / "plan.json")
    assert done.code != 0
    assert "loads.2" in done.err
    assert "no load" in wetside("run", "--plan", _whole(wetside, tmp_path), "--load", 99).err


def _whole(wetside, folder: Path) -> Path:
    wetside("plan", "examples/demo/evening.toml", "--out", folder)
    return folder / "plan.json"


@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo-terminal")
def test_keys_at_a_terminal(tmp_path: Path) -> None:
    """Space tells, u takes back, t asks for a reading, q leaves; the screen says what to do next in large letters."""
    import pty

    log = tmp_path / "run.log"
    ours, theirs = pty.openpty()
    words = [sys.executable, "-m", "wetside.cli", "run", *QUICK, "--log", str(log)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "COLUMNS": "80", "TERM": "xterm"}
    begun = time.monotonic()
    with subprocess.Popen(words, stdin=theirs, stdout=theirs, stderr=theirs, env=environment) as running:
        try:
            os.close(theirs)
            seen = _until(ours, b"DEVELOPER")
            assert time.monotonic() - begun < 15.0, "from start to a counting run"
            for keys, answer in (
                (b" ", b"Taken: developer, full."),
                (b"u", b"Taken back"),
                (b"t", b"Reading in the developer"),
                (b"20,0\n", b"20.0 \xc2\xb0C, developer."),
            ):
                time.sleep(1.7)
                os.write(ours, keys)
                seen += _until(ours, answer)
            os.write(ours, b"q")
            seen += _until(ours, b"goes on by its log")
            assert running.wait(10) == 0
        finally:
            running.kill()
    text = seen.decode("utf-8", "replace")
    assert re.search(r"DEVELOPER, DRAIN IN 7:\d\d", text)
    assert "| now" in text
    assert not re.search(r"\x1b\[[0-9;]*m", text), "nothing is told by colour"
    assert len(log.read_bytes().splitlines()) == 5
    os.close(ours)


@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo-terminal")
def test_keys_for_a_look_for_what_went_wrong_and_for_giving_up(tmp_path: Path) -> None:
    """The end moves by the look, light that came in is kept, one key does not give up; cues go on while one types."""
    clock = MovedClock(tmp_path / "clock.json")
    at = TerminalRun(clock.words("run", *QUICK, "--log", tmp_path / "run.log"), clock.on)
    try:
        at.until("DEVELOPER")
        at.answer(" ", "Taken: developer, full")
        clock.begin()
        at.answer("k", "Looked")
        at.answer("-0:30\n", r"DRAIN IN 6:5\d")
        at.answer("k", "Looked")
        at.answer("soon\n", "k: ")
        at.answer("i", "What went wrong")
        at.answer("x\n", "tells nothing that went wrong")
        at.answer("i", "What went wrong")
        clock.to(7 * 60 - 30)
        at.until(r"Drain developer soon. Next: stop, in your hand\? What went wrong")
        at.answer("l 0:10 the door\n", "Noted for every sheet")
        at.answer("i", "What went wrong")
        at.answer("s #2\n", "There is no place 2")
        at.answer("g", "Give the run up")
        at.answer("n\n", "Not given up")
        at.answer("g", "Give the run up")
        at.key("yes no water\n")
        at.until(r"light came in \(the door\)")
        assert at.process.wait(10) == 0
    finally:
        at.close()


def _until(handle: int, wanted: bytes) -> bytes:
    seen, ends = b"", time.monotonic() + 8.0
    while wanted not in seen and time.monotonic() < ends:
        if select.select([handle], [], [], 0.2)[0]:
            try:
                seen += os.read(handle, 65536)
            except OSError:
                break
    assert wanted in seen, seen[-2000:].decode("utf-8", "replace")
    return seen


def test_the_evenings_own_pairs_reach_the_run(tmp_path: Path) -> None:
    """8:00 at 20 and 5:55 at 24 C: ln(480/355)/4 a degree, in the script as in the plan; a named one before them."""
    from wetside.services.run_terminal import RunAnswers, script_of_answers

    text = (ROOT / "examples" / "demo" / "evening.toml").read_text("utf-8")
    assert 'name = "Brackwater"' in text
    for named, expected in (("", 0.0754), ("coefficient = 0.111\n", 0.111)):
        folder = tmp_path / f"n{len(named)}"
        shutil.copytree(ROOT / "examples" / "demo", folder)
        (folder / "evening.toml").write_text(
            text.replace('name = "Brackwater"\n', f'name = "Brackwater"\n{named}', 1), "utf-8"
        )
        done = subprocess.run(
            [sys.executable, "-m", "wetside.cli", "plan", folder / "evening.toml", "--out", folder / "out"], check=False
        )
        assert done.returncode == 0
        script = script_of_answers(RunAnswers(plan=str(folder / "out" / "plan.json"), load="1"))
        assert script.per_c == pytest.approx(expected, abs=5e-5)
