"""One writer at a time for what no constraint of a table can say."""

from __future__ import annotations

from django.db import connection

NEGATIVES = 731_102
"""Numbers of negatives are counted on by one page at a time."""


def one_writer(what: int) -> None:
    """Wait until no other transaction is at the same work; the wait ends with this transaction.

    SQLite begins every transaction of this archive as the only writer, so that nothing is left to wait for.

    Parameters
    ----------
    what : int
        Such as :data:`NEGATIVES`. [1]
    """
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [what])
