"""Sentences of ``wetside.chemistry``."""

from wetside.wording.catalog import N_

PARTS = ("chemistry_mixing", "chemistry_baths")
"""Further modules of this catalogue."""

SENTENCES = {
    # Values
    "chemistry.value.not_positive": N_("{name} must be more than 0 and a number of usual size; {value:plain} is not."),
    "chemistry.value.negative": N_("{name} must be 0 or more and a number of usual size; {value:plain} is not."),
    "chemistry.value.not_finite": N_("{name} must be a finite number; {value} is not."),
    "chemistry.amount.out_of_range": N_(
        "An amount of {value_ml:plain_ml} lies outside {low_ml:plain_ml} to {high_l:plain} l. Check the number and "
        "its unit."
    ),
    # Dilutions
    "chemistry.dilution.unreadable": N_(
        "{value:quoted} is not a dilution. Write parts of concentrate and of water like {example}, or 1+2+100 for two "
        "concentrates, 4 % or stock."
    ),
    "chemistry.dilution.in_name": N_(
        "{value:quoted} has {dilution:quoted} in the developer's name, and would be poured undiluted. Say the dilution "
        "apart, as the last thing or in a field or option of its own, like {example}."
    ),
    "chemistry.dilution.letter": N_(
        "{value:quoted} names a dilution by the letter {letter}, which stands for different strengths in different "
        "places. Say its parts, like {example}."
    ),
    "chemistry.dilution.colon": N_(
        "{value:quoted} has two readings: {beside} (beside each other), or {within}, which is {within_parts} and "
        "{stronger_percent:.1f} % stronger. Write one of {choices:list}."
    ),
    "chemistry.dilution.colons": N_(
        "{value:quoted} does not say what is concentrate and what is water. Write the parts with plus signs, the "
        "water last: perhaps {choices:list}."
    ),
    "chemistry.dilution.bare": N_("{value:quoted} is only a number. Write parts or percent, one of {choices:list}."),
    "chemistry.dilution.percent": N_(
        "{value:quoted} must be more than {low:plain} % and at most {high:plain} %. Write it like {example}."
    ),
    "chemistry.dilution.too_weak": N_(
        "{value:quoted} is weaker than 1 part in {most:plain}. Check the parts; write them like {example}."
    ),
    # Mixing
    "chemistry.mix.small": N_(
        "{concentrate_ml:ml} of concentrate is less than the {smallest_ml:ml} that your measure reads. Use a graduated "
        "pipette, or mix {total_ml:ml} and pour what you need."
    ),
    "chemistry.mix.small_part": N_(
        "{concentrate_ml:ml} of concentrate {part} is less than the {smallest_ml:ml} that your measure reads. Use a "
        "graduated pipette, or mix {total_ml:ml} and pour what you need."
    ),
    "chemistry.mix.rounded": N_(
        "{concentrate_ml:ml} of concentrate falls between the {mark_ml:ml} marks of a usual measure. {rounded_ml:ml} "
        "would change the strength by {strength_percent:percent}."
    ),
    "chemistry.mix.rounded_part": N_(
        "{concentrate_ml:ml} of concentrate {part} falls between the {mark_ml:ml} marks of a usual measure. "
        "{rounded_ml:ml} would change the strength by {strength_percent:percent}."
    ),
    "chemistry.mix.two_part": N_(
        "{count} concentrates: give each its own clean measure and put one after the other into the water, never into"
        " each other (common practice)."
    ),
    "chemistry.percent.over_hundred": N_(
        "A strength of {value:plain} % cannot be. The strength at hand is at most 100 %."
    ),
    "chemistry.percent.stronger": N_(
        "{wanted:plain} % cannot be made from {strong:plain} % with water: it is stronger. Ask for at most "
        "{strong:plain} %."
    ),
    "chemistry.redilution.stronger": N_(
        "{want} is stronger than {have}; water only makes it weaker. Add concentrate, or mix it new."
    ),
    "chemistry.redilution.other_parts": N_(
        "{have} and {want} hold their concentrates in different proportion; water does not lead from one to the "
        "other. Mix it new."
    ),
    # Amounts
    "chemistry.volume.limit_below_wetting": N_(
        "The vessel needs {wetting_ml:ml} to wet the film and takes {limit_ml:ml} at most. Check both figures."
    ),
    "chemistry.agent.below_half": N_(
        "{given_ml:ml} of stock or concentrate to 80 square inches of film is less than half of the {reference_ml:ml}"
        " under which the time was found. Use more liquid, a stronger dilution or fewer sheets."
    ),
    "chemistry.activity.above_one": N_(
        "A share of activity is at most 1; {value:plain} is more. More developer than the time was found with changes"
        " nothing."
    ),
    # Reuse
    "chemistry.reuse.not_whole": N_("Films are counted whole: {value:plain} is not a film's number."),
    "chemistry.reuse.under_a_litre": N_(
        "The rule for used developer is known for a litre or more; {value:plain} l is less. Use it once."
    ),
    "chemistry.reuse.used_up": N_(
        "Film {number:plain} would pass the maker's count of {most:plain} for this volume. Mix it new."
    ),
    # Cautions: in our own words; the product's safety sheet and the local authority come first.
    "chemistry.caution.safety_sheet": N_(
        "Read the product's own safety sheet before you open the bottle. Where it says more than this page, or "
        "something else, follow it."
    ),
    "chemistry.caution.gloves": N_(
        "Wear gloves that the liquid does not pass, and sleeves; keep bare hands out of every bath."
    ),
    "chemistry.caution.eyes": N_("Protect your eyes, above all when you mix or pour."),
    "chemistry.caution.air": N_("Keep the air moving. Do not sniff at a bath, and stop if it stings."),
    "chemistry.caution.splash": N_(
        "A splash on the skin: wash it off with plenty of water. In the eyes: rinse for several minutes, take contact"
        " lenses out, and get medical help."
    ),
    "chemistry.caution.allergy": N_(
        "Developers can make the skin allergic, at once or after years, and some pass through it. If a rash comes, "
        "stop and see a doctor."
    ),
    "chemistry.caution.dust": N_("Weigh powders without raising dust, and wipe up with a damp cloth."),
    "chemistry.caution.acid_into_water": N_(
        "Acid goes into the water, slowly and stirring; water never goes into the acid."
    ),
    "chemistry.caution.never_bleach": N_(
        "Never bring household bleach near acid, stop bath, fixer, sulfite or ammonia: poisonous gas comes off."
    ),
    "chemistry.caution.acid_on_sulfite": N_(
        "Do not pour acid onto fixer, sulfite or their concentrates: sulfur dioxide comes off, which hurts the lungs."
    ),
    "chemistry.caution.rinse_measures": N_("Rinse each measure into its mix, and clean it before the next liquid."),
    "chemistry.caution.silver_bottle": N_("Used fixer holds silver. Keep it in a closed, labelled bottle of its own."),
    "chemistry.caution.ask_authority": N_(
        "Before fixer or any other used bath goes down a drain, ask your local authority or water company, and do as "
        "they say."
    ),
    "chemistry.caution.label": N_("Label every bottle with what is in it, its strength and the date."),
    "chemistry.caution.no_food": N_(
        "No food or drink where you work, no bottles or cups that ever held or will hold food, nothing in the "
        "refrigerator, nothing within reach of children."
    ),
    "chemistry.caution.spills": N_("Wetting agent makes a floor slippery: wipe it up at once."),
    "chemistry.caution.residual_current": N_(
        "Water and mains meet here: motor, heater and lamp belong behind a residual-current switch."
    ),
    "chemistry.caution.on_battery": N_(
        "A phone or computer near the sink runs on its battery, not on a charger, and stays out of reach of splashes."
    ),
    "chemistry.caution.unplug": N_(
        "Pull the motor's plug with dry hands before you turn the drum by hand or reach into the bath."
    ),
    "chemistry.caution.heater": N_(
        "Switch a heater on only when it stands in water; out of water it burns. Let it cool before you lift it out."
    ),
    "chemistry.caution.hot_water": N_(
        "Hot water scalds, and cracks cold glass: pour it into plastic, and keep kettles away from glass measures."
    ),
}
