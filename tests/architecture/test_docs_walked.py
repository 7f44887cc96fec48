"""What the tutorials and how-to pages tell a person to press, read and write is there."""

from __future__ import annotations

import html
import re
from typing import TYPE_CHECKING

import pytest

from wetside.services.plan_evening import plan_file

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

BOLD, QUOTED = re.compile(r"\*\*([^*\n]+)\*\*"), re.compile(r"\"([^\"\n`]+)\"")
WALKED = {"docs/tutorial/browser.md": BOLD, "docs/tutorial/first_run.md": BOLD, "docs/how-to/*.md": QUOTED}
"""How each kind of page sets off what a person finds under that name."""
FENCE = re.compile(r"^```.*?^```$", re.DOTALL | re.MULTILINE)


@pytest.fixture(scope="module")
def said(root: Path) -> str:
    """Every word that pages may say: templates, sentences, views, and the scripts' own."""
    web = root / "src/wetside/web"
    files = [*web.rglob("*.html"), *web.rglob("*.py"), *(web / "static/web").rglob("*.js")]
    files += [*(root / "src/wetside/wording").rglob("*.py"), root / "src/wetside/planning/documents/words.py"]
    return plain("\n".join(path.read_text("utf-8") for path in files))


def plain(text: str) -> str:
    """Text without the ways in which the same words are written: line ends, entities, adjoining Python strings."""
    text = re.sub(r'"\s*\n\s*"', "", html.unescape(text))
    text = re.sub(r"\{\{[^}]*\}\}|%\(\w+\)s|\{\w+[^}]*\}|\b\d+\b", "#", text)
    return " ".join(text.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").split())


def names(page: Path, set_off: re.Pattern[str]) -> Iterator[str]:
    """Buttons, links and headings that a page names."""
    text = re.sub(r"`[^`\n]*`", "", FENCE.sub("", page.read_text("utf-8")))
    yield from (name.rstrip(".") for name in set_off.findall(text))


def test_what_the_pages_tell_to_press_is_called_so(root: Path, said: str) -> None:
    """Every name in bold or in quotes stands in a template, a script or a sentence; a mishap's word as it is kept."""
    pages = [(page, set_off) for pattern, set_off in WALKED.items() for page in sorted(root.glob(pattern))]
    found = [(page.name, plain(name)) for page, set_off in pages for name in names(page, set_off)]
    assert len(found) > 20
    missing = [(page, name) for page, name in found if name not in said and name.lower().replace(" ", "-") not in said]
    assert not missing


def test_the_evening_file_of_the_tutorial_plans(root: Path, tmp_path: Path) -> None:
    """Its blocks, written one below the other as it tells, give every sheet a time."""
    text = (root / "docs/tutorial/README.md").read_text("utf-8")
    (first,) = re.findall(r"^```toml\n(.*?)^```$", text, re.DOTALL | re.MULTILINE)
    sheets = [block for block in re.findall(r"(?:^    .*\n|^\n)+", text, re.MULTILINE) if "[[sheets]]" in block]
    evening = tmp_path / "evening.toml"
    evening.write_text("\n".join([first, *(re.sub(r"^    ", "", block, flags=re.MULTILINE) for block in sheets)]))
    plan = plan_file(evening)
    assert [sheet.id for sheet in plan.sheets] == ["1 left", "1 right", "2 left", "2 right", "3 left"]
    assert not plan.unplanned
