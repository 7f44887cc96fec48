"""Sentences of looking at a negative between loads, and of planning the rest anew."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.look.not_over": N_(
        "A negative is looked at when its run is over. A rehearsal has none, and a run without a plan names no sheets."
    ),
    "services.look.none": N_("There is no such look any more. Load the page anew."),
    "services.look.sheet": N_("Say which sheet it was: {sheets:list}."),
    "services.look.how": N_("Say how you looked: with a densitometer, by its print, or by eye."),
    "services.look.verdict": N_("Too little, right, or too much?"),
    "services.look.density": N_("{value:density} is no density of film: 0 to {most:plain}."),
    "services.look.range": N_(
        "Highlight less shadow is {value:density}: a range lies between {low:plain} and {high:plain}. Which is which?"
    ),
    "services.look.read": N_("Range {range:density}, read from {shadow:density} to {highlight:density}"),
    "services.look.no_plan": N_("This run followed no kept plan, so nothing waits that could be planned anew."),
    "services.look.nothing_left": N_("No load of this plan waits any more: nothing is left to plan anew."),
    "services.look.no_look": N_("Nobody has looked at a sheet of this plan yet."),
    "services.look.too_far": N_("What was read or judged is too far off for any rule: plan the rest by hand."),
    "services.look.by_hand": N_(
        "With this look no sheet that waits gets a time: nothing can be taken with one act. The loads stay as they are frozen."
    ),
    "services.look.not_replanned": N_("{plan:quoted} was not planned anew after a look."),
    "services.look.name": N_("{plan}, after a look"),
}
