"""Sentences about sheets, holders, lists of sheets, and what a page hands over."""

from wetside.wording.catalog import N_

SENTENCES = {
    # entry and correction
    "services.sheets.no_label": N_("Give a label or a holder side, such as 3 left: one of them is enough."),
    "services.sheets.no_film": N_("Say which film it is. Its name is enough."),
    "services.sheets.film_unknown": N_(
        "There is no film {value:quoted} yet. Tick the box to make it with just its name, or choose a known one."
    ),
    "services.sheets.film_unknown_near": N_(
        "There is no film {value:quoted} yet. Did you mean {nearest:quoted}? Or tick the box to make it with just its name."
    ),
    "services.sheets.name_unknown": N_(
        "There is no {what} {value:quoted}. Known: {known:list}. Choose one, or leave it empty for now."
    ),
    "services.sheets.twin_unknown": N_(
        "There is no other sheet called {value:quoted}. Enter the twin first, or name it later."
    ),
    "services.sheets.lot_unknown": N_(
        "{film} has no lot {value:quoted}. Enter the lot with its date on the page of holders, or leave it empty."
    ),
    "services.sheets.no_mishap": N_(
        "{value:quoted} is no mishap that {what:quoted} can have. The words are {allowed:list}."
    ),
    "services.sheets.no_identity": N_("This form does not say which record it belongs to. Open the page again."),
    "services.sheets.no_label_free": N_(
        "Too many sheets called {value:quoted} wait. Give this one a label of its own."
    ),
    "services.sheets.kept": N_("{what:quoted} is kept: {film}."),
    "services.sheets.corrected": N_("{what:quoted} is kept as it stands now. What stood before is in its story."),
    # what became of a sheet
    "services.sheets.planned": N_(
        "{what:quoted} stands in a frozen plan. Take it out of the plan first, then it can be removed."
    ),
    "services.sheets.not_waiting": N_("{what:quoted} does not wait any more: it is {state}."),
    "services.sheets.no_negative": N_("{what:quoted} is not developed: there is no negative yet."),
    "services.sheets.waits_already": N_("{what:quoted} waits already."),
    "services.sheets.no_end": N_("{value:quoted} is nothing that becomes of a sheet: say developed or lost."),
    "services.sheets.nothing_before": N_("{what:quoted} was never corrected: there is nothing to take back."),
    "services.sheets.no_correction": N_(
        "What changed last on {what:quoted} was no correction. Bring it back, or let it wait again, by their own buttons."
    ),
    # exposure
    "services.sheets.index_unknown": N_("Index: not said. Give the film its EI, or say what the meter was set to."),
    "services.sheets.index_as_rated": N_("Index: metered at EI {ei:plain}, as the film is rated. No correction."),
    "services.sheets.index_other": N_(
        "Index: metered at EI {ei:plain}, the film is rated {own:plain}. Taken as meant: no correction. If it was a slip, tap wrong rating."
    ),
    "services.sheets.reciprocity_unknown": N_(
        "Nothing is known of this film in long exposures, so this error is not either. Give its figures on the film's page."
    ),
    "services.sheets.day_out_of_range": N_(
        "{value:quoted} cannot be the day of the exposure: it lies far in the future, or before {first}. Correct the year."
    ),
    # lists
    "services.sheets.label_twice": N_(
        "{value:quoted} stands in line {line} already. Give each sheet a label of its own."
    ),
    "services.sheets.list_empty": N_("There are columns, and no sheets under them."),
    "services.sheets.list_hopeless": N_(
        "More is wrong here than anybody would read. Check that it is a list of sheets."
    ),
    "services.sheets.list_changed": N_(
        "The rows that came back are not those that were shown. Look the list through again."
    ),
    "services.sheets.list_too_long": N_("A list that is taken here has at most {most} rows. Part it."),
    "services.sheets.list_wrong": N_(
        "{rows} rows cannot be kept now. Nothing was written: look the list through again."
    ),
    "services.sheets.list_kept": N_("{count} sheets of {name} are kept."),
    # holders
    "services.holders.none_named": N_("Name a holder by its number or name, such as 7, or 3 to 10."),
    "services.holders.name_too_long": N_("{value:quoted} is too long: at most {most} letters."),
    "services.holders.backwards": N_("{value:quoted} runs backwards. Write {first} to {last}."),
    "services.holders.span_too_long": N_("{count} holders at once is more than {most}. Check the numbers."),
    "services.holders.one_notch": N_(
        "A notch belongs to one holder, and {count} are named. Leave it empty, and give each its own later."
    ),
    "services.holders.sides": N_("Name each side once, such as left, right."),
    "services.holders.not_empty": N_("Film lies in holder {what:quoted} ({sides:list}). Unload it first."),
    "services.holders.lot_number": N_("A lot needs its number, as it stands on the box."),
    "services.holders.no_such": N_(
        "There is no holder or side {value:quoted}. Make the holder first, or check the number."
    ),
    "services.holders.count": N_("{value:quoted} is no number of sheets: a whole number from 1."),
    "services.holders.move_load": N_(
        "{what:quoted} is {state}: only an empty or an unloaded side can be loaded. Unload it first."
    ),
    "services.holders.move_expose": N_(
        "{what:quoted} is {state}: only a loaded side can be exposed. If the same sheet was exposed twice, open the sheet and tap double exposure."
    ),
    "services.holders.move_suspect": N_("{what:quoted} is {state}: there is nothing in it to be in doubt about."),
    "services.holders.move_trust": N_("{what:quoted} is {state}, and not in doubt."),
    "services.holders.move_unload": N_("{what:quoted} is {state}: there is nothing to take out."),
    "services.holders.move_dust": N_("{what:quoted} is {state}: only an unloaded side is dusted."),
    "services.holders.no_move": N_("{value:quoted} is nothing that a holder side does. Known: {allowed:list}."),
    "services.holders.film_unknown": N_(
        "Nobody said what film is in {what:quoted}. Enter the sheet on the page of sheets, and say its film there."
    ),
    "services.holders.nothing_before": N_("There is no move of {what:quoted} to take back."),
    "services.holders.sheet_gone": N_(
        "The sheet of {what:quoted} has changed since: the move cannot be taken back. Correct the sheet and the side by hand."
    ),
    "services.holders.made": N_("Kept with their sides: {holders}."),
    "services.holders.kept": N_("Holder {what:quoted} is kept."),
    "services.holders.lot_kept": N_("Lot {number} of {film} is kept."),
    "services.holders.done_load": N_("{count} sides are loaded with {film}."),
    "services.holders.done_expose": N_("{what} is exposed; the sheet {sheet:quoted} waits."),
    "services.holders.done_suspect": N_("{what} is in doubt; a sheet in it will be developed alone."),
    "services.holders.done_trust": N_("{what} is certain again."),
    "services.holders.done_unload": N_("{what} is unloaded; dust it before it is loaded again."),
    "services.holders.done_dust": N_("{what} is dusted and empty."),
    "services.holders.done_take_back": N_("The last move of {what} is taken back."),
    "services.holders.lot_expired": N_("Lot {lot} is past its date: fog rises and speed falls. Try one sheet first."),
    "services.holders.lot_soon": N_("Lot {lot} expires within two months."),
    # what a page hands over
    "services.outbox.kind": N_("{value:quoted} is nothing that this server takes. It takes {known:list}."),
    "services.outbox.fields": N_("This is nothing that a form sends: at most {most} fields of text."),
    "services.outbox.device": N_("The device did not say which it is. Open the page again."),
    "services.outbox.number": N_("The device did not count this. Open the page again."),
    "services.outbox.other_body": N_(
        "Number {number} of this device was taken before with something else in it. Open the page again, and enter it anew."
    ),
    "services.outbox.try_again": N_("The same was handed over twice at one moment. It is tried again."),
}
