"""The order of loads, by risk: what may be lost most goes when least is left to chance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.planning.documents.words import Importance

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from wetside.planning.groups import SheetInGroup

RISK = {Importance.TEST: 0, Importance.ORDINARY: 1, Importance.IRREPLACEABLE: 2}

WAITING_DAYS = 90
"""A latent image this old goes first; common practice. [days]"""


def waiting_days(one: SheetInGroup, today: dt.date) -> int | None:
    """Days since a sheet was exposed; None where not written down."""
    exposed = one.resolved.sheet.exposed
    return None if exposed is None else (today - exposed).days


def order_key(members: Sequence[SheetInGroup], time_s: float, today: dt.date, *, untested: bool) -> tuple[object, ...]:
    """Sort key of a load.

    While anything of the evening is untested the least important load comes first, so that a wrong time is found on a
    test sheet and not on the one that cannot be made again. A load with a sheet that has waited long comes before
    others of its risk. Of twins, the later named goes later. Then by age, time and label, so that plans repeat.

    Parameters
    ----------
    members : sequence of SheetInGroup
        Sheets of the load.
    time_s : float
        Time of the load. [s]
    today : date
        Day from which the age of a sheet is counted.
    untested : bool
        Whether anything of the evening is untested.
    """
    risk = max(RISK[one.resolved.sheet.importance] for one in members) if untested else 0
    ages = [days for days in (waiting_days(one, today) for one in members) if days is not None]
    oldest = max(ages, default=0)
    second_twins = sum(
        1
        for one in members
        if one.resolved.sheet.twin and one.resolved.sheet.twin.casefold() < one.resolved.sheet.id.casefold()
    )
    labels = sorted(one.resolved.sheet.id for one in members)
    return (risk, oldest < WAITING_DAYS, second_twins, -oldest, time_s, labels)
