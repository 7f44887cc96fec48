"""Sentences of the pages of sheets and holders."""

from wetside.wording.catalog import N_

SENTENCES = {
    "web.sheets.removed": N_("{what:quoted} is removed."),
    "web.sheets.back": N_("{what:quoted} is back."),
    "web.sheets.undone": N_("The last correction of {what:quoted} is taken back. Once more, and it stands again."),
    "web.sheets.waits": N_("{what:quoted} waits again."),
    "web.sheets.negative_noted": N_("Noted where the negative of {what:quoted} is kept."),
    "web.sheets.ended_developed": N_("{what:quoted} is developed."),
    "web.sheets.ended_lost": N_("{what:quoted} is noted as lost. If it turns up, let it wait again."),
    "web.sheets.developed": N_("{sheets} developed"),
    "web.sheets.lost": N_("{sheets} lost"),
    "web.sheets.removed_list": N_("{sheets} removed"),
    "web.sheets.list_nothing": N_("Paste some rows, or choose a file. The first row names the columns."),
    "web.sheets.stops_more": N_("{stops:stops_said}"),
    "web.sheets.no_error": N_("No error on the film"),
    "web.sheets.over": N_("{stops:stops_said} on the film: over"),
    "web.sheets.under": N_("{stops:stops_said} on the film: under"),
}
