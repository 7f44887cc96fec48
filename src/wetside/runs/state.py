"""Where a run stands: folded from its facts, by one table of legal moves.

Facts are taken in the order of the run's own clock, not in that of their arrival: whatever order two devices hand over
what they saw, the same state comes out. A fact that the table does not allow, or that cannot be true beside the others,
is kept as contested and settled by a person after the run.
"""

from __future__ import annotations

from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.bath_limits import is_of_a_bath
from wetside.runs.events import (
    Abandoned,
    Done,
    Doubted,
    EndMoved,
    Event,
    Identified,
    Lost,
    Noted,
    Opened,
    Read,
    Resumed,
    Retired,
    SetAside,
    TakenBack,
    TimeTold,
    Unreadable,
)
from wetside.runs.hung_orders import OrderTold, order_that_counts, orders_otherwise
from wetside.runs.moment import RunClock, TimeFrom
from wetside.runs.script import HANG

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wetside.planning.documents.plan import Act
    from wetside.runs.events import Incident, Where, Why
    from wetside.runs.script import Pause, Script

Name = tuple[str, int]
"""Device and its number: a fact's name."""


class Status(StrEnum):
    """Where a run stands as a whole."""

    NOTHING = "nothing"
    READY = "ready"
    RUNNING = "running"
    ENDED = "ended"
    ABANDONED = "abandoned"


OVER = (Status.ENDED, Status.ABANDONED)
"""Nothing more is to be done."""


class Entry(NamedTuple):
    """An event with its fact's name and its time on the run's clock. [s]"""

    name: Name
    event: Event
    at_s: float
    by: TimeFrom = TimeFrom.BOOT
    doubtful: bool = False


class Stamp(NamedTuple):
    """When an act was done [s], what the time rests on, and which fact says so."""

    at_s: float
    by: TimeFrom
    name: Name
    insisted: bool = False


class ReadingAt(NamedTuple):
    """A temperature without the instrument's error [C], when [s] and where it was read."""

    at_s: float
    temp_c: float
    where: Where


class AsideAt(NamedTuple):
    """A posted reading that is not used: when it came [s], what was shown, where, by which instrument, and why not."""

    at_s: float
    shown: str
    where: Where
    instrument: str
    code: str


class Shift(NamedTuple):
    """By how much a developing end was moved [s], why, what it is worth in density, and when that was decided. [s]"""

    shift_s: float
    why: Why
    density: float
    at_s: float


class IncidentAt(NamedTuple):
    """Something that went wrong, when it began and when it was told [s], the sheets it was told of, and its fact.

    ``after`` is True where it was only seen once the run was over, and nobody said how long ago it was.
    """

    what: Incident
    began_s: float
    told_s: float
    text: str
    sheets: tuple[str, ...] = ()
    name: Name = ("", 0)
    after: bool = False


class Contested(NamedTuple):
    """A fact that does not count as it stands, and why."""

    name: Name
    kind: str
    code: str


class ClockMove(NamedTuple):
    """A wall clock was set: noticed at [s], by how much [s]. No time of the run moves with it."""

    at_s: float
    moved_s: float


_NONE: Mapping[str, Stamp] = MappingProxyType({})
_NO_SHIFTS: Mapping[str, Shift] = MappingProxyType({})


class State(NamedTuple):
    """A run, folded.

    ``stamps`` when each act was done; ``known_s`` the run has lasted so long as far as
    its clocks agree [s]; ``certain_s`` the same without what rests on a wall clock alone [s]; ``told_s`` when an act
    was last told, taken or not [s]; ``doubt`` the act that was asked back, and when [s]; ``orders`` what was told of
    the sheets by clip, by the run's clock; ``spoilt`` those of the lost that were in a liquid before.
    """

    status: Status = Status.NOTHING
    script: Script | None = None
    rehearsal: bool = False
    clock: RunClock | None = None
    stamps: Mapping[str, Stamp] = _NONE
    retired: frozenset[Pause] = frozenset()
    readings: tuple[ReadingAt, ...] = ()
    set_aside: tuple[AsideAt, ...] = ()
    lost: tuple[str, ...] = ()
    spoilt: tuple[str, ...] = ()
    shifts: Mapping[str, Shift] = _NO_SHIFTS
    incidents: tuple[IncidentAt, ...] = ()
    orders: tuple[OrderTold, ...] = ()
    doubt: tuple[str, float] | None = None
    told_s: float | None = None
    known_s: float = 0.0
    certain_s: float = 0.0
    contested: tuple[Contested, ...] = ()
    taken_back: frozenset[Name] = frozenset()
    clock_moves: tuple[ClockMove, ...] = ()
    by: TimeFrom = TimeFrom.BOOT
    doubtful: bool = False

    @property
    def identified(self) -> bool:
        """Whether anybody was asked which sheet hangs where; *not known* is an answer."""
        return bool(self.orders)

    @property
    def order(self) -> tuple[str, ...] | None:
        """Sheets by clip, as the telling says that counts; None where they are not known, or nobody was asked."""
        counts = order_that_counts(self.orders)
        return None if counts is None else counts.order

    @property
    def hung_otherwise(self) -> tuple[OrderTold, ...]:
        """Tellings that say otherwise than the one that counts, by somebody who had not seen it."""
        return orders_otherwise(self.orders, self.lost)

    @property
    def sheets(self) -> tuple[str, ...]:
        """Sheets that are still in the run, in the order of their places."""
        if self.script is None:
            return ()
        return tuple(sheet.id for sheet in self.script.sheets if sheet.id not in self.lost)

    @property
    def in_liquid(self) -> tuple[str, ...]:
        """Sheets that the baths have seen: those that are left, and those that were spoilt in them or after them."""
        if self.script is None:
            return ()
        dry = set(self.lost) - set(self.spoilt)
        return tuple(sheet.id for sheet in self.script.sheets if sheet.id not in dry)

    @property
    def places(self) -> tuple[str | None, ...]:
        """Map of the vessel: a lost sheet leaves its place empty."""
        if self.script is None:
            return ()
        return tuple(None if sheet.id in self.lost else sheet.id for sheet in self.script.sheets)


