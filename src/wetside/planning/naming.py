"""Which of several equal sheets goes into which load: the least important first, twins apart."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.order import RISK, waiting_days

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from wetside.planning.assemble import Placed
    from wetside.planning.groups import SheetInGroup


def by_importance(
    placed: Sequence[Placed], file_order: Mapping[str, int], today: dt.date, *, twins_apart: bool
) -> list[Placed]:
    """Exchange equal sheets between loads so that what may be lost most comes last.

    Sheets are equal where size and every need are the same, so that an exchange changes no load's time, volume or
    deviation. Suspects stay where they are.

    Parameters
    ----------
    placed : sequence of Placed
        In the order of the evening.
    file_order : mapping of str to int
        Rank of each sheet in the evening file; members of a load stand in it.
    today : date
    twins_apart : bool
        Whether twins must not meet.
    """
    slots: dict[object, list[tuple[int, int]]] = {}
    for place, load in enumerate(placed):
        for seat, one in enumerate(load.members):
            if not one.resolved.sheet.suspect:
                slots.setdefault(_kind(load.group, one), []).append((place, seat))
    members = [list(load.members) for load in placed]
    for seats in slots.values():
        if len({place for place, _ in seats}) > 1:
            _deal(members, seats, today, twins_apart=twins_apart)
    return [
        load._replace(members=tuple(sorted(one, key=lambda sheet: file_order[sheet.resolved.sheet.id])))
        for load, one in zip(placed, members, strict=True)
    ]


def _kind(group: int, one: SheetInGroup) -> object:
    needs = tuple((vessel, id(need.deviation), need.window, need.weight) for vessel, need in sorted(one.needs.items()))
    return group, one.size_name, one.area_cm2, needs


def _deal(
    members: list[list[SheetInGroup]], seats: Sequence[tuple[int, int]], today: dt.date, *, twins_apart: bool
) -> None:
    """Give the seats of a kind anew, the first seat to the least important; as they were where twins would meet."""
    before = [members[place][seat] for place, seat in seats]
    for (place, seat), one in zip(seats, sorted(before, key=lambda one: _rank(one, today)), strict=True):
        members[place][seat] = one
    if twins_apart and not _part_twins(members, seats):
        for (place, seat), one in zip(seats, before, strict=True):
            members[place][seat] = one


def _part_twins(members: list[list[SheetInGroup]], seats: Sequence[tuple[int, int]]) -> bool:
    """Exchange single seats until no twins meet, the nearest exchange in rank first; False where that does not help."""
    for index, (place, seat) in enumerate(seats):
        if not _meets_twin(members, place, seat):
            continue
        others = sorted(
            (other for other in range(len(seats)) if seats[other][0] != place), key=lambda other: abs(other - index)
        )
        for other in others:
            far_place, far_seat = seats[other]
            here, there = members[place][seat], members[far_place][far_seat]
            members[place][seat], members[far_place][far_seat] = there, here
            if not (_meets_twin(members, place, seat) or _meets_twin(members, far_place, far_seat)):
                break
            members[place][seat], members[far_place][far_seat] = here, there
        else:
            return False
    return True


def _meets_twin(members: list[list[SheetInGroup]], place: int, seat: int) -> bool:
    twin = members[place][seat].resolved.sheet.twin
    return twin is not None and any(one.resolved.sheet.id == twin for one in members[place])


def _rank(one: SheetInGroup, today: dt.date) -> tuple[object, ...]:
    sheet = one.resolved.sheet
    second = bool(sheet.twin and sheet.twin.casefold() < sheet.id.casefold())
    return RISK[sheet.importance], second, -(waiting_days(one, today) or 0)
