"""Sentences of the commands for the bench: warmth, wash, fixer, paper."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.temper.poured": N_("after pouring"),
    "cli.temper.off": N_("off what is wanted"),
    "cli.temper.start": N_("pour it at"),
    "cli.temper.mean": N_("mean over the bath"),
    "cli.temper.like_time": N_("acts like time"),
    "cli.temper.density": N_("on the density range"),
    "cli.temper.tau": N_("time constant"),
    "cli.temper.tau_span": N_("with 0.1 °C of doubt"),
    "cli.temper.wait": N_("wait, to within 0.3 °C"),
    "cli.temper.hot": N_("hot water"),
    "cli.temper.cold": N_("cold water"),
    "cli.temper.no_coefficient": N_(
        "To see what this does to the negative, give --coefficient and --time: the coefficient is the developer's own, "
        "from its sheet or your test."
    ),
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
    "cli.wash.needed": N_("changes that would do"),
    "cli.wash.water": N_("water"),
    "cli.wash.time": N_("time"),
    "cli.wash.trace": N_("under 0.01"),
    "cli.wash.slowest": N_(
        "Every change is taken to come to balance. It is enough as long as the emulsion comes half-way to balance in "
        "{half_s:seconds} or less; film that lies against a wall can be slower."
    ),
    "cli.wash.too_slow": N_(
        "At this half-time it is not enough: longer changes or more of them. {half_s:seconds} would still do."
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
    "cli.fixer.fix_for": N_("fix for"),
    "cli.fixer.left": N_("sheets left, of the last kind"),
    "cli.fixer.test_it": N_(
        "Only the film that it has seen speaks here. A clip in the light, timed when the bath was fresh and now, says "
        "more: --fresh and --now."
    ),
    "cli.fixer.capacity": N_("Capacity: {units:plain} units of 80 square inches to a litre ({source})."),
    "cli.paper.range": N_("range of the paper"),
    "cli.paper.number": N_("range number"),
    "cli.paper.grade": N_("nearest grade"),
    "cli.paper.filter": N_("nearest filter"),
    "cli.paper.black": N_("proof time"),
    "cli.paper.worth": N_(
        "Counting steps leaves {range:share} of the range open, worth about {time:share} of developing time: print the "
        "tablet again with the time shifted by half a step, and give both."
    ),
    "cli.paper.aim": N_('For the evening file: an aim with for = "{printing}" and range = {range:density}.'),
    "cli.paper.grades_recalled": N_(
        "Limits between grades are recalled, and makers differ; filters are those of the one paper named. Your own test "
        "outranks both."
    ),
    "cli.paper.black_span": N_(
        "Least time for black through clear film: more than {low_s:shutter}, at most {time_s:shutter}. Proof every "
        "negative of this film with it."
    ),
}
