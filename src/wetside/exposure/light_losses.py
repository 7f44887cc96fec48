"""Light lost on the way to the film: bellows and filters. Factors are multiplied, stops are added."""

from __future__ import annotations

import math

from wetside.errors import OutOfRangeError
from wetside.exposure import _limits as limits

_THIRDS = 3.0


def bellows_factor(extension_mm: float, focal_length_mm: float) -> float:
    """Exposure multiplier for a lens extended beyond its focal length.

    Parameters
    ----------
    extension_mm : float
        Rear nodal point to film; at least ``focal_length_mm``. [mm]
    focal_length_mm : float
        [mm]

    Returns
    -------
    bellows_factor : float
        Multiplies the metered time; 1 at infinity. [1]

    Raises
    ------
    OutOfRangeError
        If a length is not from 1 to 20,000 mm, the extension is shorter than the focal length, or the factor would pass
        100,000.

    Notes
    -----
    ``(extension / focal length) ** 2``; holds for lenses of pupil magnification 1, not for telephoto designs.

    References
    ----------
    .. [1] us-army-ss0512, copy photography, exposure factor for extension.

    Examples
    --------
    >>> bellows_factor(450.0, 300.0)
    2.25
    """
    extension = limits.within("exposure.extension.out_of_range", extension_mm, limits.LENGTH_MM)
    focal = limits.within("exposure.focal_length.out_of_range", focal_length_mm, limits.LENGTH_MM)
    if extension < focal:
        raise OutOfRangeError("exposure.extension.too_short", value=extension, focal_length_mm=focal)
    return limits.factor((extension / focal) ** 2)


def bellows_factor_magnification(magnification: float) -> float:
    """Exposure multiplier for a scale of reproduction.

    Parameters
    ----------
    magnification : float
        Size on the film over size of the subject. [1]

    Returns
    -------
    bellows_factor_magnification : float
        ``(1 + m) ** 2``; the same caution as for :func:`bellows_factor`. [1]

    Raises
    ------
    OutOfRangeError
        If the magnification is negative, over 100 or not a number.

    References
    ----------
    .. [1] us-army-ss0512.

    Examples
    --------
    >>> bellows_factor_magnification(1.0)
    4.0
    """
    m = limits.within("exposure.magnification.out_of_range", magnification, limits.MAGNIFICATION)
    return (1.0 + m) ** 2


def factor_stops(factor: float) -> float:
    """Worth of a factor in stops, ``log2(factor)``.

    Parameters
    ----------
    factor : float
        1 or more. [1]

    Raises
    ------
    OutOfRangeError
        If the factor is under 1, over 100,000 or not a number.

    References
    ----------
    .. [1] liquisearch-filter-factor.

    Examples
    --------
    >>> factor_stops(8.0)
    3.0
    """
    return math.log2(limits.factor(factor))


def stops_factor(stops: float) -> float:
    """Factor that a number of stops is worth, ``2 ** stops``.

    Parameters
    ----------
    stops : float
        [stops]

    Raises
    ------
    OutOfRangeError
        If the stops are not from -60 to 60.

    References
    ----------
    .. [1] liquisearch-filter-factor.

    Examples
    --------
    >>> stops_factor(3.0)
    8.0
    """
    return float(2.0 ** limits.within("exposure.stops.out_of_range", stops, limits.STOPS))


def density_factor(density: float) -> float:
    """Factor of a neutral filter that is marked with its density, ``10 ** density``.

    Parameters
    ----------
    density : float
        0 to 5. [log10]

    Raises
    ------
    OutOfRangeError
        If the density is negative, over 5 or not a number.

    Examples
    --------
    >>> round(density_factor(0.9), 2)
    7.94
    """
    return float(10.0 ** limits.within("exposure.density.out_of_range", density, limits.DENSITY))


def stacked_factor(*factors: float) -> float:
    """Factor of several filters one before the other: their product.

    Parameters
    ----------
    *factors : float
        Each 1 or more; none gives 1. [1]

    Raises
    ------
    OutOfRangeError
        If a factor, or the product, is under 1, over 100,000 or not a number.

    References
    ----------
    .. [1] lighting-essential-skills, filter factor table.

    Examples
    --------
    >>> stacked_factor(4.0, 4.0)
    16.0
    """
    return limits.factor(math.prod(limits.factor(one) for one in factors))


def nominal_stops(stops: float) -> float:
    """Round stops to the thirds that a lens has.

    Parameters
    ----------
    stops : float
        [stops]

    Raises
    ------
    OutOfRangeError
        If the stops are not from -60 to 60.

    References
    ----------
    .. [1] lighting-essential-skills, filter factor table.

    Examples
    --------
    >>> round(nominal_stops(factor_stops(2.5)), 3)
    1.333
    """
    return math.floor(limits.within("exposure.stops.out_of_range", stops, limits.STOPS) * _THIRDS + 0.5) / _THIRDS


def opened_aperture(aperture_n: float, factor: float) -> float:
    """Exact f-number that makes up for a factor instead of a longer time.

    Parameters
    ----------
    aperture_n : float
        Exact f-number before. [1]
    factor : float
        Light lost, 1 or more. [1]

    Returns
    -------
    opened_aperture : float
        ``N / sqrt(factor)``. [1]

    Raises
    ------
    OutOfRangeError
        If a value, or the result, is not possible.

    References
    ----------
    .. [1] us-army-ss0512, filter factors.

    Examples
    --------
    >>> opened_aperture(16.0, 4.0)
    8.0
    """
    return limits.aperture(limits.aperture(aperture_n) / math.sqrt(limits.factor(factor)))


def aperture_change_factor(metered_n: float, set_n: float) -> float:
    """Factor on the time when a time was metered at one aperture and another is set.

    Parameters
    ----------
    metered_n, set_n : float
        Exact f-numbers. [1]

    Returns
    -------
    aperture_change_factor : float
        ``(set / metered) ** 2``; under 1 when the lens is opened. [1]

    Raises
    ------
    OutOfRangeError
        If an f-number is not possible.

    Examples
    --------
    >>> aperture_change_factor(8.0, 16.0)
    4.0
    """
    return (limits.aperture(set_n) / limits.aperture(metered_n)) ** 2
