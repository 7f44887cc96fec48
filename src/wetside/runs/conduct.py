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
    from wetside.runs.event_log import EventLog
    from wetside.runs.fact import Fact
    from wetside.runs.moment import Moment
    from wetside.runs.state import State

MOST_TRIES = 20
"""Two devices that write at once are told apart within a few tries; more is a fault of the log. [1]"""
MOVED_ON = "runs.log.moved_on"
"""Another device wrote first."""
NAME_TAKEN = "runs.log.other_fact"
"""A name that is known already, with another content."""


class Conduct:
    """One device at one run.

    Parameters
    ----------
    log : EventLog
    run : str
        The run's key in the log.
    device : str
        Name of this device, its own for good.
    known : tuple of facts and state, optional
        The run's first facts, all that there were once, and what they fold to: they are not read again.
    """

    def __init__(self, log: EventLog, run: str, device: str, known: tuple[Sequence[Fact], State] | None = None) -> None:
        self.log, self.run, self.device = log, run, device
        self._facts: list[Fact] = [] if known is None else list(known[0])
        self._state: State | None = None if known is None else known[1]

    @property
    def facts(self) -> tuple[Fact, ...]:
        """Facts of the run as they are known here."""
        return tuple(self._facts)

    @property
    def folded(self) -> State | None:
        """State by the facts that are known here, without a look at the log; None where it was never asked for."""
        return self._state

    def state(self) -> State:
        """State by all facts that the log has now."""
        fresh = [numbered.fact for numbered in self.log.read(self.run, len(self._facts))]
        if fresh or self._state is None:
            self._facts += fresh
            self._state = fold(self._facts)
        return self._state

    def do(self, command: Command, now: Moment, *, seen: int | None = None) -> Decision:
        """Decide on a command and append what comes of it.

        Where another device wrote meanwhile, its facts are read and the command is decided anew.

        Parameters
        ----------
        command : Command
        now : Moment
        seen : int, optional
            How many facts there were when the command was thought of; it is not meant for a log with more.

        Raises
        ------
        ConflictError
            If the log stays busy, or has more facts than were seen.
        """
        for _ in range(MOST_TRIES):
            state = self.state()
            if seen is not None and len(self._facts) != seen:
                raise ConflictError(MOVED_ON, expected=seen, last=len(self._facts))
            decision = decide(state, command, now)
            if not decision.events:
                return decision
            known = len(self._facts)
            mine = max((fact.device_number for fact in self._facts if fact.device == self.device), default=0)
            facts = facts_of_events(decision.events, now, Device(self.device, mine + 1))
            try:
                self.log.append(self.run, facts, expected=known)
            except ConflictError as error:
                # This device's next number is taken where another page of it wrote first: the log has moved on too.
                if error.code not in (MOVED_ON, NAME_TAKEN):
                    raise
                continue
            self.state()
            return decision
        raise ConflictError("runs.log.busy", tries=MOST_TRIES)

    def hand_over(self, facts: Sequence[Fact]) -> None:
        """Take what another device saw, each fact once, as it came: observations are never refused.

        Raises
        ------
        ConflictError
            If a known name comes with another content, or the log stays busy.
        """
        for _ in range(MOST_TRIES):
            self.state()
            try:
                self.log.append(self.run, facts, expected=len(self._facts))
            except ConflictError as error:
                if error.code != MOVED_ON:
                    raise
                continue
            self.state()
            return
        raise ConflictError("runs.log.busy", tries=MOST_TRIES)
