"""How a key of a kept file is declared: once, beside the attribute that holds its value.

The reader, the writer and the schema all work from this declaration, so that none of them can know a key that the
others do not.
"""

from __future__ import annotations

import dataclasses
import sys
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar, dataclass_transform

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from enum import StrEnum

Table = TypeVar("Table")

KINDS = (
    "text",
    "name",
    "number",
    "zones",
    "whole",
    "flag",
    "date",
    "duration",
    "clock_time",
    "duration_span",
    "temperature",
    "temperature_step",
    "volume",
    "mass",
    "length",
    "size",
    "places",
    "dilution",
    "agent_per_area",
    "aperture",
    "choice",
    "texts",
    "choices",
    "table",
    "tables",
    "reciprocity_points",
    "curve_rows",
)
"""Every kind of value that a kept file may hold; the reader has one function for each."""


def key(
    name: str,
    kind: str,
    doc: str,
    *,
    default: Any = dataclasses.MISSING,
    default_factory: Callable[[], Any] | None = None,
    choices: type[StrEnum] | None = None,
    table: str | None = None,
    low: float | None = None,
    high: float | None = None,
    example: str | None = None,
) -> Any:
    """Declare the key that an attribute is read from and written to.

    Parameters
    ----------
    name : str
        The key in the file.
    kind : str
        One of :data:`KINDS`.
    doc : str
        One sentence for the person who writes the file.
    default, default_factory
        What stands when the key is absent; without either the key is required.
    choices : StrEnum class, optional
        The words that are allowed, for the kinds ``choice`` and ``choices``.
    table : str, optional
        Name of the class of the inner table, for the kinds ``table`` and ``tables``.
    low, high : float, optional
        Limits, both allowed, in house units; what lies outside is refused.
    example : str, optional
        A value as it is written in the file.
    """
    if kind not in KINDS:
        raise ValueError(kind)
    metadata = {
        "key": name,
        "kind": kind,
        "doc": doc,
        "choices": choices,
        "table": table,
        "low": low,
        "high": high,
        "example": example,
    }
    if default_factory is not None:
        return dataclasses.field(default_factory=default_factory, metadata=metadata)
    return dataclasses.field(default=default, metadata=metadata)


def _shown(table: Any) -> str:
    """Name and what differs from the defaults: what a test that fails should print."""
    given = (
        f"{key.attribute}={getattr(table, key.attribute)!r}"
        for key in declared_keys(table.__class__).values()
        if getattr(table, key.attribute) != key.default
    )
    return f"{type(table).__name__}({', '.join(given)})"


def _same(table: Any, other: object) -> Any:
    """Equal when all keys are."""
    return table.__dict__ == other.__dict__ if other.__class__ is table.__class__ else NotImplemented


def _hash(table: Any) -> int:
    return hash(tuple(table.__dict__.values()))


@dataclass_transform(frozen_default=True, field_specifiers=(key,))
def kept_table(table: type[Table]) -> type[Table]:
    """Make a table of a kept file of a class with declared keys.

    The type checker holds it for frozen. At run time it is not guarded, and comparing is done by one function for all:
    what the library makes anew for each class at every start costs more than reading a file of a hundred sheets.
    """
    made = dataclasses.dataclass(repr=False, eq=False)(table)
    made.__repr__, made.__eq__, made.__hash__ = _shown, _same, _hash  # type: ignore[method-assign,assignment]
    return made


class Key(NamedTuple):
    """A declared key, as the reader, the writer and the schema want it.

    ``choices`` and ``table`` are the classes themselves; ``default`` is ``dataclasses.MISSING`` for a required key.
    """

    attribute: str
    name: str
    kind: str
    doc: str
    choices: type[StrEnum] | None
    table: type | None
    low: float | None
    high: float | None
    example: str | None
    default: Any

    @property
    def required(self) -> bool:
        """Whether a table without this key is refused."""
        return self.default is dataclasses.MISSING


@cache
def declared_keys(table: type) -> Mapping[str, Key]:
    """Keys of a table, by their names in the file and in the order of the declaration.

    Parameters
    ----------
    table : dataclass type
        One of the evening file's types.
    """
    names = vars(sys.modules[table.__module__])
    keys = {}
    for field in dataclasses.fields(table):
        declared = dict(field.metadata)
        name, inner = declared.pop("key"), declared.pop("table")
        default = field.default if field.default_factory is dataclasses.MISSING else field.default_factory()
        keys[name] = Key(
            attribute=field.name, name=name, table=names[inner] if inner else None, default=default, **declared
        )
    return keys
