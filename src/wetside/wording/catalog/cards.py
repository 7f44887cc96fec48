"""Sentences of ``wetside.cards``."""

from wetside.wording.catalog import N_

PARTS = ("cards_evening", "cards_trouble")
"""Further modules of this catalogue."""

SENTENCES = {
    # numbers and nouns
    "cards.number.0": N_("no"),
    "cards.number.1": N_("one"),
    "cards.number.2": N_("two"),
    "cards.number.3": N_("three"),
    "cards.number.4": N_("four"),
    "cards.number.5": N_("five"),
    "cards.number.6": N_("six"),
    "cards.number.7": N_("seven"),
    "cards.number.8": N_("eight"),
    "cards.number.9": N_("nine"),
    "cards.number.10": N_("ten"),
    "cards.number.11": N_("eleven"),
    "cards.number.12": N_("twelve"),
    "cards.noun.sheet_one": N_("{number} sheet"),
    "cards.noun.sheet_many": N_("{number} sheets"),
    "cards.noun.side_one": N_("{number} side"),
    "cards.noun.side_many": N_("{number} sides"),
    "cards.noun.lot_one": N_("{number} lot"),
    "cards.noun.lot_many": N_("{number} lots"),
    "cards.noun.load_one": N_("{number} load"),
    "cards.noun.load_many": N_("{number} loads"),
    "cards.noun.vessel_one": N_("{number} vessel"),
    "cards.noun.vessel_many": N_("{number} vessels"),
    "cards.noun.more_film_one": N_("{number} more film"),
    "cards.noun.more_film_many": N_("{number} more films"),
    "cards.noun.more_sheet_one": N_("{number} more"),
    "cards.noun.more_sheet_many": N_("{number} more"),
    # baths without a name of their own
    "cards.bath.presoak": N_("pre-soak"),
    "cards.bath.develop": N_("developer"),
    "cards.bath.stop": N_("stop"),
    "cards.bath.fix": N_("fixer"),
    "cards.bath.wash": N_("wash"),
    "cards.bath.wash-aid": N_("wash aid"),
    "cards.bath.wetting": N_("wetting agent"),
    "cards.bath.other": N_("bath"),
    # acts
    "cards.act.temper": N_("Temper"),
    "cards.act.temper_detail": N_("{vessel} and bottles to {temp_c:temp}, within\u00a00.3"),
    "cards.act.temper_detail_shown": N_(
        "{vessel} and bottles until {thermometer} shows {shown_c:temp}, within\u00a00.3"
    ),
    "cards.act.agitate": N_("Agitate"),
    "cards.act.agitate_detail": N_("for {time_s:seconds}, then let stand"),
    "cards.act.inspect": N_("Look"),
    "cards.act.inspect_detail": N_("for {time_s:seconds} at most, by the tested safelight"),
    "cards.act.pour": N_("{bath} in"),
    "cards.act.move": N_("Into {bath}"),
    "cards.act.out": N_("{bath}"),
    "cards.act.all_in": N_("All in {bath}"),
    "cards.act.ready": N_("{bath} ready"),
    "cards.act.drain": N_("Drain"),
    "cards.act.enter": N_("{sheet} in"),
    "cards.act.enter_detail": N_("{place}, for {time_s:mss}"),
    "cards.act.lift": N_("{sheet} out"),
    "cards.act.lift_detail": N_("{place}, into {bath}"),
    "cards.act.hang": N_("Hang"),
    "cards.act.hang_one": N_("clip {first}"),
    "cards.act.hang_many": N_("clips {first} to {last}, as listed at the top"),
    "cards.act.clock_full": N_("pour {pour_s:seconds} before, clock at full"),
    "cards.act.clock_drop": N_("clock at the first drop"),
    "cards.act.out_of_vessel": N_("in a tray, out of the {vessel}"),
    "cards.act.mixed": N_("{volume} ({parts} + {water} water)"),
    "cards.act.drain_back": N_("back to bottle {bottle}"),
    "cards.act.drain_developer": N_("into waste vessel 1"),
    "cards.act.drain_fixer": N_("into waste vessel 2 (silver)"),
    # places
    "cards.place.drum": N_("slot {number}"),
    "cards.place.tubes": N_("tube {number}"),
    "cards.place.tray": N_("sheet {number}"),
    "cards.place.hangers": N_("hanger {number}"),
    "cards.place.clip": N_("clip {number}"),
    "cards.thermometer.yours": N_("your thermometer"),
    "cards.thermometer.named": N_("your {name}"),
    # head of the run sheet
    "cards.run.title": N_("Load {number}: develop {time_s:mss}"),
    "cards.run.title_own": N_("Load {number}: develop {low_s:mss} to {high_s:mss}"),
    "cards.run.films": N_("{films:list} in {developer} {dilution}, {vessel},"),
    "cards.run.temp": N_("{temp_c:temp}"),
    "cards.run.temp_f": N_("{temp_c:temp} ({temp})"),
    "cards.run.temp_shown": N_("; {thermometer} shows {temp_c:temp}"),
    "cards.clock.full-to-drain": N_("Clock from full to the start of the drain."),
    "cards.clock.full-to-drained": N_("Clock from full to the end of the drain."),
    "cards.clock.pour-to-drain": N_("Clock from the first drop in to the start of the drain."),
    "cards.clock.pour-to-drained": N_("Clock from the first drop in to the end of the drain."),
    "cards.clock.each": N_("Each sheet has its own time, from going in to coming out."),
    "cards.run.window": N_("Window {low_s:mss} to {high_s:mss}."),
    "cards.run.no_window": N_("No one time suits every sheet."),
    "cards.run.outside": N_("Outside its window: {sheets:list}."),
    "cards.run.count": N_("{sheets}, no more"),
    "cards.run.field_temp": N_("Developer reads"),
    "cards.run.field_start_full": N_("Full at"),
    "cards.run.field_start_drop": N_("First drop at"),
    "cards.run.field_start_enter": N_("First sheet in at"),
    "cards.run.oclock": N_("o’clock"),
    "cards.run.column_clock": N_("clock"),
    "cards.run.column_act": N_("act"),
    "cards.run.column_with": N_("with"),
    "cards.run.column_done": N_("done at"),
    "cards.run.band": N_("nothing waits"),
    "cards.run.continued": N_("continued"),
    "cards.run.page": N_("load {number} of {loads}"),
    "cards.run_sheet.no_such_load": N_(
        "There is no load {load}; the plan has {loads}. Choose a number from 1 to {loads}."
    ),
    # feet of the run sheet
    "cards.foot.wait_title": N_("Nothing waits"),
    "cards.foot.wait": N_("From developer in to the next bath in nothing waits."),
    "cards.foot.wait_bottle": N_(
        "From developer in to stop in nothing waits. Have bottle {bath} in your hand at {hand_s:mss}."
    ),
    "cards.foot.wait_bath": N_(
        "From developer in to the next bath in nothing waits. Have the {bath} in your hand at {hand_s:mss}."
    ),
    "cards.foot.wait_each": N_(
        "From the first sheet in to the last sheet out nothing waits. The next bath ({bath}) stands ready by {hand_s:mss}."
    ),
    "cards.foot.power_title": N_("Power gone"),
    "cards.foot.power_turned": N_(
        "Dry your hands, unplug motor and heater, turn by hand at the same pace. Go on by wristwatch: the times stay."
    ),
    "cards.foot.power_still": N_("Dry your hands, unplug what is wet. Go on by wristwatch: the times stay."),
    "cards.foot.care_title": N_("Hands, eyes, air"),
    "cards.foot.care": N_(
        "Gloves, eye protection, moving air. Follow each product’s safety sheet. Device on battery, away from the sink; "
        "motor and heater behind a residual-current switch; dry hands at plugs."
    ),
    "cards.foot.waste_title": N_("Waste"),
    "cards.foot.waste": N_(
        "Vessel 1 for developer, vessel 2 for fixer, which holds silver; never mix them. Ask your local authority where they go."
    ),
    "cards.foot.know_title": N_("Good to know"),
    # how far off an aim
    "cards.off.grade_softer": N_("{grades} softer"),
    "cards.off.grade_harder": N_("{grades} harder"),
    "cards.off.under": N_("under ⅛"),
    # window chart
    "cards.chart.title": N_("Windows: {sheets}, {loads}"),
    "cards.chart.description": N_("Each bar is the window of a sheet, each line a load. {bars}."),
    "cards.chart.bar": N_("{sheet}: window {low_s:mss} to {high_s:mss}, own time {own_s:mss}, {load} at {load_s:mss}"),
    "cards.chart.bar_outside": N_(
        "{sheet}: window {low_s:mss} to {high_s:mss}, own time {own_s:mss}, {load} at {load_s:mss}, outside its window"
    ),
    "cards.chart.load": N_("load {number}"),
    "cards.chart.loads_span": N_("loads {first}–{last}"),
    "cards.chart.loads": N_("{count} loads"),
    "cards.chart.lot": N_("{count} ×"),
    "cards.chart.own": N_("own times"),
    "cards.chart.outside": N_("outside, {amount}"),
    "cards.chart.legend": N_(
        "bar: window · stroke: own time · disc: load inside the window · diamond: load outside it"
    ),
    # evidence
    "cards.evidence.tested": N_("tested"),
    "cards.evidence.published": N_("published"),
    "cards.evidence.converted": N_("converted"),
    "cards.evidence.assumed": N_("assumed"),
    "cards.off.density": N_("{density} density"),
    "cards.off.density_about": N_("about {density} density"),
    "cards.off.said_softer": N_("{grades} grade softer"),
    "cards.off.said_harder": N_("{grades} grade harder"),
    "cards.off.zone": N_("{zones} zone"),
    "cards.off.time": N_("{percent} of time"),
    # plan card
    "cards.plan.title": N_("{sheets}, {loads}"),
    "cards.plan.title_none": N_("{sheets} without a time"),
    "cards.plan.fewest": N_("Fewest possible."),
    "cards.plan.bound": N_("{least} may be enough: {planned} are the best found, not proved."),
    "cards.plan.litre": N_("{litres} litre"),
    "cards.plan.litres": N_("{litres} litres"),
    "cards.plan.liquid_needed": N_("{amount} of {what}, {where}."),
    "cards.plan.developer": N_("developer"),
    "cards.plan.developer_of": N_("{developer} {dilution} at {temp_c:temp}"),
    "cards.plan.outside": N_("{sheets} outside the window."),
    "cards.plan.without_time": N_("{sheets} without a time."),
    "cards.plan.column_load": N_("load"),
    "cards.plan.column_loads": N_("loads"),
    "cards.plan.column_develop": N_("develop"),
    "cards.plan.column_sheets": N_("sheets"),
    "cards.plan.column_vessel": N_("vessel"),
    "cards.plan.column_in": N_("in"),
    "cards.plan.column_pour": N_("pour"),
    "cards.plan.column_film": N_("film"),
    "cards.plan.column_own": N_("own time"),
    "cards.plan.column_window": N_("window"),
    "cards.plan.column_evidence": N_("evidence"),
    "cards.plan.column_worst": N_("worst sheet"),
    "cards.plan.column_density": N_("density"),
    "cards.plan.column_grade": N_("paper grade"),
    "cards.plan.column_zones": N_("zones"),
    "cards.plan.column_time": N_("time"),
    "cards.plan.worst": N_("furthest off: {sheet}, {off}"),
    "cards.plan.worst_outside": N_("outside its window: {sheet}, {off}"),
    "cards.plan.span": N_("{first} to {last}"),
    "cards.plan.and_more": N_("{names} and {more}"),
    "cards.plan.windows": N_("Windows"),
    "cards.plan.window": N_("{low_s:mss}–{high_s:mss}"),
    "cards.plan.ladder_fewer": N_("If you want fewer"),
    "cards.plan.ladder_more": N_("If you take more"),
    "cards.plan.ladder_both": N_("If you want fewer, or more"),
    "cards.plan.nobody": N_("none"),
    "cards.plan.about": N_("about {value}"),
    "cards.plan.broken": N_("Outside the window: {sheets}."),
    "cards.plan.without_twins": N_("With twins in one load."),
    "cards.plan.without_suspects": N_("With suspects among the others."),
    "cards.plan.alike": N_("Too near the chosen one for a thermometer to tell."),
    "cards.plan.unproved": N_("Best found, not proved."),
    "cards.plan.unplanned": N_("No time can be given"),
    "cards.plan.unplanned_names": N_("{sheets}: {why}"),
    "cards.plan.unplanned_numbers": N_("sheets {sheets}: {why}"),
    "cards.plan.liquid": N_("Liquid"),
    "cards.plan.binds_wetting": N_(
        "Wetting binds: the vessel needs {wetting_ml:ml}; the developing agent would do with {agent_ml:ml}."
    ),
    "cards.plan.binds_agent": N_(
        "The developing agent binds: the film wants {agent_ml:ml}; wetting the vessel takes {wetting_ml:ml}."
    ),
    "cards.plan.binds_vessel": N_(
        "The vessel binds: the film wants {agent_ml:ml} for its developing agent and gets {volume_ml:ml}, {ratio:share} of it."
    ),
    "cards.plan.binds_unknown": N_(
        "{volume_ml:ml} wets the vessel (least {wetting_ml:ml}); the developing agent is not checked."
    ),
    "cards.plan.agent_effect": N_("That is worth {effect:signed} density, and is not in the time."),
    "cards.plan.passes": N_("Would pass: {ways}."),
    "cards.plan.of_load": N_("Load {loads}: {said}"),
    "cards.plan.of_loads": N_("Loads {loads}: {said}"),
    "cards.plan.of_sheets": N_("{sheets}: {said}"),
    "cards.plan.chosen": N_("chosen"),
    "cards.plan.why": N_("Why these times"),
    "cards.plan.know": N_("Good to know"),
    "cards.plan.more_care": N_("All cautions: on the plan’s page (--out)."),
    "cards.plan.care_short": N_(
        "Gloves, eye protection, moving air; each product’s safety sheet comes first. Device on battery, dry hands at plugs."
    ),
    "cards.plan.care_waste": N_("Used developer and fixer (silver) apart: ask your local authority where they go."),
    "cards.plan.care": N_("Care"),
    # characteristic curves
    "cards.noun.time_one": N_("{number} time"),
    "cards.noun.time_many": N_("{number} times"),
    "cards.curve.title": N_("Characteristic curves: {times}"),
    "cards.curve.description": N_("Density over log exposure, a curve for each developing time. {curves}."),
    "cards.curve.one": N_("{time_s:mss}: density {low:density} to {high:density}, {readings} readings"),
    "cards.curve.across": N_("log H (lux-seconds)"),
    "cards.curve.across_relative": N_("log H (relative)"),
    "cards.curve.up": N_("density"),
    "cards.curves.base_fog_taken": N_(
        "Base + fog is the lowest reading, because none was given. Read unexposed film through the same bath and give it."
    ),
    # reckoning
    "cards.why.title": N_("{sheet}: why {time_s:mss}"),
    "cards.why.window": N_("Window {low_s:mss} to {high_s:mss}, in load {load} of {loads} at {load_s:mss}."),
    "cards.why.off": N_("There it comes out {off}."),
    "cards.why.off_outside": N_("There it comes out {off}: outside its window."),
    "cards.why.develop": N_("develop"),
    "cards.why.factor": N_("× {factor:factor}"),
    "cards.why.stops": N_("{value:stops_said}"),
    "cards.why.zones": N_("{value:stops} zones"),
    "cards.why.spread": N_("give or take {spread_s:seconds}"),
    "cards.why.own": N_("your own"),
    "cards.why.common": N_("common practice"),
    "cards.why.weakest": N_("Weakest part: {part} ({evidence}). {advice}"),
    "cards.why.advice_converted": N_("A run of your own under these conditions would make it tested."),
    "cards.why.advice_assumed": N_("One sheet under a step tablet would tell more than any other step."),
}
