"""Making, correcting, removing and bringing back a record: the one way in which a living record is written.

Every write is one transaction, leaves the state before it in the record's history, and is refused where another page
has changed the record meanwhile.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from django.db import IntegrityError, transaction

from wetside.errors import ConflictError, RefusedError, UnknownNameError
from wetside.records.models import LABEL_LENGTH, Kept, worker, written_by
from wetside.services.records.page_reads import forget
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping
    from uuid import UUID

__all__ = ["Version", "bring_back", "change", "find", "history_of", "make", "remove", "worker", "written_by"]

Record = TypeVar("Record", bound=Kept)

KEYED = {"name": "name_key", "mark": "mark_key"}
"""Columns that hold a name as it is compared, beside the name as it was typed."""


class Version(NamedTuple):
    """One state of a record: when it was written, by whom and why, and what differs from the state before."""

    at: dt.datetime
    by: str
    why: str
    kind: str
    changes: tuple[tuple[str, Any, Any], ...]


def find(kind: type[Record], key: UUID | str, *, removed: bool = False) -> Record:
    """Record by its identity.

    Parameters
    ----------
    kind : model
    key : UUID
    removed : bool
        Whether a removed record may be found too.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    found: Record | None = kind.objects.filter(pk=key).first()
    if found is None or (found.removed_at is not None and not removed):
        raise UnknownNameError("services.records.not_found", what=kind.__name__.casefold())
    return found


def make(kind: type[Record], values: Mapping[str, Any], *, why: str = "") -> Record:
    """Make a record.

    Parameters
    ----------
    kind : model
    values : mapping
        Columns and their values, already checked by the document's reader.
    why : str
        Kept in the history.

    Raises
    ------
    ConflictError
        If a constraint of the table refuses it: a name that is taken, a number outside its limits.
    """
    forget()
    record = kind(**values)
    _set_keys(record)
    _save(record, why)
    return record


def change(record: Record, values: Mapping[str, Any], *, revision: int | None = None, why: str = "") -> Record:
    """Correct a record; nothing is written where nothing differs.

    Parameters
    ----------
    record : model
    values : mapping
        Columns to change. A callable gets what stands in its column now, so that what another page wrote into the same
        one meanwhile is not lost.
    revision : int, optional
        The state that the person saw; another one now is a conflict.
    why : str

    Raises
    ------
    ConflictError
        If the record was changed meanwhile, or a constraint refuses the values.
    """
    forget()
    with transaction.atomic():
        kind = type(record)
        now: Record | None = kind.objects.select_for_update().filter(pk=record.pk).first()
        if now is None:
            raise UnknownNameError("services.records.not_found", what=kind.__name__.casefold())
        if revision is not None and now.revision != revision:
            raise ConflictError("services.records.changed_meanwhile", what=str(now))
        values = {name: value(getattr(now, name)) if callable(value) else value for name, value in values.items()}
        if all(getattr(now, name) == value for name, value in values.items()):
            return now
        for name, value in values.items():
            setattr(now, name, value)
        now.revision += 1
        _set_keys(now)
        _save(now, why)
    return now


def remove(record: Record, at: dt.datetime, *, why: str = "") -> Record:
    """Take a record away; it stays in the archive and can be brought back.

    Raises
    ------
    RefusedError
        If it is removed already.
    """
    if record.removed_at is not None:
        raise RefusedError("services.records.removed_already", what=str(record))
    return change(record, {"removed_at": at}, why=why)


def bring_back(record: Record, *, why: str = "") -> Record:
    """Undo a removal.

    Raises
    ------
    ConflictError
        If its name was taken meanwhile.
    """
    return change(record, {"removed_at": None}, why=why)


def history_of(record: Kept, most: int = 50) -> tuple[Version, ...]:
    """States of a record, the newest first, each with what it changed."""
    states = list(record.history.all()[: most + 1])
    hidden = {"changed_at", "revision", "name_key", "mark_key", "label_key"}
    versions = []
    for rank, state in enumerate(states[:most]):
        before = states[rank + 1] if rank + 1 < len(states) else None
        changes: tuple[tuple[str, Any, Any], ...] = ()
        if before is not None:
            names = [field.name for field in record._meta.concrete_fields if field.name not in hidden]  # noqa: SLF001
            pairs = (
                (name, getattr(before, _column(name, before)), getattr(state, _column(name, state))) for name in names
            )
            changes = tuple((name, old, new) for name, old, new in pairs if old != new)
        versions.append(
            Version(
                at=state.history_date,
                by=state.history_user_id or "",
                why=state.history_change_reason or "",
                kind={"+": "made", "~": "changed", "-": "deleted"}[state.history_type],
                changes=changes,
            )
        )
    return tuple(versions)


def _column(name: str, state: object) -> str:
    return f"{name}_id" if hasattr(state, f"{name}_id") else name


def _set_keys(record: Kept) -> None:
    for column, key in KEYED.items():
        if hasattr(record, key):
            setattr(record, key, plain_name(getattr(record, column)))
    if hasattr(record, "label_key"):
        record.label_key = plain_name(getattr(record, "label", "") or getattr(record, "holder", ""))


def _save(record: Kept, why: str) -> None:
    record._change_reason = why[:LABEL_LENGTH] or None  # type: ignore[attr-defined]  # noqa: SLF001
    try:
        with transaction.atomic():
            record.save()
    except IntegrityError as error:
        raise _conflict(record, str(error)) from error


def _conflict(record: Kept, said: str) -> ConflictError:
    """The constraint's own code where the database names it; SQLite names the columns of a unique index instead."""
    kind = type(record)
    constraints = kind._meta.constraints  # noqa: SLF001
    for constraint in constraints:
        if constraint.name in said:
            return ConflictError(f"records.rule.{constraint.name}", what=str(record))
    for constraint in constraints:
        fields = getattr(constraint, "fields", ())
        columns = [f"{kind._meta.db_table}.{getattr(kind._meta.get_field(name), 'column', name)}" for name in fields]  # noqa: SLF001
        if columns and said.endswith(", ".join(columns)):
            return ConflictError(f"records.rule.{constraint.name}", what=str(record))
    return ConflictError("services.records.refused", what=str(record), reason=said)
