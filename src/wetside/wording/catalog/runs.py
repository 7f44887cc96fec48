"""Sentences about the facts of a run and the log that takes them."""

from wetside.wording.catalog import N_

SENTENCES = {
    "runs.fact.name": N_(
        "{field} is {value:quoted}. It is text of 1 to {longest} letters; the page that sent it must be loaded anew."
    ),
    "runs.fact.count": N_("{field} is {value}, and is counted from 1 to {largest}. Load the page anew."),
    "runs.fact.boot": N_("The time since the device started is {value}, which is no time. Load the page anew."),
    "runs.fact.zone": N_("{value:quoted} has no time zone, so that nobody knows when it was. Load the page anew."),
    "runs.fact.data": N_("{field} holds {value:quoted}, which is no plain value of text, numbers, lists and tables."),
    "runs.fact.deep": N_("{field} lies more than {deepest} tables deep."),
    "runs.fact.number": N_("{field} is {value}: numbers are finite and at most {largest}."),
    "runs.log.expected": N_("A place in the log is counted from 1, and 0 stands before the first: {value} is neither."),
    "runs.log.other_fact": N_(
        "Device {device:quoted} hands over its fact {number} a second time with another content. The first stands at "
        "place {seq} and is kept; the other was not taken."
    ),
    "runs.log.moved_on": N_(
        "The run has {last} facts now, and {expected} were known when this was sent: another device wrote meanwhile. "
        "Nothing was taken; it is looked at again and sent anew."
    ),
}

PARTS = ("runs_live", "runs_cues", "runs_compared", "runs_actual")
