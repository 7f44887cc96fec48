"""``wetside token``: add, list, remove, with an archive of its own; what is shown once, and what is refused."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def wetside(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    code = "import sys; from wetside.cli import main; sys.exit(main(sys.argv[1:]))"
    env = {name: value for name, value in os.environ.items() if name != "WETSIDE_DATABASE"}
    env |= {"WETSIDE_DATA": str(folder), "PYTHONPATH": str(ROOT / "src")}
    return subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True, check=False, env=env)


def test_a_token_from_its_making_to_its_end(tmp_path: Path) -> None:
    """Made in an archive that was not there yet, shown once, listed without its secret, removed for good."""
    made = wetside(tmp_path, "token", "add", "probe by the sink", "--scope", "readings", "--json")
    assert made.returncode == 0, made.stderr
    token = json.loads(made.stdout)
    assert token["token"].startswith("wet-")
    listed = wetside(tmp_path, "token", "list")
    assert "probe by the sink" in listed.stdout
    assert "last used never" in listed.stdout
    assert token["token"] not in listed.stdout
    files = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert not [path for path in files if token["token"].encode() in path.read_bytes()]
    again = wetside(tmp_path, "token", "add", "Probe by the sink", "--scope", "read")
    assert again.returncode != 0
    assert "already" in again.stderr
    assert wetside(tmp_path, "token", "remove", "PROBE by the sink").returncode == 0
    gone = wetside(tmp_path, "token", "remove", "probe by the sink")
    assert gone.returncode != 0
    assert "Traceback" not in gone.stderr
    assert json.loads(wetside(tmp_path, "token", "list", "--json").stdout) == {"tokens": []}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("add",), "Name the program"),
        (("add", "probe"), "--scope read"),
        (("remove", "probe", "--scope", "read"), "takes none"),
        (("remove",), "Name the program"),
        (("list", "probe"), "takes no name"),
    ],
)
def test_what_is_missing_is_said(tmp_path: Path, words: tuple[str, ...], said: str) -> None:
    """Without opening or making anything."""
    done = wetside(tmp_path / "none", "token", *words)
    assert done.returncode == 2
    assert said in done.stderr
    assert not (tmp_path / "none").exists()
