"""Documents as plain values that JSON can hold, and back to disk."""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import Enum
from typing import Any


def plain_value(value: Any) -> Any:
    """Dataclasses and named tuples as dicts, words as strings, dates as ISO text; other tuples as lists.

    Parameters
    ----------
    value : object
        Any document of ``planning`` or ``cards``.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> plain_value(Source("own", "box"))
    {'key': 'own', 'where': 'box', 'date': ''}
    """
    if value is None or isinstance(value, bool | int | float):
        return value
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, str):
        return value
    if dataclasses.is_dataclass(value):
        return {field: plain_value(getattr(value, field)) for field in value.__dataclass_fields__}
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return {field: plain_value(getattr(value, field)) for field in value._fields}
    if isinstance(value, dict):
        return {str(key): plain_value(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple | frozenset):
        return [plain_value(inner) for inner in value]
    if isinstance(value, dt.date):
        return value.isoformat()
    raise TypeError(type(value))
