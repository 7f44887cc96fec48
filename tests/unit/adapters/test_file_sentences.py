"""Codes and sentences of kept files fit each other."""

from __future__ import annotations

import ast
import string
from pathlib import Path

import wetside.adapters
from wetside.wording.catalog.files import SENTENCES
from wetside.wording.shown import SHOWN

CALLS = [
    node
    for path in Path(wetside.adapters.__file__).parent.glob("*.py")
    for node in ast.walk(ast.parse(path.read_text("utf-8")))
    if isinstance(node, ast.Call)
]
WRITTEN = {
    node.value
    for path in Path(wetside.adapters.__file__).parent.glob("*.py")
    for node in ast.walk(ast.parse(path.read_text("utf-8")))
    if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.startswith("files.")
    and not node.value.endswith(".")
}  # fmt: skip


def test_every_code_has_a_sentence_and_every_sentence_a_code() -> None:
    """Nothing is unsaid and nothing is dead."""
    assert set(SENTENCES) == WRITTEN


def test_what_a_sentence_needs_is_given() -> None:
    """Parameters that can be read off the source are complete, and shown in ways of the house."""
    lacking = []
    for call in CALLS:
        first = call.args[0] if call.args else None
        if isinstance(first, ast.Constant) and first.value in SENTENCES:
            given = {word.arg for word in call.keywords}
            needed = {name for _, name, _, _ in string.Formatter().parse(SENTENCES[first.value]) if name}
            open_ended = None in given  # ** gives more than the source shows
            if getattr(call.func, "id", "").endswith("Error") and not open_ended and needed - given:
                lacking.append((first.value, needed - given))
    assert not lacking
    hows = {how for text in SENTENCES.values() for _, _, how, _ in string.Formatter().parse(text) if how}
    assert hows <= set(SHOWN)
