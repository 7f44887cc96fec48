"""Freezing a plan into run sheets, taking it back, and noting what was developed.

A frozen plan holds the whole evening file, the plan's document and the printed files. Nothing of it is looked up again:
later edits of the shelf, of films or of processes do not reach it.
"""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from wetside.adapters.attachments import fetch_attachment, keep_attachment
from wetside.adapters.evening_writer import write_evening
from wetside.adapters.plain_document import json_text, plain_value
from wetside.adapters.plan_reader import plan_of_plain
from wetside.errors import ConflictError, RefusedError, UnknownNameError
from wetside.records import models
from wetside.services.records.changes import bring_back, change, remove
from wetside.services.records.darkroom import darkroom_settings, manner_of
from wetside.services.records.evenings import evening_of_plan
from wetside.services.records.plans_cancelled import COUNT
from wetside.services.records.plans_reckoned import reckon, seen_of
from wetside.services.records.sheets import end_sheet, planned_again
from wetside.services.write_plan import write_plan
from wetside.values.names import plain_name
from wetside.wording import shown_in

if TYPE_CHECKING:
    from collections.abc import Iterable
    from uuid import UUID

    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.plan import Plan as PlanDocument

FREEZE_WAIT_S = 120.0
"""How long freezing waits for a plan that is still reckoned. [s]"""

KINDS = {
    ".pdf": "application/pdf",
    ".html": "text/html",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".json": "application/json",
    ".toml": "application/toml",
}


class Kept(NamedTuple):
    """A file on the disk that no record names yet."""

    name: str
    kind: str
    sha256: str
    size_bytes: int


class LoadState(NamedTuple):
    """A load of a frozen plan and its run."""

    number: int
    run: models.Run | None

    @property
    def developed(self) -> bool:
        """Whether it is over."""
        return self.run is not None and self.run.state == models.RunState.ENDED

    @property
    def startable(self) -> bool:
        """Whether it can be started: it is ready, or was given up."""
        return self.run is None or self.run.state == models.RunState.READY

    @property
    def is_on(self) -> bool:
        """Whether its run is on."""
        return self.run is not None and self.run.state == models.RunState.RUNNING

    @property
    def by_hand(self) -> bool:
        """Whether it was noted, and not followed by a run."""
        return self.run is not None and bool(self.run.facts.get("noted"))


def freeze(plan: models.Plan, *, seen: str = "", paper: str = "a4") -> models.Plan:
    """Freeze a draft: run sheets printed, sheets marked, one run ready for each load.

    Parameters
    ----------
    plan : Plan
        A draft.
    seen : str
        Which evening the page showed, see :func:`wetside.services.records.plans_reckoned.seen_of`; empty asks nothing.
    paper : str
        ``a4`` or ``letter``.

    Raises
    ------
    ConflictError
        If it is frozen already, the records changed since the page was shown, or a sheet does not wait any more.
    RefusedError
        If no sheet has a time, or the plan takes too long.
    """
    if plan.frozen_at is not None:
        raise ConflictError("services.plans.is_frozen", plan=plan.name)
    evening = evening_of_plan(plan)
    if seen and seen != seen_of(evening):
        raise ConflictError("services.plans.not_as_seen", plan=plan.name)
    document = reckon(evening, FREEZE_WAIT_S).plan
    if document is None:
        raise RefusedError("services.plans.takes_long", plan=plan.name)
    if not document.loads:
        raise RefusedError("services.plans.nothing_to_freeze", plan=plan.name)
    kept = keep_files(document, evening, paper)
    with transaction.atomic():
        return _freeze(plan, document, evening, kept)


def keep_files(document: PlanDocument, evening: Evening, paper: str) -> tuple[Kept, ...]:
    """Print all files of a plan into the data folder, in the darkroom's units and with its decimal sign."""
    kept = []
    with shown_in(manner_of(darkroom_settings())), tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        paths = write_plan(document, folder, paper)
        (folder / "evening.toml").write_text(write_evening(evening), encoding="utf-8")
        for path in sorted([*paths, folder / "evening.toml"]):
            sha256, size_bytes = keep_attachment(settings.DATA_FOLDER, path.read_bytes())
            fetch_attachment(settings.DATA_FOLDER, sha256)  # what is recorded below has been read back
            kept.append(Kept(path.name, KINDS[path.suffix], sha256, size_bytes))
    return tuple(kept)


