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
    return _plain(value, {})


_AS_THEY_ARE = frozenset({type(None), bool, int, float, str})


def _plain(value: Any, known: dict[int, tuple[Any, Any]]) -> Any:
    """One value; ``known`` keeps what was made of each tuple, for equal sheets share their reckoning.

    The tuple itself is kept beside its result, so that its identity cannot be given to another object meanwhile.
    """
    kind = type(value)
    if kind in _AS_THEY_ARE:
        return value
    if isinstance(value, tuple):
        found = known.get(id(value))
        if found is None:
            fields = getattr(kind, "_fields", None)
            inside = [inner if type(inner) in _AS_THEY_ARE else _plain(inner, known) for inner in value]
            made: Any = inside if fields is None else dict(zip(fields, inside, strict=True))
            known[id(value)] = found = (value, made)
        return found[1]
    if isinstance(value, dict):
        return {str(key): _plain(inner, known) for key, inner in value.items()}
    if isinstance(value, Enum):
        return value.value
    if hasattr(value, "__dataclass_fields__"):
        return {field: _plain(getattr(value, field), known) for field in value.__dataclass_fields__}
    if isinstance(value, list | frozenset):
        return [_plain(inner, known) for inner in value]
    if isinstance(value, str | int | float):
        return value
    if hasattr(value, "isoformat"):
        return value.isoformat()
    raise TypeError(kind)


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


_encoded = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode
