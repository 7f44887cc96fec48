"""Quantities as people type them: a number and its unit, in house units when they come out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import AmbiguousError, OutOfRangeError, UnreadableError
from wetside.units.number import cleaned, number_in_front
from wetside.units.table import plain, spelling_key, unit_table

if TYPE_CHECKING:
    from wetside.units.table import Kind, Unit


def unit_of(kind: str, spelling: str, text: str) -> Unit:
    """Return the unit that a person's spelling means.

    Raises
    ------
    AmbiguousError
        If the word means two units, as a bare ounce does.
    UnreadableError
        If it is missing or unknown; the nearest known unit is named.
    """
    table = unit_table()
    shape = table.kinds[kind]
    key = spelling_key(spelling)
    unit = table.units[kind].get(key)
    if unit is not None:
        return unit
    if key in table.two_meanings[kind]:
        choices = table.two_meanings[kind][key]
        raise AmbiguousError("units.unit.two_meanings", value=text, unit=spelling, choices=choices)
    if not key:
        raise UnreadableError("units.unit.missing", value=text, allowed=table.names[kind], example=shape.example)
    from difflib import get_close_matches

    near = get_close_matches(key, table.units[kind], n=1, cutoff=0.6)
    nearest = table.units[kind][near[0]].name if near else None
    code = "units.unit.unknown" if nearest is None else "units.unit.unknown_near"
    raise UnreadableError(
        code, value=text, unit=spelling, nearest=nearest, allowed=table.names[kind], example=shape.example
    )


def check_limits(value: float, kind: Kind, text: str, low: float | None, high: float | None) -> float:
    """Return the value if it lies inside the limits, else refuse it.

    Parameters
    ----------
    value : float
        [the house's unit]
    kind : Kind
        Whose limits hold where no others are given.
    text : str
        As it was typed.
    low, high : float or None
        Limits, both allowed. [the house's unit]

    Raises
    ------
    OutOfRangeError
        If it lies outside; the limits are named as a person would write them.
    """
    low = kind.low if low is None else low
    high = kind.high if high is None else high
    if low <= value <= high:
        return value
    raise OutOfRangeError(
        "units.quantity.out_of_range",
        value=text,
        low=_limit_text(low, kind),
        high=_limit_text(high, kind),
        example=kind.example,
    )


def _limit_text(limit: float, kind: Kind) -> str:
    """Limit as a person would write it."""
    if kind.name == "volume" and limit >= 1000.0:
        return f"{plain(limit / 1000.0)} l"
    if kind.name == "duration" and limit >= 86_400.0:
        return f"{plain(limit / 86_400.0)} days"
    if kind.name == "duration" and limit >= 60.0:
        return f"{int(limit // 60)}:{int(limit % 60):02d}"
    return f"{plain(limit)} {kind.house}"


def parse_quantity(text: str, kind: str, low: float | None = None, high: float | None = None) -> float:
    """Read a quantity of a kind of the table, in the house's unit.

    Parameters
    ----------
    text : str
        Number and unit.
    kind : str
        A kind of ``units.toml``.
    low, high : float, optional
        Limits; those of the table if absent. [the house's unit]

    Raises
    ------
    AmbiguousError
        If the number or the unit has two readings.
    OutOfRangeError
        If it is not finite or outside the limits.
    UnreadableError
        If the number cannot be read, or the unit is missing or unknown.

    Examples
    --------
    >>> parse_quantity("2 l", "volume")
    2000.0
    """
    shape = unit_table().kinds[kind]
    value, spelling = number_in_front(
        cleaned(text, shape.example),
        example=shape.example,
        point_thousandths=shape.thousandths,
        comma_thousandths=shape.thousandths,
    )
    unit = unit_of(kind, spelling, text)
    return check_limits((value - unit.zero) * unit.factor / unit.divisor, shape, text, low, high)


def parse_volume_ml(text: str, *, low_ml: float | None = None, high_ml: float | None = None) -> float:
    """Volume. [ml]

    Parameters
    ----------
    text : str
        Such as ``600 ml``, ``1,5 l``, ``20 US fl oz``; an ounce without its country is refused.
    low_ml, high_ml : float, optional
        Limits, both allowed; 0.1 ml to 1000 l if absent. [ml]

    Raises
    ------
    InputError
        See :func:`parse_quantity`.

    Examples
    --------
    >>> parse_volume_ml("600 ml"), parse_volume_ml("1,5 l"), parse_volume_ml("0.6L")
    (600.0, 1500.0, 600.0)
    """
    return parse_quantity(text, "volume", low_ml, high_ml)


def parse_temp_c(text: str, *, low_c: float | None = None, high_c: float | None = None) -> float:
    """Temperature. [C]

    Parameters
    ----------
    text : str
        Such as ``20 C``, ``20,5 °C``, ``68 F``.
    low_c, high_c : float, optional
        Limits, both allowed. [C]

    Raises
    ------
    InputError
        See :func:`parse_quantity`.

    Examples
    --------
    >>> parse_temp_c("20,5 °C"), parse_temp_c("68 F")
    (20.5, 20.0)
    """
    return parse_quantity(text, "temperature", low_c, high_c)


def parse_temp_step_c(text: str, *, low_c: float | None = None, high_c: float | None = None) -> float:
    """Difference of two temperatures: 9 F are 5 C. [C]

    Parameters
    ----------
    text : str
        Such as ``-0.4 C``, ``0.9 F``.
    low_c, high_c : float, optional
        Limits, both allowed. [C]

    Raises
    ------
    InputError
        See :func:`parse_quantity`.

    Examples
    --------
    >>> parse_temp_step_c("-0.4 C"), parse_temp_step_c("9 F")
    (-0.4, 5.0)
    """
    return parse_quantity(text, "temperature_step", low_c, high_c)


def parse_length_mm(text: str, *, low_mm: float | None = None, high_mm: float | None = None) -> float:
    """Length. [mm]

    Parameters
    ----------
    text : str
        Such as ``300 mm``, ``30 cm``, ``12 in``.
    low_mm, high_mm : float, optional
        Limits, both allowed. [mm]

    Raises
    ------
    InputError
        See :func:`parse_quantity`.

    Examples
    --------
    >>> parse_length_mm("30 cm"), parse_length_mm("10 in")
    (300.0, 254.0)
    """
    return parse_quantity(text, "length", low_mm, high_mm)


def parse_area_cm2(text: str, *, low_cm2: float | None = None, high_cm2: float | None = None) -> float:
    """Area. [cm2]

    Parameters
    ----------
    text : str
        Such as ``516 cm2``, ``80 sq in``, ``3.5 units`` (a unit is 80 square inches of film).
    low_cm2, high_cm2 : float, optional
        Limits, both allowed. [cm2]

    Raises
    ------
    InputError
        See :func:`parse_quantity`.

    Examples
    --------
    >>> parse_area_cm2("516 cm2"), parse_area_cm2("1 unit")
    (516.0, 516.128)
    """
    return parse_quantity(text, "area", low_cm2, high_cm2)


def parse_mass_g(text: str, *, low_g: float | None = None, high_g: float | None = None) -> float:
    """Mass. [g]

    Parameters
    ----------
    text : str
        Such as ``50 g``, ``1.5 kg``, ``2 oz`` (avoirdupois). ``gr`` may be grams or grains and is refused.
    low_g, high_g : float, optional
        Limits, both allowed. [g]

    Raises
    ------
    InputError
        See :func:`parse_quantity`.

    Examples
    --------
    >>> parse_mass_g("1.5 kg"), parse_mass_g("16 oz")
    (1500.0, 453.59237)
    """
    return parse_quantity(text, "mass", low_g, high_g)


def parse_aperture(text: str) -> float:
    """f-number. [1]

    Parameters
    ----------
    text : str
        ``f/22``, ``f22`` or ``22``.

    Raises
    ------
    OutOfRangeError
        If it lies outside f/0.5 to f/1024.
    UnreadableError
        If it is not an f-number.

    Examples
    --------
    >>> parse_aperture("f/22"), parse_aperture("f5,6"), parse_aperture("32")
    (22.0, 5.6, 32.0)
    """
    example = "f/22"
    clean = cleaned(text, example).casefold().replace("ƒ", "f")
    digits = clean.removeprefix("f").lstrip(" /")
    value, rest = number_in_front(digits or "?", example=example, point_thousandths=True, comma_thousandths=False)
    if rest or "/" in digits:
        raise UnreadableError("units.aperture.unreadable", value=text, example=example)
    if not 0.5 <= value <= 1024.0:
        raise OutOfRangeError("units.aperture.out_of_range", value=text, low=0.5, high=1024.0, example=example)
    return value


def house_text(value: float, unit: str) -> str:
    """Text of a number and its unit that the parsers read back as the same number.

    Parameters
    ----------
    value : float
        [the unit given]
    unit : str
        As the parsers know it.

    Examples
    --------
    >>> house_text(600.0, "ml"), house_text(1.125, "ml")
    ('600 ml', '1.1250 ml')
    """
    text = plain(value)
    whole, point, decimals = text.partition(".")
    # One and an eighth would read back as 1125 to whoever parts thousands with a point: a fourth decimal settles it.
    settled = f"{text}0" if point and len(decimals) == 3 and whole.lstrip("-") != "0" else text
    return f"{settled} {unit}"
