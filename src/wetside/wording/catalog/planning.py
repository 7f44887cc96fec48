"""Sentences of ``wetside.planning``: reckoning lines, notes and refusals."""

from wetside.wording.catalog import N_

PARTS = ("planning_evening",)
"""Further modules of this catalogue."""

SENTENCES = {
    # Lines of the reckoning
    "planning.scene_readings": N_(
        "shadow EV {shadow_ev:plain} on zone {shadow_zone:plain}, highlight EV {highlight_ev:plain} falls on "
        "{fall:plain}, wanted on {highlight_zone:plain}: {n:n}"
    ),
    "planning.scene_stops": N_("scene of {stops:mixed} stops: {n:n}"),
    "planning.scene_n": N_("wanted development {n:n}"),
    "planning.time": N_("{developer} {dilution}, {agitation}, {temp_c:temp}"),
    "planning.time_span": N_(
        "{developer} {dilution}, {agitation}, {temp_c:temp}, sheet says {low_s:mss} to {high_s:mss}"
    ),
    "planning.family": N_(
        "your test of {tests} times: range {range:density} over {log_range:density} log at gradient {gradient:density}"
    ),
    "planning.temperature": N_("{from_c:temp} to {to_c:temp}, {per_c:factor} a degree"),
    "planning.agitation": N_("{from_class} to {to_class}"),
    "planning.agitation_presoak": N_("{from_class} to {to_class}, with a pre-soak"),
    "planning.clock": N_("clock {from_rule} with {from_stop} stop, yours {to_rule} with {to_stop} stop"),
    "planning.contrast": N_("gradient {wanted:density} wanted, the time gives {have:density}"),
    # Notes on sheets
    "planning.clock_same": N_(
        "The clock of the source ({from_rule}) differs from yours ({to_rule}) by {difference_s:seconds}: under 2 %, "
        "left alone."
    ),
    "planning.other_gradient": N_(
        "The time aims at gradient {have:density}; a normal negative for the middle paper grade needs {wanted:density}, "
        "{percent:whole_percent} of time. Name an aim to have it applied."
    ),
    "planning.presoak_advice": N_("{maker} advises against a pre-soak ({source})."),
    "planning.sources_disagree": N_(
        "{film}: {source} says {time_s:mss}, {other_source} says {other_s:mss}. The newer one is used."
    ),
    "planning.dip_smoothed": N_(
        "{film}: a dip of {dip:density} in the readings near log H {log_h:density} was smoothed."
    ),
    "planning.widened": N_(
        "Outside the tested times {low_s:mss} to {high_s:mss}, by a tenth at most: assumed, not tested."
    ),
    "planning.window_cut": N_("The window ends where the tests end: {low_s:mss} to {high_s:mss}."),
    "planning.denser": N_(
        "{stops:stops_said}: about {density:signed} denser all over, so it stays in its load and prints with "
        "{factor:.1f} times the exposure, unless its highlight passes the shoulder or the scanner."
    ),
    "planning.thinner": N_(
        "{stops:stops_said}: shadows are lost, and longer development would raise the highlights, hardly the shadows. "
        "It is not pushed."
    ),
    "planning.double": N_("Exposed twice: shadow {shadow:stops}, highlight {highlight:stops} stops."),
    # Notes on loads
    "planning.below_floor": N_(
        "{time_s:mss} is under your floor of {floor_s:mss}: filling and draining are {share:share} of it, and streaks are "
        "likely. Dilute further, or cool the bath."
    ),
    "planning.near_floor": N_(
        "{time_s:mss} is near your floor of {floor_s:mss}: filling and draining are {share:share} of it. Pour fast and evenly."
    ),
    "planning.long_time": N_(
        "{time_s:mss} of rotation: beyond 20 minutes fog rises and the developer tires (common practice)."
    ),
    "planning.no_reference": N_(
        "Nobody says how much developer this time was found with, so the amount of agent is not checked."
    ),
    "planning.some_reference": N_(
        "For {count} of these sheets nobody says how much developer their time was found with; they are counted like the "
        "most demanding of the others."
    ),
    "planning.below_reuse": N_(
        "{given_ml:ml} of stock for 516 cm² is less than the maker's reuse limit of {limit_ml:ml}: a warning only."
    ),
    "planning.pass_volume": N_("{volume_ml:ml} of this dilution"),
    "planning.pass_dilution": N_("{dilution} in this vessel"),
    "planning.pass_count": N_("{count} sheets in this vessel"),
    "planning.bottle_old": N_(
        "Bottle {bottle} ({holds}) was good until {until}. Test it on a scrap of film in the light."
    ),
    "planning.bottle_age": N_("Bottle {bottle} ({holds}) was mixed {days} days ago."),
    "planning.bottle_short": N_("Bottle {bottle} ({holds}) has {have_ml:ml}, {want_ml:ml} are wanted."),
    "planning.suspect_alone": N_("{sheet} is a suspect: whatever film it is, look at it before you trust the time."),
    "planning.waited_long": N_("{sheet} has waited {days} days since exposure: it goes first."),
    "planning.exposed_later": N_("{sheet} is dated {days} days after this evening. Check the date."),
    # Notes on the evening
    "planning.plain_baths": N_(
        "No baths are listed: develop, stop 0:30, fix 5:00, three washes of 2:00, wetting agent 1:00 (common practice)."
    ),
    "planning.no_vessel": N_("No vessel is given: places and liquid have no limit, so check what yours takes."),
    "planning.jacket": N_(
        "{process} is meant for {temp_c:temp}; tonight's jacket is at {tonight_c:temp}, and the times are for that."
    ),
    "planning.size_unknown": N_("Some sheets have no size: the developer for their area is not checked."),
    "planning.weakest": N_(
        "Rests on common practice for {films:list}: one sheet under a step tablet would tell you more than any other step."
    ),
    # Refusals
    "planning.no_process": N_(
        "No process is named for this sheet of {film}. Name one in the sheet or for the evening, or give the film a time."
    ),
    "planning.no_time": N_(
        "Nothing is known of {film} in {developer} {dilution}: give a time from the box, a test of your own, or the name "
        "of a film with a published row."
    ),
    "planning.which_index": N_(
        "{film} has published times for several exposure indexes ({choices:list}). Say which with ei."
    ),
    "planning.other_channel": N_(
        "The readings of {film} are {have:list}, the aim is {wanted}: a range in one light says nothing of another. "
        "Read the test again in the aim's light."
    ),
    "planning.stain_unseen": N_(
        "{developer} stains, and the readings of {film} are {read_in}: the stain that the printing sees is not in them. "
        "Read the test in light that is {needed:list}, and set the aim’s channel to it."
    ),
    "planning.no_coefficient": N_(
        "How {developer} follows temperature is not known, so a time cannot go from {from_c:temp} to {to_c:temp}. Bring "
        "the bath to {from_c:temp}, give a pair of times, or name a coefficient (then marked assumed)."
    ),
    "planning.too_far": N_(
        "Gradient {wanted:density} is too far from {have:density} for a rule of thumb (time factor {factor:factor}). Only "
        "a test of your own can carry that."
    ),
    "planning.beyond_tested": N_(
        "The wanted range {wanted:density} would need {time_s:mss}, outside your tests from {low_s:mss} to {high_s:mss} "
        "(ranges {range_low:density} to {range_high:density}). Test a time out there, or choose another aim."
    ),
    "planning.family_not_rising": N_(
        "In your test of {film} more development gives less range somewhere: such readings cannot be planned on."
    ),
    "planning.time_lost": N_("The time {time_s:mss} has no meaning after its factors."),
    "planning.agent_rules": N_(
        "{developer} is too dilute for fewer loads: {loads} are needed for half of the agent that the times were found with, "
        "where windows and places would do with {fewer}."
    ),
    "planning.agent_short": N_(
        "Even alone and with {max_ml:ml} in {vessel} this sheet would get less than half of the developing agent that its "
        "time was found with at {dilution}. Use a stronger dilution or a larger vessel."
    ),
    "planning.no_place": N_("No vessel takes the size {size}: {vessels:quoted_list} have no place for it."),
    "planning.loads.grid_not_positive": N_("The grid of load times must be at least 1 s, not {value}."),
    "planning.loads.vessel_unknown": N_("Vessel number {vessel} does not exist."),
    "planning.loads.places_not_positive": N_("{vessel:quoted} must have at least one place, not {value}."),
    "planning.loads.agent_negative": N_("The agent that {vessel:quoted} holds cannot be negative ({value})."),
    "planning.loads.spacing_out_of_range": N_(
        "The spacing of {vessel:quoted} must be zero or more seconds, not {value}."
    ),
    "planning.loads.vessel_twice": N_("{sheet:quoted} names {vessel:quoted} twice."),
    "planning.loads.id_twice": N_("Two sheets are called {sheet:quoted}."),
    "planning.loads.window_out_of_order": N_(
        "The window of {sheet:quoted} is out of order: {low_s:plain}, {target_s:plain}, {high_s:plain} s."
    ),
    "planning.loads.share_not_positive": N_(
        "{sheet:quoted} takes {share} places and {agent} of agent: too little to be true."
    ),
    "planning.loads.fits_nowhere": N_("{sheet:quoted} fits into no vessel, even alone."),
}
