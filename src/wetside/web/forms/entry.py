"""Fields of a page from the declared keys of a document, and back: what was typed becomes the document's plain form.

A field is called as its key, a field of an inner table by its path: ``reciprocity.power``, ``times[1].time`` (counted
from 1, as people and the errors do). What was typed is read by the same reader as a file, so that a page allows what a
file allows and says the same where it does not. A bare number is taken in the unit that stands beside the field.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.evening_writer import plain_word
from wetside.adapters.kinds import EXAMPLES
from wetside.errors import ManyErrors
from wetside.planning.documents.keys import declared_keys
from wetside.services.records.documents import FORMS
from wetside.services.records.typed_fields import UNITS
from wetside.services.records.typed_fields import raw_of_typed as raw_of_post
from wetside.units import parse_temp_c, parse_temp_step_c, parse_volume_ml
from wetside.wording import decimal, manner, sentence, shown

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.errors import WetsideError
    from wetside.planning.documents.keys import Key
__all__ = ["UNITS", "Entry", "entries", "mistakes_of", "places_text", "plain_of", "raw_of_post", "words_of"]

YES_NO = (("yes", "Yes"), ("no", "No"))
"""Answers to a flag that may also stand open: whether a source used a pre-soak is often not said."""


class Entry(NamedTuple):
    """One field: its name, what it is called, what it is for, and what stands in it.

    ``kind`` is the key's; ``choices`` are words with what a person reads; ``mistake`` the sentence beside it.
    """

    name: str
    id: str
    label: str
    hint: str
    example: str
    kind: str
    choices: tuple[tuple[str, str], ...]
    required: bool
    value: str
    chosen: tuple[str, ...]
    unit: str
    mistake: str

    @property
    def mode(self) -> str:
        """Keyboard that a phone should show."""
        return "decimal" if self.kind in ("number", "whole") else "text"


def entries(
    document: type,
    names: Sequence[str],
    raw: Mapping[str, Any],
    mistakes: Mapping[str, str] | None = None,
    *,
    path: str = "",
    labels: Mapping[str, str] | None = None,
    units: str = "metric",
) -> tuple[Entry, ...]:
    """Fields of a page.

    Parameters
    ----------
    document : dataclass type
        With declared keys, such as ``wetside.planning.documents.evening.Film``.
    names : sequence of str
        Keys to show, in their order.
    raw : mapping
        What stands in the fields, in plain form or as it was typed.
    mistakes : mapping, optional
        Sentences by field, from :func:`mistakes_of`.
    path : str
        Of the inner table, such as ``times[1]``; empty for the document itself.
    labels : mapping, optional
        Names of fields where the key's own word would not do.
    units : str
        ``metric`` or ``us``: the unit beside a field.
    """
    keys = declared_keys(document)
    return tuple(
        _entry(keys[name], f"{path}.{name}" if path else name, raw.get(name), mistakes or {}, labels or {}, units)
        for name in names
    )


def _entry(
    key: Key, name: str, value: Any, mistakes: Mapping[str, str], labels: Mapping[str, str], units: str
) -> Entry:
    choices = tuple((str(word), words_of(str(word))) for word in key.choices) if key.choices else ()
    if key.kind == "choice" and value is None and not key.required and key.default is not None:
        value = str(key.default)
    chosen = tuple(map(str, value)) if isinstance(value, list | tuple) else ()
    three_ways = key.kind == "flag" and key.default is None
    if three_ways:
        choices, value = YES_NO, {True: "yes", False: "no"}.get(value, value)
    if value is True or (value is None and key.kind == "flag" and key.default is True):
        chosen = ("on",)
    return Entry(
        name=name,
        id="f-" + re.sub(r"[^a-z0-9]+", "-", name),
        label=labels.get(key.name, words_of(key.name)),
        hint=key.doc.replace("True if", "Tick it if", 1) if key.kind == "flag" and not three_ways else key.doc,
        example=_example(key),
        kind="choice" if three_ways else key.kind,
        choices=choices,
        required=key.required,
        value="" if value is None or isinstance(value, bool | list | tuple | dict) else str(value),
        chosen=chosen,
        unit=UNITS[units].get(key.kind, ""),
        mistake=mistakes.get(name, ""),
    )


def _example(key: Key) -> str:
    """Example of a field in the darkroom's units, spelled so that it may be typed."""
    text = key.example or ("" if key.kind == "text" else EXAMPLES.get(key.kind, ""))
    if not any(manner()):
        return text
    if key.kind == "volume":
        return f"{shown(parse_volume_ml(text), 'bare_ml')} {'US fl oz' if manner().us else 'ml'}"
    if key.kind == "temperature":
        return shown(parse_temp_c(text), "plain_c")
    if key.kind == "temperature_step":
        return shown(parse_temp_step_c(text), "step_c")
    return decimal(text)


def words_of(word: str) -> str:
    """Word of a key or a choice as a person reads it.

    Examples
    --------
    >>> words_of("keeps_until"), words_of("full-to-drain")
    ('Keeps until', 'Full to drain')
    """
    text = word.replace("_", " ").replace("-", " ")
    return text[:1].upper() + text[1:]


def places_text(value: Any) -> str:
    """Places in the form in which they are typed.

    Examples
    --------
    >>> places_text({"9x12cm": 6, "13x18cm": 4}), places_text(12)
    ('9x12cm 6, 13x18cm 4', '12')
    """
    return ", ".join(f"{size} {count}" for size, count in value.items()) if isinstance(value, dict) else str(value)


def mistakes_of(error: WetsideError) -> dict[str, str]:
    """Sentences of an error by the field that each belongs to; under "" what belongs to none.

    Parameters
    ----------
    error : WetsideError
        As :func:`wetside.services.records.documents.document_of` raises it.
    """
    found: dict[str, str] = {}
    for one in error.errors if isinstance(error, ManyErrors) else (error,):
        field = (one.place.field if one.place is not None else None) or ""
        field = field.partition(" (")[0]
        said = sentence(one.code, one.params)
        found[field] = f"{found[field]} {said}" if field in found else said
    return found


def plain_of(kind: str, document: Any) -> dict[str, Any]:
    """Document in plain form, as :func:`entries` wants it; ``kind`` is a key of ``FORMS``."""
    return {
        key.name: plain_word(key, getattr(document, key.attribute))
        for key in declared_keys(FORMS[kind].document).values()
        if key.table is None and getattr(document, key.attribute) is not None
    }
