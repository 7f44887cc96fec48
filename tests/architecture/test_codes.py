"""Codes and sentences fit each other: every code can be said, every sentence is used, with the parameters it needs."""

from __future__ import annotations

import ast
import importlib
import re
import string
from typing import TYPE_CHECKING, NamedTuple

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

CODE = re.compile(r"[a-z_]+(\.[a-z0-9_]+)+")
FILE_ENDINGS = ("toml", "csv", "json", "svg", "html", "pdf", "png", "typ", "py", "md", "xlsx", "txt", "css")


class Use(NamedTuple):
    """A code where it is written: its parameters are None where they cannot be read off the source."""

    where: str
    package: str
    code: str
    params: frozenset[str] | None
    raised: bool


def is_code(text: object, packages: set[str]) -> bool:
    """Whether a text looks like a code: dotted, its first part a package, its last no file ending."""
    if not isinstance(text, str) or not CODE.fullmatch(text):
        return False
    first, *_, last = text.split(".")
    return first in packages and last not in FILE_ENDINGS and not last.endswith("_")


def called(node: ast.Call) -> str:
    return node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")


def parameters(node: ast.Call) -> frozenset[str] | None:
    """Names that a call gives: keywords of an error, keys of the dict that a note or a step is given."""
    if called(node).endswith("Error"):
        names = {word.arg for word in node.keywords}
        return None if None in names else frozenset(name for name in names if name and name != "place")
    given = [*node.args, *(word.value for word in node.keywords)]
    tables = [value for value in given if isinstance(value, ast.Dict)]
    if tables:
        keys = [key.value if isinstance(key, ast.Constant) else None for key in tables[0].keys]
        return None if None in keys else frozenset(map(str, keys))
    plain = all(isinstance(value, ast.Constant) for value in given)
    return frozenset() if plain and called(node) == "Note" else None


def uses(trees: dict[Path, ast.Module], packages: set[str]) -> Iterator[Use]:
    """Every code written in the package, outside the catalogue."""
    for path, tree in trees.items():
        if path.parts[:2] == ("wording", "catalog") or "migrations" in path.parts:
            continue
        seen: set[int] = set()
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call):
                continue
            for value in (*node.args, *(word.value for word in node.keywords)):
                if isinstance(value, ast.Constant) and is_code(value.value, packages):
                    seen.add(id(value))
                    raised = called(node).endswith("Error")
                    yield Use(f"{path}:{value.lineno}", path.parts[0], value.value, parameters(node), raised)
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and id(node) not in seen and is_code(node.value, packages):
                yield Use(f"{path}:{node.lineno}", path.parts[0], node.value, None, raised=False)


def beginnings(trees: dict[Path, ast.Module], packages: set[str]) -> set[str]:
    """Fixed beginnings of codes that are put together, as in ``f"planning.act.{kind}"`` or ``"cards.act_" + kind``.

    The name of a package alone is no beginning: it would make every sentence of the package a used one.
    """
    texts = {
        node.value
        for path, tree in trees.items()
        if path.parts[:2] != ("wording", "catalog")
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.endswith((".", "_"))
    }
    return {text for text in texts if is_code(f"{text}x", packages) and text.rstrip("._") not in packages}


@pytest.fixture(scope="module")
def packages(root: Path) -> set[str]:
    return {path.parent.name for path in (root / "src/wetside").glob("*/__init__.py")}


@pytest.fixture(scope="module")
def written(package_trees: dict[Path, ast.Module], packages: set[str]) -> list[Use]:
    return list(uses(package_trees, packages))


@pytest.fixture(scope="module")
def sentences(root: Path, packages: set[str]) -> dict[str, str]:
    """All sentences, by code."""
    found: dict[str, str] = {}
    for name in sorted(packages):
        if (root / f"src/wetside/wording/catalog/{name}.py").is_file():
            catalogue = importlib.import_module(f"wetside.wording.catalog.{name}")
            own = dict(catalogue.SENTENCES)
            for part in getattr(catalogue, "PARTS", ()):
                own |= importlib.import_module(f"wetside.wording.catalog.{part}").SENTENCES
            assert all(code.startswith(f"{name}.") for code in own), name
            found |= own
    return found


