"""Sentences of what programs ask for: tokens, lists in pieces, posted evenings and readings."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.token.name": N_("A token needs a name of 1 to {most} letters, such as the program that will use it."),
    "services.token.scope": N_("{value:quoted} is no scope. A token's scope is {known:list}."),
    "services.token.most": N_("There are {most} good tokens already. Revoke one that nothing uses any more."),
    "services.token.taken": N_("There is a good token {value:quoted} already. Take another name, or revoke that one."),
    "services.token.unknown": N_("There is no good token {value:quoted}. There is {known:quoted_list}."),
    "services.cursor": N_("{value:quoted} is no cursor of a list. Send what stood in next, or leave it out."),
    "services.posted.names_file": N_(
        "{value:quoted} names a file, and a posted evening stands alone: put its rows into the document itself."
    ),
    "services.posted.most_sheets": N_("{count} sheets are too many for one call: {most} at most. Plan them in parts."),
    "services.plans.is_draft_here": N_("This plan is a draft. It has a document once it is frozen."),
    "services.reading.no_run": N_("No run goes on now. Begin one, or name the run in the address."),
    "services.reading.many_runs": N_("Several runs go on: {names:quoted_list}. Name one in the address."),
    "services.reading.refused": N_("The run takes no reading now. {reason}"),
    "services.reading.zone": N_(
        "The time of the reading has no zone. Write one, such as 2031-11-04T20:00:00Z, or send its age instead."
    ),
    "services.reading.too_soon": N_(
        "A reading of this place came a moment ago. Send one every {least_s:plain} s at most; this one was not kept."
    ),
    "services.reading.instrument": N_(
        "There is no thermometer {value:quoted} among the instruments. There is {known:quoted_list}. Leave it out if "
        "its offset is not known."
    ),
}
