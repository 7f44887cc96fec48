"""The demo darkroom: the invented evening of the examples, one click away and as easily removed."""

from __future__ import annotations

import dataclasses
from importlib.resources import as_file, files
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.utils import timezone

from wetside.adapters.evening_file import read_evening
from wetside.errors import ConflictError, RefusedError
from wetside.records import models
from wetside.services.records.changes import bring_back, change, remove
from wetside.services.records.evenings import identities
from wetside.services.records.evenings_import import OURS, take
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from uuid import UUID

    from wetside.planning.documents.evening import Evening

# From what hangs on others to what others hang on, so that nothing real is left without its film.
ORDER = (
    models.Run,
    models.Plan,
    models.Sheet,
    models.HolderSide,
    models.Holder,
    models.FilmLot,
    models.Film,
    models.Process,
    models.Aim,
    models.Developer,
    models.Vessel,
    models.Bottle,
    models.Instrument,
)


class Removed(NamedTuple):
    """What a removal did: its moment, by which it can be undone, and how many records stay because yours need them."""

    at: dt.datetime
    records: int
    needed: int


def demo_evening() -> Evening:
    """Evening of the demo darkroom."""
    with as_file(files("wetside.data") / "demo") as folder:
        return read_evening(folder / "evening.toml")


def demo_is_here() -> bool:
    """Whether anything of the demo darkroom stands in the records."""
    return any(model.kept.filter(demo=True).exists() for model in (models.Sheet, models.Plan, models.Film))


def make_demo() -> models.Plan:
    """Make the demo darkroom; what the records know under a name already stays as it is.

    Raises
    ------
    ConflictError
        If it is here already.
    """
    if demo_is_here():
        raise ConflictError("services.plans.demo_there")
    with transaction.atomic():
        plan = take(_beside_real_sheets(demo_evening()), unanswered=OURS, demo=True)
        for bottle in models.Bottle.kept.filter(demo=True, form=""):
            # The evening file does not say how a bottle stands: here the developer is diluted, the others are used as
            # they are and go back.
            developer = bottle.role == models.BottleRole.DEVELOPER
            change(bottle, {"form": models.BottleForm.CONCENTRATE if developer else models.BottleForm.WORKING})
    return plan


def _beside_real_sheets(evening: Evening) -> Evening:
    """Evening whose sheets bear no label that a waiting sheet of the records bears."""
    states = [models.SheetState.WAITING, models.SheetState.PLANNED]
    taken = set(models.Sheet.kept.filter(state__in=states).values_list("label_key", flat=True))
    names = {sheet.id: f"{sheet.id} (demo)" for sheet in evening.sheets if plain_name(sheet.id) in taken}
    if not names:
        return evening
    sheets = tuple(
        dataclasses.replace(
            sheet,
            holder=names.get(sheet.holder or "", sheet.holder),
            label=names.get(sheet.label or "", sheet.label),
            twin=names.get(sheet.twin or "", sheet.twin),
        )
        for sheet in evening.sheets
    )
    return dataclasses.replace(evening, sheets=sheets)


def remove_demo() -> Removed:
    """Remove the demo darkroom; what real records need stays, and becomes real.

    Raises
    ------
    RefusedError
        If it is not here, or one of its runs is going on.
    """
    if models.Run.kept.filter(demo=True, state=models.RunState.RUNNING).exists():
        raise RefusedError("services.plans.demo_begun")
    now = timezone.now()
    count = needed = 0
    with transaction.atomic():
        for model in ORDER:
            keys = _needed(model)
            for record in model.kept.filter(demo=True):
                if record.pk in keys:
                    change(record, {"demo": False}, why="yours needs it")
                    needed += 1
                else:
                    remove(record, now, why="demo darkroom removed")
                    count += 1
    if not count:
        raise RefusedError("services.plans.demo_not_there")
    return Removed(now, count, needed)


def bring_demo_back(at: dt.datetime) -> int:
    """Undo a removal.

    Parameters
    ----------
    at : datetime
        The moment of the removal.

    Raises
    ------
    ConflictError
        If a name of it was taken meanwhile.
    """
    count = 0
    with transaction.atomic():
        for model in reversed(ORDER):
            for record in model.objects.filter(demo=True, removed_at=at):
                bring_back(record, why="demo darkroom brought back")
                count += 1
    return count


def _needed(model: Any) -> set[Any]:
    """Demo records of a table that a record which stays points at, or that a plan of yours has chosen."""
    keys: set[Any] = set(_chosen_by_plans())
    for relation in model._meta.related_objects:  # noqa: SLF001 (the framework's way to ask what points here)
        other = relation.related_model
        if not issubclass(other, models.Kept):
            continue
        pointing = other.kept.filter(demo=False, **{f"{relation.field.name}__demo": True})
        keys |= set(pointing.values_list(relation.field.attname, flat=True))
    if model is models.Sheet:
        keys |= set(
            models.PlanSheet.objects.filter(plan__removed_at=None, sheet__demo=True).values_list("sheet", flat=True)
        )
    return keys


def _chosen_by_plans() -> set[UUID]:
    """Identities that the choices of real drafts name."""
    named: set[str] = set()
    for choices in models.Plan.kept.filter(demo=False, frozen_at=None).values_list("choices", flat=True):
        named |= {str(choices.get(key, "")) for key in ("process", "aim", "thermometer")}
        for keys in choices.get("tables", {}).values():
            named |= {str(key) for key in keys}
    return set(identities(named))
