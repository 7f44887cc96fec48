"""Further sentences of ``wetside.development``: other ways of developing, warm and cold baths."""

from wetside.wording.catalog import N_

SENTENCES = {
    "development.ways.not_converted": N_(
        "A time for {tested} development says nothing about {wanted} development: no rule leads from one to the other. Use a time that was tested with {wanted} development."
    ),
    # Two baths.
    "development.two_bath.area_not_positive": N_(
        "The film of a load must have an area above 0, not {value:plain} cm²."
    ),
    "development.two_bath.volume_negative": N_(
        "A volume that is carried over cannot be {value:plain_ml}. Give 0 or more."
    ),
    "development.two_bath.volume_not_positive": N_("A bath must hold more than 0 ml, not {value:plain_ml}."),
    "development.two_bath.loads_negative": N_("The number of loads must be 0 or more, not {value}."),
    "development.two_bath.time_not_positive": N_("Each of the two baths needs a time above 0, not {value:plain} s."),
    "development.two_bath.a_too_small": N_(
        "The film would carry {carry_ml:ml} away, and bath A has {volume_ml:ml}. Take more of A, or fewer sheets."
    ),
    "development.two_bath.time_free": N_(
        "Two baths: at least {soak_s:mss} in A and {act_s:mss} in B. Development ends by itself, so sheets of any N share this load; one-bath times do not apply."
    ),
    "development.two_bath.no_rinse": N_(
        "No water and no stop between A and B: the developer that acts in B is the {carry_ml:ml} that film and vessel bring along. Drain A evenly and for as long every time."
    ),
    "development.two_bath.short": N_(
        "{time_s:mss} is short for one of two baths: under {shortest_s:mss} the gelatin may not be soaked through, or B not finished (common practice)."
    ),
    "development.two_bath.temperature_untested": N_(
        "With two baths contrast follows the temperature, not the time. Note {temp_c:temp} with the result, and use it again."
    ),
    "development.two_bath.temperature": N_(
        "A bath is {off_c:degrees} off the {tested_c:temp} at which this pair was tested. Contrast follows the temperature here, and no time makes up for it: bring both baths back."
    ),
    "development.two_bath.change_b": N_(
        "Bath B now holds {share:share} of A (limit {most:share}, our choice). It begins to develop by itself, and time counts again: take fresh B."
    ),
    # Replaced on the way.
    "development.replaced.use_negative": N_("Use and loss of developer cannot be {value:plain}. Give 0 or more."),
    "development.replaced.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.replaced.area_not_positive": N_(
        "The film of a load must have an area above 0, not {value:plain} cm²."
    ),
    "development.replaced.reference_not_positive": N_(
        "The reference volume must be more than 0, not {value:plain} ml per cm². It is the agent to an area under which the time was found."
    ),
    "development.replaced.change_negative": N_("Changing the developer cannot take {value:plain} s. Give 0 or more."),
    "development.replaced.too_few": N_(
        "Developer that is replaced on the way needs two fillings or more; there are {count}."
    ),
    "development.replaced.change_too_long": N_(
        "Changing the developer takes {value:seconds}, and a part of the time lasts {time_s:mss}. Take fewer fillings, or pour faster."
    ),
    "development.replaced.agent_not_positive": N_(
        "Each filling must hold more than 0 ml of developing agent, not {value:plain_ml}."
    ),
    "development.replaced.too_little": N_(
        "Filling {number} has {ratio:share} of the agent that its share of the film asks for; below {least:share} no result is foretold. Take more of it, or fewer sheets."
    ),
    "development.replaced.shares": N_(
        "The shares of {count} fillings must each lie between 0 and 1 and sum to 1; they sum to {total:plain}."
    ),
    "development.replaced.nothing_waits": N_(
        "At {at_s:mss} the developer is replaced. The clock runs on, and nothing waits: have the fresh filling in your hand before you drain."
    ),
    "development.replaced.slow_change": N_(
        "Changing the developer takes {change_s:seconds}. Over {most_s:seconds} the film works on in what is spent, unevenly: practise with water, or use a second funnel or vessel."
    ),
    "development.replaced.short_part": N_(
        "Filling {number} has {ratio:share} of the agent that its share of the film asks for: that part develops more weakly than the time was found with."
    ),
    "development.replaced.part_oxidised": N_(
        "Filling {number} turns for {time_s:mss}. After {most_s:mss} in rotation a developer fogs and oxidises (common practice): replace it once more."
    ),
    # Stand and semi-stand.
    "development.stand.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.stand.moment_not_positive": N_("Agitation must last more than 0 s, not {value:plain} s."),
    "development.stand.moments_negative": N_("The number of later agitations must be 0 or more, not {value}."),
    "development.stand.no_stillness": N_(
        "With {moments} later agitations nothing stands still in {time_s:mss}. Take fewer, or shorter ones."
    ),
    "development.stand.other_agitation": N_(
        "This time belongs to {agitation} agitation and is not converted to stand development. Use a time that was tested standing still."
    ),
    "development.stand.volume_not_positive": N_("Vessel and liquid must be more than 0 ml, not {value:plain_ml}."),
    "development.stand.area_not_positive": N_("The film of a load must have an area above 0, not {value:plain} cm²."),
    "development.stand.agent_not_positive": N_(
        "Developing agent, and its reference volume, must be more than 0, not {value:plain}."
    ),
    "development.stand.not_full": N_(
        "Stand development needs a full vessel: {volume_ml:ml} in one that holds {full_ml:ml} leaves film dry. Fill it, or use a smaller one that stands upright."
    ),
    "development.stand.too_little": N_(
        "The vessel has {ratio:share} of the agent under which this time was found; below {least:share} no result is foretold. Nothing stirs fresh agent to the film here: take fewer sheets or a stronger dilution that you have tested."
    ),
    "development.stand.agent_unknown": N_(
        "How much agent this time was found with is not known: {agent_ml:ml} for {area_cm2:cm2} here. Standing still, agent runs out first where most is to be developed: test with a sheet that you can lose."
    ),
    "development.stand.agent_short": N_(
        "The vessel has {ratio:share} of the agent under which this time was found: highlights will come out flatter, and standing still nothing makes up for it."
    ),
    "development.stand.short": N_(
        "{time_s:mss} is short for standing still: under {low_s:mss} the first agitation decides (common practice)."
    ),
    "development.stand.long": N_(
        "{time_s:mss} is long, even standing still: over {high_s:mss} fog and streaks grow (common practice)."
    ),
    "development.stand.presoak": N_(
        "One maker advises about a minute of water, at the same temperature, before stand development ({source}); others advise against a pre-soak. Keep to what your time was found with."
    ),
    # Inspection.
    "development.inspection.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.inspection.look_not_positive": N_("A look must last more than 0 s, not {value:plain} s."),
    "development.inspection.distance_not_positive": N_(
        "The distance from lamp to film must be more than 0, not {value:plain} m."
    ),
    "development.inspection.no_safelight": N_(
        "This film stands no safelight: it is developed in the dark, by time. Looks are for film with a safelight class, such as orthochromatic film under deep red."
    ),
    "development.inspection.too_near": N_(
        "A lamp at {distance_m:plain} m is too near: at least {least_m:plain} m from open film, and tested with it."
    ),
    "development.inspection.share": N_(
        "The first look stands at a share of the time from {low:plain} to below 1, not {value:plain}: earlier there is little to judge."
    ),
    "development.inspection.looks": N_("The number of looks must be 1 or more, not {value}."),
    "development.inspection.no_room": N_(
        "{looks} looks do not fit between {first_s:mss} and the end at {time_s:mss}. Take fewer, or shorter ones."
    ),
    "development.inspection.untested": N_(
        "No safelight test of this film and lamp is known. Lay a lightly exposed sheet under the lamp at working distance, cover it step by step, develop it in the dark, and give the longest time that left no trace."
    ),
    "development.inspection.tested_negative": N_("The tested safelight time must be 0 or more, not {value:plain} s."),
    "development.inspection.too_much_light": N_(
        "The looks come to {light_s:seconds} of light, and {tested_s:seconds} are tested. Take fewer looks, or test longer."
    ),
    "development.inspection.end_stands": N_("Without a word from you the bath ends at {end_s:mss}, as planned."),
    "development.inspection.looks_dark": N_(
        "From {first_s:mss} on, hold the sheet before the lamp briefly. An unfixed sheet looks darker than it is: judge highlights against a sheet that you know."
    ),
    "development.inspection.too_early": N_(
        "{value:mss} is too early to judge. The first look may come at {earliest_s:mss}, half of the planned time."
    ),
    "development.inspection.out_of_order": N_(
        "A decision at {at_s:mss} does not fit: it must come after the one before, and not after the end at {end_s:mss}."
    ),
    "development.inspection.nothing_added": N_("To extend the bath, add more than 0 s, not {value:plain} s."),
    "development.inspection.too_long": N_(
        "An end at {value:mss} is too late: looks may extend this bath to {latest_s:mss}. Beyond that fog is judged, not picture."
    ),
    # Used again.
    "development.reuse.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.reuse.area_not_positive": N_("Film must have an area above 0, not {value:plain} cm²."),
    "development.reuse.capacity_not_positive": N_(
        "What a litre takes, and what each film adds, must be more than 0, not {value:plain}."
    ),
    "development.reuse.weight_not_positive": N_("The weight of a sheet must be more than 0, not {value:plain}."),
    "development.reuse.under_a_litre": N_(
        "The rule for used developer is printed for a litre and more, not for {value:plain} l. Take at least a litre, or use the developer once."
    ),
    "development.reuse.single_use": N_(
        "{developer} {dilution} is for single use: its maker says so. Use it once, or use the stock solution."
    ),
    "development.reuse.used_up": N_(
        "The developer has seen {passed:plain} films of 80 square inches; with this load's {load:plain} the maker's count of {most:plain} is passed. Take fresh developer."
    ),
    "development.reuse.no_push": N_(
        "A film rated above its speed is not developed in used developer ({source}). Take fresh developer for it."
    ),
    "development.reuse.turn": N_(
        "Turn {number} of this developer: {passed:plain} films of 80 square inches went before. The time holds for used developer of this turn only."
    ),
    "development.reuse.dense_history": N_(
        "The {passed:plain} films before were dense and used as much as {weighted:plain}: the printed rule may fall short. Test a clip, or take fresh developer."
    ),
    "development.reuse.thin_history": N_(
        "The {passed:plain} films before were thin and used no more than {weighted:plain}: the printed rule may go too far."
    ),
    "development.reuse.one_session": N_(
        "Used working solution of this developer is not kept: use it up tonight ({source})."
    ),
    "development.reuse.window_reversed": N_(
        "A window from {low_s:mss} to {high_s:mss} is no span of times. Are the two swapped?"
    ),
    "development.reuse.window_narrow": N_(
        "A window of {share:share} either side is too narrow for used developer, whose rule goes in steps of {least:share}. Put this sheet in fresh developer."
    ),
    # Replenished.
    "development.replenish.volume_not_positive": N_("Bath and replenisher must be more than 0, not {value:plain}."),
    "development.replenish.area_not_positive": N_("Film must have an area above 0, not {value:plain} cm²."),
    "development.replenish.weight_not_positive": N_("The weight of a sheet must be more than 0, not {value:plain}."),
    "development.replenish.negative": N_("Volumes and ages of a bath cannot be {value:plain}. Give 0 or more."),
    "development.replenish.whole_bath": N_(
        "{add_ml:ml} of replenisher are due for a bath of {bath_ml:ml}: that is no top-up. Mix a fresh bath, and top up after each load."
    ),
    "development.replenish.carried_out": N_(
        "The film cannot have carried {value:ml} out of a bath of {bath_ml:ml}. Check the volumes."
    ),
    "development.replenish.large": N_(
        "{add_ml:ml} at once is {share:share} of the bath, and its strength jumps. Top up sooner: after each load."
    ),
    "development.replenish.below_mark": N_(
        "The film carried out {short_ml:ml} more than is added: the level falls. Fill up to the mark with replenisher and note it."
    ),
    "development.replenish.not_seasoned": N_(
        "{turnover:share} of the bath's volume has gone in as replenisher so far. Until it has settled, times found in the settled bath do not hold."
    ),
    "development.replenish.renew": N_(
        "This bath is {days:plain} days old. Replenished or not, mix a new one after {after_days:plain}."
    ),
    "development.replenish.other_state": N_(
        "This time was found in a {tested} bath, and the bath is {now}. No rule leads from one to the other: use a time of its own, or test."
    ),
    # Warm and cold.
    "development.seasons.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.seasons.outside_span": N_(
        "The time is not changed for {temp_c:temp}: this developer's times are known from {low_c:temp} to {high_c:temp}. Bring the bath into that span, or name a coefficient yourself; it will be marked as assumed."
    ),
    "development.seasons.below_floor": N_(
        "{time_s:mss} is shorter than {floor_s:mss}; pour and drain are {share:share} of it, and show as unevenness. Cool the bath instead."
    ),
    "development.seasons.dilution_untested": N_(
        "A weaker dilution for {temp_c:temp} needs a time of its own, tested at that temperature. None is worked out here."
    ),
    "development.seasons.dilution_agent": N_(
        "The weaker dilution brings less agent for the film: check that amount again before you use it at {temp_c:temp}."
    ),
    "development.seasons.rule_not_positive": N_("A share for each degree must be more than 0, not {value:plain}."),
    "development.seasons.rule_ends": N_(
        "A rule of {per_c:share} a degree leaves nothing of a time from {from_c:temp} to {to_c:temp}: it is meant for a few degrees."
    ),
    "development.cold.below_range": N_(
        "{temp_c:temp} is colder than {source} names for developing ({low_c:temp} to {high_c:temp}): slow, and possibly incomplete."
    ),
    "development.cold.character": N_(
        "At {temp_c:temp} a time is not converted: under {low_c:temp} hydroquinone falls behind the other agent, and the developer becomes another one. Warm the bath."
    ),
    "development.cold.hydroquinone": N_(
        "At {temp_c:temp} hydroquinone hardly works; under {idle_c:temp} (common practice) a developer that relies on it gives thin, flat negatives. Warm the bath."
    ),
    "development.warm.with_care": N_(
        "{temp_c:temp} is warmer than {source} names for ordinary work ({low_c:temp} to {high_c:temp}), and inside what it allows with care: gelatin is soft."
    ),
    "development.warm.above_range": N_(
        "{temp_c:temp} is warmer than {source} names ({low_c:temp} to {high_c:temp}). Cool the bath."
    ),
    "development.warm.sulfate": N_(
        "At {temp_c:temp} gelatin swells and softens. Sodium sulfate in the developer holds it back, and lengthens the time: only with a formula and time that were tested so."
    ),
    "development.warm.harden": N_(
        "At {temp_c:temp} touch no emulsion. A hardening stop or an alum fixer protects it; never add hardener to a fixer whose maker forbids it, and read the safety sheets first."
    ),
    "development.warm.wet_time": N_(
        "At {temp_c:temp} keep the film wet for as short a time as fixing and washing allow: every minute softens it."
    ),
    "development.warm.no_colder_wash": N_(
        "No wash colder than the baths by more than {apart_c:step_c} after a developer at {temp_c:temp}: bring the temperature down step by step."
    ),
    "development.warm.time_not_positive": N_("A developing time must be more than 0, not {value:plain} s."),
    "development.warm.too_long": N_(
        "{time_s:mss} turning with air is long: after {most_s:mss} a developer oxidises and fogs (common practice). Replace it half-way, or use a stronger dilution that you have tested."
    ),
}
