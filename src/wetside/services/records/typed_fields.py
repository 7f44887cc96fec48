"""What was typed into fields, in a document's plain form, which the reader of files checks.

A field is called as its key, a field of an inner table by its path: ``reciprocity.power``, ``times[1].time``.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from wetside.planning.documents.keys import declared_keys

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.planning.documents.keys import Key

Posted = Any
"""Fields by their names: ``get``, iteration over the names, and ``getlist`` where a field may have several values."""

UNITS = {
    "metric": {"volume": "ml", "temperature": "°C", "temperature_step": "°C", "length": "mm"},
    "us": {"volume": "US fl oz", "temperature": "°F", "temperature_step": "°F", "length": "in"},
}
"""Unit beside a field, which a bare number is taken in."""

_BARE = re.compile(r"[-+\N{MINUS SIGN}]?[0-9]+(?:[.,][0-9]+)?")
_STEP = re.compile(r"([a-z_]+)(?:\[([1-9][0-9]{0,3})\])?")
MOST_ROWS = 500
"""Rows of one inner table that a page may send; more is a slip or an attack. Our choice."""


def raw_of_typed(document: type, names: Iterable[str], post: Posted, *, units: str = "metric") -> dict[str, Any]:
    """What a page sent, in the document's plain form; fields that were left empty are left out, empty rows dropped.

    Parameters
    ----------
    document : dataclass type
    names : iterable of str
        Keys that the page shows; whatever else was sent is not looked at.
    post : mapping
        Fields by their names; lists where ``getlist`` gives them.
    units : str
        Of a bare number.
    """
    keys = declared_keys(document)
    raw: dict[str, Any] = {}
    for name in names:
        key = keys[name]
        if key.kind == "tables":
            raw_rows = _rows(key, post, name, units)
            if raw_rows:
                raw[name] = raw_rows
        elif key.kind == "table" and key.table is not None:
            inner = _table(key.table, post, name, units)
            if inner:
                raw[name] = inner
        else:
            value = _typed(key, post, name, units)
            if value is not None:
                raw[name] = value
    return raw


def _table(document: type, post: Posted, path: str, units: str) -> dict[str, Any]:
    found = {}
    for key in declared_keys(document).values():
        if key.kind == "tables":
            rows = _rows(key, post, f"{path}.{key.name}", units)
            if rows:
                found[key.name] = rows
            continue
        value = _typed(key, post, f"{path}.{key.name}", units)
        if value is not None:
            found[key.name] = value
    # A choice that stands at its first word says nothing on its own: the row is empty.
    told = [name for name in found if declared_keys(document)[name].kind not in ("choice", "flag")]
    return found if told else {}


def _rows(key: Key, post: Posted, path: str, units: str) -> list[dict[str, Any]]:
    assert key.table is not None  # noqa: S101 (declared so)
    numbers = sorted(
        {
            int(match[2])
            for name in post
            if name.startswith(f"{path}[")
            and (match := _STEP.match(name[len(path) - len(path.rpartition(".")[2]) :]))
            and match[2]
        }
    )
    rows = (_table(key.table, post, f"{path}[{number}]", units) for number in numbers[:MOST_ROWS])
    return [row for row in rows if row]


def _typed(key: Key, post: Posted, name: str, units: str) -> Any:
    if key.kind in ("choices", "texts"):
        given = post.getlist(name) if hasattr(post, "getlist") else post.get(name, [])
        return [str(item) for item in given if str(item).strip()] or None
    value = post.get(name)
    if key.kind == "flag" and key.default is None:
        return {"yes": True, "no": False}.get(str(value or ""))
    if key.kind == "flag":
        ticked = value in (True, "on", "true", "yes", "1")
        return ticked if ticked != (key.default is True) else None
    text = str(value or "").strip()
    if not text:
        return None
    unit = UNITS[units].get(key.kind)
    if unit and _BARE.fullmatch(text):
        return f"{text} {unit}"
    if key.kind == "places":
        return int(text) if _is_count(text) else _places(text)
    return text


def _is_count(text: str) -> bool:
    """Whether it is a number of sheets that a person can have meant; more digits are told as they stand."""
    return text.isascii() and text.isdigit() and len(text) < 10


def _places(text: str) -> Any:
    """Places as a person types them: ``9x12cm 6, 13x18cm 4``."""
    pairs = [part.rpartition(" ") for part in re.split(r"[,;\n]", text) if part.strip()]
    if pairs and all(size and _is_count(count.strip()) for size, _, count in pairs):
        return {size.strip(): int(count) for size, _, count in pairs}
    return text
