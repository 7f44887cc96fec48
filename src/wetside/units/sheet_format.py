"""Formats of sheet film and amounts to an area of it, as people type them."""

from __future__ import annotations

import re

from wetside.errors import AmbiguousError, InputError, OutOfRangeError, UnreadableError
from wetside.units.number import NUMBER, cleaned, number_in_front
from wetside.units.quantity import parse_quantity, unit_of
from wetside.units.table import plain, unit_table

_EXAMPLE = "9x12cm"
_PAIR = re.compile(rf"({NUMBER}) ?([^0-9x×* ]*?) ?(?:x|×|\*|\bby\b) ?({NUMBER}) ?([^0-9]*)", re.IGNORECASE)
_SAME_MM = 1e-6
SMALLEST_SIDE_MM, LONGEST_SIDE_MM = 10.0, 3000.0
"""Sides outside these are slips of the pen. Our choice."""


def parse_size(text: str) -> tuple[str, float, float]:
    """Format of a sheet: its name, and its nominal sides, the shorter one first. [mm]

    Parameters
    ----------
    text : str
        ``9x12cm``, ``4x5in``, ``13 x 18 cm``; of the bare pairs only those that name one format in the trade, as 4x5
        (inches) and 9x12 (centimetres).

    Raises
    ------
    AmbiguousError
        If it is a bare pair that may be inches or centimetres.
    OutOfRangeError
        If a side is shorter than 10 mm or longer than 3 m.
    UnreadableError
        If it is not two sides with a unit of length.

    Examples
    --------
    >>> parse_size("9x12cm"), parse_size("5 x 4")
    (('9x12cm', 90.0, 120.0), ('4x5in', 101.6, 127.0))
    """
    clean = cleaned(text, _EXAMPLE)
    match = _PAIR.fullmatch(clean)
    if match is None:
        raise UnreadableError("units.size.unreadable", value=text, example=_EXAMPLE)
    first, first_unit, second, second_unit = (part.strip() for part in match.groups())
    short, long = sorted(_side(side) for side in (first, second))
    if not second_unit and not first_unit:
        return _bare_format(short, long, text)
    unit = unit_of("length", second_unit, text)
    if first_unit and unit_of("length", first_unit, text) != unit:
        raise UnreadableError("units.size.two_units", value=text, example=_EXAMPLE)
    width_mm, height_mm = short * unit.factor, long * unit.factor
    if width_mm < SMALLEST_SIDE_MM or height_mm > LONGEST_SIDE_MM:
        raise OutOfRangeError(
            "units.size.out_of_range", value=text, low_mm=SMALLEST_SIDE_MM, high_mm=LONGEST_SIDE_MM, example=_EXAMPLE
        )
    for known in unit_table().formats:
        if abs(known.width_mm - width_mm) < _SAME_MM and abs(known.height_mm - height_mm) < _SAME_MM:
            return known.name, known.width_mm, known.height_mm
    return f"{plain(short)}x{plain(long)}{unit.name}", width_mm, height_mm


def _side(digits: str) -> float:
    return number_in_front(digits, example=_EXAMPLE, point_thousandths=True, comma_thousandths=True)[0]


def _bare_format(short: float, long: float, text: str) -> tuple[str, float, float]:
    for known in unit_table().formats:
        if known.bare and (known.short, known.long) == (short, long):
            return known.name, known.width_mm, known.height_mm
    pair = f"{plain(short)}x{plain(long)}"
    raise AmbiguousError("units.size.bare", value=text, choices=(f"{pair}in", f"{pair}cm"))


def parse_agent_per_area(text: str) -> float:
    """Stock or concentrate to an area of film. [ml/cm2]

    Parameters
    ----------
    text : str
        ``62.5 ml per 516 cm2``, ``62.5 ml per unit`` (80 square inches), ``20 ml per 8x10in``, ``0.12 ml/cm2``.

    Raises
    ------
    InputError
        If the volume or the area cannot be read.
    OutOfRangeError
        If it is less than 0.0001 or more than 100 ml to a square centimetre.

    Examples
    --------
    >>> round(parse_agent_per_area("62.5 ml per 516 cm2"), 5), parse_agent_per_area("0,12 ml/cm2")
    (0.12112, 0.12)
    """
    example = "62.5 ml per 516 cm2"
    clean = cleaned(text, example)
    volume, mark, area = clean.rpartition(" per ")
    if not mark:
        volume, mark, area = clean.rpartition("/")
    if not mark:
        raise UnreadableError("units.agent.unreadable", value=text, example=example)
    volume_ml = parse_quantity(volume, "volume", 0.0, float("inf"))
    per_cm2 = volume_ml / _area_cm2(area.strip(), text, example)
    if not 1e-4 <= per_cm2 <= 100.0:
        raise OutOfRangeError("units.agent.out_of_range", value=text, low=1e-4, high=100.0, example=example)
    return per_cm2


def _area_cm2(area: str, text: str, example: str) -> float:
    if _PAIR.fullmatch(area):
        _, width_mm, height_mm = parse_size(area)
        return width_mm * height_mm / 100.0
    if area[:1].isdigit():
        return parse_quantity(area, "area")
    try:
        unit = unit_of("area", area, text)
    except InputError:
        raise UnreadableError("units.agent.area", value=text, area=area, example=example) from None
    return unit.factor / unit.divisor
