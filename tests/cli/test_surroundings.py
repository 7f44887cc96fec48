"""Pipes, colours, encodings, narrow terminals and folders that cannot be written to."""

from __future__ import annotations

import os
import pty
import subprocess
from pathlib import Path

import pytest

DEMO = "examples/demo/evening.toml"
B1 = "examples/b1/evening.toml"
ESCAPE = "\x1b["


def test_no_colour_into_a_pipe(wetside):
    """Piped output has no escape sequence and no trailing blank."""
    for words in (("plan", DEMO), ("why", DEMO, "2 right"), ("curve", "examples/demo/tolland-100.csv")):
        out = wetside(*words).out
        assert ESCAPE not in out
        assert all(line == line.rstrip() for line in out.splitlines())


def on_terminal(program, root, words, **environment):
    """Output of the program on a terminal of its own."""
    ours, theirs = pty.openpty()
    base = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS")}
    process = subprocess.Popen(
        [*program, *words], cwd=root, stdout=theirs, stderr=theirs, stdin=theirs, env={**base, **environment}
    )
    os.close(theirs)
    found = b""
    while True:
        try:
            part = os.read(ours, 65536)
        except OSError:
            break
        if not part:
            break
        found += part
    os.close(ours)
    assert process.wait(timeout=60) == 0
    return found.decode("utf-8")


def test_colour_on_a_terminal_only_if_wanted(program, root):
    """A terminal gets colour; NO_COLOR and a dumb terminal do not."""
    words = ["plan", B1]
    assert ESCAPE in on_terminal(program, root, words, TERM="xterm")
    assert ESCAPE not in on_terminal(program, root, words, TERM="xterm", NO_COLOR="1")
    assert ESCAPE not in on_terminal(program, root, words, TERM="dumb")


@pytest.mark.parametrize(
    "words", [("plan", DEMO), ("plan", DEMO, "--json"), ("mix", "1+24", "1l"), ("complete", "bash")]
)
def test_a_closed_pipe_is_quiet(program, root, words):
    """A reader that goes away ends the program without a word and with code 0."""
    ours, theirs = os.pipe()
    os.close(ours)
    done = subprocess.run(
        [*program, *words], cwd=root, stdout=theirs, stderr=subprocess.PIPE, text=True, check=False, timeout=60
    )
    os.close(theirs)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize(
    "surroundings",
    [
        {"LANG": "C", "LC_ALL": "C"},
        {"PYTHONIOENCODING": "ascii"},
        {"LC_ALL": "POSIX", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"LANGUAGE": "xx", "LANG": "de_DE.UTF-8"},
    ],
)
def test_no_locale_stops_it(wetside, surroundings):
    """Every locale and encoding gets an answer; where a character cannot be shown it is spelled."""
    ran = wetside("plan", DEMO, **surroundings)
    assert ran.code == 0
    assert ran.err == ""
    assert "?" not in ran.out
    assert "20.0" in ran.out
    if ran.out.isascii():
        assert "20.0 C" in ran.out
        assert "1/4" in ran.out


def test_json_is_the_same_in_every_encoding(wetside):
    """JSON into an ASCII pipe reads back as the same document, apart from what was spelled."""
    plain = wetside("why", DEMO, "2 right", "--json").document
    assert wetside("why", DEMO, "2 right", "--json", PYTHONIOENCODING="ascii").document == plain


def test_a_name_that_is_not_text(program, root):
    """A file name of bytes that are no text is an ordinary missing file."""
    done = subprocess.run([*program, "plan", b"\xff\xfe.toml"], cwd=root, capture_output=True, check=False, timeout=60)
    assert done.returncode == 4
    assert b"Traceback" not in done.stderr


@pytest.mark.parametrize("columns", ["60", "80", "100"])
def test_lines_fit_the_terminal(wetside, columns):
    """Lines of plan and reckoning keep to the width that the terminal states."""
    for words in (("plan", DEMO), ("plan", B1), ("why", DEMO, "5 right")):
        out = wetside(*words, COLUMNS=columns).out
        assert max(len(line) for line in out.splitlines()) <= int(columns)


@pytest.mark.parametrize("columns", ["1", "0", "-5", "wide", "99999999999"])
def test_a_foolish_width_is_no_matter(wetside, columns):
    """What is no sensible width is put right, not believed."""
    ran = wetside("plan", B1, COLUMNS=columns)
    assert ran.code == 0
    assert 30 <= max(len(line) for line in ran.out.splitlines()) <= 110


def test_a_full_disk_is_told(program, root):
    """An output that takes nothing ends with code 4 and the system's word for it."""
    if not Path("/dev/full").exists():
        pytest.skip("no /dev/full here")
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [*program, "plan", B1], cwd=root, stdout=full, stderr=subprocess.PIPE, text=True, check=False, timeout=60
        )
    assert done.returncode == 4
    assert "Traceback" not in done.stderr
    assert done.stderr.startswith("wetside: ")
