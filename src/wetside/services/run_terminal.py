"""A run in a terminal: opened from a plan or from four words, taken up again from its log, told in sentences."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.binder import Binder
from wetside.adapters.findings import Findings, field_text
from wetside.adapters.plan_file import read_plan
from wetside.errors import ConflictError, InputError, Place
from wetside.planning.documents.films import Developer
from wetside.planning.factors import coefficient_of
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
from wetside.runs.event_log import MemoryLog
from wetside.runs.from_plan import quick_script, script_of_load
from wetside.runs.script import FLOOR_S, Pause, Script
from wetside.runs.script_data import require_sound
from wetside.runs.state import Status
from wetside.services.library import load_library
from wetside.services.options import needs, typed, typed_or_none, whole
from wetside.units import parse_duration_s, parse_temp_c
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.development.coefficient import TemperatureCoefficient
    from wetside.runs.decide import Decision, Said
    from wetside.runs.event_log import EventLog
    from wetside.runs.from_plan import KeptVessel
    from wetside.runs.moment import Moment
    from wetside.runs.state import State

RUN, DEVICE = "run", "terminal"


class RunAnswers(NamedTuple):
    """What was typed after ``wetside run``; None where nothing was said."""

    plan: str | None = None
    load: str | None = None
    film: str | None = None
    developer: str | None = None
    time: str | None = None
    temp: str | None = None
    vessel: str | None = None
    log: str | None = None
    rehearsal: bool = False
    no_pauses: bool = False


class OpenRun(NamedTuple):
    """A run that is open: who conducts it, what was said when it was taken up, and its log's file if it has one."""

    conduct: Conduct
    said: tuple[str, ...]
    log: EventLog
    since_s: float = 0.0
    """From when on this program speaks: from the opening, or from when it took the run up. [s]"""


def script_of_answers(answers: RunAnswers, rows: Path | None = None, kept: KeptVessel | None = None) -> Script:
    """Script of what was typed: a load of a plan, or film, developer and minutes.

    Parameters
    ----------
    answers : RunAnswers
    rows : Path, optional
        Published rows of one's own.
    kept : KeptVessel, optional
        The vessel of the archive that was named.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    if answers.plan is not None:
        given = [name for name in ("film", "developer", "time", "temp", "vessel") if getattr(answers, name) is not None]
        if given:
            raise ConflictError("services.run_twice", options=[f"--{name}" for name in given])
        script = _planned(Path(answers.plan), typed("--load", whole, answers.load or "1"), rows)
    else:
        if answers.film is None and answers.developer is None and answers.time is None:
            raise InputError("services.run_nothing")
        film = needs("--film", answers.film, "a quick start")
        developer = needs("--developer", answers.developer, "--film")
        time_s = typed("--time", parse_duration_s, needs("--time", answers.time, "--film"))
        temp_c = typed_or_none("--temp", parse_temp_c, answers.temp)
        script = typed(
            "--time",
            lambda _: quick_script(
                film,
                developer,
                time_s,
                temp_c=20.0 if temp_c is None else temp_c,
                coefficient=_coefficient(developer, rows),
                kept=kept,
            ),
            "",
        )
    require_sound(script)
    return script


def retired_by(answers: RunAnswers) -> tuple[Pause, ...]:
    """Pauses that are not wanted. A quick start has none before the developer: "start" means that the hands pour."""
    if answers.no_pauses:
        return tuple(Pause)
    return (Pause.BEFORE_DEVELOPER,) if answers.plan is None else ()


def _coefficient(developer: str, rows: Path | None) -> TemperatureCoefficient | None:
    return coefficient_of(developer, None, load_library(rows))


def _planned(path: Path, number: int, rows: Path | None) -> Script:
    plan = read_plan(path)
    load = next((one for one in plan.loads if one.number == number), None)
    if load is None:
        raise InputError(
            "services.run_load", place=Place(str(path)), value=number, known=[one.number for one in plan.loads]
        )
    own = _own_developer(plan.evening, load.developer, path)
    floor = plan.evening.get("floor")
    return script_of_load(
        load,
        plan.sheets,
        coefficient=coefficient_of(load.developer, own, load_library(rows)),
        floor_s=FLOOR_S if floor is None else parse_duration_s(str(floor)),
    )


def _own_developer(evening: Mapping[str, Any], name: str, path: Path) -> Developer | None:
    """Developer of the plan's own evening, with the coefficient or the pairs that the plan was reckoned with."""
    for raw in evening.get("developers", ()):
        if plain_name(str(raw.get("name", ""))) == plain_name(name):
            findings = Findings()
            found: Developer = Binder(findings).table(Developer, raw, ())
            if findings:
                findings.refuse(lambda keys: Place(str(path), field=field_text(keys, "developers")))
            return found
    return None


