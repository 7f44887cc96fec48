"""A simulated photographer at a simulated sink: delays, drift, forgotten and doubled answers, a power cut.

Everything is data: time goes from one moment to the next without waiting, and chance comes from the generator that is
handed in. It drives the engine by the same commands as a person does, so that what it finds is true of a real run.
"""

from __future__ import annotations

import datetime as dt
from math import exp
from typing import TYPE_CHECKING, NamedTuple, Protocol

from wetside.runs import commands as c
from wetside.runs.cues import cues_between
from wetside.runs.events import Incident, Where
from wetside.runs.expected import act_for_answer, earliest_s
from wetside.runs.fold import is_over
from wetside.runs.moment import Moment
from wetside.runs.schedule import How, schedule_at
from wetside.runs.script import is_awaited

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wetside.runs.conduct import Conduct
    from wetside.runs.cues import Cue
    from wetside.runs.decide import Decision
    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.script import Pause, Script

STEP_S = 0.5
"""Time between two looks of the simulated photographer at the run. [s]"""
MOST_S = 6 * 3600.0
READING_EVERY_S = 120.0
SIMULATED = "simulated"
"""What the start of a simulated machine is called, or begins with where its power was cut."""
FAST = "-fast"
"""What is put behind the name of a machine's start where its clock runs faster."""


class Chance(Protocol):
    """A generator of random numbers, such as the standard library's."""

    def random(self) -> float:
        """Return a number from 0 up to 1."""
        ...

    def gauss(self, mu: float, sigma: float) -> float:
        """Return a number around ``mu``."""
        ...


class Person(NamedTuple):
    """How the photographer is tonight.

    Delays and their scatter [s]; chances of a forgotten and of a doubled answer [1]; how long a pause is used [s];
    whether temperatures are read.
    """

    delay_s: float = 2.0
    scatter_s: float = 1.5
    forgets: float = 0.0
    doubles: float = 0.0
    pauses_s: float = 20.0
    reads: bool = True


class Sink(NamedTuple):
    """What the place does: the jacket's error [C], how fast the drum follows it [s], a power cut from and to. [s]"""

    jacket_off_c: float = 0.0
    tau_s: float = 480.0
    cut_from_s: float | None = None
    cut_to_s: float | None = None
    clock_set_at_s: float | None = None
    clock_set_by_s: float = 0.0


def is_played(boot_id: str) -> bool:
    """Whether a start of a machine is a simulated one, or its clock ran faster: nothing was developed by it.

    Examples
    --------
    >>> is_played("simulated"), is_played("6f2a-fast"), is_played("6f2a")
    (True, True, False)
    """
    return boot_id.startswith(SIMULATED) or boot_id.endswith(FAST)


class Happened(NamedTuple):
    """Something that came of the simulation: a cue that was heard, or an answer with its decision."""

    at_s: float
    cue: Cue | None = None
    command: c.Command | None = None
    decision: Decision | None = None


class _Clock:
    """Simulated machine: its boot clock counts on through everything but a power cut."""

    def __init__(self, start: Moment, sink: Sink) -> None:
        self.start, self.sink = start, sink

    def at(self, run_s: float) -> Moment:
        sink, start = self.sink, self.start
        moved_s = sink.clock_set_by_s if sink.clock_set_at_s is not None and run_s >= sink.clock_set_at_s else 0.0
        utc = start.at_utc + dt.timedelta(seconds=run_s + moved_s)
        if sink.cut_to_s is not None and run_s >= sink.cut_to_s:
            return Moment(utc, run_s - sink.cut_to_s + 20.0, f"{start.boot_id}-again")
        return Moment(utc, start.boot_s + run_s, start.boot_id)

    def is_dead(self, run_s: float) -> bool:
        sink = self.sink
        return sink.cut_from_s is not None and sink.cut_to_s is not None and sink.cut_from_s <= run_s < sink.cut_to_s


