"""How each kind of value is shown to a person: one function a kind, used by sentences, tables and paper alike."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any

from wetside.wording.manner import decimal, manner

if TYPE_CHECKING:
    from collections.abc import Callable

MINUS = "\N{MINUS SIGN}"
_PARTED = re.compile(r"[,;]| and ")
OUNCES_PER_QUART = 32.0
"""US fluid ounces in a US liquid quart. [1]"""
CM2_PER_SQUARE_INCH = 6.4516
"""Exact, from the inch of 25.4 mm. [cm2]"""
_FRACTIONS = {3: "¼", 4: "⅓", 6: "½", 8: "⅔", 9: "¾"}


def mss(seconds: float) -> str:
    """Time as m:ss; ``-0:20`` before the clock starts. Never hours: a clock in the darkroom counts minutes.

    Parameters
    ----------
    seconds : float
        [s]
    """
    whole = math.floor(abs(seconds) + 0.5)
    sign = MINUS if seconds < 0 and whole else ""
    return f"{sign}{whole // 60}:{whole % 60:02d}"


def signed(value: float, decimals: int = 2) -> str:
    """Number with its sign; zero has none.

    Parameters
    ----------
    value : float
        A pure number, or in the unit that the sentence names. [any]
    decimals : int
        [1]
    """
    text = f"{abs(value):.{decimals}f}"
    if not float(text):
        return decimal(text)
    return decimal(f"{MINUS if value < 0 else '+'}{text}")


def mixed(value: float) -> str:
    """Number of stops or grades with the fractions that a dial has: 1⅔, ½, 3.

    Parameters
    ----------
    value : float
        [stops or grades]
    """
    twelfths = round(abs(value) * 12)
    best = min((0, 3, 4, 6, 8, 9, 12), key=lambda part: abs(twelfths % 12 - part))
    whole = twelfths // 12 + (1 if best == 12 else 0)
    fraction = _FRACTIONS.get(best, "")
    return f"{whole or ''}{fraction}" if whole or fraction else "0"


def signed_mixed(value: float) -> str:
    """The same with its sign.

    Parameters
    ----------
    value : float
        [stops or grades]
    """
    text = mixed(value)
    return text if text == "0" else f"{MINUS if value < 0 else '+'}{text}"


def stops_said(value: float) -> str:
    """A difference with its word: +1 stop, −1¼ stops, 0 stops.

    Parameters
    ----------
    value : float
        [stops]
    """
    text = signed_mixed(value)
    return f"{text} stop" if text.lstrip(f"+{MINUS}") in ("1", "½", "⅓", "¼", "⅔", "¾") else f"{text} stops"


def bare_volume(value_ml: float) -> str:
    """Figure of a volume with as many digits as a measure can show, in the unit of :func:`volume`.

    Parameters
    ----------
    value_ml : float
        [ml]
    """
    if manner().us:
        ounces = _ounces(value_ml)
        return decimal(f"{ounces:.{1 if abs(ounces) >= 10 or not ounces else 2}f}")
    decimals = 0 if value_ml >= 100 or float(value_ml).is_integer() else 1 if value_ml >= 10 else 2
    text = f"{value_ml:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return decimal(text)


def volume(value_ml: float) -> str:
    """Volume with its unit: millilitres, or US fluid ounces where the darkroom works in them.

    Parameters
    ----------
    value_ml : float
        [ml]
    """
    return f"{bare_volume(value_ml)} {'fl oz' if manner().us else 'ml'}"


def large_volume(value_ml: float) -> str:
    """Figure of litres, or of US quarts where the darkroom works in ounces; the sentence names the unit.

    Parameters
    ----------
    value_ml : float
        [ml]
    """
    large = _ounces(value_ml) / OUNCES_PER_QUART if manner().us else value_ml / 1000.0
    return decimal(f"{large:.0f}" if large >= 10 else f"{large:.1f}")


def _ounces(value_ml: float) -> float:
    from wetside.units import fl_oz_us_of_ml  # only where a darkroom works in them: its table takes time to load

    return fl_oz_us_of_ml(value_ml)


def _celsius(value: float, how: str) -> str:
    if manner().us:
        from wetside.units import f_of_c

        return decimal(f"{f_of_c(value):{how}}")
    return decimal(f"{value:{how}}")


def _degrees_sign() -> str:
    return "°F" if manner().us else "°C"


def _step(value: float) -> float:
    if not manner().us:
        return value
    from wetside.units import f_step_of_c_step

    return f_step_of_c_step(value)


def _length(value_mm: float) -> str:
    if not manner().us:
        return decimal(f"{value_mm:g} mm")
    from wetside.units import in_of_mm

    return decimal(f"{in_of_mm(value_mm):.3g} in")


def _area(value_cm2: float) -> str:
    return f"{value_cm2 / CM2_PER_SQUARE_INCH:.0f} in²" if manner().us else f"{value_cm2:.0f} cm²"


def shutter(seconds: float) -> str:
    """Exposure time as it is engraved or counted: 1/15 s, 8 s, 2:30.

    Parameters
    ----------
    seconds : float
        [s]
    """
    if seconds >= 120:
        return mss(seconds)
    if seconds >= 0.3:
        return decimal(f"{seconds:.3g} s")
    return f"1/{1 / seconds:.0f} s"


def quoted(value: object) -> str:
    """Text that a person typed, in quotation marks, never longer than a line."""
    text = str(value).replace("\n", " ")
    return f'"{text if len(text) <= 60 else text[:57] + "..."}"'


def listed(values: Any) -> str:
    """Names one after the other: a, b and c. Where a name holds a comma or an "and" itself, semicolons part them."""
    names = [str(value) for value in values]
    if len(names) < 2:
        return "".join(names)
    if any(not name.startswith('"') and _PARTED.search(name) for name in names):
        return "; ".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


SHOWN: dict[str, Callable[[Any], str]] = {
    "mss": mss,
    "seconds": lambda value: f"{value:.0f} s",
    "temp": lambda value: f"{_celsius(value, '.1f')} {_degrees_sign()}",
    "degrees": lambda value: f"{signed(_step(value), 1)} {_degrees_sign()}",
    "ml": volume,
    "bare_ml": bare_volume,
    "large_ml": large_volume,
    "plain_ml": lambda value: volume(value) if manner().us else f"{decimal(f'{value:.6g}')} ml",
    "plain_c": lambda value: f"{_celsius(value, '.6g')} {_degrees_sign()}",
    "bare_c": lambda value: _celsius(value, ".6g"),
    "step_c": lambda value: f"{decimal(f'{_step(value):.6g}')} {_degrees_sign()}",
    "cm2": _area,
    "mm": _length,
    "factor": lambda value: decimal(f"{value:.3f}"),
    "density": lambda value: decimal(f"{value:.2f}"),
    "signed": signed,
    "percent": lambda value: f"{signed(value, 1)} %",
    "whole_percent": lambda value: f"{signed(value, 0)} %",
    "share": lambda value: f"{value * 100:.0f} %",
    "stops": signed_mixed,
    "stops_said": stops_said,
    "mixed": mixed,
    "n": lambda value: f"N{'' if signed_mixed(value) == '0' else signed_mixed(value)}",
    "signed_1": lambda value: signed(value, 1),
    "f": lambda value: decimal(f"f/{value:g}"),
    "shutter": shutter,
    "plain": lambda value: decimal(f"{value:.6g}"),
    "quoted": quoted,
    "list": listed,
    "quoted_list": lambda values: listed(quoted(value) for value in values),
}
"""Format names that sentences may use after the colon."""


def shown(value: Any, how: str) -> str:
    """Show a value in one of the house's ways.

    Parameters
    ----------
    value : object
        In house units.
    how : str
        A key of :data:`SHOWN`.

    Examples
    --------
    >>> shown(465.0, "mss"), shown(-0.05, "signed"), shown(1.66, "stops")
    ('7:45', '−0.05', '+1⅔')
    """
    return SHOWN[how](value)