DRY, WET, LAST = "done-dry", "done-wet", "done-last"
"""Moves of an act: before any liquid, in it, and the last of all."""

_ALWAYS = ("taken-back", "noted", "resumed", "time-told", "read", "set-aside")
_UNTIL_THE_END = (*_ALWAYS, "doubted", "lost", "retired", "end-moved")

LEGAL_MOVES: Mapping[Status, Mapping[str, Status]] = {
    Status.NOTHING: {"opened": Status.READY},
    Status.READY: dict.fromkeys((*_UNTIL_THE_END, DRY), Status.READY)
    | {WET: Status.RUNNING, LAST: Status.ENDED, "abandoned": Status.ABANDONED},
    Status.RUNNING: dict.fromkeys((*_UNTIL_THE_END, WET, "identified"), Status.RUNNING)
    | {LAST: Status.ENDED, "abandoned": Status.ABANDONED},
    Status.ENDED: dict.fromkeys((*_ALWAYS, "identified", "lost"), Status.ENDED),
    Status.ABANDONED: dict.fromkeys(("taken-back", "noted", "resumed", "time-told"), Status.ABANDONED),
}
"""The one table: what may follow in each status, and which status it leads to. What it does not name is contested."""


def move_of(event: Event, script: Script | None) -> str:
    """Name of an event's move in the table."""
    if isinstance(event, Done):
        act = None if script is None else script.act(event.act)
        if act is not None and act.does in ("hold", "load"):
            return DRY
        return LAST if act is not None and act.does == "hang" else WET
    return event.KIND


def apply(state: State, entry: Entry) -> State:
    """State after one more entry.

    Total and pure: an entry that may not be, or cannot be true, changes nothing but the list of contested ones.

    Parameters
    ----------
    state : State
        Of everything before it on the run's clock.
    entry : Entry
    """
    event = entry.event
    next_status = LEGAL_MOVES[state.status].get(move_of(event, state.script))
    code = "runs.contested.move" if next_status is None else objection(state, entry)
    if isinstance(event, Unreadable):
        code = event.code
    if entry.name in state.taken_back and not isinstance(event, TakenBack | Opened):
        return state
    if code is not None or next_status is None:
        return state._replace(
            contested=(*state.contested, Contested(entry.name, event.KIND, code or "runs.contested.move"))
        )
    applied = _applied(state, entry)._replace(status=next_status)
    if entry.doubtful:  # a time that cannot be right makes no later one wrong
        return applied
    certain_s = state.certain_s if entry.by is TimeFrom.WALL_CLOCK else max(state.certain_s, entry.at_s)
    return applied._replace(known_s=max(state.known_s, entry.at_s), certain_s=certain_s)


def ended_s(state: State) -> float:
    """When a run that is over ended, on its own clock. [s]"""
    hung = state.stamps.get(HANG)
    return state.known_s if hung is None else hung.at_s


def last_told(state: State) -> tuple[str, Stamp] | None:
    """Act that was told last and counts, with its stamp: what *take back* takes back; None before anything was told."""
    return max(state.stamps.items(), key=lambda item: (item[1].at_s, item[1].name), default=None)


def _is_told_after_all(state: State, event: Event) -> bool:
    """Whether what is told holds at any time: which sheet it was, and what went wrong in a run that is over."""
    return isinstance(event, Identified | Lost) or (state.status in OVER and isinstance(event, Noted))


