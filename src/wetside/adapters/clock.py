"""The only place that asks what day and what time it is, where the darkroom stands."""

from __future__ import annotations

import datetime as dt
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

_ZONE: ContextVar[dt.tzinfo | None] = ContextVar("zone", default=None)


@contextmanager
def in_zone(zone: dt.tzinfo | None) -> Iterator[None]:
    """Let days begin and end as they do in a time zone; None is the machine's own."""
    token = _ZONE.set(zone)
    try:
        yield
    finally:
        _ZONE.reset(token)


def today() -> dt.date:
    """Today's date where the darkroom stands."""
    return day_of(now())


def day_of(moment: dt.datetime) -> dt.date:
    """Date of a moment where the darkroom stands.

    Parameters
    ----------
    moment : datetime
        With its time zone.
    """
    return moment.astimezone(_ZONE.get()).date()


def now() -> dt.datetime:
    """The moment of the call, in UTC."""
    return dt.datetime.now(dt.UTC)  # noqa: TID251 (this is the adapter that may ask)


def zone_mark(moment: dt.datetime) -> str:
    """Offset of a moment in the hour that a clock shows twice, "UTC+2"; empty for all others.

    Parameters
    ----------
    moment : datetime
        In the zone that it is shown in.

    Examples
    --------
    >>> from zoneinfo import ZoneInfo
    >>> berlin = ZoneInfo("Europe/Berlin")
    >>> zone_mark(dt.datetime(2026, 10, 25, 2, 30, tzinfo=berlin))
    'UTC+2'
    >>> zone_mark(dt.datetime(2026, 10, 25, 2, 30, fold=1, tzinfo=berlin))
    'UTC+1'
    >>> zone_mark(dt.datetime(2026, 10, 25, 3, 30, tzinfo=berlin))
    ''
    """
    offset, other = moment.utcoffset(), moment.replace(fold=1 - moment.fold).utcoffset()
    if offset is None or other is None or offset == other:
        return ""
    minutes = round(offset.total_seconds() / 60.0)
    sign = "+" if minutes >= 0 else "\N{MINUS SIGN}"
    hours, rest = divmod(abs(minutes), 60)
    return f"UTC{sign}{hours}" + (f":{rest:02d}" if rest else "")
