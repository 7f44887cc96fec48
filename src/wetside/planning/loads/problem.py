"""What the planner of loads is asked: sheets, vessels, rules. Nothing here knows of films, files or developers."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import ConflictError, OutOfRangeError, RefusedError, UnknownNameError

if TYPE_CHECKING:
    from collections.abc import Callable

EDGE_S = 1e-6
"""A point this near outside a window's edge is the edge: 1.1 x 450 s is 495 s, whatever the last digit says. [s]"""


class VesselOption(NamedTuple):
    """A sheet in one vessel: its window, its own time, and what it takes up.

    Parameters
    ----------
    vessel : int
        Index into :attr:`LoadProblem.vessels`.
    low_s, high_s, target_s : float
        Closed window and the sheet's own time inside it. [s]
    deviation : callable
        Of a time [s]: 0 at the target, 1 at the window's edge, never falling away from the target, finite. Sheets
        that share the same callable (or equal ones) and the same window are planned as one kind, which is faster.
    share : int
        Of the vessel's places, in its place units; at least 1.
    agent : int
        Of the vessel's developing agent, in its units; at least 0.
    """

    vessel: int
    low_s: float
    high_s: float
    target_s: float
    deviation: Callable[[float], float]
    share: int = 1
    agent: int = 0


class SheetNeed(NamedTuple):
    """One sheet: where it may be developed, and with whom it may not share.

    Parameters
    ----------
    id : str
        Ties are broken in the order of ids.
    options : tuple of VesselOption
        At least one; at most one for a vessel.
    weight : float
        How much the sheet matters: equal sheets of equal merit are named in this order. Never trades windows. [1]
    twin : str or None
        Another sheet of the same picture; one that is not in the problem is none.
    suspect : bool
        Its film is uncertain.
    """

    id: str
    options: tuple[VesselOption, ...]
    weight: float = 1.0
    twin: str | None = None
    suspect: bool = False


class VesselLimit(NamedTuple):
    """What one filling of a vessel holds.

    Parameters
    ----------
    name : str
    places : int
        In place units: where sizes differ, the least common multiple of the places for each size.
    agent : int or None
        Developing agent in integer units; None sets no limit.
    own_times : bool
        Each sheet has its own time (tray, tubes, hangers): sheets go in and come out one by one.
    spacing_s : float
        Between two sheets of such a batch; the count times this must not pass the shortest time in it. [s]
    """

    name: str
    places: int
    agent: int | None = None
    own_times: bool = False
    spacing_s: float = 0.0


class LoadProblem(NamedTuple):
    """One group of sheets that may share a developer.

    Parameters
    ----------
    sheets : tuple of SheetNeed
    vessels : tuple of VesselLimit
    grid_s : int
        Load times are whole multiples; a window without one is planned to 1 s. [s]
    twins_apart, suspects_alone : bool
        Rules that the user may drop.
    preference : tuple of int, optional
        Vessels in the order in which they are liked where several would do; else the least that holds the load.
    """

    sheets: tuple[SheetNeed, ...]
    vessels: tuple[VesselLimit, ...]
    grid_s: int = 5
    twins_apart: bool = True
    suspects_alone: bool = True
    preference: tuple[int, ...] | None = None


class RelativeDeviation:
    """Deviation of a sheet without a contrast family: ``|ln(time / own time)| / ln(edge ratio)``.

    Equal ones compare equal, so that sheets of one kind are planned as one kind.

    Parameters
    ----------
    target_s : float
        The sheet's own time. [s]
    edge_ratio : float
        Of the window's edge to the own time, above 1: 1.1 where only a time is known. [1]

    Examples
    --------
    >>> round(RelativeDeviation(450.0, 1.1)(495.0), 9)
    1.0
    """

    __slots__ = ("_log_edge", "edge_ratio", "target_s")

    def __init__(self, target_s: float, edge_ratio: float = 1.1) -> None:
        self.target_s = target_s
        self.edge_ratio = edge_ratio
        self._log_edge = math.log(edge_ratio)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, RelativeDeviation):
            return NotImplemented
        return (self.target_s, self.edge_ratio) == (other.target_s, other.edge_ratio)

    def __hash__(self) -> int:
        return hash((self.target_s, self.edge_ratio))

    def __repr__(self) -> str:
        return f"RelativeDeviation({self.target_s!r}, {self.edge_ratio!r})"

    def __call__(self, time_s: float) -> float:
        """Return the deviation of a load's time [s], 1 at the edge of the window. [1]"""
        return abs(math.log(time_s / self.target_s)) / self._log_edge


