"""Further sentences of ``wetside.sensitometry``: speed, papers, channels, zones, after the negative, rescue."""

from wetside.wording.catalog import N_

SENTENCES: dict[str, str] = {
    "sensitometry.speed.tolerance": N_(
        "A tolerance of {value:plain} on the contrast condition is not possible. Give 0 or more, in density."
    ),
    "sensitometry.speed.off_table": N_(
        "A speed point at log H {log_hm:.3f} has no marked speed. The marked ones lie between {low:.3f} and {high:.3f}."
    ),
    "sensitometry.speed.condition_missed": N_(
        "{dev_s:mss}: no ISO speed. Over 1.30 of log exposure the curve gains {iso_delta:density} of density, {miss:signed} from "
        "the 0.80 that a speed is stated for; {tolerance:density} is allowed. Test another developing time as well."
    ),
    "sensitometry.speed.no_time_meets": N_(
        "{film}: no ISO speed. No tested time meets the contrast condition; the nearest, {dev_s:mss}, gains {iso_delta:density}, "
        "{miss:signed} from 0.80. Test a shorter time if it is too much, a longer one if too little."
    ),
    "sensitometry.grade.range_impossible": N_(
        "A density range of {value:plain} is not possible for a print. Give {low:plain} to {high:plain}."
    ),
    "sensitometry.grade.none_holds": N_(
        "No grade holds a range of {value:density}. Grades go from {low:density} to {high:density}."
    ),
    "sensitometry.grade.no_rows": N_("There is no grade or filter to choose from. Name the ones that you have."),
    "sensitometry.grade.limit_is_no_aim": N_(
        "{name} sets a limit, net {net_density:density} in the highlight, and no range. Give the range that you want."
    ),
    "sensitometry.paper_test.tablet_falls": N_(
        "The tablet's densities must rise from step to step; {after:density} follows {before:density}."
    ),
    "sensitometry.paper_test.wrong_way": N_(
        "The first step that is not black, {first:plain}, must not come after the last that is not white, {last:plain}. Step 1 "
        "is the tablet's clear one, the darkest on the print."
    ),
    "sensitometry.paper_test.no_black": N_(
        "Step 1 is not black, so the dark end was not found. Print the tablet again with more exposure."
    ),
    "sensitometry.paper_test.no_white": N_(
        "Step {count:plain}, the last, is not white, so the light end was not found. Print the tablet again with less exposure."
    ),
    "sensitometry.paper_test.none": N_("There is no test to take the mean of. Print the tablet once at least."),
    "sensitometry.paper_test.stops_apart": N_(
        "Strips {value:plain} stops apart are not possible. Give 0.01 to 5; a third is usual."
    ),
    "sensitometry.paper_test.strips": N_("A test strip of {count:plain} parts is not possible. Give 2 to 30."),
    "sensitometry.paper_test.times_fall": N_(
        "The strip's times must rise; {after:plain} s follows {before:plain} s. Give the whole time of each part."
    ),
    "sensitometry.paper_test.strip": N_("The strip has no part {strip:plain}. Its parts are 1 to {count:plain}."),
    "sensitometry.paper_test.first_black": N_(
        "The first part, {time_s:plain} s, is black already, so less may do. Make the strip again from a shorter time."
    ),
    "sensitometry.paper_test.last_black": N_(
        "Only the last part, {time_s:plain} s, is black, so more might be needed. Make the strip again to a longer time."
    ),
    "sensitometry.channel.unknown": N_("Densities are not read in {channel:quoted}. Known are {known:list}."),
    "sensitometry.channel.stained": N_(
        "A stained negative for {printing} must be read in {missing:list} as well; there are readings in {read_in:list}. Stain "
        "stops blue and UV more than the eye sees: a time from other readings would be wrong. Read it through that filter, or "
        "match print times on the paper itself."
    ),
    "sensitometry.channel.not_read": N_(
        "There are no readings that serve {printing}: it sees {missing:list}, and there are readings in {read_in:list}. Visual "
        "readings would do for a negative without stain."
    ),
    "sensitometry.channel.converted": N_(
        "Visual readings stand in for the light that the printing sees; right for silver without stain, not measured."
    ),
    "sensitometry.flash.gain": N_("A flash cannot raise a tone by {value:plain} stops. Give more than 0, at most 5."),
    "sensitometry.zone.impossible": N_("There is no Zone {value:plain} here. Give {low:plain} to {high:plain}."),
    "sensitometry.zone.anchor": N_("A log exposure of {value:plain} is not possible."),
    "sensitometry.after.gain": N_(
        "An intensifier that adds {value:plain} of the density is not possible here. Give 0 to 1, for example 0.18."
    ),
    "sensitometry.after.share": N_(
        "A reducer cannot take {value:plain} of the density. Give 0 or more and less than 1, for example 0.2."
    ),
    "sensitometry.after.no_range": N_(
        "The highlight, {highlight:density}, is not denser than the shadow, {shadow:density}. Were they swapped?"
    ),
    "sensitometry.after.hard_enough": N_("The negative is hard enough already: intensifying would make it worse."),
    "sensitometry.after.soft_enough": N_(
        "The negative is soft enough already: reducing its contrast would make it worse."
    ),
    "sensitometry.after.too_much_reduction": N_(
        "Reducing so far would take more than three tenths of every tone; nobody can promise an even result."
    ),
    "sensitometry.after.not_repeatable": N_("The picture cannot be made again, as far as is known."),
    "sensitometry.after.copy_first": N_(
        "Copy or scan the negative before you treat it: no treatment is certain, and what goes wrong stays wrong."
    ),
    "sensitometry.after.fixed_and_washed": N_(
        "Only for film that is known to be well fixed and well washed; else it stains, and the stain stays. Refix and wash first."
    ),
    "sensitometry.after.try_spare": N_("Try it on a spare negative of the same film and development first."),
    "sensitometry.after.no_way_back": N_("What a reducer takes does not come back. Thin shadows go first."),
    "sensitometry.after.selenium_toxic": N_(
        "Selenium toner is toxic, also through the skin, and harms water life: gloves, eye protection, own dishes, never near "
        "food; hand in what is used up as the local authority says."
    ),
    "sensitometry.after.selenium_ammonia": N_(
        "It gives off ammonia: open window or extraction, lid on, face away; never together with chlorine bleach."
    ),
    "sensitometry.after.product_sheet": N_(
        "The product's own sheet and safety sheet say how strong, how long and how warm; they count before this page."
    ),
    "sensitometry.rescue.stops": N_("An error of {value:plain} stops is not possible here. Give -15 to 15."),
    "sensitometry.rescue.limit": N_(
        "A limit of net density {value:plain} is not possible. Give more than 0, at most 6."
    ),
    "sensitometry.rescue.meant_not_read": N_(
        "{film}, {dev_s:mss}: the readings do not even hold the scene as it was meant to be exposed. Read more steps."
    ),
    "sensitometry.rescue.twin_first": N_(
        "Develop the twin first, look at its shadow and highlight, then decide on this one."
    ),
    "sensitometry.rescue.look_first": N_(
        "There is no twin: develop the least important sheet of the same film first and look, then decide on this one."
    ),
    "sensitometry.rescue.print_longer": N_(
        "{stops:stops_said}: too much exposure moves the tones and does not widen their range. Print with more light."
    ),
    "sensitometry.rescue.contracted": N_(
        "Shortened to {dev_s:mss}, only so far as keeps the highlight at net {net_density:density}, the limit for {kind}."
    ),
    "sensitometry.rescue.limit_not_held": N_(
        "Even the shortest tested time, {dev_s:mss}, leaves the highlight at {highlight:density}, over {net_density:density}, the "
        "limit for {kind}. It is taken all the same; the highlight will be hard to print or to scan."
    ),
    "sensitometry.rescue.before_shoulder": N_(
        "At the normal time the highlight lies {stops:mixed} stops up the film's shoulder, where tones run together; "
        "{dev_s:mss} brings it in front of it."
    ),
    "sensitometry.rescue.on_shoulder": N_(
        "The highlight lies {stops:mixed} stops up the film's shoulder, where tones run together. No tested time brings it in "
        "front of it, so the normal time stands."
    ),
    "sensitometry.rescue.not_read": N_(
        "The readings do not reach the whole of this sheet at {dev_s:mss}. What they do not reach is not told."
    ),
    "sensitometry.rescue.own_load": N_(
        "{dev_s:mss} instead of {normal_s:mss} costs a load of its own; staying in the normal load is the other choice."
    ),
    "sensitometry.rescue.no_shadow_by_push": N_(
        "{stops:mixed} stops short: longer development raises the highs and hardly the shadows. What got no light stays empty."
    ),
    "sensitometry.rescue.offer_after": N_(
        "Afterwards there remain a harder grade, intensifying, and a print that gives the empty shadows up."
    ),
    "sensitometry.rescue.range_not_reached": N_(
        "No tested time brings the range to {wanted:density}; the most is {density_range:density}. The rest is the paper's grade."
    ),
    "sensitometry.rescue.shadow_lost": N_("The placed shadow lies {stops:mixed} stops below the film's speed point."),
    "sensitometry.rescue.practice_none": N_(
        "Common practice, untested: up to two stops over, leave the time as it is."
    ),
    "sensitometry.rescue.practice_three": N_("Common practice, a guess: three stops over, 10 to 15 % less time."),
    "sensitometry.rescue.practice_large": N_(
        "Common practice, a guess: four stops over and more, 20 to 30 % less time."
    ),
    "sensitometry.rescue.practice_under": N_(
        "Common practice, untested: too little exposure is not pushed; leave the time as it is."
    ),
}
