"""The schema of the plain files, made from the tables themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import models

from wetside.services.archive.export import EXPORT_FORMAT
from wetside.services.archive.tables import inner_field, tables

if TYPE_CHECKING:
    from wetside.services.archive.tables import Table

KINDS: tuple[tuple[type[models.Field[Any, Any]], dict[str, Any]], ...] = (
    (models.UUIDField, {"type": "string", "format": "uuid"}),
    (models.DateTimeField, {"type": "string", "format": "date-time"}),
    (models.DateField, {"type": "string", "format": "date"}),
    (models.BooleanField, {"type": "boolean"}),
    (models.FloatField, {"type": "number"}),
    (models.IntegerField, {"type": "integer"}),
    (models.AutoField, {"type": "integer"}),
    (models.JSONField, {}),
)
"""Kinds of columns as JSON; what is none of them is text."""


def export_schema() -> dict[str, Any]:
    """Schema of ``index.json``, and under ``$defs`` of a row of each table."""
    entry = {
        "type": "object",
        "required": ["file", "rows", "sha256", "columns"],
        "properties": {
            "file": {"type": "string", "description": "Path of the table's lines, below the export."},
            "rows": {"type": "integer", "minimum": 0, "description": "Lines of the file."},
            "sha256": {"type": "string", "pattern": "^[0-9a-f]{64}$", "description": "Of the file's bytes."},
            "columns": {"type": "array", "items": {"type": "string"}, "description": "Keys of every line."},
        },
    }
    attachment = {
        "type": "object",
        "required": ["sha256", "size_bytes", "here"],
        "properties": {
            "sha256": {"type": "string", "pattern": "^[0-9a-f]{64}$", "description": "Its name below attachments/."},
            "size_bytes": {"type": "integer", "minimum": 0},
            "here": {"type": "boolean", "description": "Whether the file comes along."},
        },
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Export of a Wetside archive: index.json; rows of the tables under $defs",
        "type": "object",
        "required": ["format", "tool", "archive", "migration", "tables", "attachments"],
        "properties": {
            "format": {"const": EXPORT_FORMAT},
            "tool": {"type": "string", "description": "Program and version that wrote it."},
            "archive": {"type": "string", "description": "Identity of the archive, kept when it moves."},
            "migration": {"type": "string", "description": "Form of the tables that the rows come from."},
            "tables": {"type": "object", "additionalProperties": entry},
            "attachments": {"type": "array", "items": attachment},
        },
        "$defs": {table.name: _row(table) for table in tables()},
    }


def _row(table: Table) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "properties": {name: _column(table.fields[name]) for name in table.columns},
    }


def _column(field: models.Field[Any, Any]) -> dict[str, Any]:
    inner = inner_field(field)
    schema: dict[str, Any] = next((dict(kind) for model, kind in KINDS if isinstance(inner, model)), {"type": "string"})
    if isinstance(inner, models.CharField) and inner.max_length:
        schema["maxLength"] = inner.max_length
    if field.null and "type" in schema:
        schema["type"] = [schema["type"], "null"]
    if isinstance(field, models.ForeignKey):
        schema["description"] = f"Identity in {field.related_model._meta.model_name}."  # noqa: SLF001
    return schema
