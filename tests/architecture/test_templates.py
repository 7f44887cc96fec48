"""Templates of the pages: every word can be translated, nothing is styled or scripted inline, nothing is fetched."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FOLDER = ROOT / "src/wetside/web/templates"
STATIC = ROOT / "src/wetside/web/static/web"
BARE_PAGES = {"403.html", "403_csrf.html", "404.html", "500.html", "503.html"}
"""Shown when nothing else works: they stand alone and are not translated."""
NAMES = {"Wetside"}
READ = {"aria-label", "alt", "title", "data-say", "data-said"}
"""A placeholder shows how data are typed, and is not translated."""
CODE = {"code", "kbd", "pre"}
"""What is typed is the same in every language."""
SYMBOLS = {"EI", "EV", "log H", "MB", "KB"}
"""Symbols of the trade, the same in every language."""
TEMPLATES = sorted(path.relative_to(FOLDER) for path in FOLDER.rglob("*.html") if path.name not in BARE_PAGES)


class Reader(HTMLParser):
    """Text and attributes that a person reads."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.inline: list[str] = []
        self._code = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in READ and value:
                self.texts.append(value)
            if name == "style" or re.fullmatch(r"on[a-z]+|hx-on.*", name):
                self.inline.append(f"{tag} {name}")
        names = dict(attrs)
        if tag == "style" or (tag == "script" and "src" not in names and names.get("type") != "application/json"):
            self.inline.append(tag)

        self._code += tag in CODE

    def handle_endtag(self, tag: str) -> None:
        self._code -= tag in CODE

    def handle_data(self, data: str) -> None:
        if not self._code:
            self.texts.append(data)


def read(path: Path) -> Reader:
    text = (FOLDER / path).read_text("utf-8")
    text = re.sub(r"{%\s*comment\b.*?endcomment\s*%}|{#.*?#}", "", text, flags=re.DOTALL)
    text = re.sub(r"{%\s*blocktranslate\b.*?endblocktranslate\s*%}", "", text, flags=re.DOTALL)
    text = re.sub(r"{%.*?%}|{{.*?}}", "", text, flags=re.DOTALL)
    reader = Reader()
    reader.feed(text)
    return reader


@pytest.mark.parametrize("path", TEMPLATES, ids=str)
def test_every_word_is_marked_for_translation(path: Path) -> None:
    """What a person reads stands in translate, in blocktranslate, or in the catalogue."""
    bare = [text.strip() for text in read(path).texts if re.search(r"[A-Za-z]{2}", text) and text.strip() not in NAMES]
    bare = [text for text in bare if text.strip("·–—:,. \n") not in NAMES | SYMBOLS]
    assert not bare


@pytest.mark.parametrize("path", TEMPLATES, ids=str)
def test_nothing_is_styled_or_scripted_inline(path: Path) -> None:
    """The pages' policy would refuse it."""
    assert not read(path).inline


def test_nothing_is_fetched_from_elsewhere() -> None:
    """The pages work with the cable out."""
    wrong = []
    for path in (*FOLDER.rglob("*.html"), *STATIC.rglob("*.css"), *STATIC.rglob("*.js"), *STATIC.rglob("*.svg")):
        addresses = re.findall(r"(?:https?:)?//[a-z0-9.-]+\.[a-z]{2,}[^\s\"')]*", path.read_text("utf-8"))
        wrong += [f"{path.name}: {address}" for address in addresses if "www.w3.org/" not in address]
    assert not wrong
