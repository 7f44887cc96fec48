"""Facts that speak against each other, and what settles them: one of the two is taken back, and both stay stored."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.events import Device, Done, Identified, TakenBack, event_of_fact, facts_of_events
from wetside.runs.fold import fold, moment_of, standing_take_backs
from wetside.runs.hung_orders import order_that_counts, speaking_against, to_leave_out
from wetside.runs.state import after, before

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.runs.fact import Fact
    from wetside.runs.state import Name, State


class Told(NamedTuple):
    """One observation: its fact's name, what kind it is, the act that it tells or None, and for when on the run's
    clock [s]; ``order`` the sheets by clip, where it tells that.
    """

    name: Name
    kind: str
    act: str | None
    at_s: float
    order: tuple[str, ...] | None = None


class Question(NamedTuple):
    """A fact that does not count, and what speaks against it.

    ``rivals`` are the facts that count instead; ``may_count`` whether it would count if ``against`` were left out: the
    rivals, and what they had replaced. It can always be left out, with ``itself``.
    """

    told: Told
    code: str
    rivals: tuple[Told, ...]
    may_count: bool
    against: tuple[Name, ...]
    itself: tuple[Name, ...]


def open_questions(facts: Sequence[Fact], state: State) -> tuple[Question, ...]:
    """Contested facts of a run, each with what stands against it, in the order of the run's clock.

    Parameters
    ----------
    facts : sequence of Fact
        All of the run.
    state : State
        As they fold.
    """
    by_name = {fact.name: fact for fact in facts}
    found = []
    for contested in state.contested:
        fact = by_name.get(contested.name)
        if fact is None:
            continue
        told = _told(fact, state)
        rivals = tuple(_told(by_name[name], state) for name in _rivals(fact, told, state) if name in by_name)
        against = tuple(rival.name for rival in rivals)
        itself: tuple[Name, ...] = (told.name,)
        hung = next((one for one in state.hung_otherwise if one.name == told.name), None)
        if hung is not None:
            against = speaking_against(state.orders, hung, state.lost)
            itself = to_leave_out(state.orders, hung, state.lost)
        may_count = bool(rivals) and _would_count(facts, contested.name, against)
        found.append(Question(told, contested.code, rivals, may_count, against, itself))
    return tuple(sorted(found, key=lambda one: (one.told.at_s, one.told.name)))


class LeftOut(NamedTuple):
    """A fact that no longer counts, and the name of the fact that took it back."""

    told: Told
    by: Name


def left_out(facts: Sequence[Fact], state: State) -> tuple[LeftOut, ...]:
    """Facts that were taken back or left out, in the order of the run's clock; each can be counted again.

    Parameters
    ----------
    facts : sequence of Fact
        All of the run.
    state : State
        As they fold.
    """
    by_name = {fact.name: fact for fact in facts}
    events = ((fact.name, event_of_fact(fact)) for fact in facts if fact.kind == TakenBack.KIND)
    wanted = {name: (event.device, event.number) for name, event in events if isinstance(event, TakenBack)}
    found = {
        target: LeftOut(_told(by_name[target], state), name)
        for name, target in standing_take_backs(wanted).items()
        if target in state.taken_back
    }
    return tuple(sorted(found.values(), key=lambda one: (one.told.at_s, one.told.name)))


def _told(fact: Fact, state: State) -> Told:
    event = event_of_fact(fact)
    at_s = 0.0 if state.clock is None else state.clock.at(moment_of(fact)).s
    if isinstance(event, Done):
        return Told(fact.name, fact.kind, event.act, at_s - event.ago_s)
    if isinstance(event, Identified):
        return Told(fact.name, fact.kind, None, at_s, event.order)
    return Told(fact.name, fact.kind, None, at_s)


def _rivals(fact: Fact, told: Told, state: State) -> list[Name]:
    """Facts that count and that this one cannot be beside."""
    event, script = event_of_fact(fact), state.script
    if isinstance(event, Identified) and any(one.name == fact.name for one in state.hung_otherwise):
        counts = order_that_counts(state.orders)
        return [] if counts is None else [counts.name]
    if not isinstance(event, Done) or script is None or script.act(event.act) is None:
        return []
    if event.act in state.stamps:
        return [state.stamps[event.act].name]
    earlier = [key for key in before(script, event.act) if key in state.stamps and state.stamps[key].at_s > told.at_s]
    later = [key for key in after(script, event.act) if key in state.stamps and state.stamps[key].at_s < told.at_s]
    return [state.stamps[key].name for key in (*earlier, *later)]


def _would_count(facts: Sequence[Fact], name: Name, against: Sequence[Name]) -> bool:
    """Whether a fact counts without what is against it: tried, so that nothing is offered that does not help."""
    last = max(facts, key=lambda fact: (fact.at_utc, fact.name))
    gone = [TakenBack(*one) for one in against]
    tried = facts_of_events(gone, moment_of(last), Device("settling", 1))
    before_it = {contested.name for contested in fold(facts).contested}
    left = {contested.name for contested in fold([*facts, *tried]).contested}
    return left <= before_it - {name}
