"""Tables of the archive as plain rows: names and values that no database decides.

A table is called after its record, its history ``<record>_history``. Values are JSON: identities and times as text,
times in UTC to the microsecond, the rest as it is. Rows stand in the order of their identity, keys in the order of the
alphabet: equal archives give equal bytes, whichever database keeps them.
"""

from __future__ import annotations

import datetime as dt
import json
import math
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NamedTuple

from django.apps import apps
from django.core.exceptions import ValidationError
from django.db import connection, models, transaction

from wetside.errors import InputError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

AT_ONCE = 2000
"""Rows that are held at a time. [1]"""
WHOLE_NUMBER_FROM = 1e16
"""From here on a decimal number is written as a whole one: a database of its own kind gives it back so. [1]"""
HISTORICAL = "historical"


class Table(NamedTuple):
    """A table by its name outside, and its columns by theirs."""

    name: str
    model: type[models.Model]
    fields: dict[str, models.Field[Any, Any]]

    @property
    def columns(self) -> list[str]:
        """Names of the columns, in the order of the alphabet."""
        return sorted(self.fields)


def tables() -> tuple[Table, ...]:
    """All tables of the records, in the order of their names; secrets (who may come in) are none of them."""
    found = []
    for model in apps.get_app_config("records").get_models(include_auto_created=True):
        if not getattr(model, "exported", True):
            continue
        name = str(model._meta.model_name)  # noqa: SLF001
        if name.startswith(HISTORICAL):
            name = f"{name.removeprefix(HISTORICAL)}_history"
        fields = {str(field.attname): field for field in model._meta.concrete_fields}  # noqa: SLF001
        found.append(Table(name, model, fields))
    return tuple(sorted(found, key=lambda table: table.name))


@contextmanager
def one_state() -> Iterator[None]:
    """Read everything inside the block as it stood at one moment, and keep nobody from writing meanwhile."""
    if connection.in_atomic_block:
        yield
        return
    connection.ensure_connection()
    if connection.vendor == "sqlite":
        usual = getattr(connection, "transaction_mode", None)
        connection.transaction_mode = "DEFERRED"  # type: ignore[attr-defined]  # the stubs know no wrapper of SQLite
        try:
            with transaction.atomic():
                yield
        finally:
            connection.transaction_mode = usual  # type: ignore[attr-defined]
        return
    with transaction.atomic():
        with connection.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        yield


def lines(table: Table, columns: Sequence[str] | None = None) -> Iterator[bytes]:
    """Rows of a table, a line of JSON each, read in pieces.

    Parameters
    ----------
    table : Table
    columns : sequence of str, optional
        Only these; all if absent.

    Raises
    ------
    RefusedError
        If a number is not finite; row and column are named.
    """
    names = list(columns) if columns is not None else table.columns
    ways = [_way(table.fields[name]) for name in names]
    rows = table.model._default_manager.order_by("pk").values_list(*names)  # noqa: SLF001
    for row in rows.iterator(AT_ONCE):
        plain = {name: None if value is None else way(value) for name, way, value in zip(names, ways, row, strict=True)}
        try:
            text = json.dumps(plain, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))
            yield text.encode("utf-8") + b"\n"
        except (ValueError, UnicodeEncodeError) as error:
            key = table.model._meta.pk.attname  # noqa: SLF001
            raise RefusedError("services.archive.not_plain", table=table.name, row=str(plain.get(key, "?"))) from error


def row_of(table: Table, line: bytes, columns: frozenset[str]) -> models.Model:
    """Record of a line.

    Parameters
    ----------
    table : Table
    line : bytes
    columns : frozenset of str
        What every line of the file must have.

    Raises
    ------
    InputError
        If the line is no such row; the field is named.
    """
    try:
        plain = json.loads(line, parse_constant=_no_constant)
    except (ValueError, RecursionError) as error:
        raise InputError("services.archive.line") from error
    if not isinstance(plain, dict) or frozenset(plain) != columns:
        raise InputError("services.archive.line_columns", columns=sorted(columns))
    return table.model(**{name: _value(table.fields[name], name, value) for name, value in plain.items()})


def _no_constant(word: str) -> Any:
    raise ValueError(word)


def _value(field: models.Field[Any, Any], name: str, value: Any) -> Any:
    inner = inner_field(field)
    if value is None:
        if not field.null:
            raise InputError("services.archive.value", field=name, value="null")
        return None
    if isinstance(inner, models.JSONField):
        return value
    wanted = _wanted(inner)
    if not isinstance(value, wanted) or (isinstance(value, bool) and bool not in wanted):
        raise InputError("services.archive.value", field=name, value=str(value))
    longest = inner.max_length if isinstance(inner, models.CharField) else None
    if isinstance(value, str) and ("\0" in value or (longest is not None and len(value) > longest)):
        raise InputError("services.archive.value", field=name, value=value)
    try:
        return inner.to_python(value)
    except (ValidationError, ValueError, TypeError, OverflowError) as error:
        raise InputError("services.archive.value", field=name, value=str(value)) from error


def _wanted(field: models.Field[Any, Any]) -> tuple[type, ...]:
    if isinstance(field, models.BooleanField):
        return (bool,)
    if isinstance(field, models.IntegerField | models.AutoField):
        return (int,)
    return (int, float) if isinstance(field, models.FloatField) else (str,)


def inner_field(field: models.Field[Any, Any]) -> models.Field[Any, Any]:
    """Field that a relation points to, at last."""
    while isinstance(field, models.ForeignKey):
        field = field.target_field
    return field


def _way(field: models.Field[Any, Any]) -> Callable[[Any], Any]:
    """How values of a column are written."""
    inner = inner_field(field)
    if isinstance(inner, models.UUIDField):
        return str
    if isinstance(inner, models.DateTimeField):
        return _moment
    if isinstance(inner, models.DateField):
        return dt.date.isoformat
    if isinstance(inner, models.FloatField):
        return lambda value: float(value) + 0.0
    return _same_everywhere if isinstance(inner, models.JSONField) else _as_it_is


def _moment(value: dt.datetime) -> str:
    return value.astimezone(dt.UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")


def _as_it_is(value: Any) -> Any:
    return value


def _same_everywhere(value: Any) -> Any:
    """JSON value in the one form that all databases give back."""
    if isinstance(value, float):
        if math.isfinite(value) and abs(value) >= WHOLE_NUMBER_FROM:
            return int(value)
        return value + 0.0
    if isinstance(value, dict):
        return {key: _same_everywhere(inner) for key, inner in value.items()}
    return [_same_everywhere(inner) for inner in value] if isinstance(value, list) else value
