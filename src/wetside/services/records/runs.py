"""Live runs: opened from a frozen plan's load or from four words, told what hands did, and asked where they stand."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.db import transaction

from wetside.adapters.machine_clock import moment_now
from wetside.errors import ConflictError, Place, RefusedError, UnknownNameError, WetsideError
from wetside.planning.factors import coefficient_of
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.fold import is_over
from wetside.runs.from_plan import quick_script, script_of_load
from wetside.runs.script import Pause
from wetside.runs.script_data import require_sound
from wetside.runs.state import Status
from wetside.services.library import load_library
from wetside.services.records.changes import find, make
from wetside.services.records.frozen_documents import document_of, frozen_evening
from wetside.services.records.plans_cancelled import cancelled_loads
from wetside.services.records.runs_learned import kept_vessel, known_of_vessel, vessel_named
from wetside.services.records.runs_log import SERVER, conduct_of
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Sequence
    from uuid import UUID

    from wetside.planning.documents.evening import Developer, Evening
    from wetside.planning.documents.plan import Load
    from wetside.runs.conduct import Conduct
    from wetside.runs.decide import Decision
    from wetside.runs.fact import Fact
    from wetside.runs.from_plan import KeptVessel
    from wetside.runs.moment import Moment
    from wetside.runs.script import Script
    from wetside.runs.state import State
    from wetside.services.records.runs_learned import Known

__all__ = [
    "GONE",
    "Standing",
    "command",
    "conduct_of",
    "find_run",
    "gone_run",
    "hand_over",
    "open_planned",
    "open_quick",
    "script_of_planned",
    "standing",
]

GONE = "services.runs_taken.gone"
"""Code of the error of a run that was removed, and can be brought back by itself."""
MOST_FACTS = 500
"""Facts that one hand-over may hold. [facts]"""


class Standing(NamedTuple):
    """Where a run stands: its state, the place of its last fact, now, and the run's own time. [s]"""

    state: State
    seq: int
    now: Moment
    now_s: float


def find_run(key: UUID | str) -> models.Run:
    """Run by its identity.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    run = find(models.Run, key, removed=True)
    if run.removed_at is not None:
        raise gone_run(run)
    return run


def gone_run(run: models.Run) -> UnknownNameError:
    """The error of a run that was removed: one of its own can be brought back on its page, another with its plan."""
    if run.plan_id is not None:
        return UnknownNameError("services.records.not_found", what="run")
    return UnknownNameError(GONE, run=run.name, key=str(run.pk))


def standing(run: models.Run, now: Moment | None = None) -> Standing:
    """Where a run stands.

    Parameters
    ----------
    run : Run
    now : Moment, optional
        This moment if absent.
    """
    conduct = conduct_of(run)
    state = conduct.state()
    now = now or moment_now()
    now_s = 0.0 if state.clock is None else state.clock.at(now, state.known_s).s
    return Standing(state, len(conduct.facts), now, now_s)


def open_planned(
    plan_key: UUID | str,
    load: int,
    rehearsal: bool = False,
    *,
    retired: Sequence[Pause] = (),
    guided_loading: bool = False,
) -> models.Run:
    """Open the run of a frozen plan's load; a run that is open already is given back as it stands.

    Parameters
    ----------
    plan_key : UUID
    load : int
        Number of the load in the plan. [1]
    rehearsal : bool
        With water: a run of its own, that no book counts; the load stays ready.
    retired : sequence of Pause
        Where the user does not want to wait.
    guided_loading : bool
        Tell each sheet's place one by one, where the device stays in the dark.

    Raises
    ------
    RefusedError
        If the plan is no frozen one, or the load is developed or cancelled.
    UnknownNameError
        If there is no such load.
    """
    plan = find(models.Plan, plan_key)
    if plan.frozen_at is None:
        raise RefusedError("services.runs.not_frozen", plan=plan.name)
    if load in cancelled_loads(plan):
        raise RefusedError("services.runs.cancelled", load=load)
    script = script_of_planned(plan, load, guided_loading=guided_loading)
    with transaction.atomic():
        found = _run_of_load(plan, load, rehearsal)
        if found is None:
            name = f"{plan.name}, load {load}"[-models.LABEL_LENGTH :]
            values = {"plan": plan, "load": load, "name": name, "rehearsal": rehearsal, "demo": plan.demo}
            found = make(models.Run, values, why="opened")
    if found.facts.get("noted"):
        raise RefusedError("services.runs.noted", load=load)
    return _opened(found, script, rehearsal, retired)


def _run_of_load(plan: models.Plan, load: int, rehearsal: bool) -> models.Run | None:
    """The load's own run; or its rehearsal that is not over."""
    runs = plan.runs.filter(removed_at=None, load=load, rehearsal=rehearsal).exclude(state=models.RunState.ABANDONED)
    if rehearsal:
        runs = runs.exclude(state=models.RunState.ENDED)
    found: models.Run | None = runs.select_for_update().order_by("-made_at").first()
    return found


def _opened(run: models.Run, script: Script, rehearsal: bool, retired: Sequence[Pause]) -> models.Run:
    conduct = conduct_of(run)
    if conduct.state().status is Status.NOTHING:
        # Where another page opened it in this very moment, that is the one which is open, and nothing is lost.
        conduct.do(c.Open(script, rehearsal, tuple(retired)), moment_now())
    return find_run(run.pk)


