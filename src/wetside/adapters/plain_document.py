"""Documents as plain values that JSON can hold, and back to disk."""

from __future__ import annotations

import json
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
    if hasattr(value, "__dataclass_fields__"):
        return {field: plain_value(getattr(value, field)) for field in value.__dataclass_fields__}
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return {field: plain_value(getattr(value, field)) for field in value._fields}
    if isinstance(value, dict):
        return {str(key): plain_value(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple | frozenset):
        return [plain_value(inner) for inner in value]
    if hasattr(value, "isoformat"):
        return value.isoformat()
    raise TypeError(type(value))


def json_text(document: dict[str, Any]) -> str:
    """JSON of a document: a line for each key, and a line for each item of a list of objects.

    Lines that a person can search, from the library's fast encoder, which knows no indentation.

    Raises
    ------
    ValueError
        If a number in it is not finite: that is a fault of ours, and it stops here.

    Examples
    --------
    >>> print(json_text({"a": 1, "b": [{"c": 2}, {"c": 3}]}))
    {
      "a": 1,
      "b": [
        {"c": 2},
        {"c": 3}
      ]
    }
    """
    lines = []
    for key, value in document.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            items = ",\n    ".join(_encoded(item) for item in value)
            lines.append(f"{_encoded(key)}: [\n    {items}\n  ]")
        else:
            lines.append(f"{_encoded(key)}: {_encoded(value)}")
    inside = ",\n  ".join(lines)
    return f"{{\n  {inside}\n}}"


def _encoded(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
