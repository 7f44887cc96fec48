"""Developing time against temperature, agitation, clock, contrast and evidence.

``coefficient`` and ``integral`` move a time with temperature, ``agitation`` and ``clock`` with the way of working,
``contrast_time`` with the contrast that is wanted; ``floor`` says when a time is too short; ``starting_point`` is a
time from a sheet. What makers publish is data, read by ``wetside.adapters.starting_points``.
"""

from wetside.development.agitation import (
    ContinuousCut,
    PresoakAdvice,
    agitation_factor,
    choose_cut,
    makers_against_presoak,
    presoak_cancels_cut,
)
from wetside.development.arrhenius import activation_energy_of_q10, temperature_factor_arrhenius
from wetside.development.clock import ClockConversion, convert_clock_s, effective_development_s
from wetside.development.coefficient import (
    GENERAL_COEFFICIENT,
    TemperatureCoefficient,
    TimePair,
    coefficient_of_pair,
    coefficient_of_pairs,
    coefficient_of_q10,
    coefficient_span_of_pair,
    is_inside_span,
    named_coefficient,
    q10_of_coefficient,
    q10_of_pair,
    require_inside_span,
    sourced_temperature_factor,
    temperature_factor,
)
from wetside.development.contrast_time import (
    FirstOrderLaw,
    density_range_change_assumed,
    elasticity_of_two_times,
    first_order_law,
    gradient_first_order,
    push_factor_rollei,
    sourced_time_factor_assumed,
    time_factor_assumed,
    time_first_order_s,
)
from wetside.development.floor import FloorCheck, PublishedFloor, floor_check
from wetside.development.integral import (
    TemperatureReading,
    duration_for_effective_s,
    effective_relaxing_time_s,
    effective_temp_c,
    effective_time_s,
    relaxation_time_s,
    relaxed_temp_c,
)
from wetside.development.starting_point import StartingPoint, agree_on_time, most_stated

__all__ = [
    "GENERAL_COEFFICIENT",
    "ClockConversion",
    "ContinuousCut",
    "FirstOrderLaw",
    "FloorCheck",
    "PresoakAdvice",
    "PublishedFloor",
    "StartingPoint",
    "TemperatureCoefficient",
    "TemperatureReading",
    "TimePair",
    "activation_energy_of_q10",
    "agitation_factor",
    "agree_on_time",
    "choose_cut",
    "coefficient_of_pair",
    "coefficient_of_pairs",
    "coefficient_of_q10",
    "coefficient_span_of_pair",
    "convert_clock_s",
    "density_range_change_assumed",
    "duration_for_effective_s",
    "effective_development_s",
    "effective_relaxing_time_s",
    "effective_temp_c",
    "effective_time_s",
    "elasticity_of_two_times",
    "first_order_law",
    "floor_check",
    "gradient_first_order",
    "is_inside_span",
    "makers_against_presoak",
    "most_stated",
    "named_coefficient",
    "presoak_cancels_cut",
    "push_factor_rollei",
    "q10_of_coefficient",
    "q10_of_pair",
    "relaxation_time_s",
    "relaxed_temp_c",
    "require_inside_span",
    "sourced_temperature_factor",
    "sourced_time_factor_assumed",
    "temperature_factor",
    "temperature_factor_arrhenius",
    "time_factor_assumed",
    "time_first_order_s",
]
