"""Fields of the pages of sheets: short hints, names to choose from, several forms of one document."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.documents.evening import Exposure, Placed
from wetside.planning.documents.evening import Sheet as SheetDocument
from wetside.services.records.sheets_waiting import known_words
from wetside.web.forms.entry import entries

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.web.forms.entry import Entry

LABELS = {
    "holder": "Holder side",
    "n": "Development",
    "scene": "Scene, in stops",
    "exposed": "Exposed on",
    "in_holder": "Film really in it",
    "twin": "Twin of",
    "ei": "Meter set to EI",
    "filter": "Filter factor",
    "ev": "Reading, EV",
}
HINTS = {
    "holder": "3 left, 7A",
    "label": "or your own name",
    "film": "",
    "process": "",
    "aim": "",
    "exposed": "",
    "in_holder": "",
    "extension": "450 mm",
    "focal": "300 mm",
    "importance": "",
    "size": "9x12cm, 4x5in",
    "n": "N-1",
    "scene": "7",
    "aperture": "f/22",
    "time": "1/15 s, 8 s",
    "filter": "2",
    "twin": "its label",
    "lot": "number on the box",
    "ev": "",
    "zone": "",
    "ei": "80",
}
LISTS = {"film": "films", "in_holder": "films", "size": "sizes"}
"""Fields whose known words are offered while one types."""
CHOSEN = {"process": "processes", "aim": "aims"}
"""Fields that choose among names."""


class ShownField(NamedTuple):
    """A field as the pages of sheets draw it; ``offered`` is the list of words that it offers."""

    entry: Entry
    hint: str
    offered: str
    options: tuple[str, ...]

    @property
    def clears(self) -> bool:
        """Whether nothing may be chosen too."""
        return not self.entry.required and self.entry.kind != "choice"


def shown_fields(
    names: Sequence[str],
    raw: Mapping[str, Any],
    mistakes: Mapping[str, str] | None = None,
    *,
    words: Mapping[str, list[str]],
    units: str,
    document: type = SheetDocument,
    path: str = "",
) -> tuple[ShownField, ...]:
    """Fields of a document, in their order."""
    found = entries(document, names, raw, mistakes, path=path, labels=LABELS, units=units)
    return tuple(
        ShownField(
            one,
            HINTS.get(name, one.hint),
            LISTS.get(name, ""),
            tuple(dict.fromkeys([*words.get(CHOSEN[name], ()), *([one.value] if one.value else [])]))
            if name in CHOSEN
            else (),
        )
        for name, one in zip(names, found, strict=True)
    )


def whole_form(
    raw: Mapping[str, Any], mistakes: Mapping[str, str] | None, *, lot: str, note: str, units: str
) -> dict[str, Any]:
    """All fields of a sheet's own page, in groups."""
    words = known_words()

    def table(key: str, document: type, names: Sequence[str]) -> tuple[ShownField, ...]:
        inner = raw.get(key)
        values = inner if isinstance(inner, dict) else {}
        return shown_fields(names, values, mistakes, words=words, units=units, document=document, path=key)

    def plain(*names: str) -> tuple[ShownField, ...]:
        return shown_fields(names, raw, mistakes, words=words, units=units)

    exposure = ("time", "aperture", "ei", "filter", "extension", "focal")
    return {
        "words": words,
        "main": plain("holder", "label", "film", "size", "process", "aim", "n", "scene", "exposed", "importance"),
        "flags": plain("suspect"),
        "other": plain("twin", "in_holder"),
        "shadow": table("shadow", Placed, ("ev", "zone")),
        "highlight": table("highlight", Placed, ("ev", "zone")),
        "meant": table("meant", Exposure, exposure),
        "set": table("set", Exposure, exposure),
        "second": table("second", Exposure, exposure),
        "lot": lot,
        "note": note,
        "told": tuple(raw.get("mishaps", ())),
        "mistakes": mistakes or {},
        "film_mistake": bool(mistakes and (mistakes.get("film") or mistakes.get("in_holder"))),
    }
