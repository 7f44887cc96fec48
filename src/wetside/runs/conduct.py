"""A run as its log has it: commands in, facts appended, the state folded anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import ConflictError
from wetside.runs.decide import Decision, decide
from wetside.runs.events import Device, facts_of_events
from wetside.runs.fold import fold

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.runs.commands import Command
    from wetside.runs.event_log import EventLog, Taken
    from wetside.runs.fact import Fact
    from wetside.runs.moment import Moment
    from wetside.runs.state import State

MOST_TRIES = 20
"""Two devices that write at once are told apart within a few tries; more is a fault of the log. [1]"""


class Conduct:
    """One device at one run.

    Parameters
    ----------
    log : EventLog
    run : str
        The run's key in the log.
    device : str
        Name of this device, its own for good.
    """

    def __init__(self, log: EventLog, run: str, device: str) -> None:
        self.log, self.run, self.device = log, run, device
        self._facts: list[Fact] = []
        self._state: State | None = None

    @property
    def facts(self) -> tuple[Fact, ...]:
        """Facts of the run as they are known here."""
        return tuple(self._facts)

    def take_up(self, state: State, facts: Sequence[Fact]) -> None:
        """Begin with facts that were read and folded before, so that only what came since is read.

        Parameters
        ----------
        state : State
            Folded from ``facts``.
        facts : sequence of Fact
            The run's first ones, as its log has them.
        """
        self._facts, self._state = list(facts), state

    def state(self) -> State:
        """State by all facts that the log has now."""
        fresh = [numbered.fact for numbered in self.log.read(self.run, len(self._facts))]
        if fresh or self._state is None:
            self._facts += fresh
            self._state = fold(self._facts)
        return self._state

    def do(self, command: Command, now: Moment) -> Decision:
        """Decide on a command and append what comes of it.

        Where another device wrote meanwhile, its facts are read and the command is decided anew.

        Raises
        ------
        ConflictError
            If the log stays busy.
        """
        for _ in range(MOST_TRIES):
            decision = decide(self.state(), command, now)
            if not decision.events:
                return decision
            known = len(self._facts)
            mine = max((fact.device_number for fact in self._facts if fact.device == self.device), default=0)
            facts = facts_of_events(decision.events, now, Device(self.device, mine + 1))
            try:
                self.log.append(self.run, facts, expected=known)
            except ConflictError as error:
                if error.code != "runs.log.moved_on":
                    raise
                continue
            self.state()
            return decision
        raise ConflictError("runs.log.busy", tries=MOST_TRIES)

    def hand_over(self, facts: Sequence[Fact]) -> Taken:
        """Take what another device saw, each fact once, as it came: observations are never refused.

        Raises
        ------
        ConflictError
            If a known name comes with another content, or the log stays busy.
        """
        for _ in range(MOST_TRIES):
            self.state()
            try:
                taken = self.log.append(self.run, facts, expected=len(self._facts))
            except ConflictError as error:
                if error.code != "runs.log.moved_on":
                    raise
                continue
            self.state()
            return taken
        raise ConflictError("runs.log.busy", tries=MOST_TRIES)
