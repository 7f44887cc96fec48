"""A record's history in words: what each correction changed, key by key, with what stood there before."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.services.records.changes import history_of
from wetside.wording import decimal

if TYPE_CHECKING:
    import datetime as dt

    from wetside.records.models import Kept


class ChangedKey(NamedTuple):
    """One key that a correction changed; an empty text where nothing stood."""

    key: str
    before: str
    after: str


class Correction(NamedTuple):
    """One state of a record: when, by whom, why; ``kind`` is made, changed, removed or brought-back."""

    at: dt.datetime
    by: str
    why: str
    kind: str
    changes: tuple[ChangedKey, ...]


def corrections_of(record: Kept, most: int = 50) -> tuple[Correction, ...]:
    """Corrections of a record, the newest first.

    Parameters
    ----------
    record : model
    most : int
        Older ones are left out.
    """
    return tuple(
        Correction(version.at, version.by, version.why, _kind(version.kind, version.changes), _keys(version.changes))
        for version in history_of(record, most)
    )


def _kind(kind: str, changes: tuple[tuple[str, Any, Any], ...]) -> str:
    for name, before, after in changes:
        if name == "removed_at":
            return "removed" if before is None and after is not None else "brought-back"
    return kind


def _keys(changes: tuple[tuple[str, Any, Any], ...]) -> tuple[ChangedKey, ...]:
    """Changed columns, and of ``facts`` each of its keys for itself."""
    found = []
    for name, before, after in changes:
        if name == "removed_at":
            continue
        if name != "facts":
            found.append(ChangedKey(name, shown_plain(before), shown_plain(after)))
            continue
        old, new = before or {}, after or {}
        found += [
            ChangedKey(key, shown_plain(old.get(key)), shown_plain(new.get(key)))
            for key in dict.fromkeys((*old, *new))
            if old.get(key) != new.get(key)
        ]
    return tuple(found)


def shown_plain(value: Any) -> str:
    """Plain value of a document in one short line; rows of a table by their number.

    Examples
    --------
    >>> shown_plain({"power": 1.28, "threshold": "1 s"}), shown_plain([{"time": "8:00"}]), shown_plain(None)
    ('power 1.28, threshold 1 s', 'time 8:00', '')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return decimal(f"{value:g}")
    if isinstance(value, dict):
        return ", ".join(f"{name} {_short(inner)}" for name, inner in value.items())
    if isinstance(value, list):
        return "; ".join(_short(inner) for inner in value)
    return str(value)


def _short(value: Any) -> str:
    """Inner value; readings of a tablet only by their count."""
    if isinstance(value, list) and value and isinstance(value[0], list) and len(value) > 4:
        return f"({len(value)})"
    return shown_plain(value)
