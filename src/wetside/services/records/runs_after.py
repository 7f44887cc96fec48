"""What a run has used, proposed for the books: bottles, film by class, water, waste, and when its vessel is dry.

Nothing is written here. Every figure is a proposal that the page lets a person change; what is written stands in
:mod:`wetside.services.records.runs_booked`.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.chemistry.dilution import parse_dilution
from wetside.errors import UnknownNameError, WetsideError
from wetside.planning.course.shelf import part_bottle
from wetside.planning.course.topping_up import replenisher_name
from wetside.planning.documents.words import AfterUse, BathKind
from wetside.planning.resolved import baths_of, names_on_bottles
from wetside.records import models
from wetside.runs.fold import is_over
from wetside.runs.schedule import How, schedule_at
from wetside.runs.state import Status
from wetside.runs.touched import touched_sheets
from wetside.runs.used import baths_used, is_water, water_ml
from wetside.services.records.bottles import WASTE, standing
from wetside.services.records.frozen_documents import document_of, frozen_evening
from wetside.services.records.runs import gone_run
from wetside.services.records.runs import standing as standing_of
from wetside.services.records.runs_film import RunFilm, film_of_run
from wetside.services.records.runs_learned import vessel_named
from wetside.services.records.runs_mixed import Mixed, drawn_for_mixings, mixed_for
from wetside.services.records.runs_topped_up import DueTopUp, over_the_mark_ml, replenisher_bottle, top_up_due
from wetside.services.records.sheets_runs import incident_said
from wetside.services.records.whole_tables import together
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from uuid import UUID

    from wetside.planning.documents.evening import Evening, Process
    from wetside.planning.documents.plan import Plan as PlanDocument
    from wetside.runs.schedule import Schedule
    from wetside.runs.script import Script
    from wetside.runs.state import State
    from wetside.runs.used import BathUsed

WASTE_ROLE: Mapping[BathKind, str] = {BathKind.DEVELOP: "waste-developer", BathKind.FIX: "waste-fixer"}
"""Waste vessel that takes what a bath was; fixer holds silver and is kept by itself."""
FROM_BOTTLES = (BathKind.DEVELOP, BathKind.STOP, BathKind.FIX, BathKind.WASH_AID, BathKind.WETTING)
"""Baths that are booked: what is plain water is not."""
SHOWN_ALWAYS = (BathKind.DEVELOP, BathKind.STOP, BathKind.FIX)
"""Baths for which a bottle is asked even where the plan names none."""
WHOLE_FROM_ML = 100.0
"""A measure that holds so much shows whole millilitres, and so do the fields. [ml]"""
FILM_DRIES_S = 7200.0
"""How long film hangs where no evening says so, as in the evening file. [s]"""


class Row(NamedTuple):
    """One bath as it is proposed.

    ``name`` is that of its fields; ``part`` counts the concentrates of a developer of several. ``mixed_ml`` was booked
    when the bath was mixed, and is not proposed again; ``mark`` is what the plan calls the bottle, whether it stands on
    the shelf or not. Amounts in ml, film in units of 516 cm2. ``note`` is the code of what is to be said beside it, and
    ``told`` its parameters. ``tops`` is the name of the row whose bottle takes what is drawn here: a top-up.

    ``after`` is where the bath goes when it is drained; ``part_ml`` how much concentrate of this part was due, None
    where the bath is poured as it stands in its bottle [ml].
    """

    name: str
    kind: BathKind
    bath: str
    part: int
    mark: str
    volume_ml: float | None
    bottle: models.Bottle | None
    drawn_ml: float = 0.0
    mixed_ml: float = 0.0
    returned_ml: float = 0.0
    ordinary: float = 0.0
    tabular: float = 0.0
    waste: models.Bottle | None = None
    waste_ml: float = 0.0
    note: str = ""
    told: Mapping[str, Any] = {}
    tops: str = ""
    after: str | None = None
    part_ml: float | None = None


class Drying(NamedTuple):
    """When the vessel and the film are dry, and after how long. [s]"""

    vessel: models.Vessel | None
    vessel_dry: dt.datetime | None
    film_dry: dt.datetime | None
    dries_s: float
    film_dries_s: float


class After(NamedTuple):
    """A run that is over, or why nothing can be proposed.

    ``blocked`` is the code of why nothing is to be booked: the run is on, was a rehearsal, or nothing was poured.
    ``film`` is what its baths have seen, ``due`` the top-up of its developer.
    """

    run: models.Run
    state: State
    schedule: Schedule
    blocked: str
    rows: tuple[Row, ...]
    water_ml: float
    mixings: tuple[Mixed, ...]
    drying: Drying | None
    bottles: tuple[models.Bottle, ...]
    waste: tuple[models.Bottle, ...]
    film: RunFilm = RunFilm()
    due: DueTopUp | None = None


def run_with_plan(key: UUID) -> models.Run:
    """Run by its identity, with its plan.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    found: models.Run | None = models.Run.objects.select_related("plan").filter(pk=key).first()
    if found is None:
        raise UnknownNameError("services.records.not_found", what="run")
    if found.removed_at is not None:
        raise gone_run(found)
    return found


