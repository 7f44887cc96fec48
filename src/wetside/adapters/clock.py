"""The only place that asks what day it is."""

from __future__ import annotations

import datetime as dt


def today() -> dt.date:
    """Today's date where the machine stands."""
    return dt.datetime.now().astimezone().date()  # noqa: TID251 (this is the adapter that may ask)
