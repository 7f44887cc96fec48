"""A port that cannot be had."""

from __future__ import annotations

import signal
import subprocess
import sys
import urllib.error
import urllib.request

import pytest


def test_an_impossible_port_is_told_in_a_sentence(tmp_path) -> None:
    """No traceback, exit code 2, and what to do instead."""
    words = ["serve", "--port", "99999", "--data", str(tmp_path / "darkroom")]
    program = "import sys; from wetside.cli import main; sys.exit(main())"
    done = subprocess.run([sys.executable, "-c", program, *words], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert "--port" in done.stderr


def test_a_server_that_does_well_says_nothing_in_the_terminal(tmp_path) -> None:
    """A page and its files are given, and the person who serves reads no warning made for programmers."""
    program = "import sys; from wetside.cli import main; sys.exit(main())"
    words = [sys.executable, "-u", "-c", program, "serve", "--port", "0", "--data", str(tmp_path / "darkroom")]
    served = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        assert served.stdout is not None
        said = next(line for line in served.stdout if "http://" in line)
        address = next(word for word in said.split() if word.startswith("http://")).rstrip("/.,")
        for path in ("/", "/static/web/wetside.css", "/static/web/run/page.js", "/worker.js"):
            with urllib.request.urlopen(address + path) as answer:  # noqa: S310  (our own server)
                assert answer.status == 200
                assert answer.read()
        # What a person mistyped is told on the page, not in the terminal.
        for path in ("/sheets/nowhere/", "/sheets/00000000-0000-0000-0000-000000000000/"):
            with pytest.raises(urllib.error.HTTPError, match=r"404|422"):
                urllib.request.urlopen(address + path)  # noqa: S310  (our own server)
    finally:
        served.terminate()
        _, complaints = served.communicate(timeout=60)
    assert complaints == ""


OPENED = """
import datetime as dt
from wetside.web.serve import open_darkroom
open_darkroom().lock.release()
from tests.web.api_archive import make_archive
print(make_archive().keys["runs"])
"""


def test_a_server_stops_at_once_while_somebody_watches(tmp_path, monkeypatch) -> None:
    """A stream would last for hours: it ends, the server is gone, and nothing is said of it."""
    monkeypatch.setenv("WETSIDE_DATA", str(tmp_path / "darkroom"))
    monkeypatch.delenv("WETSIDE_DATABASE", raising=False)
    made = subprocess.run([sys.executable, "-c", OPENED], capture_output=True, text=True, check=False)
    assert made.returncode == 0, made.stderr
    program = "import sys; from wetside.cli import main; sys.exit(main())"
    words = [sys.executable, "-u", "-c", program, "serve", "--port", "0"]
    served = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        assert served.stdout is not None
        said = next(line for line in served.stdout if "http://" in line)
        address = next(word for word in said.split() if word.startswith("http://")).rstrip("/.,")
        with urllib.request.urlopen(f"{address}/runs/{made.stdout.strip()}/watch", timeout=30) as stream:  # noqa: S310
            assert stream.readline() == b"retry: 1000\n"
            while b"event:" not in stream.readline():
                pass
            served.send_signal(signal.SIGINT)
            assert b"event: fact" not in stream.read(), "it ends, and says nothing that is not so"
        _, complaints = served.communicate(timeout=30)
    finally:
        served.kill()
    assert (served.returncode, complaints) == (130, "")
