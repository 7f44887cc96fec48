"""Loads that are not begun, planned anew by what the looks at developed sheets showed: proposed, then taken or left.

A frozen run sheet is never changed. What is taken is a new plan with run sheets of its own; the loads that it replaces
are cancelled in the old one, and come back when it is undone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.utils import timezone

from wetside.development.contrast_time import ELASTICITY
from wetside.errors import ConflictError, RefusedError
from wetside.records import models
from wetside.runs.effects import sheet_effects
from wetside.runs.schedule import schedule_at
from wetside.services.records.changes import change, find, make, remove
from wetside.services.records.evenings import Choices, choices_of, evening_of_sheets
from wetside.services.records.frozen_documents import document_of, frozen_evening
from wetside.services.records.plans_cancelled import cancel_rest, rest_back
from wetside.services.records.plans_frozen import freeze, unfreeze
from wetside.services.records.plans_reckoned import reckon
from wetside.services.records.runs import standing
from wetside.services.records.runs_log import read_together
from wetside.services.records.runs_look import LEAST_RANGE, MOST_RANGE, looks_of
from wetside.services.records.runs_replanned_short import Anew, short_undone, take_short
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.plan import Plan as PlanDocument
    from wetside.planning.documents.plan import PlannedSheet
    from wetside.services.records.runs_look import Look

REAL_S = 2.5
"""Loads stand on points of 5 s: less than half of one is no change. [s]"""
LEAST_CHANGE, MOST_CHANGE = -60.0, 150.0
"""Changes of time that the evening file takes. [%]"""


class Changed(NamedTuple):
    """A sheet that is still undeveloped: load and time as frozen and as planned anew [s], why, and on which evidence.

    ``new_s`` is None where it cannot be planned any more.
    """

    sheet: str
    old_load: int
    old_s: float
    new_load: int | None
    new_s: float | None
    why: tuple[str, ...]
    evidence: str

    @property
    def differs(self) -> bool:
        """Whether it gets another time."""
        return self.new_s is None or abs(self.new_s - self.old_s) >= REAL_S


class Proposal(NamedTuple):
    """What the looks would change.

    ``blocked`` is the code of why nothing is proposed, empty otherwise; ``seen`` names the evening that was reckoned;
    ``at_work`` while it is; ``can_take`` whether it can be taken with one act.
    """

    blocked: str
    seen: str = ""
    at_work: bool = False
    changes: tuple[Changed, ...] = ()
    can_take: bool = False

    @property
    def different(self) -> int:
        """How many sheets get another time. [sheets]"""
        return sum(one.differs for one in self.changes)

    @property
    def differs(self) -> bool:
        """Whether any sheet gets another time."""
        return self.different > 0


class _Base(NamedTuple):
    """A plan at work: its document, the loads that are not begun, and the looks at its developed sheets."""

    plan: models.Plan
    document: PlanDocument
    rest: tuple[int, ...]
    looks: tuple[dict[str, Any], ...]


def proposal_of(run: models.Run) -> Proposal:
    """What the looks at a run's plan mean for the loads that are not begun.

    Parameters
    ----------
    run : Run
        With its plan.
    """
    if run.plan is None or run.plan.frozen_at is None or not run.plan.document:
        return Proposal("services.look.no_plan")
    try:
        base = _base(run.plan, run)
    except RefusedError as error:
        return Proposal(error.code)
    if not base.rest:
        return Proposal("services.look.nothing_left")
    if not base.looks:
        return Proposal("services.look.no_look")
    evening = _evening(base)
    reckoned = reckon(evening)
    if reckoned.plan is None:
        return Proposal("", reckoned.seen, at_work=True)
    changes = tuple(_changes(base, reckoned.plan))
    return Proposal("", reckoned.seen, False, changes, bool(reckoned.plan.loads))


def _base(plan: models.Plan, shown: models.Run | None = None) -> _Base:
    document = document_of(plan)
    runs = list(plan.runs.filter(removed_at=None, rehearsal=False))
    rest = tuple(sorted(run.load for run in runs if run.state == models.RunState.READY))
    looked_at = [run for run in runs if run.state == models.RunState.ENDED and run.facts.get("looks")]
    read_together(looked_at if shown is None else {shown, *looked_at})
    told: list[tuple[str, dict[str, Any]]] = []
    for run in looked_at:
        told += _looks_at(run, document)
    looks = [dict(look) for look in plan.choices.get("keys", {}).get("looks", ())]
    looks += [look for _, look in sorted(told, key=lambda one: one[0])]
    newest: dict[str, dict[str, Any]] = {}
    for look in looks:
        name = plain_name(str(look["sheet"]))
        newest.pop(name, None)
        newest[name] = look
    return _Base(plan, document, rest, tuple(newest.values()))


def _looks_at(run: models.Run, document: PlanDocument) -> list[tuple[str, dict[str, Any]]]:
    """Looks as the evening file has them, each with its moment: what the others need beside their plain times.

    A look speaks of a sheet as it was developed. Where that was not its plain time (a load's shared time, late hands,
    temperature, a look before this one), what it showed is carried back to the plain time by the usual elasticity.
    """
    stands = standing(run)
    effects = {one.sheet: one for one in sheet_effects(stands.state, schedule_at(stands.state, stands.state.known_s))}
    planned = {plain_name(sheet.id): sheet for sheet in document.sheets}
    found = []
    for look in looks_of(run):
        sheet, effect = planned.get(plain_name(look.sheet)), effects.get(look.sheet)
        if sheet is None:
            continue
        ratio = 1.0 if effect is None else effect.actual_s / effect.planned_s
        developed = ratio * sheet.load_time_s * _looked_before(sheet) / sheet.time_s
        found.append((look.at, _raw(look, developed)))
    return found


def _raw(look: Look, developed: float) -> dict[str, Any]:
    """Look as the evening file has it.

    Raises
    ------
    RefusedError
        If it is further off than the file takes.
    """
    if look.density_range is not None:
        plain = look.density_range / developed**ELASTICITY
        if not LEAST_RANGE <= plain <= MOST_RANGE:
            raise RefusedError("services.look.too_far")
        return {"sheet": look.sheet, "range": round(plain, 4)}
    percent = (developed * (1.0 + (look.change_percent or 0.0) / 100.0) - 1.0) * 100.0
    if not LEAST_CHANGE <= percent <= MOST_CHANGE:
        raise RefusedError("services.look.too_far")
    return {"sheet": look.sheet, "change": round(percent, 2)}


def _looked_before(sheet: PlannedSheet) -> float:
    """Factor of an earlier look that is in a sheet's own time already. [1]"""
    steps = (step.factor for step in sheet.reckoning if step.code.startswith("planning.look_"))
    return next((factor for factor in steps if factor), 1.0)


