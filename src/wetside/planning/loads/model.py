"""A problem made ready: sheets in the order of their ids, deviations on points, suspects set aside, the kind seen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.loads.points import PointTable
from wetside.planning.loads.problem import check_problem, fits_alone

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wetside.planning.loads.problem import LoadProblem, SheetNeed, VesselLimit, VesselOption


class Option(NamedTuple):
    """A sheet in one vessel that can hold it."""

    share: int
    agent: int
    table: PointTable


class Draft(NamedTuple):
    """A load before it is shown: vessel, time [s], sheets as indices, worst deviation."""

    vessel: int
    time_s: int | float
    members: tuple[int, ...]
    worst: float


class Plain(NamedTuple):
    """Equal sheets: the vessel that holds most of them, how many, and each sheet's table."""

    vessel: int
    capacity: int
    tables: tuple[PointTable, ...]


class Hands(NamedTuple):
    """Equal sheets in one vessel with own times: the vessel, and how many it takes if hands allow."""

    vessel: int
    capacity: int


class Model:
    """What the algorithms work on.

    Parameters
    ----------
    problem : LoadProblem
        Checked here.

    Raises
    ------
    WetsideError
        As :func:`~wetside.planning.loads.problem.check_problem`.
    """

    def __init__(self, problem: LoadProblem) -> None:
        check_problem(problem)
        self.vessels: tuple[VesselLimit, ...] = problem.vessels
        self.grid_s = problem.grid_s
        self.preference = problem.preference
        ordered = sorted(problem.sheets, key=lambda sheet: sheet.id)
        alone = [sheet for sheet in ordered if sheet.suspect] if problem.suspects_alone else []
        shared = [sheet for sheet in ordered if not sheet.suspect] if problem.suspects_alone else ordered
        self.count = len(shared)
        self.sheets: tuple[SheetNeed, ...] = (*shared, *alone)
        self.shared = range(self.count)
        self.alone = range(self.count, len(self.sheets))
        self._known: dict[tuple[object, ...], PointTable] = {}
        self.options: list[dict[int, Option]] = [self._options(sheet) for sheet in self.sheets]
        self.tables: list[PointTable] = list(self._known.values())
        self.apart: list[tuple[int, ...]] | None = self._apart() if problem.twins_apart else None
        targets = [table.target_s for table in self.tables]
        grid = problem.grid_s
        # A time outside the targets, rounded outwards to the grid, is nearer to no sheet than the outermost point.
        self.first_s = int(min(targets, default=grid) // grid) * grid
        self.last_s = -int(-max(targets, default=grid) // grid) * grid
        self._leave_out_idle_agent()
        self._reached = -1.0
        self.work_left = 0  # of the solvers, where there are many sheets
        self.known: dict[float, Any] = {}  # covers by deviation, kept by those who make them
        self.pool: Any = None  # columns, kept by those who make them
        self.reach(1.0)
        self.plain: Plain | None = self._plain()
        self.hands: Hands | None = self._hands()

    def _options(self, sheet: SheetNeed) -> dict[int, Option]:
        found: dict[int, Option] = {}
        for option in sheet.options:
            if fits_alone(option, self.vessels[option.vessel]):
                found[option.vessel] = Option(option.share, option.agent, self._table(option))
        return found

    def _table(self, option: VesselOption) -> PointTable:
        key = (option.low_s, option.high_s, option.target_s, option.deviation)
        table = self._known.get(key)
        if table is None:
            table = PointTable(option.low_s, option.high_s, option.target_s, option.deviation, self.grid_s)
            self._known[key] = table
        return table

    def _apart(self) -> list[tuple[int, ...]] | None:
        index = {self.sheets[sheet].id: sheet for sheet in self.shared}
        found: list[set[int]] = [set() for _ in self.shared]
        for sheet in self.shared:
            twin = index.get(self.sheets[sheet].twin or "", sheet)
            if twin != sheet:
                found[sheet].add(twin)
                found[twin].add(sheet)
        return [tuple(sorted(others)) for others in found] if any(found) else None

    def _plain(self) -> Plain | None:
        """Equal sheets in drums, for which one vessel holds the most: the case with a short exact way."""
        holds: dict[int, int] = {}
        shares: dict[int, tuple[int, int]] = {}
        for sheet in self.shared:
            options = self.options[sheet]
            tables = {id(option.table) for option in options.values()}
            if len(tables) != 1:
                return None
            for vessel, (share, agent, _) in options.items():
                if self.vessels[vessel].own_times or shares.setdefault(vessel, (share, agent)) != (share, agent):
                    return None
                holds[vessel] = holds.get(vessel, 0) + 1
        if not holds:
            return None
        capacity = {vessel: self.holds_equal(vessel, *shares[vessel]) for vessel in holds}
        best = min(holds, key=lambda vessel: (-capacity[vessel], vessel))
        if holds[best] < self.count:
            return None
        tables_in_order = tuple(self.options[sheet][best].table for sheet in self.shared)
        return Plain(best, capacity[best], tables_in_order)

    def _leave_out_idle_agent(self) -> None:
        """Drop the limit of agent where as many sheets as the places take never pass it: more sheets are then equal."""
        self._asked = (self.vessels, self.options)
        idle = {
            vessel
            for vessel, limit in enumerate(self.vessels)
            if limit.agent is not None and not self._agent_binds(vessel)
        }
        if idle:
            self.vessels = tuple(
                limit._replace(agent=None) if vessel in idle else limit for vessel, limit in enumerate(self.vessels)
            )
            self.options = [
                {vessel: option._replace(agent=0) if vessel in idle else option for vessel, option in options.items()}
                for options in self.options
            ]

    def _agent_binds(self, vessel: int) -> bool:
        limit = self.vessels[vessel].agent
        options = [self.options[sheet][vessel] for sheet in self.shared if vessel in self.options[sheet]]
        if limit is None or not options:
            return False
        fullest = self.vessels[vessel].places // min(option.share for option in options)
        return sum(sorted((option.agent for option in options), reverse=True)[:fullest]) > limit

    def _hands(self) -> Hands | None:
        """Equal sheets in one vessel with own times: the other case with a short exact way."""
        kinds = {
            (vessel, option.share, option.agent)
            for sheet in self.shared
            for vessel, option in self.options[sheet].items()
        }
        if len(kinds) != 1:
            return None
        vessel, share, agent = kinds.pop()
        return Hands(vessel, self.holds_equal(vessel, share, agent)) if self.own_times(vessel) else None

    def holds_equal(self, vessel: int, share: int, agent: int) -> int:
        """Return how many sheets of one share and agent the vessel takes."""
        limit = self.vessels[vessel]
        most = limit.places // share
        return most if limit.agent is None or not agent else min(most, limit.agent // agent)

    def reach(self, most: float) -> None:
        """Reckon all points with deviations up to ``most`` and the first one above."""
        if most > self._reached:
            for table in self.tables:
                table.reach(self.first_s, self.last_s, most)
            self._reached = most

    def own_times(self, vessel: int) -> bool:
        """Whether each sheet has its own time in the vessel."""
        return self.vessels[vessel].own_times

    def least_deviation(self, sheet: int) -> float:
        """Return the smallest deviation that the sheet can have at all. [1]"""
        return min(
            0.0 if self.own_times(vessel) else option.table.least()[0] for vessel, option in self.options[sheet].items()
        )

    def holds(self, vessel: int, members: Sequence[int]) -> bool:
        """Whether a vessel's limits (not the windows) let it take the sheets together."""
        limit = self.vessels[vessel]
        options = [self.options[sheet].get(vessel) for sheet in members]
        share = agent = 0
        shortest = float("inf")
        for option in options:
            if option is None:
                return False
            share += option.share
            agent += option.agent
            shortest = min(shortest, option.table.target_s)
        if share > limit.places or (limit.agent is not None and agent > limit.agent):
            return False
        return not (limit.own_times and len(members) * limit.spacing_s > shortest)

    def timed(self, vessel: int, members: Iterable[int]) -> Draft:
        """Give the sheets the time with the smallest worst deviation that the vessel allows them together."""
        inside = tuple(sorted(members))
        if self.own_times(vessel):
            return Draft(vessel, max(self.options[sheet][vessel].table.target_s for sheet in inside), inside, 0.0)
        tables = [self.options[sheet][vessel].table for sheet in inside]
        time_s, worst = best_time(dict.fromkeys(tables), self.grid_s)
        return Draft(vessel, time_s, inside, worst)

    def settled(self, draft: Draft) -> Draft:
        """Move a load into the liked vessel, else the one that it fills most, if that costs no deviation."""
        allowed = [draft]
        for vessel in set.intersection(*(set(self.options[sheet]) for sheet in draft.members)) - {draft.vessel}:
            if self.holds(vessel, draft.members):
                other = self.timed(vessel, draft.members)
                if other.worst <= draft.worst:
                    allowed.append(other)
        return min(allowed, key=self._liking) if len(allowed) > 1 else draft

    def _liking(self, draft: Draft) -> tuple[int, float, int]:
        liked = self.preference or ()
        place = liked.index(draft.vessel) if draft.vessel in liked else len(liked)
        vessels, options = self._asked
        limit = vessels[draft.vessel]
        filled = sum(options[sheet][draft.vessel].share for sheet in draft.members) / limit.places
        if limit.agent:
            agent = sum(options[sheet][draft.vessel].agent for sheet in draft.members)
            filled = max(filled, agent / limit.agent)
        return place, -filled, draft.vessel


def best_time(tables: Iterable[PointTable], grid_s: int) -> tuple[int, float]:
    """Time that makes the worst deviation of some kinds of sheet smallest.

    Parameters
    ----------
    tables : iterable of PointTable
    grid_s : int
        Step of the times, unless every kind is planned to 1 s. [s]

    Returns
    -------
    time_s, worst : int, float
        The earliest of equally good points [s], and the deviation there. [1]

    Notes
    -----
    Sheets whose time lies later fall, the others rise with the load's time; both worsts are monotone, and the best
    point stands where they cross.
    """
    kinds = list(tables)
    step = grid_s if any(table.step != 1 for table in kinds) else 1
    if len(kinds) == 1:
        worst, time_s = kinds[0].least()
        return time_s, worst
    if len(kinds) == 2:
        near, far = sorted(kinds, key=lambda table: table.target_s)
        return _best_of_two(near, far, step)
    low = max(1, int(min(table.target_s for table in kinds)) // step)
    high = max(low, -int(-max(table.target_s for table in kinds) // step))

    def late(point: int) -> float:
        time_s = point * step
        return max((table.at(time_s) for table in kinds if table.target_s <= time_s), default=-1.0)

    def early(point: int) -> float:
        time_s = point * step
        return max((table.at(time_s) for table in kinds if table.target_s > time_s), default=-1.0)

    first, last = low, high
    while first < last:
        middle = (first + last) // 2
        if late(middle) >= early(middle):
            last = middle
        else:
            first = middle + 1
    worst = max(late(first), early(first))
    # A plateau of the falling side may reach further down: the earliest point as good as the best.
    best = first
    if first > low:
        before = early(first - 1)
        if before <= worst:
            worst, best = before, first - 1
    low_point, high_point = low, best
    while low_point < high_point:
        middle = (low_point + high_point) // 2
        if max(late(middle), early(middle)) <= worst:
            high_point = middle
        else:
            low_point = middle + 1
    return low_point * step, worst


def _best_of_two(near: PointTable, far: PointTable, step: int) -> tuple[int, float]:
    """Do the same for two kinds, the nearer time first: by far the most frequent case, worth its own short way."""
    near_at, far_at = near.at, far.at
    near_s, far_s = near.target_s, far.target_s
    first, last = max(1, int(near_s) // step), -int(-far_s // step)
    while first < last:
        middle = (first + last) // 2
        time_s = middle * step
        if time_s >= far_s or (time_s >= near_s and near_at(time_s) >= far_at(time_s)):
            last = middle
        else:
            first = middle + 1
    time_s = first * step
    worst = max(near_at(time_s), far_at(time_s))
    while time_s > step:
        before = max(near_at(time_s - step), far_at(time_s - step))
        if before > worst:
            break
        time_s, worst = time_s - step, before
    return time_s, worst
