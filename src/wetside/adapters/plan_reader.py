"""A plan from the document that was kept of it: what was frozen is shown as it was written."""

from __future__ import annotations

import types
import typing
from enum import Enum
from functools import cache
from typing import TYPE_CHECKING, Any

from wetside.errors import InputError, RefusedError
from wetside.planning.documents import course, note, plan
from wetside.planning.documents.plan import PLAN_FORMAT, Plan
from wetside.values import evidence

if TYPE_CHECKING:
    from collections.abc import Mapping

_PLAIN: Mapping[Any, tuple[type, ...]] = {str: (str,), int: (int,), float: (int, float), bool: (bool,)}
"""What JSON may hold where a plain type is declared."""


def plan_of_plain(document: Mapping[str, Any]) -> Plan:
    """Plan of a document that :func:`wetside.adapters.plain_document.plain_value` made.

    Parameters
    ----------
    document : mapping
        As JSON holds it.

    Raises
    ------
    RefusedError
        If it was written by a newer version.
    InputError
        If it is not a plan.
    """
    number = document.get("format")
    if isinstance(number, int) and number > PLAN_FORMAT:
        raise RefusedError("adapters.plan.newer", value=number, known=PLAN_FORMAT)
    read: Plan = _read(Plan, document, "plan")
    return read


@cache
def _hints(kind: type) -> dict[str, Any]:
    names: dict[str, Any] = {**vars(evidence), **vars(note), **vars(course), **vars(plan)}
    return typing.get_type_hints(kind, globalns=names)


def _read(kind: Any, value: Any, where: str) -> Any:
    """Value of a declared type; what the types leave open stays as JSON has it."""
    origin = typing.get_origin(kind)
    if origin in (types.UnionType, typing.Union):
        if value is None:
            return None
        (kind,) = (part for part in typing.get_args(kind) if part is not type(None))
        return _read(kind, value, where)
    if origin is tuple:
        return _items(typing.get_args(kind), value, where)
    if isinstance(kind, type) and hasattr(kind, "_fields"):
        if not isinstance(value, dict):
            raise InputError("adapters.plan.unreadable", where=where)
        hints = _hints(kind)
        known = {name: _read(hints[name], value[name], f"{where}.{name}") for name in hints if name in value}
        try:
            return kind(**known)
        except TypeError as error:
            raise InputError("adapters.plan.unreadable", where=where) from error
    if isinstance(kind, type) and issubclass(kind, Enum):
        try:
            return kind(value)
        except ValueError as error:
            raise InputError("adapters.plan.unreadable", where=where) from error
    if kind in _PLAIN and (not isinstance(value, _PLAIN[kind]) or (isinstance(value, bool) and kind is not bool)):
        raise InputError("adapters.plan.unreadable", where=where)
    return value


def _items(inside: tuple[Any, ...], value: Any, where: str) -> tuple[Any, ...]:
    if not isinstance(value, list):
        raise InputError("adapters.plan.unreadable", where=where)
    if len(inside) == 2 and inside[1] is Ellipsis:
        return tuple(_read(inside[0], item, f"{where}[{rank}]") for rank, item in enumerate(value, start=1))
    if len(inside) != len(value):
        raise InputError("adapters.plan.unreadable", where=where)
    return tuple(_read(kind, item, where) for kind, item in zip(inside, value, strict=True))
