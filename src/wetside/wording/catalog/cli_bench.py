"""Sentences of the commands for the bench: warmth, wash, fixer, paper, negative."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.mix.concentrate_hazards": N_("The concentrate: {said}"),
    "cli.mix.bath_hazards": N_("The mixed bath: {said}"),
    "cli.temper.poured": N_("after pouring"),
    "cli.temper.off": N_("off what is wanted"),
    "cli.temper.start": N_("pour it at"),
    "cli.temper.mean": N_("mean over the bath"),
    "cli.temper.start_mean": N_("to average what is wanted, pour it at"),
    "cli.temper.like_time": N_("acts like time"),
    "cli.temper.density": N_("on the density range"),
    "cli.temper.print": N_("in the print"),
    "cli.temper.flatter": N_("{grades} grade flatter, {zones} zone"),
    "cli.temper.harder": N_("{grades} grade harder, {zones} zone"),
    "cli.temper.no_difference": N_("too little to see"),
    "cli.temper.tau": N_("time constant"),
    "cli.temper.tau_span": N_("with 0.1 °C of doubt"),
    "cli.temper.wait": N_("wait, to within 0.3 °C"),
    "cli.temper.hot": N_("hot water"),
    "cli.temper.cold": N_("cold water"),
    "cli.temper.ice": N_("ice"),
    "cli.temper.heater": N_("heater on for"),
    "cli.temper.no_coefficient": N_(
        "To see what this does to the negative, give --time with --developer, for its published times at two "
        "temperatures, or with --coefficient of your own."
    ),
    "cli.temper.coefficient_named": N_("Reckoned with {per_c:factor} a degree, as you named it: assumed."),
    "cli.temper.coefficient_own": N_(
        "Reckoned with {per_c:factor} a degree, from your own times between {low_c:temp} and {high_c:temp}."
    ),
    "cli.temper.coefficient_pairs": N_(
        "Reckoned with {per_c:factor} ± {spread:factor} a degree, from published times between {low_c:temp} and "
        "{high_c:temp} ({source})."
    ),
    "cli.temper.only_the_vessel": N_(
        "No developer can make up for this by its own warmth: bring vessel and jacket to the wanted temperature first."
    ),
    "cli.temper.stir": N_("Stir or turn the bottle now and then; still liquid takes longer, and reads wrong."),
    "cli.temper.criss_cross": N_(
        "Each is measured as warm as it is, and hot water shrinks as it cools. The criss-cross of temperatures alone "
        "would be out by {percent:percent} of the hot water."
    ),
    "cli.temper.read_it": N_("Stir, then trust the thermometer: a cold vessel takes its share."),
    "cli.temper.ice_told": N_(
        "At 0 °C, all of it melted and mixed in. In a working bath keep it in a closed bag: meltwater dilutes; a jacket "
        "takes it loose. Stop early, stir, read."
    ),
    "cli.temper.heater_told": N_("Without what the bath gives to the room: it takes a little longer. Stir and read."),
    "cli.temper.warm_the_vessel": N_(
        "Rinse the vessel with water of the wanted temperature first, or pour at {start_c:temp}, and read the developer "
        "in the vessel."
    ),
    "cli.temper.heat_source": N_(
        "Liquid counts as water (iapws-95), the vessel by its material ({source}); the film's own heat and the room are "
        "left out."
    ),
    "cli.temper.proposal": N_("One learned time constant is a proposal: keep it when three evenings agree."),
    "cli.wash.left": N_("left after each change"),
    "cli.wash.limit": N_("limit"),
    "cli.wash.needed": N_("changes needed, at balance"),
    "cli.wash.thins": N_("each change leaves"),
    "cli.wash.one_in": N_("1 part in {times}"),
    "cli.wash.water": N_("water"),
    "cli.wash.running": N_("running water would take"),
    "cli.wash.time": N_("time"),
    "cli.wash.trace": N_("under 0.01"),
    "cli.wash.slowest": N_(
        "Every change is taken to come to balance. It is enough as long as the emulsion comes half-way to balance in "
        "{half_s:seconds} or less; film that lies against a wall can be slower."
    ),
    "cli.wash.too_slow": N_(
        "At this half-time it is not enough: longer changes or more of them. {half_s:seconds} would still do."
    ),
    "cli.wash.half_time": N_(
        "The half-time is your setting: published ones contradict each other, and none is safe for every film."
    ),
    "cli.wash.never": N_(
        "Even at full balance this leaves more than {limit:plain} µg/cm²: more changes, or larger fills."
    ),
    "cli.wash.assumed": N_(
        "Carried liquid and 60 g/l of thiosulfate are those of one published reckoning (torzynski-2004), unless you gave "
        "your own; only a residual test on the dry film proves a wash."
    ),
    "cli.wash.makers": N_("Published ways, each as its source has it:"),
    "cli.wash.method": N_("- {name}: {minutes:plain} min in all ({source})"),
    "cli.wash.method_changes": N_("- {name}: {changes} changes ({source})"),
    "cli.fixer.decision": N_("fixer"),
    "cli.fixer.keep": N_("keep"),
    "cli.fixer.change": N_("change it"),
    "cli.fixer.area": N_("used up by area"),
    "cli.fixer.clearing": N_("clears in"),
    "cli.fixer.times": N_("{times:.1f} × the fresh time"),
    "cli.fixer.binds": N_("nearest its end by"),
    "cli.fixer.by_area": N_("area of film"),
    "cli.fixer.by_clearing": N_("clearing"),
    "cli.fixer.by_time": N_("length of the fix"),
    "cli.fixer.fix_for": N_("fix for"),
    "cli.fixer.fix_each": N_("fix in each bath for"),
    "cli.fixer.strength": N_("strength left"),
    "cli.fixer.thinned": N_(
        "Each load is taken to bring {carried_ml:ml} of water and to take as much fixer away. The clearing time feels "
        "it too, and decides."
    ),
    "cli.fixer.left": N_("sheets left, of the last kind"),
    "cli.fixer.test_it": N_(
        "Only the film that it has seen speaks here. A clip in the light, timed when the bath was fresh and now, says "
        "more: --fresh and --now."
    ),
    "cli.fixer.capacity": N_("Capacity: {units:plain} units of 80 square inches to a litre, {evidence} ({source})."),
    "cli.fixer.no_figure": N_(
        "No maker's figure is known for {product:quoted} at this dilution: the general one is used."
    ),
    "cli.fixer.tabular_clip": N_(
        "Tabular film clears more slowly: time a clip of its own, with --clip-tabular, and fix it three times as long."
    ),
    "cli.paper.range": N_("range of the paper"),
    "cli.paper.number": N_("range number"),
    "cli.paper.grade": N_("nearest grade"),
    "cli.paper.filter": N_("nearest filter"),
    "cli.paper.black": N_("proof time"),
    "cli.paper.aims_at": N_("aim of the negative"),
    "cli.paper.within": N_("{range:density} ± {tolerance:density}"),
    "cli.paper.evidence": N_("that is"),
    "cli.paper.worth": N_(
        "Counting steps leaves {off:density} open on either side, {grades:mixed} of a paper grade, worth about "
        "{time:share} of developing time: print the tablet again with the time shifted by half a step, and give both."
    ),
    "cli.paper.worth_alternative": N_(
        "Counting steps leaves {off:density} open on either side, worth about {time:share} of developing time: print the "
        "tablet again with the time shifted by half a step, and give both."
    ),
    "cli.paper.in_uv": N_(
        "The process sees UV: for a stained negative only readings in UV hold; for plain silver a visual one serves."
    ),
    "cli.paper.number_rounded": N_(
        "A range number is rounded to ten, under the maker's light and developer: true to 0.05 at best. A tablet on "
        "your own paper says more."
    ),
    "cli.paper.beyond_soft": N_("Even the softest of them is {off:density} too hard for this negative."),
    "cli.paper.beyond_hard": N_("Even the hardest of them is {off:density} too soft for this negative."),
    "cli.paper.for_the_file": N_(
        "For the evening file. Beside other aims, name it: aim = {name:quoted} at the top, or for a sheet."
    ),
    "cli.paper.scanner": N_(
        "Our choice, no source: a scanner takes any range that stays under its limit of density. This one also prints "
        "on a middle grade, and keeps the highlight clear of the dense end, where a scanner's steps run together. Scan a "
        "step tablet to find your own limit."
    ),
    "cli.paper.title_process": N_("Processes, papers and the scanner"),
    "cli.paper.title_enlarger": N_("Enlargers, for a middle grade"),
    "cli.paper.title_limit": N_("Net density that a highlight shall not pass"),
    "cli.paper.list_told": N_(
        "Published rows were read in the source; assumed ones are common practice: begin a test of your own there."
    ),
    "cli.paper.grades_recalled": N_(
        "Limits between grades are recalled, and makers differ; filters are those of the one paper named. Your own test "
        "outranks both."
    ),
    "cli.paper.black_span": N_(
        "Least time for black through clear film: more than {low_s:shutter}, at most {time_s:shutter}. Proof every "
        "negative of this film with it."
    ),
    "cli.negative.range": N_("range of the negative"),
    "cli.negative.wanted": N_("wanted"),
    "cli.negative.off": N_("off"),
    "cli.negative.deviation": N_("that makes"),
    "cli.negative.too_hard": N_("{grades:mixed} grade too hard"),
    "cli.negative.too_soft": N_("{grades:mixed} grade too soft"),
    "cli.negative.of_tolerance": N_("{deviation:.1f} × the tolerance"),
    "cli.negative.time": N_("print time as it is"),
    "cli.negative.advised": N_("advised"),
    "cli.negative.act_keep": N_("keep it as it is"),
    "cli.negative.act_print_softer": N_("print softer, on {row}"),
    "cli.negative.act_print_harder": N_("print harder, on {row}"),
    "cli.negative.act_print_same": N_("print on {row}"),
    "cli.negative.act_intensify": N_("intensify, in selenium"),
    "cli.negative.act_intensify_and_print": N_("intensify, print on {row}"),
    "cli.negative.act_remake": N_("make the picture again"),
    "cli.negative.act_reduce": N_("reduce in proportion"),
    "cli.negative.act_cut": N_("cut"),
    "cli.negative.ways": N_("Ways on, and the range that each is predicted to give:"),
    "cli.negative.way": N_("- {text}"),
    "cli.negative.gives_keep": N_(
        "{act}: {range_after:density}, {deviation:.1f} × the tolerance from {wanted:density}."
    ),
    "cli.negative.gives_print": N_(
        "{act}: stays {range_after:density} on paper that takes {wanted:density}, {deviation:.1f} × the tolerance off."
    ),
    "cli.negative.gives_remake": N_("{act}: {range_after:density}, developed for it."),
    "cli.negative.gives_treated": N_(
        "{act}: becomes {range_after:density}, {deviation:.1f} × the tolerance from {wanted:density}."
    ),
    "cli.negative.gives_span": N_(
        "{act}: becomes {range_after:density} ({range_after_low:density} to {range_after_high:density}), "
        "{deviation:.1f} × the tolerance from {wanted:density}."
    ),
    "cli.negative.harder": N_("{grades:mixed} grade harder."),
    "cli.negative.softer": N_("{grades:mixed} grade softer."),
    "cli.negative.lost": N_("The shadow loses {lost:density} for good."),
    "cli.negative.exposure": N_("Print exposure of the middle tone × {factor:.2f}."),
    "cli.negative.new_time": N_("Print time {time_s:shutter}."),
    "cli.negative.not_now": N_("Not as things are: {reason}"),
    "cli.negative.needless": N_("{act}: {reason}"),
    "cli.negative.none_serves": N_(
        "Nothing that is possible brings it inside the tolerance: the nearest that changes nothing for good is advised."
    ),
    "cli.negative.over_limit": N_(
        "The highlight, net {highlight:density}, lies over {limit:density}, the limit for {kind} (assumed). A cut of "
        "{over:density} would bring it there; --cut shows what that takes."
    ),
    "cli.negative.only_range": N_(
        "Only a range was given: what treatments take from the shadow, and the print exposure, want --shadow and "
        "--highlight."
    ),
    "cli.negative.no_grades_here": N_(
        "Limits of grades are not counted as this range is, so no other grade is proposed: a grade is worth about 0.17 of "
        "density range."
    ),
    "cli.negative.other_speed": N_("Another grade or filter has another speed: find its print time by a test strip."),
}
