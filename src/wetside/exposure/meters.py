"""Exposure values, and the light that a meter reads."""

from __future__ import annotations

import math

from wetside.exposure import _limits as limits

_METER_CONSTANT = (1.0, 1000.0)

REFLECTED_K = 12.5
"""Constant of a reflected-light meter that is most in use (wikipedia-light-meter). [cd s/m2]"""
INCIDENT_C = 250.0
"""Constant of an incident-light meter with a flat receptor that is most in use (wikipedia-light-meter). [lx s]"""


def exposure_value(aperture_n: float, time_s: float, iso: float = 100.0) -> float:
    """Exposure value, reduced to ISO 100.

    Parameters
    ----------
    aperture_n : float
        Exact f-number; an engraved one goes through :func:`aperture_exact` first. [1]
    time_s : float
        Exact time; likewise. [s]
    iso : float
        Exposure index that the pair belongs to; 100 gives the plain ``Av + Tv``. [1]

    Returns
    -------
    exposure_value : float
        [EV]

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    Notes
    -----
    ``Av + Tv - log2(iso / 100)`` with ``Av = log2(N ** 2)`` and ``Tv = log2(1 / t)``: 0 is f/1 and 1 s.

    References
    ----------
    .. [1] wikipedia-exposure-value, after ASA PH2.5-1960.

    Examples
    --------
    >>> exposure_value(16.0, 1 / 128), exposure_value(16.0, 1 / 128, iso=400.0)
    (15.0, 13.0)
    """
    av = 2.0 * math.log2(limits.aperture(aperture_n))
    tv = -math.log2(limits.time(time_s))
    return av + tv - math.log2(limits.rating(iso) / 100.0)


def metered_time_s(ev: float, aperture_n: float, iso: float = 100.0) -> float:
    """Time that an exposure value asks for at an aperture, before any correction.

    Parameters
    ----------
    ev : float
        Exposure value at ISO 100, after placement. [EV]
    aperture_n : float
        Exact f-number. [1]
    iso : float
        Exposure index of the film. [1]

    Returns
    -------
    metered_time_s : float
        ``N ** 2 / 2 ** EV * 100 / iso``. [s]

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    References
    ----------
    .. [1] wikipedia-exposure-value.

    Examples
    --------
    >>> metered_time_s(11.0, 16.0)
    0.125
    """
    ratio = 100.0 / limits.rating(iso)
    return float(limits.aperture(aperture_n) ** 2 * ratio / 2.0 ** limits.exposure_value_number(ev))


def luminance_cd_m2(ev: float, k: float = REFLECTED_K) -> float:
    """Luminance that a reflected-light meter takes for an exposure value.

    Parameters
    ----------
    ev : float
        At ISO 100. [EV]
    k : float
        Constant of the meter. [cd s/m2]

    Returns
    -------
    luminance_cd_m2 : float
        ``K * 2 ** EV / 100``. [cd/m2]

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    References
    ----------
    .. [1] wikipedia-light-meter, ``N ** 2 / t = L S / K``.

    Examples
    --------
    >>> luminance_cd_m2(0.0), luminance_cd_m2(15.0)
    (0.125, 4096.0)
    """
    constant = limits.within("exposure.meter_constant.out_of_range", k, _METER_CONSTANT)
    return float(constant * 2.0 ** limits.exposure_value_number(ev) / 100.0)


def illuminance_lx(ev: float, c: float = INCIDENT_C) -> float:
    """Illuminance that an incident-light meter takes for an exposure value.

    Parameters
    ----------
    ev : float
        At ISO 100. [EV]
    c : float
        Constant of the meter; a dome has a larger one than a flat receptor. [lx s]

    Returns
    -------
    illuminance_lx : float
        ``C * 2 ** EV / 100``. [lx]

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    References
    ----------
    .. [1] wikipedia-light-meter, ``N ** 2 / t = E S / C``.

    Examples
    --------
    >>> illuminance_lx(15.0)
    81920.0
    """
    constant = limits.within("exposure.meter_constant.out_of_range", c, _METER_CONSTANT)
    return float(constant * 2.0 ** limits.exposure_value_number(ev) / 100.0)
