"""A developing time from a sheet: one published figure with the conditions that belong to it."""

from __future__ import annotations

from typing import NamedTuple

from wetside.values.conditions import Agitation, ClockRule, Conditions, StopKind
from wetside.values.dilution import Dilution  # noqa: TC001 (part of a public type)
from wetside.values.evidence import Evidence, Source


class StartingPoint(NamedTuple):
    """One row of a sheet; the names are those of the columns of the data files.

    ``time_low_s`` and ``time_high_s`` are equal unless a range is printed [s]; ``ei`` the exposure index it is printed
    for, None where the sheet names none; ``temp_c`` [C]; ``gradient`` [1];
    ``agent_ml_per_cm2`` stock or concentrate on film [ml/cm2]; conditions are None where the sheet is silent.
    ``source`` holds a key of ``docs/references.bib`` or the user's own words, the page and the date of the sheet.
    """

    film: str
    ei: float | None
    developer: str
    dilution: Dilution
    time_low_s: float
    time_high_s: float
    temp_c: float = 20.0
    agitation: Agitation = Agitation.INTERMITTENT
    gradient: float | None = None
    agent_ml_per_cm2: float | None = None
    clock: ClockRule | None = None
    stop: StopKind | None = None
    presoak: bool | None = None
    source: Source = Source("")
    note: str = ""
    evidence: Evidence = Evidence.PUBLISHED

    @property
    def time_s(self) -> float:
        """The time, or the middle of the printed range. [s]"""
        return (self.time_low_s + self.time_high_s) / 2.0

    @property
    def spread_s(self) -> float:
        """Half of the printed range; 0 where one time is printed. [s]"""
        return (self.time_high_s - self.time_low_s) / 2.0

    @property
    def conditions(self) -> Conditions:
        """The conditions that belong to the time."""
        return Conditions(
            developer=self.developer,
            dilution=self.dilution.text,
            temp_c=self.temp_c,
            agitation=self.agitation,
            presoak=self.presoak,
            clock=self.clock,
            stop=self.stop,
            agent_ml_per_cm2=self.agent_ml_per_cm2,
            gradient=self.gradient,
        )

    @property
    def stated(self) -> int:
        """How many of the conditions that a sheet may leave out are stated. [1]"""
        parts = (self.gradient, self.agent_ml_per_cm2, self.clock, self.stop, self.presoak)
        return sum(part is not None for part in parts)


def agree_on_time(first: StartingPoint, second: StartingPoint) -> bool:
    """Tell whether two rows say the same.

    Parameters
    ----------
    first, second : StartingPoint
        Rows of any two sheets.

    Returns
    -------
    agree : bool
        True where film, index, developer, dilution, times, temperature and agitation are equal, and no stated condition
        contradicts another; a sheet that is silent contradicts nothing.

    Examples
    --------
    >>> from wetside.values.dilution import STOCK
    >>> row = StartingPoint("Tolland 100", 100, "Brackwater", STOCK, 420, 480)
    >>> agree_on_time(row, row._replace(gradient=0.62)), agree_on_time(row, row._replace(time_high_s=510))
    (True, False)
    """
    alike = ("film", "ei", "developer", "dilution", "time_low_s", "time_high_s", "temp_c", "agitation")
    if any(getattr(first, name) != getattr(second, name) for name in alike):
        return False
    silent = ("gradient", "agent_ml_per_cm2", "clock", "stop", "presoak")
    pairs = [(getattr(first, name), getattr(second, name)) for name in silent]
    return all(one is None or other is None or one == other for one, other in pairs)


def most_stated(rows: tuple[StartingPoint, ...]) -> StartingPoint:
    """Of rows that agree, the one that states most of its conditions; then the latest sheet.

    Parameters
    ----------
    rows : tuple of StartingPoint
        At least one.

    Examples
    --------
    >>> from wetside.values.dilution import STOCK
    >>> row = StartingPoint("Tolland 100", 100, "Brackwater", STOCK, 420, 480)
    >>> most_stated((row, row._replace(gradient=0.62))).gradient
    0.62
    """
    return max(rows, key=lambda row: (row.stated, row.source.date))
