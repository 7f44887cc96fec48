"""What a command loads, counted in modules: a start stays quick because little is imported; no clock is asked."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

HEAVY = {
    "numpy",
    "scipy",
    "typst",
    "segno",
    "python_calamine",
    "django",
    "ninja",
    "pydantic",
    "PIL",
    "zipfile",
    "xml",
    "email",
    "http",
    "ssl",
}
PROBE = """
import contextlib, io, json, sys
bare = set(sys.modules)
code = None
with contextlib.redirect_stdout(io.StringIO()):
    try:
        from wetside.cli import main
        if {arguments!r} is not None:
            code = main({arguments!r})
    except SystemExit as end:
        code = end.code
print(json.dumps([code, sorted(set(sys.modules) - bare)]))
"""


def loaded(arguments: list[str] | None) -> set[str]:
    """Modules that the command line loads beyond a bare interpreter's; the command must end well."""
    program = PROBE.format(arguments=arguments)
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    code, modules = json.loads(done.stdout)
    assert code in (None, 0), done.stderr
    return set(modules)


def tops(modules: set[str]) -> set[str]:
    return {name.partition(".")[0] for name in modules}


def test_the_command_line_loads_nothing_heavy() -> None:
    """Importing the command line brings no numpy, scipy, typesetter, spreadsheet reader or framework."""
    assert not tops(loaded(None)) & HEAVY


@pytest.mark.parametrize(
    ("arguments", "most"),
    [
        pytest.param(["--version"], 60, id="version"),
        pytest.param(["mix", "1+24", "600ml"], 85, id="mix"),
        pytest.param(["mix", "1+24", "600ml", "--json"], 90, id="mix-json"),
    ],
)
def test_a_small_command_loads_few_modules(arguments: list[str], most: int) -> None:
    """Version and mix load a bounded number of modules, none of them heavy (the reader of TOML serves the units)."""
    modules = loaded(arguments)
    assert not tops(modules) & (HEAVY | {"csv", "inspect", "dataclasses", "asyncio", "logging"})
    assert len(modules) <= most, sorted(modules)


def test_a_plan_of_equal_sheets_needs_no_solver() -> None:
    """The plain evening is planned without numpy or scipy: only mixed sizes ask for the integer master."""
    arguments = ["plan", "examples/demo/evening.toml", "--json"]
    assert not tops(loaded(arguments)) & {"numpy", "typst", "django"}
