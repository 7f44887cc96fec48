"""Further sentences of ``wetside.chemistry``: strengths, salts, formulas, warmth, keeping."""

from wetside.wording.catalog import N_

SENTENCES: dict[str, str] = {
    # Criss-cross
    "chemistry.criss_cross.equal": N_(
        "Both have {value:plain}: any mix of them has it too. Take a stronger and a weaker one, or a warmer and a colder."
    ),
    "chemistry.criss_cross.outside": N_(
        "{wanted:plain} does not lie between {low:plain} and {high:plain}, so no mix of the two has it."
    ),
    "chemistry.criss_cross.no_end": N_(
        "Adding more of what has {value:plain} never quite brings a mix there. Pour the rest away and take that alone."
    ),
    # Salts
    "chemistry.salt.formula": N_(
        "{value:quoted} is not a chemical formula. Write elements with their counts, water after a point: Na2CO3.10H2O."
    ),
    "chemistry.salt.element": N_("No atomic weight is known for {value}. Known are {known:list}."),
    "chemistry.salt.unknown": N_("No substance is called {value:quoted}. Known are {known:quoted_list}."),
    "chemistry.salt.which": N_("{value:quoted} may be {choices:quoted_list}. Read the label and name one."),
    "chemistry.salt.other_active": N_(
        "{have} does not stand in for {asks}: another part of it works. Buy what the formula asks for."
    ),
    "chemistry.salt_note.other_partner": N_(
        "{have} for {asks} gives as many moles of what works, but need not behave alike. Test it before you trust it."
    ),
    # Acids
    "chemistry.acid_note.weak": N_(
        "{wanted_percent:plain} % is weaker than the usual {low_percent:plain} to {high_percent:plain} % of a stop bath: it "
        "stops later and is used up sooner."
    ),
    "chemistry.acid_note.strong": N_(
        "{wanted_percent:plain} % is stronger than the usual {low_percent:plain} to {high_percent:plain} % of a stop bath. "
        "After a developer with carbonate a strong acid can blow pinholes into the film."
    ),
    "chemistry.acid_note.freezes": N_(
        "Glacial acid turns solid below {freezes_c:temp}. Let a frozen bottle stand in a warm room; use no flame and no "
        "hot plate, for its vapour burns."
    ),
    # Formulas
    "chemistry.formula.unknown": N_("No formula is called {value:quoted}. Choose {known:quoted_list}."),
    "chemistry.formula.kind": N_("{value:quoted} is no kind of formula. Choose {known:list}."),
    "chemistry.formula.role": N_(
        "{name} has the part {value:quoted}, which has no place in the order of mixing. Choose {known:list}."
    ),
    "chemistry.formula_note.small_weight": N_(
        "{amount:plain} g of {name} is less than the {smallest:plain} g that your scale shows well. Mix {total_ml:ml}, or "
        "weigh out a stock solution of it."
    ),
    "chemistry.formula_note.small_volume": N_(
        "{amount:plain_ml} of {name} is less than the {smallest:plain_ml} that your measure reads. Mix {total_ml:ml}, or "
        "use a graduated pipette."
    ),
    "chemistry.formula_note.range": N_("{name}: {low:plain} to {high:plain} {unit}, as the source has it."),
    "chemistry.formula_note.unsaid": N_(
        "The source does not say which form of {name} it means (with how much water of crystallisation)."
    ),
    "chemistry.order.one_by_one": N_("Dissolve each thing fully before the next goes in."),
    "chemistry.order.make_up": N_("Make up to the volume at the end, and stir again."),
    "chemistry.order.metol_first": N_("Metol goes in first: it does not dissolve in a strong solution of sulfite."),
    "chemistry.order.pinch": N_(
        "A pinch of the sulfite, {low_g:plain} to {high_g:plain} g at most, may go in before the metol to keep the air off."
    ),
    "chemistry.order.sulfite_after_metol": N_(
        "Sulfite follows as soon as the metol is dissolved, to keep the air off."
    ),
    "chemistry.order.agent_after_sulfite": N_("The sulfite already in the water keeps the air off it."),
    "chemistry.order.alkali_last": N_("Alkali goes in last: it wakes the developer, and the air with it."),
    "chemistry.order.restrainer_end": N_("Restrainer goes in at the end, where it disturbs nothing."),
    "chemistry.order.hypo_chills": N_(
        "Crystalline hypo chills its water: begin at {warm_c:temp} or more, and add the rest when it is at {fixer_c:temp} or "
        "below."
    ),
    "chemistry.order.sulfite_before_acid": N_("Sulfite goes in before the acid: on plain hypo acid throws out sulfur."),
    "chemistry.order.acid_after_sulfite": N_(
        "Acid goes in slowly, only when the sulfite is dissolved and the water is cool; keep the air moving."
    ),
    "chemistry.order.alum_after_acid": N_("Alum goes in after sulfite and acid, or it falls out as a white sludge."),
    # Water and warmth
    "chemistry.water.temperature": N_(
        "{value_c:plain_c} is not a temperature of liquid water here. Give {low_c:bare_c} to {high_c:plain_c}."
    ),
    "chemistry.water.nothing": N_("Nothing is mixed. Give at least one volume with its temperature."),
    "chemistry.water.table": N_("The table of water's properties cannot be read both ways: its columns must rise."),
    "chemistry.water.concentrate": N_(
        "With the concentrate at {concentrate_c:temp} no water is cold or hot enough to end at {wanted_c:temp}. Temper the "
        "concentrate first."
    ),
    "chemistry.water.ice_warms": N_(
        "Ice does not warm a bath from {from_c:temp} to {to_c:temp}. Add hot water instead."
    ),
    "chemistry.temper.no_start": N_(
        "With {around_c:temp} around it, nothing that is poured in averages {mean_c:temp} over {time_s:mss}. Bring the "
        "jacket or the room nearer."
    ),
    "chemistry.temper.never": N_(
        "From {start_c:temp} with {around_c:temp} around it, {wanted_c:temp} is never reached. Change the jacket."
    ),
    "chemistry.temper.not_nearer": N_(
        "From {start_c:temp} to {end_c:temp} it did not come nearer to the {around_c:temp} around it without passing it. "
        "Read again, after a longer time."
    ),
    "chemistry.temper.heater_cools": N_(
        "A heater does not cool from {from_c:temp} to {to_c:temp}. Use ice or cold water."
    ),
    "chemistry.temper.heater_weak": N_(
        "With {power_w:plain} W the jacket comes to {most_c:temp} at most, so not to {to_c:temp}. Add hot water, or a lid."
    ),
    "chemistry.temper.coefficient": N_(
        "A coefficient is the relative change of time for a degree, about 0.05 to 0.15; {value:plain} is too much."
    ),
    # Keeping
    "chemistry.keeping.word": N_("{value:quoted} is no word for {name}. Choose {known:list}."),
    "chemistry.keeping.before": N_("{today} lies before {made}, the day of mixing. Check the dates."),
    "chemistry.keeping_note.read_label": N_(
        "Nobody whose sheet we have read says how long {name} keeps like this. Read its own label or sheet."
    ),
    "chemistry.keeping_note.nearest": N_(
        "The sheet does not have this case. The nearest with as much air or more is taken: {fill}, lid {lid}."
    ),
    "chemistry.keeping_note.no_limit": N_("The sheet sets no limit while it is unopened."),
    "chemistry.keeping_note.hours": N_("Good for {hours:plain} hours: note the hour of mixing."),
    "chemistry.keeping_note.over": N_(
        "It was good until {until}, {days} days ago. Throw it out, or test it on a scrap of film in the light."
    ),
    "chemistry.keeping_note.cool": N_("This holds at {low_c:bare_c} to {high_c:plain_c}."),
    "chemistry.keeping_note.not_above": N_("Above {high_c:plain_c} it keeps for a shorter time."),
}
"""Further sentences of ``wetside.chemistry``."""
