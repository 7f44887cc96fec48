"""Sentences of ``wetside.values``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "values.dilution.not_finite": N_("A part of a dilution is not a number: {value}. Write it like 1+24."),
    "values.dilution.no_agent": N_(
        "The dilution {value:quoted} has no concentrate in it. The first part must be more than 0, as in 1+24."
    ),
    "values.dilution.negative_water": N_("The water of a dilution cannot be negative ({value:plain})."),
    "values.curve.dev_not_positive": N_(
        "A developing time of {dev_s:plain} s is not possible. It must be more than 0."
    ),
    "values.curve.uneven": N_(
        "{log_h_count:plain} log exposures stand beside {density_count:plain} densities. Give one density for each."
    ),
    "values.curve.too_few": N_("{count:plain} readings draw no curve. Give at least {least:plain}."),
    "values.curve.impossible": N_(
        "{value:plain} is neither a log exposure nor a density. Give numbers within {furthest:plain} of 0."
    ),
    "values.curve.log_h_not_rising": N_(
        "Log exposure must rise from one reading to the next; {after:plain} stands after {before:plain}."
    ),
    "values.curve.density_falls": N_(
        "At log H {log_h:density} density falls from {before:density} to {after:density}. A curve must not fall."
    ),
    "values.curve.beyond_log_h": N_(
        "The readings go from log H {low:density} to {high:density}; {log_h:density} lies outside, and a curve is not "
        "drawn further than it was read."
    ),
    "values.curve.beyond_density": N_(
        "The readings hold densities from {low:density} to {high:density}; {density:density} is not among them."
    ),
    "values.curve.speed_point_not_read": N_(
        "{dev_s:mss}: the speed point needs density {density:density}; the readings go from {low:density} to "
        "{high:density}. Read fainter or denser steps as well."
    ),
    "values.family.too_few": N_(
        "{film}: a family needs curves at two developing times or more; there is {count:plain}. Test another time, "
        "well away from the first."
    ),
    "values.family.same_time": N_(
        "{film}: two curves stand for the developing time {dev_s:mss}. Keep one, or put their readings together."
    ),
    "values.family.mixed_scales": N_(
        "{film}: some curves have exposures in lux-seconds, others relative ones. Give all of them in one way."
    ),
    "values.family.share": N_("A span cannot be widened by {share:plain}. Give a share from 0 to less than 1."),
    "values.family.time_not_finite": N_("{film}: a developing time of {dev_s:plain} s is not a time."),
    "values.family.beyond_span": N_(
        "{film}: {dev_s:mss} lies outside the tested times, {low_s:mss} to {high_s:mss}. Test a time out there, or "
        "plan inside."
    ),
    "values.family.log_range": N_(
        "A scene range of {log_range:plain} in log exposure is not possible. It must be more than 0."
    ),
    "values.family.density_range": N_(
        "A density range of {density_range:plain} is not possible. It must be more than 0."
    ),
    "values.family.tolerance": N_("A tolerance of {tolerance:plain} is not possible. It must be more than 0."),
    "values.family.shadow_not_read": N_(
        "{film}, {dev_s:mss}: the shadow lies at log H {log_h:density}, the readings begin only at "
        "{reach_log_h:density}: {missing:density} short. Read fainter steps."
    ),
    "values.family.highlight_not_read": N_(
        "{film}, {dev_s:mss}: the highlight lies at log H {log_h:density}, the readings end at {reach_log_h:density}: "
        "{missing:density} short. Expose the tablet longer, or aim at a shorter scene."
    ),
    "values.family.not_rising": N_(
        "{film}: {late_s:mss} gives a density range of {late_range:density}, no more than the {early_range:density} of "
        "{early_s:mss}. More development must give more; check which strip had which time."
    ),
    "values.family.range_too_small": N_(
        "{film}: a density range of {wanted:density} is less than the tested times give. The nearest is "
        "{nearest:density}, at {dev_s:mss}. Test a shorter time, or use softer development."
    ),
    "values.family.range_too_large": N_(
        "{film}: a density range of {wanted:density} is more than the tested times give. The nearest is "
        "{nearest:density}, at {dev_s:mss}. Test a longer time, or print on harder paper."
    ),
}
