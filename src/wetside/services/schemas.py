"""Schemas of the kept files and the page of all keys, made from the types so that they cannot part from the reader."""

from __future__ import annotations

import json
import types
import typing
from dataclasses import fields, is_dataclass
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.adapters.evening_writer import written_value
from wetside.adapters.kinds import LONGEST, MOST_ITEMS, MOST_PLACES, READING_LIMITS, example_of
from wetside.adapters.whole_file import write_whole
from wetside.planning.documents import course, plan
from wetside.planning.documents.evening import EVENING_FORMAT, Evening, Sheet
from wetside.planning.documents.keys import declared_keys
from wetside.planning.documents.plan import Plan
from wetside.values.evidence import Evidence, Source

if TYPE_CHECKING:
    import os
    from collections.abc import Callable, Iterator, Mapping

    from wetside.planning.documents.keys import Key

DIALECT = "https://json-schema.org/draft/2020-12/schema"
PAGE = "evening.md"
KEYS_BEGIN = "<!-- keys: made from the types by `make docs`; do not edit below this line -->"
KEYS_END = "<!-- keys: end -->"

_NUMBER = r"[+\-−]? ?([0-9][0-9 ]*([.,][0-9]+)?|[.,][0-9]+)([eE][+\-]?[0-9]+)?"
_CLOCK = r"[0-9]+(:[0-9]{2}){1,2}([.,][0-9]+)?( ?min)?"
_FRACTION = r"([0-9]+ )?[0-9]+ ?/ ?[0-9]+"
_QUANTITY = rf"({_FRACTION}|{_NUMBER}) ?[^0-9\s].*"
_DURATION = rf"({_CLOCK}|{_FRACTION}|{_QUANTITY})"
_PATTERNS = {
    "duration": _DURATION,
    "clock_time": r"[0-9]{1,2}[:.][0-9]{2}( ?h)?",
    "duration_span": rf"{_DURATION}|({_CLOCK}|{_NUMBER}).*(-|–|—|to).*",
    "temperature": _QUANTITY,
    "temperature_step": _QUANTITY,
    "volume": _QUANTITY,
    "mass": _QUANTITY,
    "length": _QUANTITY,
    "size": rf"{_NUMBER} ?[^0-9]* ?(x|X|×|\*|by) ?{_NUMBER} ?[^0-9]*",
    "dilution": rf"{_NUMBER}( ?\+ ?{_NUMBER})+|{_NUMBER} ?(%|per ?cent)|[A-Za-z ]+",
    "agent_per_area": rf"{_QUANTITY}(/| per ).*",
}
"""Shape of the quantities; whether a unit is known only the reader says."""


def _text(pattern: str) -> dict[str, Any]:
    return {"type": "string", "pattern": rf"^\s*({pattern})\s*$"}


def _limits(key: Key) -> dict[str, Any]:
    found: dict[str, Any] = {}
    if key.low is not None:
        found["minimum"] = key.low
    if key.high is not None:
        found["maximum"] = key.high
    return found


def _number(key: Key) -> dict[str, Any]:
    return {"anyOf": [{"type": "number", **_limits(key)}, _text(f"{_FRACTION}|{_NUMBER}")]}


def _reading(limits: tuple[float, float]) -> dict[str, Any]:
    return {"type": "number", "minimum": limits[0], "maximum": limits[1]}


def _row(*parts: dict[str, Any]) -> dict[str, Any]:
    row = {"type": "array", "prefixItems": list(parts), "items": False, "minItems": len(parts)}
    return {"type": "array", "items": row, "minItems": 1, "maxItems": MOST_ITEMS}


def _zones(key: Key) -> dict[str, Any]:
    return {"anyOf": [*_number(key)["anyOf"], _text(rf"[nN]( ?[+\-−] ?({_FRACTION}|{_NUMBER}))?")]}


def _places(_: Key) -> dict[str, Any]:
    count = {"type": "integer", "minimum": 1, "maximum": MOST_PLACES}
    return {"anyOf": [count, {"type": "object", "additionalProperties": count, "minProperties": 1}]}


def _enum(key: Key) -> dict[str, Any]:
    return {"enum": [str(word) for word in key.choices or ()]}


_KINDS: Mapping[str, Callable[[Key], dict[str, Any]]] = {
    "text": lambda _: {"type": "string", "minLength": 1, "maxLength": LONGEST["text"]},
    "name": lambda _: {"type": "string", "minLength": 1, "maxLength": LONGEST["name"]},
    "number": _number,
    "zones": _zones,
    "whole": lambda key: {"type": "integer", **_limits(key)},
    "flag": lambda _: {"type": "boolean"},
    "date": lambda _: {"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"},
    "aperture": lambda _: {
        "anyOf": [{"type": "number", "minimum": 0.5, "maximum": 1024}, _text(r"[fFƒ]? ?/? ?[0-9]+([.,][0-9]+)?")]
    },
    "places": _places,
    "choice": _enum,
    "choices": lambda key: {"type": "array", "items": _enum(key), "uniqueItems": True},
    "texts": lambda _: {"type": "array", "items": {"type": "string", "minLength": 1, "maxLength": LONGEST["text"]}},
    "reciprocity_points": lambda _: _row(_text(_DURATION), {"type": "number", "minimum": 1, "maximum": 1000}),
    "curve_rows": lambda _: _row(*(_reading(limits) for limits in READING_LIMITS)),
}


