"""Sentences about the shelf: ledgers, what is near its end, mixing, vessels, instruments."""

from wetside.wording.catalog import N_

SENTENCES = {
    # the ledger
    "services.ledger.count_first": N_(
        "Nobody has said yet how much is in bottle {mark:quoted}. Count it first; a good guess will do."
    ),
    "services.ledger.not_enough": N_(
        "There are {left_ml:ml} in bottle {mark:quoted}, not {amount_ml:ml}. Draw less, or count what is left and book that "
        "first."
    ),
    "services.ledger.undo_of_undo": N_("This line undoes another. To have that back, enter it again."),
    "services.ledger.undone_already": N_("Line {number} of bottle {mark:quoted} is undone already."),
    "services.ledger.built_upon": N_(
        "Later lines of bottle {mark:quoted} build upon line {number}: without it {short_ml:ml} would be lacking. Undo those "
        "first, or count what is left."
    ),
}

SENTENCES |= {
    # bottles
    "services.bottles.not_for_waste": N_("{mark:quoted} collects no waste. Choose a waste vessel, or none."),
    "services.bottles.other_waste": N_(
        "What is in {mark:quoted} does not go into {vessel:quoted}: each kind of waste has its own vessel, fixer apart for "
        "its silver."
    ),
    # what is near its end
    "services.judged.area": N_(
        "{units:.1f} units of film have gone through it: {share:share} of what it serves, at {per_l:plain} units a litre."
    ),
    "services.judged.area_tabular": N_(
        "{units:.1f} units of film have gone through it, {tabular:.1f} of them tabular, which use it up sooner: {share:share} "
        "of what it serves, at {per_l:plain} units of ordinary film a litre."
    ),
    "services.judged.film_unknown": N_(
        "Film went through it in {runs}, and nobody knows how much: it may be nearer to its end than is reckoned. Test it."
    ),
    "services.judged.no_capacity": N_(
        "{units:.1f} units of film have gone through it. Nobody has said how much it serves: enter its capacity from the label."
    ),
    "services.judged.no_volume": N_(
        "{units:.1f} units of film have gone through it, but nobody said how much there was of it: count it."
    ),
    "services.judged.no_clearing": N_(
        "No clearing test yet. Time a scrap of film in it: area alone does not see what went wrong."
    ),
    "services.judged.no_fresh_alike": N_(
        "{film} cleared in {now_s:mss} at {temp_c:temp}. There is no test of this bath when fresh with that film at that "
        "temperature, so it says nothing of the end; mix a little fresh and time the same film there."
    ),
    "services.judged.clearing": N_(
        "{film} cleared in {now_s:mss} at {temp_c:temp}, in {fresh_s:mss} when it was fresh; its end is {limit_s:mss}. Fix "
        "this film for {fix_s:mss}."
    ),
    "services.judged.clearing_over": N_(
        "{film} cleared in {now_s:mss} at {temp_c:temp}, in {fresh_s:mss} when it was fresh: past its end of {limit_s:mss}. Fix "
        "no more film in it."
    ),
    "services.judged.date": N_("Its last good day is {until}, {days} days from now."),
    "services.judged.date_over": N_("Its last good day was {until}, {days} days ago."),
    "services.judged.kept": N_("It keeps until {until} as it stands ({fill}, closed), {days} days from now."),
    "services.judged.kept_over": N_("As it stands ({fill}, closed) it kept until {until}, {days} days ago."),
    "services.judged.later": N_("It is said to be from {made}, which is still to come. Correct the date."),
    "services.judged.read_label": N_("No sheet that we have read says how long {name} keeps: read its label."),
    "services.judged.no_limit": N_("Its maker sets no limit while it is unopened."),
    # the shelf
    "services.shelf.title_empty": N_("The shelf is empty"),
    "services.shelf.title_good": N_("{count}; none is near its end"),
    "services.shelf.title_near": N_("{count}; {holds} ({mark}) is near its end"),
    "services.shelf.title_spent": N_("{count}; {holds} ({mark}) is spent"),
    "services.shelf.title_many_spent": N_("{count}; {spent} are spent"),
    "services.shelf.title_many_near": N_("{count}; {near} are near their end"),
    "services.shelf.title_both": N_("{count}; {spent} spent, {near} near the end"),
}

SENTENCES |= {
    # mixing
    "services.mixing.dilution_needed": N_("Say the dilution of {what:quoted}, such as 1+24, or stock."),
    "services.mixing.one_liquid": N_("{dilution} takes one liquid and water: leave the others out."),
    "services.mixing.two_liquids": N_("{dilution} takes more than one concentrate: choose the second too."),
    "services.mixing.three_liquids": N_("{dilution} takes three concentrates: choose the third too."),
    "services.mixing.no_third": N_("{dilution} takes two concentrates and water: leave the third out."),
    "services.mixing.many_liquids": N_(
        "{dilution} has more than three concentrates, which this page does not mix: draw each on the page of its bottle."
    ),
    "services.mixing.same_twice": N_("Two of the concentrates are {what:quoted}. Choose different ones."),
    "services.mixing.not_on_shelf": N_(
        "No bottle of {what:quoted} stands on the shelf. Put one there first, or choose another liquid."
    ),
    "services.mixing.no_formula": N_("There is no formula {what:quoted}. Choose one of the list."),
    "services.mixing.pour": N_("Pour {volume_ml:ml} of {name}."),
    "services.mixing.water_first": N_("Begin with {volume_ml:ml} of water."),
    "services.mixing.pour_in": N_("Pour in {volume_ml:ml} of {name}, and rinse the measure into it."),
    "services.mixing.acid_in": N_(
        "Pour {volume_ml:ml} of {name} into the water, slowly and stirring; never the water into it."
    ),
    "services.mixing.make_up": N_("Make up with water to {total_ml:ml}, and stir."),
    "services.mixing.lacking": N_("{lacking_ml:ml} of {name} are lacking. Mix less, or add a bottle."),
    "services.mixing.too_much": N_("The bottles give {over_ml:ml} of {name} more than is wanted. Draw less."),
    "services.mixing.into_itself": N_("Bottle {mark:quoted} cannot take what is drawn from it. Name another mark."),
    "services.mixing.holds_other": N_(
        "There is {holds:quoted} in bottle {mark:quoted}. Empty it first, or name another mark."
    ),
    "services.mixing.nothing_to_book": N_(
        "Nothing is drawn from a bottle here: name the mark of the bottle that takes it."
    ),
}

SENTENCES |= {
    # instruments
    "services.instruments.far_off": N_(
        "An offset of {value:plain} is more than a {kind} can be off ({most:plain} at most). Check both readings; if they are "
        "right, the instrument is broken."
    ),
    "services.instruments.kind_checked": N_("It has checks as a {kind}: they would mean nothing for another kind."),
    "services.instruments.never_checked": N_("{name:quoted} was never checked: there is no offset to take."),
}

SENTENCES |= {
    # two fixing baths
    "services.rotation.not_a_second": N_(
        "{mark:quoted} cannot move up: a second bath is another fixer, with a counted amount in it."
    ),
}
