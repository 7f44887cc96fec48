"""What the database knows of its tables' sizes, taken anew where very many rows came at once.

PostgreSQL plans its questions by statistics that it gathers by itself, but only a minute or more after rows came, and
not at all where that is switched off. Right after an import it takes every table for an empty one, and the first pages
are slow. SQLite plans well by the indexes alone; nothing is gathered there.
"""

from __future__ import annotations

from django.db import connection

from wetside.services.archive.tables import tables


def gather_statistics() -> None:
    """Let PostgreSQL look at the records' tables; nothing on SQLite."""
    if connection.vendor != "postgresql":
        return
    quote = connection.ops.quote_name
    names = ", ".join(quote(table.model._meta.db_table) for table in tables())  # noqa: SLF001 (Django's own way to ask)
    with connection.cursor() as cursor:
        cursor.execute(f"ANALYZE {names}")
