"""Sentences of logs of the terminal that are taken into the archive."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.runs_taken.title": N_("{film} in {developer}"),
    "services.runs_taken.ended": N_("ended, {at_s:mss} after it was opened"),
    "services.runs_taken.abandoned": N_("given up, {at_s:mss} after it was opened"),
    "services.runs_taken.running": N_(
        "not ended: the log goes as far as {at_s:mss}. Take it in again when the run is over; only what is new is added."
    ),
    "services.runs_taken.ready": N_("nothing was poured yet. Take it in again when the run is over."),
    "services.runs_taken.played": N_(
        "This run was simulated, or its clock ran faster: nothing was developed. Only a rehearsal of that sort is taken in."
    ),
    "services.runs_taken.removed": N_("{run:quoted} went with its plan. Bring the plan back, then take the log in."),
    "services.runs_taken.other": N_(
        "{run:quoted} of the archive began with the same fact, and goes on otherwise from here: fact {number} is another "
        "one there. Nothing was taken. Compare both logs, and take the one that was written at the sink."
    ),
    "services.runs_taken.meanwhile": N_("The log was taken in by another page in this very moment. Look at it again."),
    "services.runs_taken.no_such_sheet": N_(
        "No record with the label {sheet:quoted} is offered by that name. Pick anew."
    ),
    "services.runs_taken.sheet_twice": N_("This record is {other:quoted} already. One record is one sheet."),
    "services.runs_taken.none_tied": N_("No sheet is tied to this run: nothing is to be taken back."),
    "services.runs_taken.untie_booked": N_(
        "{run:quoted} is booked, and bottles, weights and top-up came from its load. Undo the booking first, on the page "
        "of what it used; book it anew afterwards."
    ),
    "services.runs_taken.untie_replanned": N_(
        "The rest of this plan was planned anew after {run:quoted}. Undo that first, on the new plan's page."
    ),
    "services.runs_taken.none_untied": N_("Nothing was untied from this run that could be tied again."),
    "services.runs_taken.load_moved_on": N_(
        "{load:quoted} was begun, cancelled, or changed since, and takes no log any more. Nothing was tied."
    ),
    "services.runs_taken.sheet_gone": N_(
        "The record of {sheet:quoted} was removed since. Bring it back first, or take the log in again and pick others."
    ),
    "services.runs_taken.sheet_elsewhere": N_(
        "{sheet:quoted} belongs to {run:quoted} by now, and one sheet is developed once. Untie it there first, or take "
        "this log in again and pick others."
    ),
    "services.runs_taken.number_elsewhere": N_(
        "The number {number:quoted} names {sheet:quoted} by now. Give that one another number first. Nothing was tied."
    ),
    "services.runs_taken.gone": N_(
        "{run:quoted} was removed: it is not shown, compared or booked. It is kept, and its page brings it back."
    ),
    "services.runs_taken.no_log": N_(
        "{run:quoted} was told here and came from no log, so it stays: only what a file holds too can be removed."
    ),
    "services.runs_taken.remove_load": N_(
        "{run:quoted} is the load's own run: its sheets are developed by it. Say first that it was not that load."
    ),
    "services.runs_taken.remove_tied": N_(
        "Sheets are tied to {run:quoted}: {sheets:list}. Untie them first, so that they wait again."
    ),
    "services.runs_taken.remove_booked": N_(
        "{run:quoted} is booked. Undo the booking first, on the page of what it used, so that the bottles are right."
    ),
    "services.runs_taken.no_such_load": N_("That load was begun or changed meanwhile. Look at the log again."),
}
