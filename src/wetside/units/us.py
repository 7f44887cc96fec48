"""House units in the units of the United States and of old British formulas, for showing beside the metric ones."""

from __future__ import annotations

from wetside.units.table import unit_named


def _in_unit(value: float, kind: str, name: str) -> float:
    unit = unit_named(kind, name)
    return value * unit.divisor / unit.factor + unit.zero


def fl_oz_us_of_ml(volume_ml: float) -> float:
    """Volume in US fluid ounces.

    Parameters
    ----------
    volume_ml : float
        [ml]

    Examples
    --------
    >>> round(fl_oz_us_of_ml(1000.0), 3)
    33.814
    """
    return _in_unit(volume_ml, "volume", "US fl oz")


def fl_oz_imperial_of_ml(volume_ml: float) -> float:
    """Volume in Imperial fluid ounces.

    Parameters
    ----------
    volume_ml : float
        [ml]

    Examples
    --------
    >>> round(fl_oz_imperial_of_ml(568.26125), 6)
    20.0
    """
    return _in_unit(volume_ml, "volume", "Imperial fl oz")


def f_of_c(temp_c: float) -> float:
    """Temperature in degrees Fahrenheit.

    Parameters
    ----------
    temp_c : float
        [C]

    Examples
    --------
    >>> f_of_c(20.0)
    68.0
    """
    return _in_unit(temp_c, "temperature", "F")


def f_step_of_c_step(step_c: float) -> float:
    """Difference of temperatures in degrees Fahrenheit.

    Parameters
    ----------
    step_c : float
        [C]

    Examples
    --------
    >>> f_step_of_c_step(5.0)
    9.0
    """
    return _in_unit(step_c, "temperature_step", "F")


def in_of_mm(length_mm: float) -> float:
    """Length in inches.

    Parameters
    ----------
    length_mm : float
        [mm]

    Examples
    --------
    >>> in_of_mm(127.0)
    5.0
    """
    return _in_unit(length_mm, "length", "in")


def oz_of_g(mass_g: float) -> float:
    """Mass in avoirdupois ounces.

    Parameters
    ----------
    mass_g : float
        [g]

    Examples
    --------
    >>> round(oz_of_g(100.0), 3)
    3.527
    """
    return _in_unit(mass_g, "mass", "oz")
