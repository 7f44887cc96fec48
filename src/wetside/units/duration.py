"""Times as people type them: m:ss, or a number with its unit."""

from __future__ import annotations

import re

from wetside.errors import AmbiguousError, OutOfRangeError, UnreadableError
from wetside.units.number import FRACTION, NUMBER, cleaned
from wetside.units.quantity import check_limits, parse_quantity, unit_of
from wetside.units.table import unit_table

_CLOCK = re.compile(r"(?:([0-9]{1,4}):(?=[0-9]{2}:))?([0-9]{1,5}):([0-9]{2}(?:[.,][0-9]{1,12})?)(?: ?min)?")
_BARE = re.compile(rf"[+-]? ?(?:{NUMBER})")
_BARE_FRACTION = re.compile(FRACTION)
_PART = re.compile(r"([0-9]+(?:[.,][0-9]+)?) ?([^\W0-9]+|['\"′″]+) ?")
_DASH = re.compile(r"(?<![eE]) ?(?:[-\N{EN DASH}\N{EM DASH}]|\bto\b) ?")
_EXAMPLE = "7:30"


def parse_duration_s(text: str, *, low_s: float | None = None, high_s: float | None = None) -> float:
    """Time. [s]

    Parameters
    ----------
    text : str
        ``7:30`` is minutes and seconds, ``1:02:00`` hours, minutes and seconds; else a number with its unit (``90 s``,
        ``7.5 min``, ``2h``, ``7 min 30 s``) or an engraved fraction of a second (``1/15``). A bare number is refused,
        and so is ``8.30``: it may be 8:30 or 8:18.
    low_s, high_s : float, optional
        Limits, both allowed; zero to ten days if absent. [s]

    Raises
    ------
    AmbiguousError
        If it is a number without a unit.
    OutOfRangeError
        If it lies outside the limits, or 60 or more stands after a colon.
    UnreadableError
        If it is not a time.

    Examples
    --------
    >>> parse_duration_s("7:30"), parse_duration_s("7.5 min"), parse_duration_s("1:02:00"), parse_duration_s("2h")
    (450.0, 450.0, 3720.0, 7200.0)
    """
    clean = cleaned(text, _EXAMPLE)
    shape = unit_table().kinds["duration"]
    if ":" in clean:
        return check_limits(_clock_s(clean, text), shape, text, low_s, high_s)
    if _BARE_FRACTION.fullmatch(clean):
        return parse_quantity(f"{clean} s", "duration", low_s, high_s)
    if _BARE.fullmatch(clean):
        raise AmbiguousError("units.duration.bare", value=text, choices=_readings(clean))
    parts = _PART.findall(clean)
    if len(parts) > 1 and not _PART.sub("", clean):
        return check_limits(_sum_s(parts, text), shape, text, low_s, high_s)
    return parse_quantity(clean, "duration", low_s, high_s)


def _clock_s(clean: str, text: str) -> float:
    match = _CLOCK.fullmatch(clean)
    if match is None:
        raise UnreadableError("units.duration.unreadable", value=text, example=_EXAMPLE)
    hours, minutes, seconds = match.groups()
    seconds_s = float(seconds.replace(",", "."))
    if seconds_s >= 60 or (hours is not None and int(minutes) >= 60):
        raise OutOfRangeError("units.duration.sixty", value=text, example=_EXAMPLE)
    return int(hours or 0) * 3600.0 + int(minutes) * 60.0 + seconds_s


def _sum_s(parts: list[tuple[str, str]], text: str) -> float:
    total_s, last = 0.0, float("inf")
    for digits, spelling in parts:
        unit = unit_of("duration", spelling, text)
        worth_s = unit.factor / unit.divisor
        if worth_s >= last:
            raise UnreadableError("units.duration.unreadable", value=text, example=_EXAMPLE)
        last = worth_s
        total_s += parse_quantity(f"{digits} {spelling}", "duration", 0.0, float("inf"))
    return total_s


def _readings(clean: str) -> tuple[str, ...]:
    """Two readings of a number without a unit, as they would be written."""
    whole, mark, decimals = re.sub("[.,]", ".", clean).partition(".")
    if mark and len(decimals) == 2 and decimals < "60" and whole.isdigit():
        return f"{whole}:{decimals}", f"{clean} min"
    return f"{clean} min", f"{clean} s"


def parse_duration_span_s(text: str, *, low_s: float | None = None, high_s: float | None = None) -> tuple[float, float]:
    """Time, or a span of two times. [s]

    Parameters
    ----------
    text : str
        ``7:00-8:00``, ``7-8 min`` or one time, which is a span of no width.
    low_s, high_s : float, optional
        Limits of both ends, both allowed. [s]

    Raises
    ------
    InputError
        See :func:`parse_duration_s`.
    OutOfRangeError
        If the first end is later than the second.

    Examples
    --------
    >>> parse_duration_span_s("7-8 min"), parse_duration_span_s("7:30")
    ((420.0, 480.0), (450.0, 450.0))
    """
    clean = cleaned(text, "7:00-8:00")
    ends = _DASH.split(clean)
    if len(ends) != 2 or not all(ends):
        time_s = parse_duration_s(text, low_s=low_s, high_s=high_s)
        return time_s, time_s
    first, last = ends
    if _BARE.fullmatch(first) and ":" not in last:
        # "7-8 min": the unit stands once and belongs to both.
        unit = re.sub(rf"^(?:{FRACTION}|{NUMBER})", "", last)
        if unit.strip():
            first += unit
    early_s = parse_duration_s(first, low_s=low_s, high_s=high_s)
    late_s = parse_duration_s(last, low_s=low_s, high_s=high_s)
    if early_s > late_s:
        raise OutOfRangeError("units.duration.span_reversed", value=text, example="7:00-8:00")
    return early_s, late_s
