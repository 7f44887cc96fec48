"""Between the tables and the evening file's types, key by key, through the same reader that a file goes through.

A record is a few columns, which the database looks up and guards, and ``facts``: all remaining keys of its document in
the plain form of the evening file. No key stands in both.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.binder import Binder
from wetside.adapters.evening_writer import plain_values, plain_word
from wetside.adapters.findings import Findings, field_text
from wetside.errors import Place
from wetside.planning.documents import evening as documents
from wetside.planning.documents.keys import declared_keys
from wetside.records import models

if TYPE_CHECKING:
    from collections.abc import Mapping


class Form(NamedTuple):
    """How a document's type is kept: its table, and the attributes that are columns, each with the column's name."""

    document: type
    table: type
    columns: Mapping[str, str]


FORMS: Mapping[str, Form] = {
    "film": Form(documents.Film, models.Film, {"name": "name", "ei": "ei", "published": "published"}),
    "developer": Form(documents.Developer, models.Developer, {"name": "name", "published": "published"}),
    "aim": Form(
        documents.Aim,
        models.Aim,
        {
            "name": "name",
            "printing": "printing",
            "density_range": "density_range",
            "tolerance": "tolerance",
            "channel": "channel",
        },
    ),
    "vessel": Form(
        documents.Vessel,
        models.Vessel,
        {
            "name": "name",
            "kind": "kind",
            "min_ml": "min_ml",
            "max_ml": "max_ml",
            "pour_s": "pour_s",
            "drain_s": "drain_s",
            "dries_s": "dries_s",
        },
    ),
    "bottle": Form(
        documents.Bottle,
        models.Bottle,
        {
            "mark": "mark",
            "holds": "holds",
            "volume_ml": "left_ml",
            "mixed": "mixed",
            "keeps_until": "keeps_until",
            "seen_units": "seen_units",
        },
    ),
    "process": Form(
        documents.Process,
        models.ProcessVersion,
        {
            "developer": "developer",
            "dilution": "dilution",
            "temp_c": "temp_c",
            "clock": "clock",
            "version": "version",
        },
    ),
    "sheet": Form(
        documents.Sheet,
        models.Sheet,
        {
            "label": "label",
            "holder": "holder",
            "n": "n",
            "scene_stops": "scene_stops",
            "exposed": "exposed",
            "importance": "importance",
            "suspect": "suspect",
        },
    ),
}
"""Names of other records (film, process, aim, twin) are neither: they are relations, see :func:`raw_of`."""

RELATED = {"process": ("name",), "sheet": ("film", "size", "process", "aim", "twin", "done")}
"""Keys of a document that stand in relations of the record."""


def raw_of(kind: str, record: Any, related: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Record as the plain table that stands in an evening file.

    Parameters
    ----------
    kind : str
        Key of :data:`FORMS`.
    record : model
    related : mapping, optional
        Plain values of the keys in :data:`RELATED`.
    """
    form = FORMS[kind]
    raw: dict[str, Any] = dict(related or {})
    for key in declared_keys(form.document).values():
        column = form.columns.get(key.attribute)
        if column is None:
            continue
        value = getattr(record, column)
        if value is None or (value == "" and not key.required) or (not key.required and value == key.default):
            continue
        raw[key.name] = plain_word(key, value)
    raw.update(record.facts)
    return raw


def document_of(kind: str, raw: Mapping[str, Any], *, title: str = "") -> Any:
    """Document of a plain table, checked key by key.

    Parameters
    ----------
    kind : str
        Key of :data:`FORMS`.
    raw : mapping
        Plain values by key, as :func:`raw_of` or a page's form gives them.
    title : str
        What the errors call it.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken.
    """
    findings = Findings()
    document = Binder(findings).table(FORMS[kind].document, raw, ())
    if findings:
        findings.refuse(lambda path: Place(field=field_text(path, title or None)))
    return document


def columns_and_facts(kind: str, document: Any) -> dict[str, Any]:
    """Columns of a record and its ``facts``, from a document.

    Parameters
    ----------
    kind : str
        Key of :data:`FORMS`.
    document : dataclass
        As :func:`document_of` returns it.
    """
    form = FORMS[kind]
    values: dict[str, Any] = {}
    apart = set(RELATED.get(kind, ()))
    for key in declared_keys(form.document).values():
        column = form.columns.get(key.attribute)
        if column is None:
            continue
        apart.add(key.name)
        value = getattr(document, key.attribute)
        if key.kind == "choice":
            value = str(value)
        elif key.kind == "dilution":
            value = plain_word(key, value) if value is not None else ""
        elif value is None and not form.table._meta.get_field(column).null:  # type: ignore[attr-defined]  # noqa: SLF001
            value = ""
        values[column] = value
    values["facts"] = {name: value for name, value in plain_values(document).items() if name not in apart}
    return values
