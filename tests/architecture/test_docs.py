"""The docs are complete: every page is reached, every link leads somewhere, every source can be looked up."""

from __future__ import annotations

import csv
import re
import tomllib
from collections import Counter
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

LINK = re.compile(r"(?<!`)\[[^\]\n]*\]\(([^)\s]+)\)")
FENCE = re.compile(r"^(`{3,}).*?^\1$", re.DOTALL | re.MULTILINE)
SELF_EXPLANATORY = {"errors", "wording", "values", "units", "adapters", "services", "cards", "cli", "web"}
PAGES_OWED: set[str] = set()
"""Packages whose explanation is still to be written; a name goes from here when its page comes."""


@pytest.fixture(scope="module")
def pages(root: Path) -> list[Path]:
    """All Markdown pages that people read."""
    return [*sorted(root.glob("*.md")), *sorted((root / "docs").rglob("*.md"))]


def test_pictures_of_pages_are_made_by_the_tool_and_shown(root: Path, pages: list[Path]) -> None:
    """Each picture is taken by the walk, none is left over, and a page shows it."""
    there = {path.stem for path in (root / "docs/pictures/browser").glob("*.png")}
    walked = (root / "tools/browser_pictures.py").read_text("utf-8")
    taken = set(re.findall(r'\btake\(page, "([a-z-]+)"', walked))
    shown = {path.stem for page in pages for path in links(page) if path.parent.name == "browser"}
    assert taken == there == shown


@pytest.fixture(scope="module")
def bibliography(root: Path) -> list[str]:
    """Keys of docs/references.bib, in order."""
    text = (root / "docs/references.bib").read_text("utf-8")
    return re.findall(r"^@\w+\{([^,\s]+),", text, re.MULTILINE)


def links(page: Path) -> Iterator[Path]:
    """Files that a page links to."""
    for target in LINK.findall(FENCE.sub("", page.read_text("utf-8"))):
        plain = unquote(target.partition("#")[0])
        if plain and "://" not in plain and not plain.startswith("mailto:"):
            yield (page.parent / plain).resolve()


def sources(value: Any) -> Iterator[str]:
    """Every text under a key called source, at any depth."""
    if isinstance(value, dict):
        if isinstance(value.get("source"), str):
            yield value["source"]
        for inner in value.values():
            yield from sources(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from sources(inner)


def sources_of_file(path: Path) -> Iterator[str]:
    """Source keys of a data file: TOML keys, a CSV column, or a CSV comment ``# source: key``."""
    text = path.read_text("utf-8")
    if path.suffix == ".toml":
        yield from sources(tomllib.loads(text))
        return
    yield from re.findall(r"^# source: *(\S+)", text, re.MULTILINE)
    rows = csv.DictReader(line for line in text.splitlines() if line and not line.startswith("#"))
    for row in rows:
        if row.get("source"):
            yield row["source"].strip()


def test_every_link_leads_to_a_file(pages: list[Path]) -> None:
    """A page links only to what is there."""
    dead = [f"{page.name}: {target}" for page in pages for target in links(page) if not target.exists()]
    assert not dead, "\n".join(dead)


def test_every_page_of_the_docs_is_reached_from_the_index(root: Path, pages: list[Path]) -> None:
    """Starting at docs/index.md, links lead to every page of the docs."""
    index = root / "docs/index.md"
    reached, ahead = {index.resolve()}, [index]
    while ahead:
        page = ahead.pop()
        new = {link for link in links(page) if link.suffix == ".md" and link.is_file()} - reached
        reached |= new
        ahead += new
    assert not [str(page) for page in pages if page.is_relative_to(root / "docs") and page.resolve() not in reached]


def test_every_package_has_an_explanation(root: Path) -> None:
    """Each package has docs/explanation/<package>.md, or stands in the list of pages that are owed, never both."""
    packages = {path.parent.name for path in (root / "src/wetside").glob("*/__init__.py")} - SELF_EXPLANATORY
    written = {path.stem for path in (root / "docs/explanation").glob("*.md")}
    assert not packages - written - PAGES_OWED
    assert not PAGES_OWED & written, "a page that is written is no longer owed"


def test_no_reference_stands_twice(bibliography: list[str]) -> None:
    """Keys of the bibliography are unique."""
    assert not [key for key, times in Counter(bibliography).items() if times > 1]


def test_every_source_can_be_looked_up(root: Path, bibliography: list[str]) -> None:
    """A source named in published checks or shipped data is a key of docs/references.bib; the demo's are invented."""
    folders = (root / "tests/published", root / "src/wetside/data")
    files = [path for folder in folders for path in sorted(folder.rglob("*")) if path.suffix in (".csv", ".toml")]
    files = [path for path in files if path.parent.name != "demo"]
    known = set(bibliography)
    named = {(str(path.relative_to(root)), key) for path in files for key in sources_of_file(path)}
    unknown = sorted(f"{path}: {key}" for path, key in named if key not in known)
    assert not unknown, "\n".join(unknown)


def test_every_source_in_a_docstring_can_be_looked_up(root: Path, bibliography: list[str]) -> None:
    """A numbered reference of a docstring begins with a key of docs/references.bib, or several with semicolons."""
    unknown = {
        f"{path.name}: {key}"
        for path in sorted((root / "src/wetside").rglob("*.py"))
        for line in re.findall(r"^ *\.\. \[\d+\] (.+)$", path.read_text("utf-8"), re.MULTILINE)
        for key in (re.match(r"[\w-]*", part.strip())[0] for part in line.split(";"))
        if "-" in key and key not in bibliography
    }
    assert not unknown, "\n".join(sorted(unknown))


def test_decisions_are_numbered_without_a_gap(root: Path) -> None:
    """Decision records are NNNN-title.md, counted from 0001."""
    numbers = [int(path.name[:4]) for path in sorted((root / "docs/decisions").glob("[0-9]*.md"))]
    assert numbers == list(range(1, len(numbers) + 1))


def test_every_way_of_developing_and_step_of_the_evening_is_in_the_nomenclature(root: Path) -> None:
    """The page of words knows each way of developing, and the words of the newer parts of the program."""
    from wetside.development.ways import Way

    page = (root / "docs/nomenclature.md").read_text("utf-8").casefold()
    words = {row.split("|")[1].strip() for row in page.splitlines() if row.startswith("| ")}
    known = {word.strip() for cell in words for word in cell.split(",")}
    said = {"two-bath": "two baths"}
    missing = [way for way in map(str, Way) if said.get(way, way.replace("one-bath", "one bath")) not in known]
    assert not missing
    assert {"course", "look", "way", "pattern", "top-up", "draw", "rescue", "floor", "verdict"} <= known
