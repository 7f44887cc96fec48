"""When each act was, is or will be due: derived from script, state and now, never counted.

An act has a time as soon as its anchor has one. What hands told stands; what follows of necessity is inferred from it
(a stop that is in was poured, and the developer drained before); what nobody told is taken as done when it was due, so
that a run without answers goes on and every shown time stays right. Only at a pause does time stand still: what it
holds back has no due time until it, or something later, is told.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.script import LIGHTS_ON, START, bath_number, is_awaited, pause_points
from wetside.runs.state import before

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Act
    from wetside.runs.script import Script
    from wetside.runs.state import State


class How(StrEnum):
    """How the time of an act is known."""

    TOLD = "told"
    INFERRED = "inferred"
    """A later act was told, and this one must have come before it."""
    ASSUMED = "assumed"
    """Its due time has passed and nobody told anything."""
    AHEAD = "ahead"
    WAITS = "waits"
    """Held back by a pause, or by a hold before the first liquid."""


class Due(NamedTuple):
    """An act with its times on the run's clock.

    ``due_s`` when it was or is due [s], None where it waits; ``at_s`` when it was done, or is taken to be [s];
    ``ready_s`` from when on a waiting one may be done. [s]
    """

    act: Act
    due_s: float | None
    at_s: float | None
    how: How
    ready_s: float | None = None

    @property
    def late_s(self) -> float:
        """By how much it was later than due, as far as that was told; negative if early. [s]"""
        if self.how not in (How.TOLD, How.INFERRED) or self.due_s is None or self.at_s is None:
            return 0.0
        return self.at_s - self.due_s


class Schedule(NamedTuple):
    """All acts of a run at one moment. [s]"""

    now_s: float
    dues: tuple[Due, ...]

    def of(self, key: str) -> Due:
        """Due act of a key."""
        return next(due for due in self.dues if due.act.key == key)

    def awaited(self, last_developing: int = 0) -> Due | None:
        """The act that the next answer is for.

        The first that asks for one after everything told; beyond the stop, where nothing is lost by a missed answer,
        the one that is nearest in time.

        Parameters
        ----------
        last_developing : int
            Number of the last developing bath; no act up to the stop is ever passed over. [1]
        """
        last = max((rank for rank, due in enumerate(self.dues) if due.how is How.TOLD), default=-1)
        asking = [due for due in self.dues[last + 1 :] if is_awaited(due.act)]
        if not asking:
            return None
        first = asking[0]
        if bath_number(first.act.key) <= last_developing + 1 or first.due_s is None:
            return first
        timed = [due for due in asking if due.due_s is not None]
        return min(timed, key=lambda due: abs((due.due_s or 0.0) - self.now_s))

    def next(self) -> Due | None:
        """The next thing that hands do: the first act ahead, or the one that waits."""
        return next((due for due in self.dues if due.how in (How.AHEAD, How.WAITS)), None)

    def bath(self) -> Due | None:
        """The pour of the bath that the film is in, told, inferred or assumed; None before the first."""
        inside = [due for due in self.dues if due.act.does in ("pour", "move") and due.at_s is not None]
        begun = [due for due in inside if due.at_s is not None and due.at_s <= self.now_s]
        return begun[-1] if begun else None


def schedule_at(state: State, now_s: float) -> Schedule:
    """Times of all acts.

    Parameters
    ----------
    state : State
        Of a run that was opened.
    now_s : float
        On the run's clock. [s]
    """
    script = state.script
    if script is None:
        return Schedule(now_s, ())
    paused = {key for pause, key in pause_points(script).items() if pause not in state.retired}
    inferred = _inferred(script, state, paused)
    wet = _any_wet(script, state)
    at: dict[str, float | None] = {START: _start_s(script, state)}
    dues = []
    for act in script.acts:
        anchor_s = at[act.anchor]
        due_s = None if anchor_s is None else anchor_s + act.offset_s + _shift_s(state, act)
        ready_s = None
        if act.does in ("hold", "load") or act.key in paused:
            due_s, ready_s = None, due_s
        stamp = state.stamps.get(act.key)
        if stamp is not None:
            at_s, how = stamp.at_s, How.TOLD
        elif wet and act.does in ("hold", "load"):
            at_s, how = 0.0, How.INFERRED
        elif act.key in inferred:
            at_s, how = _inferred_s(inferred[act.key], due_s), How.INFERRED
        elif due_s is None:
            at[act.key] = None
            dues.append(Due(act, None, None, How.WAITS, ready_s))
            continue
        else:
            at_s, how = due_s, How.ASSUMED if due_s <= now_s else How.AHEAD
        at[act.key] = at_s
        dues.append(Due(act, due_s if due_s is not None else at_s, at_s, how, ready_s))
    # Anchors run on through the acts of a lost sheet; nobody is asked for them.
    return Schedule(now_s, tuple(due for due in dues if due.act.sheet is None or due.act.sheet not in state.lost))


def _start_s(script: Script, state: State) -> float | None:
    """When the first liquid may be poured: at once, or when the last hold was answered. [s]"""
    if script.act(LIGHTS_ON) is None:
        return 0.0
    stamp = state.stamps.get(LIGHTS_ON)
    return None if stamp is None and not _any_wet(script, state) else (stamp.at_s if stamp is not None else 0.0)


def _any_wet(script: Script, state: State) -> bool:
    return any(bath_number(act.key) >= 1 and act.key in state.stamps for act in script.acts)


def _shift_s(state: State, act: Act) -> float:
    shift = state.shifts.get(act.key)
    return 0.0 if shift is None else shift.shift_s


class _Implied(NamedTuple):
    """When an act was by what came after it [s]; never after ``latest_s`` [s]; ``close`` where hands do not wait."""

    at_s: float
    latest_s: float
    close: bool


def _inferred_s(implied: _Implied, due_s: float | None) -> float:
    return implied.at_s if implied.close or due_s is None else min(due_s, implied.latest_s)


def _inferred(script: Script, state: State, paused: set[str]) -> dict[str, _Implied]:
    """Acts that nobody told, and that must have come before one that was: walked from the end.

    A pour belongs to its full, and the drain before a pour to that pour, because hands do not wait between them. Other
    acts were when they were due, at the latest when the one after them was.
    """
    acts = {act.key: act for act in script.acts}
    found: dict[str, _Implied] = {}
    for act in reversed(script.acts):
        stamp = state.stamps.get(act.key)
        if stamp is not None:
            known_s = stamp.at_s
        elif act.key in found:
            known_s = found[act.key].at_s
        else:
            continue
        anchor = acts.get(act.anchor)
        if anchor is None or anchor.key in state.stamps or anchor.key in found or anchor.does in ("hold", "load"):
            continue
        close = (act.does == "full" and anchor.does == "pour") or (
            act.does in ("pour", "move") and anchor.does == "drain" and act.key not in paused
        )
        floor_s = max(
            (state.stamps[key].at_s for key in before(script, anchor.key) if key in state.stamps), default=0.0
        )
        found[anchor.key] = _Implied(max(floor_s, known_s - act.offset_s), max(floor_s, known_s), close)
    return found