def after_run(run: models.Run, *, propose: bool = True) -> After:
    """What a run has used.

    Parameters
    ----------
    run : Run
    propose : bool
        Whether it is wanted by bath, with the bottles of the shelf: of a run that is booked nothing is to be proposed.
    """
    found = standing_of(run)
    state, now_s = found.state, found.now_s
    at_s = state.known_s if is_over(state) else now_s
    schedule = schedule_at(state, at_s)
    script = state.script
    blocked = _blocked(run, state)
    if blocked == "services.run_after.not_begun" and found.seq:
        blocked = "services.run_after.unread"
    if script is None or blocked:
        return After(run, state, schedule, blocked or "services.run_after.on", (), 0.0, (), None, (), ())
    used = baths_used(state, schedule)
    if not used:
        return After(run, state, schedule, "services.run_after.nothing_poured", (), 0.0, (), None, (), ())
    evening = _evening(run)
    began_at = found.now.at_utc - dt.timedelta(seconds=now_s)
    ended_at = began_at + dt.timedelta(seconds=at_s)
    shelf, vessel, drawn = _stands_here(script.vessel, began_at, ended_at, bottles=propose)
    bottles = tuple(one for one in shelf if not one.role.startswith(WASTE))
    mixings = mixed_for(run, drawn, began_at)
    document = None if run.plan is None or not run.plan.document else _document(run.plan)
    due = top_up_due(document, run.load, state) if propose else None
    waste = tuple(set(shelf) - set(bottles))
    process = _process(document, run.load, evening)
    film = film_of_run(run, state, document, evening) if propose else RunFilm()
    maker = _Proposer(script, film, bottles, waste, mixings, due, process)
    rows = tuple(row for one in used for row in maker.rows(one)) if propose else ()
    return After(
        run=run,
        state=state,
        schedule=schedule,
        blocked="",
        rows=rows,
        water_ml=water_ml(used, script.stop),
        mixings=tuple(maker.taken),
        drying=_drying(script, schedule, evening, began_at, vessel),
        bottles=bottles,
        waste=tuple(one for one in shelf if one.role.startswith(WASTE)),
        film=film,
        due=due,
    )


def _blocked(run: models.Run, state: State) -> str:
    if run.facts.get("noted"):
        return "services.run_after.by_hand"
    if not is_over(state):
        return "services.run_after.on" if state.status is not Status.NOTHING else "services.run_after.not_begun"
    return "services.run_after.rehearsal" if run.rehearsal or state.rehearsal else ""


def _evening(run: models.Run) -> Evening | None:
    if run.plan is None or not run.plan.evening:
        return None
    try:
        return frozen_evening(run.plan.evening)
    except WetsideError:  # a damaged plan keeps nobody from booking what was poured
        return None


def plan_unread(run: models.Run) -> bool:
    """Whether a run's plan is there and cannot be read, so that film classes and exposures are not known."""
    plan = run.plan
    if plan is None or not plan.document:
        return False
    return (bool(plan.evening) and _evening(run) is None) or _document(plan) is None


def _document(plan: models.Plan) -> PlanDocument | None:
    try:
        return document_of(plan)
    except WetsideError:
        return None


def _process(document: PlanDocument | None, load: int, evening: Evening | None) -> Process | None:
    """Process of a load as the frozen evening has it."""
    if document is None or evening is None:
        return None
    name = next((plain_name(one.process) for one in document.loads if one.number == load), None)
    return next((one for one in evening.processes if plain_name(one.name) == name), None)


