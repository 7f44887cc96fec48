"""Rules of the archive that no single table can guard, each a walk that yields what breaks it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from django.db.models import Count, F, Max, Model, OuterRef, Subquery, Sum

from wetside.adapters.attachments import attachment_path, hash_of_file, kept_attachments
from wetside.adapters.authority_keys import keys_open_to_others
from wetside.records.models import Attachment, Bottle, Kept, Process, RunEvent, Sheet
from wetside.services.archive.tables import tables
from wetside.values.names import plain_name

Breach = tuple[str, Mapping[str, Any]]
Rule = Callable[[Path], Iterator[Breach]]

NEAR = 1e-6
"""Sums of a ledger agree to so much, relative: they are added up in another order. [1]"""
AT_ONCE = 2000


def bottles_agree_with_their_ledgers(folder: Path) -> Iterator[Breach]:
    """What is left in a bottle, and the film that it saw, are the sums of its lines."""
    del folder
    asked = Bottle.objects.annotate(ml=Sum("ledger__change_ml"), units=Sum("ledger__area_units")).order_by("pk")
    for bottle in asked.iterator(AT_ONCE):
        ml, units = bottle.ml or 0.0, bottle.units or 0.0
        if bottle.left_ml is not None and not math.isclose(bottle.left_ml, ml, rel_tol=NEAR, abs_tol=NEAR):
            yield "services.check.bottle_ml", {"mark": bottle.mark, "left": bottle.left_ml, "sum": ml}
        if not math.isclose(bottle.seen_units, units, rel_tol=NEAR, abs_tol=NEAR):
            yield "services.check.bottle_units", {"mark": bottle.mark, "seen": bottle.seen_units, "sum": units}


def processes_have_their_newest_version(folder: Path) -> Iterator[Breach]:
    """The version that a process calls its newest is there, and none is newer."""
    del folder
    for process in Process.objects.annotate(found=Max("versions__version"), versions_there=Count("versions")):
        if process.found != process.newest:
            yield (
                "services.check.process_newest",
                {"name": process.name, "newest": process.newest, "found": process.found or 0},
            )
        elif process.versions_there != process.newest:
            yield (
                "services.check.process_gap",
                {"name": process.name, "newest": process.newest, "count": process.versions_there},
            )


def runs_have_no_gap(folder: Path) -> Iterator[Breach]:
    """Facts of a run are counted from 1 without a gap."""
    del folder
    counted = RunEvent.objects.values("run_id").annotate(count=Count("id"), last=Max("seq")).order_by("run_id")
    for row in counted.exclude(count=F("last")):
        yield "services.check.run_gap", {"run": str(row["run_id"]), "count": row["count"], "last": row["last"]}


def files_are_what_they_were(folder: Path) -> Iterator[Breach]:
    """Every file that belongs to a record is there, and its content has the hash that it is kept under."""
    rows = Attachment.objects.order_by("sha256").values_list("sha256", "size_bytes", "name")
    known: dict[str, tuple[int, str]] = {}
    for sha256, size, name in rows.iterator(AT_ONCE):
        known.setdefault(sha256, (size, name))
    for sha256, (size, name) in known.items():
        path = attachment_path(folder, sha256)
        if not path.is_file():
            yield "services.check.file_missing", {"name": name, "sha256": sha256}
        elif path.stat().st_size != size or hash_of_file(path) != sha256:
            yield "services.check.file_differs", {"name": name, "sha256": sha256}
    for sha256 in kept_attachments(folder):
        if sha256 not in known:
            yield "services.check.stray_file", {"sha256": sha256}


def names_are_found_as_they_are_typed(folder: Path) -> Iterator[Breach]:
    """Beside a name stands the form in which it is looked up."""
    del folder
    for model in kept_models():
        columns = {field.name for field in model._meta.concrete_fields}  # noqa: SLF001
        for name in ("name", "mark"):
            if f"{name}_key" in columns:
                for key, said, found in model.objects.values_list("pk", name, f"{name}_key").iterator(AT_ONCE):
                    if plain_name(said) != found:
                        yield (
                            "services.check.name_key",
                            {"what": model.__name__.casefold(), "name": said, "key": str(key)},
                        )


def every_record_has_its_history(folder: Path) -> Iterator[Breach]:
    """The newest state in a record's history is the record's own: so a removed one can be brought back as it was."""
    del folder
    for model in kept_models():
        past = model.history.model.objects.filter(id=OuterRef("pk")).order_by("-history_id")
        rows = model.objects.annotate(
            last=Subquery(past.values("revision")[:1]), last_removed=Subquery(past.values("removed_at")[:1])
        ).order_by("pk")
        for record in rows.only("pk", "revision", "removed_at").iterator(AT_ONCE):
            params = {"what": model.__name__.casefold(), "key": str(record.pk)}
            if record.last is None:
                yield "services.check.no_history", params
            elif record.last != record.revision or record.last_removed != record.removed_at:
                yield "services.check.other_history", params


def planned_sheets_have_their_plan(folder: Path) -> Iterator[Breach]:
    """A sheet that hangs from a plan has a place in one that was not removed."""
    del folder
    placed = Sheet.objects.filter(state="planned", removed_at=None).exclude(
        pk__in=Sheet.objects.filter(places__plan__removed_at=None, places__plan__frozen_at__isnull=False).values("pk")
    )
    for sheet in placed.iterator(AT_ONCE):
        yield "services.check.planned_nowhere", {"label": str(sheet)}


def kept_models() -> list[type[Kept]]:
    """Records that live."""
    models: list[type[Model]] = [table.model for table in tables()]
    return [model for model in models if issubclass(model, Kept)]


def keys_are_closed(folder: Path) -> Iterator[Breach]:
    """Keys of the certificate authority are readable by their owner alone."""
    for file in keys_open_to_others(folder):
        yield "services.check.open_key", {"file": file}


RULES: tuple[Rule, ...] = (
    bottles_agree_with_their_ledgers,
    processes_have_their_newest_version,
    runs_have_no_gap,
    files_are_what_they_were,
    names_are_found_as_they_are_typed,
    every_record_has_its_history,
    planned_sheets_have_their_plan,
    keys_are_closed,
)
"""All rules, in the order in which they are told."""
