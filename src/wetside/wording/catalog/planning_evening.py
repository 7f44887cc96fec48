"""Further sentences of ``wetside.planning``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "planning.rescue_shortened": N_("shortened from {normal_s:mss} so that the highlight can be printed or scanned"),
    "planning.rescue_predicted": N_(
        "Predicted shadow {shadow:density} and highlight {highlight:density} above base, where {meant_shadow:density} and "
        "{meant_highlight:density} were meant."
    ),
    "planning.reused": N_("bottle {bottle} has seen {seen:plain} units: turn {number} of this developer"),
    "planning.no_reuse_rule": N_(
        "Nothing says how {developer} is used again. Give the developer a reuse_limit, and its bottle a volume and what it "
        "has seen; or use it once."
    ),
    "planning.two_baths": N_("two baths of {process}: the first soaks, the second acts, time is nearly free"),
    "planning.two_baths_free": N_(
        "In two baths no sheet has a time of its own: its scene is left to the developer, and any N shares the load."
    ),
    "planning.course.set_up": N_("set up: jacket, bottles, checks, baths laid out"),
    "planning.course.wait_vessel": N_("wait until the {vessel} is dry"),
    "planning.course.wait_places": N_("wait until places to hang are free"),
    "planning.course.new_fixer": N_("renew the fixer in bottle {bottle}"),
    "planning.course.load": N_("lights out: load {count} sheets for load {load}"),
    "planning.course.run": N_("run load {load}, develop {time_s:mss}"),
    "planning.course.look_twin": N_("look at it before its twin is developed"),
    "planning.course.look_untested": N_("look at it: its time was never proved"),
    "planning.course.tidy": N_("hang, clean, label, waste"),
    "planning.course.too_few_places": N_("{count} sheets want to hang at once and there are {places} places."),
    "planning.course.fixer_spent": N_(
        "Fixer {bottle} clears in {clearing_s:mss}, fresh it took {fresh_s:mss}: past double. Mix a new one before you load."
    ),
    "planning.course.fix_by_clearing": N_(
        "Film cleared in {clearing_s:mss} in fixer {bottle}, so it is fixed for {fix_s:mss}."
    ),
    "planning.course.fixer_short": N_(
        "Fixer {bottle} ends the evening at {share:share} of what it can take ({units:plain} units). Use two baths or more."
    ),
    "planning.season_below": N_(
        "{temp_c:temp} is below the range for developing of {sources:list} (from {low_c:temp}): slow, and possibly incomplete."
    ),
    "planning.season_care": N_(
        "{temp_c:temp} is above the ordinary range of {sources:list} (to {high_c:temp}), and inside what is allowed there with "
        "care: gelatin is soft."
    ),
    "planning.season_above": N_(
        "{temp_c:temp} is above the range for developing of {sources:list} (to {high_c:temp}). Cool the bath if you can."
    ),
    "planning.season_ways": N_(
        "The safest way out is to move jacket and developer by {degrees_c:degrees}, to {temp_c:temp}. Published rules of thumb "
        "would change a time by {low_percent:whole_percent} to {high_percent:whole_percent}: the developer’s own pairs decide."
    ),
    "planning.warmth": N_(
        "{vessel} stands at {vessel_c:temp}: developer poured at {temp_c:temp} would stand at {stands_c:temp}. Pour it when your "
        "thermometer shows {shown_c:temp}, or rinse the vessel with water of {temp_c:temp} first; read it in the vessel."
    ),
    "planning.warmth_effect": N_(
        "{vessel} stands at {vessel_c:temp}: developer poured at {temp_c:temp} would stand at {stands_c:temp}, about "
        "{density:signed} density, like {percent:percent} of the time. Pour it when your thermometer shows {shown_c:temp}, or "
        "rinse the vessel with water of {temp_c:temp} first; read it in the vessel."
    ),
    "planning.warmth_far": N_(
        "{vessel} stands at {vessel_c:temp}: developer poured at {temp_c:temp} would stand at {stands_c:temp}, too far off to "
        "make up for by pouring. Bring the vessel to {temp_c:temp} first, and read the developer in it."
    ),
    "planning.warmth_effect_far": N_(
        "{vessel} stands at {vessel_c:temp}: developer poured at {temp_c:temp} would stand at {stands_c:temp}, about "
        "{density:signed} density, like {percent:percent} of the time: too far off to make up for by pouring. Bring the vessel "
        "to {temp_c:temp} first, and read the developer in it."
    ),
    "planning.course.top_up": N_("After the load, top up {developer} with {add_ml:ml} of replenisher."),
    "planning.course.no_replenisher": N_(
        "How much replenisher {developer} asks for is not written down, so no top-up is told. Write its maker’s figure "
        "into the file, such as replenisher = “26 ml per unit”."
    ),
    "planning.course.second_unknown": N_(
        "{developer} is mixed from several parts, and no bottle is written down for the second: it is not counted. "
        "Write its mark into the developing bath, such as second = “B”."
    ),
    "planning.course.third_unknown": N_(
        "{developer} is mixed from three parts, and no bottle is written down for the third: it is not counted. Write its "
        "mark into the developing bath, such as third = “C”."
    ),
    "planning.course.waste_developer": N_("used developer"),
    "planning.course.waste_stop": N_("used stop"),
    "planning.course.waste_fixer": N_("used fixer, which holds silver"),
    "planning.course.waste_other": N_("rinses and the rest"),
    "planning.look_measured": N_("look at {sheet}: range {measured:density} where {aim:density} was meant"),
    "planning.look_judged": N_("look at {sheet}: {percent:whole_percent} of time"),
    "planning.look_small": N_(
        "The look at {sheet} asks for {percent:percent} of time: less than a thermometer resolves, left alone."
    ),
    "planning.judged_right": N_("Right: the others keep their time."),
    "planning.judged_soft": N_("Too flat: {percent:whole_percent} of time for the others."),
    "planning.judged_hard": N_("Too hard: {percent:whole_percent} of time for the others."),
    "planning.judged_under": N_(
        "Both ends are thin: that is too little exposure. More development would raise the highlights and hardly the "
        "shadows, so the others keep their time."
    ),
    "planning.judged_over": N_(
        "Both ends are dense: that is too much exposure. Print through it; the others keep their time."
    ),
    "planning.judged_shadow_thin": N_(
        "The shadow is thin and the highlight right: that is too little exposure, and no time mends it."
    ),
    "planning.judged_shadow_dense": N_(
        "The shadow is dense and the highlight right: that is more exposure than needed. The others keep their time."
    ),
}
