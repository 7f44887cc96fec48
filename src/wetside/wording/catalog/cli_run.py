"""Sentences of ``wetside run``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.run.speed": N_("{value:plain} is no speed: more than 0, up to {most:plain}."),
    "cli.run.simulate_new": N_("The log holds a run already. Simulate into a new one."),
    "cli.run.keys": N_(
        "Enter or space: done · p: done on time · u: take back · t: reading · k: looked · l: lost one · "
        "i: something went wrong · w: time by watch · g: give up · q: leave, the run goes on by its log"
    ),
    "cli.run.now": N_("now"),
    "cli.run.left": N_("Left. The run goes on by its log; start again with the same --log to see it."),
    "cli.run.ask_reading": N_("Reading in the developer in °C, such as 19,8 (j before it: jacket; o: poured out):"),
    "cli.run.ask_lost": N_("Which one is lost? Label, or place in the vessel:"),
    "cli.run.ask_watch": N_("How long has the run lasted, by your watch, such as 12:30:"),
    "cli.run.ask_look": N_("Looked: develop so much longer, such as 0:30 (a minus sign: shorter; 0: as planned):"),
    "cli.run.ask_incident": N_(
        "What went wrong? p: power, l: light came in, d: vessel drips, s: scratched, k: stuck together, w: touched a wall, "
        "o: other; then the places, such as #2,5, how long ago, such as 2:20, and words:"
    ),
    "cli.run.incident": N_("{value:quoted} tells nothing that went wrong: p, l, d, s, k, w or o. Press i again."),
    "cli.run.incident_places": N_("{value:quoted} names no places: write them as #2 or #2,5. Press i again."),
    "cli.run.ask_give_up": N_("Give the run up? Type yes, and why if you like:"),
    "cli.run.give_up_word": N_("yes"),
    "cli.run.not_given_up": N_("Not given up: the run goes on. It wants the word yes."),
    "cli.run.noted": N_("At {at_s:mss}, for every sheet that it could reach: {what}{words}."),
    "cli.run.incident_power": N_("the power went"),
    "cli.run.incident_light": N_("light came in"),
    "cli.run.incident_leak": N_("the vessel leaked"),
    "cli.run.noted_of": N_("At {at_s:mss}, {sheets}: {what}{words}."),
    "cli.run.incident_scratched": N_("scratched"),
    "cli.run.incident_stuck": N_("stuck together"),
    "cli.run.incident_touched": N_("touched a wall or each other"),
    "cli.run.incident_other": N_("something went wrong"),
    "cli.run.ask_order": N_("Which hangs on clip 1, 2, 3? Labels with commas, of {sheets:list}; Enter: order unknown:"),
    "cli.run.effect_density": N_(
        "{sheet}: developed {actual_s:mss} in effect, {planned_s:mss} planned: {density:signed} density ({percent:percent} of time)."
    ),
    "cli.run.effect_time": N_(
        "{sheet}: developed {actual_s:mss} in effect, {planned_s:mss} planned ({percent:percent} of time); too far for a density."
    ),
    "cli.run.effect_outside": N_(
        "{sheet}: developed {actual_s:mss} in effect, {planned_s:mss} planned ({percent:percent} of time), at a temperature "
        "outside what its developer's figures cover: no density."
    ),
    "cli.run.assumed": N_("Nobody told {acts:list}: taken as done when due."),
    "cli.run.contested": N_("To be settled: {kind}. {why}"),
    "cli.run.clock_set": N_("At {at_s:mss} the wall clock was set by {moved}; no time of the run moved."),
    "cli.run.mark_pour": N_("pour"),
    "cli.run.mark_full": N_("full"),
    "cli.run.mark_drain": N_("drain"),
    "cli.run.mark_move": N_("move"),
    "cli.run.mark_enter": N_("in"),
    "cli.run.mark_lift": N_("out"),
    "cli.run.mark_agitate": N_("move"),
    "cli.run.mark_inspect": N_("look"),
    "cli.run.mark_hang": N_("hang"),
}
