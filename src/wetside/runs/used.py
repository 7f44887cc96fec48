"""What a run has used of each bath: the fills that were really poured, as far as the run's facts say."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.words import BathKind
from wetside.runs.schedule import How, schedule_at
from wetside.runs.script import bath_number
from wetside.runs.state import Status
from wetside.values.conditions import StopKind

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Act
    from wetside.runs.schedule import Schedule
    from wetside.runs.state import State

_SURE = (How.TOLD, How.INFERRED)
_DONE = (*_SURE, How.ASSUMED)


class BathUsed(NamedTuple):
    """Fills of one bath that were poured.

    ``key`` is the number of the first of them; ``fills`` how many; volumes are of all fills together, None where the
    script says none [ml]; ``sure`` is False where nobody told of the bath and it is only taken to have been poured.
    """

    key: int
    kind: BathKind
    bath: str
    bottle: str | None
    after: str | None
    fills: int
    volume_ml: float | None
    concentrate_ml: float | None
    water_ml: float | None
    sure: bool


def baths_used(state: State, schedule: Schedule) -> tuple[BathUsed, ...]:
    """Baths that were poured, in the order of the hands.

    Parameters
    ----------
    state : State
    schedule : Schedule
        At the end of the run, or when it was given up.

    Notes
    -----
    A run that ended went through its baths, so that what nobody told counts with the rest. One that was given up counts
    only as far as hands told, or as what they told implies.

    Fills of one kind that follow each other, such as three changes of a wash, are one bath.
    """
    may_count = _SURE if state.status is Status.ABANDONED else _DONE
    found: list[BathUsed] = []
    last: Act | None = None
    for due in schedule.dues:
        act = due.act
        if act.does not in ("pour", "move") or due.at_s is None or due.how not in may_count:
            continue
        sure = due.how in _SURE
        if (
            last is not None
            and act.changes > 1
            and (act.kind, act.bath, act.bottle) == (last.kind, last.bath, last.bottle)
        ):
            before = found[-1]
            found[-1] = before._replace(
                fills=before.fills + 1,
                volume_ml=_sum(before.volume_ml, act.volume_ml),
                concentrate_ml=_sum(before.concentrate_ml, act.concentrate_ml),
                water_ml=_sum(before.water_ml, act.water_ml),
                sure=before.sure or sure,
            )
        else:
            found.append(_first(act, sure=sure))
        last = act
    return tuple(found)


def has_developed(state: State, until_s: float) -> bool:
    """Whether a developer was poured, as far as the run is known until then [s]; a run that was only opened has not."""
    return state.status not in (Status.NOTHING, Status.READY) and any(
        bath.kind is BathKind.DEVELOP for bath in baths_used(state, schedule_at(state, until_s))
    )


def _first(act: Act, *, sure: bool) -> BathUsed:
    return BathUsed(
        key=bath_number(act.key),
        kind=BathKind(act.kind),
        bath=act.bath,
        bottle=act.bottle,
        after=act.after,
        fills=1,
        volume_ml=act.volume_ml,
        concentrate_ml=act.concentrate_ml,
        water_ml=act.water_ml,
        sure=sure,
    )


def _sum(first: float | None, second: float | None) -> float | None:
    return None if first is None and second is None else (first or 0.0) + (second or 0.0)


def is_water(used: BathUsed, stop: StopKind) -> bool:
    """Whether a bath is plain water from the tap: a pre-soak, a wash, a stop of water; never what a bottle holds."""
    if used.bottle is not None:
        return False
    if used.kind is BathKind.STOP:
        return stop is StopKind.WATER
    return used.kind in (BathKind.PRESOAK, BathKind.WASH)


def water_ml(used: tuple[BathUsed, ...], stop: StopKind) -> float:
    """Water that a run has used: washes and pre-soak, and the water that a developer was mixed with. [ml]

    Parameters
    ----------
    used : tuple of BathUsed
    stop : StopKind
        What ended development.
    """
    total = 0.0
    for one in used:
        if is_water(one, stop):
            total += one.volume_ml or 0.0
        elif one.kind is BathKind.DEVELOP:
            total += one.water_ml or 0.0
    return total
