"""Run sheets and cards on paper: PDF and PNG by typst, from data, the same bytes every time."""

from __future__ import annotations

import json
from importlib.resources import as_file, files
from typing import TYPE_CHECKING, Any

from wetside.cards.blocks import Listing, Steps, Table
from wetside.cards.names import breakable
from wetside.cards.words import evidence_word
from wetside.errors import UnknownNameError
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    import typst

    from wetside.cards.blocks import Card
    from wetside.cards.run_sheet import RunSheet

PAPERS = {"a4": "a4", "letter": "us-letter"}
"""Paper sizes by the name that a person types, and typst's name for them."""

PIXELS_PER_INCH = 144.0


def _as_data(value: Any) -> Any:
    """Named tuples as objects, texts with places to break: what the templates read."""
    if isinstance(value, Evidence):
        return evidence_word(value)
    if isinstance(value, str):
        return breakable(value)
    if hasattr(value, "_asdict"):
        return {name: _as_data(part) for name, part in value._asdict().items()}
    if isinstance(value, (list, tuple)):
        return [_as_data(part) for part in value]
    return value


def _needs_system_fonts(text: str) -> bool:
    """Whether a character lies outside what our fonts and those inside typst can draw.

    Latin, Greek, Cyrillic, Hebrew and Arabic are drawn without the machine's fonts, which keeps the output the same on
    every machine; other scripts and pictures are worth more legible than identical.
    """
    return any(ord(mark) > 0x06FF and not 0x1E00 <= ord(mark) <= 0x218F for mark in text)


def known_paper(paper: str) -> str:
    """Return typst's name of a paper.

    Raises
    ------
    UnknownNameError
        If the paper is not known.
    """
    if paper not in PAPERS:
        raise UnknownNameError("adapters.paper.unknown", paper=paper, choices=sorted(PAPERS))
    return PAPERS[paper]


def _block_data(block: Table | Listing | Steps) -> dict[str, Any]:
    """A block with its kind; a stack of reckoning lines as a table without headings."""
    if isinstance(block, Steps):
        rows = [
            {"cells": [step.text, step.value], "chosen": False, "remark": "; ".join(filter(None, told))}
            for step in block.steps
            for told in [(evidence_word(step.evidence), step.effect, step.source)]
        ]
        rows.append({"cells": [block.sum_label, block.sum_value], "chosen": True, "remark": ""})
        columns = [{"title": "", "figures": False}, {"title": "", "figures": True}]
        plain = {"kind": "table", "title": "", "columns": columns, "rows": rows, "foot": ""}
        return {name: _as_data(value) for name, value in plain.items()}
    return {"kind": "table" if isinstance(block, Table) else "listing", **_as_data(block)}


class Typesetter:
    """One run sheet or card, ready to be set as PDF or as pictures.

    Parameters
    ----------
    document : RunSheet or Card
    paper : str
        A key of :data:`PAPERS`.
    foot : str
        For the foot of a card's pages; a run sheet has its own.

    Raises
    ------
    UnknownNameError
        If the paper is not known.
    """

    def __init__(self, document: RunSheet | Card, paper: str = "a4", foot: str = "") -> None:
        data = {**_as_data(document), "paper": known_paper(paper)}
        blocks = getattr(document, "blocks", None)
        if blocks is None:
            template = "run_sheet.typ"
        else:
            template = "card.typ"
            data |= {"blocks": [_block_data(block) for block in blocks], "foot": _as_data(foot)}
        data["language"] = getattr(document, "language", "en")
        self._data = json.dumps(data, ensure_ascii=False)
        self._template = (files("wetside.adapters.typesetting") / template).read_bytes()
        self._compiler = _compiler(self._data)

    def pdf(self) -> bytes:
        """Return the document as PDF, tagged to PDF/UA-1 where every character can be drawn."""
        import typst

        try:
            return self._bytes(self._compiler.compile(self._template, format="pdf", pdf_standards=["ua-1"]))[0]
        except typst.TypstError:
            return self._bytes(self._compiler.compile(self._template, format="pdf"))[0]

    def pictures(self) -> list[bytes]:
        """Return one PNG a page."""
        return self._bytes(self._compiler.compile(self._template, format="png", ppi=PIXELS_PER_INCH))

    @staticmethod
    def _bytes(made: bytes | list[bytes] | None) -> list[bytes]:
        if made is None:
            return []
        return [made] if isinstance(made, bytes) else list(made)


def _compiler(data: str) -> typst.Compiler:
    import typst

    with as_file(files("wetside.adapters.typesetting") / "fonts") as folder:
        fonts = typst.Fonts(
            include_system_fonts=_needs_system_fonts(data), include_embedded_fonts=True, font_paths=[str(folder)]
        )
        return typst.Compiler(font_paths=fonts, sys_inputs={"card": data})
