"""Plans while they are drafts: made of picked sheets, their choices changed, removed and brought back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.db.models import Count, Q
from django.utils import timezone

from wetside.adapters.clock import today
from wetside.errors import ConflictError, RefusedError
from wetside.records import models
from wetside.services.records.changes import bring_back, change, find, make, remove
from wetside.services.records.evenings import Choices, evening_of_plan, evening_of_sheets, identities, sheets_of
from wetside.services.records.frozen_documents import document_of
from wetside.services.records.instruments import thermometer_checked_last
from wetside.services.records.plans_cancelled import COUNT
from wetside.services.records.plans_reckoned import MOST_SHEETS, Reckoned, reckon
from wetside.services.records.whole_tables import named, newest_versions, thermometers
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Container, Iterable, Mapping, Sequence
    from uuid import UUID

    from wetside.planning.documents.plan import Plan as PlanDocument
PAGE = 25
"""Plans on one page of the list."""

FREE_TABLES = ("developers", "processes", "bottles", "aims")
"""Tables that a plan from a file keeps to what the file named, until the person takes the whole shelf."""


class Listed(NamedTuple):
    """A plan in the list; ``sheets`` are those that it develops or has developed.

    ``word`` is ``draft``, ``frozen``, ``running`` or ``developed``.
    """

    plan: models.Plan
    sheets: int
    loads: int
    done: int
    word: str


class WaitingFilm(NamedTuple):
    """Waiting sheets of one film."""

    film: str
    sheets: tuple[models.Sheet, ...]


class Shelf(NamedTuple):
    """What a plan may choose from."""

    vessels: tuple[models.Vessel, ...]
    processes: tuple[models.Process, ...]
    aims: tuple[models.Aim, ...]
    thermometers: tuple[models.Instrument, ...]


def list_plans(page: int = 1) -> tuple[tuple[Listed, ...], bool]:
    """Plans, the newest first, and whether there are more pages."""
    first = (max(1, page) - 1) * PAGE
    rows = list(models.Plan.kept.defer("document", "evening")[first : first + PAGE + 1])
    # Counted for the plans of this page alone: joined to the list it would be counted for all that were ever made.
    keys = [plan.pk for plan in rows[:PAGE]]
    # Of a draft what is not developed yet, of a frozen plan what its loads hold: a sheet that was only looked at, one
    # that got no time, and one whose load was cancelled are none of what is to be developed with it.
    over = (models.SheetState.DEVELOPED, models.SheetState.LOST)
    held = Q(plan__frozen_at=None) & ~Q(sheet__state__in=over) | Q(plan__frozen_at__isnull=False, load__isnull=False)
    places = models.PlanSheet.objects.filter(held, plan__in=keys).order_by()
    sheets = dict(places.values_list("plan").annotate(Count("pk")))
    runs: dict[Any, dict[str, int]] = {key: {} for key in keys}
    kept = models.Run.kept.filter(plan__in=keys, rehearsal=False).order_by()
    for key, state, count in kept.values_list("plan", "state").annotate(Count("pk")):
        runs[key][state] = count
    return tuple(_listed(plan, sheets.get(plan.pk, 0), runs[plan.pk]) for plan in rows[:PAGE]), len(rows) > PAGE


def _listed(plan: models.Plan, sheets: int, runs: Mapping[str, int]) -> Listed:
    word = "draft" if plan.frozen_at is None else "frozen"
    count, ended = sum(runs.values()), runs.get(models.RunState.ENDED, 0)
    if plan.frozen_at is not None and runs.get(models.RunState.RUNNING):
        word = "running"
    elif plan.frozen_at is not None and count and count == ended:
        word = "developed"
    if plan.short:  # its sheets need no records
        sheets = plan.choices.get("count", 0) - plan.facts.get(COUNT, 0)
    return Listed(plan, sheets, count, ended, word)


def find_plan(key: UUID | str, *, removed: bool = False) -> models.Plan:
    """Plan by its identity; see :func:`wetside.services.records.changes.find`."""
    return find(models.Plan, key, removed=removed)


def waiting_sheets(most: int = MOST_SHEETS) -> tuple[tuple[WaitingFilm, ...], int]:
    """Waiting sheets by film, the longest waiting first, and how many there are in all."""
    waiting = models.Sheet.kept.filter(state=models.SheetState.WAITING)
    by_film: dict[str, list[models.Sheet]] = {}
    for sheet in waiting.select_related("film", "twin")[:most]:
        by_film.setdefault(sheet.film.name, []).append(sheet)
    count = sum(map(len, by_film.values()))
    films = tuple(WaitingFilm(film, tuple(sheets)) for film, sheets in by_film.items())
    return films, count if count < most else waiting.count()


def shelf() -> Shelf:
    """What a plan may choose from; two queries."""
    return Shelf(
        tuple(named(models.Vessel)),
        tuple(version.process for version in newest_versions()),
        tuple(named(models.Aim)),
        tuple(thermometers()),
    )


def picked(keys: Iterable[str]) -> list[models.Sheet]:
    """Waiting sheets by their identities, in the order of the list of sheets.

    Raises
    ------
    RefusedError
        If none of them waits.
    """
    found = models.Sheet.kept.filter(pk__in=identities(keys), state=models.SheetState.WAITING)
    sheets = list(found.select_related("film", "process", "aim", "twin"))
    if not sheets:
        raise RefusedError("services.plans.none_waits")
    return sheets


def new_plan(keys: Iterable[str], *, name: str = "", vessels: Sequence[str] | None = None) -> models.Plan:
    """Draft of picked sheets.

    Parameters
    ----------
    keys : iterable of str
        Identities of waiting sheets; others are left out.
    name : str
        Of the evening; empty takes the day.
    vessels : sequence of str, optional
        Identities; all of the shelf if absent.

    Raises
    ------
    RefusedError
        If no sheet was picked that waits.
    """
    sheets = picked(keys)
    day = today()
    choices: dict[str, Any] = {"keys": {}, "tables": {} if vessels is None else {"vessels": list(vessels)}}
    processes = list(models.Process.kept.all()[:2])
    if len(processes) == 1:
        choices["process"] = str(processes[0].pk)
    thermometer = thermometer_checked_last()
    if thermometer is not None:
        choices["thermometer"] = str(thermometer.pk)
    with transaction.atomic():
        plan = make(
            models.Plan,
            {
                "name": name.strip() or f"Evening of {day.isoformat()}",
                "choices": choices,
                "demo": all(sheet.demo for sheet in sheets),
            },
        )
        _place(plan, sheets)
    return plan


def _place(plan: models.Plan, sheets: Sequence[models.Sheet]) -> None:
    models.PlanSheet.objects.bulk_create(
        models.PlanSheet(plan=plan, sheet=sheet, rank=rank) for rank, sheet in enumerate(sheets)
    )


def set_sheets(plan: models.Plan, keys: Iterable[str]) -> None:
    """Put other sheets into a draft."""
    _must_be_draft(plan)
    sheets = picked(keys)
    with transaction.atomic():
        plan.places.all().delete()
        _place(plan, sheets)


def choose(
    plan: models.Plan,
    *,
    name: str,
    keys: Mapping[str, Any],
    vessels: Sequence[str],
    process: str,
    aim: str,
    thermometer: str,
    whole_shelf: bool = False,
    compare: Sequence[str] = (),
) -> models.Plan:
    """Change the choices of a draft.

    Parameters
    ----------
    plan : Plan
    name : str
    keys : mapping
        The evening's own keys in plain form, as they stand in a file.
    vessels : sequence of str
        Identities; none is every vessel of the shelf.
    process, aim, thermometer : str
        Identities, or empty.
    whole_shelf : bool
        Take all of the shelf, where the plan came from a file that named only a part of it.
    compare : sequence of str
        Processes, or developers as they are typed, to be compared.

    Raises
    ------
    WetsideError
        If the evening cannot be so, naming the field; nothing was written.
    """
    _must_be_draft(plan)
    tables = {key: list(value) for key, value in plan.choices.get("tables", {}).items()}
    if whole_shelf:
        for table in FREE_TABLES:
            tables.pop(table, None)
    if vessels:
        tables["vessels"] = list(vessels)
    else:
        tables.pop("vessels", None)
    date = keys.get("date")
    kept = {key: value for key, value in keys.items() if key != "date"}
    looks = plan.choices.get("keys", {}).get("looks")
    if looks:
        kept["looks"] = looks
    choices = {
        **plan.choices,
        "keys": kept,
        "tables": tables,
        "process": process,
        "aim": aim,
        "thermometer": thermometer,
        "compare": list(compare),
    }
    sheets = sheets_of(plan)
    read = evening_of_sheets(
        sheets,
        Choices(keys=kept, tables=tables, process=process, aim=aim, thermometer=thermometer),
        name=name or plan.name,
        date=str(date or ""),
    )
    return change(plan, {"name": read.name, "date": read.date, "choices": choices})


def reckoned(plan: models.Plan) -> Reckoned:
    """Plan of a draft, reckoned from the records as they are; of a frozen one, as it was written.

    Raises
    ------
    WetsideError
        As the reader of the evening and the planner.
    """
    if plan.frozen_at is not None:
        return Reckoned("", document_of(plan))
    return reckon(evening_of_plan(plan))


def evening_text(plan: models.Plan) -> str:
    """Evening file of a plan: as it was frozen, or of the records as they are."""
    from wetside.adapters.evening_writer import write_evening

    return plan.evening if plan.frozen_at is not None else write_evening(evening_of_plan(plan))


def films_without_time(plan: models.Plan, labels: Container[str] | None = None) -> tuple[models.Film, ...]:
    """Films of those sheets of a plan that got no time: what is known of them is where the way on begins.

    Parameters
    ----------
    plan : Plan
    labels : container of str, optional
        Labels of those sheets, as the plan has them; all of its sheets where the whole plan was refused.
    """
    found = {sheet.film.pk: sheet.film for sheet in sheets_of(plan) if labels is None or str(sheet) in labels}
    return tuple(sorted(found.values(), key=lambda film: film.name_key))


def remove_plan(plan: models.Plan) -> models.Plan:
    """Take a draft away; a kept short plan goes with its loads while none has begun.

    Raises
    ------
    RefusedError
        If sheets hang from it, or a load was begun.
    """
    if plan.frozen_at is not None and (not plan.short or plan.places.exists()):
        raise RefusedError("services.plans.frozen_stays", plan=plan.name)
    now = timezone.now()
    with transaction.atomic():
        for run in plan.runs.filter(removed_at=None):
            if run.state not in (models.RunState.READY, models.RunState.ABANDONED):
                raise RefusedError("services.plans.begun", plan=plan.name)
            remove(run, now)
        return remove(plan, now)


def bring_plan_back(plan: models.Plan) -> models.Plan:
    """Undo a removal, with the loads that went with it."""
    with transaction.atomic():
        for run in plan.runs.filter(removed_at=plan.removed_at):
            bring_back(run)
        return bring_back(plan)


def _must_be_draft(plan: models.Plan) -> None:
    if plan.frozen_at is not None:
        raise ConflictError("services.plans.is_frozen", plan=plan.name)


def place_of(plan: models.Plan, document: PlanDocument) -> dict[Any, str]:
    """Label in the document of each sheet of a plan, by the sheet's identity."""
    names = {plain_name(sheet.id): sheet.id for sheet in document.sheets}
    return {sheet.pk: names[sheet.label_key] for sheet in sheets_of(plan) if sheet.label_key in names}


def age_days(day: dt.date | None, today: dt.date) -> int | None:
    """Whole days since a date; None where there is none. [d]"""
    return None if day is None else max(0, (today - day).days)
