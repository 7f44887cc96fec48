"""The only place that asks what day and what time it is."""

from __future__ import annotations

import datetime as dt


def today() -> dt.date:
    """Today's date where the machine stands."""
    return dt.datetime.now().astimezone().date()  # noqa: TID251 (this is the adapter that may ask)


def now() -> dt.datetime:
    """The moment of the call, in UTC."""
    return dt.datetime.now(dt.UTC)  # noqa: TID251 (this is the adapter that may ask)
