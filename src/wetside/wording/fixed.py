"""Figures that stand in a sentence's own words, "between 5 and 45 °C", in the darkroom's manner."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from wetside.wording.manner import decimal, manner

if TYPE_CHECKING:
    from collections.abc import Callable

_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_TEMPERATURE = re.compile(rf"(?<![0-9.,])({_NUMBER})((?: and | to |-|–)({_NUMBER}))?([ \u00a0])°C")
_VOLUME = re.compile(rf"(?<![0-9.,])({_NUMBER})((?: and | to |-|–)({_NUMBER}))?([ \u00a0])ml\b")
_BARE_DEGREES = "°C"


def fixed_figures(text: str) -> str:
    """Words of a sentence with their temperatures, volumes and decimal signs as they are wanted now.

    Parameters
    ----------
    text : str
        Metric, with a point.

    Examples
    --------
    >>> from wetside.wording.manner import Manner, shown_in
    >>> with shown_in(Manner(us=True)):
    ...     fixed_figures("between 5 and 45 °C")
    'between 41 and 113 °F'
    """
    if manner().us:
        text = _TEMPERATURE.sub(lambda found: _in_us(found, _fahrenheit, "°F"), text)
        text = _VOLUME.sub(lambda found: _in_us(found, _ounces, "US fl oz"), text)
        text = text.replace(_BARE_DEGREES, "°F")
    return decimal(text)


def _in_us(found: re.Match[str], figure: Callable[[float], str], unit: str) -> str:
    between = (found[2] or "")[: -len(found[3])] if found[3] else ""
    second = figure(float(found[3])) if found[3] else ""
    return f"{figure(float(found[1]))}{between}{second}{found[4]}{unit}"


def _fahrenheit(value_c: float) -> str:
    from wetside.units import f_of_c

    return f"{f_of_c(value_c):.4g}"


def _ounces(value_ml: float) -> str:
    from wetside.units import fl_oz_us_of_ml

    return f"{fl_oz_us_of_ml(value_ml):.2g}"
