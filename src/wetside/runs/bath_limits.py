"""Temperatures that a bath can have, and how far off a thermometer is that is of use."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wetside.runs.events import Read

COLDEST_C, HOTTEST_C = 2.0, 60.0
"""No bath of this house is colder or hotter; a reading beyond is a slip of the finger, or a broken probe. [C]"""
MOST_HIGH_C = 15.0
"""An instrument that is further off is of no use. [C]"""


def is_of_a_bath(reading: Read) -> bool:
    """Whether a liquid can have been as a reading says, by an instrument that is of use.

    Examples
    --------
    >>> from wetside.runs.events import Read, Where
    >>> is_of_a_bath(Read(19.6, Where.DEVELOPER)), is_of_a_bath(Read(300.0, Where.DEVELOPER))
    (True, False)
    """
    shown = COLDEST_C <= reading.shown_c <= HOTTEST_C and abs(reading.reads_high_c) <= MOST_HIGH_C
    return shown and reading.true_c >= 0.0
