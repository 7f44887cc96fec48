"""Times of day and lengths of an evening, to the minute, past midnight without confusion."""

from __future__ import annotations

import math

from wetside.cards.count import counted, counted_first
from wetside.wording import sentence

DAY_S = 86_400.0
END_STEP_S = 300.0
"""The end of an evening is told to the next five minutes: more would be a promise. Our choice."""


def clock_time(from_start_s: float, starts_s: float | None) -> str:
    """Time of day, or hours and minutes from the beginning where that has no time of day.

    Parameters
    ----------
    from_start_s : float
        [s]
    starts_s : float or None
        Beginning, counted from midnight. [s]

    Examples
    --------
    >>> clock_time(4500.0, 68_400.0), clock_time(4500.0, None), clock_time(21_600.0, 68_400.0)
    ('20:15', '1:15', '1:00')
    """
    minutes = math.floor(((starts_s or 0.0) + from_start_s) / 60.0 + 0.5)
    if starts_s is not None:
        minutes %= 1440
    return sentence("cards.hour.of_day", {"hour": minutes // 60, "minute": f"{minutes % 60:02d}"})


def days_on(from_start_s: float, starts_s: float | None) -> int:
    """How many midnights lie between the beginning and a moment; 0 without a time of day. [1]

    Examples
    --------
    >>> days_on(21_600.0, 68_400.0), days_on(21_600.0, None)
    (1, 0)
    """
    if starts_s is None:
        return 0
    return math.floor((starts_s + from_start_s) / 60.0 + 0.5) // 1440


def clock_time_said(from_start_s: float, starts_s: float | None) -> str:
    """The same, with its day where it is not the day of the beginning.

    Parameters
    ----------
    from_start_s : float
        [s]
    starts_s : float or None
        Beginning, counted from midnight. [s]

    Examples
    --------
    >>> clock_time_said(21_600.0, 68_400.0)
    '1:00 the next day'
    """
    told = clock_time(from_start_s, starts_s)
    days = days_on(from_start_s, starts_s)
    if not days:
        return told
    if days == 1:
        return sentence("cards.hour.next_day", {"clock": told})
    return sentence("cards.hour.days_later", {"clock": told, "days": counted("day", days)})


def length(lasts_s: float) -> str:
    """Return a stretch of time in minutes, or in hours and minutes from an hour on; at least a minute.

    Parameters
    ----------
    lasts_s : float
        [s]

    Examples
    --------
    >>> length(1500.0), length(7200.0), length(7500.0), length(20.0)
    ('25 min', '2 h', '2 h 05', '1 min')
    """
    minutes = max(1, math.floor(lasts_s / 60.0 + 0.5))
    if minutes < 60:
        return sentence("cards.hour.minutes", {"minutes": minutes})
    code = "cards.hour.hours_minutes" if minutes % 60 else "cards.hour.hours"
    return sentence(code, {"hours": minutes // 60, "minutes": f"{minutes % 60:02d}"})


def rounded_end_s(ends_s: float, starts_s: float | None) -> float:
    """End from the beginning, moved to the next full five minutes of the clock. [s]

    Examples
    --------
    >>> rounded_end_s(3610.0, 68_400.0), rounded_end_s(3600.0, None)
    (3900.0, 3600.0)
    """
    start = starts_s or 0.0
    return math.ceil((start + ends_s) / END_STEP_S - 1e-9) * END_STEP_S - start


def length_in_words(lasts_s: float) -> str:
    """Return a length of whole five minutes as a title says it.

    Parameters
    ----------
    lasts_s : float
        [s]

    Examples
    --------
    >>> length_in_words(18_600.0), length_in_words(7200.0), length_in_words(2400.0)
    ('Five hours ten', 'Two hours', 'Forty minutes')
    """
    minutes = math.floor(lasts_s / 60.0 + 0.5)
    hours, rest = divmod(minutes, 60)
    if not hours:
        return counted_first("minute", rest) if rest % 5 or not rest else _first(rest)
    said = counted_first("hour", hours)
    if not rest:
        return said
    code = f"cards.hour.tens_{rest}"
    tens = sentence(code, {}) if rest % 5 == 0 else str(rest)
    return sentence("cards.hour.said_both", {"hours": said, "minutes": tens})


def _first(minutes: int) -> str:
    from wetside.cards.names import capital

    number = sentence(f"cards.hour.tens_{minutes}", {})
    return capital(sentence("cards.noun.minute_many", {"number": number}))