def _freeze(plan: models.Plan, document: PlanDocument, evening: Evening, kept: tuple[Kept, ...]) -> models.Plan:
    loads = {plain_name(sheet.id): sheet.load for sheet in document.sheets}
    for place in plan.places.select_related("sheet").select_for_update(of=("self",)):
        sheet = place.sheet
        load = loads.get(sheet.label_key)
        if load is None:
            continue
        if sheet.state != models.SheetState.WAITING:
            raise ConflictError("services.plans.sheet_gone", sheet=str(sheet))
        change(sheet, {"state": models.SheetState.PLANNED}, why=f"frozen: {plan.name}")
        models.PlanSheet.objects.filter(pk=place.pk).update(load=load)
    frozen = change(
        plan,
        {
            "frozen_at": timezone.now(),
            "evening": write_evening(evening),
            "document": json.loads(json_text(plain_value(document))),
            "facts": {**plan.facts, "files": {one.name: one.sha256 for one in kept}},
        },
        revision=plan.revision,
        why="frozen",
    )
    make_runs(frozen, document)
    attach_files(frozen, kept)
    return frozen


def make_runs(plan: models.Plan, document: PlanDocument) -> None:
    """One run ready for each load."""
    for load in document.loads:
        run = models.Run(plan=plan, load=load.number, name=f"{plan.name}, load {load.number}"[-120:], demo=plan.demo)
        run.save()


def attach_files(plan: models.Plan, kept: tuple[Kept, ...]) -> None:
    """Name files on the disk as the plan's."""
    models.Attachment.objects.bulk_create(models.Attachment(plan=plan, **one._asdict()) for one in kept)


def files_of(plan: models.Plan) -> tuple[models.Attachment, ...]:
    """Files of a frozen plan; those of an earlier freezing stay in the archive and are not shown."""
    wanted = plan.facts.get("files", {})
    found = {one.name: one for one in plan.attachments.all() if wanted.get(one.name) == one.sha256}
    return tuple(found[name] for name in sorted(found))


def file_of(plan: models.Plan, name: str) -> tuple[models.Attachment, bytes]:
    """One file of a frozen plan with its content.

    Raises
    ------
    UnknownNameError
        If it has no file of that name.
    InputError
        If the file is missing or damaged on the disk.
    """
    found = next((one for one in files_of(plan) if one.name == name), None) if plan.frozen_at is not None else None
    if found is None:
        raise UnknownNameError("services.plans.no_file", value=name)
    return found, fetch_attachment(settings.DATA_FOLDER, found.sha256)


def take_loads_back(plan: models.Plan, why: str) -> None:
    """Remove the ready runs of a plan, and let its sheets wait again; within the caller's transaction.

    Parameters
    ----------
    plan : Plan
    why : str
        Reason for the history of the runs.

    Raises
    ------
    RefusedError
        If a load was begun or is developed.
    """
    now = timezone.now()
    for run in plan.runs.filter(removed_at=None).select_for_update():
        if run.state in (models.RunState.RUNNING, models.RunState.ENDED):
            raise RefusedError("services.plans.begun", plan=plan.name)
        remove(run, now, why=why)
    for place in plan.places.exclude(load=None).select_related("sheet"):
        if place.sheet.state == models.SheetState.PLANNED:
            change(place.sheet, {"state": models.SheetState.WAITING}, why=f"unfrozen: {plan.name}")
    plan.places.update(load=None)


def unfreeze(plan: models.Plan) -> models.Plan:
    """Make a frozen plan a draft again: its sheets wait, its runs are gone; the frozen plan can be brought back.

    Raises
    ------
    RefusedError
        If a load was begun or is developed, or the plan is a short one.
    """
    if plan.frozen_at is None:
        raise RefusedError("services.plans.is_draft", plan=plan.name)
    if plan.short:
        raise RefusedError("services.plans.short_stays", plan=plan.name)
    with transaction.atomic():
        take_loads_back(plan, "unfrozen")
        facts = {name: value for name, value in plan.facts.items() if name not in ("cancelled", COUNT)}
        return change(plan, {"frozen_at": None, "facts": facts}, why="unfrozen")


