"""From a run's facts to its state: each on the run's clock, in that clock's order, through the table of moves."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import TYPE_CHECKING

from wetside.runs.events import Identified, Opened, Resumed, TakenBack, TimeTold, event_of_fact
from wetside.runs.moment import Moment, RunClock, Tie, TimeFrom, clock_moved_s, tie_of
from wetside.runs.state import ClockMove, Contested, Entry, State, Status, apply

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.runs.events import Event
    from wetside.runs.fact import Fact
    from wetside.runs.state import Name


def moment_of(fact: Fact) -> Moment:
    """When a fact was told."""
    return Moment(fact.at_utc, fact.boot_s, fact.boot_id)


def fold(facts: Iterable[Fact]) -> State:
    """State of a run.

    Parameters
    ----------
    facts : iterable of Fact
        In any order in which each device's own facts keep theirs; a fact that comes twice counts once.

    Returns
    -------
    state : State
        Never raises: what cannot be read or cannot be is in ``contested``.
    """
    known: dict[Name, tuple[Fact, Event]] = {}
    for fact in facts:
        known.setdefault(fact.name, (fact, event_of_fact(fact)))
    told = list(known.values())
    opening = next(((fact, event) for fact, event in told if isinstance(event, Opened)), None)
    if opening is None:
        return State(contested=tuple(Contested(fact.name, event.KIND, "runs.contested.move") for fact, event in told))
    origin = moment_of(opening[0])
    taken_back, nothing_there = _taken_back(told)
    counted = [(fact, event) for fact, event in told if fact.name not in taken_back]
    clock = RunClock(origin, _ties(origin, counted))
    state = State(clock=clock, taken_back=taken_back)
    state = apply(state, Entry(opening[0].name, opening[1], 0.0))
    entries = []
    for fact, event in told:
        if fact.name == opening[0].name:
            continue
        when = clock.at(moment_of(fact))
        entries.append(Entry(fact.name, event, when.s, when.by, when.doubtful))
    for entry in sorted(entries, key=lambda entry: (entry.doubtful, entry.at_s, entry.name)):
        state = apply(state, entry)
    # Another device that only hands over blinds nobody; one that took the run up goes by its own clock.
    steering = {fact.boot_id for fact, event in counted if isinstance(event, Resumed)}
    lost_time = any(tie.doubtful for boot_id, tie in clock.ties.items() if boot_id in steering)
    hung = (Contested(one.name, Identified.KIND, "runs.contested.hung_otherwise") for one in state.hung_otherwise)
    contested = (
        *hung,
        *(Contested(name, TakenBack.KIND, "runs.contested.nothing_there") for name in nothing_there),
    )
    return state._replace(
        clock_moves=_clock_moves(clock, [fact for fact, _ in told]),
        contested=(*state.contested, *contested),
        doubtful=lost_time,
    )


def _taken_back(told: Sequence[tuple[Fact, Event]]) -> tuple[frozenset[Name], tuple[Name, ...]]:
    """Names that no longer count, and those that took back what is not there or cannot be taken back."""
    may_be = {fact.name for fact, event in told if not isinstance(event, TakenBack | Opened)}
    wanted = {fact.name: (event.device, event.number) for fact, event in told if isinstance(event, TakenBack)}
    stands = standing_take_backs(wanted)
    found = frozenset(target for target in stands.values() if target in may_be)
    odd = (name for name, target in stands.items() if target == name or target not in {*may_be, *wanted})
    return found, tuple(sorted(odd))


def standing_take_backs(wanted: Mapping[Name, Name]) -> dict[Name, Name]:
    """Take-backs that stand, with what each takes back: one that was itself taken back does not.

    Parameters
    ----------
    wanted : mapping of name to name
        Every fact that takes another back, and which.

    Notes
    -----
    From those that nobody took back along what they take back. In a circle, which no person makes, the first by name
    stands, so that the order of arrival decides nothing.
    """
    left = Counter(target for target in wanted.values() if target in wanted)
    stands: dict[Name, bool] = {}
    free = [name for name in sorted(wanted) if not left[name]]
    for first in (*free, *sorted(wanted)):
        if first in stands:
            continue
        stands[first] = True
        ahead = [first]
        while ahead:
            name = ahead.pop()
            target = wanted[name]
            if target not in wanted or target in stands:
                continue
            left[target] -= 1
            if stands[name] or not left[target]:
                stands[target] = not stands[name]
                ahead.append(target)
    return {name: wanted[name] for name in sorted(wanted) if stands[name]}


def _ties(origin: Moment, told: Sequence[tuple[Fact, Event]]) -> dict[str, Tie]:
    """Tie of each start of a machine: its first fact decides, or a watch that was read later."""
    ties = {origin.boot_id: Tie(origin.boot_s, 0.0, TimeFrom.BOOT)}
    starts: dict[str, list[tuple[Fact, Event]]] = {}
    for fact, event in told:
        if fact.boot_id != origin.boot_id:
            starts.setdefault(fact.boot_id, []).append((fact, event))
    for boot_id, own in starts.items():
        own.sort(key=lambda one: (one[0].boot_s, one[0].name))
        known_s = max((event.known_s for _, event in own if isinstance(event, Resumed)), default=0.0)
        ties[boot_id] = tie_of(origin, moment_of(own[0][0]), known_s)
        watch = [(fact, event) for fact, event in own if isinstance(event, TimeTold)]
        if watch:
            fact, event = watch[-1]
            assert isinstance(event, TimeTold)  # noqa: S101 (the type checker forgets what the list holds)
            ties[boot_id] = Tie(fact.boot_s, event.run_s, TimeFrom.WATCH)
    return ties


def _clock_moves(clock: RunClock, facts: Sequence[Fact]) -> tuple[ClockMove, ...]:
    """Where a wall clock was set during the run."""
    found = []
    for boot_id in sorted({fact.boot_id for fact in facts}):
        own = sorted((moment_of(fact) for fact in facts if fact.boot_id == boot_id), key=lambda when: when.boot_s)
        for earlier, later in pairwise(own):
            moved_s = clock_moved_s(earlier, later)
            if moved_s is not None:
                found.append(ClockMove(clock.at(later).s, moved_s))
    return tuple(sorted(found))


def is_over(state: State) -> bool:
    """Whether nothing more is to be done."""
    return state.status in (Status.ENDED, Status.ABANDONED)
