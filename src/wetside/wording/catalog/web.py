"""Sentences of ``wetside.web``; what stands in templates alone is marked for translation there."""

from wetside.wording.catalog import N_

SENTENCES = {
    "web.database_said": N_(
        "The database could not do it; it says: {reason}. Nothing was half-written. Look whether the disk is full, then "
        "send it again."
    ),
    "web.database_away": N_(
        "It says: {reason}. Nothing of what you sent was half-written. See whether the database runs and its disk has room."
    ),
    "web.database_in_terminal": N_("what stands in the server's terminal"),
    "web.database_away_said": N_("The database does not answer; it says: {reason}. Pages come back when it does."),
    "web.port_taken": N_(
        "Port {port} of this machine cannot be had; the system says: {reason}. Name another with --port, or 0 for any that is "
        "free. Another Wetside may be running: look there first."
    ),
    "web.noted_inside": N_(
        "That is {percent:whole_percent} of time off the planned {planned_s:mss}, and inside the window."
    ),
    "web.noted_outside": N_(
        "That is {percent:whole_percent} of time off the planned {planned_s:mss}, and outside the window of {low_s:mss} to "
        "{high_s:mss}: look at these negatives before you print them."
    ),
    "web.no_load": N_("There is no load {load} here."),
    "web.plan_takes_long": N_("This plan is still being reckoned. Ask for its run sheet again in a minute."),
    "web.no_reckoning": N_("There is no reckoning of {sheet:quoted} here: no such sheet has a time in this plan."),
}

PARTS = ("web_sheets", "web_network", "api", "web_runs")
