"""Which backups are kept: the newest ones, then one a day, then one a month."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.adapters.backup_store import Backup

NEWEST_KEPT = 10
"""Our choice: the last ones, however close together. [1]"""
DAYS_KEPT = 30
"""Our choice: the newest of each day for so long. [days]"""


def surplus(backups: Iterable[Backup], now: dt.datetime) -> tuple[Backup, ...]:
    """Backups that may go.

    The last :data:`NEWEST_KEPT` stay, the newest of each day for :data:`DAYS_KEPT` days, and the newest of each month
    for good. Days and months are those of UTC.

    Parameters
    ----------
    backups : iterable of Backup
        Verified ones only: others neither count nor stand in the way of one that does.
    now : datetime
    """
    ordered = sorted(backups, key=lambda one: (one.made_at, one.name), reverse=True)
    stays = {one.name for one in ordered[:NEWEST_KEPT]}
    days: set[dt.date] = set()
    months: set[tuple[int, int]] = set()
    for one in ordered:
        made = one.made_at.astimezone(dt.UTC)
        if made.date() not in days and now - made <= dt.timedelta(days=DAYS_KEPT):
            stays.add(one.name)
        if (made.year, made.month) not in months:
            stays.add(one.name)
        days.add(made.date())
        months.add((made.year, made.month))
    return tuple(one for one in ordered if one.name not in stays)
