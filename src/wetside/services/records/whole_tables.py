"""Tables that stay small however long a darkroom works, read whole and together: one question for several kinds."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import F, IntegerField, Value
from django.db.models.functions import Cast

from wetside.records import models
from wetside.services.records.page_reads import once

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.db.models import QuerySet

NAMED: tuple[type, ...] = (models.Aim, models.Developer, models.Vessel, models.Instrument)
"""Records with a name of which a darkroom has a dozen."""


def together(queries: Sequence[QuerySet[Any]]) -> list[list[Any]]:
    """Records of several tables by one question, in the order of each one's query.

    Parameters
    ----------
    queries : sequence of query
        Each of another table, neither ordered nor cut: what a database takes inside a union.

    Returns
    -------
    records : list of list
        As many as there are queries.
    """
    return _records(_joined(queries))


class _Joined(NamedTuple):
    """A question for several tables: each table's model and columns, all columns in their order, and the query."""

    own: tuple[tuple[Any, Mapping[tuple[str, str], Any]], ...]
    layout: tuple[tuple[str, str], ...]
    query: Any


def _joined(queries: Sequence[QuerySet[Any]]) -> _Joined:
    own = tuple((query.model, _columns(query.model)) for query in queries)
    # One column for each name and kind that any of the tables has, empty where a table has it not.
    layout = {column: field for _, columns in own for column, field in columns.items()}
    rows = [
        query.order_by().values_list(
            Value(rank, output_field=IntegerField()),
            *(
                F(column[0]) if column in own[rank][1] else Cast(Value(None), output_field=field)
                for column, field in layout.items()
            ),
        )
        for rank, query in enumerate(queries)
    ]
    first, *others = rows
    return _Joined(own, tuple(layout), first.union(*others, all=True))


def _records(joined: _Joined) -> list[list[Any]]:
    found: list[list[Any]] = [[] for _ in joined.own]
    names = [[name for name, _ in columns] for _, columns in joined.own]
    places = [[joined.layout.index(column) for column in columns] for _, columns in joined.own]
    query = joined.query.all()
    for rank, *values in query:
        found[rank].append(joined.own[rank][0].from_db(query.db, names[rank], [values[at] for at in places[rank]]))
    return found


def _columns(model: Any) -> dict[tuple[str, str], Any]:
    """Columns of a table by name and kind, each with the field that reads it."""
    fields = model._meta.concrete_fields  # noqa: SLF001 (Django's own way to ask for columns)
    reads = ((field.attname, field.target_field if field.is_relation else field) for field in fields)
    return {(name, field.get_internal_type()): field for name, field in reads}


def named(table: type) -> list[Any]:
    """Records of a small table that were not removed, by name."""
    return list(once("named records", _read_named)[table])


def _read_named() -> dict[type, list[Any]]:
    found = _records(_named_query())
    return {table: sorted(rows, key=_order) for table, rows in zip(NAMED, found, strict=True)}


@cache
def _named_query() -> _Joined:
    """The question for the small tables, put together once: that takes longer than to ask it."""
    return _joined([table.kept.all() for table in NAMED])  # type: ignore[attr-defined]  # each is a kept record


def _order(record: Any) -> str:
    return str(record.name_key)


def names_of(tables: Sequence[type]) -> list[list[str]]:
    """Names of the records of several tables that were not removed, sorted, by one question."""
    rows = [
        table.kept.order_by().values_list(Value(rank, output_field=IntegerField()), "name_key", "name")  # type: ignore[attr-defined]
        for rank, table in enumerate(tables)
    ]
    first, *others = rows
    found: list[list[str]] = [[] for _ in tables]
    for rank, _, name in sorted(first.union(*others, all=True)):
        found[rank].append(name)
    return found


def thermometers() -> list[models.Instrument]:
    """Thermometers, by name."""
    return [one for one in named(models.Instrument) if one.kind == models.InstrumentKind.THERMOMETER]


def newest_versions() -> list[models.ProcessVersion]:
    """Newest version of each process that was not removed, with its process, by the process's name."""
    return list(once("newest versions", _read_versions))


def _read_versions() -> list[models.ProcessVersion]:
    rows = models.ProcessVersion.objects.filter(process__removed_at=None, version=F("process__newest"))
    return list(rows.select_related("process").order_by("process__name_key"))
