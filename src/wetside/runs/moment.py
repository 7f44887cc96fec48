"""When something was: by the wall clock, and by a clock that counts through sleep from the machine's start.

Between two moments of one start of a machine the second clock decides, whatever was done to the wall clock. Across a
restart, or between two machines, only the wall clock is left: the result says so, and where it cannot be right it says
that as well, so that no wrong time is ever shown.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

CLOCK_MOVED_S = 2.0
"""Our choice: a wall clock that moves less against the other one is only being steered by its time server. [s]"""
LONGEST_RUN_S = 86_400.0
"""Our choice: no run lasts longer; a wall clock that says so after a restart is wrong. [s]"""


class TimeFrom(StrEnum):
    """What a time rests on."""

    BOOT = "boot"
    """The clock that counts from the machine's start."""
    WALL_CLOCK = "wall-clock"
    WATCH = "watch"
    """A person read it off a watch and told it."""


class Moment(NamedTuple):
    """A moment on one machine: UTC, time since its start that counts sleep [s], and which start that was."""

    at_utc: dt.datetime
    boot_s: float
    boot_id: str


class Elapsed(NamedTuple):
    """Time between two moments. [s] ``doubtful`` where it cannot be so: backwards, or longer than any run."""

    s: float
    by: TimeFrom
    doubtful: bool = False


def elapsed(since: Moment, to: Moment) -> Elapsed:
    """Time from one moment to another, by the best clock that both share.

    Parameters
    ----------
    since, to : Moment

    Returns
    -------
    elapsed : Elapsed
        By the clock since the start where both belong to one start, else by the wall clock. [s]

    Examples
    --------
    >>> import datetime as dt
    >>> evening = dt.datetime(2031, 11, 4, 20, 0, tzinfo=dt.UTC)
    >>> full = Moment(evening, 100.0, "a")
    >>> set_back = Moment(evening - dt.timedelta(hours=1), 350.0, "a")
    >>> elapsed(full, set_back).s, elapsed(full, set_back).by.value
    (250.0, 'boot')
    """
    if since.boot_id == to.boot_id:
        return Elapsed(to.boot_s - since.boot_s, TimeFrom.BOOT, to.boot_s < since.boot_s)
    seconds = (to.at_utc - since.at_utc).total_seconds()
    return Elapsed(seconds, TimeFrom.WALL_CLOCK, not 0.0 <= seconds <= LONGEST_RUN_S)


def clock_moved_s(since: Moment, to: Moment) -> float | None:
    """By how much the wall clock was set between two moments of one start.

    Parameters
    ----------
    since, to : Moment

    Returns
    -------
    moved_s : float or None
        Positive if it was set forward [s]; None where it was not set, or where no second clock can tell.
    """
    if since.boot_id != to.boot_id:
        return None
    moved_s = (to.at_utc - since.at_utc).total_seconds() - (to.boot_s - since.boot_s)
    return moved_s if abs(moved_s) > CLOCK_MOVED_S else None


class Tie(NamedTuple):
    """Where one start of a machine lies on the run's clock: ``run_s`` was when its own clock showed ``boot_s``. [s]"""

    boot_s: float
    run_s: float
    by: TimeFrom
    doubtful: bool = False


class RunClock(NamedTuple):
    """The run's own clock: 0 when it was opened, and a tie for each start of a machine that took part."""

    origin: Moment
    ties: Mapping[str, Tie]

    def at(self, moment: Moment, known_s: float = 0.0) -> Elapsed:
        """Time on the run's clock. [s]

        Parameters
        ----------
        moment : Moment
        known_s : float
            The run is known to have lasted so long already; a start without a tie that says less is doubtful. [s]
        """
        tie = self.ties.get(moment.boot_id) or tie_of(self.origin, moment, known_s)
        seconds = tie.run_s + moment.boot_s - tie.boot_s
        return Elapsed(seconds, tie.by, tie.doubtful or seconds < 0.0)


def tie_of(origin: Moment, moment: Moment, known_s: float = 0.0) -> Tie:
    """Tie of a machine's start to the run's clock, from one moment of it.

    Parameters
    ----------
    origin : Moment
        When the run was opened.
    moment : Moment
    known_s : float
        The run had lasted so long already when this start began to count. [s]
    """
    found = elapsed(origin, moment)
    return Tie(moment.boot_s, found.s, found.by, found.doubtful or found.s < known_s)