def simulate(
    conduct: Conduct,
    script: Script,
    chance: Chance,
    start: Moment,
    *,
    person: Person | None = None,
    sink: Sink | None = None,
    rehearsal: bool = False,
    retired: tuple[Pause, ...] = (),
) -> Iterator[Happened]:
    """Let a simulated photographer do a whole run.

    Parameters
    ----------
    conduct : Conduct
        With a log that has no such run yet.
    script : Script
    chance : Chance
        Equal seeds give equal runs.
    start : Moment
        When the run is opened.
    person : Person, optional
    sink : Sink, optional
    rehearsal : bool
        With water: flagged, and kept out of the bottles' books.
    retired : tuple of Pause
        Where the photographer does not wait.

    Yields
    ------
    happened : Happened
        In order of the run's clock. [s]
    """
    person, sink = person or Person(), sink or Sink()
    clock = _Clock(start, sink)
    yield _done(conduct, c.Open(script, rehearsal, retired), clock, 0.0)
    hands = _Hands(person, chance)
    now_s, woken, read_s = 0.0, False, -READING_EVERY_S
    while now_s < MOST_S:
        now_s += STEP_S
        if clock.is_dead(now_s):
            continue
        if sink.cut_to_s is not None and now_s >= sink.cut_to_s and not woken:
            woken = True
            yield _done(conduct, c.Resume(), clock, now_s)
            ago_s = now_s - (sink.cut_from_s or now_s)
            yield _done(conduct, c.Incidence(Incident.POWER, ago_s), clock, now_s)
        state = conduct.state()
        if is_over(state):
            return
        for cue in cues_between(state, now_s - STEP_S, now_s):
            yield Happened(cue.at_s, cue)
        for command in hands.answers(conduct, now_s):
            yield _done(conduct, command, clock, now_s)
        if not person.reads or now_s - read_s < READING_EVERY_S:
            continue
        in_developer = schedule_at(conduct.state(), now_s).bath()
        if (
            in_developer is not None
            and in_developer.act.kind == "develop"
            and (in_developer.at_s or 0.0) + READING_EVERY_S / 2 <= now_s
        ):
            read_s = now_s
            inside_s = now_s - (in_developer.at_s or now_s)
            temp_c = script.temp_c + sink.jacket_off_c * (1.0 - exp(-inside_s / sink.tau_s))
            shown_c = round(temp_c + script.reads_high_c + chance.gauss(0.0, 0.05), 1)
            yield _done(conduct, c.Reading(shown_c, Where.DEVELOPER), clock, now_s)


def _done(conduct: Conduct, command: c.Command, clock: _Clock, now_s: float) -> Happened:
    return Happened(now_s, command=command, decision=conduct.do(command, clock.at(now_s)))


class _Hands:
    """When the photographer does the awaited act, once it is clear how late they are with it."""

    def __init__(self, person: Person, chance: Chance) -> None:
        self.person, self.chance = person, chance
        self.meant: tuple[str, float] | None = None
        self.forgotten: set[str] = set()
        self.again = False

    def answers(self, conduct: Conduct, now_s: float) -> Iterator[c.Command]:
        state = conduct.state()
        if self.again:
            self.again = False
            yield c.Tell()
        schedule = schedule_at(state, now_s)
        awaited = next(
            (
                due
                for due in schedule.dues
                if is_awaited(due.act) and due.how not in (How.TOLD, How.INFERRED) and due.act.key not in self.forgotten
            ),
            None,
        )
        if awaited is None:
            return
        if self.meant is None or self.meant[0] != awaited.act.key:
            if awaited.due_s is not None and awaited.act.does != "hang" and self.chance.random() < self.person.forgets:
                self.forgotten.add(awaited.act.key)
                return
            self.meant = (awaited.act.key, max(0.0, self.chance.gauss(self.person.delay_s, self.person.scatter_s)))
        when_s = self._when_s(awaited, schedule)
        if when_s is None or now_s < when_s:
            return
        self.meant = None
        key = act_for_answer(state, schedule)
        yield c.Tell() if key == awaited.act.key else c.Tell(awaited.act.key)
        self.again = self.chance.random() < self.person.doubles

    def _when_s(self, awaited: Due, schedule: Schedule) -> float | None:
        late_s = self.meant[1] if self.meant is not None else 0.0
        if awaited.due_s is not None:
            return awaited.due_s + late_s
        # A hold, or a pause: the liquid stays in, and the hands take their time.
        if self._waits_since is None or self._waits_since[0] != awaited.act.key:
            self._waits_since = (awaited.act.key, schedule.now_s)
        ready_s = max(self._waits_since[1], earliest_s(schedule, awaited.act.key) or 0.0)
        return ready_s + self.person.pauses_s + late_s

    _waits_since: tuple[str, float] | None = None
