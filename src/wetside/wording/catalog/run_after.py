"""Sentences of what comes after a run: its booking, its hanging, what vessels are shown to need."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.run_after.on": N_("The run is on: it is booked when it is over."),
    "services.run_after.not_begun": N_("The run was not begun yet: nothing is used up."),
    "services.run_after.unread": N_(
        "The log of this run was written by another version, or is damaged, and cannot be read here. It is kept as it is. "
        "Open it with the newest version; until then book bottle by bottle."
    ),
    "services.run_after.booked_before": N_(
        "This run was booked already, maybe from another page: what stands here is what was booked then, and nothing more."
    ),
    "services.run_after.bottle_removed": N_(
        "{mark:quoted} was removed from the shelf after this page was shown. Choose another, or bring it back first."
    ),
    "services.run_after.bottle_emptied": N_(
        "{mark:quoted} was emptied after this page was shown. Choose the bottle that it came from."
    ),
    "services.run_after.sheet_removed": N_(
        "{sheet:quoted} was removed from the records: it gets no number. Bring it back first, or leave the number empty."
    ),
    "services.run_after.vessel_removed": N_(
        "{vessel:quoted} was removed. Bring it back first, then take what it taught."
    ),
    "services.run_after.offer_changed": N_(
        "Another run came to its end after this page was shown, and its vessel offers another value now. Look at it anew."
    ),
    "services.run_after.not_as_shown": N_(
        "The baths of this run changed after this page was shown. Nothing is booked: look at what stands here now."
    ),
    "services.run_after.number_twice": N_("{number:quoted} is the number on clip {clip} already. Give each its own."),
    "services.run_after.number_taken": N_(
        "{number:quoted} is the number of {sheet:quoted} already. Give another, or change that sheet first."
    ),
    "services.run_after.by_hand": N_(
        "The load was noted by hand: nobody saw what was poured. Book it bottle by bottle."
    ),
    "services.run_after.rehearsal": N_("A rehearsal with water: no bottle and no sheet is touched."),
    "services.run_after.nothing_poured": N_("Nothing was poured, as far as anybody told: there is nothing to book."),
    "services.run_after.not_booked": N_("Nothing is booked for this run."),
    "services.run_after.not_on_shelf": N_(
        "No bottle of this mark stands on the shelf. Choose the one that it came from."
    ),
    "services.run_after.further_part": N_(
        "{part_ml:ml} of the further part were due, and the plan does not know from which bottle. Choose it and say how much. "
        "Its mark in the process (bottle of its second or third part) answers this for good."
    ),
    "services.run_after.no_mark": N_(
        "The plan names no bottle for this bath: choose the one that it came from, or leave it."
    ),
    "services.run_after.by_name": N_(
        "The plan names no bottle for this bath. {mark} holds it by its name: choose another if it came from there."
    ),
    "services.run_after.from_mix": N_("It was mixed tonight into a bottle of its own, and is drawn from there."),
    "services.run_after.mixed": N_("{mixed_ml:ml} were booked when it was mixed, and are not booked again."),
    "services.run_after.top_up": N_(
        "{add_ml:ml} of replenisher for this film. The bath's mark is {bath_ml:ml}: set aside as much used developer as stands "
        "above, add the replenisher, fill up to the mark with the used. Less came back? Then less is waste."
    ),
    "services.run_after.top_up_no_bottle": N_(
        "{add_ml:ml} of replenisher are due. No bottle on the shelf holds {holds:quoted}: choose the one that it came from."
    ),
    "services.run_after.top_up_not_counted": N_(
        "{add_ml:ml} of replenisher are due. Nobody has said yet how much is in {mark:quoted}: count it, then book the top-up."
    ),
    "services.run_after.top_up_short": N_(
        "{add_ml:ml} of replenisher are due, and {mark:quoted} holds {left_ml:ml} by the books. Count what is left, or mix "
        "more and top up before the next load."
    ),
    "services.run_after.top_up_whereto": N_("Choose the bottle of the developer that was topped up."),
    "services.run_after.top_up_itself": N_(
        "{mark:quoted} is no bottle of replenisher for this developer. Choose the one that it came from."
    ),
    "services.run_after.not_counted": N_("Nobody has said yet how much is in this bottle: count it, then draw."),
    "services.run_after.more_than_left": N_(
        "The books say that the bottle held less than the run took. Count what is left."
    ),
    "services.run_after.no_waste_developer": N_(
        "No vessel collects used developer here. What may become of it is for your local authority and the product's safety "
        "sheet to say."
    ),
    "services.run_after.no_waste_fixer": N_(
        "No vessel collects used fixer here. It holds silver: keep it apart, and ask your local authority where it may go."
    ),
    "services.run_after.no_bottle": N_("Choose the bottle that it came from, or leave the amounts empty."),
    "services.run_after.from_waste": N_("{mark:quoted} collects waste: nothing is developed from it. Choose another."),
    "services.run_after.other_waste": N_(
        "What is left of {bath:quoted} does not go into {vessel:quoted}: each kind of waste has its own vessel, fixer apart "
        "for its silver."
    ),
    "services.run_after.more_back": N_(
        "{returned_ml:ml} cannot go back where {drawn_ml:ml} were drawn. What a bottle gains is filled in on its own page."
    ),
    "services.run_after.waste_whereto": N_(
        "{wasted_ml:ml} went to waste, and no vessel is chosen. Choose the one that took it, or leave the amount empty."
    ),
    "services.run_after.more_gone": N_(
        "{poured_ml:ml} were poured. {returned_ml:ml} back, {wasted_ml:ml} to waste and {lost_ml:ml} lost are "
        "{over_ml:ml} more than that. Correct one of them, or what was drawn."
    ),
    "services.run_after.less_gone": N_(
        "{poured_ml:ml} were poured. {returned_ml:ml} back, {wasted_ml:ml} to waste and {lost_ml:ml} lost leave "
        "{missing_ml:ml} unaccounted for; film and vessel keep {kept_back_ml:ml} at most. Correct one of them, or say what was "
        "lost (More of this bath)."
    ),
    "services.run_after.film_asked": N_(
        "Film went through {bath:quoted}, which goes back to its bottle. Say above how many sheets of which size it was, or "
        "that it is not known."
    ),
    "services.run_after.film_both": N_("Sheets are told, and that they are not known. Untick it, or empty the sheets."),
    "services.run_after.loses": N_("{mark:quoted} loses {loses_ml:ml} and holds {left_ml:ml} then."),
    "services.run_after.loses_nothing": N_("{mark:quoted} holds {left_ml:ml} then, as before."),
    "services.run_after.loses_too_much": N_("{mark:quoted} holds less than that by the books: count it first."),
    "services.run_after.kept_back": N_(
        "{missing_ml:ml} did not come back: film and vessel may keep up to {most_ml:ml}, so no waste is proposed."
    ),
    "services.run_after.not_accounted": N_(
        "{missing_ml:ml} neither came back nor went to waste here; film and vessel keep {most_ml:ml} at most. If a vessel "
        "took it, choose it; if it was spilt, say so under More of this bath."
    ),
    "services.run_after.follows": N_(
        "Reckoned anew from what you changed, and not booked yet: {fields:list}. Look at it, then book."
    ),
    "services.run_after.field_of_bath": N_("{bath}: {field}"),
    "services.run_after.dry_time": N_(
        "{value_s:mss} after the last liquid is no time in which a vessel dries: from a minute to a day is taken. Tap when "
        "it is dry."
    ),
    "services.run_after.dry_unknown": N_(
        "No liquid left this vessel as far as is known: there is no time to count from."
    ),
    "services.run_after.nothing_hangs": N_("Nothing of this run hangs: it has no sheets by name, or was not begun."),
    "services.run_after.clip_empty": N_(
        "Which sheet hangs on clip {clip}? If nobody can tell, say that the order is not known."
    ),
    "services.run_after.clip_lost": N_(
        "{sheet:quoted} is told lost: it hangs on no clip and gets no number. Say anew what hangs on clip {clip}."
    ),
    "services.run_after.clip_twice": N_("{sheet:quoted} hangs on an earlier clip already."),
    "services.run_after.clips": N_("There are {count} sheets: say for each of them where it hangs."),
}

SENTENCES |= {
    "services.run_after.title_book": N_("To book: {baths}, {water_ml:ml} of water"),
    "services.run_after.title_dry": N_("To book: {baths}"),
    "services.run_after.title_booked": N_("Booked: {bottles} of the shelf"),
    "services.run_after.title_nothing": N_("Nothing to book here"),
    "services.run_after.title_hang": N_("{sheets} to hang: which is where?"),
    "services.run_after.title_unknown": N_("{sheets} hang, and the order is not known"),
    "services.run_after.title_hangs": N_("{sheets} hang, each on its clip"),
    "services.run_after.title_otherwise": N_("Told differently: which order is right?"),
    "services.run_after.order_otherwise": N_(
        "Kept, and it does not count yet: another order was told meanwhile, which this page had not shown. Say which one is "
        "right; the numbers follow."
    ),
    "services.run_after.title_nothing_hangs": N_("Nothing hangs from this run"),
    "services.run_after.units": N_("{units:plain}"),
    "services.run_after.unbooked": N_("The booking of {run:quoted} is undone: the bottles stand as before it."),
    "services.run_after.dried": N_("Kept: dry {dried_s:mss} after the last liquid."),
    "services.run_after.order_kept": N_("Kept: each sheet with its clip."),
    "services.run_after.order_unknown": N_(
        "Kept: the order is not known. When the negatives can be told apart, say it here, and they get their numbers."
    ),
}

SENTENCES |= {
    "services.run_after.nothing_offered": N_("Nothing is offered here any more. Load the page anew."),
    "services.run_after.teaches_pour_s": N_("Pouring"),
    "services.run_after.teaches_drain_s": N_("Draining"),
    "services.run_after.teaches_dries_s": N_("Rinsed and dry"),
    "services.run_after.teaches_follows_s": N_("Follows its jacket"),
    "services.run_after.teaches_jacket_off_c": N_("Jacket against the process"),
    "services.run_after.value_short": N_("{value:.0f} s"),
    "services.run_after.value_long": N_("{value:mss}"),
    "services.run_after.value_degrees": N_("{value:step_c}"),
    "services.run_after.taught_few": N_("From {runs}: {values}. Three are needed before anything is offered."),
    "services.run_after.taught_disagree": N_("From {runs}: {values}. They do not agree, and nothing is offered."),
    "services.run_after.taught_agree": N_("From {runs}: {values}. What is stated fits."),
    "services.run_after.taught_refused": N_(
        "From {runs}: {values}. You did not want {value}; it is not offered again."
    ),
    "services.run_after.taught_offer": N_("From {runs}: {values}."),
    "services.run_after.kept": N_("Stated: {kept}."),
    "services.run_after.none_kept": N_("Nothing is stated."),
    "services.run_after.taken": N_("From now on: {vessel}, {what}, {value}."),
    "services.run_after.own_kept": N_("Kept as it was: {vessel}, {what}."),
}

SENTENCES |= {
    "services.sheets.run_place": N_("Place {place} of {of} in {vessel}."),
    "services.sheets.run_clip": N_("Hung on clip {clip}."),
    "services.sheets.run_order_unknown": N_("At hanging the order was not known."),
    "services.sheets.run_clip_otherwise": N_(
        "Another order was told too: which one is right is asked on the run's page."
    ),
    "services.sheets.run_read": N_("The developer was read at {low_c:temp} to {high_c:temp}, planned {temp_c:temp}."),
    "services.sheets.run_read_once": N_("The developer was read at {low_c:temp}, planned {temp_c:temp}."),
    "services.sheets.run_noted": N_("Noted as developed by hand: nobody told of the run."),
    "services.sheets.run_lost": N_("Lost in this run."),
    "services.sheets.run_effect_density": N_(
        "Developed {actual_s:mss} in effect, {planned_s:mss} planned: {density:signed} density ({percent:percent} of time)."
    ),
    "services.sheets.run_effect_time": N_(
        "Developed {actual_s:mss} in effect, {planned_s:mss} planned ({percent:percent} of time); too far for a density."
    ),
    "services.sheets.run_effect_outside": N_(
        "Developed {actual_s:mss} in effect, {planned_s:mss} planned ({percent:percent} of time), at a temperature outside "
        "what its developer's figures cover: no density."
    ),
    "services.sheets.run_looked": N_("Looked at after it: {said}"),
    "services.sheets.incident_at": N_("At {at_s:mss}"),
    "services.sheets.incident_after": N_("After the run"),
    "services.sheets.incident_power": N_("{when} the power went."),
    "services.sheets.incident_light": N_("{when} light came in."),
    "services.sheets.incident_leak": N_("{when} the vessel leaked."),
    "services.sheets.incident_scratched": N_("{when} it was seen to be scratched."),
    "services.sheets.incident_stuck": N_("{when} it was found stuck to another."),
    "services.sheets.incident_touched": N_("{when} it was found touching a wall or another sheet."),
    "services.sheets.incident_other": N_("{when} something went wrong."),
    "services.sheets.incident_words": N_("In your words: {text}."),
    "services.run_after.touched": N_("It touched {sheets:list}."),
    "services.run_after.seen_on": N_("Seen on {sheets:list}."),
    "services.run_after.touched_none": N_("It came too late to touch a sheet."),
    "services.run_after.lost": N_("Lost: {sheets:list}."),
    "services.run_after.touched_all": N_("It touched every sheet."),
}

SENTENCES |= {
    "services.runs.which_lost": N_("Which sheet is lost? Tick it."),
    "services.runs.busy": N_("Other pages write to this run at this very moment. Nothing was changed: try once more."),
    "services.runs.not_left": N_("No sheet {sheet:quoted} is left in the run. Left are {sheets:quoted_list}."),
    "services.runs.nothing_told_so": N_("That does not count any more: it was taken back already."),
}
