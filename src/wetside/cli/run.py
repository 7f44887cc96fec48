"""``wetside run``: the run in a terminal, by the same engine and facts as everywhere."""

from __future__ import annotations

import datetime as dt
import random
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

from wetside.adapters.machine_clock import moment_now
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width
from wetside.cli.run_keys import TICK_S, is_a_terminal, key_within, single_keys
from wetside.cli.run_screen import end_lines, next_line, screen_lines
from wetside.cli.run_typed import command_of_key, order_typed
from wetside.cli.run_voice import RunVoice
from wetside.errors import OutOfRangeError, Place, WetsideError
from wetside.runs import commands as c
from wetside.runs.cues import CueKind, cues_between
from wetside.runs.fold import is_over
from wetside.runs.moment import Moment
from wetside.runs.simulator import FAST, SIMULATED, simulate
from wetside.runs.state import Status
from wetside.services.run_terminal import (
    RunAnswers,
    afterwards_said,
    open_run,
    retired_by,
    say,
    script_of_answers,
    spoken,
)
from wetside.wording import sentence, shown, speak_error

if TYPE_CHECKING:
    import argparse
    from collections.abc import Callable

    from wetside.runs.conduct import Conduct
    from wetside.runs.from_plan import KeptVessel
    from wetside.services.run_terminal import OpenRun

FASTEST = 10_000.0
SIMULATED_EVENING = dt.datetime(2031, 11, 4, 20, 0, tzinfo=dt.UTC)
"""A simulated run has a date of its own, so that its output is the same every time."""


def run(arguments: argparse.Namespace) -> int:
    """Open or take up a run, and go through it.

    Raises
    ------
    OutOfRangeError
        If the speed is none that can be run at.
    """
    answers = RunAnswers(**{name: getattr(arguments, name) for name in RunAnswers._fields})
    rows = Path(arguments.rows) if arguments.rows else None
    if not 0.0 < arguments.speed <= FASTEST:
        raise OutOfRangeError("cli.run.speed", place=Place(field="--speed"), value=arguments.speed, most=FASTEST)
    kept = _kept_vessel(arguments) if answers.vessel is not None and answers.plan is None else None
    if arguments.simulate is not None:
        return _simulated(answers, rows, kept, arguments.simulate, as_json=arguments.json)
    clock = _Clock(arguments.speed)
    opened = open_run(answers, clock.now(), rows, kept)
    if arguments.json:
        return _state_as_json(opened.conduct, clock)
    if is_a_terminal():
        with single_keys():
            code = _live(opened, clock)
        if opened.conduct.state().status is Status.ENDED:
            print_lines(afterwards_said(answers, opened.conduct.state()))
        return code
    return _line_by_line(opened, clock)


def _kept_vessel(arguments: argparse.Namespace) -> KeptVessel:
    """The vessel that was named, out of the archive, which is only read."""
    from wetside.web.serve import set_up

    set_up(arguments.data)
    from django.conf import settings

    from wetside.services.archive.opening import open_to_read
    from wetside.services.records.runs_learned import kept_vessel

    open_to_read(settings.DATA_FOLDER)
    try:
        return kept_vessel(arguments.vessel)
    except WetsideError as error:
        raise error.at(Place(field="--vessel")) from None


class _Clock:
    """Clock of the machine, or one that runs faster from when the program began."""

    def __init__(self, speed: float) -> None:
        self.speed, self.begun = speed, moment_now()

    def now(self) -> Moment:
        now = moment_now()
        if self.speed == 1.0:
            return now
        more_s = (now.boot_s - self.begun.boot_s) * (self.speed - 1.0)
        return Moment(now.at_utc + dt.timedelta(seconds=more_s), now.boot_s + more_s, f"{now.boot_id}{FAST}")


def _run_s(conduct: Conduct, now: Moment) -> float:
    state = conduct.state()
    return 0.0 if state.clock is None else state.clock.at(now, state.known_s).s


class _Cues:
    """What is to be heard by now: spoken or rung once, also while a line is being typed."""

    def __init__(self, opened: OpenRun, clock: _Clock, voice: RunVoice) -> None:
        self.conduct, self.clock, self.voice = opened.conduct, clock, voice
        self.heard_s = opened.since_s

    def told(self) -> list[str]:
        """Sound what has become due; the same in words."""
        state, now_s = self.conduct.state(), _run_s(self.conduct, self.clock.now())
        found = cues_between(state, self.heard_s, now_s)
        for cue in found:
            if not self.voice.say(cue):
                print("\a" * (2 if cue.kind is CueKind.NOW else 1), end="", flush=True)
        self.voice.look()
        self.heard_s = max(self.heard_s, now_s)
        return [say(cue.code, cue.params) for cue in found]


