"""From readings of a step tablet to curves, contrast, speed, and a family over developing times."""

from wetside.sensitometry.aims import (
    NORMAL_FLARE_LOG,
    NORMAL_LOG_RANGE,
    default_tolerance,
    grade_change,
    log_range_of_n,
    n_of_log_range,
    required_gradient,
    zones_of_range_change,
)
from wetside.sensitometry.arcs import ArcGauge, arc_gauge, contrast_index
from wetside.sensitometry.contrast import (
    average_gradient,
    chord_gradient,
    gamma,
    iso_delta,
    speed_arithmetic_iso6,
    speed_degrees_iso6,
    speed_log_h,
)
from wetside.sensitometry.density import density_of_opacity, density_of_print_times, opacity_of_density
from wetside.sensitometry.measures import CurveMeasures, MissingMeasure, curve_measures
from wetside.sensitometry.paper import log_exposure_range_iso6846
from wetside.sensitometry.readings import (
    ReadingReport,
    curve_of_readings,
    curves_of_readings,
    family_of_readings,
)
from wetside.sensitometry.rising import rising_fit
from wetside.sensitometry.tablet import log_h_of_steps, nominal_tablet

__all__ = [
    "NORMAL_FLARE_LOG",
    "NORMAL_LOG_RANGE",
    "ArcGauge",
    "CurveMeasures",
    "MissingMeasure",
    "ReadingReport",
    "arc_gauge",
    "average_gradient",
    "chord_gradient",
    "contrast_index",
    "curve_measures",
    "curve_of_readings",
    "curves_of_readings",
    "default_tolerance",
    "density_of_opacity",
    "density_of_print_times",
    "family_of_readings",
    "gamma",
    "grade_change",
    "iso_delta",
    "log_exposure_range_iso6846",
    "log_h_of_steps",
    "log_range_of_n",
    "n_of_log_range",
    "nominal_tablet",
    "opacity_of_density",
    "required_gradient",
    "rising_fit",
    "speed_arithmetic_iso6",
    "speed_degrees_iso6",
    "speed_log_h",
    "zones_of_range_change",
]
