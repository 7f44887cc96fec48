"""Exposure: scales, zones, losses of light, reciprocity, and what a sheet got against what was meant.

Everything takes and returns exact numbers (f/22 is 22.63); what is engraved goes through
:mod:`wetside.exposure.scales` first. Only the audit takes engraved settings, since that is what people write down.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.exposure.audit import AuditPart, ExposureAudit, audit_exposure
from wetside.exposure.double_exposure import double_exposure_stops
from wetside.exposure.light_losses import (
    aperture_change_factor,
    bellows_factor,
    bellows_factor_magnification,
    density_factor,
    factor_stops,
    nominal_stops,
    opened_aperture,
    stacked_factor,
    stops_factor,
)
from wetside.exposure.meters import exposure_value, illuminance_lx, luminance_cd_m2, metered_time_s
from wetside.exposure.mishaps import MISHAPS, CameraSetting, checked_mishaps
from wetside.exposure.pipeline import ExposurePipeline, ExposureStep, exposure_pipeline, pipeline_wrong_order_s
from wetside.exposure.reciprocity import (
    NO_RECIPROCITY,
    ReciprocityGainer,
    ReciprocityModel,
    ReciprocityNone,
    ReciprocityPower,
    ReciprocityTable,
    check_reciprocity,
    schwarzschild_exponent,
)
from wetside.exposure.scales import Step, aperture_exact, aperture_nominal, shutter_exact, shutter_nominal
from wetside.exposure.zones import placed_ev, zone_fall, zones_n

if TYPE_CHECKING:
    from wetside.exposure.filters import (
        FilterFactor,
        FilterRemark,
        Light,
        PublishedFilter,
        PublishedIndex,
        Sensitivity,
        filter_factor,
        filter_remarks,
        light_factor,
    )
    from wetside.exposure.reciprocity_choice import (
        NamedReciprocity,
        ReciprocityAnswer,
        ReciprocityComparison,
        ReciprocityDoubling,
        ReciprocityKind,
        ThresholdClaim,
        ThresholdContradiction,
        compare_reciprocity,
        exponent_of_pair,
        local_exponent,
        power_of_schwarzschild,
        threshold_contradictions,
    )

_LATER = {
    "filters": (
        "FilterFactor",
        "FilterRemark",
        "Light",
        "PublishedFilter",
        "PublishedIndex",
        "Sensitivity",
        "filter_factor",
        "filter_remarks",
        "light_factor",
    ),
    "reciprocity_choice": (
        "NamedReciprocity",
        "ReciprocityAnswer",
        "ReciprocityComparison",
        "ReciprocityDoubling",
        "ReciprocityKind",
        "ThresholdClaim",
        "ThresholdContradiction",
        "compare_reciprocity",
        "exponent_of_pair",
        "local_exponent",
        "power_of_schwarzschild",
        "threshold_contradictions",
    ),
}
"""Names by the module that holds them; a module is loaded when one of its names is first asked for."""

_MODULES = {name: module for module, names in _LATER.items() for name in names}

__all__ = [
    "MISHAPS",
    "NO_RECIPROCITY",
    "AuditPart",
    "CameraSetting",
    "ExposureAudit",
    "ExposurePipeline",
    "ExposureStep",
    "FilterFactor",
    "FilterRemark",
    "Light",
    "NamedReciprocity",
    "PublishedFilter",
    "PublishedIndex",
    "ReciprocityAnswer",
    "ReciprocityComparison",
    "ReciprocityDoubling",
    "ReciprocityGainer",
    "ReciprocityKind",
    "ReciprocityModel",
    "ReciprocityNone",
    "ReciprocityPower",
    "ReciprocityTable",
    "Sensitivity",
    "Step",
    "ThresholdClaim",
    "ThresholdContradiction",
    "aperture_change_factor",
    "aperture_exact",
    "aperture_nominal",
    "audit_exposure",
    "bellows_factor",
    "bellows_factor_magnification",
    "check_reciprocity",
    "checked_mishaps",
    "compare_reciprocity",
    "density_factor",
    "double_exposure_stops",
    "exponent_of_pair",
    "exposure_pipeline",
    "exposure_value",
    "factor_stops",
    "filter_factor",
    "filter_remarks",
    "illuminance_lx",
    "light_factor",
    "local_exponent",
    "luminance_cd_m2",
    "metered_time_s",
    "nominal_stops",
    "opened_aperture",
    "pipeline_wrong_order_s",
    "placed_ev",
    "power_of_schwarzschild",
    "schwarzschild_exponent",
    "shutter_exact",
    "shutter_nominal",
    "stacked_factor",
    "stops_factor",
    "threshold_contradictions",
    "zone_fall",
    "zones_n",
]


def __getattr__(name: str) -> Any:
    """Load a name from its module: a plain evening must not wait for what it does not use."""
    module = _MODULES.get(name)
    if module is None:
        raise AttributeError(name)
    from importlib import import_module

    value = getattr(import_module(f"{__name__}.{module}"), name)
    globals()[name] = value
    return value
