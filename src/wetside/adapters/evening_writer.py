"""An evening as the text of an evening file, as a person would write it: what stands at its default is left out."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

from wetside.planning.documents.evening import ANY_SIZE
from wetside.planning.documents.keys import declared_keys
from wetside.units import (
    write_agent_per_area,
    write_aperture,
    write_duration,
    write_duration_span,
    write_length,
    write_mass,
    write_temp,
    write_temp_step,
    write_volume,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.keys import Key
    from wetside.values.dilution import Dilution

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_WIDE = 100
"""A list that is wider stands with one item a line."""


def write_evening(evening: Evening) -> str:
    """Text of an evening file that reads back as the same values.

    Parameters
    ----------
    evening : Evening
        As the reader returns it.

    Returns
    -------
    text : str
        TOML; the outer tables in the order of the declaration.

    Examples
    --------
    >>> from wetside.planning.documents.evening import Evening, Sheet
    >>> print(write_evening(Evening(format=1, sheets=(Sheet(film="Tolland 100", label="7 left"),))))
    format = 1
    <BLANKLINE>
    [[sheets]]
    film = "Tolland 100"
    label = "7 left"
    <BLANKLINE>
    """
    return "\n".join(_table_lines(evening, ())) + "\n"


def plain_values(document: Any) -> dict[str, Any]:
    """Document as plain values by key, as a reader of TOML or JSON would hand them over; defaults left out.

    Dates are text, quantities carry their units.

    Parameters
    ----------
    document : dataclass
        With declared keys.
    """
    values: dict[str, Any] = {}
    for key, value in _given(document):
        if key.kind == "tables":
            values[key.name] = [plain_values(item) for item in value]
        elif key.kind == "table":
            values[key.name] = plain_values(value)
        else:
            values[key.name] = _PLAIN.get(key.kind, _same)(value)
    return values


def plain_word(key: Key, value: Any) -> Any:
    """Value of a key, other than a table, in plain form: text with its unit, a number, a list; not yet TOML.

    Words of a choice and texts that are in plain form already stay as they are.

    Examples
    --------
    >>> from wetside.planning.documents.evening import Evening
    >>> plain_word(declared_keys(Evening)["floor"], 300.0)
    '5:00'
    """
    if isinstance(value, str):
        return str(value)
    return _PLAIN.get(key.kind, _same)(value)


def written_value(key: Key, value: Any) -> str:
    """Value of a key, other than a table, as it stands in the file.

    Examples
    --------
    >>> from wetside.planning.documents.evening import Evening
    >>> written_value(declared_keys(Evening)["floor"], 300.0)
    '"5:00"'
    """
    return _toml(_PLAIN.get(key.kind, _same)(value), key.kind)


def _keys_of(document: Any) -> Mapping[str, Key]:
    kind: type = type(document)
    return declared_keys(kind)


def _given(document: Any) -> Iterator[tuple[Key, Any]]:
    for key in _keys_of(document).values():
        value = getattr(document, key.attribute)
        if key.required or value != key.default:
            yield key, value


def _table_lines(document: Any, path: tuple[str, ...]) -> Iterator[str]:
    inner = []
    for key, value in _given(document):
        if key.kind == "tables" or (key.kind == "table" and not path):
            inner.append((key, value))
        elif key.kind == "table":
            yield f"{key.name} = {_inline(plain_values(value))}"
        else:
            yield f"{key.name} = {written_value(key, value)}"
    for key, value in inner:
        here = (*path, key.name)
        dotted = ".".join(here)
        for item in value if key.kind == "tables" else (value,):
            yield ""
            yield f"[[{dotted}]]" if key.kind == "tables" else f"[{dotted}]"
            yield from _table_lines(item, here)


def _toml(value: Any, kind: str = "") -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, str):
        return value if kind == "date" else _quoted(value)
    if isinstance(value, dict):
        return _inline(value)
    items = [_toml(item) for item in value]
    line = f"[{', '.join(items)}]"
    if len(line) <= _WIDE:
        return line
    return "[\n" + "".join(f"  {item},\n" for item in items) + "]"


def _inline(values: Mapping[str, Any]) -> str:
    if not values:
        return "{}"
    pairs = (
        f"{name if _BARE_KEY.fullmatch(name) else _quoted(name)} = {_one_line(value)}" for name, value in values.items()
    )
    return f"{{ {', '.join(pairs)} }}"


def _one_line(value: Any) -> str:
    return f"[{', '.join(_one_line(item) for item in value)}]" if isinstance(value, list) else _toml(value)


def _quoted(text: str) -> str:
    # JSON's escapes are a part of TOML's; only the delete character is left bare by it.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _same(value: Any) -> Any:
    return value


def _number(value: float) -> float:
    return int(value) if value.is_integer() and abs(value) < 1e15 else value


def _dilution(value: Dilution) -> str:
    from wetside.chemistry.dilution import write_dilution

    return write_dilution(value)


def _places(value: tuple[tuple[str, int], ...]) -> Any:
    if len(value) == 1 and value[0][0] == ANY_SIZE:
        return value[0][1]
    return dict(value)


_PLAIN: Mapping[str, Callable[[Any], Any]] = {
    "number": _number,
    "zones": _number,
    "date": lambda value: value.isoformat(),
    "duration": write_duration,
    "clock_time": lambda value: f"{int(value // 3600):02d}:{int(value % 3600 // 60):02d}",
    "duration_span": lambda value: write_duration_span(*value),
    "temperature": write_temp,
    "temperature_step": write_temp_step,
    "volume": write_volume,
    "mass": write_mass,
    "length": write_length,
    "size": lambda value: value.name,
    "places": _places,
    "dilution": _dilution,
    "agent_per_area": write_agent_per_area,
    "aperture": write_aperture,
    "choice": str,
    "texts": list,
    "choices": lambda value: [str(word) for word in value],
    "reciprocity_points": lambda value: [[write_duration(time_s), _number(factor)] for time_s, factor in value],
    "curve_rows": lambda value: [[_number(number) for number in row] for row in value],
}
