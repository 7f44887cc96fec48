"""Differences between two runs in how long and how warm: each a share of developing time, and all of them add."""

from __future__ import annotations

from math import hypot, log, sqrt
from typing import TYPE_CHECKING

from wetside.development.clock import effective_development_s
from wetside.errors import OutOfRangeError
from wetside.planning.documents.note import Note
from wetside.runs.difference import UNKNOWN, Backing, Difference

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wetside.runs.difference import Side
    from wetside.runs.parts import Parts

UNTOLD_S = 10.0
"""Our choice: an end that nobody told lies within the time in which an answer is taken for it. [s]"""
MOST_BEYOND_C = 3.0
"""Our choice: so far beyond the temperatures of the developer's own figures the line is drawn on, as a guess. [C]"""
SAME_S, SAME_C = 0.05, 0.005
"""Differences below what is shown. [s], [C]"""


def coefficient_per_c(one: Side, other: Side) -> float | None:
    """Temperature coefficient that both runs are held to: the mean, or the one that is known. [1/C]"""
    known = [side.script.per_c for side in (one, other) if side.script.per_c is not None]
    return sum(known) / len(known) if known else None


def time_differences(one: Side, other: Side, *, comparable: bool) -> Iterator[Difference]:
    """Differences of time and temperature.

    Parameters
    ----------
    one, other : Side
    comparable : bool
        Whether both are the same film in the same developer: then their times may be held against each other. Else
        only what each run did beside its own plan may.
    """
    before, after = one.parts, other.parts
    if before is None or after is None:
        return
    if comparable:
        yield from _nominal(one, other, before, after)
        yield from _planned_temperature(one, other)
        yield from _clock(one, other, before, after)
    else:
        yield from _each_for_itself(one, other, before, after)
    yield from _done(before, after)
    yield from _course(one, other, before, after)


def _nominal(one: Side, other: Side, before: Parts, after: Parts) -> Iterator[Difference]:
    if abs(after.time_s - before.time_s) >= SAME_S:
        yield Difference(
            "time",
            (_time(one, before), _time(other, after)),
            log(after.time_s / before.time_s),
            backing=Backing.MEASURED,
            remark=Note("runs.compared.own_times") if before.own or after.own else None,
        )


def _time(side: Side, parts: Parts) -> Note:
    return Note("runs.compared.time_value", {"time_s": parts.time_s, "clock": side.script.clock.value})


def _planned_temperature(one: Side, other: Side) -> Iterator[Difference]:
    before_c, after_c = one.script.temp_c, other.script.temp_c
    if abs(after_c - before_c) < SAME_C:
        return
    values = tuple(Note("runs.compared.temp_value", {"temp_c": temp_c}) for temp_c in (before_c, after_c))
    per_c = coefficient_per_c(one, other)
    beyond_c = _beyond_c(one, other, (before_c, after_c))
    if per_c is None or beyond_c > MOST_BEYOND_C:
        code = "runs.compared.no_coefficient" if per_c is None else "runs.compared.outside"
        yield Difference("temperature", values, remark=Note(code))
        return
    backing, remark = _backing_beyond(outside=beyond_c > 0)
    yield Difference("temperature", values, per_c * (after_c - before_c), backing=backing, remark=remark)


def _beyond_c(one: Side, other: Side, temps_c: tuple[float, ...]) -> float:
    """How far temperatures lie outside the span that both runs' coefficients were found at. [C]"""
    spans = [side.script.span_c for side in (one, other) if side.script.span_c is not None]
    return max(
        (max(low_c - temp_c, temp_c - high_c, 0.0) for low_c, high_c in spans for temp_c in temps_c), default=0.0
    )


def _backing_beyond(*, outside: bool) -> tuple[Backing, Note | None]:
    return (Backing.GUIDE, Note("runs.compared.drawn_on")) if outside else (Backing.PUBLISHED, None)


def _clock(one: Side, other: Side, before: Parts, after: Parts) -> Iterator[Difference]:
    """What the rule and the stop leave out of the time or count into it, and what the vessel's own handling adds."""
    whole = log(after.planned_s / after.time_s) - log(before.planned_s / before.time_s)
    rule = _rule_alone(one, other, before, after)
    if one.script.clock is not other.script.clock or one.script.stop is not other.script.stop:
        values = (
            Note("runs.compared.clock_value", {"clock": side.script.clock.value, "stop": side.script.stop.value})
            for side in (one, other)
        )
        yield Difference("clock", tuple(values), rule, backing=Backing.GUIDE)
    else:
        rule = 0.0
    rest = whole - rule
    changed = (one.script.pour_s, one.script.drain_s) != (other.script.pour_s, other.script.drain_s)
    if changed or abs(rest) > 1e-6:
        handling = (
            Note("runs.compared.handling_value", {"pour_s": side.script.pour_s, "drain_s": side.script.drain_s})
            for side in (one, other)
        )
        yield Difference("handling", tuple(handling), rest, backing=Backing.GUIDE)


