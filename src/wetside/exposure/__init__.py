"""Exposure: scales, zones, losses of light, reciprocity, and what a sheet got against what was meant.

Everything takes and returns exact numbers (f/22 is 22.63); what is engraved goes through
:mod:`wetside.exposure.scales` first. Only the audit takes engraved settings, since that is what people write down.
"""

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

__all__ = [
    "MISHAPS",
    "NO_RECIPROCITY",
    "AuditPart",
    "CameraSetting",
    "ExposureAudit",
    "ExposurePipeline",
    "ExposureStep",
    "ReciprocityGainer",
    "ReciprocityModel",
    "ReciprocityNone",
    "ReciprocityPower",
    "ReciprocityTable",
    "Step",
    "aperture_change_factor",
    "aperture_exact",
    "aperture_nominal",
    "audit_exposure",
    "bellows_factor",
    "bellows_factor_magnification",
    "check_reciprocity",
    "checked_mishaps",
    "density_factor",
    "double_exposure_stops",
    "exposure_pipeline",
    "exposure_value",
    "factor_stops",
    "illuminance_lx",
    "luminance_cd_m2",
    "metered_time_s",
    "nominal_stops",
    "opened_aperture",
    "pipeline_wrong_order_s",
    "placed_ev",
    "schwarzschild_exponent",
    "shutter_exact",
    "shutter_nominal",
    "stacked_factor",
    "stops_factor",
    "zone_fall",
    "zones_n",
]