def _live(opened: OpenRun, clock: _Clock) -> int:
    """Draw, listen, speak; the run itself goes on in its log, whatever happens here."""
    conduct, said = opened.conduct, list(opened.said)
    drawn = ""
    voice = RunVoice(conduct.state(), clock.speed)
    cues = _Cues(opened, clock, voice)
    while not is_over(conduct.state()):
        said += cues.told()
        state, now_s = conduct.state(), _run_s(conduct, clock.now())
        text = "\n".join(screen_lines(state, now_s, text_width() - 1, said))
        if text != drawn:
            print(f"\x1b[H\x1b[2J{text}", flush=True)
            drawn = text
        key = key_within(TICK_S)
        if key == "q":
            voice.close()
            print_lines(["", sentence("cli.run.left", {})])
            return ExitCode.OK
        if key:
            said += _answer(conduct, clock, key, cues.told)
            drawn = ""  # a question stands on the screen
    voice.close()
    print_lines(["", next_line(conduct.state(), 0.0), *end_lines(conduct.state(), cues.heard_s)])
    state = conduct.state()
    if state.status is Status.ENDED and state.sheets and not state.identified:
        if len(state.sheets) > 1:
            print_lines(spoken(conduct.do(order_typed(state), clock.now())))
        else:  # one sheet alone is known by itself
            conduct.do(c.Identify(state.sheets), clock.now())
    return ExitCode.OK


def _answer(conduct: Conduct, clock: _Clock, key: str, meanwhile: Callable[[], list[str]]) -> list[str]:
    """Do what a key asks; a key that means nothing does nothing."""
    try:
        command = command_of_key(key, meanwhile)
    except WetsideError as error:
        return [speak_error(error)]
    return [] if command is None else spoken(conduct.do(command, clock.now()))


def _line_by_line(opened: OpenRun, clock: _Clock) -> int:
    """Without a terminal: a line for each cue, until no cue is left or the run is over."""
    conduct = opened.conduct
    print_lines(opened.said)
    state = conduct.state()
    heard_s = opened.since_s
    print_lines([next_line(state, heard_s)])
    last_s = max((cue.at_s for cue in cues_between(state, heard_s, heard_s + 86_400.0)), default=heard_s)
    while heard_s <= last_s:
        now_s = _run_s(conduct, clock.now())
        for cue in cues_between(state, heard_s, now_s):
            print_lines([f"{shown(cue.at_s, 'mss')}  {say(cue.code, cue.params)}"])
        sys.stdout.flush()
        heard_s = max(heard_s, now_s)
        time.sleep(TICK_S / 2)
    print_lines([next_line(state, heard_s)])
    return ExitCode.OK


def _simulated(answers: RunAnswers, rows: Path | None, kept: KeptVessel | None, seed: int, *, as_json: bool) -> int:
    """Let the simulated photographer do the run, as fast as the machine can."""
    from wetside.runs.conduct import Conduct
    from wetside.runs.event_log import MemoryLog

    conduct = Conduct(MemoryLog(), "run", "terminal")
    if answers.log is not None:
        from wetside.adapters.run_log import FileLog

        conduct = Conduct(FileLog(Path(answers.log)), "run", "terminal")
    if conduct.state().status is not Status.NOTHING:
        raise OutOfRangeError("cli.run.simulate_new", place=Place(file=answers.log))
    script = script_of_answers(answers, rows, kept)
    start = Moment(SIMULATED_EVENING, 1000.0, SIMULATED)
    last_s = 0.0
    for happened in simulate(
        conduct, script, random.Random(seed), start, rehearsal=answers.rehearsal, retired=retired_by(answers)
    ):
        last_s = happened.at_s
        told = [say(happened.cue.code, happened.cue.params)] if happened.cue is not None else []
        if happened.decision is not None:
            told = [f"> {line}" for line in spoken(happened.decision)]
        if not as_json:
            print_lines(f"{shown(happened.at_s, 'mss'):>6}  {line}" for line in told)
    if as_json:
        print_json({"status": conduct.state().status.value, "facts": len(conduct.facts), "lasted_s": last_s})
    else:
        print_lines(["", next_line(conduct.state(), last_s), *end_lines(conduct.state(), last_s)])
    return ExitCode.OK


def _state_as_json(conduct: Conduct, clock: _Clock) -> int:
    """Print where the run stands, and leave it."""
    from wetside.runs.cues import shown_now

    state, now_s = conduct.state(), _run_s(conduct, clock.now())
    found = shown_now(state, now_s)
    print_json(
        {
            "status": state.status.value,
            "rehearsal": state.rehearsal,
            "run_s": now_s,
            "time_by": state.by.value,
            "doubtful": state.doubtful,
            "next": {"act": found.act, "in_s": found.in_s, "said": say(found.code, found.params)},
            "facts": len(conduct.facts),
        }
    )
    return ExitCode.OK