def _key_schema(key: Key) -> dict[str, Any]:
    if key.table is not None:
        inner: dict[str, Any] = {"$ref": f"#/$defs/{key.table.__name__}"}
        return {"description": key.doc, **({"type": "array", "items": inner} if key.kind == "tables" else inner)}
    shape = _KINDS[key.kind](key) if key.kind in _KINDS else _text(_PATTERNS[key.kind])
    return {"description": key.doc, **shape, "examples": [_example(key)]}


def _example(key: Key) -> Any:
    import tomllib

    value = tomllib.loads(f"x = {example_of(key)}")["x"]
    return value if isinstance(value, bool | int | float | str | list | dict) else str(value)


def _table_schema(table: type) -> dict[str, Any]:
    keys = declared_keys(table)
    schema: dict[str, Any] = {
        "description": _summary(table),
        "type": "object",
        "properties": {name: _key_schema(key) for name, key in keys.items()},
        "additionalProperties": False,
    }
    required = [name for name, key in keys.items() if key.required]
    if required:
        schema["required"] = required
    return schema


def _summary(kind: type) -> str:
    return " ".join((kind.__doc__ or "").strip().split("\n\n")[0].split())


def tables_of(table: type) -> Iterator[type]:
    """Type of a document and those of its inner tables, each once, outermost first.

    Parameters
    ----------
    table : dataclass type
        With declared keys.
    """
    seen = [table]
    for kind in seen:
        yield kind
        for key in declared_keys(kind).values():
            if key.table is not None and key.table not in seen:
                seen.append(key.table)


def evening_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of the evening file, dates taken as text.

    Examples
    --------
    >>> evening_schema()["required"]
    ['format']
    """
    schema = {
        "$schema": DIALECT,
        "title": "Wetside evening file",
        **_table_schema(Evening),
        "anyOf": [{"required": ["sheets"], "properties": {"sheets": {"minItems": 1}}}, {"required": ["sheet_list"]}],
        "$defs": {kind.__name__: _table_schema(kind) for kind in tables_of(Evening) if kind is not Evening},
    }
    schema["properties"]["format"]["examples"] = [EVENING_FORMAT]
    schema["$defs"][Sheet.__name__] |= {
        "anyOf": [{"required": ["label"]}, {"required": ["holder"]}],
        "dependentRequired": {"shadow": ["highlight"], "highlight": ["shadow"]},
    }
    return schema


def document_schema(document: str) -> dict[str, Any]:
    """Schema of a document by its name.

    Parameters
    ----------
    document : str
        ``evening``, ``plan`` or ``course``.
    """
    return {"evening": evening_schema, "plan": plan_schema, "course": course_schema}[document]()


def plan_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of the plan as ``wetside plan --json`` prints it.

    Examples
    --------
    >>> "lower_bound" in plan_schema()["required"]
    True
    """
    kinds: dict[str, Any] = {}
    _type_schema(Plan, kinds)
    top = kinds.pop(Plan.__name__)
    return {"$schema": DIALECT, "title": "Wetside plan", **top, "$defs": dict(sorted(kinds.items()))}


def course_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of ``course.json`` as ``wetside schedule`` writes it.

    Examples
    --------
    >>> course_schema()["required"][:2]
    ['format', 'tool']
    """
    kinds: dict[str, Any] = {}
    _type_schema(course.Course, kinds)
    _type_schema(course.CourseHead, kinds)
    own, head = kinds.pop(course.Course.__name__), kinds.pop(course.CourseHead.__name__)
    top = own | {
        "properties": head["properties"] | own["properties"],
        "required": [*head["required"], *own["required"]],
    }
    return {"$schema": DIALECT, "title": "Wetside course of an evening", **top, "$defs": dict(sorted(kinds.items()))}


def _type_schema(annotation: Any, kinds: dict[str, Any]) -> dict[str, Any]:
    plain = {str: "string", int: "integer", float: "number", bool: "boolean", type(None): "null"}
    if annotation in plain:
        return {"type": plain[annotation]}
    if annotation is Any:
        return {}
    origin, parts = typing.get_origin(annotation), typing.get_args(annotation)
    if origin in (types.UnionType, typing.Union):
        return {"anyOf": [_type_schema(part, kinds) for part in parts]}
    if origin is tuple and parts[-1] is Ellipsis:
        return {"type": "array", "items": _type_schema(parts[0], kinds)}
    if origin is tuple:
        items = [_type_schema(part, kinds) for part in parts]
        return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items)}
    if origin is dict:
        return {"type": "object", "additionalProperties": _type_schema(parts[1], kinds)}
    if isinstance(annotation, type) and issubclass(annotation, StrEnum):
        return {"enum": [str(word) for word in annotation]}
    if annotation.__name__ not in kinds:
        kinds[annotation.__name__] = {}
        kinds[annotation.__name__] = _record_schema(annotation, kinds)
    return {"$ref": f"#/$defs/{annotation.__name__}"}


_NAMES = vars(course) | vars(plan) | {"Course": course.Course, "Evidence": Evidence, "Source": Source}
"""What the annotations of the plan's types mean; the types themselves import it for the checker only."""


