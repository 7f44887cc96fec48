"""A sheet's story: each correction with who, when, and what stood before."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils import timezone

from wetside.adapters.clock import zone_mark
from wetside.records.models import Aim, Film, FilmLot, HolderSide, Process, Sheet
from wetside.services.records.changes import history_of
from wetside.wording import decimal, shown

if TYPE_CHECKING:
    from collections.abc import Mapping

REFERRED: Mapping[str, type] = {
    "film": Film, "lot": FilmLot, "process": Process, "aim": Aim, "twin": Sheet, "side": HolderSide,
}  # fmt: skip
SILENT = {"id", "made_at", "demo"}


class Told(NamedTuple):
    """One thing that a correction changed, in plain words; an empty text is nothing."""

    what: str
    before: str
    after: str


class Chapter(NamedTuple):
    """One correction."""

    at: dt.datetime
    by: str
    why: str
    kind: str
    changes: tuple[Told, ...]


def story_of(sheet: Sheet, most: int = 30) -> tuple[Chapter, ...]:
    """Corrections of a sheet, the newest first; names are looked up with one query a kind of record."""
    versions = history_of(sheet, most)
    asked: dict[str, set[Any]] = {name: set() for name in REFERRED}
    for version in versions:
        for name, before, after in version.changes:
            if name in REFERRED:
                asked[name] |= {one for one in (before, after) if one is not None}
    names: dict[str, Mapping[Any, Any]] = {
        name: REFERRED[name].objects.in_bulk(keys)  # type: ignore[attr-defined]
        for name, keys in asked.items()
        if keys
    }
    return tuple(
        Chapter(
            version.at,
            version.by,
            version.why,
            version.kind,
            tuple(told for change in version.changes for told in _told(change, names)),
        )
        for version in versions
    )


def _told(change: tuple[str, Any, Any], names: Mapping[str, Mapping[Any, Any]]) -> list[Told]:
    name, before, after = change
    if name in SILENT:
        return []
    if name == "facts":
        old, new = before or {}, after or {}
        return [
            Told(key, _plain(old.get(key)), _plain(new.get(key)))
            for key in sorted({*old, *new})
            if old.get(key) != new.get(key)
        ]
    if name in REFERRED:
        known = names.get(name, {})
        return [Told(name, _named(known, before), _named(known, after))]
    if name == "removed_at":
        return [Told("removed", "no" if before is None else "yes", "no" if after is None else "yes")]
    if name == "n":
        return [Told("development", _zones(before), _zones(after))]
    return [Told(name.replace("_", " "), _plain(before), _plain(after))]


def _zones(value: float | None) -> str:
    return "" if value is None else shown(value, "n")


def _named(known: Mapping[Any, Any], key: Any) -> str:
    if key is None:
        return ""
    record = known.get(key)
    return str(record) if record is not None else "?"


def _plain(value: Any) -> str:
    """Value as it was typed: inner tables as ``time 1/15 s, aperture f/22``."""
    if value is None or value == "":
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return ", ".join(f"{key} {_plain(one)}" for key, one in value.items())
    if isinstance(value, list):
        return ", ".join(map(_plain, value))
    if isinstance(value, float):
        return decimal(f"{value:g}")
    if isinstance(value, dt.datetime):
        here = timezone.localtime(value)
        return " ".join(part for part in (f"{here:%Y-%m-%d %H:%M}", zone_mark(here)) if part)
    if isinstance(value, dt.date):
        return f"{value:%Y-%m-%d}"
    return str(value).replace("-", " ") if str(value).islower() else str(value)
