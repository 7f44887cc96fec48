"""The bin: what was removed, of every kind, a page at a time, and the way back of each kind."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import CharField, F, Value
from django.db.models.functions import Cast, Coalesce, Concat, NullIf

from wetside.errors import UnknownNameError
from wetside.records import models
from wetside.services.records import changes
from wetside.services.records.holders import bring_holder_back
from wetside.services.records.plans import bring_plan_back
from wetside.services.records.runs_removed import bring_run_back
from wetside.services.records.sheets import bring_sheet_back

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable
    from uuid import UUID

    from django.db.models import QuerySet

PAGE = 40
"""Removed records on a page; our choice."""


class Removed(NamedTuple):
    """A removed record: its kind, identity, label, when it was removed, and whether it is of the demo darkroom."""

    kind: str
    key: UUID
    label: str
    at: dt.datetime
    demo: bool


class RemovedPage(NamedTuple):
    """A page of removed records, the last removed first."""

    total: int
    records: tuple[Removed, ...]
    page: int
    pages: int


def _text(*parts: str) -> Any:
    """Column, or columns of which later ones are joined on with a blank, as text of no certain length."""
    first, *others = (Cast(F(part), CharField()) for part in parts)
    joined: Any = first
    for other in others:
        joined = Concat(joined, Value(" "), other, output_field=CharField())
    return joined


LABELS: dict[type[models.Kept], Any] = {
    models.Film: _text("name"),
    models.FilmLot: _text("film__name", "number"),
    models.Developer: _text("name"),
    models.Holder: _text("name"),
    models.Sheet: Coalesce(NullIf(_text("label"), Value("")), _text("holder"), output_field=CharField()),
    models.Bottle: _text("mark", "holds"),
    models.Vessel: _text("name"),
    models.Instrument: _text("name"),
    models.Process: _text("name"),
    models.Aim: _text("name"),
    models.Plan: _text("name"),
    models.Run: _text("name"),
}
"""Kinds in the bin, and what each is called there."""

WITH_OTHERS = (models.HolderSide,)
"""Kinds that go and come with another: a side with its holder. So does a load's run, with its plan."""

WAYS_BACK: dict[type[models.Kept], Callable[[Any], Any]] = {
    models.Holder: bring_holder_back,
    models.Plan: bring_plan_back,
    models.Run: bring_run_back,
    models.Sheet: bring_sheet_back,
}
"""Kinds that bring others back with them, or must look whether their place is still free."""


def kind_of(model: type[models.Kept]) -> str:
    """Name of a kind in addresses."""
    return str(model._meta.model_name)  # noqa: SLF001 (the framework's way to ask)


def removed_count() -> int:
    """Removed records that can be brought back; one query."""
    return _all().count()


def removed_page(page: int = 1) -> RemovedPage:
    """A page of the bin; three queries at most, however much lies in it.

    Parameters
    ----------
    page : int
        From 1; what lies outside is the nearest.
    """
    rows = _all()
    newest = list(rows.order_by("-removed_at", "key")[: PAGE + 1])
    total = len(newest) if len(newest) <= PAGE else rows.count()
    pages = max(1, -(-total // PAGE))
    page = min(max(page, 1), pages)
    cut = newest[:PAGE] if page == 1 else rows.order_by("-removed_at", "key")[(page - 1) * PAGE : page * PAGE]
    records = tuple(Removed(row["of_kind"], row["key"], row["called"], row["removed_at"], row["demo"]) for row in cut)
    return RemovedPage(total, records, page, pages)


def _all() -> QuerySet[Any, dict[str, Any]]:
    parts = [
        model.objects.exclude(removed_at=None)
        .filter(**({"plan": None} if model is models.Run else {}))
        .order_by()
        .annotate(of_kind=Value(kind_of(model), output_field=CharField()), key=F("pk"), called=label)
        .values("of_kind", "key", "called", "removed_at", "demo")
        for model, label in LABELS.items()
    ]
    joined: QuerySet[Any, dict[str, Any]] = parts[0].union(*parts[1:], all=True)
    return joined


def bring_back_removed(kind: str, key: UUID) -> Removed:
    """Undo a removal, by kind and identity; what is back already stays as it is.

    Raises
    ------
    UnknownNameError
        If there is no such kind or record.
    ConflictError
        If its name was taken meanwhile.
    """
    model = {kind_of(one): one for one in LABELS}.get(kind)
    if model is None:
        raise UnknownNameError("services.records.not_found", what=kind)
    record = changes.find(model, key, removed=True)
    at = record.removed_at
    if at is not None:
        record = WAYS_BACK.get(model, changes.bring_back)(record)
    return Removed(kind, key, str(record), at or record.changed_at, record.demo)
