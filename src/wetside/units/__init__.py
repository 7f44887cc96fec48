"""House units, and what people type turned into them.

Inside Wetside every quantity is a plain number in one unit, which its name carries: ``_s``, ``_c``, ``_ml``, ``_g``,
``_mm``, ``_cm2``. The parsers read what a person typed, the writers write what the parsers read back as exactly the
same number, and the table of units is data: ``units.toml``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from wetside.units.duration import parse_duration_s, parse_duration_span_s
    from wetside.units.number import parse_number, whole_number
    from wetside.units.quantity import (
        parse_aperture,
        parse_area_cm2,
        parse_length_mm,
        parse_mass_g,
        parse_temp_c,
        parse_temp_step_c,
        parse_volume_ml,
    )
    from wetside.units.sheet_format import parse_agent_per_area, parse_size
    from wetside.units.us import f_of_c, f_step_of_c_step, fl_oz_imperial_of_ml, fl_oz_us_of_ml, in_of_mm, oz_of_g
    from wetside.units.written import (
        write_agent_per_area,
        write_aperture,
        write_area,
        write_duration,
        write_duration_span,
        write_length,
        write_mass,
        write_number,
        write_temp,
        write_temp_step,
        write_volume,
    )

_HOMES = {
    "duration": ("parse_duration_s", "parse_duration_span_s"),
    "number": ("parse_number", "whole_number"),
    "quantity": (
        "parse_aperture",
        "parse_area_cm2",
        "parse_length_mm",
        "parse_mass_g",
        "parse_temp_c",
        "parse_temp_step_c",
        "parse_volume_ml",
    ),
    "sheet_format": ("parse_agent_per_area", "parse_size"),
    "us": ("f_of_c", "f_step_of_c_step", "fl_oz_imperial_of_ml", "fl_oz_us_of_ml", "in_of_mm", "oz_of_g"),
    "written": (
        "write_agent_per_area",
        "write_aperture",
        "write_area",
        "write_duration",
        "write_duration_span",
        "write_length",
        "write_mass",
        "write_number",
        "write_temp",
        "write_temp_step",
        "write_volume",
    ),
}
"""Names by the module that holds them; a module is loaded when one of its names is first asked for."""

_MODULES = {name: module for module, names in _HOMES.items() for name in names}

__all__ = [
    "f_of_c",
    "f_step_of_c_step",
    "fl_oz_imperial_of_ml",
    "fl_oz_us_of_ml",
    "in_of_mm",
    "oz_of_g",
    "parse_agent_per_area",
    "parse_aperture",
    "parse_area_cm2",
    "parse_duration_s",
    "parse_duration_span_s",
    "parse_length_mm",
    "parse_mass_g",
    "parse_number",
    "parse_size",
    "parse_temp_c",
    "parse_temp_step_c",
    "parse_volume_ml",
    "whole_number",
    "write_agent_per_area",
    "write_aperture",
    "write_area",
    "write_duration",
    "write_duration_span",
    "write_length",
    "write_mass",
    "write_number",
    "write_temp",
    "write_temp_step",
    "write_volume",
]


def __getattr__(name: str) -> Any:
    """Load a name from its module: `wetside mix` must not wait for what it does not use."""
    module = _MODULES.get(name)
    if module is None:
        raise AttributeError(name)
    from importlib import import_module

    value = getattr(import_module(f"{__name__}.{module}"), name)
    globals()[name] = value
    return value
