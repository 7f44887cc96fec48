"""Engraved and exact numbers of apertures and shutters.

What is engraved is rounded: f/22 is 22.6, 1/15 s is 1/16 s. Everything is computed on the exact values, which are
powers of two, and shown on the engraved ones. The engraved series cannot be computed (5.6 and 11 are cut, 1.7 is
rounded), so they stand here in their order; the exact value is a formula of the place in the order. Sources of the
series: kameraarkasi-fstop and westbrook-notebook for apertures (f/72, f/76 and f/81 from memory; f/102, f/108 and f/114
our rounding); fulton-scantips, locklear-shutter and photoqas-2018 for shutters (15, 30 and 60 s from memory; 1/2000 s
from kidsnet-exposure-value).
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Literal, NamedTuple

from wetside.errors import OutOfRangeError
from wetside.exposure import _limits as limits

Step = Literal["full", "half", "third"]
"""How finely a scale is divided: ``half`` and ``third`` hold the full stops too."""

# fmt: off
_APERTURE_FULL = (1.0, 1.4, 2.0, 2.8, 4.0, 5.6, 8.0, 11.0, 16.0, 22.0, 32.0, 45.0, 64.0, 90.0, 128.0)
_APERTURE_HALF = (1.2, 1.7, 2.4, 3.3, 4.8, 6.7, 9.5, 13.0, 19.0, 27.0, 38.0, 54.0, 76.0, 108.0)
_APERTURE_THIRD = (1.1, 1.2, 1.6, 1.8, 2.2, 2.5, 3.2, 3.5, 4.5, 5.0, 6.3, 7.1, 9.0, 10.0, 13.0, 14.0, 18.0, 20.0,
                   25.0, 29.0, 36.0, 40.0, 51.0, 57.0, 72.0, 81.0, 102.0, 114.0)
# Other engravings of the same stops, seen in print: number, Av in sixths of a stop.
_APERTURE_VARIANTS = ((3.4, 21), (6.8, 33), (9.6, 39), (13.5, 45), (13.6, 45), (6.4, 32), (28.0, 58))

_SHUTTER_FULL = tuple(1.0 / n for n in (1, 2, 4, 8, 15, 30, 60, 125, 250, 500, 1000, 2000))
_SHUTTER_HALF = (0.7, 0.35, *(1.0 / n for n in (6, 11, 23, 45, 90, 180, 350, 750)))
_SHUTTER_THIRD = (0.8, 0.6, 0.4, 0.3,
                  *(1.0 / n for n in (5, 6, 10, 13, 20, 25, 40, 50, 80, 100, 160, 200, 320, 400, 640, 800)))
_SHUTTER_SECONDS = (1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0)
# fmt: on

_SAME_APERTURE = 1e-6
_SAME_SHUTTER = 3e-3  # so that 0.0167 is still 1/60; neighbours lie 6 % apart


class _Mark(NamedTuple):
    """One engraved number: in sixths of a stop, so that halves and thirds are whole numbers."""

    sixths: int
    nominal: float
    step: Step
    variant: bool = False


def _thirds(nominals: tuple[float, ...]) -> tuple[_Mark, ...]:
    return tuple(_Mark(6 * (i // 2) + 2 + 2 * (i % 2), nominal, "third") for i, nominal in enumerate(nominals))


@lru_cache(maxsize=1)
def _aperture_marks() -> tuple[_Mark, ...]:
    return (
        *(_Mark(6 * i, nominal, "full") for i, nominal in enumerate(_APERTURE_FULL)),
        *(_Mark(6 * i + 3, nominal, "half") for i, nominal in enumerate(_APERTURE_HALF)),
        *_thirds(_APERTURE_THIRD),
        *(_Mark(s, nominal, "half" if s % 2 else "third", variant=True) for nominal, s in _APERTURE_VARIANTS),
    )


@lru_cache(maxsize=1)
def _shutter_marks() -> tuple[_Mark, ...]:
    return (
        *(_Mark(6 * i, nominal, "full") for i, nominal in enumerate(_SHUTTER_FULL)),
        *(_Mark(6 * i + 3, nominal, "half") for i, nominal in enumerate(_SHUTTER_HALF)),
        *_thirds(_SHUTTER_THIRD),
        *(_Mark(-6 * i, nominal, "full") for i, nominal in enumerate(_SHUTTER_SECONDS) if i),
    )


def _aperture_of_sixths(sixths: float) -> float:
    return float(2.0 ** (sixths / 12.0))


def _shutter_of_sixths(sixths: float) -> float:
    return float(2.0 ** (-sixths / 6.0))


def _on_scale(mark: _Mark, step: Step) -> bool:
    return mark.step in ("full", step)


def aperture_exact(nominal_n: float, step: Step | None = None) -> float:
    """Exact f-number of an engraved one, ``2 ** (Av / 2)``.

    Parameters
    ----------
    nominal_n : float
        The number on the lens. [1]
    step : {"full", "half", "third"}, optional
        Division of the lens's scale. Two engraved numbers have two meanings (1.2 and 13 stand in the half-stop and in
        the third-stop series); without ``step`` the exact value nearest to the number is meant: 1.2 is 1.189 and 13 is
        12.70.

    Returns
    -------
    aperture_exact : float
        A number that stands on no scale (an old lens's f/7.7) is taken as it is. [1]

    Raises
    ------
    OutOfRangeError
        If the number is not an f-number from 0.5 to 1024.

    References
    ----------
    .. [1] kameraarkasi-fstop; westbrook-notebook (series); exact values are powers of two, fulton-scantips.

    Examples
    --------
    >>> round(aperture_exact(22.0), 3), round(aperture_exact(13.0, step="half"), 3), aperture_exact(7.7)
    (22.627, 13.454, 7.7)
    """
    wanted = limits.aperture(nominal_n)
    found = [
        _aperture_of_sixths(mark.sixths)
        for mark in _aperture_marks()
        if abs(mark.nominal - wanted) <= _SAME_APERTURE * wanted and (step is None or _on_scale(mark, step))
    ]
    return min(found, key=lambda exact: abs(math.log(exact / wanted)), default=wanted)


def aperture_nominal(exact_n: float, step: Step = "third") -> float:
    """Engraved f-number nearest in stops to an exact one.

    Parameters
    ----------
    exact_n : float
        [1]
    step : {"full", "half", "third"}
        Division of the scale.

    Raises
    ------
    OutOfRangeError
        If the number lies more than half a step off the engraved scale (f/1 to f/128).

    References
    ----------
    .. [1] kameraarkasi-fstop; westbrook-notebook.

    Examples
    --------
    >>> aperture_nominal(22.627), aperture_nominal(6.9, step="half")
    (22.0, 6.7)
    """
    sixths = 12.0 * math.log2(limits.aperture(exact_n))
    return _nearest(sixths, _aperture_marks(), step, "exposure.aperture.off_scale", exact_n)


def shutter_exact(nominal_s: float, step: Step | None = None, *, counted: bool = True) -> float:
    """Exact time of an engraved one, ``2 ** -Tv``.

    Parameters
    ----------
    nominal_s : float
        The time on the shutter, 1/15 or 0.5, or a counted time. [s]
    step : {"full", "half", "third"}, optional
        Division of the shutter's scale; 1/6 s stands in the half-stop and in the third-stop series, and without
        ``step`` it means the exact value nearest to it, 0.1575 s.
    counted : bool
        Whether times of 1 s and longer were counted by a person, and so are exact as typed (the house's rule, since a
        shutter of a view camera ends at 1 s); False reads 15, 30 and 60 s as engraved: 16, 32 and 64 s.

    Returns
    -------
    shutter_exact : float
        A time that is not engraved (0.14 s, 7 s) is taken as it is. [s]

    Raises
    ------
    OutOfRangeError
        If the time is not between a millionth and a million seconds.

    Notes
    -----
    Only the series of powers of two is known. An old shutter's 1/25, 1/50 and 1/100 s are read as third stops, which is
    0.02 stop short of what is engraved: far inside what such a shutter does.

    References
    ----------
    .. [1] fulton-scantips, nominal times against powers of two.

    Examples
    --------
    >>> shutter_exact(1 / 15), shutter_exact(30.0), shutter_exact(30.0, counted=False), shutter_exact(7.0)
    (0.0625, 30.0, 32.0, 7.0)
    """
    wanted = limits.time(nominal_s)
    if counted and wanted >= 1.0:
        return wanted
    found = [
        _shutter_of_sixths(mark.sixths)
        for mark in _shutter_marks()
        if abs(mark.nominal - wanted) <= _SAME_SHUTTER * wanted and (step is None or _on_scale(mark, step))
    ]
    return min(found, key=lambda exact: abs(math.log(exact / wanted)), default=wanted)


def shutter_nominal(exact_s: float, step: Step = "third", *, counted: bool = True) -> float:
    """Engraved time nearest in stops to an exact one.

    Parameters
    ----------
    exact_s : float
        [s]
    step : {"full", "half", "third"}
        Division of the scale; times over 1 s are known in full stops only.
    counted : bool
        Whether a time longer than 1 s will be counted, and so is returned as it is.

    Raises
    ------
    OutOfRangeError
        If the time lies more than half a step off the engraved scale (1/2000 to 1 s, or to 60 s if not counted).

    References
    ----------
    .. [1] fulton-scantips; locklear-shutter; photoqas-2018.

    Examples
    --------
    >>> round(1 / shutter_nominal(0.0625)), shutter_nominal(18.0), shutter_nominal(18.0, counted=False)
    (15, 18.0, 15.0)
    """
    wanted = limits.time(exact_s)
    if counted and wanted > 1.0:
        return wanted
    scale: Step = "full" if wanted > 1.0 else step
    return _nearest(-6.0 * math.log2(wanted), _shutter_marks(), scale, "exposure.shutter.off_scale", exact_s)


def _nearest(sixths: float, marks: tuple[_Mark, ...], step: Step, code: str, value: float) -> float:
    scale = [mark for mark in marks if _on_scale(mark, step) and not mark.variant]
    best = min(scale, key=lambda mark: abs(mark.sixths - sixths))
    half_step = {"full": 3.0, "half": 1.5, "third": 1.0}[step]
    if abs(best.sixths - sixths) > half_step + 1e-9:
        nominals = [mark.nominal for mark in scale]
        raise OutOfRangeError(code, value=value, low=min(nominals), high=max(nominals))
    return best.nominal