def open_quick(
    film: str,
    developer: str,
    time_s: float,
    temp_c: float = 20.0,
    *,
    rehearsal: bool = False,
    reads_high_c: float = 0.0,
    retired: Sequence[Pause] = (Pause.BEFORE_DEVELOPER,),
    vessel: str = "",
) -> models.Run:
    """Open a run without a plan: "start" means that the hands pour.

    Parameters
    ----------
    film, developer : str
        As they were typed.
    time_s : float
        Developing time. [s]
    temp_c : float
        True temperature. [C]
    rehearsal : bool
        With water.
    reads_high_c : float
        What the thermometer shows too much. [C]
    retired : sequence of Pause
        The pause before the developer is not wanted here.
    vessel : str
        Name of a vessel of the archive; its times hold, and the run teaches it. Without one a typical drum's hold.

    Raises
    ------
    OutOfRangeError
        If the time is none that can be run.
    WetsideError
        With the field ``vessel`` if there is no such vessel, or none that liquids are poured into.
    """
    own = _developer_of_records(developer)
    coefficient = coefficient_of(developer, own, load_library())
    script = quick_script(
        film,
        developer,
        time_s,
        temp_c=temp_c,
        coefficient=coefficient,
        reads_high_c=reads_high_c,
        kept=_kept_vessel(vessel),
    )
    require_sound(script)
    name = f"{film} in {developer}"[: models.LABEL_LENGTH]
    run = make(models.Run, {"name": name, "rehearsal": rehearsal}, why="opened")
    return _opened(run, script, rehearsal, retired)


def _kept_vessel(name: str) -> KeptVessel | None:
    try:
        return kept_vessel(name) if name else None
    except WetsideError as error:
        raise error.at(Place(field="vessel")) from None


def _developer_of_records(name: str) -> Developer | None:
    """The developer with its own pairs, as the records know it by the name, with or without a dilution behind it."""
    from wetside.services.records.documents import document_of, raw_of
    from wetside.services.records.plans_compared import split_developer

    for one in (name, split_developer(name)[0]):
        record = models.Developer.kept.filter(name_key=plain_name(one)).first()
        if record is not None:
            found: Developer = document_of("developer", raw_of("developer", record), title=record.name)
            return found
    return None


def script_of_planned(plan: models.Plan, load: int, *, guided_loading: bool = False) -> Script:
    """Script of a frozen plan's load, with the evening's own coefficient or pairs, as the plan was reckoned.

    What runs have taught of the vessel, and somebody adopted, holds also for a plan that was frozen before.

    Raises
    ------
    UnknownNameError
        If the plan has no such load.
    """
    document = document_of(plan)
    found = next((one for one in document.loads if one.number == load), None)
    if found is None:
        raise UnknownNameError("services.plans.no_load", load=load)
    evening = frozen_evening(plan.evening)
    known = known_of_vessel(vessel_named(found.vessel))
    script = _script(found, document.sheets, evening, known, guided_loading=guided_loading)
    require_sound(script)
    return script


def _script(load: Load, sheets: Sequence[object], evening: Evening, known: Known, *, guided_loading: bool) -> Script:
    jacket_c = evening.thermometer.jacket_reading_c
    if jacket_c is not None:  # read tonight, which is more than what earlier evenings have taught
        jacket_c -= evening.thermometer.reads_high_c
    elif known.jacket_off_c is not None:
        jacket_c = load.temp_c + known.jacket_off_c
    own = next((one for one in evening.developers if plain_name(one.name) == plain_name(load.developer)), None)
    return script_of_load(
        load,
        sheets,  # type: ignore[arg-type]  # the plan's own sheets
        coefficient=coefficient_of(load.developer, own, load_library()),
        handling=known.handling,
        floor_s=evening.floor_s,
        tau_s=known.tau_s,
        jacket_c=jacket_c,
        guided_loading=guided_loading,
    )


def command(run: models.Run, asked: c.Command, now: Moment, device: str = "", *, seen: int | None = None) -> Decision:
    """Do what a person asks of a run.

    Parameters
    ----------
    run : Run
    asked : Command
    now : Moment
        Of this server.
    device : str
        Whose page asked. The server tells the facts, under a name of its own for each page, so that they never take a
        number that the page gives.
    seen : int, optional
        How many facts there were when this was thought of.

    Raises
    ------
    ConflictError
        If the log stays busy, or has more facts than were seen.
    """
    conduct = conduct_of(run, f"{SERVER}-{device}"[:64] if device else SERVER)
    _resumed(conduct, now)
    return conduct.do(asked, now, seen=seen)


def _resumed(conduct: Conduct, now: Moment) -> None:
    """Where the machine was started anew since the last fact, the log says so before anything else.

    A run that is over is not taken up: whoever hangs its sheets three days later puts none of its times in doubt.
    """
    state = conduct.state()
    if state.clock is not None and now.boot_id not in state.clock.ties and not is_over(state):
        conduct.do(c.Resume(), now)


def hand_over(run: models.Run, facts: Sequence[Fact]) -> int:
    """Take what a page saw, each fact once; observations are never refused.

    Parameters
    ----------
    run : Run
    facts : sequence of Fact

    Returns
    -------
    seq : int
        Place of the run's last fact.

    Raises
    ------
    ConflictError
        If a known number comes with another content.
    RefusedError
        If the run was never opened.
    """
    conduct = conduct_of(run)
    if conduct.state().status is Status.NOTHING:
        raise RefusedError("services.runs.not_open", run=run.name)
    if len(facts) > MOST_FACTS:
        raise ConflictError("services.runs.many_facts", count=len(facts), most=MOST_FACTS)
    if facts:
        conduct.hand_over(facts)
    return len(conduct.facts)