def _evening(base: _Base) -> Evening:
    """Evening of the loads that are not begun, with the sheets that were looked at as done.

    Raises
    ------
    WetsideError
        As the reader of the evening.
    """
    plan = base.plan
    if plan.short:
        return _short_evening(base)
    sheets = _sheets(base)
    choices = choices_of(plan)
    keys = {**choices.keys, "looks": list(base.looks)}
    day = plan.date.isoformat() if plan.date else ""
    name = _name(base)
    return evening_of_sheets(
        sheets, Choices(keys, choices.tables, choices.process, choices.aim, choices.thermometer), name=name, date=day
    )


def _short_evening(base: _Base) -> Evening:
    """Frozen evening of a short plan with its developed sheets done."""
    import dataclasses

    from wetside.planning.documents.evening import Look as EveningLook

    evening = frozen_evening(base.plan.evening)
    loads = {plain_name(sheet.id): sheet.load for sheet in base.document.sheets}
    looked = {plain_name(str(look["sheet"])) for look in base.looks}
    sheets = tuple(
        sheet
        for sheet in evening.sheets
        if loads.get(plain_name(sheet.id)) in base.rest or plain_name(sheet.id) in looked
    )
    looks = tuple(EveningLook(str(look["sheet"]), look.get("range"), look.get("change")) for look in base.looks)
    return dataclasses.replace(evening, sheets=sheets, looks=looks)


def _sheets(base: _Base) -> list[models.Sheet]:
    """Sheets of the loads that are not begun, then those that were looked at, the one looked at last at the end."""
    rows = base.plan.places.select_related("sheet__film", "sheet__process", "sheet__aim", "sheet__twin").order_by(
        "rank"
    )
    places = [place for place in rows if place.sheet.removed_at is None]
    rest = [place.sheet for place in places if place.load in base.rest]
    by_label = {place.sheet.label_key: place.sheet for place in places if place.load not in base.rest}
    looked = [by_label.get(plain_name(str(look["sheet"]))) for look in base.looks]
    return [*rest, *(sheet for sheet in looked if sheet is not None)]


def _name(base: _Base) -> str:
    said = sentence("services.look.name", {"plan": base.plan.name})
    return said if len(said) <= models.LABEL_LENGTH else base.plan.name


