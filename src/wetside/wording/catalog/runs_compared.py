"""Words for two runs side by side: what differs, each run's value, what it rests on, and what nobody knows."""

from wetside.wording.catalog import N_

SENTENCES = {
    "runs.compared.not_opened": N_("This run was never started: there is nothing to compare. Pick another."),
    "runs.compared.kind_time": N_("Developing time"),
    "runs.compared.kind_temperature": N_("Planned temperature"),
    "runs.compared.kind_clock": N_("When the time starts and stops"),
    "runs.compared.kind_handling": N_("Pour and drain of the vessel"),
    "runs.compared.kind_against-own": N_("Time against what the sheets want"),
    "runs.compared.kind_hands": N_("Late and early acts"),
    "runs.compared.kind_moved": N_("End moved on purpose"),
    "runs.compared.kind_course": N_("Temperature as it was read"),
    "runs.compared.kind_thermometer": N_("Thermometer"),
    "runs.compared.kind_agitation": N_("How the liquid moves"),
    "runs.compared.kind_presoak": N_("Water before the developer"),
    "runs.compared.kind_reuse": N_("Developer used before"),
    "runs.compared.kind_agent": N_("Developer for the film"),
    "runs.compared.kind_film": N_("Film"),
    "runs.compared.kind_developer": N_("Developer and dilution"),
    "runs.compared.kind_process": N_("Process"),
    "runs.compared.kind_version": N_("Version of the process"),
    "runs.compared.kind_aim": N_("Density range aimed at"),
    "runs.compared.kind_vessel": N_("Vessel"),
    "runs.compared.kind_lot": N_("Box of film"),
    "runs.compared.kind_where": N_("Where the thermometer was"),
    "runs.compared.kind_incident": N_("What went wrong"),
}

SENTENCES |= {
    "runs.compared.unknown": N_("not known"),
    "runs.compared.words": N_("{words}"),
    "runs.compared.time_value": N_("{time_s:mss}"),
    "runs.compared.against_own": N_("{time_s:mss} where {own_s:mss} is wanted"),
    "runs.compared.temp_value": N_("{temp_c:temp}"),
    "runs.compared.clock_value": N_("{clock}, {stop}"),
    "runs.compared.clock_full-to-drain": N_("from full to the drain begun"),
    "runs.compared.clock_full-to-drained": N_("from full to the drain over"),
    "runs.compared.clock_pour-to-drain": N_("from the first drop to the drain begun"),
    "runs.compared.clock_pour-to-drained": N_("from the first drop to the drain over"),
    "runs.compared.stop_acid": N_("acid stop"),
    "runs.compared.stop_water": N_("water as stop"),
    "runs.compared.handling_value": N_("pour {pour_s:seconds}, drain {drain_s:seconds}"),
    "runs.compared.hands_even": N_("as planned"),
    "runs.compared.hands_more": N_("{by_s:mss} more than planned"),
    "runs.compared.hands_less": N_("{by_s:mss} less than planned"),
    "runs.compared.untold_even": N_("as planned, an end not told"),
    "runs.compared.untold_more": N_("{by_s:mss} more than planned, an end not told"),
    "runs.compared.untold_less": N_("{by_s:mss} less than planned, an end not told"),
    "runs.compared.moved_even": N_("not moved"),
    "runs.compared.moved_later": N_("{by_s:mss} later"),
    "runs.compared.moved_earlier": N_("{by_s:mss} earlier"),
    "runs.compared.course_value": N_("{percent:percent} of time"),
    "runs.compared.thermometer_value": N_("{name}, {high_c:degrees} allowed for, never checked"),
    "runs.compared.thermometer_checked": N_("{name}, {high_c:degrees} allowed for, {checked_c:degrees} when checked"),
    "runs.compared.agitation_value": N_("{agitation}"),
    "runs.compared.agitation_rotary": N_("turning, all the time"),
    "runs.compared.agitation_tray": N_("in a tray, all the time"),
    "runs.compared.agitation_intermittent": N_("at intervals"),
    "runs.compared.agitation_stand": N_("standing still"),
    "runs.compared.no_water": N_("none"),
    "runs.compared.water_value": N_("{time_s:mss}"),
    "runs.compared.reuse_value": N_("{percent:whole_percent} of time by its rule"),
    "runs.compared.volume_value": N_("{volume_ml:ml}"),
    "runs.compared.agent_value": N_("{volume_ml:ml}, {agent_ml:ml} stock or concentrate to 516 cm² of film"),
    "runs.compared.version_value": N_("{process}, version {version}"),
    "runs.compared.aim_value": N_("{low:density} to {high:density}"),
    "runs.compared.where_value": N_("{where:list}"),
    "runs.compared.no_incident": N_("nothing told"),
    "runs.compared.incident_value": N_("{incidents:list}"),
    "runs.compared.incident_power": N_("the power went"),
    "runs.compared.incident_light": N_("light came in"),
    "runs.compared.incident_leak": N_("the vessel leaked"),
    "runs.compared.incident_scratched": N_("scratched"),
    "runs.compared.incident_stuck": N_("stuck together"),
    "runs.compared.incident_touched": N_("touched a wall or each other"),
    "runs.compared.incident_lost": N_("lost"),
    "runs.compared.incident_of": N_("{what} ({sheets:list})"),
    "runs.compared.incident_other": N_("something else"),
}

