"""Sentences of ``wetside.cards`` for the evening's pages: its course, its safety, the house."""

from wetside.wording.catalog import N_

SENTENCES = {
    # nouns
    "cards.noun.drum_one": N_("{number} drum"),
    "cards.noun.drum_many": N_("{number} drums"),
    "cards.noun.tray_one": N_("{number} tray"),
    "cards.noun.tray_many": N_("{number} trays"),
    "cards.noun.hour_one": N_("{number} hour"),
    "cards.noun.hour_many": N_("{number} hours"),
    "cards.noun.minute_one": N_("{number} minute"),
    "cards.noun.minute_many": N_("{number} minutes"),
    "cards.noun.day_one": N_("{number} day"),
    "cards.noun.day_many": N_("{number} days"),
    # times of day, and how long
    "cards.hour.of_day": N_("{hour}:{minute}"),
    "cards.hour.next_day": N_("{clock} the next day"),
    "cards.hour.days_later": N_("{clock}, {days} later"),
    "cards.hour.minutes": N_("{minutes} min"),
    "cards.hour.hours": N_("{hours} h"),
    "cards.hour.hours_minutes": N_("{hours} h {minutes}"),
    "cards.hour.said_both": N_("{hours} {minutes}"),
    "cards.hour.tens_5": N_("five"),
    "cards.hour.tens_10": N_("ten"),
    "cards.hour.tens_15": N_("fifteen"),
    "cards.hour.tens_20": N_("twenty"),
    "cards.hour.tens_25": N_("twenty-five"),
    "cards.hour.tens_30": N_("thirty"),
    "cards.hour.tens_35": N_("thirty-five"),
    "cards.hour.tens_40": N_("forty"),
    "cards.hour.tens_45": N_("forty-five"),
    "cards.hour.tens_50": N_("fifty"),
    "cards.hour.tens_55": N_("fifty-five"),
    # head of the evening's page
    "cards.course.title_until": N_("Done by {end}: {loads}, {vessels}"),
    "cards.course.title_lasts": N_("{lasts}: {loads}"),
    "cards.course.title_none": N_("No load to run this evening"),
    "cards.course.begin": N_("Begin at {start}; lights out for the first time at {dark}."),
    "cards.course.begin_open": N_("Lights out for the first time {dark} after the beginning."),
    "cards.course.end": N_("The last sheet hangs at {hung}."),
    "cards.course.water": N_("{litres} litres of water."),
    "cards.course.water_us": N_("{litres} US quarts of water."),
    "cards.course.places": N_("At most {sheets} hang at once."),
    "cards.course.places_one": N_("At most one sheet hangs at once."),
    "cards.course.cost": N_("Chemistry: {cost}, in the money of your prices."),
    # the time table
    "cards.course.column_at": N_("at"),
    "cards.course.column_after": N_("h:min"),
    "cards.course.column_lasts": N_("takes"),
    "cards.course.column_do": N_("do"),
    "cards.course.column_with": N_("with"),
    "cards.course.times": N_(
        "Times are guesses until you know your own pace: what must be right is the clock of each run sheet."
    ),
    "cards.course.midnight": N_("Midnight"),
    "cards.course.midnight_next": N_("from here on it is the next day"),
    "cards.course.midnight_later": N_("from here on it is {days} later"),
    "cards.course.do_set_up": N_("Set up"),
    "cards.course.with_set_up": N_("in the light, by the first list"),
    "cards.course.do_load": N_("Lights out: load {load}"),
    "cards.course.with_load": N_("{sheets} into {vessel}"),
    "cards.course.do_run": N_("Run {load}: develop {time_s:mss}"),
    "cards.course.do_run_own": N_("Run {load}: each its own time"),
    "cards.course.with_run": N_("by run sheet {load}, to {clips}"),
    "cards.course.clip": N_("clip {first}"),
    "cards.course.clips_two": N_("clips {first} and {last}"),
    "cards.course.clips": N_("clips {first} to {last}"),
    "cards.course.do_look": N_("Look at load {load}"),
    "cards.course.with_look": N_("before the next is loaded: see Looks"),
    "cards.course.do_wait": N_("Wait"),
    "cards.course.with_wait_vessel": N_("{vessel} must dry before load {load}"),
    "cards.course.with_wait_places": N_("until clips are free for load {load}"),
    "cards.course.do_new_fixer": N_("New fixer"),
    "cards.course.with_new_fixer": N_("bottle {bottle}, tempered before load {load}"),
    "cards.course.do_tidy": N_("Clean, waste"),
    "cards.course.with_tidy": N_("by the last list"),
    # the order of the evening
    "cards.course.first": N_("First, in the light"),
    "cards.course.first_at": N_("First, in the light, from {start}"),
    "cards.course.warm": N_("Jacket on, bottles in it, for {temps:list}: 30 to 60 minutes before the first load."),
    "cards.course.warm_open": N_(
        "Water bath on, bottles in it, for {temps:list}: 30 to 60 minutes before the first load."
    ),
    "cards.course.warm_temp": N_("{temp_c:temp}"),
    "cards.course.warm_shown": N_("{temp_c:temp} (your thermometer shows {shown_c:temp})"),
    "cards.course.mix": N_("Mix by the list “Mix in this order”."),
    "cards.course.thermometer": N_("Thermometer checked against a second one; the developer reads ________\u00a0°C."),
    "cards.course.clip_fixer": N_(
        "Clip of tonight’s film through the fixer, in the light: clear after ________. Fix at least twice as long, three "
        "times for tabular film. {planned}"
    ),
    "cards.course.clip_planned": N_("Planned: {fix_s:mss}, enough for {clearing_s:mss}, tabular film {tabular_s:mss}."),
    "cards.course.clip_unplanned": N_("Longer than the run sheets fix? Write it into the evening file and plan again."),
    "cards.course.clip_developer": N_(
        "A drop of the developer on a clip of film, in the light: it must go black. If not, stop here."
    ),
    "cards.course.order": N_("Baths in their order, where hands find them in the dark: {baths}."),
    "cards.course.order_sheets": N_("Baths in the order of each run sheet, where hands find them in the dark."),
    "cards.course.bath_bottle": N_("{bottle}\u00a0{bath}"),
    "cards.course.dry": N_("Dry to the last drop: {vessels:list}. Places counted, lids and caps beside them."),
    "cards.course.dry_open": N_("Clean and level: {vessels:list}. Places counted."),
    "cards.course.safety": N_("The page “Before the light goes out” ticked to its end."),
    "cards.course.each": N_("Then each load"),
    "cards.course.learn": N_("Loading order known by heart, sheets counted, phone and lamps out of the room."),
    "cards.course.close": N_("Lights out, load, lid on and tried, vessel turns free: then the light."),
    "cards.course.stay_dark": N_("Lights out, and out they stay until the film has fixed for twice its clearing time."),
    "cards.course.run": N_("Run by the run sheet. From developer in to the next bath in nothing waits."),
    "cards.course.hang": N_(
        "Hang each sheet on its own clip and read off which one it is; “not known” is an answer too."
    ),
    "cards.course.look": N_("Look, where the table says so, before the next load is loaded."),
    "cards.course.again": N_("Rinse and dry the vessel before it is loaded again."),
    "cards.course.last": N_("Last, in the light"),
    "cards.course.last_at": N_("Last, in the light, from {start}"),
    "cards.course.unplug": N_("Hands dried, heater and motor unplugged."),
    "cards.course.rinse": N_("Vessels, measures and funnels rinsed; bench and floor wiped damp."),
    "cards.course.bottles_back": N_("Bottles closed and labelled: what, when, film that went through."),
    "cards.course.waste_done": N_("Waste in its vessels, closed and labelled; nothing down the drain unasked."),
    "cards.course.written": N_("Written down: what was not as planned. Then wash your hands."),
    # looks
    "cards.course.looks": N_("Looks"),
    "cards.course.column_look": N_("after load"),
    "cards.course.column_why": N_("why"),
    "cards.course.column_shadow": N_("shadow"),
    "cards.course.column_highlight": N_("highlight"),
    "cards.course.look_load": N_("{load}, at {at}"),
    "cards.course.look_load_open": N_("{load}, after {at}"),
    "cards.course.decide": N_("Ring one: keep · longer by ________\u00a0% · shorter by ________\u00a0%"),
    "cards.course.look_foot": N_(
        "Light on only once the film has fixed for twice its clearing time. Write the reading, or longer or shorter, into "
        "the evening file and plan again: only what is still undeveloped changes."
    ),
    # mixing, bottles, fixer, waste
    "cards.course.mixing": N_("Mix in this order"),
    "cards.course.column_order": N_("no."),
    "cards.course.column_liquid": N_("liquid"),
    "cards.course.column_volume": N_("mix"),
    "cards.course.column_parts": N_("from"),
    "cards.course.column_times": N_("how often"),
    "cards.course.parts": N_("{parts} + {water} water"),
    "cards.course.as_told": N_("as its label says"),
    "cards.course.in_bottle": N_("bottle {mark}; else as its label says"),
    "cards.course.ready_made": N_("ready made"),
    "cards.course.once": N_("once"),
    "cards.course.fresh": N_("{times} times, fresh"),
    "cards.course.draws": N_("Take from these bottles"),
    "cards.course.column_bottle": N_("bottle"),
    "cards.course.column_holds": N_("holds"),
    "cards.course.column_take": N_("take"),
    "cards.course.column_left": N_("then left"),
    "cards.course.column_cost": N_("cost"),
    "cards.course.replenishing": N_("Top up the developer, {total} of replenisher in all"),
    "cards.course.column_after_load": N_("after load"),
    "cards.course.column_bath": N_("bath"),
    "cards.course.column_set_aside": N_("set aside"),
    "cards.course.column_add": N_("replenisher"),
    "cards.course.column_state": N_("the bath then"),
    "cards.course.bath_state": N_("{state}, {turnover:share} of its volume gone in"),
    "cards.course.bath_fresh": N_("fresh"),
    "cards.course.bath_settling": N_("settling"),
    "cards.course.bath_seasoned": N_("seasoned"),
    "cards.course.replenishing_foot": N_(
        "Set used developer aside, add the replenisher, fill up to the mark with what was set aside; the rest is waste. "
        "Write what went in on the bottle."
    ),
    "cards.course.oldest": N_("The oldest of its kind first."),
    "cards.course.empty": N_("nothing"),
    "cards.course.unknown": N_("not known"),
    "cards.course.fixers": N_("Fixer"),
    "cards.course.column_before": N_("used before"),
    "cards.course.column_used": N_("used after"),
    "cards.course.column_fix": N_("fix"),
    "cards.course.column_renew": N_("renew"),
    "cards.course.renew_one": N_("before load {loads}"),
    "cards.course.renew_many": N_("before loads {loads:list}"),
    "cards.course.renew_none": N_("not this evening"),
    "cards.course.fixer_foot": N_(
        "In shares of what its maker, or common practice, lets it take. The clip test outranks the count: over twice the "
        "clearing time of fresh fixer it is spent."
    ),
    "cards.course.waste": N_("Waste, each in its own vessel"),
    "cards.course.column_vessel": N_("vessel"),
    "cards.course.column_holding": N_("comes to"),
    "cards.course.waste_foot": N_(
        "Where each goes, your local authority or water company says: ask before anything goes down a drain. Never mix them."
    ),
    # before the light goes out
    "cards.safety.title": N_("Before the light goes out"),
    "cards.safety.subtitle": N_(
        "Each product’s own safety sheet, and what your local authority says, come before this page."
    ),
    "cards.safety.out": N_("The way out"),
    "cards.safety.walk": N_(
        "Walk from the sink to the door with your eyes shut: nothing on the floor, nothing to trip over."
    ),
    "cards.safety.door": N_(
        "Shut the door, never lock it. A sign outside keeps others out: “film open until ________”."
    ),
    "cards.safety.someone": N_("Somebody knows that you are in here, and until when."),
    "cards.safety.light": N_(
        "Know where the switch is without seeing it. If anything is wrong with you, the room or the wiring: light on, out. "
        "Film can be lost."
    ),
    "cards.safety.electricity": N_("Water and electricity"),
    "cards.safety.dry_hands": N_(
        "Dry hands at every plug and switch; no plug, cable or socket where water can run or drip."
    ),
    "cards.safety.heat": N_("Heat"),
    "cards.safety.body": N_("Hands, eyes, air"),
    "cards.safety.moving_air": N_("Fan or vent on, drawing across the baths and away from your face."),
    "cards.safety.baths": N_("This evening’s baths"),
    "cards.safety.first_aid": N_("If something splashes"),
    "cards.safety.light_first": N_("Light on first."),
    "cards.safety.follow_sheet": N_(
        "Where the product’s safety sheet says more, or something else, follow it: have it here, and take it along to the doctor."
    ),
    "cards.safety.numbers": N_("Emergency ________  Poison centre ________"),
    "cards.safety.waste": N_("Waste and bottles"),
    # the house
    "cards.house.title": N_("Ask before you mix"),
    "cards.house.subtitle": N_(
        "For a darkroom that several people use. The house fills in the blanks. The law of the place, the local authority and "
        "each product’s safety sheet stand above this page; nothing here says that they permit anything."
    ),
    "cards.house.who": N_("Who to ask"),
    "cards.house.column_what": N_("for"),
    "cards.house.column_name": N_("name"),
    "cards.house.column_reach": N_("how to reach"),
    "cards.house.in_charge": N_("The room, this evening"),
    "cards.house.mixes": N_("Mixing, and everything dry or concentrated"),
    "cards.house.aid": N_("First aid"),
    "cards.house.fuses": N_("Fuses, water, keys"),
    "cards.house.emergency": N_("Emergency, poison centre"),
    "cards.house.mixing": N_("Mixing"),
    "cards.house.only_named": N_(
        "Only who is named above mixes, or weighs powder. Everybody else works with what is mixed."
    ),
    "cards.house.read_sheet": N_("Read the product’s safety sheet first. The sheets are kept here: ________"),
    "cards.house.read_sheets": N_(
        "Read the product’s safety sheet first: {products:list}. The sheets are kept here: ________"
    ),
    "cards.house.protect": N_(
        "Gloves, eye protection, apron and moving air; acid into water; no food or drink in the room."
    ),
    "cards.house.substances": N_("Not for everybody"),
    "cards.house.sensitisers": N_(
        "Metol, p-aminophenol, hydroquinone can make the skin allergic, at once or after years: gloves, no bare hands in any "
        "bath. Who has had a rash keeps away and asks a doctor."
    ),
    "cards.house.borates": N_(
        "Borax and boric acid are classed in the EU as substances that may harm fertility and the unborn child. Who is or may "
        "be pregnant, or wants a child, asks a doctor before touching or weighing them."
    ),
    "cards.house.pyrocatechol": N_(
        "Pyrocatechol is classed in the EU as a substance that may cause cancer, and passes the skin, as pyrogallol does: not "
        "for classes."
    ),
    "cards.house.selenium": N_(
        "Selenium toner is poisonous: only with the person in charge, with air moving away from you."
    ),
    "cards.house.minors": N_(
        "Minors work only with the person in charge beside them, mix nothing, and put no hand into a bath. What else holds for "
        "them in this place: ________"
    ),
    "cards.house.labels": N_("Labels and log"),
    "cards.house.label": N_(
        "On every bottle: what, strength, date, who mixed it. What has no label is not used, and is reported."
    ),
    "cards.house.log": N_(
        "In the log of a bottle: date, sheets that went through, initials. Fixer also: clearing time."
    ),
    "cards.house.own_goes": N_("Your own chemistry leaves with you."),
    "cards.house.waste": N_("Waste"),
    "cards.house.silver": N_("Used fixer holds silver: into the vessel marked ________, never into the sink."),
    "cards.house.developer": N_("Used developer: ________  Toner, bleach, rinses: ________"),
    "cards.house.asked": N_("Local authority or water company asked on ________ by ________"),
    "cards.house.collected": N_("Vessel full? Tell ________"),
    "cards.house.dark": N_("While film is open"),
    "cards.house.sign": N_("The sign hangs outside with a time on it. Ask through the door and wait for the answer."),
    "cards.house.never_locked": N_(
        "The door is shut, never locked. Everybody has found the way out once with eyes shut, while the light was on."
    ),
    "cards.house.harm": N_("If a person is or may be hurt, the light goes on. No sheet is worth a wait."),
    "cards.house.rules": N_("Rules of this place"),
    "cards.house.column_rule": N_("what"),
    "cards.house.column_here": N_("here"),
    "cards.house.hours": N_("Open, and how many at once"),
    "cards.house.air": N_("Air: what runs, and for how long after"),
    "cards.house.electric": N_("Residual-current switch, last tried"),
    "cards.house.spill": N_("Spill kit, eye wash, extinguisher"),
    "cards.house.other": N_("Else"),
}
