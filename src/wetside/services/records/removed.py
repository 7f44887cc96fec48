"""The bin: what was removed, of every kind, with its way back."""

from __future__ import annotations

import heapq
from itertools import islice
from typing import TYPE_CHECKING, NamedTuple

from django.apps import apps

from wetside.errors import UnknownNameError
from wetside.records.models import Darkroom, Kept, Plan
from wetside.services.records.changes import bring_back, find

if TYPE_CHECKING:
    import datetime as dt
    from uuid import UUID


class Removed(NamedTuple):
    """A removed record: its kind, identity, label, when it was removed."""

    kind: str
    key: UUID
    label: str
    at: dt.datetime


def kinds() -> dict[str, type[Kept]]:
    """Records that may be removed, by the name of their kind."""
    models = apps.get_app_config("records").get_models()
    found = {str(model._meta.model_name): model for model in models if issubclass(model, Kept)}  # noqa: SLF001
    found.pop(str(Darkroom._meta.model_name), None)  # noqa: SLF001
    return found


def removed_records(most: int = 50, skip: int = 0) -> tuple[Removed, ...]:
    """Removed records, the last removed first, a page at a time.

    Parameters
    ----------
    most : int
    skip : int
    """
    parts = []
    for kind, model in kinds().items():
        rows = model.objects.exclude(removed_at=None).order_by("-removed_at")
        if model is Plan:
            rows = rows.defer("evening", "document", "choices")
        parts.append([Removed(kind, row.pk, str(row), row.removed_at) for row in rows[: skip + most]])
    newest_first = heapq.merge(*parts, key=lambda one: one.at, reverse=True)
    return tuple(islice(newest_first, skip, skip + most))


def bring_back_removed(kind: str, key: UUID | str) -> Kept:
    """Undo a removal, by kind and identity.

    Raises
    ------
    UnknownNameError
        If there is no such kind or record.
    ConflictError
        If its name was taken meanwhile.
    """
    model = kinds().get(kind)
    if model is None:
        raise UnknownNameError("services.records.not_found", what=kind)
    return bring_back(find(model, key, removed=True))
