"""Sentences of the reader of published rows, ``wetside.adapters.starting_points``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "starting_points.ambiguous": N_(
        "More than one published row answers for {film:quoted}. Say which by developer, dilution, exposure index or "
        "source: {choices:quoted_list}."
    ),
    "starting_points.cell.empty": N_("The column {column} must not be empty."),
    "starting_points.choice.unknown": N_("{value:quoted} is not known here. Allowed: {known:list}."),
    "starting_points.column.missing": N_("The column {column} is missing. Allowed columns: {known:list}."),
    "starting_points.column.twice": N_("The column {column} stands in the header twice. Keep one."),
    "starting_points.column.unknown": N_("{value:quoted} is no column of this file. Allowed: {known:list}."),
    "starting_points.developer.unknown": N_(
        "There is no published row for this film in {value:quoted}. There are rows for {known:quoted_list}."
    ),
    "starting_points.dilution.unknown": N_(
        "There is no published row for this film and developer at {value:quoted}. There are rows for "
        "{known:quoted_list}."
    ),
    "starting_points.dilution.unreadable": N_(
        "{value:quoted} is no dilution. Write it like 1+3, or stock; a colon is not taken, because it has two meanings."
    ),
    "starting_points.file.broken": N_("The file cannot be read as CSV from here on: {reason}."),
    "starting_points.file.empty": N_("The file has no header. The first line names the columns: {known:list}."),
    "starting_points.file.not_text": N_("The file is not text in UTF-8. Save it as CSV in UTF-8."),
    "starting_points.file.too_large": N_(
        "The file has {bytes} bytes; a file of rows has at most {most}. Is it the right file?"
    ),
    "starting_points.file.unreadable": N_("The file cannot be opened: {reason}."),
    "starting_points.film.unknown": N_(
        "There is no published row for {value:quoted}. There are rows for {known:quoted_list}."
    ),
    "starting_points.folder.missing": N_(
        "There is no folder {value:quoted}. Give the folder of your own rows, or none."
    ),
    "starting_points.index.unknown": N_(
        "There is no published row for this film and developer at EI {value}. There are rows for EI {known:list}."
    ),
    "starting_points.number.out_of_range": N_(
        "{value:plain} is outside what is possible here: {low:plain} to {high:plain}."
    ),
    "starting_points.number.unreadable": N_("{value:quoted} is no number."),
    "starting_points.reciprocity.neither": N_(
        "Give either a power, or a metered time with its factor, and not both in one row."
    ),
    "starting_points.row.too_long": N_(
        "The row has {count} cells and the header {most}. Put a cell that holds a comma in quotation marks."
    ),
    "starting_points.source.unknown": N_(
        "No row that answers comes from {value:quoted}. Sources: {known:quoted_list}."
    ),
    "starting_points.time.reversed": N_(
        "The longer time ({high_s:mss}) of a range is shorter than the shorter one ({low_s:mss}). Are they swapped?"
    ),
    "starting_points.time.unreadable": N_(
        "{value:quoted} is no time. Write seconds, or minutes and seconds like 7:30."
    ),
}
