"""Dilutions, volumes to measure, developing agent for an area of film, reuse, and the cautions that belong to them.

Liquid to wet a vessel and agent for the film in it are two needs; nothing here merges them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from wetside.chemistry.amount import (
        VolumeNeeded,
        activity_ratio,
        agent_in_ml,
        agent_need_ml,
        check_agent,
        density_effect,
        developer_weight,
        mean_activity,
        passing_dilution,
        passing_sheet_count,
        passing_volume_ml,
        volume_needed,
        working_need_ml,
    )
    from wetside.chemistry.cautions import caution_codes, cautions_of
    from wetside.chemistry.dilution import colon_readings, parse_dilution, strength_ratio, write_dilution
    from wetside.chemistry.mixing import (
        Mix,
        cylinder_mark_ml,
        mix_volumes,
        percent_dilution_ml,
        redilution_water_ml,
        warnings_of_mix,
    )
    from wetside.chemistry.reuse import reuse_factor, use_per_sheet_ml, use_per_unit_ml

_HOMES = {
    "amount": (
        "VolumeNeeded",
        "activity_ratio",
        "agent_in_ml",
        "agent_need_ml",
        "check_agent",
        "density_effect",
        "developer_weight",
        "mean_activity",
        "passing_dilution",
        "passing_sheet_count",
        "passing_volume_ml",
        "volume_needed",
        "working_need_ml",
    ),
    "cautions": ("caution_codes", "cautions_of"),
    "dilution": ("colon_readings", "parse_dilution", "strength_ratio", "write_dilution"),
    "mixing": (
        "Mix",
        "cylinder_mark_ml",
        "mix_volumes",
        "percent_dilution_ml",
        "redilution_water_ml",
        "warnings_of_mix",
    ),
    "reuse": ("reuse_factor", "use_per_sheet_ml", "use_per_unit_ml"),
}
"""Names by the module that holds them; a module is loaded when one of its names is first asked for."""

_MODULES = {name: module for module, names in _HOMES.items() for name in names}

__all__ = [
    "Mix",
    "VolumeNeeded",
    "activity_ratio",
    "agent_in_ml",
    "agent_need_ml",
    "caution_codes",
    "cautions_of",
    "check_agent",
    "colon_readings",
    "cylinder_mark_ml",
    "density_effect",
    "developer_weight",
    "mean_activity",
    "mix_volumes",
    "parse_dilution",
    "passing_dilution",
    "passing_sheet_count",
    "passing_volume_ml",
    "percent_dilution_ml",
    "redilution_water_ml",
    "reuse_factor",
    "strength_ratio",
    "use_per_sheet_ml",
    "use_per_unit_ml",
    "volume_needed",
    "warnings_of_mix",
    "working_need_ml",
    "write_dilution",
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
