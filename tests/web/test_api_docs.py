"""What the documentation says of the interface is so: its page is fresh, and the thermometer's example runs."""

from __future__ import annotations

import json
import re
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from wetside.runs.events import Where
from wetside.runs.readings import FASTEST_C_PER_S, NOISE_C, STALE_S, STEP_C
from wetside.services.records.run_readings import SOONEST_S
from wetside.web.api.body import DEEPEST, MOST_BYTES
from wetside.web.api.page import interface_files
from wetside.web.api.shapes import MOST_ITEMS

if TYPE_CHECKING:
    from collections.abc import Iterator

DOCS = Path(__file__).resolve().parents[2] / "docs"
HOW_TO = DOCS / "how-to" / "thermometer.md"


def example(kind: str) -> str:
    found = re.search(rf"```{kind}\n(.*?)```", HOW_TO.read_text("utf-8"), re.DOTALL)
    assert found
    return found[1]


def test_page_and_description_are_fresh() -> None:
    """`make docs` would change nothing."""
    for path, text in interface_files(DOCS).items():
        assert path.read_text("utf-8") == text, f"{path.name} is stale: run tools/make_interface.py"


def test_the_pages_name_the_limits_that_hold() -> None:
    """Figures in the text are those of the program."""
    page = (DOCS / "reference" / "interface.md").read_text("utf-8")
    assert f"{MOST_BYTES:,} bytes" in page
    assert f"{DEEPEST} levels" in page
    assert f"at most {MOST_ITEMS} records" in page
    how_to = HOW_TO.read_text("utf-8")
    fast = {where: 60.0 * FASTEST_C_PER_S[where] for where in Where}
    assert f"{NOISE_C:g} °C and {fast[Where.DEVELOPER]:g} °C a minute" in how_to
    assert f"{NOISE_C + STEP_C[Where.JACKET]:g} °C and {fast[Where.JACKET]:g} °C a minute" in how_to
    assert f"more than {STALE_S:g} s ago" in how_to
    assert f"every {SOONEST_S:g} seconds" in how_to


PROGRAM = "import sys; from wetside.cli import main; sys.exit(main())"
BEGIN = """
import json, sys
from wetside.web.serve import open_darkroom
open_darkroom().lock.release()
from tests.web.api_archive import make_archive
archive = make_archive()
print(json.dumps([str(archive.keys["runs"]), archive.tokens["readings"]]))
"""


@pytest.fixture
def sending(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """A served darkroom in which a run goes on; its key. In the end the run has one reading, of 20.0 C."""
    monkeypatch.delenv("WETSIDE_DATABASE", raising=False)
    monkeypatch.setenv("WETSIDE_DATA", str(tmp_path / "darkroom"))
    root = DOCS.parent
    made = subprocess.run([sys.executable, "-c", BEGIN], cwd=root, capture_output=True, text=True, check=True)
    key, token = json.loads(made.stdout)
    monkeypatch.setenv("PYTHONUNBUFFERED", "1")
    server = subprocess.Popen(
        [sys.executable, "-c", PROGRAM, "serve", "--port", "0"], stdout=subprocess.PIPE, text=True, cwd=root
    )
    try:
        assert server.stdout is not None
        said = re.search(r"http://\S+/", server.stdout.readline())
        assert said
        address = said[0].rstrip("/")
        monkeypatch.setenv("WETSIDE_ADDRESS", address)
        monkeypatch.setenv("WETSIDE_TOKEN", token)
        # The first answer of a server that has just begun is its slowest; the examples wait no longer than they say.
        with urllib.request.urlopen(f"{address}/api/v1/runs/{key}/state", timeout=60) as answer:  # noqa: S310 (ours)
            assert json.load(answer)["readings"] == []
        yield key
        with urllib.request.urlopen(f"{address}/api/v1/runs/{key}/state", timeout=10) as answer:  # noqa: S310 (ours)
            state = json.load(answer)
        assert [one["temp_c"] for one in state["readings"]] == [pytest.approx(20.0)]
        assert [one["where"] for one in state["readings"]] == ["jacket"]
    finally:
        server.send_signal(signal.SIGINT)
        server.wait(20)


def test_the_example_in_python_reports(sending: str) -> None:
    """Run as it stands on the page, by a program of its own, against a real server."""
    program = example("python") + "\nprint(json.dumps(report(20.4)))\n"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert (told["used"], told["run"]) == (True, sending)
    assert len([line for line in example("python").splitlines() if line]) <= 10


@pytest.mark.needs_program("curl")
def test_the_example_in_a_shell_reports(sending: str) -> None:
    """The same with curl."""
    done = subprocess.run(["sh", "-c", example("sh")], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["run"] == sending