def freeze_again(plan: models.Plan) -> models.Plan:
    """Bring back what was frozen before it was taken back, as it was then.

    Raises
    ------
    RefusedError
        If there is nothing to bring back.
    ConflictError
        If a sheet of it does not wait any more.
    """
    if plan.frozen_at is not None or not plan.document:
        raise RefusedError("services.plans.never_frozen", plan=plan.name)
    document = plan_of_plain(plan.document)
    with transaction.atomic():
        here = {place.sheet.label_key: place for place in plan.places.select_related("sheet")}
        for one in document.sheets:
            place = here.get(plain_name(one.id))
            if place is None or place.sheet.state != models.SheetState.WAITING:
                raise ConflictError("services.plans.sheet_gone", sheet=one.id)
            change(place.sheet, {"state": models.SheetState.PLANNED}, why=f"frozen: {plan.name}")
            models.PlanSheet.objects.filter(pk=place.pk).update(load=one.load)
        gone = plan.runs.exclude(removed_at=None).filter(rehearsal=False).order_by("removed_at")
        for run in {run.load: run for run in gone}.values():  # the newest of each load
            bring_back(run)
        return change(plan, {"frozen_at": timezone.now()}, why="frozen again")


def load_states(plan: models.Plan, document: PlanDocument) -> tuple[LoadState, ...]:
    """Loads of a frozen plan with their runs."""
    return load_states_by(runs_of_loads([plan.pk])[plan.pk], document)


def load_states_by(runs: Iterable[models.Run], document: PlanDocument) -> tuple[LoadState, ...]:
    """The same by runs that were read already."""
    by_load = {run.load: run for run in runs}
    return tuple(LoadState(load.number, by_load.get(load.number)) for load in document.loads)


def runs_of_loads(plans: Iterable[UUID]) -> dict[UUID, list[models.Run]]:
    """Runs of the loads of plans, rehearsals and those that were given up left out; one query."""
    found: dict[UUID, list[models.Run]] = {key: [] for key in plans}
    rows = models.Run.kept.filter(plan__in=list(found), rehearsal=False).exclude(state=models.RunState.ABANDONED)
    for run in rows:
        found[run.plan_id].append(run)
    return found


def _run_of(plan: models.Plan, load: int) -> models.Run:
    run = plan.runs.filter(removed_at=None, rehearsal=False, load=load).exclude(state=models.RunState.ABANDONED).first()
    if run is None:
        raise UnknownNameError("services.plans.no_load", load=load)
    return run


def note_developed(plan: models.Plan, load: int, time_s: float | None = None) -> models.Run:
    """Note by hand that a load is developed: its sheets are, and how long it took is kept.

    Parameters
    ----------
    plan : Plan
        A frozen one.
    load : int
        Its number.
    time_s : float, optional
        How long it developed; the planned time if absent. [s]

    Raises
    ------
    RefusedError
        If it is running or developed already.
    """
    with transaction.atomic():
        run = _run_of(plan, load)
        if run.state != models.RunState.READY:
            raise RefusedError("services.plans.not_ready", load=load)
        document = plan_of_plain(plan.document or {})
        planned = next(one.time_s for one in document.loads if one.number == load)
        facts = {**run.facts, "noted": True, "planned_s": planned, "developed_s": planned if time_s is None else time_s}
        now = timezone.now()
        for place in plan.places.filter(load=load).select_related("sheet"):
            end_sheet(place.sheet, models.SheetState.DEVELOPED, at=now, why=f"developed: {run.name}")
        return change(run, {"state": models.RunState.ENDED, "facts": facts}, why="noted by hand")


def undo_developed(plan: models.Plan, load: int) -> models.Run:
    """Undo :func:`note_developed`: the load is ready again and its sheets planned.

    Raises
    ------
    RefusedError
        If it was not noted by hand.
    """
    with transaction.atomic():
        run = _run_of(plan, load)
        if run.state != models.RunState.ENDED or not run.facts.get("noted"):
            raise RefusedError("services.plans.not_noted", load=load)
        for place in plan.places.filter(load=load).select_related("sheet"):
            planned_again(place.sheet, why=f"not developed: {run.name}")
        facts = {key: value for key, value in run.facts.items() if key not in ("noted", "planned_s", "developed_s")}
        return change(run, {"state": models.RunState.READY, "facts": facts}, why="taken back")
