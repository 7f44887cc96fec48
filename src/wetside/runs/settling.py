"""Facts that speak against each other, and what settles them: one of the two is taken back, and both stay stored."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.events import Device, Done, TakenBack, event_of_fact, facts_of_events
from wetside.runs.fold import fold, moment_of
from wetside.runs.state import after, before

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.runs.fact import Fact
    from wetside.runs.state import Name, State


class Told(NamedTuple):
    """One observation: its fact's name, what kind it is, the act that it tells or None, and for when on the run's
    clock. [s]
    """

    name: Name
    kind: str
    act: str | None
    at_s: float


class Question(NamedTuple):
    """A fact that does not count, and what speaks against it.

    ``rivals`` are the facts that count instead; ``may_count`` whether it would count if they were left out;
    ``may_go`` whether it can be left out for good.
    """

    told: Told
    code: str
    rivals: tuple[Told, ...]
    may_count: bool
    may_go: bool


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
        may_count = bool(rivals) and _would_count(facts, contested.name, rivals)
        found.append(Question(told, contested.code, rivals, may_count, contested.kind != TakenBack.KIND))
    return tuple(sorted(found, key=lambda one: (one.told.at_s, one.told.name)))


def _told(fact: Fact, state: State) -> Told:
    event = event_of_fact(fact)
    at_s = 0.0 if state.clock is None else state.clock.at(moment_of(fact)).s
    if isinstance(event, Done):
        return Told(fact.name, fact.kind, event.act, at_s - event.ago_s)
    return Told(fact.name, fact.kind, None, at_s)


def _rivals(fact: Fact, told: Told, state: State) -> list[Name]:
    """Facts that count and that this one cannot be beside."""
    event, script = event_of_fact(fact), state.script
    if not isinstance(event, Done) or script is None or script.act(event.act) is None:
        return []
    if event.act in state.stamps:
        return [state.stamps[event.act].name]
    earlier = [key for key in before(script, event.act) if key in state.stamps and state.stamps[key].at_s > told.at_s]
    later = [key for key in after(script, event.act) if key in state.stamps and state.stamps[key].at_s < told.at_s]
    return [state.stamps[key].name for key in (*earlier, *later)]


def _would_count(facts: Sequence[Fact], name: Name, rivals: Sequence[Told]) -> bool:
    """Whether a fact counts once its rivals are left out: tried, so that nothing is offered that does not help."""
    last = max(facts, key=lambda fact: (fact.at_utc, fact.name))
    gone = [TakenBack(*rival.name) for rival in rivals]
    tried = facts_of_events(gone, moment_of(last), Device("settling", 1))
    before_it = {contested.name for contested in fold(facts).contested}
    left = {contested.name for contested in fold([*facts, *tried]).contested}
    return left <= before_it - {name}