def open_run(answers: RunAnswers, now: Moment, rows: Path | None = None, kept: KeptVessel | None = None) -> OpenRun:
    """Open a run, or take up the one that its log holds.

    A log that holds a run needs no other answer: the run follows what stands in its first fact.

    Parameters
    ----------
    answers : RunAnswers
    now : Moment
    rows : Path, optional
        Published rows of one's own.
    kept : KeptVessel, optional
        The vessel of the archive that was named.

    Raises
    ------
    WetsideError
        If neither the log nor the answers say what to run, or the log cannot be used.
    """
    said: list[str] = []
    since_s = 0.0
    log: EventLog
    if answers.log is None:
        log = MemoryLog()
    else:
        from wetside.adapters.run_log import FileLog

        log = FileLog(Path(answers.log))
        if log.torn_bytes:
            said.append(sentence("services.run_torn", {"count": log.torn_bytes}))
    conduct = Conduct(log, RUN, DEVICE)
    if conduct.state().status is Status.NOTHING:
        script = script_of_answers(answers, rows, kept)
        decision = conduct.do(c.Open(script, answers.rehearsal, retired_by(answers)), now)
    else:
        said.append(sentence("services.run_again", {"count": len(conduct.facts)}))
        decision = conduct.do(c.Resume(), now)
        state = conduct.state()
        since_s = 0.0 if state.clock is None else state.clock.at(now, state.known_s).s
    said += spoken(decision)
    if conduct.state().rehearsal:
        said.append(sentence("services.run_rehearsal", {}))
    return OpenRun(conduct, tuple(said), log, since_s)


def next_load_said(answers: RunAnswers) -> list[str]:
    """Say how the plan's next load is started; nothing after the last one, or without a plan."""
    if answers.plan is None:
        return []
    number = typed("--load", whole, answers.load or "1")
    following = next((load for load in read_plan(Path(answers.plan)).loads if load.number == number + 1), None)
    if following is None:
        return []
    params = {"load": following.number, "sheets": following.sheets, "plan": shlex.quote(answers.plan)}
    return [sentence("services.run_next", params)]


def afterwards_said(answers: RunAnswers, state: State) -> list[str]:
    """Say what comes after a run that has ended: its log goes into the archive, and the plan's next load is started."""
    lines = []
    if answers.log is not None and not state.rehearsal:
        lines.append(sentence("services.run_take", {"log": shlex.quote(answers.log)}))
    return [*lines, *next_load_said(answers)]


def say(code: str, params: Mapping[str, Any]) -> str:
    """Say a code of a run; a bath without a name is called by its kind, a bottle by its mark.

    Examples
    --------
    >>> say("runs.next.drain", {"bath": "", "kind": "develop", "in_s": 75.0})
    'Developer, drain in 1:15'
    """
    known = dict(params)
    for name, kind, bottle, told in (
        ("bath", "kind", "bottle", "from_bottle"),
        ("then", "then_kind", "then_bottle", "then_from_bottle"),
    ):
        if not known.get(name) and known.get(kind):
            known[name] = sentence(f"runs.bath.{known[kind]}", {})
        mark = known.get(bottle)
        known[told] = f", {sentence('runs.bottle', {'bottle': mark})}" if mark else ""
    if "where" in known:
        known["where"] = sentence(f"runs.where.{known['where']}", {})
    text = sentence(code, known)
    return text[:1].upper() + text[1:]


def spoken(decision: Decision) -> list[str]:
    """What is spoken back to a command, refusal first."""
    said: list[Said] = [*((decision.refusal,) if decision.refusal is not None else ()), *decision.said]
    return [say(one.code, one.params) for one in said]
