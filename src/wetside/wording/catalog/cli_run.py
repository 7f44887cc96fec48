"""Sentences of ``wetside run``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.run.speed": N_("{value:plain} is no speed: more than 0, up to {most:plain}."),
    "cli.run.simulate_new": N_("The log holds a run already. Simulate into a new one."),
    "cli.run.keys": N_(
        "Enter or space: done · p: done on time · u: take back · t: reading · l: lost one · w: time by watch · "
        "q: leave, the run goes on by its log"
    ),
    "cli.run.now": N_("now"),
    "cli.run.left": N_("Left. The run goes on by its log; start again with the same --log to see it."),
    "cli.run.ask_reading": N_("Reading in the developer in °C, such as 19,8 (j before it: jacket; o: poured out):"),
    "cli.run.ask_lost": N_("Which one is lost? Label, or place in the vessel:"),
    "cli.run.ask_watch": N_("How long has the run lasted, by your watch, such as 12:30:"),
    "cli.run.ask_order": N_("Which hangs on clip 1, 2, 3? Labels with commas, of {sheets:list}; Enter: order unknown:"),
    "cli.run.effect": N_(
        "{sheet}: developed {actual_s:mss} in effect, {planned_s:mss} planned: {density:signed} density ({percent:percent} of time)."
    ),
    "cli.run.effect_time": N_(
        "{sheet}: developed {actual_s:mss} in effect, {planned_s:mss} planned ({percent:percent} of time); too far for a density."
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
