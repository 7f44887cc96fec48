"""Which sheets of the archive were in a run that was kept elsewhere: what fits is shown, and a person says so.

A run that belongs to a frozen plan's load has its sheets from there. One that a terminal kept knows only labels; the
records that somebody ties to them stand in the run's own facts, by the record's identity.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import ConflictError, InputError, ManyErrors, Place
from wetside.records import models
from wetside.services.records.evenings import identities
from wetside.services.records.plans_cancelled import cancelled_loads
from wetside.services.records.sheets_names import UNDEVELOPED
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from uuid import UUID

    from wetside.runs.script import RunSheet, Script

TIED = "sheets"
"""Key of a run's facts under which stands which record is which sheet of its script, by the record's identity."""
MOST_OFFERED = 12
"""Records that are offered for one label, the newest. Our choice."""
MOST_LOADS = 20
"""Loads that are offered, those of the plans that were frozen last. Our choice."""


class SheetFit(NamedTuple):
    """A sheet of a run, and the records that have its label.

    ``best`` is the one that alone still waits, or alone has the label, and that has the film; None where nobody can
    tell.
    """

    name: str
    film: str
    records: tuple[models.Sheet, ...]
    best: models.Sheet | None


class Fits(NamedTuple):
    """What of the archive fits a run's labels: loads that were not begun, and records sheet by sheet."""

    loads: tuple[models.Run, ...]
    sheets: tuple[SheetFit, ...]

    @property
    def some(self) -> bool:
        """Whether anything fits."""
        return bool(self.loads) or any(one.records for one in self.sheets)

    @property
    def best(self) -> dict[str, str]:
        """Each sheet that is told beyond doubt, with its record's identity."""
        return {one.name: str(one.best.pk) for one in self.sheets if one.best is not None}


NOTHING_FITS = Fits((), ())


class Ties(NamedTuple):
    """What a person says of a run's sheets: they are those of a load, by its run; or these records, by the label."""

    load: str | None = None
    sheets: Mapping[str, str] = {}


NO_TIES = Ties()


def tied_sheets(run: models.Run) -> dict[str, models.Sheet]:
    """Records that somebody tied to a run's sheets, by the name in its script."""
    names = run.facts.get(TIED) or {}
    return {
        names[str(sheet.pk)]: sheet
        for sheet in models.Sheet.kept.filter(pk__in=identities(names)).select_related("lot")
    }


def fits_of(script: Script) -> Fits:
    """What of the archive fits a script's labels.

    Parameters
    ----------
    script : Script
        One without sheets fits nothing.
    """
    names = {plain_name(one.id) for one in script.sheets}
    if not names:
        return NOTHING_FITS
    found: dict[str, list[models.Sheet]] = {}
    rows = models.Sheet.kept.filter(label_key__in=names).select_related("film").order_by("-made_at", "pk")
    for sheet in rows[: MOST_OFFERED * len(names)]:
        found.setdefault(sheet.label_key, []).append(sheet)
    return Fits(_loads(script, names), tuple(_fit(one, found.get(plain_name(one.id), ())) for one in script.sheets))


def _fit(sheet: RunSheet, records: Sequence[models.Sheet]) -> SheetFit:
    shown = tuple(sorted(records, key=lambda one: one.state not in UNDEVELOPED))[:MOST_OFFERED]
    waiting = [one for one in shown if one.state in UNDEVELOPED]
    alone = waiting if len(waiting) == 1 else shown if len(shown) == 1 else ()
    best = next((one for one in alone if not sheet.film or plain_name(one.film.name) == plain_name(sheet.film)), None)
    return SheetFit(sheet.id, sheet.film, shown, best)


def load_that_fits(script: Script, plan: UUID, load: int) -> models.Run | None:
    """A load of a plan, if it still fits a script and was not begun.

    Parameters
    ----------
    script : Script
    plan : UUID
        Its identity.
    load : int
        Number of the load in it. [1]
    """
    found = _loads(script, {plain_name(one.id) for one in script.sheets}, plan)
    return next((run for run in found if run.load == load), None)


def _loads(script: Script, names: set[str], only: UUID | None = None) -> tuple[models.Run, ...]:
    """Loads of frozen plans that hold just these labels, have the developer, and were not begun; or of one plan."""
    places = models.PlanSheet.objects.filter(
        sheet__label_key__in=names, load__isnull=False, plan__removed_at=None, plan__frozen_at__isnull=False
    )
    plans = {plan for plan, _ in places.values_list("plan", "load").distinct() if only in (None, plan)}
    runs = (
        models.Run.kept.filter(plan__in=plans, state=models.RunState.READY, rehearsal=False, events=None)
        .select_related("plan")
        .order_by("-plan__frozen_at", "load")[: MOST_LOADS * 5]
    )
    in_load: dict[tuple[UUID, int | None], set[str]] = {}
    for plan, load, label in models.PlanSheet.objects.filter(plan__in=plans).values_list(
        "plan", "load", "sheet__label_key"
    ):
        in_load.setdefault((plan, load), set()).add(label)
    return tuple(
        run
        for run in runs
        if in_load.get((run.plan_id, run.load)) == names
        and not run.facts.get("noted")
        and _has_developer(run, script.developer)
        and run.load not in cancelled_loads(run.plan)
    )[:MOST_LOADS]


def _has_developer(run: models.Run, developer: str) -> bool:
    loads = (run.plan.document or {}).get("loads", ()) if run.plan is not None else ()
    return any(
        one.get("number") == run.load and plain_name(str(one.get("developer", ""))) == plain_name(developer)
        for one in loads
    )


def checked_ties(ties: Ties, fits: Fits) -> dict[str, str]:
    """Names by the record's identity, as a run's facts keep them.

    Raises
    ------
    InputError
        With the place of the sheet whose record is none of those that fit it, or that is named twice.
    """
    errors: list[InputError] = []
    taken: dict[str, str] = {}
    for rank, one in enumerate(fits.sheets, 1):
        key = ties.sheets.get(one.name, "")
        if not key:
            continue
        place = Place(field=f"sheet.{rank}")
        if key not in {str(record.pk) for record in one.records}:
            errors.append(InputError("services.runs_taken.no_such_sheet", place=place, sheet=one.name))
        elif key in taken:
            errors.append(
                ConflictError("services.runs_taken.sheet_twice", place=place, sheet=one.name, other=taken[key])
            )
        taken.setdefault(key, one.name)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return taken
