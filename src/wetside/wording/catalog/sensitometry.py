"""Sentences of ``wetside.sensitometry``."""

from wetside.wording.catalog import N_

PARTS = ("sensitometry_printing",)
"""Further modules of this catalogue."""

SENTENCES = {
    "sensitometry.aim.printing_unknown": N_("No printing is called {printing:quoted}. Known are {known:list}."),
    "sensitometry.aim.density_range": N_(
        "A density range of {value:plain} cannot be worked with. It must be more than 0, for example 1.05."
    ),
    "sensitometry.aim.log_range": N_(
        "A scene range of {value:plain} in log exposure cannot be worked with. Give more than 0, for example 2.20."
    ),
    "sensitometry.aim.n": N_(
        "A development of N {n:signed} leaves no scene. N must be a number below {highest:density}."
    ),
    "sensitometry.aim.difference": N_("No film has a difference of density of {difference:plain}."),
    "sensitometry.aim.flare": N_("Flare of {value:plain} is not possible. Give 0 or more, in log exposure."),
    "sensitometry.aim.flare_too_large": N_(
        "Flare of {flare_log:density} leaves nothing of a scene range of {log_range:density}. "
        "Give less flare, or a longer scene range."
    ),
    "sensitometry.density.opacity": N_("An opacity of {value:plain} is not possible. It starts at 1, for clear film."),
    "sensitometry.density.impossible": N_("No film has a density of {value:plain}."),
    "sensitometry.density.print_time": N_("A print time of {value:plain} s is not possible. It must be more than 0."),
    "sensitometry.density.not_read": N_(
        "{dev_s:mss}: the readings hold densities from {low:density} to {high:density}; {wanted:density} is not among "
        "them. Read more steps."
    ),
    "sensitometry.log_h.not_read": N_(
        "{dev_s:mss}: the readings go from log H {low:density} to {high:density}; this needs {wanted:density}. "
        "Read more steps, or expose the tablet longer."
    ),
    "sensitometry.chord.not_rising": N_(
        "A slope needs two exposures, the second larger than the first; given are {low:plain} and {high:plain}."
    ),
    "sensitometry.chord.log_range": N_("A slope over {value:plain} in log exposure is not possible. Give more than 0."),
    "sensitometry.contrast_index.not_read": N_(
        "{dev_s:mss}: the readings end at log H {high_log_h:density}, density {high_density:density}, before the outer "
        "arc of the contrast gauge. Read more steps, or expose the tablet longer."
    ),
    "sensitometry.contrast_index.no_fit": N_(
        "{dev_s:mss}: the readings begin above the inner arc of the contrast gauge. Read fainter steps as well."
    ),
    "sensitometry.speed.relative": N_(
        "{dev_s:mss}: the exposures are relative, so the curve gives no speed. Give the exposure in lux-seconds."
    ),
    "sensitometry.speed.not_positive": N_("A film speed of {value:plain} is not possible. It must be more than 0."),
    "sensitometry.paper.not_read": N_(
        "The readings of the paper go from {lowest:density} to {highest:density}. They must hold {wanted:density}, the "
        "lightest tone that counts, and the black."
    ),
    "sensitometry.tablet.count": N_("A tablet of {count:plain} steps is not possible. It has 2 to 60."),
    "sensitometry.tablet.density": N_("A step of a tablet cannot have a density of {value:plain}. Give 0 to 6."),
    "sensitometry.tablet.exposure": N_(
        "A log exposure of {value:plain} on the tablet is not possible. Give -12 to 12."
    ),
    "sensitometry.tablet.step": N_("The tablet has no step {step:plain}. Its steps are 1 to {count:plain}."),
    "sensitometry.readings.none": N_("There are no readings. Give at least four for each developing time."),
    "sensitometry.readings.time_impossible": N_(
        "A developing time of {value:plain} s is not possible. It must be more than 0 and at most a day."
    ),
    "sensitometry.readings.uneven": N_(
        "{dev_s:mss}: {log_h_count:plain} log exposures stand beside {density_count:plain} densities. "
        "Give one density for each exposure."
    ),
    "sensitometry.readings.log_h_impossible": N_(
        "{dev_s:mss}: a log exposure of {value:plain} is not possible. Give numbers from {low:plain} to {high:plain}."
    ),
    "sensitometry.readings.density_impossible": N_(
        "{dev_s:mss}: a density of {value:plain} is not possible. Give numbers from {low:plain} to {high:plain}."
    ),
    "sensitometry.readings.base_fog_impossible": N_(
        "{dev_s:mss}: base + fog of {value:plain} is not possible. Give a density from {low:plain} to {high:plain}."
    ),
    "sensitometry.readings.base_fog_over_all": N_(
        "{dev_s:mss}: base + fog of {base_fog:density} is not below the highest reading, {high:density}. Check which "
        "patch was read, or whether the densitometer was set to zero on the base."
    ),
    "sensitometry.readings.base_fog_above": N_(
        "{dev_s:mss}: readings go down to {lowest:density}, below the given base + fog of {base_fog:density}. It "
        "is used all the same; check it."
    ),
    "sensitometry.readings.base_fog_lowest": N_(
        "{dev_s:mss}: base + fog is taken as the lowest reading, {base_fog:density}; none was given."
    ),
    "sensitometry.readings.log_h_repeated": N_(
        "{dev_s:mss}: log H {log_h:density} stands there twice, with densities {one:density} and {other:density}. "
        "Keep one, or their mean."
    ),
    "sensitometry.readings.too_few": N_(
        "{dev_s:mss}: {count:plain} readings draw no curve. Give at least {least:plain} different exposures."
    ),
    "sensitometry.readings.falling": N_(
        "{dev_s:mss}: density falls from {first:density} to {last:density} as exposure rises. If the numbers are "
        "those of a tablet's steps, give step and tablet density, or turn the list round."
    ),
    "sensitometry.readings.flat": N_(
        "{dev_s:mss}: the readings lie between {low:density} and {high:density} and do not rise. A curve must rise by "
        "at least {least:density}. Check the exposure and which strip was read."
    ),
    "sensitometry.readings.dip_too_deep": N_(
        "{dev_s:mss}: at log H {log_h:density} density falls by {depth:density} below a fainter exposure. More than "
        "{deepest:density} is no error of reading: read that step again, or leave it out."
    ),
    "sensitometry.readings.dip_smoothed": N_(
        "{dev_s:mss}: a dip of {dip:density} at log H {log_h:density} was smoothed: {count:plain} readings from "
        "{low_log_h:density} to {high_log_h:density} now stand at {density:density}."
    ),
}
