"""Sentences of ``wetside.exposure``."""

from wetside.wording.catalog import N_

SENTENCES = {
    # What cannot be.
    "exposure.aperture.out_of_range": N_(
        "{value:plain} is not an f-number that a lens can have. Give one from {low:f} to {high:f}, such as 22 or 5.6."
    ),
    "exposure.aperture.off_scale": N_(
        "{value:f} lies outside the engraved scale of apertures, which runs from {low:f} to {high:f}. "
        "Change the time instead."
    ),
    "exposure.shutter.off_scale": N_(
        "{value:shutter} lies outside the engraved scale of times, which runs from {low:shutter} to {high:shutter}. "
        "Change the aperture instead."
    ),
    "exposure.time.out_of_range": N_(
        "{value:plain} s is not an exposure time that can be given. It must lie between {low:plain} and {high:plain} s."
    ),
    "exposure.ei.out_of_range": N_(
        "{value:plain} is not an exposure index. It must lie between {low:plain} and {high:plain}, such as 100."
    ),
    "exposure.ev.out_of_range": N_(
        "{value:plain} is not an exposure value that a meter can show. It must lie between {low:plain} and "
        "{high:plain}."
    ),
    "exposure.zone.out_of_range": N_(
        "{value:plain} is not a zone. Give a number from {low:plain} to {high:plain}; Zone III is 3."
    ),
    "exposure.factor.out_of_range": N_(
        "{value:plain} is not a factor of lost light. It must lie between {low:plain} and {high:plain}; "
        "a filter of two stops has the factor 4."
    ),
    "exposure.light.out_of_range": N_(
        "{value:plain} is not a factor between two lights. It must lie between {low:plain} and {high:plain}."
    ),
    "exposure.stops.out_of_range": N_(
        "{value:plain} is not a possible number of stops. It must lie between {low:plain} and {high:plain}."
    ),
    "exposure.density.out_of_range": N_(
        "{value:plain} is not the density of a filter. It must lie between {low:plain} and {high:plain}; "
        "three stops are 0.9."
    ),
    "exposure.focal_length.out_of_range": N_(
        "{value:plain} mm is not a focal length. It must lie between {low:mm} and {high:mm}; an inch is 25.4 mm."
    ),
    "exposure.extension.out_of_range": N_(
        "{value:plain} mm is not a bellows extension. It must lie between {low:mm} and {high:mm}; an inch is 25.4 mm."
    ),
    "exposure.extension.too_short": N_(
        "A bellows extension of {value:mm} is shorter than the focal length of {focal_length_mm:mm}, where "
        "nothing is sharp. "
        "Measure from the lens's rear nodal point to the film, and check which number is which."
    ),
    "exposure.magnification.out_of_range": N_(
        "{value:plain} is not a scale of reproduction. It must lie between {low:plain} and {high:plain}; "
        "life size is 1."
    ),
    "exposure.meter_constant.out_of_range": N_(
        "{value:plain} is not a meter's constant. It must lie between {low:plain} and {high:plain}."
    ),
    # Reciprocity.
    "exposure.reciprocity.exponent_out_of_range": N_(
        "{value:plain} is not a reciprocity exponent. It must lie between {low:plain} and {high:plain}, such as 1.3; "
        "an exponent under 1 is written the other way round: give 1 divided by it."
    ),
    "exposure.reciprocity.threshold_out_of_range": N_(
        "{value:plain} s is not a reciprocity threshold. It must lie between {low:plain} and {high:plain} s."
    ),
    "exposure.reciprocity.coefficient_out_of_range": N_(
        "{value:plain} s is not what a film can lose at 1 s. It must lie between {low:plain} and {high:plain} s."
    ),
    "exposure.reciprocity.no_points": N_(
        "The reciprocity table is empty. Give at least one pair of metered time and factor."
    ),
    "exposure.reciprocity.not_rising": N_(
        "The reciprocity table does not rise at {metered_s:plain} s (factor {factor:plain}). Metered times, "
        "and the times "
        "to give, must each be longer than the ones before."
    ),
    "exposure.reciprocity.beyond_table": N_(
        "The film's reciprocity table ends at {last_s:plain} s, and {metered_s:plain} s is asked for. "
        "Nothing is known there: "
        "open the lens, or test the film and add a point."
    ),
    "exposure.reciprocity.given_beyond_table": N_(
        "The film's reciprocity table ends at {last_s:plain} s given, and {given_s:plain} s was given. What "
        "that was worth "
        "is not known: add a point to the table, or use a model that goes further."
    ),
    # Several models beside each other.
    "exposure.reciprocity.no_models": N_(
        "Nothing is known of this film in long exposures. Give its exponent or table, or test: expose, and note the times."
    ),
    "exposure.reciprocity.not_offered": N_(
        "There is no model of the kind {value:quoted} for this film. Known: {known:list}."
    ),
    "exposure.reciprocity.all_end": N_(
        "Every model of this film ends before {metered_s:plain} s; the longest goes to {last_s:plain} s. Open the lens, or test the film."
    ),
    "exposure.reciprocity.schwarzschild_out_of_range": N_(
        "{value:plain} is not Schwarzschild's exponent. It must lie between {low:plain} and {high:plain}, such as 0.8; an exponent over 1 is written the other way round: give 1 divided by it."
    ),
    "exposure.reciprocity.pair_out_of_range": N_(
        "{value:plain} s does not fit here: from {low:plain} to {high:plain} s are possible. The metered time is over 1 s, and the longer time stands second."
    ),
    "exposure.reciprocity.free_out_of_range": N_(
        "{value:plain} s cannot be the longest time without loss. It must lie between {low:plain} and {high:plain} s."
    ),
    "exposure.reciprocity.doubling_out_of_range": N_(
        "{value:plain} stops for each doubling are not possible. Give {low:plain} to {high:plain}, such as 0.33."
    ),
    "exposure.reciprocity.default_own": N_("Your own test of this film is used."),
    "exposure.reciprocity.default_maker": N_(
        "The maker's own figure for this film is used; the others are for comparison."
    ),
    "exposure.reciprocity.default_others": N_("The maker's figure is not known; the first of the others is used."),
    "exposure.reciprocity.default_chosen": N_("This is the model that you chose."),
    "exposure.reciprocity.default_goes_further": N_(
        "The model that comes first ends before this time, so the next that goes far enough is used. Test it if you can."
    ),
    "exposure.reciprocity.thresholds_harmless": N_(
        "{film}: one source corrects from {low_s:plain} s ({low_source}), another from {high_s:plain} s ({high_source}). It makes no difference: up to 1 s the rule would shorten the time, and is not let."
    ),
    "exposure.reciprocity.thresholds_matter": N_(
        "{film}: one source corrects from {low_s:plain} s ({low_source}), another from {high_s:plain} s ({high_source}). Between the two they differ by up to {most_stops:signed} stops."
    ),
    # Filters and light.
    "exposure.filter.unknown": N_(
        "No factor is known for a filter {value:quoted}. Known: {known:list}. Or give the factor itself."
    ),
    "exposure.filter.pair_unknown": N_(
        "The factor of {filter:quoted} is not known for {sensitivity} film in {light}; known is {known:list}. A factor belongs to film and light: test it, or give the maker's."
    ),
    "exposure.filter.blind": N_(
        "{sensitivity} film does not see what {filter:quoted} lets through: no factor makes up for that. Take the filter off."
    ),
    "exposure.filter.light_unknown": N_(
        "No exposure index of {film:quoted} is known for {light}; known is {known:list}. Give the index yourself."
    ),
    "exposure.filter.once": N_("The meter has read through {filter:quoted}: do not add its factor again."),
    "exposure.filter.meter_through": N_(
        "Through {filter:quoted} a meter may ask for up to {stops:plain} stops too little: its cell and the film see colours differently. Meter without the filter and use its factor."
    ),
    # The pipeline.
    "exposure.pipeline.one_aperture": N_(
        "Only one aperture is known. Give both: the one it was metered at and the one that is set; or neither."
    ),
    "exposure.pipeline.two_bellows": N_(
        "The bellows are given twice, as lengths and as a scale of reproduction. Give one of them."
    ),
    "exposure.bellows.extension_missing": N_(
        "A focal length without the bellows extension gives no factor. Give the extension too."
    ),
    "exposure.bellows.focal_missing": N_(
        "A bellows extension without the focal length gives no factor. Give the focal length too."
    ),
    "exposure.step.metered": N_("Metered: {time_s:shutter}."),
    "exposure.step.aperture": N_("Metered at {metered_n:f}, set at {set_n:f}: times {factor:plain}."),
    "exposure.step.light": N_("Light of the scene: times {factor:plain}."),
    "exposure.step.filter": N_("Filter: times {factor:plain}."),
    "exposure.step.filter_named": N_("Filter {filter}: times {factor:plain}."),
    "exposure.step.bellows": N_("Bellows {extension_mm:mm} for a lens of {focal_length_mm:mm}: times {factor:plain}."),
    "exposure.step.bellows_scale": N_("Reproduction at {magnification:plain}: times {factor:plain}."),
    "exposure.step.reciprocity": N_("Reciprocity, last: times {factor:plain}, so give {time_s:shutter}."),
    # What went wrong.
    "exposure.mishap.unknown": N_(
        "The mishap {value:quoted} is not known. The words are {choices:list}. The nearest is {nearest:quoted}."
    ),
    "exposure.mishap.unlike": N_("The mishap {value:quoted} is not known. The words are {choices:list}."),
    "exposure.mishap.two_reciprocities": N_(
        "Reciprocity cannot be both forgotten and corrected first ({words:list}). Keep one of the two words."
    ),
    "exposure.audit.meant_aperture_missing": N_(
        "The aperture set is {given_n:f}; the one that was meant is missing. Give both."
    ),
    "exposure.audit.metered_time_missing": N_(
        "What this error is on the film depends on the time. Give the metered time that was meant."
    ),
    "exposure.audit.filter_missing": N_("A filter was forgotten, and its factor is missing. Give the filter's factor."),
    "exposure.audit.extension_missing": N_(
        "The bellows were forgotten, and the extension is missing. Give the extension and the focal length."
    ),
    "exposure.audit.focal_missing": N_(
        "The bellows extension is {extension_mm:mm}; the focal length is missing. Give both."
    ),
    "exposure.audit.rating_missing": N_(
        "The rating was wrong, and what was set on the meter is missing. Give the rating that was set."
    ),
    "exposure.audit.film_rating_missing": N_(
        "The film's own exposure index is missing, so a rating or a film cannot be compared with it. Give it."
    ),
    "exposure.audit.rating_same": N_(
        "The rating is said to be wrong, and {ei:plain} is what was meant. Give the rating that was set, or "
        "drop the word."
    ),
    "exposure.audit.actual_film_missing": N_(
        "Another film was in the holder, and its exposure index is missing. Say which film it was."
    ),
    "exposure.audit.aperture": N_("Set {given_n:f} where {meant_n:f} was meant: {stops:signed} stops."),
    "exposure.audit.time": N_(
        "Given {given_s:shutter} where {due_s:shutter} was due: {stops:signed} stops on the film."
    ),
    "exposure.audit.time_named": N_(
        "Given {given_s:shutter} where {due_s:shutter} was due ({words:list}): {stops:signed} stops on the film."
    ),
    "exposure.audit.filter_forgotten": N_("Filter factor {factor:plain} forgotten: {stops:signed} stops."),
    "exposure.audit.filter_other": N_(
        "Filter factor {given_factor:plain} where {meant_factor:plain} was meant: {stops:signed} stops."
    ),
    "exposure.audit.bellows_forgotten": N_("Bellows factor {factor:factor} forgotten: {stops:signed} stops."),
    "exposure.audit.bellows_other": N_(
        "Bellows factor {given_factor:factor} where {meant_factor:factor} was meant: {stops:signed} stops."
    ),
    "exposure.audit.reciprocity_forgotten": N_(
        "Reciprocity forgotten, {given_s:shutter} given where {due_s:shutter} was due: {stops:signed} stops "
        "on the film."
    ),
    "exposure.audit.reciprocity_first": N_(
        "Reciprocity corrected before filter and bellows, {given_s:shutter} given where {due_s:shutter} was due: "
        "{stops:signed} stops on the film."
    ),
    "exposure.audit.rating": N_("Rated {given_ei:plain} where {due_ei:plain} was meant: {stops:signed} stops."),
    "exposure.audit.rating_shown": N_(
        "Rated {given_ei:plain} where {due_ei:plain} was meant: what was set already shows it; not counted again."
    ),
    "exposure.audit.rating_labelled": N_("The rating was wrong: what was set already shows it; not counted again."),
    "exposure.audit.film": N_(
        "A film of EI {actual_ei:plain} in the holder where EI {film_ei:plain} was meant: {stops:signed} stops."
    ),
    "exposure.audit.film_reciprocity": N_(
        "The film in the holder loses another amount at {given_s:shutter}: {stops:signed} stops."
    ),
    "exposure.audit.double_exposure": N_(
        "A second exposure over the first: {stops:signed} stops on a tone of Zone {shadow_zone:plain}, "
        "{highlight_stops:signed} on Zone {highlight_zone:plain}."
    ),
}