def _record_schema(record: type, kinds: dict[str, Any]) -> dict[str, Any]:
    """Return the schema of a dataclass or a named tuple, written as an object with all of its fields."""
    hints = typing.get_type_hints(record, _NAMES)
    names = [field.name for field in fields(record)] if is_dataclass(record) else list(hints)
    return {
        "description": _summary(record),
        "type": "object",
        "properties": {name: _type_schema(hints[name], kinds) for name in names},
        "required": names,
        "additionalProperties": False,
    }


def keys_page() -> str:
    """Tables of all keys of the evening file, as Markdown."""
    parts = []
    for kind in tables_of(Evening):
        parts.append(f"### {_heading(kind)}\n\n{_summary(kind)}\n")
        rows = [
            f"| `{key.name}` | {key.doc} | {_allowed(key)} | {_absent(key)} |" for key in declared_keys(kind).values()
        ]
        parts.append(
            "\n".join(["| key | what it says | how it is written | if absent |", "|---|---|---|---|", *rows]) + "\n"
        )
    return "\n".join(parts)


def _heading(kind: type) -> str:
    if kind is Evening:
        return "The evening itself"
    uses = []
    for outer in tables_of(Evening):
        for key in declared_keys(outer).values():
            if key.table is kind:
                many = key.kind == "tables"
                prefix = (
                    ""
                    if outer is Evening
                    else next(
                        (f"{name}." for name, known in declared_keys(Evening).items() if known.table is outer), ""
                    )
                )
                uses.append(f"`[[{prefix}{key.name}]]`" if many else f"`{prefix}{key.name}`")
    return ", ".join(dict.fromkeys(uses))


def _allowed(key: Key) -> str:
    if key.table is not None:
        return "tables" if key.kind == "tables" else "table"
    if key.choices is not None:
        words = ", ".join(f"`{word}`" for word in key.choices)
        return f"list of {words}" if key.kind == "choices" else words
    example = f"`{example_of(key)}`"
    if key.low is not None and key.high is not None and key.kind in ("number", "zones", "whole"):
        return f"{example}; {key.low:g} to {key.high:g}"
    return example


def _absent(key: Key) -> str:
    if key.required:
        return "**required**"
    if key.default in (None, (), "") or key.table is not None:
        return "–"
    return f"`{written_value(key, key.default)}`"


def format_files(folder: str | os.PathLike[str]) -> dict[Path, str]:
    """Texts of all files of the formats' folder that are made from the types.

    Parameters
    ----------
    folder : path
        ``docs/formats``; the page of the evening file must stand there, its introduction is kept.
    """
    home = Path(folder)
    page = home / PAGE
    before = page.read_text("utf-8").split(KEYS_BEGIN)[0] if page.is_file() else "# The evening file\n\n"
    return {
        home / "evening.schema.json": _json(evening_schema()),
        home / "plan.schema.json": _json(plan_schema()),
        home / "course.schema.json": _json(course_schema()),
        page: f"{before.rstrip()}\n\n{KEYS_BEGIN}\n\n{keys_page()}\n{KEYS_END}\n",
    }


def _json(schema: dict[str, Any]) -> str:
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def write_schemas(folder: str | os.PathLike[str]) -> tuple[Path, ...]:
    """Write what is stale in the formats' folder, and return it.

    Parameters
    ----------
    folder : path
        ``docs/formats``.
    """
    stale = check_schemas(folder)
    texts = format_files(folder)
    for path in stale:
        write_whole(path, texts[path])
    return stale


def check_schemas(folder: str | os.PathLike[str]) -> tuple[Path, ...]:
    """Files of the formats' folder that no longer fit the types, or are missing.

    Parameters
    ----------
    folder : path
        ``docs/formats``.
    """
    return tuple(
        path for path, text in format_files(folder).items() if not path.is_file() or path.read_text("utf-8") != text
    )
