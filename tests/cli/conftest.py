"""Running the real program as a person does."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any, NamedTuple

import pytest

ROOT = Path(__file__).resolve().parents[2]
PROGRAM = shutil.which("wetside", path=str(Path(sys.executable).parent))


class Ran(NamedTuple):
    """What a process told the shell and the person."""

    code: int
    out: str
    err: str

    @property
    def document(self) -> dict[str, Any]:
        return json.loads(self.out, parse_constant=lambda word: pytest.fail(f"{word} in JSON"))


def clean_environment() -> dict[str, str]:
    """The surroundings of the tests without what would change the program's output."""
    changing = ("NO_COLOR", "COLUMNS", "LANGUAGE", "LANG", "LC_ALL", "PYTHONIOENCODING", "PYTHONUTF8", "TERM")
    return {name: value for name, value in os.environ.items() if name not in changing}


@pytest.fixture(scope="session")
def program() -> list[str]:
    """Words that start the program: the installed script, or the module where only the source is there."""
    return [PROGRAM] if PROGRAM else [sys.executable, "-m", "wetside.cli"]


@pytest.fixture(scope="session")
def wetside(program):
    """Run the program in the root of the repository, or elsewhere; never a traceback, whatever happens."""

    def run(*words: object, cwd: Path = ROOT, **environment: str) -> Ran:
        done = subprocess.run(
            [*program, *map(str, words)],
            cwd=cwd,
            env={**clean_environment(), **environment},
            capture_output=True,
            stdin=subprocess.DEVNULL,
            timeout=120,
            check=False,
        )
        out, err = done.stdout.decode("utf-8"), done.stderr.decode("utf-8")
        assert "Traceback" not in out + err, err
        return Ran(done.returncode, out, err)

    return run


@pytest.fixture(scope="session")
def root() -> Path:
    return ROOT


@pytest.fixture
def variant(tmp_path):
    """A copy of an example with some text changed: ``variant("b1", ("1+3", "1+5"))``; each change must be found."""

    def make(example: str, *changes: tuple[str, str]) -> Path:
        folder = tmp_path / example
        shutil.copytree(ROOT / "examples" / example, folder, dirs_exist_ok=True)
        path = folder / "evening.toml"
        text = path.read_text("utf-8")
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new)
        path.write_text(text, "utf-8")
        return path

    return make
