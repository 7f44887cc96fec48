"""Sentences of ``wetside.services``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.option_missing": N_(
        "{option} is wanted. Give an evening file, or the four answers: --film, --developer, --count and --vessel."
    ),
    "services.which_index": N_(
        "{film} has published times for several exposure indexes ({choices:list}). Say which with --ei."
    ),
    "services.not_a_count": N_("{value:quoted} is not a number of sheets: a whole number from 1 to {most}."),
    "services.vessel_form": N_(
        "{value:quoted} does not say a vessel. Write kind, places and limits, such as drum:6,300-1000ml."
    ),
    "services.vessel_kind": N_("{value:quoted} is no kind of vessel: say one of {kinds:list}."),
    "services.vessel_limits": N_("The vessel needs at least {low_ml:ml} and holds at most {high_ml:ml}: swap the two."),
}

SENTENCES |= {
    "services.expose_nothing": N_(
        "Give a metered time, a shadow reading with --shadow EV@ZONE, or a flash with --flash ZONE."
    ),
    "services.option_missing_with": N_("{other} needs {option} beside it."),
    "services.power_and_film": N_("Give either --power or --film: two reciprocity figures cannot both hold."),
    "services.no_reciprocity": N_(
        "No published reciprocity for {film:quoted}. Known: {known:quoted_list}. Or give --power."
    ),
    "services.ev_at_zone": N_("{value:quoted} is no reading on a zone. Write EV and zone, such as 9@3 or 9@III."),
    "services.expose_no_reciprocity": N_(
        "Without reciprocity: films lose speed in long exposures. Name the film with --film, or give --power."
    ),
    "services.tablet_twice": N_("Give either --tablet or --nominal, not both."),
}

SENTENCES |= {
    "services.not_whole": N_("{value:quoted} is not a whole number from 1 to {most}."),
    "services.temper_nothing": N_(
        "Say what to reckon: --vessel for a liquid poured into it, --bottle with --jacket for a wait, --reads to learn "
        "a bottle's pace, --hot for water of a temperature, or --bath for ice or heater."
    ),
    "services.no_such_vessel": N_("The evening has no vessel called {value:quoted}. Its vessels: {known:quoted_list}."),
    "services.vessel_without_mass": N_(
        "Mass and material of {vessel:quoted} are not written down. Write them into the file, such as mass = “300 g” and "
        "material = “polypropylene”."
    ),
    "services.density_range": N_("{value:plain} is no density range of a negative: {low:plain} to {high:plain}."),
    "services.coefficient_twice": N_("Give either --coefficient or --developer: two coefficients cannot both hold."),
    "services.no_pairs": N_(
        "No published times at two temperatures for {developer:quoted}. Known: {known:quoted_list}. "
        "Or give --coefficient."
    ),
    "services.outside_pairs": N_(
        "Published times of {developer} lie between {low_c:temp} and {high_c:temp}; {temp_c:temp} is outside. If you "
        "trust their {per_c:factor} a degree there too, name it: --coefficient {per_c:factor}."
    ),
    "services.residue_limit": N_("{value:plain} µg/cm² is no limit for film: {low:plain} to {high:plain}."),
    "services.renew_both": N_("The second bath has moved up three times: throw both out, and mix two new ones."),
    "services.material": N_("No heat is known for {value:quoted}. Known: {known:quoted_list}."),
    "services.holds_form": N_(
        "{value:quoted} does not say a name and a percentage. Write both, such as hydroquinone:12."
    ),
    "services.holds_one_part": N_(
        "{dilution} has several concentrates, and --holds describes one. Reckon each by itself as stock."
    ),
    "services.film_form": N_("{value:quoted} does not say a count and a size. Write both, such as 52:4x5in."),
    "services.paper_nothing": N_(
        "Give the first step that is not black and the last that is not white, such as 5-11; or name the paper with "
        "--number, --grade, --filter or --process; or --range of a negative; or --strip with --same-from; or --list."
    ),
    "services.paper_twice": N_("{options:list} each say what the paper takes. Give one of them."),
    "services.paper_for_named": N_("What {option} names is for one printing only: leave --for out."),
    "services.paper_number": N_("R {value:plain} is no range number of a paper: {low:plain} to {high:plain}."),
    "services.paper_product": N_("No filters are known for {value:quoted}. Known: {known:quoted_list}."),
    "services.paper_steps": N_("{value:quoted} does not say two steps. Write first and last toned step, such as 5-11."),
    "services.negative_nothing": N_(
        "Give the densities of the negative with --shadow and --highlight, and --base-fog if they are as read; or its "
        "--range."
    ),
    "services.negative_printing": N_(
        "Say what it shall print on: --number, --grade, --filter or --process, or the range that is wanted with --aim."
    ),
    "services.negative_twice": N_("--range already says how far the negative reaches: leave {options:list} out."),
    "services.negative_tones": N_(
        "{option} wants the densities themselves: give --shadow and --highlight, not --range."
    ),
    "services.negative_density": N_("{value:plain} is no density of a negative: {low:plain} to {high:plain}."),
    "services.negative_scanner": N_("A scanner has no print time. Leave it out, or name a paper or process."),
    "services.negative_under_base": N_(
        "{value:density} is less than base + fog, {base:density}. Leave --base-fog out if the density is net."
    ),
    "services.zone_form": N_("{value:quoted} is no zone. Write a number or a Roman one, such as 3, III or I.5."),
    "services.gain_at_zone": N_("{value:quoted} is no gain on a zone. Write stops and zone, such as 0.5@III."),
    "services.flash_twice": N_("Give either --flash or --flash-gain: one follows from the other."),
    "services.flash_zone": N_(
        "That is a flash on Zone {value:.2f}. Only {low:plain} to {high:plain} are told: below, nothing is gained; above, "
        "the sheet is fogged. Zone I to II is usual."
    ),
    "services.zones_twice": N_("Give either --ei or --speed-zone: both say where the zones lie."),
    "services.zones_relative": N_(
        "These readings have no lux-seconds, so an exposure index cannot place them. Leave it out: the speed point is Zone I."
    ),
    "services.speed_zone": N_("The speed point cannot lie on Zone {value:plain}. Give 0 to V; I is usual."),
    "services.light_nothing": N_(
        "This changes nothing here: it is for a filter by its name, such as --filter yellow, or for --metered-for."
    ),
}

PARTS = (
    "run_after",
    "services_records",
    "services_archive",
    "services_shelf",
    "services_plans",
    "services_sheets",
    "services_evidence",
    "services_clips",
    "services_loading",
    "services_network",
    "services_api",
    "services_runs",
    "services_taken",
    "services_look",
)

SENTENCES |= {
    "services.run_nothing": N_(
        "Say what to run: --plan plan.json --load 1, or --film, --developer and --time, or --log with a run in it."
    ),
    "services.run_twice": N_("A plan and {options:list} say the same things twice. Leave one of them out."),
    "services.run_load": N_("The plan has no load {value}. It has {known:list}."),
    "services.run_torn": N_(
        "The last line of the log was torn, {count} bytes: it was never told as taken, and is cut off."
    ),
    "services.run_next": N_(
        "Next is load {load}, with {sheets:list}: wetside run --plan {plan} --load {load} --log load-{load}.log"
    ),
    "services.run_take": N_(
        "To book it, hang it and learn from it, take its log into the archive: wetside take {log} --yes"
    ),
    "services.run_again": N_("Taken up again from {count} facts."),
    "services.run_rehearsal": N_("Rehearsal with water: nothing is booked."),
}
