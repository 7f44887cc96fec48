"""Sentences of ``wetside.services`` about live runs."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.runs.developed": N_("Load {load} is developed already. Take that back on its page, if it is not so."),
    "services.runs.draft": N_("{plan:quoted} is a draft. Freeze it first; then each load can be run."),
    "services.runs.no_vessel": N_(
        "No vessel of the shelf is called {value:quoted}. Leave it empty for a typical drum."
    ),
    "services.runs.command": N_("{value:quoted} cannot be asked of a run. Known are {known:quoted_list}."),
    "services.runs.choice": N_("{value:quoted} cannot be chosen here: {known:quoted_list}."),
    "services.runs.text": N_("At most {most} letters."),
    "services.runs.place": N_("{value:quoted} is no place in the vessel: they are counted from 1."),
    "services.runs.body": N_("What was handed over has a device and a list of facts, and nothing else."),
    "services.runs.count": N_("{count} facts came at once: 1 to {most}."),
    "services.runs.fact_keys": N_("A fact has the keys {keys:quoted_list}, each once."),
    "services.runs.moment": N_("This is no moment: a date and time with its zone, such as 2031-11-04T20:00:00.5Z."),
}
