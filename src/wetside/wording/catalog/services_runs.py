"""Sentences of live runs on the server: opening, handing over, asking."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.runs.cancelled": N_("Load {load} was cancelled. Bring it back on the plan's page, then start it."),
    "services.runs.not_frozen": N_(
        "{plan:quoted} is a draft. Freeze it into run sheets first; then its loads can be started."
    ),
    "services.runs.noted": N_(
        "Load {load} is noted as developed by hand. Take that back on its page first, if it is to be run."
    ),
    "services.runs.not_open": N_("{run:quoted} was never started: start its load on the plan's page."),
    "services.runs.many_facts": N_("{count} facts at once are too many: at most {most}. Hand them over in parts."),
    "services.runs.large": N_("The body is larger than {most} KB. Hand the facts over in parts."),
    "services.runs.no_json": N_("The body is no JSON that can be read. Send it anew."),
    "services.runs.no_table": N_("A table is wanted here, with {keys:list}."),
    "services.runs.no_list": N_("A list of facts is wanted here."),
    "services.runs.missing": N_("This must be said. Known here: {keys:list}."),
    "services.runs.unknown_key": N_("Nothing is known by this name. Known here: {keys:list}."),
    "services.runs.device": N_(
        "{value:quoted} is no name of a device: 32 digits from 0 to 9 and a to f, the same for good. Load the page anew."
    ),
    "services.runs.boot": N_("{value} is no time since a device started. Load the page anew."),
    "services.runs.count": N_("{field} is {value}, and is counted from 1 to {largest}. Load the page anew."),
    "services.runs.no_bath": N_("{value:plain} °C is no bath: {low_c:temp} to {high_c:temp}. Look at the thermometer."),
    "services.runs.no_vessel": N_(
        "No vessel of the archive is called {value:quoted}. Known: {known:list}. Or leave it out: then a typical drum's "
        "times hold."
    ),
    "services.runs.no_vessels": N_(
        "No vessel of the archive is called {value:quoted}, and none is kept that liquids are poured into. Leave it out: "
        "then a typical drum's times hold."
    ),
    "services.runs.vessel_kind": N_(
        "In {vessel:quoted} each sheet has its own time. Plan it, and start the load from its plan; or leave the vessel out."
    ),
    "services.runs.letters": N_("The text holds signs that cannot be kept."),
    "services.runs.moment": N_(
        "{value:quoted} is no moment. Write date and time with their zone, such as 2031-11-04T20:00:00Z."
    ),
    "services.runs.unknown_command": N_("{value:quoted} cannot be asked of a run. Ask one of {known:list}."),
    "services.runs.value": N_(
        "{value:quoted} cannot be taken here. Look at what the field asks for, and say it again."
    ),
    "services.runs.long_name": N_("At most {most} letters, and none that cannot be kept."),
    "services.runs.many_watchers": N_(
        "{most} pages watch already, and this server takes no more. Close some; this page asks again by itself."
    ),
    "services.runs.compare_early": N_(
        "{run:quoted} has developed nothing, as far as anybody told: there is nothing to compare. Pick another."
    ),
    "services.runs.compare_same": N_("Both are the same run. Pick another beside it."),
    "services.runs.settled_already": N_("That is settled already, or the run has changed meanwhile. Look at it again."),
    "services.runs.settles_nothing": N_("That would settle nothing: the run would not come out right with it."),
}
