"""Size and names of modules."""

from __future__ import annotations

import ast
import io
import statistics
import tokenize
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

MOST_LINES = 600
MEDIAN_BELOW = 100
NAMELESS = {"utils", "util", "helpers", "helper", "common", "manager", "misc"}
SILENT = (tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT, tokenize.ENCODING)


def code_lines(text: str) -> int:
    """Lines that hold code: no blanks, no comments, no docstrings."""
    lines: set[int] = set()
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type not in SILENT and token.type != tokenize.ENDMARKER:
            lines.update(range(token.start[0], token.end[0] + 1))
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str):
            lines.difference_update(range(node.lineno, (node.end_lineno or node.lineno) + 1))
    return len(lines)


def test_no_file_is_longer_than_six_hundred_lines(python_files: list[Path]) -> None:
    """A module that needs more than 600 lines is two modules."""
    own = [path for path in python_files if path.parent.name != "migrations"]  # those are written by the framework
    long = {str(path): n for path in own if (n := len(path.read_text("utf-8").splitlines())) > MOST_LINES}
    assert not long


def test_the_median_module_is_short(root: Path) -> None:
    """Half of the package's modules that hold any code have fewer than 100 lines of it."""
    counts = [code_lines(path.read_text("utf-8")) for path in (root / "src").rglob("*.py")]
    assert statistics.median(count for count in counts if count) < MEDIAN_BELOW


def test_every_module_is_named_for_its_topic(root: Path) -> None:
    """No module or folder is called utils, helpers, common, manager or base."""
    paths = [path.relative_to(root) for path in (root / "src" / "wetside").rglob("*")]
    bad = [str(path) for path in paths if path.stem == "base" or NAMELESS & set(path.stem.split("_"))]
    assert not bad


def test_docstrings_and_blanks_do_not_count_as_code() -> None:
    """The measure counts statements only, a statement over two lines as two."""
    assert code_lines('"""Doc\n\nmore."""\n\n# why\nx = [1,\n     2]\n\ndef f():\n    """Doc."""\n    return x\n') == 4