def _changes(base: _Base, document: PlanDocument) -> list[Changed]:
    old = [sheet for sheet in base.document.sheets if sheet.load in base.rest]
    new = {plain_name(sheet.id): sheet for sheet in document.sheets}
    cannot = {plain_name(one.id): one for one in document.unplanned}
    found = []
    for sheet in old:
        planned, refused = new.get(plain_name(sheet.id)), cannot.get(plain_name(sheet.id))
        if planned is None:
            lost = () if refused is None else (sentence(refused.code, refused.params),)
            found.append(Changed(sheet.id, sheet.load, sheet.load_time_s, None, None, lost, ""))
            continue
        said = [(one.code, one.params) for one in planned.notes]
        said += [(one.code, one.params) for one in planned.reckoning]
        looks = [sentence(code, params) for code, params in said if code.startswith("planning.look_")]
        evidence = planned.evidence.value
        found.append(
            Changed(sheet.id, sheet.load, sheet.load_time_s, planned.load, planned.load_time_s, tuple(looks), evidence)
        )
    return found


def take_replan(run: models.Run, seen: str, *, paper: str = "a4") -> models.Plan:
    """Take what is proposed: the loads that are not begun are cancelled, and frozen anew in a plan of their own.

    Parameters
    ----------
    run : Run
        With its plan.
    seen : str
        Which evening the page showed.
    paper : str
        ``a4`` or ``letter``.

    Raises
    ------
    RefusedError
        If nothing is left to plan, or nobody looked.
    ConflictError
        If the records changed since the page was shown.
    """
    found = proposal_of(run)
    if found.blocked or run.plan is None:
        raise RefusedError(found.blocked or "services.look.no_plan")
    if found.at_work:
        raise RefusedError("services.plans.takes_long", plan=run.plan.name)
    if not found.can_take:
        raise RefusedError("services.look.by_hand")
    if found.seen != seen:
        raise ConflictError("services.plans.not_as_seen", plan=run.plan.name)
    base = _base(run.plan)
    if run.plan.short:
        evening = _short_evening(base)
        document = reckon(evening).plan
        if document is None:
            raise RefusedError("services.plans.takes_long", plan=run.plan.name)
        return take_short(run.plan, base.rest, Anew(_name(base), evening, document, base.looks), paper=paper)
    with transaction.atomic():
        sheets = _sheets(base)
        cancel_rest(run.plan)
        keys = {**run.plan.choices.get("keys", {}), "looks": list(base.looks)}
        made = make(
            models.Plan,
            {
                "name": _name(base),
                "date": run.plan.date,
                "demo": run.plan.demo,
                "choices": {**run.plan.choices, "keys": keys},
                "facts": {"replanned_from": str(run.plan.pk)},
            },
            why="planned anew after a look",
        )
        models.PlanSheet.objects.bulk_create(
            models.PlanSheet(plan=made, sheet=sheet, rank=rank) for rank, sheet in enumerate(sheets)
        )
        old = find(models.Plan, run.plan.pk)
        change(old, {"facts": {**old.facts, "replanned_to": str(made.pk)}}, why="planned anew after a look")
        return freeze(made, seen=seen, paper=paper)


def undo_replan(plan: models.Plan) -> models.Plan:
    """Undo what was taken: the new plan goes, and the old one's loads are ready again.

    Parameters
    ----------
    plan : Plan
        The new one.

    Returns
    -------
    plan : Plan
        The old one.

    Raises
    ------
    RefusedError
        If it is no such plan, or a load of it was begun.
    """
    key = plan.facts.get("replanned_from")
    if key is None:
        raise RefusedError("services.look.not_replanned", plan=plan.name)
    with transaction.atomic():
        old = find(models.Plan, key)
        remove(short_undone(plan) if plan.short else unfreeze(plan), timezone.now(), why="re-plan undone")
        back = rest_back(old)
        facts = {name: value for name, value in back.facts.items() if name != "replanned_to"}
        return change(back, {"facts": facts}, why="re-plan undone")


def is_left(run: models.Run) -> bool:
    """Whether somebody left the loads as they are, after the last look of this run."""
    looks = run.facts.get("looks", ())
    return bool(looks) and run.facts.get("looks_left") == len(looks)


def leave_replan(run: models.Run) -> models.Run:
    """Leave the loads as they are frozen: the looks stay with their run, and the page says that it was left.

    Raises
    ------
    RefusedError
        If nobody has looked at a sheet of the run.
    """
    if not run.facts.get("looks"):
        raise RefusedError("services.look.no_look")
    looks = len(run.facts.get("looks", ()))
    return change(run, {"facts": lambda facts: {**facts, "looks_left": looks}}, why="looks left")
