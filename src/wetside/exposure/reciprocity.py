"""Loss of speed in long exposures: what a meter's time must become, and what a given time was worth.

Every model has the same two directions. ``corrected_s`` turns the time that the light asks for into the time to give.
``effective_s`` is its inverse: the time that would have brought the same exposure on the film if there were no loss.
Where a model jumps (a threshold above 1 s, a table whose first factor is over 1), no metered time leads into the
jump; every time given there is worth the time at which the jump stands. So the inverse never falls.
"""

from __future__ import annotations

import math
from typing import NamedTuple, Protocol

from wetside.errors import InputError, OutOfRangeError, RefusedError
from wetside.exposure import _limits as limits

_EXPONENT = (1.0, 3.0)
_THRESHOLD_S = (0.0, 1000.0)
_COEFFICIENT = (0.0, 100.0)


class ReciprocityModel(Protocol):
    """What a film does in long exposures."""

    def corrected_s(self, metered_s: float) -> float:
        """Return the time to give for a time that light, filters and bellows ask for. [s]"""
        ...

    def effective_s(self, given_s: float) -> float:
        """Return the time without loss that brings the same exposure on the film. [s]"""
        ...


class ReciprocityNone(NamedTuple):
    """No loss: every time counts whole."""

    def corrected_s(self, metered_s: float) -> float:
        """Return the time unchanged. [s]"""
        return limits.running_time(metered_s)

    def effective_s(self, given_s: float) -> float:
        """Return the time unchanged. [s]"""
        return limits.running_time(given_s)


NO_RECIPROCITY = ReciprocityNone()


class ReciprocityPower(NamedTuple):
    """``Ta = Tm ** p`` seconds above a threshold, never less than ``Tm``.

    Parameters
    ----------
    p : float
        The maker's exponent, 1 to 3. [1]
    threshold_s : float
        Longest time that needs no correction. Makers' sheets name 0.5 or 1 s for the same films; the choice changes
        nothing, because under 1 s the power would shorten the time and is not let. Only over 1 s it makes a jump. [s]

    References
    ----------
    .. [1] ilford-reciprocity; harman-hp5-2018; harman-delta400-2018; harman-kentmere400-2022.

    Examples
    --------
    >>> film = ReciprocityPower(1.31, 1.0)
    >>> round(film.corrected_s(10.0), 1), round(film.effective_s(20.42), 1), film.corrected_s(0.7)
    (20.4, 10.0, 0.7)
    """

    p: float
    threshold_s: float = 1.0

    def corrected_s(self, metered_s: float) -> float:
        """Return the time to give. [s]"""
        _check_power(self)
        metered = limits.running_time(metered_s)
        return metered if metered <= self.threshold_s else max(metered, metered**self.p)

    def effective_s(self, given_s: float) -> float:
        """Return what a given time is worth; in the jump of a threshold over 1 s, the threshold. [s]"""
        _check_power(self)
        given = limits.running_time(given_s)
        start = max(1.0, self.threshold_s)
        return given if given <= start else max(start, float(given ** (1.0 / self.p)))


class ReciprocityTable(NamedTuple):
    """A maker's table of factors, read on log-log axes between its points.

    Parameters
    ----------
    points : tuple of (float, float)
        Metered time and factor, in rising order. Below the first point the factor is 1 (give the longest time that
        needs no correction as the first point, with factor 1); beyond the last nothing is known and the model
        refuses. [s], [1]

    References
    ----------
    .. [1] foma-100-2022; foma-400-2023.

    Examples
    --------
    >>> film = ReciprocityTable(((0.5, 1.0), (1.0, 2.0), (10.0, 8.0), (100.0, 16.0)))
    >>> round(film.corrected_s(10.0), 6), round(film.effective_s(80.0), 6), film.corrected_s(0.25)
    (80.0, 10.0, 0.25)
    """

    points: tuple[tuple[float, float], ...]

    def corrected_s(self, metered_s: float) -> float:
        """Return the time to give. [s]"""
        _check_table(self)
        metered = limits.running_time(metered_s)
        first, last = self.points[0], self.points[-1]
        if metered < first[0]:
            return metered
        if metered > last[0] * (1.0 + 1e-12):
            raise RefusedError("exposure.reciprocity.beyond_table", metered_s=metered, last_s=last[0])
        return _between([(time_s, time_s * factor) for time_s, factor in self.points], metered)

    def effective_s(self, given_s: float) -> float:
        """Return what a given time is worth; in the jump before a first factor over 1, the first time. [s]"""
        _check_table(self)
        given = limits.running_time(given_s)
        first, last = self.points[0], self.points[-1]
        if given < first[0]:
            return given
        if given <= first[0] * first[1]:
            return first[0]
        if given > last[0] * last[1] * (1.0 + 1e-12):
            raise RefusedError("exposure.reciprocity.given_beyond_table", given_s=given, last_s=last[0] * last[1])
        return _between([(time_s * factor, time_s) for time_s, factor in self.points], given)


