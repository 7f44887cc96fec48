"""Which form the tables have: migrations that were applied, that are pending, that nobody here knows."""

from __future__ import annotations

from typing import NamedTuple

from django.db import connection
from django.db.migrations.executor import MigrationExecutor

OWN = "records"
MARK_TABLE = "records_sheet"
"""Where this table is, the records' tables are."""


class Form(NamedTuple):
    """Form of the tables: newest applied migration of the records, pending ones of all parts, unknown ones."""

    newest: str
    pending: tuple[str, ...]
    unknown: tuple[str, ...]


def form_of_tables() -> Form:
    """Ask the database for its form; a database without tables has all migrations pending."""
    executor = MigrationExecutor(connection)
    applied = {name for app, name in executor.loader.applied_migrations if app == OWN}
    known = {name for app, name in executor.loader.disk_migrations if app == OWN}
    leaves = executor.loader.graph.leaf_nodes()
    pending = tuple(f"{migration.app_label}.{migration.name}" for migration, _ in executor.migration_plan(leaves))
    return Form(max(applied, default=""), pending, tuple(sorted(applied - known)))


def newest_applied() -> str:
    """Newest migration of the records that was applied."""
    return form_of_tables().newest


def has_tables() -> bool:
    """Whether the records' tables are there at all."""
    return MARK_TABLE in connection.introspection.table_names()