class _Proposer:
    """Walks through the baths; a mixing that one bath takes is not there for the next."""

    def __init__(
        self,
        script: Script,
        film: RunFilm,
        bottles: Sequence[models.Bottle],
        waste: Sequence[models.Bottle],
        mixings: Sequence[Mixed],
        due: DueTopUp | None,
        process: Process | None,
    ) -> None:
        self.script, self.film, self.due = script, film, due
        self.process = process
        self.by_mark = {one.mark_key: one for one in bottles}
        self.by_key = {one.pk: one for one in bottles}
        self.waste = sorted(waste, key=lambda one: one.mark_key)
        self.mixings = list(mixings)
        self.taken: list[Mixed] = []

    def rows(self, used: BathUsed) -> list[Row]:
        """Rows of one bath: one, or one for each concentrate of a developer of several."""
        if used.kind not in FROM_BOTTLES or is_water(used, self.script.stop):
            return []
        if used.bottle is None and used.kind not in SHOWN_ALWAYS:
            return []
        shares = self._shares(used)
        rows = [self._row(used, 1, shares[0])]
        first = rows[0].bottle
        if first is None or first.form != models.BottleForm.WORKING:  # a mix that stands ready holds all parts
            rows += [self._row(used, part, share) for part, share in enumerate(shares[1:], 2)]
        due = self.due
        if (
            used.kind is not BathKind.DEVELOP
            or due is None
            or (due.mark and plain_name(due.mark) != plain_name(rows[0].mark))
        ):
            return rows
        self.due = None  # one bath of a run is topped up, once
        topped = self._top_up(rows[0], due)
        return [self._with_room(rows[0], due, topped.drawn_ml), *rows[1:], topped]

    def _with_room(self, row: Row, due: DueTopUp, add_ml: float) -> Row:
        """Used developer goes back as far as the mark leaves room for it beside the replenisher."""
        if row.bottle is None or row.bottle.left_ml is None or not row.returned_ml:
            return row
        back_ml = row.returned_ml - min(over_the_mark_ml(due, row.bottle.left_ml, add_ml), row.returned_ml)
        back_ml = round(back_ml, 0 if back_ml >= WHOLE_FROM_ML else 1)
        over_ml = round(row.returned_ml - back_ml, 1)
        vessel = self._vessel(BathKind.DEVELOP)
        return row._replace(
            returned_ml=back_ml,
            waste=vessel if over_ml > 0 else None,
            waste_ml=over_ml if vessel else 0.0,
            note=row.note or ("" if vessel or over_ml <= 0 else "services.run_after.no_waste_developer"),
        )

    def _top_up(self, bath: Row, due: DueTopUp) -> Row:
        row = Row(f"{bath.name}t", BathKind.DEVELOP, due.developer, 1, "", None, None, tops=bath.name)
        row = row._replace(note=due.code, told=due.params)
        if due.add_ml is None:
            return row
        bottle = replenisher_bottle(self.by_key.values(), due.developer, due.add_ml)
        if bottle is None:
            told = {**due.params, "holds": replenisher_name(due.developer)}
            return row._replace(note="services.run_after.top_up_no_bottle", told=told)
        row = row._replace(bottle=bottle)
        if bath.bottle is not None and bath.bottle.left_ml is None:
            return row._replace(
                note="services.run_after.top_up_not_counted", told={**due.params, "mark": bath.bottle.mark}
            )
        if bottle.left_ml is None:
            return row._replace(note="services.run_after.top_up_not_counted", told={**due.params, "mark": bottle.mark})
        if due.add_ml > bottle.left_ml:
            told = {**due.params, "mark": bottle.mark, "left_ml": bottle.left_ml}
            return row._replace(drawn_ml=bottle.left_ml, note="services.run_after.top_up_short", told=told)
        return row._replace(drawn_ml=round(due.add_ml, 1))

    def _shares(self, used: BathUsed) -> tuple[float, ...]:
        if used.kind is not BathKind.DEVELOP or not self.script.dilution:
            return (1.0,)
        try:
            agents = parse_dilution(self.script.dilution).agents
        except WetsideError:  # words of a person who started at once; then it is one bottle
            return (1.0,)
        return tuple(agent / sum(agents) for agent in agents)

    def _row(self, used: BathUsed, part: int, share: float) -> Row:
        mark = (used.bottle if part == 1 else self._further(used, part)) or ""
        bottle = self.by_mark.get(plain_name(mark)) if mark else None
        name = f"b{used.key}" if part == 1 else f"b{used.key}p{part}"
        row = Row(name, used.kind, used.bath, part, mark, used.volume_ml, bottle, after=used.after)
        if mark and bottle is None:
            row = row._replace(note="services.run_after.not_on_shelf")
        elif not mark and part == 1 and self.process is not None:
            named = self._named(used, self.process)
            row = row._replace(bottle=named, note="services.run_after.no_mark")
            if named is not None:
                row = row._replace(note="services.run_after.by_name", told={"mark": named.mark})
        row = self._drawn(row, used, share)
        if part > 1:
            return row if bottle is not None else self._asked(row, used, share)
        return self._waste(self._film(row, used), used)

    def _further(self, used: BathUsed, part: int) -> str | None:
        return None if self.process is None else part_bottle(self.process, used.bottle, part)

    def _named(self, used: BathUsed, process: Process) -> models.Bottle | None:
        """Bottle that holds by its name what a bath without a mark asks for, as the plan looked for it: the oldest.

        Of several developing baths nobody knows which one a name means. A working solution is no concentrate.
        """
        developing = used.kind is BathKind.DEVELOP
        if developing and sum(bath.does is BathKind.DEVELOP for bath in baths_of(process)) > 1:
            return None
        wanted_ml = (used.concentrate_ml if developing else used.volume_ml) or 0.0
        for names in names_on_bottles(process.developer if developing else used.bath or used.kind.value):
            same = [one for one in self.by_key.values() if plain_name(one.holds) in names]
            if developing and used.after != AfterUse.BACK.value and used.concentrate_ml:
                same = [one for one in same if one.form != models.BottleForm.WORKING]
            same.sort(key=lambda one: (one.mixed or dt.date.max, one.mark_key))
            enough = [one for one in same if one.left_ml is None or one.left_ml >= wanted_ml]
            if same:
                return (enough or same)[0]
        return None

    def _asked(self, row: Row, used: BathUsed, share: float) -> Row:
        """A further part whose bottle nobody knows: how much it was, and one question."""
        part_ml = round((used.concentrate_ml or 0.0) * share, 1)
        return row._replace(note="services.run_after.further_part", told={"part_ml": part_ml, "mark": row.mark})

    def _drawn(self, row: Row, used: BathUsed, share: float) -> Row:
        wanted_ml = used.volume_ml or 0.0
        bottle = row.bottle
        if used.kind is BathKind.DEVELOP and used.concentrate_ml is not None:
            ready = self._ready_mix(bottle, wanted_ml)
            if ready is not None:
                return row._replace(bottle=ready, drawn_ml=wanted_ml, note="services.run_after.from_mix")
            if bottle is None or bottle.form != models.BottleForm.WORKING:
                wanted_ml = used.concentrate_ml * share
                row = row._replace(part_ml=round(wanted_ml, 1))
        mixed_ml = 0.0 if bottle is None else self._mixed(bottle, wanted_ml)
        row = row._replace(mixed_ml=mixed_ml)
        if bottle is None:
            return row
        if bottle.left_ml is None:
            return row._replace(note="services.run_after.not_counted")
        drawn_ml = round(wanted_ml - mixed_ml, 1)
        if drawn_ml > bottle.left_ml:
            return row._replace(drawn_ml=bottle.left_ml, note="services.run_after.more_than_left")
        note = "services.run_after.mixed" if mixed_ml > 0 else row.note
        return row._replace(drawn_ml=drawn_ml, note=note)

    def _ready_mix(self, bottle: models.Bottle | None, wanted_ml: float) -> models.Bottle | None:
        """Bottle that was mixed from the plan's bottle for tonight, and that still holds what the run needed."""
        for mixed in self.mixings:
            ready = self.by_key.get(mixed.into)
            from_it = bottle is not None and mixed.bottle == bottle.pk and mixed.into != bottle.pk
            if from_it and ready is not None and (ready.left_ml or 0.0) >= wanted_ml > 0:
                return ready
        return None

    def _mixed(self, bottle: models.Bottle, wanted_ml: float) -> float:
        """What was drawn from a bottle for a bath that was used at once, as far as this bath needs it. [ml]"""
        found_ml = 0.0
        for place, mixed in enumerate(self.mixings):
            take_ml = min(mixed.left_ml, wanted_ml - found_ml)
            if not mixed.at_once or take_ml <= 0 or not self._is_same(mixed, bottle):
                continue
            found_ml += take_ml
            self.mixings[place] = mixed._replace(left_ml=mixed.left_ml - take_ml)
            self.taken.append(mixed._replace(left_ml=take_ml))
        return round(found_ml, 3)

    def _is_same(self, mixed: Mixed, bottle: models.Bottle) -> bool:
        """Whether a mixing drew from a bottle, or from another that holds the same: the oldest is emptied first."""
        other = self.by_key.get(mixed.bottle)
        return mixed.bottle == bottle.pk or (other is not None and plain_name(other.holds) == plain_name(bottle.holds))

    def _film(self, row: Row, used: BathUsed) -> Row:
        """Film that a bath has seen which goes back to its bottle; weighted where it is the silver that counts."""
        if used.after != AfterUse.BACK.value or row.bottle is None:
            return row
        ordinary, tabular = self.film.units(used.kind)
        return row._replace(returned_ml=row.drawn_ml, ordinary=ordinary, tabular=tabular)

    def _waste(self, row: Row, used: BathUsed) -> Row:
        role = WASTE_ROLE.get(used.kind)
        if role is None or used.after != AfterUse.WASTE.value:
            return row
        vessel = self._vessel(used.kind)
        if vessel is None:
            return row._replace(note=row.note or f"services.run_after.no_{role.replace('-', '_')}")
        return row._replace(waste=vessel, waste_ml=used.volume_ml or 0.0)

    def _vessel(self, kind: BathKind) -> models.Bottle | None:
        """First waste vessel for what a bath was."""
        return next((one for one in self.waste if one.role == WASTE_ROLE.get(kind)), None)


