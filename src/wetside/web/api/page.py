"""The interface's page in the documentation, made from its own description: no page of a library, no script."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from wetside.web.api.root import PREFIX, description

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

BEGIN = "<!-- calls: made from the interface's description by `make docs`; do not edit below this line -->"
END = "<!-- calls: end -->"
PAGE = "reference/interface.md"
DESCRIPTION = "formats/openapi.json"


def interface_files(docs: Path) -> dict[Path, str]:
    """Texts of the files of the documentation that are made from the interface's description.

    Parameters
    ----------
    docs : Path
        The documentation; the introduction of the page is kept.
    """
    told = description()
    page = docs / PAGE
    before = page.read_text("utf-8").split(BEGIN)[0] if page.is_file() else "# The interface for programs\n\n"
    return {
        docs / DESCRIPTION: json.dumps(told, indent=1, ensure_ascii=False, sort_keys=True) + "\n",
        page: f"{before.rstrip()}\n\n{BEGIN}\n\n{''.join(f'{line}{chr(10)}' for line in _lines(told))}\n{END}\n",
    }


def _lines(told: Mapping[str, Any]) -> Iterator[str]:
    yield "## Calls"
    yield ""
    yield "| call | what it does | asked for | refused with |"
    yield "|---|---|---|---|"
    for address, calls in told["paths"].items():
        for method, call in calls.items():
            words = call.get("description") or ""
            what = f"{call['summary']}. {' '.join(words.split())}".strip().replace("``", "`")
            asked = ", ".join(f"`{one['name']}`" for one in call.get("parameters", ()) if one["in"] == "query")
            sent = _type(_body(call["requestBody"])) if "requestBody" in call else ""
            given = next(answer for status, answer in call["responses"].items() if int(status) < 300)
            refused = ", ".join(sorted(status for status in call["responses"] if int(status) >= 400))
            short = address.removeprefix(f"/{PREFIX}")
            parts = [asked, f"body: {sent}" if sent else "", f"gives {_type(_body(given))}"]
            yield f"| `{method.upper()} {short}` | {what} | {'; '.join(part for part in parts if part)} | {refused} |"
    yield ""
    yield "## Shapes"
    for name, shape in sorted(told["components"]["schemas"].items()):
        if name.startswith("Page_"):
            continue
        yield ""
        yield f"### {name}"
        yield ""
        yield " ".join(shape.get("description", "").split()).replace("``", "`")
        yield ""
        yield "| field | type | |"
        yield "|---|---|---|"
        must = set(shape.get("required", ()))
        for field, kind in shape.get("properties", {}).items():
            left_out = "" if field in must else "may be left out"
            words = ". ".join(part for part in (str(kind.get("description", "")).rstrip("."), left_out) if part)
            yield f"| `{field}` | {_type(kind)} | {words} |"


def _body(told: Mapping[str, Any]) -> Mapping[str, Any]:
    found: Mapping[str, Any] = told["content"]["application/json"]["schema"]
    return found


def _type(kind: Mapping[str, Any]) -> str:
    """Type in words."""
    if "$ref" in kind:
        name = str(kind["$ref"]).rpartition("/")[2]
        if name.startswith("Page_"):
            inner = name.removeprefix("Page_").strip("_")
            return f"piece of [{inner}](#{inner.lower()})"
        return f"[{name}](#{name.lower()})"
    if "anyOf" in kind:
        return " or ".join(_type(one) for one in kind["anyOf"])
    if "enum" in kind or "const" in kind:
        return ", ".join(f"`{word}`" for word in kind.get("enum", [kind.get("const")]))
    if kind.get("type") == "array":
        return f"list of {_type(kind['items'])}"
    if kind.get("type") == "object":
        values = kind.get("additionalProperties")
        return f"table of {_type(values)}" if isinstance(values, dict) and values else "table"
    words = {"date-time": "time, UTC", "date": "day", "uuid": "identity"}
    word = words.get(str(kind.get("format")), str(kind.get("type", "any value")))
    limits = [f"{sign} {kind[key]:g}" for key, sign in (("minimum", "from"), ("maximum", "to")) if key in kind]
    if "maxLength" in kind:
        limits.append(f"at most {kind['maxLength']} letters")
    return f"{word} {' '.join(limits)}".strip()
