"""Whether a reading that a thermometer posts by itself can be used: judged against limits and against the last ones.

A person who reads and types has looked; a thermometer has not. It may hang in the air, send an old value again, or
have its probe pulled out. What is not used is kept beside the run with its reason, and never steers anything.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.bath_limits import COLDEST_C, HOTTEST_C, MOST_HIGH_C
from wetside.runs.events import Where

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.runs.state import ReadingAt

STALE_S = 30.0
"""Our choice: a reading that is older says nothing of now; in that time a vessel that follows its jacket within five
minutes closes a tenth of the gap. [s]"""
AHEAD_S = 5.0
"""Our choice: a sender's clock that is further ahead than this is wrong, and so is the age that it gives. [s]"""
NOISE_C = 0.5
"""Our choice: two good readings of the same liquid differ by so much, for it is never mixed quite evenly. [C]"""
FASTEST_C_PER_S = {Where.DEVELOPER: 15.0 / 300.0, Where.POURED_OUT: 15.0 / 300.0, Where.JACKET: 6.0 / 60.0}
"""How fast a temperature can change without a new liquid. [C/s]

Liquid in a vessel: towards a jacket 15 C away (our choice of the largest gap) with the quickest pace that is common
practice, 5 minutes. Jacket: a heater of 2 kW warms 5 litres by 0.096 C a second (2000 W / (5 kg * 4186 J/(kg C)))."""
STEP_C = {Where.DEVELOPER: 0.0, Where.POURED_OUT: 0.0, Where.JACKET: 10.0}
"""How far a temperature can step at once: hot water or ice is put into a jacket by hand (our choice), never into a
developer. [C]"""
LOOKED_BACK_S = 300.0
"""Our choice: an older reading is no measure of a jump. [s]"""


KEPT: Mapping[str, str] = {
    "runs.reading.no_number": "runs.reading.no_number_kept",
    "runs.reading.absurd": "runs.reading.absurd_kept",
    "runs.reading.offset": "runs.reading.offset_kept",
    "runs.reading.ahead": "runs.reading.ahead_kept",
    "runs.reading.stale": "runs.reading.stale_kept",
    "runs.reading.jump": "runs.reading.jump_kept",
    "runs.reading.clock": "runs.reading.clock_kept",
}
"""What is said later of a reading that was not used: a run keeps the code, not the figures of that moment."""


def kept_code(code: str) -> str:
    """Code of what is said later of a reading that was not used; a newer program's reason is named as such."""
    return KEPT.get(code, "runs.reading.other_kept")


class Posted(NamedTuple):
    """What a thermometer sends: what it shows [C], where it is, how long ago that was read [s], what it shows too much
    [C], and its name.

    ``shown_c`` None where it shows no number. A negative ``age_s`` is a sender's clock that is ahead.
    """

    shown_c: float | None
    where: Where = Where.DEVELOPER
    age_s: float = 0.0
    reads_high_c: float = 0.0
    instrument: str = ""


class Objection(NamedTuple):
    """Why a reading is not used: a code and its parameters."""

    code: str
    params: Mapping[str, object] = {}


def objection_to_reading(
    posted: Posted, at_s: float, earlier: Sequence[ReadingAt], changes_s: Iterable[float] = ()
) -> Objection | None:
    """Why a posted reading is not used.

    Parameters
    ----------
    posted : Posted
    at_s : float
        When it came, on the run's clock. [s]
    earlier : sequence of ReadingAt
        Readings of the run that were used. [s], [C]
    changes_s : iterable of float
        When a liquid was changed: a reading from before says nothing of the next liquid. [s]

    Returns
    -------
    objection : Objection or None
        None where nothing speaks against it.

    Examples
    --------
    >>> objection_to_reading(Posted(85.0), 10.0, ()).code
    'runs.reading.absurd'
    >>> objection_to_reading(Posted(20.1), 10.0, ()) is None
    True
    """
    shown_c = posted.shown_c
    if shown_c is None or not math.isfinite(shown_c):
        return Objection("runs.reading.no_number")
    if not COLDEST_C <= shown_c <= HOTTEST_C:
        return Objection("runs.reading.absurd", {"value": shown_c, "low_c": COLDEST_C, "high_c": HOTTEST_C})
    high_c = posted.reads_high_c
    if not (math.isfinite(high_c) and abs(high_c) <= MOST_HIGH_C and shown_c - high_c >= 0.0):  # no bath is ice
        return Objection("runs.reading.offset", {"value": posted.reads_high_c, "most_c": MOST_HIGH_C})
    if not math.isfinite(posted.age_s) or posted.age_s < -AHEAD_S:
        return Objection("runs.reading.ahead")
    if posted.age_s > STALE_S:
        return Objection("runs.reading.stale", {"age_s": posted.age_s, "most_s": STALE_S})
    return _jump(posted, shown_c - posted.reads_high_c, at_s, earlier, changes_s)


def _jump(
    posted: Posted, true_c: float, at_s: float, earlier: Sequence[ReadingAt], changes_s: Iterable[float]
) -> Objection | None:
    """Objection to a change that nothing but another liquid can make."""
    in_jacket = posted.where is Where.JACKET
    begins_s = at_s - LOOKED_BACK_S
    if not in_jacket:
        begins_s = max([begins_s, *(when for when in changes_s if when <= at_s)])
    alike = [one for one in earlier if (one.where is Where.JACKET) == in_jacket and begins_s <= one.at_s <= at_s]
    if not alike:
        return None
    last = max(alike, key=lambda one: one.at_s)
    passed_s = at_s - last.at_s
    most_c = NOISE_C + STEP_C[posted.where] + FASTEST_C_PER_S[posted.where] * passed_s
    if abs(true_c - last.temp_c) <= most_c:
        return None
    params = {"temp_c": true_c, "last_c": last.temp_c, "ago_s": passed_s, "most_c": most_c}
    return Objection("runs.reading.jump", params)
