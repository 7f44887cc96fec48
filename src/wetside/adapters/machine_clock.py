"""Now, on this machine: by the wall clock, and by a clock that counts from the machine's start through its sleep."""

from __future__ import annotations

import datetime as dt
import sys
import time
import uuid
from functools import cache
from pathlib import Path

from wetside.runs.moment import Moment

BOOT_ID = Path("/proc/sys/kernel/random/boot_id")


def boot_s() -> float:
    """Seconds since the machine's start, sleep included where the system has such a clock. [s]

    Linux names it; the plain clock of macOS and Windows counts on through sleep by itself there.
    """
    if sys.platform == "linux":
        return time.clock_gettime(time.CLOCK_BOOTTIME)
    if sys.platform == "darwin":
        return time.clock_gettime(time.CLOCK_MONOTONIC)
    return time.monotonic()


@cache
def boot_id() -> str:
    """Name of this start of the machine; where the system has none, one of this process.

    Then a program that takes a run up again goes by the wall clock, and says so.
    """
    try:
        return BOOT_ID.read_text("ascii").strip() or f"process-{uuid.uuid4()}"
    except (OSError, ValueError):
        return f"process-{uuid.uuid4()}"


def moment_now() -> Moment:
    """Return this moment."""
    return Moment(dt.datetime.now(dt.UTC), boot_s(), boot_id())  # noqa: TID251 (this is the adapter that may ask)
