"""Sentences of stop, fixer, wash, water, hazards and wrong combinations."""

from wetside.wording.catalog import N_

SENTENCES = {
    # Fixer: what cannot be
    "chemistry.fixer.several": N_(
        "{product:quoted} has several capacities, by its dilution. Say which: {choices:list}."
    ),
    "chemistry.fixer.sides": N_("A film is coated on 1 side or on 2; {value:plain} is neither."),
    "chemistry.fixer.share_above_one": N_(
        "Tabular film uses up a fixer sooner, never later: its share of the capacity is at most 1; {value:plain} is more."
    ),
    "chemistry.fixer.temperature": N_(
        "A fixer at {value:plain_c} cannot be. Give the temperature of the bath, between 1 and 60 °C."
    ),
    "chemistry.fixer.other_film": N_(
        "The fresh fixer was timed with {fresh:quoted} and this one with {now:quoted}. Clearing times of two films say "
        "nothing of each other: time a clip of the same film."
    ),
    "chemistry.fixer.other_dilution": N_(
        "The fresh fixer was timed at {fresh:quoted} and this one at {now:quoted}. Compare clearing times at one dilution."
    ),
    # Fixer: what is said of it
    "chemistry.fixer.used_up": N_(
        "By area of film this fixer has reached {share:share} of its capacity. Change it before the next load."
    ),
    "chemistry.fixer.clears_slowly": N_(
        "Film clears in {now_s:mss}; twice the fresh time is {limit_s:mss}. This fixer is used up."
    ),
    "chemistry.fixer.clearing_moved": N_(
        "The fresh bath was timed at {from_c:temp}, this one at {to_c:temp}; {fresh_s:mss} is what the fresh one would "
        "have taken there. That step is assumed: better time both at one temperature."
    ),
    "chemistry.fixer.too_long": N_(
        "Fixing would take {time_s:mss}; after about {longest_s:mss} the bath begins to bleach. Change it instead."
    ),
    "chemistry.fixer.long": N_(
        "Fixing takes {time_s:mss}, close to the {longest_s:mss} at which the bath begins to bleach."
    ),
    "chemistry.fixer.slow_fresh": N_(
        "Even the fresh bath would need {time_s:mss}, more than {longest_s:mss}. Warm it to the process, check its "
        "dilution, or take a faster fixer."
    ),
    "chemistry.fixer.retire": N_("Take the first fixer out of use; keep it in its silver bottle."),
    "chemistry.fixer.promote": N_("Move the second bath up to first, and mix a new second one."),
    "chemistry.fixer.mix_new": N_("Mix a new fixer, and time a clip of the same film in it."),
    "chemistry.fixer.refix": N_(
        "Fix the last {count:plain} sheets again in the fresh bath for {time_s:mss}: three of its clearing times."
    ),
    "chemistry.fixer.wash_again": N_("Then wash aid, and the whole wash again."),
    "chemistry.fixer.not_development": N_("A pink or milky look from tired fixer is no fault of development."),
    # Two baths
    "chemistry.baths.strength": N_("A strength beside the fresh bath lies between 0 and 1; {value:plain} does not."),
    "chemistry.baths.gravity": N_(
        "A specific gravity of {value:plain} cannot be: water is 1, and no darkroom bath reaches 2."
    ),
    "chemistry.baths.carried": N_(
        "{carried_ml:ml} carried is more than the bath's {volume_ml:ml}. Check both figures."
    ),
    "chemistry.baths.not_new": N_(
        "{label:quoted} has fixed film before, or is in use already. A new bath is freshly mixed and has a label of its own."
    ),
    # Stop bath
    "chemistry.stop.used_up": N_(
        "By area of film the stop bath has reached {share:share} of its capacity: discard it."
    ),
    "chemistry.stop.indicator_turned": N_(
        "The indicator has turned from yellow to purple, or from light to dark where colours are hard to tell: the bath is "
        "spent, discard it."
    ),
    "chemistry.stop.by_count": N_(
        "Stop bath at {share:share} of its capacity by count. No colour is needed for that; a paper strip that still reads "
        "acid is a second way (common practice)."
    ),
    "chemistry.stop.water": N_(
        "Running water stops slowly, in about {seconds:seconds}: development goes on that long, and the fixer tires sooner."
    ),
    "chemistry.stop.short": N_(
        "{time_s:seconds} is short for this stop; leave film in it for at least {least_s:seconds}."
    ),
    "chemistry.stop.temperature": N_(
        "The stop bath is at {temp_c:temp}; its maker's range is {low_c:temp} to {high_c:temp}."
    ),
    "chemistry.stop.pinholes": N_(
        "A developer with carbonate gives off gas in a strong acid stop, which can tear pinholes. Use a weaker one, or "
        "water first."
    ),
    # Wash
    "chemistry.wash.too_many": N_(
        "More than {most:plain} changes of water would be needed. Use more water to a fill, or let less stay behind."
    ),
    "chemistry.wash.sides": N_("A film is coated on 1 side or on 2; {value:plain} is neither."),
    "chemistry.wash.never": N_(
        "{fills:plain} fills do not bring the film to {limit_mg:plain} mg even when each comes to balance. Add a fill."
    ),
    "chemistry.wash.temperature": N_("A wash at {value:plain_c} cannot be. Give a temperature between 0 and 60 °C."),
    "chemistry.wash.far_from_process": N_(
        "The wash at {wash_c:temp} is more than {step_c:step_c} from the process at {process_c:temp}. That is the makers' "
        "limit for best work; film bears more. Step down in two or three fills if you can."
    ),
    "chemistry.wash.cold": N_(
        "Fixer leaves film slowly in water of {wash_c:temp}: a maker doubles the wash below {cold_c:temp}. Wash longer, or "
        "in more fills."
    ),
    "chemistry.wash.hardened": N_(
        "Washing by changes is published for fixer without hardener. Hardened film gives up its fixer more slowly: wash it "
        "in running water, longer, or use a wash aid."
    ),
    "chemistry.wash.out_of_drum": N_(
        "A film that lies on a wall has hardly any exchange on its back. Give it the last wash and the wetting agent out of "
        "the drum, in a tray (common practice)."
    ),
    # Water
    "chemistry.water.scale": N_("{value:quoted} is no scale of hardness. Use one of {known:list}."),
    "chemistry.water.lime": N_(
        "Hard water can cloud a developer with lime, which does no harm by itself: let it settle or filter it, or dissolve "
        "{grams_per_l:plain} g of sodium hexametaphosphate to a litre with the sulfite."
    ),
    "chemistry.water.last_bath": N_(
        "Make the last bath of film, with its wetting agent, from deionised or distilled water: hard water dries to spots."
    ),
    # Hazards, what cannot be
    "chemistry.hazard.percent": N_(
        "{value:plain} % of {name:quoted} cannot be. A concentration lies between 0 and 100 %."
    ),
    "chemistry.hazard.over_hundred": N_("The ingredients make {value:plain} % together. They can be 100 % at most."),
    # Hazards, said every time
    "chemistry.hazard.sheet_first": N_(
        "Reckoned from European tables of 2020 and 2026; it never replaces the product's own safety sheet. Where that says "
        "more or something else, follow it."
    ),
    "chemistry.hazard.unknown": N_("Nothing is known here of {names:list}: read its safety sheet before you open it."),
    "chemistry.hazard.unlisted": N_(
        "{names:list}: no entry in the European table, which does not mean harmless. Read its safety sheet."
    ),
    "chemistry.hazard.not_reckoned": N_(
        "Not settled by these limits: {classes:list}. The product's safety sheet says what applies."
    ),
    "chemistry.hazard.below_limits": N_(
        "No class that was reckoned here is reached. Gloves, eye protection and fresh air still belong to it."
    ),
    # Hazards: one short sentence a class, in our own words
    "chemistry.hazard.burns": N_("Its liquid and vapour catch fire: no flame, no spark, no heater beside it."),
    "chemistry.hazard.feeds_fire": N_("Makes other things burn more fiercely: keep it from paper, cloth and solvents."),
    "chemistry.hazard.poison": N_("Poisonous."),
    "chemistry.hazard.harmful": N_("Harmful if swallowed, breathed in or on the skin, by what its sheet says."),
    "chemistry.hazard.corrosive": N_("Burns skin and eyes badly: gloves and goggles, and water at once on any splash."),
    "chemistry.hazard.skin_irritant": N_("Irritates the skin: wear gloves."),
    "chemistry.hazard.allergy": N_("Can make the skin allergic for good: no bare hands."),
    "chemistry.hazard.eye_damage": N_("Can damage the eyes for good: wear goggles."),
    "chemistry.hazard.eye_irritant": N_("Irritates the eyes badly: wear eye protection."),
    "chemistry.hazard.airways": N_("Can irritate nose and throat: raise no dust, and keep the air moving."),
    "chemistry.hazard.germ_cells_suspected": N_("Suspected of harming what is inherited."),
    "chemistry.hazard.cancer": N_("Can cause cancer: do without it, or work only as its safety sheet demands."),
    "chemistry.hazard.cancer_suspected": N_("Suspected of causing cancer."),
    "chemistry.hazard.unborn": N_(
        "Can harm fertility and the unborn child: nobody who is or wants to become pregnant mixes it."
    ),
    "chemistry.hazard.unborn_suspected": N_("Suspected of harming the unborn child."),
    "chemistry.hazard.organs": N_("Can harm organs when one is exposed again and again."),
    "chemistry.hazard.water_life": N_(
        "Poisonous to what lives in water: ask the local authority before any of it goes down a drain."
    ),
    "chemistry.hazard.may_cause_allergy": N_("Holds {name}, which can set off an allergy in those who have one."),
    "chemistry.hazard.gas_with_acid": N_("Holds {name}, which gives off poisonous gas with acid."),
    # What must not come together
    "chemistry.combination.unknown": N_(
        "Nothing is known here of {names:list}: read the safety sheets before you bring it together with anything."
    ),
    "chemistry.combination.nothing_known": N_(
        "Nothing stands here against {first} and {second}. That is no proof: read both safety sheets."
    ),
    "chemistry.combination.bleach_acid": N_(
        "Household bleach and an acid bath give off chlorine. Never bring them together, not even in the sink."
    ),
    "chemistry.combination.bleach_fixer": N_(
        "Household bleach and fixer react hotly and give off poisonous gas. Never clean a fixer tray with bleach."
    ),
    "chemistry.combination.bleach_sulfite": N_(
        "Household bleach and sulfite react hotly and give off poisonous gas. Never bring them together."
    ),
    "chemistry.combination.bleach_ammonia": N_(
        "Household bleach with ammonia or ammonium salts gives off poisonous chloramines. Never bring them together."
    ),
    "chemistry.combination.acid_sulfite": N_(
        "Acid on sulfite or metabisulfite gives off sulfur dioxide, which hurts the lungs. Do not pour them together."
    ),
    "chemistry.combination.acid_thiosulfate": N_(
        "Acid on hypo or fixer concentrate gives off sulfur dioxide and throws down sulfur. Do not pour them together; "
        "what film carries over from a stop bath is little."
    ),
    "chemistry.combination.ferricyanide_strong_acid": N_(
        "Ferricyanide with strong acid or heat can give off hydrogen cyanide. Never bring them together."
    ),
    "chemistry.combination.sulfide_acid": N_(
        "Sulfide with any acid bath gives off hydrogen sulfide, which is very poisonous and dulls the nose. Never in a tray "
        "that held stop or fixer; only in the open air."
    ),
    "chemistry.combination.selenium_acid": N_(
        "Selenium toner with acid gives off poisonous gas. Rinse film free of stop and acid fixer before it, and keep it "
        "out of their trays and waste."
    ),
    "chemistry.combination.ammonium_alkali": N_(
        "Ammonium salts with caustic alkali give off ammonia, which stings eyes and lungs. Do not pour them together."
    ),
    "chemistry.combination.acid_caustic": N_(
        "Acid and caustic alkali heat up and spit. Never use one to clean up the other: rinse with plenty of water."
    ),
    "chemistry.combination.acid_carbonate": N_(
        "A strong acid stop after a carbonate developer makes gas in the emulsion, which can leave pinholes. Weaken the "
        "stop or rinse first."
    ),
    "chemistry.combination.hardener_rapid": N_("Rapid fixer takes no hardener, says its maker: it can turn cloudy."),
    "chemistry.combination.fixer_developer": N_(
        "A little fixer in the developer spoils it and fogs film: rinse vessels and measures, developer first, fixer last."
    ),
}
