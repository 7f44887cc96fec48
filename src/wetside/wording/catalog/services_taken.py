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
    "services.runs_taken.numbered": N_(
        "{sheet:quoted} hangs by this run as {number:quoted}. Take the number off on the sheet's page first."
    ),
    "services.runs_taken.no_such_load": N_("That load was begun or changed meanwhile. Look at the log again."),
}