TEMPLATE_CODE = re.compile(r"""["']([a-z]+(?:\.[a-z0-9_]+)+)["']""")


@pytest.fixture(scope="module")
def in_templates(root: Path, packages: set[str]) -> set[str]:
    """Codes that the pages' templates say."""
    templates = (root / "src/wetside/web/templates").rglob("*.html")
    found = {code for path in templates for code in TEMPLATE_CODE.findall(path.read_text("utf-8"))}
    return {code for code in found if is_code(code, packages)}


def placeholders(text: str) -> dict[str, str]:
    """Names that a sentence asks for, each with the way in which it is shown."""
    return {name: how or "" for _, name, how, _ in string.Formatter().parse(text) if name is not None}


def test_every_code_has_a_sentence(written: list[Use], sentences: dict[str, str]) -> None:
    """A code that is raised or noted can be said."""
    missing = sorted(f"{use.code} ({use.where})" for use in written if use.code not in sentences)
    assert not missing, "\n".join(missing)


def test_a_template_says_known_codes(in_templates: set[str], sentences: dict[str, str]) -> None:
    """A code in a template can be said."""
    assert in_templates <= set(sentences), in_templates - set(sentences)


def test_every_sentence_is_used(
    written: list[Use],
    sentences: dict[str, str],
    package_trees: dict[Path, ast.Module],
    packages: set[str],
    in_templates: set[str],
) -> None:
    """A sentence whose code is written nowhere is dead, or its code is misspelt."""
    used = {use.code for use in written} | in_templates
    started = tuple(beginnings(package_trees, packages))
    dead = sorted(code for code in sentences if code not in used and not code.startswith(started))
    assert not dead, "\n".join(dead)


def test_every_placeholder_is_given(written: list[Use], sentences: dict[str, str]) -> None:
    """What a sentence asks for is given wherever its code is written."""
    wrong = []
    for use in written:
        if use.params is None or use.code not in sentences:
            continue
        lacking = sorted(set(placeholders(sentences[use.code])) - use.params)
        if lacking:
            wrong.append(f"{use.where} {use.code} lacks {', '.join(lacking)}")
    assert not wrong, "\n".join(wrong)


def test_an_error_is_named_for_the_package_that_raises_it(written: list[Use]) -> None:
    """The first part of an error's code is the package of the module that raises it."""
    assert not [f"{u.where} {u.code}" for u in written if u.raised and u.code.partition(".")[0] != u.package]


def test_every_placeholder_is_shown_in_a_way_of_the_house(sentences: dict[str, str]) -> None:
    """A format after the colon is one of wetside.wording.shown, or a plain number of decimals."""
    shown = importlib.import_module("wetside.wording.shown").SHOWN
    wrong = [
        f"{code}: {name}:{how}"
        for code, text in sentences.items()
        for name, how in placeholders(text).items()
        if how and how not in shown and not re.fullmatch(r"\.\d[fg]", how)
    ]
    assert not wrong, "\n".join(wrong)


def test_a_sentence_ends_like_one(sentences: dict[str, str]) -> None:
    """No sentence is empty, carries blanks at its ends, or breaks a line."""
    assert not [code for code, text in sentences.items() if not text or text != text.strip() or "\n" in text]


def test_the_reader_of_codes_sees_errors_notes_steps_and_loose_codes() -> None:
    """The walk itself: keywords, dict keys, unreadable parameters, and put-together codes are told apart."""
    from pathlib import Path

    text = (
        'raise OutOfRangeError("units.a.b", place=p, value=1)\n'
        'Note("units.c", {"x": 1})\nNote("units.d")\nNote("units.e", params)\n'
        'T = {"k": "units.f.g"}\nu = f"units.h.{kind}"\nv = "units.toml"\nw = "units.i_" + kind\nx = f"units.{kind}"\n'
    )
    trees = {Path("units/x.py"): ast.parse(text)}
    found = {use.code: use.params for use in uses(trees, {"units"})}
    assert found == {
        "units.a.b": frozenset({"value"}),
        "units.c": frozenset({"x"}),
        "units.d": frozenset(),
        "units.e": None,
        "units.f.g": None,
    }
    assert beginnings(trees, {"units"}) == {"units.h.", "units.i_"}