class _Here(NamedTuple):
    """What stands here: the shelf by its marks, a run's vessel, and what mixings drew for it."""

    shelf: tuple[models.Bottle, ...]
    vessel: models.Vessel | None
    drawn: tuple[models.BottleLine, ...]


def _stands_here(vessel: str, began_at: dt.datetime, ended_at: dt.datetime, *, bottles: bool) -> _Here:
    """Vessel of a name, and bottles and mixings if they are wanted; one query."""
    if not bottles:
        return _Here((), vessel_named(vessel), ())
    shelf, vessels, drawn = together(
        [
            standing(),
            models.Vessel.kept.filter(name_key=plain_name(vessel)),
            drawn_for_mixings(began_at, ended_at),
        ]
    )
    return _Here(tuple(sorted(shelf, key=lambda one: one.mark_key)), vessels[0] if vessels else None, tuple(drawn))


def _drying(
    script: Script, schedule: Schedule, evening: Evening | None, began_at: dt.datetime, vessel: models.Vessel | None
) -> Drying:
    """From the last liquid that left the vessel, and from hanging."""
    planned = None
    if evening is not None:
        planned = next((one for one in evening.vessels if plain_name(one.name) == plain_name(script.vessel)), None)
    dries_s = vessel.dries_s if vessel is not None else planned.dries_s if planned is not None else 900.0
    film_dries_s = FILM_DRIES_S if evening is None else evening.film_dries_s
    empty_s = emptied_s(schedule)
    hung = next((due for due in schedule.dues if due.act.does == "hang"), None)
    hung_s = hung.at_s if hung is not None and hung.how is How.TOLD else None
    return Drying(
        vessel=vessel,
        vessel_dry=None if empty_s is None else began_at + dt.timedelta(seconds=empty_s + dries_s),
        film_dry=None if hung_s is None else began_at + dt.timedelta(seconds=hung_s + film_dries_s),
        dries_s=dries_s,
        film_dries_s=film_dries_s,
    )


def emptied_s(schedule: Schedule) -> float | None:
    """When the last liquid had left the vessel, on the run's clock [s]; None where none was poured into one."""
    ends = [
        due.at_s + (due.act.duration_s or 0.0)
        for due in schedule.dues
        if due.act.does == "drain" and due.at_s is not None and due.how not in (How.AHEAD, How.WAITS)
    ]
    return max(ends, default=None)


def wrong_in(state: State, schedule: Schedule) -> tuple[str, ...]:
    """What went wrong in a run, each with the sheets that it touched; sheets that were lost at the end."""
    lines = []
    for one in touched_sheets(state, schedule):
        if not state.sheets:
            lines.append(incident_said(one.incident))
            continue
        how = "touched_none" if not one.sheets else "touched_all" if one.sheets == state.sheets else "touched"
        how = "seen_on" if one.incident.sheets else how
        touched = sentence(f"services.run_after.{how}", {"sheets": list(one.sheets)})
        lines.append(f"{incident_said(one.incident)} {touched}")
    if state.lost:
        lines.append(sentence("services.run_after.lost", {"sheets": list(state.lost)}))
    return tuple(lines)
