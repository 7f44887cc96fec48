"""Developing time against temperature, agitation, clock, contrast and evidence.

``coefficient`` and ``integral`` move a time with temperature, ``agitation`` and ``clock`` with the way of working,
``contrast_time`` with the contrast that is wanted; ``floor`` says when a time is too short; ``starting_point`` is a
time from a sheet. ``ways`` names the ways of developing other than one bath: ``two_bath``, ``replaced``, ``stand``,
``inspection``, ``reuse_time``, ``replenished``; ``seasons`` and ``limits_warm`` are for warm and cold baths. What
makers publish is data, read by ``wetside.adapters.starting_points`` and ``wetside.adapters.ways_data``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

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

if TYPE_CHECKING:
    from wetside.development.inspection import (
        InspectionPlan,
        Look,
        LookAct,
        Safelight,
        Verdict,
        end_after_looks_s,
        inspection_plan,
    )
    from wetside.development.limits_warm import (
        LONGEST_IN_ROTATION_S,
        PublishedRange,
        longest_remarks,
        require_warm_enough,
        temperature_remarks,
    )
    from wetside.development.replaced import DeveloperPart, ReplacedPlan, activity_of_part, replaced_plan
    from wetside.development.replenished import (
        BathState,
        TopUp,
        bath_state,
        replenisher_rate_ml_per_cm2,
        require_same_state,
        top_up,
    )
    from wetside.development.reuse_time import ReusedTime, ReuseRule, UsedArea, require_window_for_reuse, reused_time
    from wetside.development.seasons import (
        RuleSpan,
        RuleTime,
        SeasonalWay,
        WayOut,
        published_rules_span,
        short_rule_factor,
        ways_out,
    )
    from wetside.development.stand import AgitationMoment, StandPlan, agitation_moments, stand_plan
    from wetside.development.two_bath import CarryOver, TwoBathPlan, carried_over_ml, share_of_a_in_b, two_bath_plan
    from wetside.development.ways import Remark, Way, require_same_way

_LATER = {
    "inspection": ("Look", "LookAct", "InspectionPlan", "Safelight", "Verdict", "end_after_looks_s", "inspection_plan"),
    "limits_warm": (
        "LONGEST_IN_ROTATION_S",
        "PublishedRange",
        "longest_remarks",
        "require_warm_enough",
        "temperature_remarks",
    ),
    "replaced": ("DeveloperPart", "ReplacedPlan", "activity_of_part", "replaced_plan"),
    "replenished": ("BathState", "TopUp", "bath_state", "replenisher_rate_ml_per_cm2", "require_same_state", "top_up"),
    "reuse_time": ("ReusedTime", "ReuseRule", "UsedArea", "require_window_for_reuse", "reused_time"),
    "seasons": (
        "RuleSpan",
        "RuleTime",
        "SeasonalWay",
        "WayOut",
        "published_rules_span",
        "short_rule_factor",
        "ways_out",
    ),
    "stand": ("AgitationMoment", "StandPlan", "agitation_moments", "stand_plan"),
    "two_bath": ("CarryOver", "TwoBathPlan", "carried_over_ml", "share_of_a_in_b", "two_bath_plan"),
    "ways": ("Remark", "Way", "require_same_way"),
}
"""Names by the module that holds them; a module is loaded when one of its names is first asked for."""

_MODULES = {name: module for module, names in _LATER.items() for name in names}

__all__ = [
    "GENERAL_COEFFICIENT",
    "LONGEST_IN_ROTATION_S",
    "AgitationMoment",
    "BathState",
    "CarryOver",
    "ClockConversion",
    "ContinuousCut",
    "DeveloperPart",
    "FirstOrderLaw",
    "FloorCheck",
    "InspectionPlan",
    "Look",
    "LookAct",
    "PresoakAdvice",
    "PublishedFloor",
    "PublishedRange",
    "Remark",
    "ReplacedPlan",
    "ReuseRule",
    "ReusedTime",
    "RuleSpan",
    "RuleTime",
    "Safelight",
    "SeasonalWay",
    "StandPlan",
    "StartingPoint",
    "TemperatureCoefficient",
    "TemperatureReading",
    "TimePair",
    "TopUp",
    "TwoBathPlan",
    "UsedArea",
    "Verdict",
    "Way",
    "WayOut",
    "activation_energy_of_q10",
    "activity_of_part",
    "agitation_factor",
    "agitation_moments",
    "agree_on_time",
    "bath_state",
    "carried_over_ml",
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
    "end_after_looks_s",
    "first_order_law",
    "floor_check",
    "gradient_first_order",
    "inspection_plan",
    "is_inside_span",
    "longest_remarks",
    "makers_against_presoak",
    "most_stated",
    "named_coefficient",
    "presoak_cancels_cut",
    "published_rules_span",
    "push_factor_rollei",
    "q10_of_coefficient",
    "q10_of_pair",
    "relaxation_time_s",
    "relaxed_temp_c",
    "replaced_plan",
    "replenisher_rate_ml_per_cm2",
    "require_inside_span",
    "require_same_state",
    "require_same_way",
    "require_warm_enough",
    "require_window_for_reuse",
    "reused_time",
    "share_of_a_in_b",
    "short_rule_factor",
    "sourced_temperature_factor",
    "sourced_time_factor_assumed",
    "stand_plan",
    "temperature_factor",
    "temperature_factor_arrhenius",
    "temperature_remarks",
    "time_factor_assumed",
    "time_first_order_s",
    "top_up",
    "two_bath_plan",
    "ways_out",
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