def _applied(state: State, entry: Entry) -> State:
    """State with the content of an entry that nothing speaks against."""
    event, at_s = entry.event, entry.at_s
    if isinstance(event, Opened):
        return state._replace(script=event.script, rehearsal=event.rehearsal, retired=frozenset(event.retired))
    if isinstance(event, Done):
        stamp = Stamp(at_s - event.ago_s, entry.by, entry.name, event.insisted)
        return state._replace(
            stamps={**state.stamps, event.act: stamp}, doubt=None, told_s=at_s, by=_weaker(state, entry)
        )
    if isinstance(event, Doubted):
        return state._replace(doubt=(event.act, at_s), told_s=at_s)
    if isinstance(event, Read):
        return state._replace(readings=(*state.readings, ReadingAt(at_s, event.true_c, event.where)))
    if isinstance(event, SetAside):
        aside = AsideAt(at_s, event.shown, event.where, event.instrument, event.code)
        return state._replace(set_aside=(*state.set_aside, aside))
    if isinstance(event, Lost):
        wet = state.status is not Status.READY
        spoilt = (*state.spoilt, event.sheet) if wet else state.spoilt
        return state._replace(lost=(*state.lost, event.sheet), spoilt=spoilt)
    if isinstance(event, Retired):
        return state._replace(retired=state.retired | {event.pause})
    if isinstance(event, EndMoved):
        shift = Shift(event.shift_s, event.why, event.density, at_s)
        return state._replace(shifts={**state.shifts, event.act: shift})
    if isinstance(event, Noted):
        if entry.doubtful:  # told days after the run: counted back from its end
            at_s = ended_s(state)
        after = state.status in OVER and not event.ago_s
        began_s = max(at_s, state.known_s) if after else at_s - event.ago_s
        found = IncidentAt(event.what, began_s, at_s, event.text, event.sheets, entry.name, after)
        return state._replace(incidents=(*state.incidents, found))
    if isinstance(event, Identified):
        knew = None if event.knew is None else frozenset(event.knew)
        return state._replace(orders=(*state.orders, OrderTold(entry.name, event.order, knew)))
    return state


def _weaker(state: State, entry: Entry) -> TimeFrom:
    """What the run's times rest on: told by a watch or by the wall clock as soon as one of them is."""
    return entry.by if entry.by is not TimeFrom.BOOT else state.by


def objection(state: State, entry: Entry) -> str | None:
    """Code of what speaks against an entry beside what is known already; None where nothing does."""
    event, script = entry.event, state.script
    if isinstance(
        event, Resumed | TimeTold | TakenBack | Doubted | Retired | Abandoned | Unreadable | Opened | SetAside
    ):
        return None
    if entry.doubtful and not _is_told_after_all(state, event):
        return "runs.contested.clock"
    if isinstance(event, Done):
        return _objection_to_act(state, event, entry.at_s - event.ago_s)
    if isinstance(event, Read):  # no bath is so cold or so hot: a page refuses it, another device may hand it over
        return None if is_of_a_bath(event) else "runs.contested.absurd"
    if isinstance(event, Lost):
        return None if event.sheet in state.sheets else "runs.contested.sheet"
    if isinstance(event, Noted):
        known = () if script is None else {sheet.id for sheet in script.sheets}
        return None if set(event.sheets) <= set(known) else "runs.contested.sheet"
    if isinstance(event, EndMoved):
        act = None if script is None else script.act(event.act)
        return None if act is not None and act.does in ("drain", "lift") else "runs.contested.act"
    if isinstance(event, Identified) and event.order is not None:
        known = set(state.sheets)
        wrong = len(set(event.order)) != len(event.order) or not set(event.order) <= known
        return "runs.contested.order" if wrong else None
    return None


def _objection_to_act(state: State, event: Done, at_s: float) -> str | None:
    script = state.script
    act = None if script is None else script.act(event.act)
    if script is None or act is None:
        return "runs.contested.act"
    if event.act in state.stamps:
        return "runs.contested.again"
    if at_s < 0.0 or any(key in state.stamps and state.stamps[key].at_s > at_s for key in before(script, event.act)):
        return "runs.contested.before"
    if any(key in state.stamps and state.stamps[key].at_s < at_s for key in after(script, event.act)):
        return "runs.contested.passed"
    return None


def before(script: Script, key: str) -> Iterator[str]:
    """Acts that an act follows from, the nearest first."""
    acts: dict[str, Act] = {act.key: act for act in script.acts}
    anchor = acts[key].anchor
    while anchor in acts:
        yield anchor
        anchor = acts[anchor].anchor


def after(script: Script, key: str) -> Iterator[str]:
    """Acts that follow from an act."""
    found = {key}
    for act in script.acts:
        if act.anchor in found:
            found.add(act.key)
            yield act.key
