"""Plans reckoned for pages: each evening once, in a worker of its own, waited for only so long.

A plan of many mixed sheets may take seconds. A page waits a moment, then says that it goes on and asks again; the
answer is kept for whoever asks next.
"""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict
from concurrent.futures import Future, ThreadPoolExecutor
from concurrent.futures import TimeoutError as StillAtWork
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.clock import today
from wetside.adapters.evening_writer import plain_values, write_evening
from wetside.errors import OutOfRangeError, RefusedError
from wetside.services.library import load_library
from wetside.services.plan_evening import TOOL

if TYPE_CHECKING:
    import datetime as dt

    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.plan import Plan
    from wetside.planning.library import Library

WAIT_S = 4.0
"""A page waits so long for its plan, and says then that it goes on. Our choice. [s]"""

MOST_SHEETS = 500
"""Sheets of one plan: more than anybody develops in an evening. Our choice."""

MOST_AT_WORK = 6
"""Plans that are reckoned or wait for it; whoever asks for another is told to come back. Our choice."""

_KEPT = 48
_workers = ThreadPoolExecutor(max_workers=2, thread_name_prefix="plan")
_known: OrderedDict[str, Future[Plan]] = OrderedDict()
_lock = threading.Lock()


class Reckoned(NamedTuple):
    """A plan, or None while it is at work; ``seen`` names the evening that it is of."""

    seen: str
    plan: Plan | None


def seen_of(evening: Evening) -> str:
    """Name of an evening by its content, so that a page can say which one it showed."""
    return hashlib.sha256(write_evening(evening).encode()).hexdigest()


def reckon(evening: Evening, wait_s: float = WAIT_S) -> Reckoned:
    """Plan an evening, or say that it is at work.

    Parameters
    ----------
    evening : Evening
        Read and cross-checked.
    wait_s : float
        How long to wait for it. [s]

    Returns
    -------
    reckoned : Reckoned

    Raises
    ------
    OutOfRangeError
        If the evening has more sheets than one plan may have.
    RefusedError
        If too many plans are at work already.
    WetsideError
        As the planner raises it.
    """
    if len(evening.sheets) > MOST_SHEETS:
        raise OutOfRangeError("services.plans.too_many", sheets=len(evening.sheets), most=MOST_SHEETS)
    seen = seen_of(evening)
    day = today()  # asked here, for the workers know no darkroom
    key = f"{seen} {day.isoformat()}"
    with _lock:
        work = _known.get(key)
        if work is None:
            if sum(not other.done() for other in _known.values()) >= MOST_AT_WORK:
                raise RefusedError("services.plans.busy", most=MOST_AT_WORK)
            work = _known[key] = _workers.submit(_plan, evening, day)
            while len(_known) > _KEPT:
                _known.popitem(last=False)
        _known.move_to_end(key)
    try:
        return Reckoned(seen, work.result(wait_s))
    except StillAtWork:
        return Reckoned(seen, None)


def _plan(evening: Evening, day: dt.date) -> Plan:
    from wetside.planning.evening_plan import plan_evening

    return plan_evening(evening, _library(), today=day, tool=TOOL, inputs=plain_values(evening))


@cache
def _library() -> Library:
    return load_library()