class ReciprocityGainer(NamedTuple):
    """``Ta = Tm + a * Tm ** b``: Gainer's form of Bond's tests, in which every time has some loss.

    Parameters
    ----------
    a : float
        Added seconds at 1 s. [s]
    b : float
        Exponent, 1.62 for the films of those tests. [1]

    References
    ----------
    .. [1] gainer-bond.

    Examples
    --------
    >>> round(ReciprocityGainer(0.101).corrected_s(10.0), 1)
    14.2
    """

    a: float
    b: float = 1.62

    def corrected_s(self, metered_s: float) -> float:
        """Return the time to give. [s]"""
        _check_gainer(self)
        metered = limits.running_time(metered_s)
        return float(metered + self.a * metered**self.b)

    def effective_s(self, given_s: float) -> float:
        """Return what a given time is worth, by halving the interval until it is as narrow as a number can be. [s]"""
        _check_gainer(self)
        given = limits.running_time(given_s)
        low, high = 0.0, given
        while True:
            middle = low + (high - low) / 2.0
            if not low < middle < high:
                return high
            if middle + self.a * middle**self.b < given:
                low = middle
            else:
                high = middle


def schwarzschild_exponent(p: float) -> float:
    """Exponent in Schwarzschild's way of writing, ``effect = I * t ** (1 / p)``.

    Parameters
    ----------
    p : float
        Exponent of :class:`ReciprocityPower`. [1]

    Raises
    ------
    OutOfRangeError
        If p is not from 1 to 3.

    References
    ----------
    .. [1] liquisearch-schwarzschild.

    Examples
    --------
    >>> round(schwarzschild_exponent(1.31), 3)
    0.763
    """
    return 1.0 / limits.within("exposure.reciprocity.exponent_out_of_range", p, _EXPONENT)


def _between(pairs: list[tuple[float, float]], wanted: float) -> float:
    """Read a rising line on log-log axes; a rounding error over the last point is the last point."""
    if wanted >= pairs[-1][0]:
        return pairs[-1][1]
    upper = next(i for i, pair in enumerate(pairs) if pair[0] > wanted)
    (x0, y0), (x1, y1) = pairs[upper - 1], pairs[upper]
    share = math.log(wanted / x0) / math.log(x1 / x0)
    # Never outside its two points, which rounding could do.
    return min(max(y0, float(y0 * (y1 / y0) ** share)), y1)


def _check_power(model: ReciprocityPower) -> None:
    limits.within("exposure.reciprocity.exponent_out_of_range", model.p, _EXPONENT)
    limits.within("exposure.reciprocity.threshold_out_of_range", model.threshold_s, _THRESHOLD_S)


def _check_gainer(model: ReciprocityGainer) -> None:
    limits.within("exposure.reciprocity.coefficient_out_of_range", model.a, _COEFFICIENT)
    limits.within("exposure.reciprocity.exponent_out_of_range", model.b, _EXPONENT)


def _check_table(model: ReciprocityTable) -> None:
    if not model.points:
        raise InputError("exposure.reciprocity.no_points")
    before = (0.0, 0.0)
    for metered_s, factor in model.points:
        limits.time(metered_s)
        limits.factor(factor)
        if not (metered_s > before[0] and metered_s * factor > before[1]):
            raise OutOfRangeError("exposure.reciprocity.not_rising", metered_s=metered_s, factor=factor)
        before = (metered_s, metered_s * factor)


def check_reciprocity(model: ReciprocityModel) -> None:
    """Refuse a model whose numbers cannot be, before it is used.

    Parameters
    ----------
    model : ReciprocityModel
        Any of this module; another kind is left to itself.

    Raises
    ------
    InputError
        If an exponent, threshold, coefficient or point is not possible, or a table does not rise.

    Examples
    --------
    >>> check_reciprocity(ReciprocityPower(1.26, 1.0))
    """
    if isinstance(model, ReciprocityPower):
        _check_power(model)
    elif isinstance(model, ReciprocityTable):
        _check_table(model)
    elif isinstance(model, ReciprocityGainer):
        _check_gainer(model)