def option_by_time(
    vessel: int, target_s: float, edge_ratio: float = 1.1, share: int = 1, agent: int = 0
) -> VesselOption:
    """Option of a sheet of which only a time is known.

    Parameters
    ----------
    vessel : int
    target_s : float
        The sheet's own time. [s]
    edge_ratio : float
        Of the window's edge to it. [1]
    share, agent : int
        As in :class:`VesselOption`.

    Returns
    -------
    option_by_time : VesselOption
        Its window is ``[target / ratio, target * ratio]``.

    Examples
    --------
    >>> option_by_time(0, 450.0).high_s
    495.00000000000006
    """
    return VesselOption(
        vessel,
        target_s / edge_ratio,
        target_s * edge_ratio,
        target_s,
        RelativeDeviation(target_s, edge_ratio),
        share,
        agent,
    )


def check_problem(problem: LoadProblem) -> None:
    """Refuse a problem that has no meaning or no answer.

    Parameters
    ----------
    problem : LoadProblem

    Raises
    ------
    OutOfRangeError
        For a grid, limit, share or window that is not finite or not positive, or a target outside its window.
    ConflictError
        For two sheets of one id, or two options of a sheet for one vessel.
    UnknownNameError
        For a vessel that is not in the list.
    RefusedError
        For a sheet that fits into no vessel.
    """
    if problem.grid_s < 1:
        raise OutOfRangeError("planning.loads.grid_not_positive", value=problem.grid_s)
    for vessel in problem.vessels:
        _check_vessel(vessel)
    seen: set[str] = set()
    for sheet in problem.sheets:
        if sheet.id in seen:
            raise ConflictError("planning.loads.id_twice", sheet=sheet.id)
        seen.add(sheet.id)
        _check_sheet(sheet, problem.vessels)
    for index in problem.preference or ():
        if not 0 <= index < len(problem.vessels):
            raise UnknownNameError("planning.loads.vessel_unknown", sheet=None, vessel=index)


def _check_vessel(vessel: VesselLimit) -> None:
    if vessel.places < 1:
        raise OutOfRangeError("planning.loads.places_not_positive", vessel=vessel.name, value=vessel.places)
    if vessel.agent is not None and vessel.agent < 0:
        raise OutOfRangeError("planning.loads.agent_negative", vessel=vessel.name, value=vessel.agent)
    if not 0 <= vessel.spacing_s < math.inf:
        raise OutOfRangeError("planning.loads.spacing_out_of_range", vessel=vessel.name, value=vessel.spacing_s)


def _check_sheet(sheet: SheetNeed, vessels: tuple[VesselLimit, ...]) -> None:
    fits = False
    taken: set[int] = set()
    for option in sheet.options:
        if not 0 <= option.vessel < len(vessels):
            raise UnknownNameError("planning.loads.vessel_unknown", sheet=sheet.id, vessel=option.vessel)
        if option.vessel in taken:
            raise ConflictError("planning.loads.vessel_twice", sheet=sheet.id, vessel=vessels[option.vessel].name)
        taken.add(option.vessel)
        if not (0 < option.low_s <= option.target_s <= option.high_s < math.inf):
            raise OutOfRangeError(
                "planning.loads.window_out_of_order",
                sheet=sheet.id,
                low_s=option.low_s,
                target_s=option.target_s,
                high_s=option.high_s,
            )
        if option.share < 1 or option.agent < 0:
            raise OutOfRangeError(
                "planning.loads.share_not_positive", sheet=sheet.id, share=option.share, agent=option.agent
            )
        fits = fits or fits_alone(option, vessels[option.vessel])
    if not fits:
        raise RefusedError("planning.loads.fits_nowhere", sheet=sheet.id)


def fits_alone(option: VesselOption, vessel: VesselLimit) -> bool:
    """Whether the sheet alone keeps the vessel's limits.

    Parameters
    ----------
    option : VesselOption
    vessel : VesselLimit

    Returns
    -------
    fits_alone : bool

    Examples
    --------
    >>> fits_alone(option_by_time(0, 450.0, share=3), VesselLimit("small drum", 2))
    False
    """
    if option.share > vessel.places or (vessel.agent is not None and option.agent > vessel.agent):
        return False
    return not (vessel.own_times and vessel.spacing_s > option.target_s)