def _rule_alone(one: Side, other: Side, before: Parts, after: Parts) -> float:
    """Share of time that the clock rule and the stop are worth at the mean time and handling of the two. [1]"""
    time_s = sqrt(before.time_s * after.time_s)
    pour_s = (one.script.pour_s + other.script.pour_s) / 2.0
    drain_s = (one.script.drain_s + other.script.drain_s) / 2.0
    try:
        told = [
            effective_development_s(time_s, side.script.clock, side.script.stop, pour_s, drain_s, pour_s)
            for side in (one, other)
        ]
    except OutOfRangeError:  # the mean time is all pour and drain: then the two cannot be told apart
        return log(after.planned_s / after.time_s) - log(before.planned_s / before.time_s)
    return log(told[1] / told[0])


def _each_for_itself(one: Side, other: Side, before: Parts, after: Parts) -> Iterator[Difference]:
    """Load time against what its sheets want, where the two want different times."""
    wanted = one.known.own_time_s, other.known.own_time_s
    values = tuple(
        Note("runs.compared.against_own", {"time_s": parts.time_s, "own_s": own_s})
        if own_s is not None
        else Note("runs.compared.time_value", {"time_s": parts.time_s, "clock": side.script.clock.value})
        for side, parts, own_s in ((one, before, wanted[0]), (other, after, wanted[1]))
    )
    if wanted[0] is None or wanted[1] is None:
        yield Difference("against-own", tuple(values), remark=Note("runs.compared.own_unknown"))
        return
    share = log(after.time_s / wanted[1]) - log(before.time_s / wanted[0])
    yield Difference("against-own", tuple(values), share, backing=Backing.PUBLISHED)


def _done(before: Parts, after: Parts) -> Iterator[Difference]:
    """Acts that were late or early, and ends that were moved on purpose."""
    untold = tuple(UNTOLD_S / parts.done_s if parts.untold else 0.0 for parts in (before, after))
    if abs(after.hands - before.hands) > 1e-9 or any(untold):
        values = (
            _hands(parts.done_s - parts.shift_s - parts.planned_s, untold=bool(parts.untold))
            for parts in (before, after)
        )
        yield Difference("hands", tuple(values), after.hands - before.hands, hypot(*untold), Backing.MEASURED)
    if abs(after.moved - before.moved) > 1e-9:
        shifts = (_moved(parts.shift_s) for parts in (before, after))
        yield Difference("moved", tuple(shifts), after.moved - before.moved, backing=Backing.MEASURED)


def _moved(shift_s: float) -> Note:
    code = "even" if abs(shift_s) < 0.5 else "later" if shift_s > 0 else "earlier"
    return Note(f"runs.compared.moved_{code}", {"by_s": abs(shift_s)})


def _hands(late_s: float, *, untold: bool) -> Note:
    code = "even" if abs(late_s) < 0.5 else "more" if late_s > 0 else "less"
    return Note(f"runs.compared.{'untold' if untold else 'hands'}_{code}", {"by_s": abs(late_s)})


def _course(one: Side, other: Side, before: Parts, after: Parts) -> Iterator[Difference]:
    """What the temperatures did beside the planned one."""
    read = [bool(parts.wheres) for parts in (before, after)]
    if not any(read):
        return
    values = tuple(
        Note("runs.compared.course_value", {"percent": (parts.actual_s / parts.done_s - 1.0) * 100.0})
        if parts.wheres
        else UNKNOWN
        for parts in (before, after)
    )
    if one.script.per_c is None or other.script.per_c is None:
        yield Difference("course", tuple(values), remark=Note("runs.compared.no_coefficient"))
        return
    outside = before.outside or after.outside
    per_c = max(one.script.per_c, other.script.per_c)
    if outside and max(abs(before.course), abs(after.course)) > per_c * MOST_BEYOND_C:
        yield Difference("course", values, remark=Note("runs.compared.outside"))
        return
    share = after.course - before.course
    spread = hypot(before.course_spread, after.course_spread)
    backing, remark = _backing_beyond(outside=outside)
    if not all(read):
        remark = Note("runs.compared.one_unread")
    if abs(share) > 1e-9 or spread > 1e-9 or remark is not None:
        yield Difference("course", values, share, spread, backing, remark)
