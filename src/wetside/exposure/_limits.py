"""What a lens, a shutter and a scene can have: numbers outside are refused, so that nothing later can overflow."""

from __future__ import annotations

from wetside.errors import OutOfRangeError

# Our choice, wider than anything made: a pinhole is f/500, a night exposure some hours, a copy lens reaches ten times.
APERTURE_N = (0.5, 1024.0)
TIME_S = (1e-6, 1e6)
RUNNING_TIME_S = (1e-7, 1e60)
EI = (0.01, 1e6)
EV = (-30.0, 50.0)
FACTOR = (1.0, 1e5)
LIGHT_FACTOR = (1e-3, 1e3)
STOPS = (-60.0, 60.0)
ZONE = (0.0, 12.0)
LENGTH_MM = (1.0, 20000.0)
MAGNIFICATION = (0.0, 100.0)
DENSITY = (0.0, 5.0)


def within(code: str, value: float, limits: tuple[float, float]) -> float:
    """Return the value, or refuse it with a code.

    Parameters
    ----------
    code : str
        Code of the refusal; its parameters are ``value``, ``low`` and ``high``.
    value : float
        What was given, in the house unit. [any]
    limits : tuple of float
        Lowest and highest value allowed, both included. [as value]

    Raises
    ------
    OutOfRangeError
        If the value lies outside or is not a number.

    Examples
    --------
    >>> within("exposure.zone.out_of_range", 3.0, ZONE)
    3.0
    """
    low, high = limits
    if not low <= value <= high:
        raise OutOfRangeError(code, value=value, low=low, high=high)
    return float(value)


def aperture(value: float) -> float:
    """Return an f-number that can be. [1]"""
    return within("exposure.aperture.out_of_range", value, APERTURE_N)


def time(value: float) -> float:
    """Return an exposure time that can be. [s]"""
    return within("exposure.time.out_of_range", value, TIME_S)


def running_time(value: float) -> float:
    """Return a time in the middle of a computation, where corrections may have made it very long. [s]"""
    return within("exposure.time.out_of_range", value, RUNNING_TIME_S)


def factor(value: float) -> float:
    """Return a factor that only takes light away. [1]"""
    return within("exposure.factor.out_of_range", value, FACTOR)


def rating(value: float) -> float:
    """Return an exposure index that can be. [1]"""
    return within("exposure.ei.out_of_range", value, EI)


def exposure_value_number(value: float) -> float:
    """Return an EV that can be. [EV]"""
    return within("exposure.ev.out_of_range", value, EV)


def zone(value: float) -> float:
    """Return a zone from 0 to XII: the scale ends at X, a reading may not. [zone]"""
    return within("exposure.zone.out_of_range", value, ZONE)
