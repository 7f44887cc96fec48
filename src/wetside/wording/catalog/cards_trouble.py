"""Sentences of the page for a run in which something goes wrong."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cards.trouble.title": N_("When something goes wrong mid-run"),
    "cards.trouble.subtitle": N_(
        "Print it, hang it by the sink, read it once in the light. Lines marked ◌ are common practice, without a published source."
    ),
    "cards.trouble.people": N_("People first"),
    "cards.trouble.harm": N_("Harm, smoke, fire or a smell that stings: light on, out, help. No negative is worth it."),
    "cards.trouble.splash": N_(
        "A splash in the eye or on the skin: light on, rinse with running water at once; the product’s safety sheet says how to go on."
    ),
    "cards.trouble.power_water": N_(
        "Water in a device, a tingle, a heater out of its water: touch nothing wet, switch off at the fuse, then look."
    ),
    "cards.trouble.watch": N_("Go on by a watch"),
    "cards.trouble.column_what": N_("bath"),
    "cards.trouble.column_full": N_("full at (h:mm:ss)"),
    "cards.trouble.column_drain": N_("drain at (h:mm:ss)"),
    "cards.trouble.developer": N_("developer"),
    "cards.trouble.next": N_("the next one"),
    "cards.trouble.watch_note": N_(
        "The time stands on the run sheet. From developer in to stop in nothing waits: not for a screen, not for an answer."
    ),
    "cards.trouble.program": N_("The screen is dead, or says something odd"),
    "cards.trouble.dead": N_("The run goes on without it: drain by the watch, pour the next bottle, turn on."),
    "cards.trouble.again": N_(
        "Start the program or open the page again: it says what comes next and when. Nothing that it said it had taken is lost."
    ),
    "cards.trouble.clock": N_(
        "It shows no time, because the clock cannot be right: tell how long the run has lasted by your watch, and all times are right again."
    ),
    "cards.trouble.back": N_(
        "Told something by mistake: take it back. Forgot to tell: tell it late, with how long ago."
    ),
    "cards.trouble.before": N_("Before the developer"),
    "cards.trouble.light": N_(
        "Light on open film, or a lid not seated: cover, lid on, finish in the dark. Note it; the sheets on the outside took most of it. ◌"
    ),
    "cards.trouble.lost": N_(
        "A sheet fell: leave it, or lay it in the empty holder; a smaller load needs as much liquid, and has more developer for each sheet."
    ),
    "cards.trouble.wrong_first": N_(
        "Stop poured first: out, rinse with four changes of water, then the developer. Fixer poured first: what it cleared is gone; stop, "
        "rinse, develop what may be left. Neither goes back to its bottle. ◌"
    ),
    "cards.trouble.inside": N_("In the developer"),
    "cards.trouble.motor": N_(
        "The motor stops: pull its plug, turn by hand as fast as it turned, both ways. The time stays; read the drained temperature. ◌"
    ),
    "cards.trouble.leak": N_(
        "It leaks: turn on, leak upwards if it can be; below half its liquid pour in what is left of the developer, never water. ◌"
    ),
    "cards.trouble.early": N_(
        "Drained too early or late: do not pour back. Ten per cent of time is about a third of a zone, and the paper can take it."
    ),
    "cards.trouble.cold": N_(
        "The temperature is off: tell what the thermometer shows and where. {step:step_c} is two to three per cent of time, no more."
    ),
    "cards.trouble.stuck": N_("It will not drain: pour the stop in on top, as much as goes in. It stops there. ◌"),
    "cards.trouble.after": N_("From the stop on there is time"),
    "cards.trouble.no_stop": N_(
        "No stop: a rinse of water, then fixer, which stops as well; note that this fixer took developer. ◌"
    ),
    "cards.trouble.look": N_(
        "Light may go on after one to two minutes in fresh fixer, or twice the clearing time, whichever is longer. Wash water may be cooler."
    ),
    "cards.trouble.order": N_(
        "The order in the reel is lost: hang them as they come, and say that the order is unknown."
    ),
    "cards.trouble.then": N_("Then"),
    "cards.trouble.write": N_(
        "Tell or write what happened and when, while you know it. It belongs to these sheets for good."
    ),
    "cards.trouble.log": N_(
        "A run that went by in the terminal: take its log into the archive, so that it is booked, hung and compared as any other."
    ),
    "cards.trouble.rest": N_(
        "Look at this load before the next one goes in. The sheets that are still undeveloped have lost nothing."
    ),
}