SENTENCES |= {
    "runs.compared.own_times": N_("Sheets had times of their own; their mean."),
    "runs.compared.no_coefficient": N_("What a degree does in this developer is not known."),
    "runs.compared.outside": N_("Too far outside the temperatures that the developer's figures were found at."),
    "runs.compared.drawn_on": N_(
        "Drawn on beyond the temperatures that the developer's figures were found at: a guess."
    ),
    "runs.compared.own_unknown": N_(
        "Film, developer or way differ, so each has a time of its own; it is not known here."
    ),
    "runs.compared.one_unread": N_("Only one of the two was read; the other is taken at its plan."),
    "runs.compared.thermometer_unknown": N_("Without a check of each nobody can say how far they are apart."),
    "runs.compared.with_water": N_("With the water before the developer, where it stood 5 minutes or more."),
    "runs.compared.water_unsure": N_(
        "From 5 minutes on water is taken to undo the cut for turning; less is not known."
    ),
    "runs.compared.stand": N_("Nothing converts a standing development."),
    "runs.compared.no_reference": N_("How much the time was found with is not known of both."),
    "runs.compared.enough": N_("Both have as much as the time was found with, or more: that changes nothing."),
    "runs.compared.backing_measured": N_("measured"),
    "runs.compared.backing_published": N_("published or tested figures"),
    "runs.compared.backing_guide": N_("rule of thumb"),
    "runs.compared.backing_none": N_("no figure"),
}

SENTENCES |= {
    "runs.compared.missing_development": N_("Nothing developed yet, as far as anybody told."),
    "runs.compared.missing_check": N_(
        "Its thermometer ({name}) was never checked; {unsure_c:step_c} either way is counted into the spread."
    ),
    "runs.compared.missing_check_same": N_(
        "Its thermometer ({name}) was never checked. It is the same in both, so an error that stayed the same cancels."
    ),
    "runs.compared.missing_reading": N_(
        "Nobody read the developer's temperature; {unsure_c:step_c} either way is counted into the spread."
    ),
    "runs.compared.missing_acts": N_(
        "An end of the development was not told, and is taken as done when due ({count})."
    ),
    "runs.compared.missing_coefficient": N_("What a degree does in {developer} is not known."),
    "runs.compared.missing_vessel": N_(
        "Nobody named the vessel, so how the liquid moved is not known; pour and drain are those of a typical drum."
    ),
    "runs.compared.missing_volume": N_("Nobody said how much developer was poured."),
    "runs.compared.missing_process": N_("It followed no kept process, so the version is not known."),
    "runs.compared.missing_lot": N_("The box of film is not known of every sheet."),
}

SENTENCES |= {
    "runs.compared.title_more": N_(
        "{other}: likely {density:signed} density range beside {one}, above all through: {kind}"
    ),
    "runs.compared.title_small": N_("{other} and {one}: what differs is less than what is uncertain"),
    "runs.compared.title_far": N_("{other} and {one}: too far apart for a figure, above all through: {kind}"),
    "runs.compared.title_none": N_("{other} and {one}: no difference that can be put in figures"),
    "runs.compared.load": N_("Load {number}"),
    "runs.compared.both": N_("Both"),
    "runs.compared.sum": N_(
        "Together {density:signed} density, give or take {spread:density}: {zones:signed_1} zones of development."
    ),
    "runs.compared.sum_far": N_("Together beyond a third or three times the time: no rule of thumb holds there."),
    "runs.compared.noise": N_(
        "Two runs done alike differ by about {density:density} density by themselves. Less than that explains nothing: look "
        "at the exposure, the paper, and how the negatives were read."
    ),
    "runs.compared.reference": N_("At a density range of {range:density}."),
    "runs.compared.not_direct": N_(
        "Film, developer, dilution or way differ, so their times are not held against each other: the figures say what each "
        "run did beside what its own sheets want."
    ),
    "runs.compared.measured": N_(
        "A densitometer read {measured:signed} density between them; {left:signed} of it is not explained. That holds for "
        "sheets of the same scene."
    ),
}
