"""Lines are written once: the database itself refuses to change or remove them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import migrations

if TYPE_CHECKING:
    from django.apps.registry import Apps
    from django.db.backends.base.schema import BaseDatabaseSchemaEditor

TABLES = (
    "records_runevent",
    "records_bottleline",
    "records_processversion",
    "records_instrumentcheck",
    "records_receipt",
)


def _guard(apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    del apps
    for table in TABLES:
        if schema_editor.connection.vendor == "sqlite":
            for act in ("UPDATE", "DELETE"):
                schema_editor.execute(
                    f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                    f"BEGIN SELECT RAISE(ABORT, 'lines of {table} are never changed'); END"
                )
        else:
            refuse = f"RAISE EXCEPTION 'lines of {table} are never changed' USING ERRCODE = 'check_violation';"
            schema_editor.execute(
                f"CREATE FUNCTION {table}_kept() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN {refuse} END $$"
            )
            schema_editor.execute(
                f"CREATE TRIGGER {table}_kept BEFORE UPDATE OR DELETE ON {table} "
                f"FOR EACH ROW EXECUTE FUNCTION {table}_kept()"
            )


def _open(apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    del apps
    for table in TABLES:
        if schema_editor.connection.vendor == "sqlite":
            for act in ("update", "delete"):
                schema_editor.execute(f"DROP TRIGGER {table}_no_{act}")
        else:
            schema_editor.execute(f"DROP TRIGGER {table}_kept ON {table}")
            schema_editor.execute(f"DROP FUNCTION {table}_kept()")


class Migration(migrations.Migration):
    """Triggers on the tables of lines."""

    dependencies = (("records", "0001_first"),)
    operations = (migrations.RunPython(_guard, _open),)
