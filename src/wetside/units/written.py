"""Quantities as the kept files hold them: text that the parsers read back as exactly the same number."""

from __future__ import annotations

import math

from wetside.errors import OutOfRangeError
from wetside.units.quantity import house_text
from wetside.units.table import plain


def _finite(value: float) -> float:
    if not math.isfinite(value):
        raise OutOfRangeError("units.number.not_finite", value=value, example="1.5")
    return value


def write_number(value: float) -> str:
    """Write a number [1] as text.

    Examples
    --------
    >>> write_number(1.5), write_number(3.0)
    ('1.5', '3')
    """
    return plain(_finite(value))


def write_volume(volume_ml: float) -> str:
    """Volume [ml] as text.

    Examples
    --------
    >>> write_volume(600.0)
    '600 ml'
    """
    return house_text(_finite(volume_ml), "ml")


def write_duration(duration_s: float) -> str:
    """Time [s] as text: m:ss where it is a whole number of seconds and at least a minute, else in seconds.

    Examples
    --------
    >>> write_duration(450.0), write_duration(0.5), write_duration(20.0)
    ('7:30', '0.5 s', '20 s')
    """
    whole = _finite(duration_s).is_integer()
    if whole and 60.0 <= duration_s < 6e6:
        minutes, seconds = divmod(int(duration_s), 60)
        return f"{minutes}:{seconds:02d}"
    return house_text(duration_s, "s")


def write_duration_span(low_s: float, high_s: float) -> str:
    """Span of two times [s] as text; one time where both are equal.

    Examples
    --------
    >>> write_duration_span(420.0, 480.0), write_duration_span(450.0, 450.0)
    ('7:00-8:00', '7:30')
    """
    if low_s == high_s:
        return write_duration(low_s)
    return f"{write_duration(low_s)}-{write_duration(high_s)}"


def write_temp(temp_c: float) -> str:
    """Temperature [C] as text.

    Examples
    --------
    >>> write_temp(20.5)
    '20.5 C'
    """
    return house_text(_finite(temp_c), "C")


def write_temp_step(step_c: float) -> str:
    """Difference of temperatures [C] as text.

    Examples
    --------
    >>> write_temp_step(-0.4)
    '-0.4 C'
    """
    return house_text(_finite(step_c), "C")


def write_length(length_mm: float) -> str:
    """Length [mm] as text.

    Examples
    --------
    >>> write_length(300.0)
    '300 mm'
    """
    return house_text(_finite(length_mm), "mm")


def write_area(area_cm2: float) -> str:
    """Area [cm2] as text.

    Examples
    --------
    >>> write_area(516.128)
    '516.1280 cm2'
    """
    return house_text(_finite(area_cm2), "cm2")


def write_mass(mass_g: float) -> str:
    """Mass [g] as text.

    Examples
    --------
    >>> write_mass(50.0)
    '50 g'
    """
    return house_text(_finite(mass_g), "g")


def write_aperture(aperture_n: float) -> str:
    """f-number [1] as text.

    Examples
    --------
    >>> write_aperture(22.0)
    'f/22'
    """
    return f"f/{plain(_finite(aperture_n))}"


def write_agent_per_area(agent_ml_per_cm2: float) -> str:
    """Stock or concentrate to an area of film [ml/cm2] as text.

    Examples
    --------
    >>> write_agent_per_area(0.12)
    '0.12 ml per cm2'
    """
    return f"{house_text(_finite(agent_ml_per_cm2), 'ml')} per cm2"
